"""What a frame's windows are cut as, one or two, and the marks by which a transfer lies in each.

Two windows that overlap are one opening. Each transfer is laid against the side of its own window
that is nearest the plate's edge, so enough of that side must be left:

     ____________________
    |____|_______|_______|__      left chest in a full front's opening: the same side serves both,
    |                    |__|     marks show the ends of the smaller transfer, or a step does
    |____________________|

             _____
     _______|     |_______        neck label above an upper back: the wide one's side is left
    |_____________________|       on both sides of the narrow one
"""

import math
from collections.abc import Iterator, Sequence

from jigs.drawing.drawing import Anchor, Layer, Shape, Text
from jigs.drawing.lower import text_box
from jigs.geometry import Arc, Box, Line, Path, Point, Segment
from jigs.geometry.path import rounded
from jigs.geometry.point import distance
from jigs.geometry.region import joined
from jigs.geometry.strokes import width_of
from jigs.styles._plate import Frame, tick, turned_over, web
from jigs.template import STEP, Template
from jigs.units import Mm, say

#: This much of a transfer's side must find the side it is laid against, to lie straight.
_LEAST_SIDE = 0.5
#: Sides nearer than this lie on one line.
_ONE: Mm = 0.01
#: Length of a mark at a window's side.
_TICK: Mm = 4.0
#: Marks keep so far from another window's opening: at the near and far sides, and at the others.
_CLOSE: Mm = 0.5
_BESIDE: Mm = 6.0
#: Height of a window's name, and how far it keeps from all else.
_LETTER: Mm = 2.2
_CLEAR: Mm = 0.6


def relieved(template: Template) -> bool:
    """Return whether the carrier's square corners would meet the window's round ones.

    A corner of radius r comes nearest at r (1 - 1/√2) from both sides; the carrier, in the middle
    of the window, keeps its slip from them.
    """
    window, carrier = template.window, template.carrier
    slip = min(carrier.left - window.left, carrier.top - window.top)
    return template.inner * (1 - math.sqrt(0.5)) > slip + 1e-9


def opened(template: Template) -> tuple[Box, ...]:
    """Return the boxes of the windows with their reliefs."""
    beside = template.inner if relieved(template) else 0.0
    return tuple(
        Box(box.left - beside, box.top, box.right + beside, box.bottom) for box in template.windows
    )


def openings(template: Template) -> tuple[Path, ...]:
    """Return the outlines of what is cut out for the transfers.

    No inner corner is sharper than the material takes.
    """
    windows, inner = template.windows, template.inner
    if len(windows) == 1 or not windows[0].overlaps(windows[1]):
        round_one = _relieved if relieved(template) else Path.box
        return tuple(round_one(window, inner) for window in windows)
    corners = joined(*windows)
    after = (*corners[1:], corners[0])
    # A side between two corners has room for the roundings of both.
    sides = [distance(a, b) for a, b in zip(corners, after, strict=True)]
    around = zip((sides[-1], *sides), sides, strict=False)
    return (rounded(corners, [min(inner, a / 2, b / 2) for a, b in around]),)


def _relieved(box: Box, r: Mm) -> Path:
    """Return the outline of a window whose corners are half circles beside it.

    The sides near the seat and far from it stay whole from corner to corner, and all of the window
    is open.
    """
    left_top, right_top, right_bottom, left_bottom = box.corners()
    made: list[Segment] = []
    for start, corner, end, down in (
        (left_top, right_top, right_bottom, 2 * r),
        (right_bottom, left_bottom, left_top, -2 * r),
    ):
        one, two = Point(corner.x, corner.y + down), Point(end.x, end.y - down)
        made += [Line(start, corner), Arc(corner, one, 1.0), Line(one, two), Arc(two, end, 1.0)]
    return Path(tuple(made))


def clash(template: Template) -> str | None:
    """Return why one plate cannot hold both prints, or None if it can or is for one alone."""
    if template.beside is None:
        return None
    first, other = template.windows
    if turned_over(template) and any(abs(box.centre.x) > _ONE for box in (first, other)):
        return (
            "one of them is inside and beside the centre line, where left and right change places"
        )
    names = f"the {template.title}", f"the {template.beside.title}"
    unit, frame = template.unit, Frame.of(template)
    if not first.overlaps(other):
        gap = max(
            first.left - other.right,
            other.left - first.right,
            first.top - other.bottom,
            other.top - first.bottom,
        )
        if gap < template.web:
            return (
                f"only {say(max(gap, 0.0), unit)} would be left between the windows of "
                f"{names[0]} and {names[1]}, less than {say(template.web, unit)}"
            )
        return None
    if relieved(template):
        return "the material's inner corners need room beside one opening for both"
    near = [_away(frame, window)[0] for window in (first, other)]
    apart = abs(near[0] - near[1])
    if _ONE < apart < STEP:
        return (
            f"{names[0]} and {names[1]} would begin {say(apart, unit)} apart: "
            f"give both the same drop, or drops {say(STEP, unit)} apart"
        )
    for name, window, over in ((names[0], first, other), (names[1], other, first)):
        left = sum(b - a for a, b in _standing(frame, window, over))
        if left < _LEAST_SIDE * window.width:
            rest = names[1] if window is first else names[0]
            return (
                f"the window of {rest} takes the side that the transfer of {name} is laid against"
            )
    return None


