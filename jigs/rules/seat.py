"""The edge that seats on the garment, and the window, as the drawing really has them."""

from collections.abc import Iterator, Sequence
from typing import Any

from jigs.drawing.drawing import Drawing, Layer
from jigs.geometry import Box, Line, Path, Point
from jigs.rules.outlines import Contour, flat, size
from jigs.rules.violation import SLACK, Facts, Violation
from jigs.units import Mm

#: The plate's outline keeps to the edge so closely.
TRUE: Mm = 0.01
#: Nothing else that is cut or scored comes so near to the engaged edge.
CLEAN: Mm = 2.0
#: Chords of edge and outline stray so little that a tenth of `TRUE` is left for them.
_FINE: Mm = 0.001


def seat_faults(drawing: Drawing, contours: Sequence[Contour], facts: Facts) -> Iterator[Violation]:
    """Yield where the outline leaves the engaged edge, and what else lies on it or near it."""
    import shapely

    outer = [one for one in contours if one.depth == 0]
    if facts.seat is None or not outer:
        return
    edge = _engaged(facts.seat, facts.engaged)
    if edge.is_empty:
        yield Violation("seat", "the plate does not reach its seat edge", facts.seat.bounds())
        return
    outlines = shapely.union_all([shapely.LineString(one.path.points(_FINE)) for one in outer])
    points = shapely.points(shapely.get_coordinates(shapely.segmentize(edge, 0.5)))
    gaps = shapely.distance(points, outlines)
    worst = int(gaps.argmax())
    if gaps[worst] > TRUE + 2 * _FINE:
        says = (
            f"the outline strays from its seat edge by {gaps[worst]:.2f} mm, more than {TRUE:g} mm"
        )
        yield Violation("seat", says, Point(points[worst].x, points[worst].y))
    # One cubic of the outline may bear the edge; holes and scores are other lines.
    others = [one.path for one in contours if one.depth > 0]
    others += [shape.path for shape in drawing.shapes(Layer.SCORE)]
    for path in others:
        yield from _near(path, edge)


def _near(path: Path, edge: Any) -> Iterator[Violation]:
    import shapely

    line = shapely.shortest_line(edge, shapely.LineString(flat(path)))
    if line.length < CLEAN - SLACK:
        says = f"another line lies {line.length:.2f} mm from the seat edge, less than {CLEAN:g} mm"
        yield Violation("seat", says, Point(*line.coords[0]))


def _engaged(seat: Path, span: tuple[Mm, Mm] | None) -> Any:
    import shapely

    line = shapely.LineString(seat.points(_FINE))
    if span is None:
        return line
    _, top, _, bottom = line.bounds
    left, right = span
    if left >= right:
        return shapely.LineString()
    return line.intersection(shapely.box(left, top - 1.0, right, bottom + 1.0))


def window_faults(contours: Sequence[Contour], facts: Facts) -> Iterator[Violation]:
    """Yield that no hole is the window; the webs round it are told as all webs are.

    A hole is judged by its straight sides: corners may be rounded, or relieved beyond the window.
    """
    holes = [one for one in contours if one.hole]
    windows = facts.windows
    if len(windows) > 1 and windows[0].overlaps(windows[1]):
        if not any(_both(one, windows, facts.least_inner) for one in holes):
            said = " and ".join(size(window) for window in windows)
            says = f"the windows of {said} are not cut inside the plate as one opening"
            yield Violation("window", says, Box.of_all(windows))
        return
    for window in windows:
        if not any(_alike(window, box) for one in holes for box in _straight(one.path)):
            says = f"the window of {size(window)} is not cut inside the plate"
            yield Violation("window", says, window)


def _both(hole: Contour, windows: Sequence[Box], inner: Mm) -> bool:
    """Return whether a hole is what windows cover together, but for the rounding of its corners."""
    import shapely

    whole = shapely.union_all([shapely.box(b.left, b.top, b.right, b.bottom) for b in windows])
    corners = shapely.MultiPoint(shapely.get_coordinates(whole))
    off = shapely.Polygon(flat(hole.path)).symmetric_difference(whole)
    # A corner's rounding leaves its sides at its radius from the corner.
    return bool(off.difference(corners.buffer(inner + TRUE)).buffer(-TRUE / 2).is_empty)


def _straight(path: Path) -> list[Box]:
    """Return the box of an outline's straight sides, if it has any."""
    sides = [one.bounds() for one in path.segments if isinstance(one, Line)]
    return [Box.of_all(sides)] if sides else []


def _alike(one: Box, other: Box) -> bool:
    return one.holds(other, TRUE) and other.holds(one, TRUE)
