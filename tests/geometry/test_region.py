import math

import pytest
from hypothesis import given, settings

from jigs.geometry import Box, Path, Point
from jigs.geometry.region import apart, holds, united, without
from tests.strategies import outlines, points

WIDE = Box(-1000, -1000, 1000, 1000)
PLATE = Path.box(Box(0, 0, 100, 60))


@given(outlines(), points(130))
@settings(max_examples=25)
def test_holding_a_point_is_shapelys(outline: Path, p: Point) -> None:
    """Inside or outside, except within the chords' 0.02 mm of the outline itself."""
    import shapely

    polygon, place = shapely.Polygon(outline.points(0.001)), shapely.Point(p)
    if polygon.exterior.distance(place) > 0.03:
        assert holds(outline, p) is bool(polygon.contains(place))
        assert holds(outline.reversed(), p) is holds(outline, p)


def test_without_anything_the_outline_is_left() -> None:
    """No lines, no change; a frame cuts off what is outside it."""
    whole = without(PLATE, [], WIDE, Point(50, 30))
    framed = without(PLATE, [], Box(10, -99, 40, 50), Point(20, 30))

    assert whole is not None
    assert abs(whole.area()) == pytest.approx(6000)
    assert framed is not None
    assert framed.bounds() == Box(10, 0, 40, 50)


def test_a_line_takes_its_clearance_on_both_sides() -> None:
    """The lower side takes a strip, a point in the middle a disc, to 0.01 mm; both by hand."""
    side = Path.through([Point(-50, 60), Point(150, 60)])
    strip = without(PLATE, [(side, 7)], WIDE, Point(50, 30))
    spot = Path.through([Point(99.999, 30), Point(100, 30)])
    bitten = without(PLATE, [(spot, 20)], WIDE, Point(50, 30))

    assert strip is not None
    assert strip.bounds() == pytest.approx(Box(0, 0, 100, 53)) or strip.bounds().bottom == 53
    assert abs(strip.area()) == pytest.approx(5300)
    assert bitten is not None
    assert abs(bitten.area()) == pytest.approx(6000 - math.pi * 200, abs=0.01 * math.pi * 20 + 0.1)


def test_the_part_that_holds_the_place_is_left() -> None:
    """A line across cuts the plate in two, and the place decides; on the line nothing is left."""
    across = Path.through([Point(30, -10), Point(30, 70)])
    left = without(PLATE, [(across, 5)], WIDE, Point(10, 30))
    right = without(PLATE, [(across, 5)], WIDE, Point(90, 30))

    assert left is not None
    assert right is not None
    assert left.bounds().right == pytest.approx(25)
    assert right.bounds().left == pytest.approx(35)
    assert without(PLATE, [(across, 5)], WIDE, Point(31, 30)) is None
    assert without(PLATE, [], WIDE, Point(150, 30)) is None
    assert without(PLATE, [(across, 500)], WIDE, Point(90, 30)) is None
    assert without(PLATE, [], Box(200, 200, 300, 300), Point(90, 30)) is None


def test_contours_that_do_not_overlap_stay_as_they_are() -> None:
    """Contours beside and inside one another come back as the same values, curves and all."""
    ring = [Path.circle(Point(0, 0), 50), Path.circle(Point(0, 0), 40).reversed()]
    assert united([*ring, Path.circle(Point(200, 0), 20)])[:2] == tuple(ring)


def test_contours_that_overlap_become_one() -> None:
    """Two squares that overlap by a quarter are one outline of their union's area, by hand."""
    one, two = Path.box(Box(0, 0, 10, 10)), Path.box(Box(5, 5, 15, 15))
    (whole,) = united([one, two])
    assert abs(whole.area()) == pytest.approx(175)
    assert whole.closed


def test_a_hole_stays_a_hole() -> None:
    """An outline that turns the other way is a hole still, once others have been united."""
    plate, hole = Path.box(Box(0, 0, 30, 30)), Path.box(Box(5, 5, 10, 10)).reversed()
    found = united([plate, hole, Path.box(Box(20, 20, 40, 40))])
    assert sorted(round(abs(path.area())) for path in found) == [25, 900 + 400 - 100]


def test_lines_lie_apart_beside_themselves_only() -> None:
    """A longer line is not apart from a shorter one on it; a shifted one is, by its shift."""
    short, long = (Path.through([Point(0, 0), Point(x, 0)]) for x in (60, 100))
    assert apart(short, long) == apart(long, short) == 0
    shifted = Path.through([Point(10, 3), Point(90, 3)])
    assert apart(shifted, long) == apart(long, shifted) == pytest.approx(3)
    # A box that is wider on both sides: its corners alone would not show it.
    assert apart(PLATE, Path.box(Box(-2, 0, 102, 60))) == pytest.approx(2)
