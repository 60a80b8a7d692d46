r"""How garments of every size are laid on the platen alike, and where their ink then lies.

...........\_____/...........    the seam a print hangs from, its middle on the centre line,
|          .-----.          |    as far from the platen's edge on every size as on any other
|          | ink |          |
|          '-----'          |    the ink of all sizes together in the middle of the platen,
|             :             |    where the press is most even (common practice, no source)
+-------------:-------------+
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from jigs.garments import Flat
from jigs.geometry import Affine, Box, Path
from jigs.locations import Location
from jigs.locations._location import PLATEN_RIM, Seen
from jigs.order.order import Press
from jigs.plan.plan import Load, Lying
from jigs.plan.prints import Site
from jigs.units import INCH, Mm

#: Distances that are found again with a tape: the coarsest at which the ink stays on the platen.
_STEPS: Mapping[str, tuple[Mm, ...]] = {
    "in": (INCH / 4, INCH / 8, INCH / 16),
    "mm": (5.0, 1.0),
}
#: A hood has no centre line: it is laid by the edge of its opening, its print in the middle.
_HOODS = frozenset({Seen.LEFT_HOOD, Seen.RIGHT_HOOD})
_SLEEVES = frozenset({Seen.LEFT_SLEEVE, Seen.RIGHT_SLEEVE})
#: On a sleeve laid by its fold these are below it, wherever they are drawn.
_BELOW = frozenset({"underarm seam", "cuff side"})
_MIRROR = Affine.scale(-1, 1)
#: Seams are followed this closely.
_CHORD: Mm = 0.5
_SLACK: Mm = 1e-6


@dataclass(frozen=True, slots=True)
class _Size:
    """One size with its ink as the operator sees it, from where its seam crosses its middle."""

    site: Site
    ink: Box


def loads(
    location: Location, where: Sequence[Site], inks: Mapping[str, Box], press: Press, unit: str
) -> tuple[Load, ...]:
    """Return the fewest ways to lay garments on the platen that have all their ink on it.

    `inks` has the box of each size's ink on its panel. One way does for all sizes unless their
    ink, laid alike, would reach over the rim that is not pressed with, `PLATEN_RIM`.
    """
    sizes = [_seen(location, site, inks[site.key]) for site in where if site.key in inks]
    return tuple(_load(location, group, press, unit) for group in _groups(sizes, press))


def from_edge(load: Load, press: Press) -> Mm:
    """Return how far inside its edge of the platen a seam lies; less than 0 beyond it."""
    return load.level if load.edge == "top" else press.platen_height - load.level


def on_platen(location: Location, flat: Flat, aside: Mm, level: Mm) -> Affine:
    """Return what takes a panel to its place on the platen, as the operator sees it."""
    seen = _MIRROR if location.seen.mirrors else Affine()
    return seen.then(Affine.move(aside, level - flat.landmarks[location.datum].y))


def _seen(location: Location, site: Site, ink: Box) -> _Size:
    seam = site.sized.flat.landmarks[location.datum].y
    left, right = (-ink.right, -ink.left) if location.seen.mirrors else (ink.left, ink.right)
    return _Size(site, Box(left, ink.top - seam, right, ink.bottom - seam))


def _groups(sizes: Sequence[_Size], press: Press) -> list[list[_Size]]:
    """Return sizes whose ink fits on the platen together, laid alike, in as few groups as it takes.

    Taken from the top down, each joins the first group that has room. Where only the height is
    short that gives the fewest: what can lie with the topmost left over, and only that, does.
    """
    wide, high = press.platen_width - 2 * PLATEN_RIM, press.platen_height - 2 * PLATEN_RIM
    # A print that is too large for the platen is a finding of its own, no reason to load anew.
    wide = max([wide, *(one.ink.width for one in sizes)]) + _SLACK
    high = max([high, *(one.ink.height for one in sizes)]) + _SLACK
    groups: list[list[_Size]] = []
    for one in sorted(sizes, key=lambda one: (one.ink.top, one.ink.left)):
        for group in groups:
            box = Box.of_all([one.ink, *(each.ink for each in group)])
            if box.width <= wide and box.height <= high:
                group.append(one)
                break
        else:
            groups.append([one])
    for group in groups:
        group.sort(key=sizes.index)
    return sorted(groups, key=lambda group: sizes.index(group[0]))


def _load(location: Location, sizes: Sequence[_Size], press: Press, unit: str) -> Load:
    wide, high = press.platen_width, press.platen_height
    ink = Box.of_all(one.ink for one in sizes)
    edge = "top" if location.hangs else "bottom"
    down = _inside(high / 2 - ink.centre.y, (-ink.top, high - ink.bottom), unit, edge, high)
    half = wide / 2
    room = (-half - ink.left, half - ink.right)
    centred = location.seen not in _HOODS and _holds(0.0, room)
    aside = 0.0 if centred else _inside(-ink.centre.x, room, unit)
    moved = ink.moved(aside, down)
    return Load(
        seam=" or ".join(dict.fromkeys(_seam(location, one) for one in sizes)),
        edge=edge,
        level=down,
        aside=aside,
        fits=Box(-half, 0.0, half, high).grown(_SLACK - PLATEN_RIM).holds(moved),
        lying=tuple(
            Lying(
                one.site.key, one.ink.moved(aside, down), _thick(location, one, aside, down, press)
            )
            for one in sizes
        ),
    )


def _seam(location: Location, one: _Size) -> str:
    return one.site.sized.flat.seams[location.seat].title


def _inside(ideal: Mm, ends: tuple[Mm, Mm], unit: str, edge: str = "top", high: Mm = 0.0) -> Mm:
    """Return the shift nearest to the ideal one that a tape finds again, the ink on the platen.

    From the bottom edge it is the distance from there that is a whole number of steps. Where
    only the ideal shift itself keeps the ink on the platen, it is that.
    """
    from_bottom = edge == "bottom"
    wanted = high - ideal if from_bottom else ideal
    shifts: list[Mm] = []
    for step in _STEPS[unit]:
        count = wanted / step
        near = sorted((math.floor(count), math.ceil(count)), key=lambda k: k != round(count))
        # Without the last bits of a float's sum, which would only be seen in the plan's file.
        shifts += [round(high - k * step if from_bottom else k * step, 9) for k in near]
    for shift in (*shifts, ideal):
        if _holds(shift, ends):
            return shift
    # Nothing does for a print that is too large for the platen.
    return shifts[0]


def _holds(shift: Mm, ends: tuple[Mm, Mm]) -> bool:
    """Return whether a shift keeps the ink off the rim at both ends."""
    return ends[0] + PLATEN_RIM - _SLACK <= shift <= ends[1] - PLATEN_RIM + _SLACK


def _thick(location: Location, one: _Size, aside: Mm, down: Mm, press: Press) -> tuple[str, ...]:
    """Return the seams and features of the printed panel that lie on the platen, by name."""
    flat = one.site.sized.flat
    panel, lies = flat.panels[location.panel], on_platen(location, flat, aside, down)
    half = press.platen_width / 2
    platen = Box(-half, 0.0, half, press.platen_height)
    below = _BELOW if location.seen in _SLEEVES else frozenset[str]()
    on = (
        line.name
        for line in (*panel.edges, *panel.features)
        if line.name not in below and _reaches(line.path.moved(lies), platen)
    )
    return tuple(dict.fromkeys(on))


def _reaches(path: Path, platen: Box) -> bool:
    """Return whether a line, or an area, lies on the platen somewhere."""
    if path.closed:
        return path.bounds().overlaps(platen)
    points = path.points(_CHORD)
    chords: Iterable[Box] = (Box.around(pair) for pair in pairwise(points))
    return any(chord.overlaps(platen) for chord in chords)
