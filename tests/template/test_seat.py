"""Where a jig made for one size puts the print on another."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.garments._block import Seam
from jigs.garments._parts import collar
from jigs.geometry import Affine, Cubic
from jigs.template import Stand, Tolerance, seat, shared
from jigs.template.seat import with_spread
from jigs.units import INCH
from tests import shipped

SLOPE = 0.35


def a_stand(
    key: str, half: float, deep: float, drop: float = 76.2, across: float = 0.0,
    spread: tuple[float, float] = (0.0, 0.0),
) -> Stand:  # fmt: skip
    """Return what a jig finds on a collar of a half width and depth."""
    return Stand(key, a_seam(collar(half, deep, SLOPE), *spread), drop, across)


def a_seam(half: Cubic | None = None, drop: float = 0.0, width: float = 0.0) -> Seam:
    """Return a collar, or a straight hem."""
    return Seam("seam", frozenset(), half, drop, width)


stands = st.builds(
    a_stand,
    key=st.just("t/M"),
    half=st.floats(55, 120),
    deep=st.floats(12, 130),
    drop=st.floats(20, 120),
    across=st.floats(-120, 120),
)


def dense_height(jig: Stand, on: Stand, engaged: float) -> float:
    """Return how much too low the print comes out, from 20 000 points of both curves."""
    x = np.linspace(0, min(engaged, jig.half_width, on.half_width), 20_001)
    heights = []
    for half in (jig.seam.half, on.seam.half):
        assert half is not None
        t = np.linspace(0, 1, 200_001)
        u = 1 - t
        xs = 3 * u * u * t * half.p.x + 3 * u * t * t * half.q.x + t**3 * half.b.x
        ys = u**3 * half.a.y + 3 * u * u * t * half.p.y + 3 * u * t * t * half.q.y + t**3 * half.b.y
        heights.append(np.interp(x, xs, ys))
    shift = float((heights[1] - heights[0]).max())
    return shift + float(heights[0][0] - heights[1][0]) + jig.drop - on.drop


@given(stands, stands, st.floats(0.5, 0.95))
def test_the_height_error_is_that_of_a_dense_search(jig: Stand, on: Stand, share: float) -> None:
    """The error equals a search over 20 000 places of contact."""
    engaged = share * min(jig.half_width, on.half_width)

    assert seat(jig, on, engaged).height == pytest.approx(dense_height(jig, on, engaged), abs=2e-3)


@given(stands)
def test_a_jig_seats_true_on_its_own_size(one: Stand) -> None:
    """On the size it is made for, a jig has no error."""
    found = seat(one, one, 0.85 * one.half_width)

    assert found.height == pytest.approx(0.0, abs=1e-9)
    assert found.side == 0.0


@given(stands, stands)
def test_a_print_is_never_too_high_but_for_its_drop(jig: Stand, on: Stand) -> None:
    """An edge rests at the centre or lower, so only the wanted drops can put a print too high."""
    found = seat(jig, on, 0.85 * min(jig.half_width, on.half_width))

    assert found.height >= jig.drop - on.drop - 1e-9


def test_a_narrow_edge_rests_on_the_sides_of_a_wide_collar() -> None:
    """A small size's jig hangs on the flanks of a large collar: the print is too low."""
    small, large = a_stand("t/S", 85, 95), a_stand("t/3XL", 105, 95)

    assert seat(small, large, 72).height > 3.0
    assert seat(large, small, 72).height == pytest.approx(0.0, abs=1e-6)


def test_the_spread_holds_the_drawn_error() -> None:
    """Over a collar's plus-minus the error runs from no more to no less than the drawn one."""
    one = a_stand("t/M", 92, 100, spread=(6.0, 3.0))
    drawn = seat(one, one, 78)
    found = with_spread(drawn, one, one, 78)

    assert found.highest <= drawn.height <= found.lowest
    assert found.lowest > 1.0


def test_a_straight_edge_only_differs_by_the_drop() -> None:
    """On a hem a longer drop puts the print higher."""
    one, two = (
        Stand(k, a_seam(), drop, 0.0, hangs=False) for k, drop in (("S", 19.0), ("M", 25.4))
    )

    assert seat(one, two, 0.0).height == pytest.approx(6.4)
    assert seat(two, one, 0.0).height == pytest.approx(-6.4)


def test_a_collar_and_a_hem_do_not_mix() -> None:
    """A jig for a hem cannot seat on a collar."""
    with pytest.raises(ValueError, match="same kind of edge"):
        seat(Stand("t/S", a_seam(), 19.0, 0.0), a_stand("t/M", 92, 100), 50)


@given(stands, stands, st.floats(0.5, 0.9), st.floats(0, 6), st.floats(0, 4))
@settings(max_examples=25)
def test_the_ends_of_the_plus_minus_are_the_worst(
    jig: Stand, on: Stand, share: float, deeper: float, wider: float
) -> None:
    """Nowhere within a collar's plus-minus are the errors worse than at its ends."""
    assert on.seam.half is not None
    engaged = share * min(jig.half_width, on.half_width - wider)
    spread = replace(on, seam=replace(on.seam, drop=deeper, width=wider))
    found = with_spread(seat(jig, spread, engaged), jig, spread, engaged)
    for x, y in product(np.linspace(-1, 1, 5), repeat=2):
        half = on.seam.half
        by = Affine.scale(1 + x * wider / half.b.x, 1 + y * deeper / half.a.y)
        one = seat(jig, replace(on, seam=replace(on.seam, half=half.moved(by))), engaged)

        assert found.highest - 0.02 <= one.height <= found.lowest + 0.02
        assert one.tilt <= found.most_tilt + 0.02
        assert one.play <= found.most_play + 0.02


def test_different_drops_do_not_share_a_jig() -> None:
    """A youth and an adult collar of one shape are parted by their drops."""
    youth, adult = a_stand("y/L", 85, 90, drop=2.25 * INCH), a_stand("a/S", 85, 90, drop=3 * INCH)

    assert len(shared([youth, adult], Tolerance(), 0.85)) == 2


@pytest.mark.parametrize("table", shipped.TABLES)
def test_shipped_tables_need_few_jigs(table: str) -> None:
    """On the shipped tees a full front takes no more than one jig for two sizes, rounded up."""
    made = shipped.jigs("full-front", table)

    assert len(made) <= (len(shipped.sizes(table)) + 1) // 2
