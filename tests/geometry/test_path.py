import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.geometry import Affine, Arc, Box, Cubic, Line, Path, Point
from jigs.geometry.path import rounded
from jigs.geometry.point import distance
from tests.strategies import fair_cubics, numbers, outlines, points, similarities

BOX = Box(-30, 10, 70, 60)


@given(numbers(-200, 200), numbers(-200, 200), numbers(1, 400), numbers(1, 400), st.floats(0, 1))
def test_a_box_has_round_corners(
    left: float, top: float, width: float, height: float, share: float
) -> None:
    """Its area is the box less (4 - π) r², its bounds the box, and no piece is of no length."""
    box = Box(left, top, left + width, top + height)
    radius = share * min(box.width, box.height) / 2
    path = Path.box(box, radius)

    assert path.closed
    assert path.area() == pytest.approx(box.width * box.height - (4 - math.pi) * radius**2)
    straight = 2 * (box.width + box.height) - 8 * radius
    assert path.length() == pytest.approx(straight + math.tau * radius, rel=1e-7)
    assert path.bounds().holds(box, 1e-9)
    assert box.holds(path.bounds(), 1e-9)
    for segment in path.segments:
        if isinstance(segment, Arc):
            assert segment.radius == pytest.approx(radius, rel=1e-5)


def test_a_box_may_be_all_corners() -> None:
    """A square rounded by half its side is a circle of four arcs; a longer box a stadium."""
    circle, stadium = Path.box(Box(0, 0, 10, 10), 5), Path.box(Box(0, 0, 30, 10), 5)

    assert [type(segment) for segment in circle.segments] == [Arc] * 4
    assert circle.area() == pytest.approx(25 * math.pi)
    assert sum(isinstance(segment, Line) for segment in stadium.segments) == 2
    assert Path.circle(Point(5, 5), 5).area() == pytest.approx(25 * math.pi)
    assert Path.circle(Point(5, 5), 5).bounds() == Box(0, 0, 10, 10)


def test_a_box_without_a_radius_is_four_lines() -> None:
    """It turns from +x towards +y, so that its area is positive."""
    path = Path.box(BOX)

    assert path == Path.through(BOX.corners(), closed=True)
    assert path.area() == 5000


@pytest.mark.parametrize("radius", [-1, 25.001, 1000, math.inf])
def test_a_radius_that_does_not_fit_is_refused(radius: float) -> None:
    """Corners neither overlap nor turn inside out."""
    with pytest.raises(ValueError, match="does not fit"):
        Path.box(BOX, radius)


@given(st.tuples(*[numbers(0, 4)] * 6))
def test_corners_of_both_kinds_are_rounded(radii: tuple[float, ...]) -> None:
    """Every arc of an L touches both its sides and turns by a right angle; the area is by hand."""
    corners = [Point(x, y) for x, y in ((0, 0), (40, 0), (40, 20), (20, 20), (20, 30), (0, 30))]
    path = rounded(corners, radii)

    turned = [s for s in path.segments if isinstance(s, Arc)]
    assert len(turned) == sum(radius > 0 for radius in radii)
    assert path.area() == pytest.approx(
        40 * 20 + 20 * 10 - (1 - math.pi / 4) * sum(
            (-1 if k == 3 else 1) * radius**2 for k, radius in enumerate(radii)
        )
    )  # fmt: skip
    for one, two in pairwise(path.segments):
        if isinstance(one, Arc) is not isinstance(two, Arc):
            assert one.tangent(1).unit() == pytest.approx(two.tangent(0).unit(), abs=1e-6)
    with pytest.raises(ValueError, match="do not fit"):
        rounded(corners, (11,) * 6)


@given(outlines())
@settings(max_examples=25)
def test_area_and_length_are_shapelys(path: Path) -> None:
    """To what the chords of a fine polyline leave out; the sign tells the way round."""
    import shapely

    ring = shapely.LinearRing(path.points(0.001))

    assert abs(path.area()) == pytest.approx(shapely.Polygon(ring).area, abs=0.7)
    # Shapely calls a turn from +x towards +y counter-clockwise: its y points up.
    assert (path.area() > 0) == ring.is_ccw
    assert path.length() == pytest.approx(ring.length, abs=0.01)
    left, top, right, bottom = ring.bounds
    assert path.bounds().holds(Box(left, top, right, bottom), 1e-9)
    assert Box(left, top, right, bottom).holds(path.bounds(), 0.001)


@given(outlines(), similarities())
@settings(max_examples=25)
def test_area_grows_by_the_determinant(path: Path, drawn: tuple[Affine, float]) -> None:
    """Also mirrored, and twice run backwards it is the same."""
    by, factor = drawn
    image = path.moved(by)

    assert image.closed
    assert image.area() == pytest.approx(by.determinant * path.area(), rel=1e-7, abs=1e-6)
    assert image.length() == pytest.approx(factor * path.length(), rel=1e-9)
    assert path.reversed().reversed() == path
    assert path.reversed().area() == pytest.approx(-path.area())


@given(fair_cubics(), st.sampled_from((0.1, 0.02, 0.005)))
def test_a_polyline_starts_and_ends_with_its_path(cubic: Cubic, tolerance: float) -> None:
    """Its points are the path's own ends, with no repetition at a join."""
    path = Path((*cubic.split(0.4), Line(cubic.b, cubic.b.plus(Point(7, 0)))))
    found = path.points(tolerance)

    assert (found[0], found[-1]) == (path.start, path.end)
    assert found.count(path.segments[0].b) == 1
    assert len(found) >= len(path.segments) + 1


@given(st.lists(points(), min_size=2, max_size=6, unique=True))
def test_a_path_goes_through_its_points(chain: list[Point]) -> None:
    """Open as given, closed with one side more; a point given twice over is passed once."""
    path = Path.through(chain)

    assert path.points() == chain
    assert not path.closed
    assert Path.through([p for p in chain for _ in (0, 1)]) == path
    assert Path.through(chain, closed=True).closed
    assert path.then(Path.through([chain[-1], chain[0]])) == Path.through(chain, closed=True)
    with pytest.raises(ValueError, match="no area"):
        path.area()


def test_a_broken_path_is_refused() -> None:
    """Neighbours share their end to the last bit; nothing at all is no path."""
    a, b = Point(0, 0), Point(1, 1)
    near = Point(1, math.nextafter(1, 2))
    with pytest.raises(ValueError, match="broken"):
        Path((Line(a, b), Line(near, a)))
    with pytest.raises(ValueError, match="broken"):
        Path.through([a, b]).then(Path.through([a, b]))
    with pytest.raises(ValueError, match="needs a segment"):
        Path(())
    with pytest.raises(ValueError, match="needs a segment"):
        Path.through([a, a])
    assert distance(b, near) < 1e-15
