import math

import pytest
from hypothesis import assume, given, settings

from jigs.geometry import Arc, Box, Cubic, Line, Path, Point
from jigs.geometry.offset import parallel
from tests.strategies import numbers, outlines

FINE = 0.002


@given(outlines(), numbers(0.02, 0.6))
@settings(max_examples=25)
def test_parallels_are_shapelys_buffers(path: Path, by: float) -> None:
    """Outwards with round joins, and inwards, in area and in Hausdorff distance."""
    import shapely

    polygon = shapely.Polygon(path.points(FINE))
    for outwards in (by, -by):
        made = parallel(path, outwards)
        theirs = polygon.buffer(outwards, quad_segs=64)
        ours = shapely.Polygon(made.points(FINE))

        assert made.closed
        assert ours.is_valid
        assert (made.area() > 0) == (path.area() > 0)
        # A polyline leaves out up to two thirds of its chord error along the way.
        assert abs(made.area()) == pytest.approx(theirs.area, abs=FINE * made.length())
        apart = shapely.hausdorff_distance(ours.exterior, theirs.exterior)
        # Where sides meet at 30 degrees, an error across them is four times as long along them.
        assert apart <= 10 * FINE


@given(outlines(), numbers(0.02, 0.6))
@settings(max_examples=25)
def test_out_and_in_again_is_the_outline(path: Path, by: float) -> None:
    """What was moved out comes back: corners turned into arcs shrink to corners of no radius.

    An arc of the radius it was moved by would shrink to a point, so it goes back a little less.
    """
    import shapely

    share = 0.999
    back = parallel(parallel(path, by), -by * share)
    left = by * (1 - share)

    ours, theirs = shapely.Polygon(back.points(FINE)), shapely.Polygon(path.points(FINE))
    assert ours.symmetric_difference(theirs).area <= (2 * left + 3 * FINE) * path.length()


@given(numbers(5, 300), numbers(5, 300), numbers(0.5, 2), numbers(0.01, 0.4))
def test_a_rounded_box_keeps_its_kind(
    width: float, height: float, radius: float, by: float
) -> None:
    """Moved out or in it is the larger or smaller rounded box, arc for arc."""
    box = Box(0, 0, width, height)
    path = Path.box(box, radius)

    for outwards in (by, -by):
        made = parallel(path, outwards)
        expected = Path.box(box.grown(outwards), radius + outwards)
        assert len(made.segments) == len(path.segments)
        assert made.area() == pytest.approx(expected.area(), rel=1e-9)
        assert made.bounds().holds(expected.bounds(), 1e-7)
        assert expected.bounds().holds(made.bounds(), 1e-7)


def test_areas_by_hand() -> None:
    """A square 10 x 10 by 1: out A + P + π (Steiner's formula), in 8 x 8; a disc π (r ± 1)²."""
    square, disc = Path.box(Box(0, 0, 10, 10)), Path.circle(Point(3, 4), 5)

    assert parallel(square, 1).area() == pytest.approx(100 + 40 + math.pi)
    assert parallel(square, -1).area() == pytest.approx(64)
    assert parallel(square.reversed(), 1).area() == pytest.approx(-100 - 40 - math.pi)
    assert parallel(disc, 1).area() == pytest.approx(36 * math.pi)
    assert parallel(disc, -1).area() == pytest.approx(16 * math.pi)


def test_a_notch_widens_and_narrows() -> None:
    """A plate with a notch, by hand: the notch loses half the distance on every side.

    100 x 50 with a notch 10 wide, 5 deep in its upper side, moved out by 0.1: the six outer
    corners gain a quarter disc each, the two inner ones are plain corners of the same angle.
    """
    corners = [(0, 0), (45, 0), (45, 5), (55, 5), (55, 0), (100, 0), (100, 50), (0, 50)]
    plate = Path.through([Point(*p) for p in corners], closed=True)
    perimeter, area, by = 310.0, 4950.0, 0.1

    # An inner corner of 90 degrees takes by² from the strip, an outer one adds π by²/4.
    out = area + perimeter * by + 6 * math.pi / 4 * by**2 - 2 * by**2
    into = area - perimeter * by + 6 * by**2 - 2 * math.pi / 4 * by**2
    assert parallel(plate, by).area() == pytest.approx(out)
    assert parallel(plate, -by).area() == pytest.approx(into)


def test_too_large_a_distance_is_refused() -> None:
    """A side or an arc that would turn inside out is named; nothing crooked is returned."""
    with pytest.raises(ValueError, match="too short"):
        parallel(Path.box(Box(0, 0, 10, 4)), -2.1)
    with pytest.raises(ValueError, match="radius"):
        parallel(Path.box(Box(0, 0, 10, 10), 2), -2)
    with pytest.raises(ValueError, match="radius"):
        parallel(Path.circle(Point(0, 0), 5), -5)
    with pytest.raises(ValueError, match="radius"):
        parallel(Path.circle(Point(0, 0), 5), -11)


@pytest.mark.parametrize("by", [0.4, -0.4])
def test_small_arcs_grow_on_their_outer_side(by: float) -> None:
    """A hollow of radius 0.3 widens inwards by any distance, and closes up outwards at 0.3.

    A square with a half disc cut out of its upper side; a corner of radius 0.3 is its opposite.
    """
    a, b = Point(9.7, 0), Point(10.3, 0)
    corners = [Point(20, 0), Point(20, 20), Point(0, 20), Point(0, 0), a]
    hollow = Path((Arc(a, b, -1.0), *Path.through([b, *corners]).segments))
    bump = Path((Arc(a, b, 1.0), *Path.through([b, *corners]).segments))
    grows, vanishes = (bump, hollow) if by > 0 else (hollow, bump)

    made = parallel(grows, by)
    assert any(isinstance(s, Arc) and s.radius == pytest.approx(0.7) for s in made.segments)
    with pytest.raises(ValueError, match="radius"):
        parallel(vanishes, by)


def test_only_closed_lines_and_arcs_have_a_parallel() -> None:
    """Cubics are refused, and so is an open path."""
    a, b, c = Point(0, 0), Point(10, 0), Point(5, 9)
    with pytest.raises(TypeError, match="arcs"):
        parallel(Path((Cubic(a, Point(3, 1), Point(7, 1), b), Line(b, c), Line(c, a))), 0.1)
    with pytest.raises(ValueError, match="open"):
        parallel(Path((Line(a, b), Line(b, c))), 0.1)


def test_a_spike_is_refused() -> None:
    """An outline that runs back on itself has no outer side there."""
    a, b, c, d = Point(0, 0), Point(10, 0), Point(5, 0), Point(5, 9)
    spike = Path.through([a, b, c, d], closed=True)
    with pytest.raises(ValueError, match=r"folds back|does not close"):
        parallel(spike, 0.1)


@given(outlines())
@settings(max_examples=25)
def test_no_distance_is_no_change(path: Path) -> None:
    """Moved by nothing every piece is where it was."""
    made = parallel(path, 0.0)

    assume(len(made.segments) == len(path.segments))
    for ours, theirs in zip(made.segments, path.segments, strict=True):
        assert isinstance(ours, Arc) is isinstance(theirs, Arc)
        assert ours.at(0.5) == pytest.approx(theirs.at(0.5), abs=1e-6)
