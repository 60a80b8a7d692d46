"""Arcs fitted to a cubic.

A biarc is two arcs that meet with one tangent and take over the curve's tangents at its ends
(Bolton, "Biarc curves", Computer-Aided Design 7, 1975). Of the possible joints it is the one
whose four tangent lengths are one d: with v the chord, t the sum of the unit end tangents a and
b, d solves |v|² = 2 d v·t + 2 d² (1 - a·b). The curve is halved until the arcs are close enough.
"""

import math

from jigs.geometry import Arc, Cubic, Line, Point
from jigs.geometry.point import distance
from jigs.units import Mm

#: The distance is taken at so many places of a piece; between them it grows a little more.
_CHECKS = 16
_MARGIN = 0.9
#: A curve halved so often is a point, unless it has a cusp.
_DEEPEST = 20
#: Bulge below which an arc of 1 m rises by less than a nanometre.
_FLAT = 1e-9


def biarcs(cubic: Cubic, tolerance: Mm) -> list[Line | Arc]:
    """Return arcs and lines from `a` to `b` that stray from the cubic by at most the tolerance.

    The ends are the cubic's own points and the directions there its own; inside, one arc goes
    smoothly over into the next, except in a cusp.
    """
    return _halved(cubic, tolerance, _DEEPEST)


def _halved(cubic: Cubic, tolerance: Mm, left: int) -> list[Line | Arc]:
    around = distance(cubic.a, cubic.p) + distance(cubic.p, cubic.q) + distance(cubic.q, cubic.b)
    if left == 0 or around <= tolerance / 4:
        return [Line(cubic.a, cubic.b)]
    arcs = _biarc(cubic)
    if arcs and _strays(cubic, arcs) <= tolerance * _MARGIN:
        return arcs
    first, second = cubic.split(0.5)
    return _halved(first, tolerance, left - 1) + _halved(second, tolerance, left - 1)


def _biarc(cubic: Cubic) -> list[Line | Arc]:
    """Return the biarc on the ends of a cubic; empty if there is none worth having."""
    chord = cubic.b.minus(cubic.a)
    start, end = _direction(cubic), _direction(cubic.reversed()).times(-1)
    along = chord.dot(start.plus(end))
    turned = 2 * (1 - start.dot(end))
    if chord.length() == 0 or (turned < 1e-12 and along <= 0):
        return []
    # The root of the quadratic written without the difference of two nearly equal numbers.
    square = chord.dot(chord)
    reach = square / (along + math.sqrt(along * along + turned * square))
    joint = Point(
        (cubic.a.x + cubic.b.x + reach * (start.x - end.x)) / 2,
        (cubic.a.y + cubic.b.y + reach * (start.y - end.y)) / 2,
    )
    first = _bulge(start, joint.minus(cubic.a))
    second = _bulge(cubic.b.minus(joint), end)
    if max(abs(first), abs(second)) > 1:
        return []
    if max(abs(first), abs(second)) < _FLAT:
        return [Line(cubic.a, cubic.b)]
    return [_arc(cubic.a, joint, first), _arc(joint, cubic.b, second)]


def _direction(cubic: Cubic) -> Point:
    """Return the unit tangent at `a`, also where a handle has no length."""
    for point in (cubic.p, cubic.q, cubic.b):
        if distance(cubic.a, point) > 1e-12:
            return point.minus(cubic.a).unit()
    return Point(1.0, 0.0)


def _bulge(one: Point, two: Point) -> float:
    """Return the tangent of half the angle from one direction to another."""
    lengths = one.length() * two.length()
    if lengths == 0:
        return 0.0
    cross, dot = one.cross(two), one.dot(two)
    # A turn straight back has no bulge; the caller refuses what is more than half a circle.
    return cross / (lengths + dot) if lengths + dot > 1e-12 * lengths else math.inf


def _arc(a: Point, b: Point, bulge: float) -> Line | Arc:
    return Line(a, b) if abs(bulge) < _FLAT else Arc(a, b, bulge)


def _strays(cubic: Cubic, arcs: list[Line | Arc]) -> Mm:
    """Return the greatest distance of places on the cubic from the arcs."""
    return max(min(_apart(cubic.at(k / _CHECKS), arc) for arc in arcs) for k in range(1, _CHECKS))


def _apart(point: Point, segment: Line | Arc) -> Mm:
    """Return the distance of a point from a segment."""
    a, b = segment.a, segment.b
    ends = min(distance(point, a), distance(point, b))
    if isinstance(segment, Arc):
        centre = segment.centre
        # Of an arc of no more than half a circle, a point is beside it if it lies in its sector.
        side = math.copysign(1.0, segment.bulge)
        out = point.minus(centre)
        if side * a.minus(centre).cross(out) >= 0 and side * out.cross(b.minus(centre)) >= 0:
            return abs(out.length() - segment.radius)
        return ends
    along = b.minus(a)
    square = along.dot(along)
    if square > 0 and 0 <= point.minus(a).dot(along) <= square:
        return abs(along.cross(point.minus(a))) / math.sqrt(square)
    return ends