def _standing(frame: Frame, window: Box, over: Box) -> list[tuple[Mm, Mm]]:
    """Return the spans in x of a window's near side that another window leaves."""
    near, _ = _away(frame, window)
    its, end = _away(frame, over)
    if its > near - _ONE or end < near or not window.overlaps(over):
        return [(window.left, window.right)]
    spans = (
        (window.left, min(over.left, window.right)),
        (max(over.right, window.left), window.right),
    )
    return [(a, b) for a, b in spans if b > a]


def _away(frame: Frame, window: Box) -> tuple[Mm, Mm]:
    """Return the distances from the plate's edge of a window's near and far sides."""
    one, two = frame.away(window.top), frame.away(window.bottom)
    return min(one, two), max(one, two)


def window_marks(template: Template, length: Mm) -> list[Shape]:
    """Return ticks at the middles of each window's sides, as far as they are left.

    `length` is that of a tick towards the seat edge. Of two windows in one opening the ends of a
    transfer are marked too where no side shows them.
    """
    frame, windows = Frame.of(template), template.windows
    marks: list[Shape] = []
    for k, window in enumerate(windows):
        over = [one for one in windows if one is not window]
        marks += _middles(template, window, over, length)
        other = template.beside
        if other is None:
            continue
        carrier = other.carrier if k else template.carrier
        slip = template.carrier.left - template.window.left
        ends = list(_ends(frame, window, carrier, slip, over[0]))
        ticks = (_near_tick(frame, window, x, length) for x in ends)
        marks += [mark for mark in ticks if _off(mark, over, _CLOSE, template.inner)]
    return marks


def _middles(template: Template, window: Box, over: list[Box], length: Mm) -> Iterator[Shape]:
    """Yield a tick at the middle of each side, near, far, left and right, that is left."""
    frame, middle = Frame.of(template), window.centre
    _, far = _away(frame, window)
    near = _near_tick(frame, window, middle.x, length)
    marks = (
        (near, _CLOSE),
        (tick(Point(middle.x, frame.y(far)), Point(middle.x, frame.y(far + _TICK))), _CLOSE),
        (tick(Point(window.left - _TICK, middle.y), Point(window.left, middle.y)), _BESIDE),
        (tick(Point(window.right, middle.y), Point(window.right + _TICK, middle.y)), _BESIDE),
    )
    for mark, room in marks:
        if _off(mark, over, room, template.inner):
            yield mark


def _off(mark: Shape, over: Sequence[Box], room: Mm, inner: Mm) -> bool:
    """Return whether a tick is clear of other openings: near one it would pass for a mark of that.

    Its ends may touch the line of a side that both have.
    """
    a, b = mark.path.start, mark.path.end
    part = Box.around([a.plus(b.minus(a).times(share)) for share in (0.25, 0.75)])
    # Beside it an opening's corner may be rounded away.
    aside = max(room, inner + _CLOSE)
    rooms = (Box(o.left - aside, o.top - room, o.right + aside, o.bottom + room) for o in over)
    return not any(one.overlaps(part.grown(_ONE)) for one in rooms)


def _near_tick(frame: Frame, window: Box, x: Mm, length: Mm) -> Shape:
    """Return a tick at a window's near side."""
    near, _ = _away(frame, window)
    return tick(Point(x, frame.y(near - length)), Point(x, frame.y(near)))


def _ends(frame: Frame, window: Box, carrier: Box, slip: Mm, over: Box) -> Iterator[Mm]:
    """Yield the ends of a transfer that no side of the opening shows."""
    near, _ = _away(frame, window)
    inside = frame.y(near + 1.0)
    for side, end, way in ((window.left, carrier.left, -1), (window.right, carrier.right, 1)):
        beyond = side + way * 1.0
        open_ = over.left < beyond < over.right and over.top < inside < over.bottom
        if open_ or abs(side - end - way * slip) > _ONE:
            yield end


def names(template: Template, marks: Sequence[Shape | Text]) -> list[Text]:
    """Return the name of each of two windows beside it, clear of the marks and of what is cut.

    A plate for one print needs none; where there is no room the ticks must do.
    """
    other = template.beside
    if other is None:
        return []
    boxes = (text_box(m) if isinstance(m, Text) else m.path.bounds() for m in marks)
    taken = [box.grown(_CLEAR) for box in boxes]
    taken += [window.grown(_CLEAR + 0.3) for window in template.windows]
    frame, found = Frame.of(template), []
    for title, window in ((template.title, template.window), (other.title, other.window)):
        for box in _rooms(template, window, title):
            on_plate = _away(frame, box)[0] > _CLEAR and web(template, box) > _CLEAR
            if on_plate and not any(box.overlaps(one) for one in taken):
                at = Point(box.centre.x, box.bottom)
                found.append(Text(Layer.ENGRAVE, title, at, _LETTER, Anchor.MIDDLE))
                taken.append(box.grown(_CLEAR))
                break
    return found


def _rooms(template: Template, window: Box, title: str) -> Iterator[Box]:
    """Yield where a window's name may stand: at its near side, then at its far side.

    Beside the middle's tick, before and behind it, in the corners, and then beyond the tick.
    """
    frame, half = Frame.of(template), width_of(title, _LETTER) / 2
    near, far = _away(frame, window)
    middle = window.centre.x
    places = (middle + 2.0 + half, middle - 2.0 - half, window.right - 3.0 - half)
    for x in (*places, window.left + 3.0 + half):
        yield frame.box(x - half, near - 1.7 - _LETTER, x + half, near - 1.7)
    yield frame.box(middle - half, near - 8.0 - _LETTER, middle + half, near - 8.0)
    for x in places:
        yield frame.box(x - half, far + 1.7, x + half, far + 1.7 + _LETTER)
