"""Where segments cross level or upright lines and circles, and paths parted there."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from jigs.geometry.path import Path, Segment, ended
from jigs.geometry.point import Point, distance
from jigs.geometry.segments import Arc, Cubic, Line, quadratic_roots
from jigs.units import Mm

#: Parts shorter than this are none: the cut is then at the end of a segment.
_NONE: Mm = 1e-7
#: Places at which a cubic's distance from a circle is looked at: it has six crossings at most.
_CHECKS = 64


@dataclass(frozen=True, slots=True)
class Straight:
    """The upright line x = place (axis 0) or the level line y = place (axis 1)."""

    axis: int
    place: Mm


@dataclass(frozen=True, slots=True)
class Round:
    """A circle."""

    centre: Point
    radius: Mm


Carrier: TypeAlias = Straight | Round


def crossings(segment: Segment, carrier: Carrier) -> list[float]:
    """Return the parameters, rising, at which a segment passes from one side to the other."""

    def beyond(t: float) -> float:
        at = segment.at(t)
        if isinstance(carrier, Straight):
            return at[carrier.axis] - carrier.place
        return distance(at, carrier.centre) - carrier.radius

    stops = sorted({0.0, 1.0, *(t for t in _turns(segment, carrier) if 0 < t < 1)})
    values = [beyond(t) for t in stops]
    return [
        _bisected(beyond, stops[k], stops[k + 1])
        for k in range(len(stops) - 1)
        if (values[k] >= 0) != (values[k + 1] >= 0)
    ]


def _turns(segment: Segment, carrier: Carrier) -> Iterable[float]:
    """Yield parameters between any two of which the distance from a carrier only grows or falls."""
    if isinstance(carrier, Straight):
        axis = carrier.axis
        if isinstance(segment, Cubic):
            a, p, q, b = (point[axis] for point in (segment.a, segment.p, segment.q, segment.b))
            return quadratic_roots(-a + 3 * p - 3 * q + b, 2 * (a - 2 * p + q), p - a)
        if isinstance(segment, Arc):
            return _reached(segment, (axis * math.pi / 2, axis * math.pi / 2 + math.pi))
        return ()
    if isinstance(segment, Line):
        along = segment.b.minus(segment.a)
        square = along.dot(along)
        return (carrier.centre.minus(segment.a).dot(along) / square,) if square else ()
    if isinstance(segment, Arc):
        # Nearest and farthest on the line through both middles.
        to = carrier.centre.minus(segment.centre)
        angle = math.atan2(to.y, to.x)
        return _reached(segment, (angle, angle + math.pi))
    return (k / _CHECKS for k in range(1, _CHECKS))


def _reached(arc: Arc, angles: Sequence[float]) -> list[float]:
    """Return the parameters at which an arc comes to angles."""
    out = arc.a.minus(arc.centre)
    start, turn = math.atan2(out.y, out.x), arc.angle
    return [((angle - start) * math.copysign(1.0, turn)) % math.tau / abs(turn) for angle in angles]


def _bisected(beyond: Callable[[float], float], low: float, high: float) -> float:
    """Return where a function that only grows or falls changes its sign, to the last digit."""
    first = beyond(low) >= 0
    while True:
        middle = (low + high) / 2
        if middle in {low, high}:
            return middle
        if (beyond(middle) >= 0) == first:
            low = middle
        else:
            high = middle


def parted(path: Path, carriers: Sequence[Carrier]) -> list[Path]:
    """Return the parts of a path between its crossings with lines and circles, in order.

    A closed path that is crossed begins at a crossing; one that is not comes back whole. The end
    of a part on a `Straight` lies on it exactly.
    """
    parts: list[list[Segment]] = [[]]
    for segment in path.segments:
        rest: Segment | None = segment
        done = 0.0
        for t, k in sorted(
            (t, k) for k, one in enumerate(carriers) for t in crossings(segment, one)
        ):
            if rest is None:
                break
            share = min(max((t - done) / (1 - done), 0.0), 1.0)
            one, rest = _split(rest, share, carriers[k])
            parts[-1] += [one] if one else []
            parts.append([])
            done = t
        parts[-1] += [rest] if rest else []
    if path.closed and len(parts) > 1:
        parts = [*parts[1:-1], parts[-1] + parts[0]]
    return [Path(_joined(part)) for part in parts if part]


def _split(segment: Segment, t: float, carrier: Carrier) -> tuple[Segment | None, Segment | None]:
    """Return the parts before and after t, of which one may be none."""
    whole = segment.length()
    if t * whole < _NONE:
        return None, segment
    if (1 - t) * whole < _NONE:
        return segment, None
    one, two = segment.split(t)
    if isinstance(carrier, Straight):
        at = one.b
        on = Point(carrier.place, at.y) if carrier.axis == 0 else Point(at.x, carrier.place)
        one, two = ended(one, on), ended(two.reversed(), on).reversed()
    return one, two


def _joined(segments: Sequence[Segment]) -> tuple[Segment, ...]:
    """Return segments with each beginning exactly where the one before ends."""
    made: list[Segment] = []
    for one in segments:
        begin = (
            one if not made or made[-1].b == one.a else ended(one.reversed(), made[-1].b).reversed()
        )
        made.append(begin)
    return tuple(made)
