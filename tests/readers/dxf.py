"""Reads a DXF file with dxfgrabber, a reader that has nothing in common with the writer."""

import math
from io import StringIO
from typing import Any

from tests.readers.contour import XY, Contour, arc_points


def contours(data: bytes) -> list[Contour]:
    """Return every entity in page mm, y down; the page's height is the upper drawing limit."""
    drawing = document(data)
    height = drawing.header["$LIMMAX"][1]
    found = []
    for entity in drawing.entities:
        points, closed = _points(entity)
        turned = [(x, height - y) for x, y in points]
        found.append(Contour(entity.layer.lower(), turned, closed))
    return found


def document(data: bytes) -> Any:
    """Return the file as dxfgrabber sees it."""
    import dxfgrabber

    return dxfgrabber.read(StringIO(data.decode("cp1252")))


def _points(entity: Any) -> tuple[list[XY], bool]:
    if entity.dxftype == "LINE":
        return [entity.start[:2], entity.end[:2]], False
    if entity.dxftype == "CIRCLE":
        return arc_points(entity.center[:2], entity.radius, 0.0, math.tau), True
    if entity.dxftype == "ARC":
        start = math.radians(entity.start_angle)
        sweep = (math.radians(entity.end_angle) - start) % math.tau
        first = arc_points(entity.center[:2], entity.radius, start - 1e-9, 1e-9)
        return first + arc_points(entity.center[:2], entity.radius, start, sweep), False
    assert entity.dxftype == "LWPOLYLINE", entity.dxftype
    corners = [(x, y) for x, y, *_ in entity.points]
    points = [corners[0]]
    sides = len(corners) if entity.is_closed else len(corners) - 1
    for k in range(sides):
        points += _side(corners[k], corners[(k + 1) % len(corners)], entity.bulge[k])
    return points, entity.is_closed


def _side(a: XY, b: XY, bulge: float) -> list[XY]:
    """Follow a polyline's side; a positive bulge turns counter-clockwise (y up)."""
    if bulge == 0:
        return [b]
    sweep = 4 * math.atan(bulge)
    chord = math.dist(a, b)
    radius = chord / 2 / math.sin(abs(sweep) / 2)
    # The middle lies on the left of the chord for a short counter-clockwise arc.
    away = math.copysign(1.0, bulge) * radius * math.cos(abs(sweep) / 2)
    left = (-(b[1] - a[1]) / chord, (b[0] - a[0]) / chord)
    centre = ((a[0] + b[0]) / 2 + left[0] * away, (a[1] + b[1]) / 2 + left[1] * away)
    start = math.atan2(a[1] - centre[1], a[0] - centre[0])
    return arc_points(centre, radius, start, sweep)
