"""Student's t and Grubbs' bound, against published tables."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.tables.student import grubbs, quantile, within

#: Degrees of freedom, then t that 90, 95, 97.5, 99 and 99.5 % stay below: NIST/SEMATECH e-Handbook
#: of Statistical Methods, 1.3.6.7.2, critical values of Student's t distribution.
NIST = [
    (1, 3.078, 6.314, 12.706, 31.821, 63.657),
    (2, 1.886, 2.920, 4.303, 6.965, 9.925),
    (3, 1.638, 2.353, 3.182, 4.541, 5.841),
    (4, 1.533, 2.132, 2.776, 3.747, 4.604),
    (5, 1.476, 2.015, 2.571, 3.365, 4.032),
    (6, 1.440, 1.943, 2.447, 3.143, 3.707),
    (7, 1.415, 1.895, 2.365, 2.998, 3.499),
    (8, 1.397, 1.860, 2.306, 2.896, 3.355),
    (9, 1.383, 1.833, 2.262, 2.821, 3.250),
    (10, 1.372, 1.812, 2.228, 2.764, 3.169),
    (15, 1.341, 1.753, 2.131, 2.602, 2.947),
    (20, 1.325, 1.725, 2.086, 2.528, 2.845),
    (30, 1.310, 1.697, 2.042, 2.457, 2.750),
    (60, 1.296, 1.671, 2.000, 2.390, 2.660),
    (100, 1.290, 1.660, 1.984, 2.364, 2.626),
]
#: Degrees of freedom, then the t within which 90, 95 and 99 % lie: NIST Technical Note 1297,
#: appendix B, table B.1.
NIST_1297 = [(1, 6.31, 12.71, 63.66), (5, 2.02, 2.57, 4.03), (18, 1.73, 2.10, 2.88),
             (45, 1.68, 2.01, 2.69)]  # fmt: skip


@pytest.mark.parametrize("row", NIST, ids=lambda row: str(row[0]))
def test_quantiles_are_the_published_ones(row: tuple[float, ...]) -> None:
    """To the third decimal, which is all the table has."""
    for probability, t in zip((0.9, 0.95, 0.975, 0.99, 0.995), row[1:], strict=True):
        assert quantile(probability, int(row[0])) == pytest.approx(t, abs=0.00051)


@pytest.mark.parametrize("row", NIST_1297, ids=lambda row: str(row[0]))
def test_quantiles_are_those_of_another_table(row: tuple[float, ...]) -> None:
    """A second publication of the same institute, two-sided."""
    for share, t in zip((0.90, 0.95, 0.99), row[1:], strict=True):
        assert quantile((1 + share) / 2, int(row[0])) == pytest.approx(t, abs=0.0051)


@given(st.floats(0.501, 0.9999), st.integers(1, 400))
def test_a_quantile_is_the_inverse_of_the_probability(probability: float, freedom: int) -> None:
    """And it shrinks as degrees of freedom are added."""
    t = quantile(probability, freedom)
    assert within(t, freedom) == pytest.approx(2 * probability - 1, abs=1e-9)
    assert quantile(probability, freedom + 1) <= t + 1e-9


@given(st.floats(0, 40))
def test_the_simplest_cases_have_a_closed_form(t: float) -> None:
    """One degree of freedom is Cauchy's, two an algebraic function (any textbook)."""
    assert within(t, 1) == pytest.approx(2 / math.pi * math.atan(t))
    assert within(t, 2) == pytest.approx(t / math.sqrt(2 + t * t))


def test_many_degrees_of_freedom_are_nearly_normal() -> None:
    """1.645 in the end; above a thousand the answer no longer moves, nor takes long."""
    assert quantile(0.95, 10**6) == quantile(0.95, 1000) == pytest.approx(1.6449, abs=0.002)


def test_grubbs_bound_is_the_published_one() -> None:
    """The worked example of NIST/SEMATECH e-Handbook 1.3.5.17.1: 8 pieces, one-sided 5 %: 2.032.

    Two-sided at 5 %, ASTM E178's upper 2.5 % points: 2.02 of seven, 2.13 of eight.
    """
    assert grubbs(8, 0.05 / 8) == pytest.approx(2.032, abs=0.0005)
    assert grubbs(7, 0.05 / 14) == pytest.approx(2.02, abs=0.005)
    assert grubbs(8, 0.05 / 16) == pytest.approx(2.13, abs=0.005)
