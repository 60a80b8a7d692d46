"""What a film says, and where on it there is room to say it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from jigs.geometry import Box, Point
from jigs.locations import Seen
from jigs.styles._labels import meets
from jigs.styles._lettering import fits
from jigs.styles._plate import CAUTION, sides
from jigs.template import Template
from jigs.units import Mm

#: Letters of the words: as large as there is room for, and what is no more than good enough.
LARGE: Mm = 4.0
SMALL: Mm = 2.4
#: Narrower columns of words are not read at a glance.
_NARROW: Mm = 60.0
#: The words keep this far from the plate's sides, and from all that is engraved.
MARGIN: Mm = 5.0
_CLEAR: Mm = 2.0
#: Beside the centre line a box of words begins so far aside: farther out a collar leaves more.
_ASIDE: tuple[Mm, ...] = (0.0, 10.0, 20.0, 35.0)
#: From the transfer, where its ticks and its name stand.
_BESIDE: Mm = 7.0


@dataclass(frozen=True, slots=True)
class Ground:
    """What a film has on it before its words."""

    plate: Box
    curves: Sequence[Sequence[Point]]
    taken: Sequence[Box]
    """Room of all else, the transfer's too."""
    centres: tuple[Mm, Mm]
    """The first and last centre line."""


def words(template: Template) -> list[str]:
    """Return what a film says, most important first."""
    t = template
    return [
        f"{t.title.upper()} · {t.sizes}",
        f"by eye: the size's line on the {t.seat}, {_centre(t)}",
        *([f"first: {t.how}"] if t.how else []),
        "slide the trimmed transfer under the film to fill the box (corners: ink), lift the film",
        "← {} · {} →".format(*sides(t)),
        t.print_text,
        t.drop_text,
        t.reference,
        f"{CAUTION}: film softens in its heat",
        "this side up: words read the right way round",
        f"true to about 1 mm, as an eye lays a line on a seam{_where_it_differs(t)}",
    ]


def _centre(template: Template) -> str:
    """Return what is laid on the garment's centre line, or on what stands for it."""
    one = len({round(line.centre, 2) for line in template.seams}) == 1
    line = "the centre line" if one else "its centre line"
    if template.seen in {Seen.LEFT_HOOD, Seen.RIGHT_HOOD}:
        return f"{'the' if one else 'its'} upright line on the edge of the hood's opening"
    if template.seen in {Seen.LEFT_SLEEVE, Seen.RIGHT_SLEEVE}:
        return f"{line} on the fold"
    return f"{line} on the {'bag' if template.seen is Seen.BAG else 'garment'}'s centre"


def _where_it_differs(template: Template) -> str:
    if not template.curved:
        return ""
    guessed = " (some are estimated)" if template.estimated else ""
    return f"; where a collar differs from its line{guessed}: lowest points together, sides alike"


def room(template: Template, lines: Sequence[str], ground: Ground) -> tuple[Box, Mm] | None:
    """Return the box that takes the words at the largest height, and that height.

    None if they fit nowhere at a height that is good enough.
    """
    best: tuple[Box, Mm] | None = None
    for box in _places(template, ground):
        if not _free(box, ground):
            continue
        height = best[1] + 0.2 if best else SMALL
        while height <= LARGE and fits(lines, box, height):
            best = (box, height)
            height += 0.2
    return best


def _free(box: Box, ground: Ground) -> bool:
    if box.width < _NARROW or box.height <= 0 or any(one.overlaps(box) for one in ground.taken):
        return False
    clear = box.grown(_CLEAR)
    return not any(meets(clear, c, d) for curve in ground.curves for c, d in pairwise(curve))


def _places(template: Template, ground: Ground) -> Iterator[Box]:
    """Yield boxes that words might stand in: inside the neck, beside the centre, the transfer."""
    plate, carrier = ground.plate, template.carrier
    first, last = ground.centres
    left, right = plate.left + MARGIN, plate.right - MARGIN
    if template.curved:
        yield from _in_the_neck(ground)
    for aside in _ASIDE:
        one, two = first - _CLEAR - aside, last + _CLEAR + aside
        yield from _beside(template, ground, left, one)
        yield from _beside(template, ground, two, right)
        yield from _beside(template, ground, left, min(carrier.left - _BESIDE, one), on=True)
        yield from _beside(template, ground, max(carrier.right + _BESIDE, two), right, on=True)


def _beside(
    template: Template, ground: Ground, left: Mm, right: Mm, *, on: bool = False
) -> Iterator[Box]:
    """Yield the box between seam and transfer from a left to a right; `on`, past the transfer."""
    carrier = template.carrier
    levels = [
        p.y
        for curve in ground.curves
        for p in curve
        if not template.curved or left - _CLEAR <= p.x <= right + _CLEAR
    ]
    if template.hangs:
        top = max(levels, default=ground.plate.top + MARGIN) + _CLEAR + 0.5
        yield Box(left, top, right, carrier.bottom if on else carrier.top - _BESIDE)
    else:
        bottom = min(levels) - _CLEAR - 0.5
        yield Box(left, carrier.top if on else carrier.bottom + _BESIDE, right, bottom)


def _in_the_neck(ground: Ground) -> Iterator[Box]:
    """Yield boxes above the curves round the centre line, from wide and low to narrow and high."""
    middle = sum(ground.centres) / 2
    top = ground.plate.top + MARGIN
    reach = max(abs(p.x - middle) for curve in ground.curves for p in curve)
    for tenth in range(9, 1, -1):
        half = reach * tenth / 10
        below = [
            p.y for curve in ground.curves for p in curve if abs(p.x - middle) <= half + _CLEAR
        ]
        bottom = min(below, default=top) - _CLEAR - 0.5
        yield Box(middle - half, top, middle + half, bottom)
