"""Keys: their shape, their clearance, and that they lock."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from jigs.drawing.joint import Joint, Key, Knob, knobs, letters
from jigs.geometry import Arc, Path, Point
from tests.drawing.plates import FINE

KNOBS = [knob for web in (2.0, 5.0, 8.0) for inner in (0.5, 1.5, 3.0) for knob in knobs(web, inner)]


def _shape(knob: Knob) -> shapely.Polygon:
    path = Path(knob.segments())
    return shapely.Polygon(path.points(FINE))


@pytest.mark.parametrize("knob", KNOBS)
def test_outline_has_no_corner_and_no_sharp_fillet(knob: Knob) -> None:
    """A key's arcs run into one another and into the shoulders, and keep their radii."""
    arcs = knob.segments()
    level = Point(1.0, 0.0)
    turns = [level, *(arc.tangent(t).unit() for arc in arcs for t in (0.0, 1.0)), level]
    for one, two in list(pairwise(turns))[::2]:
        assert one.cross(two) == pytest.approx(0.0, abs=1e-9)
        assert one.dot(two) > 0
    assert [arc.radius for arc in arcs] == pytest.approx([knob.fillet, knob.head, knob.fillet])
    assert arcs[1].at(0.5).y == pytest.approx(knob.depth)


@pytest.mark.parametrize("knob", KNOBS)
def test_head_is_wider_than_neck(knob: Knob) -> None:
    """The widest of a key lies beyond its narrowest: measured on its polygon."""
    shape = _shape(knob)
    heights = [knob.depth * k / 200 for k in range(1, 200)]

    def width(v: float) -> float:
        return float(shape.intersection(shapely.LineString([(-50, v), (50, v)])).length)

    low = min(heights[: 200 * 2 // 3], key=width)
    assert width(low) == pytest.approx(2 * knob.neck, abs=0.01)
    assert max(width(v) for v in heights if v > low) > width(low) + 2.0


@given(st.sampled_from(KNOBS), st.floats(0.0, 0.25))
def test_key_keeps_its_clearance_in_the_socket(knob: Knob, by: float) -> None:
    """A smaller key lies in its socket, a gap from head and neck, and meets the shoulders."""
    small = knob.smaller(by)
    assert small.foot <= knob.foot + 1e-9
    assert small.fillet >= knob.fillet - 1e-9
    inner, outer = _shape(small), _shape(knob)
    assert inner.difference(outer.buffer(2 * FINE)).area < 1e-6
    arcs = small.segments()
    head = shapely.LineString([*Path(arcs[1:2]).points(FINE)])
    assert head.distance(outer.exterior) == pytest.approx(by, abs=3 * FINE) or by == 0
    assert small.neck == pytest.approx(knob.neck - by)


@given(
    st.sampled_from(KNOBS),
    st.sampled_from([0, 1]),
    st.sampled_from([-1, 1]),
    st.floats(-12, 12),
    st.floats(-20, 20),
)
def test_side_agrees_with_the_polygon(knob: Knob, axis: int, out: int, u: float, v: float) -> None:
    """On which side of a joint a point lies is what the polygon of its path says."""
    joint = Joint(axis, 3.0, (Key(1.0, out, knob),), 0.2)

    def at(along: float, across: float) -> Point:
        return Point(along, across) if axis == 1 else Point(across, along)

    for of in (-1, 1):
        path = joint.path(at(-40.0, 3.0), at(40.0, 3.0), of)
        far = [at(40.0, 60.0), at(-40.0, 60.0)]
        beyond = shapely.Polygon([*path.points(FINE), *far])
        point = at(1.0 + u, 3.0 + v)
        if beyond.exterior.distance(shapely.Point(point)) > 0.01:
            assert (joint.side(point, of) > 0) == beyond.covers(shapely.Point(point))


def test_path_runs_back_the_same_way() -> None:
    """A joint run from its end to its start is the same line."""
    keys = tuple(Key(at, out, KNOBS[0]) for at, out in ((20.0, 1), (60.0, -1)))
    joint = Joint(0, 7.0, keys, 0.0)
    a, b = Point(7.0, 0.0), Point(7.0, 90.0)
    path = joint.path(a, b, -1)
    assert joint.path(b, a, -1) == path.reversed()
    assert sum(isinstance(s, Arc) for s in path.segments) == 6
    assert joint.path(a, b, 1) == path


def test_letters_go_on_after_z() -> None:
    """Joints are called A to Z, then AA, AB."""
    named = list(letters(28))
    assert named[:2] == ["A", "B"]
    assert named[25:] == ["Z", "AA", "AB"]
    assert len(set(letters(800))) == 800
    assert math.isfinite(len(named))
