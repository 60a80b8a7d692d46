import math

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.garments._parts import collar
from jigs.geometry import Cubic, Point
from jigs.geometry.contact import height_at, parameter_at, rest
from tests.strategies import fair_cubics, numbers

Floats = npt.NDArray[np.float64]
FEEL = 0.25


@st.composite
def collars(draw: st.DrawFn) -> Cubic:
    """Draw half a neckline, front or back, of any size."""
    half = draw(numbers(45, 120))
    drop = half * draw(numbers(0.1, 1.4))
    return collar(half, drop, math.radians(draw(numbers(8, 32))))


def heights(curve: Cubic, xs: Floats) -> Floats:
    """Return a curve's y at many x, by bisection of its polynomial."""
    low, high = np.zeros_like(xs), np.ones_like(xs)

    def on(axis: int, t: Floats) -> Floats:
        u = 1 - t
        a, p, q, b = (point[axis] for point in (curve.a, curve.p, curve.q, curve.b))
        return u**3 * a + 3 * u**2 * t * p + 3 * u * t**2 * q + t**3 * b

    for _ in range(45):
        middle = (low + high) / 2
        short = on(0, middle) < xs
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return on(1, (low + high) / 2)


@given(collars(), collars(), numbers(0.4, 0.95))
@settings(max_examples=25)
def test_an_edge_rests_where_a_dense_search_finds_it(
    edge: Cubic, seam: Cubic, share: float
) -> None:
    """Height to 1e-4 of that at 10 000 places, and the tilt is what the lift allows there.

    The lift of a turned edge is the greatest of seam − edge + θ |x|, less what it is untilted.
    The tilt is taken at 96 places, which is good for a hundredth of a millimetre of lift.
    """
    half = share * min(edge.b.x, seam.b.x)
    found = rest(edge, seam, half, FEEL)

    xs = np.linspace(0, half, 10_001)
    gaps = heights(seam, xs) - heights(edge, xs)
    assert found.shift == pytest.approx(float(gaps.max()), abs=1e-4)
    assert float(np.interp(found.at, xs, gaps)) == pytest.approx(float(gaps.max()), abs=1e-4)
    assert 0 <= found.at <= half + 1e-9

    def lift(theta: float) -> float:
        return float((gaps + theta * xs).max() - gaps.max())

    theta = math.tan(math.radians(found.tilt))
    assert lift(theta) == pytest.approx(FEEL, abs=1e-2)
    assert lift(theta * 0.95) < FEEL < lift(theta * 1.05)


@given(collars(), collars(), numbers(0.4, 0.95))
@settings(max_examples=25)
def test_an_edge_slides_until_a_dense_search_finds_it_lower(
    edge: Cubic, seam: Cubic, share: float
) -> None:
    """Slid by its play an edge backs off by what a hand feels, and before that by less.

    The whole edge is laid against the whole seam at 8000 places, both mirrored at the centre.
    """
    half = share * min(edge.b.x, seam.b.x)
    found = rest(edge, seam, half, FEEL)
    xs = np.linspace(-half, half, 8001)
    own = heights(edge, np.abs(xs))

    def lift(slid: float) -> float:
        there = np.abs(xs - slid)
        inside = there <= seam.b.x
        return float((heights(seam, there[inside]) - own[inside]).max()) - found.shift

    assert 0 < found.play <= half
    if found.play < half:
        assert lift(found.play) == pytest.approx(FEEL, abs=1e-2)
        for part in (0.25, 0.5, 0.75, 0.95):
            assert lift(part * found.play) < FEEL


@given(collars(), numbers(0.4, 1.0))
def test_an_edge_on_its_own_seam_rests_in_place(curve: Cubic, share: float) -> None:
    """It rests where it is drawn, and turns until its end backs off by what a hand feels."""
    half = share * curve.b.x
    found = rest(curve, curve, half, FEEL)

    assert found.shift == pytest.approx(0, abs=1e-9)
    assert found.tilt == pytest.approx(math.degrees(math.atan(FEEL / half)), abs=1e-9)


@given(collars(), collars(), numbers(-50, 50))
def test_a_lower_seam_lowers_the_edge(edge: Cubic, seam: Cubic, by: float) -> None:
    """Moved down by some millimetres, the seam takes the edge along and changes nothing else."""
    lower = Cubic(*(Point(p.x, p.y + by) for p in (seam.a, seam.p, seam.q, seam.b)))
    half = 0.8 * min(edge.b.x, seam.b.x)
    one, two = rest(edge, seam, half, FEEL), rest(edge, lower, half, FEEL)

    assert two.shift == pytest.approx(one.shift + by, abs=1e-6)
    assert two.tilt == pytest.approx(one.tilt, rel=1e-4)


def test_a_narrow_edge_rests_on_its_ends_and_a_wide_one_in_the_middle() -> None:
    """A collar narrower than the edge holds it at the sides; a wider one leaves it the centre.

    As y points down and the edge is pushed up, it touches where the seam is lowest beside it.
    """
    narrow, wide = collar(80, 90, 0.35), collar(100, 90, 0.35)

    assert rest(narrow, wide, 70, FEEL).at > 60
    assert rest(wide, narrow, 70, FEEL).at == 0
    assert rest(narrow, wide, 70, FEEL).shift > 5
    assert rest(wide, narrow, 70, FEEL).shift == pytest.approx(0, abs=1e-9)


@given(fair_cubics(), st.floats(0, 1))
def test_a_place_is_found_by_its_x(curve: Cubic, share: float) -> None:
    """The parameter gives back the x, and the height is that of the curve there."""
    x = curve.a.x + share * (curve.b.x - curve.a.x)

    t = parameter_at(curve, x)
    assert 0 <= t <= 1
    assert curve.at(t).x == pytest.approx(x, abs=1e-9)
    assert height_at(curve, x) == pytest.approx(float(heights(curve, np.array([x]))[0]), abs=1e-6)


def test_beyond_the_curves_nothing_rests() -> None:
    """A half width is positive and within both curves; a height is asked within the curve."""
    one, two = collar(80, 90, 0.35), collar(90, 95, 0.35)
    for half in (0.0, -5.0, 80.1):
        with pytest.raises(ValueError, match="do not reach"):
            rest(one, two, half, FEEL)
    for x in (-0.1, 80.1):
        with pytest.raises(ValueError, match="spans"):
            height_at(one, x)
