"""Regions of the plane as polygons: what a panel leaves when its seams are kept clear of."""

from collections.abc import Iterable, Sequence
from typing import Any

from jigs.geometry.path import Path
from jigs.geometry.point import Point
from jigs.units import Mm


def without(
    outline: Path, lines: Iterable[tuple[Sequence[Point], Mm]], holding: Point
) -> Path | None:
    """Return the part of a closed outline that keeps its clearance from lines, as a polygon.

    Each line comes with its clearance. Where the outline falls apart, the part that holds a
    given point is returned; None if no part holds it. Round parts stray by less than 0.01 mm.
    """
    import shapely

    left: Any = shapely.Polygon(outline.points())
    for line, clearance in lines:
        left = left.difference(shapely.LineString(line).buffer(clearance, quad_segs=48))
    for part in getattr(left, "geoms", (left,)):
        if not part.is_empty and part.covers(shapely.Point(holding)):
            return Path.through([Point(x, y) for x, y in part.exterior.coords[:-1]], closed=True)
    return None
