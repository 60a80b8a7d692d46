import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jigs.geometry import Point
from jigs.geometry.inscribe import widest
from tests.strategies import numbers, points

ANCHOR = Point(5.0, 20.0)
chains = st.lists(points(150), min_size=2, max_size=6, unique=True)
aspects = st.sampled_from((0.2, 0.5, 1.0, 2.0, 3.7))
clearances = st.sampled_from((0.0, 0.5, 12.7, 30.0))


def box_gap(width: float, aspect: float, *, hangs: bool, line: list[Point]) -> float:
    """Return the distance of a box's inside from a polyline, as shapely measures it."""
    import shapely

    x, y = ANCHOR
    down = width / aspect if hangs else -width / aspect
    box = shapely.box(x - width / 2, min(y, y + down), x + width / 2, max(y, y + down))
    return float(shapely.distance(box, shapely.LineString(line)))


def brute(aspect: float, clearance: float, *, hangs: bool, line: list[Point]) -> float:
    """Return the least width that reaches one of many points of a polyline, by bisection."""
    found = []
    for a, b in pairwise(line):
        t = np.linspace(0, 1, 1500)
        x = np.abs(a.x + (b.x - a.x) * t - ANCHOR.x)
        y = (a.y + (b.y - a.y) * t - ANCHOR.y) * (1 if hangs else -1)
        low, high = np.zeros_like(t), np.full_like(t, 4000.0)
        for _ in range(45):
            w = (low + high) / 2
            gap = np.hypot(np.maximum(x - w / 2, 0), np.maximum(np.maximum(y - w / aspect, -y), 0))
            low, high = np.where(gap > clearance, w, low), np.where(gap > clearance, high, w)
        found.append(float(np.min(high)))
    return min(found)


@given(chains, aspects, clearances, st.booleans())
def test_the_width_is_that_of_a_dense_search(
    line: list[Point], aspect: float, clearance: float, hangs: bool
) -> None:
    """Points at every hundredth of a segment or closer, each reached by bisection, find it too."""
    found = widest(ANCHOR, aspect, hangs=hangs, line=line, clearance=clearance)
    searched = brute(aspect, clearance, hangs=hangs, line=line)
    step = max(math.dist(a, b) for a, b in pairwise(line)) / 1500

    if math.isinf(found):
        assert searched >= 3999
    else:
        # Between two points of the search a width falls by no more than its steepest slope.
        assert searched - 2 * max(1, aspect) * step - 1e-6 <= found <= searched + 1e-6


@given(chains, aspects, clearances, st.booleans())
def test_the_box_keeps_the_clearance_and_no_wider_one_does(
    line: list[Point], aspect: float, clearance: float, hangs: bool
) -> None:
    """Measured by shapely; a hundredth wider, and it is too close."""
    found = widest(ANCHOR, aspect, hangs=hangs, line=line, clearance=clearance)
    if math.isinf(found):
        assert box_gap(1e4, aspect, hangs=hangs, line=line) >= clearance
        return
    assume(found > 0)
    narrower = max(0.0, found - 1e-5)

    assert box_gap(narrower, aspect, hangs=hangs, line=line) >= clearance - 1e-9
    assert box_gap(found + 0.01, aspect, hangs=hangs, line=line) < max(clearance, 1e-12)


@given(chains, aspects, clearances, st.booleans(), numbers(0, 40))
def test_more_clearance_never_makes_it_wider(
    line: list[Point], aspect: float, clearance: float, hangs: bool, more: float
) -> None:
    """The width falls, or stays, as the clearance grows; it is never negative."""
    wide = widest(ANCHOR, aspect, hangs=hangs, line=line, clearance=clearance)
    narrow = widest(ANCHOR, aspect, hangs=hangs, line=line, clearance=clearance + more)

    assert 0 <= narrow <= wide + 1e-6


@given(chains, aspects, clearances, numbers(0.2, 5))
def test_everything_scales(
    line: list[Point], aspect: float, clearance: float, factor: float
) -> None:
    """Twice the garment at twice the clearance takes twice the width; standing mirrors hanging."""
    found = widest(ANCHOR, aspect, hangs=True, line=line, clearance=clearance)
    larger = widest(
        ANCHOR.times(factor),
        aspect,
        hangs=True,
        line=[p.times(factor) for p in line],
        clearance=clearance * factor,
    )
    over = [Point(p.x, 2 * ANCHOR.y - p.y) for p in line]
    stood = widest(ANCHOR, aspect, hangs=False, line=over, clearance=clearance)

    assert larger == pytest.approx(found * factor, abs=1e-5)
    assert stood == pytest.approx(found, abs=1e-5)


@given(aspects, numbers(1, 200), numbers(-80, 80), numbers(-80, 80))
def test_a_line_across_the_axis_is_met_inside(
    aspect: float, depth: float, left: float, right: float
) -> None:
    """A level line far to both sides stops the box by its height alone; a slanting one sooner."""
    origin = Point(0, 0)
    level = [Point(-500, depth), Point(500, depth)]

    assert widest(origin, aspect, hangs=True, line=level, clearance=0) == pytest.approx(
        depth * aspect, abs=1e-5
    )
    assume(min(depth + left, depth + right) > 1)
    slanting = [Point(-500, depth + left), Point(500, depth + right)]
    middle = (depth + left + depth + right) / 2 * aspect
    assert widest(origin, aspect, hangs=True, line=slanting, clearance=0) <= middle + 1e-5


def test_widths_by_hand() -> None:
    """A wall, a floor, a corner met by the corner's round clearance, and nothing in the way."""
    origin = Point(0, 0)

    def width(*line: tuple[float, float], aspect: float = 1, clearance: float = 0) -> float:
        chain = [Point(*p) for p in line]
        return widest(origin, aspect, hangs=True, line=chain, clearance=clearance)

    assert width((50, -10), (50, 500)) == pytest.approx(100)
    assert width((50, -10), (50, 500), clearance=10) == pytest.approx(80)
    assert width((-500, 60), (500, 60), aspect=2) == pytest.approx(120)
    assert width((-500, 60), (500, 60), aspect=2, clearance=10) == pytest.approx(100)
    # 3-4-5: the corner of a square comes to 5 from (33, 64) when it is at (30, 60).
    assert width((33, 64), (900, 64), (900, 900), clearance=5) == pytest.approx(60)
    assert width((-50, -30), (50, -30), clearance=20) == math.inf
    assert width((-50, -30), (50, -30), clearance=31) == 0
    assert width((-5, 0.5), (5, 0.5), clearance=1) == 0


def test_impossible_questions_are_refused() -> None:
    """An aspect is positive, a clearance not negative, and neither is no number."""
    line = [Point(0, 10), Point(10, 10)]
    for aspect, clearance in ((0.0, 1.0), (-1.0, 1.0), (math.nan, 1.0), (1.0, -1.0)):
        with pytest.raises(ValueError, match="must be positive"):
            widest(ANCHOR, aspect, hangs=True, line=line, clearance=clearance)
