"""Whether two drawings are the same: not by their bytes but by how far their lines stray."""

from pathlib import Path

import shapely

from tests.readers import svg

#: Lines that stray by less are the same.
SAME = 0.01


def assert_same(kept: bytes, fresh: bytes, report: Path) -> None:
    """Check that each layer of two SVG files has the same lines, both ways, within 0.01 mm.

    Where not, a picture with the old lines in grey and the new in red is written to `report`.
    """
    old, new = _layers(kept), _layers(fresh)
    apart = []
    for layer in sorted(old.keys() | new.keys()):
        a = old.get(layer, shapely.MultiLineString())
        b = new.get(layer, shapely.MultiLineString())
        strays = max(_strays(a, b), _strays(b, a))
        if strays > SAME:
            apart.append(f"{layer} strays by {strays:.3f} mm")
    if apart:
        _draw(report, old, new)
        raise AssertionError(f"{', '.join(apart)}; see {report}")


def _layers(data: bytes) -> dict[str, shapely.Geometry]:
    lines: dict[str, list[shapely.LineString]] = {}
    for found in svg.contours(data):
        points = [*found.points, found.points[0]] if found.closed else found.points
        lines.setdefault(found.layer or "", []).append(shapely.LineString(points))
    return {layer: shapely.MultiLineString(parts) for layer, parts in lines.items()}


def _strays(one: shapely.Geometry, other: shapely.Geometry) -> float:
    """Return how far the points of one go from the other; a missing layer is far away."""
    if one.is_empty:
        return 0.0
    if other.is_empty:
        return float("inf")
    points = shapely.points(shapely.get_coordinates(one))
    shapely.prepare(other)
    return float(shapely.distance(points, other).max())


def _draw(path: Path, old: dict[str, shapely.Geometry], new: dict[str, shapely.Geometry]) -> None:
    every = shapely.union_all([*old.values(), *new.values()])
    left, top, right, bottom = every.bounds
    parts = [
        f'<polyline points="{" ".join(f"{x:.3f},{y:.3f}" for x, y in line.coords)}" '
        f'fill="none" stroke="{colour}" stroke-width="0.3"/>'
        for layers, colour in ((old, "#999"), (new, "#d00"))
        for group in layers.values()
        for line in group.geoms
    ]
    box = f"{left - 5} {top - 5} {right - left + 10} {bottom - top + 10}"
    path.write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">{"".join(parts)}</svg>',
        encoding="utf-8",
    )
