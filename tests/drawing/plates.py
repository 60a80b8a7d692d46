"""Drawings as polygons, by shapely: what is left of a plate when its outlines are cut."""

from collections.abc import Iterable
from typing import Any

import shapely

from jigs.drawing.drawing import Drawing, Layer, Text
from jigs.drawing.lower import strokes
from jigs.geometry import Path

#: Chords so fine that areas and distances are good to a thousandth of a millimetre.
FINE = 0.0005


def material(drawing: Drawing, fine: float = FINE) -> Any:
    """Return the plates of a drawing, holes left out (even-odd)."""
    left = shapely.Polygon()
    for shape in drawing.shapes(Layer.CUT):
        left = left.symmetric_difference(shapely.Polygon(shape.path.points(fine)))
    return left


def lines(drawing: Drawing, *layers: Layer) -> list[Path]:
    """Return all lines on layers that are not cut, words as their strokes."""
    wanted = layers or (Layer.ENGRAVE, Layer.SCORE, Layer.NOTE)
    found = [shape.path for shape in drawing.shapes(*wanted)]
    for entity in drawing.on(*wanted):
        if isinstance(entity, Text):
            found += [stroke.path for stroke in strokes(entity)]
    return found


def length(paths: Iterable[Path]) -> float:
    """Return the length of lines together."""
    return sum(path.length() for path in paths)


def outline_gap(one: Any, other: Any) -> float:
    """Return how far the outlines of two shapes stray from one another, both ways."""

    def way(a: Any, b: Any) -> float:
        points = shapely.points(shapely.get_coordinates(shapely.segmentize(a, 0.5)))
        return float(shapely.distance(points, b).max())

    a, b = one.boundary, other.boundary
    return max(way(a, b), way(b, a))
