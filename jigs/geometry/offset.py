"""The parallel of a closed outline of lines and arcs, arcs kept arcs.

Meant for small distances, as half a kerf is: neighbouring segments are joined by an arc where
the outline turns away and cut back to their crossing where it turns towards the parallel.
"""

import math
from itertools import pairwise

from jigs.geometry.path import Path
from jigs.geometry.point import Point, distance
from jigs.geometry.segments import Arc, Line
from jigs.units import Mm

_SAME: Mm = 1e-7


def parallel(path: Path, outwards: Mm) -> Path:
    """Return the outline moved outwards (inwards if negative) by a distance.

    Raises:
        TypeError: the outline holds a cubic, whose parallel is no cubic.
        ValueError: the outline is open, or the distance is too large for a side or an arc of it.
    """
    turn = 1.0 if path.area() > 0 else -1.0
    sides = []
    for segment in path.segments:
        if not isinstance(segment, (Line, Arc)):
            raise TypeError("only lines and arcs have a parallel: turn cubics into arcs first")
        sides.append(_moved(segment, outwards * turn))
    joints: list[tuple[Point, Arc | None, Point]] = []
    for k, (one, two) in enumerate(pairwise([*sides, sides[0]])):
        corner = path.segments[k].b
        joints.append(_joint(one, two, corner, outwards * turn))
    made: list[Line | Arc] = []
    for k, side in enumerate(sides):
        start, end = joints[k - 1][2], joints[k][0]
        made.append(_between(side, start, end))
        joint = joints[k][1]
        if joint is not None:
            made.append(joint)
    return Path(tuple(made))


def _moved(segment: Line | Arc, right: Mm) -> Line | Arc:
    """Return a segment moved to the outer side of an outline that turns from +x towards +y."""

    def out(point: Point, tangent: Point) -> Point:
        return point.minus(tangent.unit().quarter().times(right))

    a, b = out(segment.a, segment.tangent(0)), out(segment.b, segment.tangent(1))
    if isinstance(segment, Line):
        return Line(a, b)
    if segment.radius + math.copysign(1.0, segment.bulge) * right <= _SAME:
        raise ValueError(f"an arc of radius {segment.radius} has no parallel at {right}")
    return Arc(a, b, segment.bulge)


def _joint(
    one: Line | Arc, two: Line | Arc, corner: Point, right: Mm
) -> tuple[Point, Arc | None, Point]:
    """Return where one side ends, an arc that joins, and where the next side starts."""
    if distance(one.b, two.a) < _SAME:
        return one.b, None, one.b
    turning = one.tangent(1).cross(two.tangent(0))
    if turning * right > 0:
        sweep = math.atan2(turning, one.tangent(1).dot(two.tangent(0)))
        if abs(math.pi - abs(sweep)) < 1e-9:
            raise ValueError(f"the outline folds back on itself at {corner}")
        return one.b, Arc(one.b, two.a, math.tan(sweep / 4)), two.a
    crossings = _crossings(one, two)
    if not crossings:
        raise ValueError(f"the parallel at {right} does not close at {corner}")
    meet = min(crossings, key=lambda p: distance(p, corner))
    return meet, None, meet


def _between(side: Line | Arc, start: Point, end: Point) -> Line | Arc:
    """Return the part of a side, on its own line or circle, from start to end."""
    if isinstance(side, Line):
        if side.b.minus(side.a).dot(end.minus(start)) <= 0:
            raise ValueError(f"the side from {side.a} is too short for its parallel")
        return Line(start, end)
    centre, sign = side.centre, math.copysign(1.0, side.bulge)
    one, two = start.minus(centre), end.minus(centre)
    sweep = math.atan2(one.cross(two), one.dot(two))
    if sweep * sign < 0:
        sweep += sign * math.tau
    if abs(sweep) > abs(side.angle) + 0.5:
        raise ValueError(f"the arc from {side.a} is too short for its parallel")
    return Arc(start, end, math.tan(sweep / 4))


def _crossings(one: Line | Arc, two: Line | Arc) -> list[Point]:
    """Return where the lines or circles that two sides lie on cross."""
    if isinstance(one, Line) and isinstance(two, Line):
        u, v = one.b.minus(one.a), two.b.minus(two.a)
        across = u.cross(v)
        if abs(across) < 1e-12 * u.length() * v.length():
            return []
        return [one.a.plus(u.times(two.a.minus(one.a).cross(v) / across))]
    if isinstance(one, Line):
        return _line_circle(one, two)
    if isinstance(two, Line):
        return _line_circle(two, one)
    return _circle_circle(one, two)


def _line_circle(line: Line, arc: Line | Arc) -> list[Point]:
    assert isinstance(arc, Arc)  # noqa: S101 - the caller has sorted the two
    along = line.b.minus(line.a).unit()
    foot = line.a.plus(along.times(arc.centre.minus(line.a).dot(along)))
    half = arc.radius**2 - distance(foot, arc.centre) ** 2
    if half < 0:
        return []
    reach = along.times(math.sqrt(half))
    return [foot.minus(reach), foot.plus(reach)]


def _circle_circle(one: Arc, two: Arc) -> list[Point]:
    apart = distance(one.centre, two.centre)
    if apart < _SAME:
        return []
    along = two.centre.minus(one.centre).unit()
    x = (apart**2 + one.radius**2 - two.radius**2) / (2 * apart)
    half = one.radius**2 - x**2
    if half < 0:
        return []
    foot, reach = one.centre.plus(along.times(x)), along.quarter().times(math.sqrt(half))
    return [foot.minus(reach), foot.plus(reach)]
