"""How sure a shop's own lengths are."""

import math
from random import Random
from statistics import fmean, stdev

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jigs.tables.measure import Origin
from jigs.tables.spread import Scatter, exceeds, figures, plus_minus, scatter

#: What nine of ten lie within, in standard deviations (any table of the normal distribution).
NINE_OF_TEN = 1.645
LENGTHS = st.lists(st.floats(50, 150), min_size=1, max_size=9)
SIZES = st.dictionaries(st.integers(0, 5), LENGTHS, min_size=1)
TOLERANCES = st.floats(0, 20)


def alike(freedom: int, variance: float) -> Scatter:
    """Return the scatter of garments whose variance is the same however many there are."""
    return Scatter(freedom, freedom * variance)


def test_the_example_of_the_formula() -> None:
    """Worked by hand: 92, 93, 91 of one size, 97, 98 of another, tolerance 5 mm.

    Q = 2 + 0.5, m = 3, s0 = 5 / 1.645 = 3.040, t(0.95, 4) = 2.132 (NIST/SEMATECH e-Handbook,
    1.3.6.7.2): 2.132 x sqrt((9.240 + 2.5) / 4) x sqrt(4/3) = 4.217; x sqrt(3/2) = 4.473.
    """
    found = figures({2: [92, 93, 91], 3: [97, 98]}, 5.0)
    assert found[2].plus_minus == pytest.approx(4.217, abs=0.003)
    assert found[3].plus_minus == pytest.approx(4.473, abs=0.003)
    assert (found[2].mm, found[2].pieces, found[2].origin) == (92, 3, Origin.MEASURED)


@given(st.dictionaries(st.integers(0, 5), st.floats(50, 150), min_size=1), TOLERANCES)
def test_one_garment_of_each_size_says_nothing_of_the_spread(
    sizes: dict[int, float], tolerance: float
) -> None:
    """The tolerance stays."""
    for one in figures({index: [length] for index, length in sizes.items()}, tolerance).values():
        assert one.plus_minus == tolerance


@given(st.integers(1, 60), st.integers(1, 60), st.integers(0, 3), st.floats(0, 400), TOLERANCES)
def test_more_garments_that_vary_alike_never_make_it_less_sure(
    pieces: int, elsewhere: int, more: int, variance: float, tolerance: float
) -> None:
    """The plus-minus shrinks or stays with garments of the same size, or of others."""
    freedom = pieces - 1 + elsewhere
    now = plus_minus(alike(freedom, variance), pieces, tolerance)
    with_others = plus_minus(alike(freedom + more, variance), pieces, tolerance)
    with_own = plus_minus(alike(freedom + more, variance), pieces + more, tolerance)
    assert with_own <= with_others + 1e-9
    assert with_others <= now + 1e-9


@given(st.integers(2, 40), st.floats(0, 1), st.floats(0.1, 20))
def test_garments_within_the_tolerance_never_make_it_less_sure(
    pieces: int, share: float, tolerance: float
) -> None:
    """Than it was with one garment, or none: while they vary no more than it says, it caps."""
    deviation = share * tolerance / 1.6449 / math.sqrt(1 + 1 / pieces)
    assert plus_minus(alike(pieces - 1, deviation**2), pieces, tolerance) <= tolerance * 1.0001


def test_it_ends_at_the_garments_own_spread() -> None:
    """With many garments the tolerance has no weight left."""
    for deviation in (1.0, 3.0, 12.0):
        found = plus_minus(alike(5000, deviation**2), 5000, 6.0)
        assert found == pytest.approx(NINE_OF_TEN * deviation, rel=0.01)


@pytest.mark.parametrize("freedom", [1, 2, 5, 20])
def test_chance_alone_rarely_makes_garments_vary_too_much(freedom: int) -> None:
    """Of garments that vary as the tolerance says, about one set of twenty does.

    One size of `freedom` + 1 garments, 1000 times.
    """
    chance, tolerance = Random(5), 6.0  # noqa: S311
    sets = [[chance.gauss(0, tolerance / NINE_OF_TEN) for _ in range(freedom + 1)]
            for _ in range(1000)]  # fmt: skip
    share = sum(exceeds(scatter({0: lengths}), tolerance) for lengths in sets) / 1000
    assert 0.02 <= share <= 0.07
    wide = [[3 * length for length in lengths] for lengths in sets]
    assert sum(exceeds(scatter({0: lengths}), tolerance) for lengths in wide) / 1000 > 0.45


def test_without_a_tolerance_it_is_the_prediction_interval() -> None:
    """Nearly: t(0.95, m) s sqrt(1 + 1/n), of which the bound takes a little off."""
    lengths = [92.0, 97, 99, 91, 96, 94, 95, 90, 98, 93, 93]
    found = figures({0: lengths}, 0.0)[0]
    # t(0.95, 10) = 1.812 (NIST/SEMATECH e-Handbook, 1.3.6.7.2)
    interval = 1.812 * stdev(lengths) * math.sqrt(1 + 1 / len(lengths))
    assert found.plus_minus == pytest.approx(interval, rel=0.1)
    assert found.mm == fmean(lengths)


@pytest.mark.parametrize(
    ("times", "pieces", "least"),
    [(0.5, 2, 0.9), (0.5, 5, 0.9), (0.5, 20, 0.9), (1, 2, 0.85), (1, 5, 0.87), (1, 20, 0.88),
     (2, 2, 0.73), (2, 5, 0.82), (2, 20, 0.87)],
)  # fmt: skip
def test_about_nine_of_ten_further_garments_lie_within_it(
    times: float, pieces: int, least: float
) -> None:
    """Garments that vary by half the tolerance's spread, by all of it, by twice as much."""
    chance, tolerance, trials = Random(7), 6.0, 2000  # noqa: S311
    deviation = times * tolerance / NINE_OF_TEN
    within = 0
    for _ in range(trials):
        found = figures({0: [chance.gauss(100, deviation) for _ in range(pieces)]}, tolerance)[0]
        within += abs(chance.gauss(100, deviation) - found.mm) <= found.plus_minus
    # Two standard errors of a share of 2000.
    assert within / trials >= least - 0.014


@given(SIZES, TOLERANCES, st.randoms(use_true_random=False))
def test_the_order_of_garments_does_not_matter(
    sizes: dict[int, list[float]], tolerance: float, chance: Random
) -> None:
    """To the last bit."""
    mixed = {index: chance.sample(lengths, len(lengths)) for index, lengths in sizes.items()}
    assert figures(mixed, tolerance) == figures(sizes, tolerance)


@given(SIZES, TOLERANCES)
def test_whatever_was_measured_the_figures_are_sound(
    sizes: dict[int, list[float]], tolerance: float
) -> None:
    """The mean lies among the lengths; the plus-minus is no less than a tape can tell."""
    assume(any(len(lengths) > 1 for lengths in sizes.values()))
    for index, one in figures(sizes, tolerance).items():
        assert min(sizes[index]) - 1e-9 <= one.mm <= max(sizes[index]) + 1e-9
        assert math.isfinite(one.plus_minus)
        assert one.plus_minus >= min(1.0, tolerance)
    assert scatter(sizes).squares >= 0
