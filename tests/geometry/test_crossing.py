"""Paths parted where lines and circles cross them."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from jigs.geometry import Arc, Box, Cubic, Line, Path, Point
from jigs.geometry.crossing import Carrier, Round, Straight, crossings, parted
from jigs.geometry.point import distance

_NUMBER = st.floats(-50, 50).map(lambda x: round(x, 3))
_POINT = st.builds(Point, _NUMBER, _NUMBER)
_CARRIER = st.one_of(
    st.builds(Straight, st.sampled_from([0, 1]), _NUMBER),
    st.builds(Round, _POINT, st.floats(1, 40)),
)


@st.composite
def _segments(draw: st.DrawFn) -> Line | Arc | Cubic:
    a, b = draw(_POINT), draw(_POINT)
    assume(distance(a, b) > 0.5)
    kind = draw(st.sampled_from(["line", "arc", "cubic"]))
    if kind == "line":
        return Line(a, b)
    if kind == "arc":
        return Arc(a, b, draw(st.floats(0.05, 3.0)) * draw(st.sampled_from([-1, 1])))
    return Cubic(a, draw(_POINT), draw(_POINT), b)


def _off(carrier: Carrier, p: Point) -> float:
    if isinstance(carrier, Straight):
        return p[carrier.axis] - carrier.place
    return distance(p, carrier.centre) - carrier.radius


@given(_segments(), _CARRIER)
def test_crossings_lie_on_both(segment: Line | Arc | Cubic, carrier: Carrier) -> None:
    """Every crossing lies on the line or circle, and between two of them no side is changed."""
    found = crossings(segment, carrier)
    for t in found:
        assert abs(_off(carrier, segment.at(t))) < 1e-6
    for one, two in pairwise([0.0, *found, 1.0]):
        sides = {
            _off(carrier, segment.at(one + (two - one) * k / 20)) > 0
            for k in range(1, 20)
            if abs(_off(carrier, segment.at(one + (two - one) * k / 20))) > 1e-3
        }
        assert len(sides) <= 1


@given(_segments(), st.lists(_CARRIER, min_size=1, max_size=4))
def test_nothing_is_lost(segment: Line | Arc | Cubic, carriers: list[Carrier]) -> None:
    """Parts follow one another, and are as long as the whole."""
    path = Path((segment,))
    parts = parted(path, carriers)
    assert parts[0].start == path.start
    assert parts[-1].end == path.end
    for one, two in pairwise(parts):
        assert one.end == two.start
    assert math.fsum(p.length() for p in parts) == pytest.approx(path.length(), rel=1e-5)


def test_closed_path_begins_at_a_crossing() -> None:
    """A circle cut by a line comes back as its two halves, their ends exactly on the line."""
    path = Path.circle(Point(3.0, 4.0), 5.0)
    parts = parted(path, [Straight(1, 4.5)])
    assert len(parts) == 2
    assert {p.start.y for p in parts} == {4.5}
    assert all(isinstance(s, Arc) for p in parts for s in p.segments)
    areas = [shapely.Polygon(p.points(0.001)).area for p in parts]
    assert sum(areas) == pytest.approx(25 * math.pi, rel=1e-3)


def test_cut_at_a_corner_makes_no_side_of_no_length() -> None:
    """Where a line passes through a corner, the path is parted there."""
    path = Path.through([Point(0, 0), Point(10, 10), Point(20, 0)])
    parts = parted(path, [Straight(0, 10.0)])
    assert [p.segments for p in parts] == [(path.segments[0],), (path.segments[1],)]


def test_uncrossed_path_stays_the_same() -> None:
    """A path that is not crossed is given back as it is."""
    path = Path.box(Box(0, 0, 10, 10), 2.0)
    assert parted(path, [Straight(0, 20.0), Round(Point(5, 5), 1.0)]) == [path]
