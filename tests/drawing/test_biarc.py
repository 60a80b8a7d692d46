import math

from hypothesis import given
from hypothesis import strategies as st

from jigs.drawing.biarc import biarcs
from jigs.geometry import Arc, Cubic, Line, Path, Point
from jigs.geometry.point import distance

TOLERANCE = 0.01

coordinates = st.floats(-300, 300, allow_nan=False).map(lambda v: round(v, 3))
points = st.builds(Point, coordinates, coordinates)


@given(points, points, points, points)
def test_arcs_stay_within_the_tolerance(a: Point, p: Point, q: Point, b: Point) -> None:
    """No place of a cubic is farther than 0.01 mm from its arcs, nor of the arcs from it."""
    from shapely.geometry import LineString

    cubic = Cubic(a, p, q, b)
    fitted = biarcs(cubic, TOLERANCE)

    true = [cubic.at(k / 2000) for k in range(2001)]
    drawn = [point for s in fitted for point in s.points(0.001)]
    one, two = LineString(true), LineString([a, *drawn])
    # A chord of the two polylines strays too: on these by no more than 0.001 mm.
    from shapely import points as places

    assert max(two.distance(places(true))) <= TOLERANCE + 0.001
    assert max(one.distance(places(drawn))) <= TOLERANCE + 0.001


@given(points, points, points, points)
def test_ends_are_exact_and_the_path_joins(a: Point, p: Point, q: Point, b: Point) -> None:
    """The arcs start and end in the cubic's own points and join exactly."""
    path = Path(tuple(biarcs(Cubic(a, p, q, b), TOLERANCE)))

    assert path.start == a
    assert path.end == b


@given(points, points, points, points)
def test_directions_at_the_ends_are_the_cubics(a: Point, p: Point, q: Point, b: Point) -> None:
    """Where a handle is long enough to have a direction, the arc leaves and arrives in it."""
    if min(distance(a, p), distance(q, b)) < 1:
        return
    fitted = biarcs(Cubic(a, p, q, b), TOLERANCE)

    leaves, arrives = direction(fitted[0], 0.0), direction(fitted[-1], 1.0)
    assert abs(leaves.cross(p.minus(a).unit())) < 1e-3
    assert abs(arrives.cross(b.minus(q).unit())) < 1e-3


def direction(segment: Line | Arc, t: float) -> Point:
    """Return the unit tangent of a segment."""
    return segment.tangent(t).unit()


def test_fewer_arcs_than_chords() -> None:
    """A collar's curve takes less than a third of the pieces a polyline of its tolerance takes."""
    collar = Cubic(Point(-90, 0), Point(-70, 80), Point(70, 80), Point(90, 0))

    assert len(biarcs(collar, TOLERANCE)) * 3 <= len(collar.points(TOLERANCE))


def test_a_straight_cubic_is_a_line() -> None:
    """Handles on the chord make a line, not an arc of an endless radius."""
    cubic = Cubic(Point(0, 0), Point(10, 5), Point(20, 10), Point(30, 15))

    assert biarcs(cubic, TOLERANCE) == [Line(Point(0, 0), Point(30, 15))]


def test_a_quarter_of_a_circle_comes_back_as_one_radius() -> None:
    """The cubic nearest to a quarter circle is fitted with two arcs of nearly its radius."""
    k = 4 / 3 * math.tan(math.pi / 8)
    quarter = Cubic(Point(50, 0), Point(50, 50 * k), Point(50 * k, 50), Point(0, 50))
    fitted = biarcs(quarter, 0.02)

    assert len(fitted) == 2
    assert all(isinstance(s, Arc) and abs(s.radius - 50) < 0.1 for s in fitted)
