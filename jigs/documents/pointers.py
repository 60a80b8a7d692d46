"""Numbers in circles beside what they point at, none on another, each with an arrow."""

import math
from collections.abc import Sequence
from itertools import product

from jigs.drawing import palette
from jigs.drawing.drawing import Anchor, Area, Entity, Layer, Shape, Text
from jigs.geometry import Box, Path, Point
from jigs.geometry.point import distance
from jigs.units import Mm

#: Radius of a circle, and height of the number in it.
RADIUS: Mm = 3.0
_NUMBER: Mm = 2.8
_INK, _PAPER = "#222222", "#ffffff"
#: How far from its target a circle may stand, and in how many directions it is tried.
_NEAR, _FARTHER, _TIMES, _WAYS = 9.0, 3.0, 16, 24
#: As far as a circle may stand from its target to be off the artwork.
_BESIDE: Mm = 28.0
#: Nearer than this a circle hides what another points at.
_CLEAR: Mm = RADIUS + 1.5
_ARROW: Mm = 2.2


def spots(targets: Sequence[Point], room: Box, art: Box, also: Sequence[Point] = ()) -> list[Point]:
    """Return where circles stand: near their targets, inside the room, hiding nothing pointed at.

    Each is tried outwards from the middle of the room, then round about, then farther away; it
    stands beside the artwork if that is near. Where nothing is free it stands as far from the
    others as it can.
    """
    found: list[Point] = []
    for target in targets:
        tried = [p for p in _tried(target, room) if _inside(p, room)]
        free = [p for p in tried if _free(p, target, (*targets, *also), found)]
        arrows = list(zip(found, targets, strict=False))
        calm = [p for p in free if not _crosses(p, target, arrows)]
        beside = [
            p for p in calm if distance(p, target) <= _BESIDE and not _circle(p).overlaps(art)
        ]
        best = beside or calm or free or [_farthest(tried or [room.centre], found)]
        found.append(best[0])
    return found


def pointer(number: int, spot: Point, target: Point) -> list[Entity]:
    """Return a number in a circle with an arrow to its target; it shows on any colour."""
    way = target.minus(spot)
    start = spot.plus(way.unit().times(RADIUS)) if way.length() > RADIUS else spot
    return [*arrow(start, target), *badge(number, spot)]


def arrow(start: Point, tip: Point) -> list[Entity]:
    """Return an arrow with a light edge, so that it shows on any colour."""
    way = tip.minus(start)
    if way.length() < 1e-6:
        return []
    back, side = way.unit().times(-_ARROW), way.unit().quarter().times(_ARROW / 3)
    head = Path.through([tip, tip.plus(back).plus(side), tip.plus(back).minus(side)], closed=True)
    line = Path.through([start, tip.plus(back)]) if way.length() > _ARROW else None
    lines: list[Entity] = []
    for colour, stroke in ((_PAPER, 1.1), (palette.VERMILION, 0.45)):
        lines += [Shape(Layer.NOTE, line, colour=colour, stroke=stroke)] if line else []
    return [
        *lines,
        Shape(Layer.NOTE, head, colour=_PAPER, stroke=0.5),
        Area((head,), palette.VERMILION),
    ]


def badge(number: int, spot: Point) -> list[Entity]:
    """Return a number in a circle."""
    ring = Path.circle(spot, RADIUS)
    return [
        Area((ring,), _PAPER),
        Shape(Layer.NOTE, ring, colour=palette.VERMILION, stroke=0.5),
        Text(
            Layer.NOTE, str(number), Point(spot.x, spot.y + _NUMBER / 2), _NUMBER, Anchor.MIDDLE,
            colour=_INK,
        ),
    ]  # fmt: skip


def _tried(target: Point, room: Box) -> list[Point]:
    out = target.minus(room.centre)
    first = math.atan2(out.y, out.x) if out.length() > 1 else -math.pi / 2
    turns = sorted(
        (k * math.tau / _WAYS for k in range(-_WAYS // 2, _WAYS // 2)), key=lambda t: (abs(t), t)
    )
    return [
        target.plus(Point(math.cos(first + t), math.sin(first + t)).times(_NEAR + k * _FARTHER))
        for k, t in product(range(_TIMES), turns)
    ]


def _circle(spot: Point) -> Box:
    return Box(*spot, *spot).grown(RADIUS + 0.5)


def _inside(spot: Point, room: Box) -> bool:
    return room.holds(_circle(spot))


def _free(spot: Point, own: Point, targets: Sequence[Point], found: Sequence[Point]) -> bool:
    off_circles = all(distance(spot, other) > 2 * RADIUS + 1 for other in found)
    return off_circles and all(distance(spot, other) > _CLEAR for other in targets if other != own)


def _crosses(spot: Point, target: Point, others: Sequence[tuple[Point, Point]]) -> bool:
    """Return whether an arrow would cross another, or a circle."""
    return any(
        _cut(spot, target, a, b)
        or _off(a, spot, target) < RADIUS + 0.5
        or _off(spot, a, b) < RADIUS
        for a, b in others
    )


def _cut(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return q.minus(p).cross(r.minus(p))

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _off(point: Point, a: Point, b: Point) -> Mm:
    """Return how far a point is from a stretch of line."""
    along = b.minus(a)
    share = point.minus(a).dot(along) / max(along.dot(along), 1e-12)
    return distance(point, a.plus(along.times(min(max(share, 0.0), 1.0))))


def _farthest(tried: Sequence[Point], found: Sequence[Point]) -> Point:
    return max(tried, key=lambda p: min((distance(p, other) for other in found), default=0.0))
