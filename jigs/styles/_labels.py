"""Names at the ends of lines, each with a straight leader: none on another, none over a line."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from jigs.drawing.drawing import Anchor, Layer, Shape, Text
from jigs.drawing.lower import text_box
from jigs.geometry import Box, Line, Path, Point
from jigs.geometry.point import distance
from jigs.geometry.strokes import width_of
from jigs.units import Mm

#: Height of a name, and from one name of a column to the next.
HEIGHT: Mm = 2.8
PITCH: Mm = 5.0
#: Between neighbours of a row.
_BESIDE: Mm = 3.0
#: A leader leaves this much free at the line's end, and before its name.
_OFF: Mm = 0.7
_FREE: Mm = 1.2
#: From the ends of lines to their names.
_REACH: Mm = 10.0
#: Leaders keep this far from lines and one another, and names from both.
_APART: Mm = 0.5
_CLEAR: Mm = 0.8
#: Other lines are minded from this far on from a leader's beginning.
_NEAR: Mm = 2.0
#: So far beyond the ends names are looked for.
_FARTHEST: Mm = 120.0
_STEP: Mm = 0.5


@dataclass(frozen=True, slots=True)
class End:
    """The end of a line, and what the line is called."""

    at: Point
    name: str


@dataclass(frozen=True, slots=True)
class Label:
    """A name with its leader."""

    text: Text
    leader: Shape

    @property
    def box(self) -> Box:
        """Room it takes."""
        return text_box(self.text)


def inwards(
    ends: Sequence[End],
    side: int,
    curves: Sequence[Sequence[Point]],
    others: Sequence[Label] = (),
) -> list[Label] | None:
    """Return names in a column between the ends of curves that rise to a side, 1 for the right.

    The end nearest to the middle has the lowest name; each stands as low as it can, so that no
    leader meets a curve or another leader. None if there is no such column.
    """
    ordered = sorted(ends, key=lambda end: (side * end.at.x, -end.at.y))
    x = side * ordered[0].at.x - _REACH
    heights = [end.at.y for end in ordered]
    # The column begins low enough to end level with the highest end, if the curves let it, but
    # not so low that its first leader runs along its curve.
    y = max(heights[0], min(min(heights) + PITCH * (len(ordered) - 1), heights[0] + _REACH / 2))
    top = min(heights) - _FARTHEST
    near = [_cut(curve, side, y + 2 * PITCH) for curve in curves]
    made: list[Label] = []
    for end in ordered:
        while y > top:
            one = _label(end, Point(side * x, y), -side)
            if _fits(one, near, [*others, *made]):
                break
            y -= _STEP
        else:
            return None
        made.append(one)
        y -= PITCH
    return made


def outwards(
    ends: Sequence[End], side: int, curves: Sequence[Sequence[Point]], *, anyhow: bool = False
) -> list[Label] | None:
    """Return names in a column beyond the ends of lines; None if a leader would meet a line.

    `anyhow` is for lines that can be told in no other way: a leader may cross one.
    """
    ordered = sorted(ends, key=lambda end: end.at.y)
    x = max(side * end.at.x for end in ends) + _REACH
    levels = spread([end.at.y for end in ordered], [PITCH] * (len(ordered) - 1))
    made = [_label(end, Point(side * x, y), side) for end, y in zip(ordered, levels, strict=True)]
    tried: list[Label] = []
    for one in made:
        if not anyhow and not _fits(one, curves, tried):
            return None
        tried.append(one)
    return made


def above(
    ends: Sequence[End], curves: Sequence[Sequence[Point]], others: Sequence[Label] = ()
) -> list[Label] | None:
    """Return names in a row above the ends of curves; None if a leader would meet a line."""
    made = row(ends, min(end.at.y for end in ends) - _REACH)
    tried = list(others)
    for one in made:
        if not _fits(one, curves, tried):
            return None
        tried.append(one)
    return made


def row(ends: Sequence[End], y: Mm) -> list[Label]:
    """Return names in a row at a level, each as near to the end of its upright line as can be."""
    ordered = sorted(ends, key=lambda end: end.at.x)
    widths = [width_of(end.name, HEIGHT) for end in ordered]
    steps = [(one + two) / 2 + _BESIDE for one, two in pairwise(widths)]
    made = []
    for end, x in zip(ordered, spread([end.at.x for end in ordered], steps), strict=True):
        down = y > end.at.y
        text = Text(Layer.ENGRAVE, end.name, Point(x, y + HEIGHT / 2), HEIGHT, Anchor.MIDDLE)
        foot = Point(x, y + (-1 if down else 1) * (HEIGHT / 2 + _FREE))
        made.append(Label(text, _leader(end.at, foot)))
    return made


def spread(wanted: Sequence[Mm], steps: Sequence[Mm]) -> list[Mm]:
    """Return rising places, neighbours at least their step apart, near the wanted ones.

    Places that touch move as one block, whose middle is the mean of what they want: of all such
    places those with the least sum of squares (pool adjacent violators).
    """
    before = [0.0]
    for step in steps:
        before.append(before[-1] + step)
    blocks: list[tuple[float, int]] = []
    for place, offset in zip(wanted, before, strict=True):
        blocks.append((place - offset, 1))
        while len(blocks) > 1 and blocks[-1][0] < blocks[-2][0]:
            (one, m), (two, n) = blocks[-2:]
            blocks[-2:] = [((one * m + two * n) / (m + n), m + n)]
    levels = [level for level, count in blocks for _ in range(count)]
    return [level + offset for level, offset in zip(levels, before, strict=True)]


def _label(end: End, at: Point, side: int) -> Label:
    """Return a name that begins at a point and runs to a side, its leader ending before it."""
    anchor = Anchor.START if side > 0 else Anchor.END
    text = Text(Layer.ENGRAVE, end.name, at.plus(Point(0.0, HEIGHT / 2)), HEIGHT, anchor)
    return Label(text, _leader(end.at, at.plus(Point(-side * _FREE, 0.0))))


def _leader(start: Point, foot: Point) -> Shape:
    along = foot.minus(start)
    begin = start.plus(along.unit().times(min(_OFF, along.length() / 3)))
    return Shape(Layer.ENGRAVE, Path((Line(begin, foot),)))


def _fits(one: Label, curves: Sequence[Sequence[Point]], others: Sequence[Label]) -> bool:
    """Return whether a name and its leader keep clear of lines, and of names and leaders."""
    box = one.box.grown(_CLEAR)
    a, b = one.leader.path.start, one.leader.path.end
    # A line that runs along with its own near the end is as near to the leader there.
    away = a.plus(b.minus(a).unit().times(min(_NEAR, distance(a, b) / 2)))
    leaders = [(each.leader.path.start, each.leader.path.end) for each in others]
    room = Box.of_all((Box.around((a, b)).grown(_APART), box))
    near = [pair for curve in curves for pair in pairwise(curve) if _within(room, *pair)]
    return not (
        any(apart(away, b, c, d) < _APART or meets(box, c, d) for c, d in near)
        or any(apart(a, b, c, d) < _APART or meets(box, c, d) for c, d in leaders)
        or any(box.overlaps(each.box) or meets(each.box.grown(_CLEAR), a, b) for each in others)
    )


def _within(room: Box, c: Point, d: Point) -> bool:
    """Return whether the box of a stretch comes into a box."""
    # In plain numbers: it is asked of every chord of every curve, for every place of a name.
    (x1, y1), (x2, y2) = c, d
    return not (
        (x1 < room.left and x2 < room.left)
        or (x1 > room.right and x2 > room.right)
        or (y1 < room.top and y2 < room.top)
        or (y1 > room.bottom and y2 > room.bottom)
    )


def meets(box: Box, c: Point, d: Point) -> bool:
    """Return whether a straight stretch of a line comes into a box."""
    if not _within(box, c, d):
        return False
    corners = box.corners()
    inside = box.holds(Box.around((c,)))
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return inside or any(apart(one, two, c, d) < 1e-9 for one, two in sides)


def apart(a: Point, b: Point, c: Point, d: Point) -> Mm:
    """Return the distance between two stretches of straight lines; 0 if they cross."""
    one, two = b.minus(a), d.minus(c)
    if (
        one.cross(c.minus(a)) * one.cross(d.minus(a)) < 0
        and two.cross(a.minus(c)) * two.cross(b.minus(c)) < 0
    ):
        return 0.0
    return min(_to(a, c, d), _to(b, c, d), _to(c, a, b), _to(d, a, b))


def _to(p: Point, a: Point, b: Point) -> Mm:
    along = b.minus(a)
    square = along.dot(along)
    t = min(1.0, max(0.0, p.minus(a).dot(along) / square)) if square else 0.0
    return distance(p, a.plus(along.times(t)))


def _cut(curve: Sequence[Point], side: int, bottom: Mm) -> list[Point]:
    """Return the points of a curve on one side of its lowest, down to a level."""
    lowest = max(range(len(curve)), key=lambda k: curve[k].y)
    half = curve[lowest:] if side > 0 else curve[: lowest + 1]
    return [p for p in half if p.y <= bottom]
