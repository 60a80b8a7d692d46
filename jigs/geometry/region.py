"""Regions of the plane as polygons: what a panel leaves when its seams are kept clear of."""

from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise
from typing import Any

from jigs.geometry.path import CHORD, Path
from jigs.geometry.point import Box, Point
from jigs.units import Mm

#: How far apart two lines lie is looked at this often along them.
_EVERY: Mm = 5.0


def holds(outline: Path, point: Point) -> bool:
    """Return whether a closed outline goes round a point (ray casting on its polyline)."""
    inside = False
    for a, b in pairwise(outline.points()):
        if (a.y > point.y) != (b.y > point.y):
            crossing = a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)
            inside ^= crossing > point.x
    return inside


def without(
    outline: Path, lines: Iterable[tuple[Path, Mm]], frame: Box, holding: Point
) -> Path | None:
    """Return the part of a closed outline in a frame that keeps its clearance from lines.

    Each line comes with its clearance; a closed one is an area, and goes as a whole. Where the
    outline falls apart, the part that holds a given point is returned, a polygon; None if no part
    holds it. Round parts stray by less than 0.01 mm.
    """
    import shapely

    left: Any = shapely.Polygon(outline.points())
    left = left.intersection(shapely.box(frame.left, frame.top, frame.right, frame.bottom))
    for line, clearance in lines:
        points = line.points()
        shape = shapely.Polygon(points) if line.closed else shapely.LineString(points)
        left = left.difference(shape.buffer(clearance, quad_segs=48))
    for part in getattr(left, "geoms", (left,)):
        if not part.is_empty and part.covers(shapely.Point(holding)):
            return Path.through([Point(x, y) for x, y in part.exterior.coords[:-1]], closed=True)
    return None


def painted(contours: Iterable[Path], width: Mm) -> float:
    """Return the share of a shape, filled even-odd, that a disc moved inside it can reach.

    That is the area of the shape's opening by the disc (Serra, "Image Analysis and Mathematical
    Morphology", 1982) over its own, to about a thousandth.
    """
    import shapely

    shape: Any = shapely.Polygon()
    for path in contours:
        box = path.bounds()
        fine = max(box.width, box.height) / 2000
        shape = shape.symmetric_difference(shapely.Polygon(path.points(fine)))
    opened = shape.buffer(-width / 2, quad_segs=16).buffer(width / 2, quad_segs=16)
    return float(opened.area / shape.area)


def united(contours: Sequence[Path], tolerance: Mm = CHORD) -> tuple[Path, ...]:
    """Return closed contours as they are, or as the outline of their union if any overlap.

    Outer contours turn all one way and holes the other (non-zero filling); the largest is an
    outer one. The outline of a union is a polygon within the tolerance. What is returned may be
    filled by either rule.
    """
    import shapely

    shapes: list[Any] = [shapely.Polygon(path.points(tolerance)) for path in contours]
    if all(
        one.disjoint(two) or one.contains_properly(two) or two.contains_properly(one)
        for one, two in combinations(shapes, 2)
    ):
        return tuple(contours)
    areas = [path.area() for path in contours]
    turn = max(areas, key=abs)
    outer = [shape for shape, area in zip(shapes, areas, strict=True) if area * turn > 0]
    holes = [shape for shape, area in zip(shapes, areas, strict=True) if area * turn < 0]
    whole: Any = shapely.union_all(outer).difference(shapely.union_all(holes))
    rings = [
        ring
        for part in getattr(whole, "geoms", (whole,))
        for ring in (part.exterior, *part.interiors)
    ]
    return tuple(
        Path.through([Point(x, y) for x, y in ring.coords[:-1]], closed=True) for ring in rings
    )


def joined(one: Box, other: Box) -> tuple[Point, ...]:
    """Return the corners of what two boxes that overlap cover together, in order round it.

    Raises:
        ValueError: they do not overlap.
    """
    import shapely

    if not one.overlaps(other):
        raise ValueError("boxes that do not overlap have no common outline")
    boxes = [shapely.box(b.left, b.top, b.right, b.bottom) for b in (one, other)]
    ring = shapely.union_all(boxes).simplify(0.0).exterior.coords[:-1]
    # Simplifying leaves the point at which the ring begins, though it may lie on a side.
    around = zip(ring[-1:] + ring[:-1], ring, [*ring[1:], ring[0]], strict=True)
    return tuple(
        Point(x, y) for (a, b), (x, y), (c, d) in around if not (a == x == c or b == y == d)
    )


def apart(one: Path, other: Path) -> Mm:
    """Return how far one line lies beside another; 0 if one of them lies on the other.

    Of the two directed Hausdorff distances it is the smaller: that a line has become longer or
    shorter along itself does not count. Looked at every few millimetres.
    """
    import shapely

    a, b = (shapely.LineString(path.points()) for path in (one, other))
    return min(_strays(a, b), _strays(b, a))


def _strays(one: Any, other: Any) -> Mm:
    """Return how far one line goes from another."""
    import shapely

    points = shapely.points(shapely.get_coordinates(shapely.segmentize(one, _EVERY)))
    return float(shapely.distance(points, other).max())
