"""The largest box of a given aspect that hangs from a point and keeps clear of lines.

The box of width w hangs from its anchor by the middle of its top side, or stands on it by the
middle of its bottom side. Boxes of growing width contain one another, so the first line they
come too close to sets the width; nothing is searched on a grid.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from jigs.geometry.point import Point
from jigs.units import Mm

#: The width is found to within this.
EXACT: Mm = 1e-7


def widest(
    anchor: Point, aspect: float, *, hangs: bool, line: Sequence[Point], clearance: Mm
) -> Mm:
    """Return the width at which the growing box comes within the clearance of a polyline.

    `aspect` is width over height. Infinity if the box never gets there; 0 if the anchor itself
    is too close already.

    Raises:
        ValueError: the aspect is not positive, or the clearance negative.
    """
    if not aspect > 0 or clearance < 0:
        raise ValueError("the aspect must be positive and the clearance not negative")
    down = 1.0 if hangs else -1.0
    seen = [Point(abs(p.x - anchor.x), (p.y - anchor.y) * down) for p in line]
    signed = [p.x - anchor.x for p in line]
    found = math.inf
    for k, (a, b) in enumerate(pairwise(seen)):
        if signed[k] * signed[k + 1] < 0:
            # The segment crosses the axis of the box: fold it there.
            t = signed[k] / (signed[k] - signed[k + 1])
            fold = Point(0.0, a.y + (b.y - a.y) * t)
            found = min(found, _on_segment(a, fold, aspect, clearance, found))
            found = min(found, _on_segment(fold, b, aspect, clearance, found))
        else:
            found = min(found, _on_segment(a, b, aspect, clearance, found))
    return max(0.0, found)


def _on_segment(a: Point, b: Point, aspect: float, clearance: Mm, best: Mm) -> Mm:
    """Return the least width that reaches a segment on x >= 0, or `best` if that is less.

    The width that reaches a point is a convex function of the point: the sets {(point, width)}
    are a convex cone plus a disc. So its least value on a segment is bracketed by thirds.
    """
    # A box that reaches the segment is at least as large as one that reaches its nearest corner.
    nearest = Point(min(a.x, b.x), max(0.0, min(a.y, b.y)))
    if max(a.y, b.y) < -clearance or _reaches(nearest, aspect, clearance) >= best:
        return best
    low, high = 0.0, 1.0
    ends = min(_reaches(a, aspect, clearance), _reaches(b, aspect, clearance))
    length = math.hypot(b.x - a.x, b.y - a.y)

    def reach(t: float) -> Mm:
        return _reaches(Point(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t), aspect, clearance)

    # Points above the anchor by more than the clearance are never reached: start below them.
    if min(a.y, b.y) < -clearance:
        cut = (-clearance - a.y) / (b.y - a.y)
        low, high = (cut, 1.0) if b.y > a.y else (0.0, cut)
    while (high - low) * length > EXACT / 100:
        third = (high - low) / 3
        if reach(low + third) <= reach(high - third):
            high -= third
        else:
            low += third
    return min(best, ends, reach((low + high) / 2))


def _reaches(p: Point, aspect: float, clearance: Mm) -> Mm:
    """Return the width of the box whose distance from a point (x >= 0) is the clearance."""
    x, y, c = p.x, p.y, clearance
    if y < -c:
        return math.inf
    if y <= 0:
        # The box's upper side is level with the anchor: only sideways room counts.
        return 2 * (x - math.sqrt(c * c - y * y))
    beside = 2 * (x - c)
    if beside >= aspect * y:
        return beside
    below = aspect * (y - c)
    if below >= 2 * x:
        return below
    # Else the corner (w/2, w/aspect) is at distance c: (x - w/2)² + (y - w/aspect)² = c².
    k = 1 / aspect
    f, g, h = 0.25 + k * k, -(x + 2 * k * y), x * x + y * y - c * c
    return (-g - math.sqrt(max(0.0, g * g - 4 * f * h))) / (2 * f)
