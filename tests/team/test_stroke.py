"""Strokes are as wide as a ruler finds them; the lightest weight that a rule allows is taken."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import Place
from jigs.geometry import Box, Path, Point
from jigs.geometry.region import painted
from jigs.team.lettering import WEIGHTS
from jigs.team.rules import Rule, named, names
from jigs.team.stroke import USUAL, lightest, stroke, suits
from tests.team.fonts import ink, pixels


def run(letter: str, weight: str, share: float) -> float:
    """Return the longest run of ink on a row of FreeType's picture, over the height of a 1."""
    left, top, right, bottom = ink(letter, weight, 2000)
    picture = np.asarray(pixels(letter, weight, 2000))
    y = round(top + share * (bottom - top))
    longest = row = 0
    for x in range(left, right):
        row = row + 1 if picture[y, x] < 128 else 0
        longest = max(longest, row)
    one = ink("1", weight, 2000)
    return longest / (one[3] - one[1])


@pytest.mark.parametrize("weight", WEIGHTS)
def test_strokes_are_what_a_ruler_finds(weight: str) -> None:
    """The usual strokes lie about those measured across the sides of 0 and the stem of 1.

    The thin strokes are thinner than both, by no more than a third.
    """
    found = stroke(weight)
    side, stem = run("0", weight, 0.5), run("1", weight, 0.5)
    assert found.usual == pytest.approx((side + stem) / 2, rel=0.12)
    assert 0.67 * min(side, stem) < found.thin < min(side, stem)
    assert found.thin < found.usual <= found.wide


def test_weights_grow() -> None:
    """Each weight has wider strokes than the one before, in every measure."""
    found = [stroke(weight) for weight in WEIGHTS]
    for one, two in pairwise(found):
        assert one.thin < two.thin
        assert one.usual < two.usual
        assert one.wide < two.wide


def test_a_bar_is_painted_until_the_brush_is_as_wide() -> None:
    """A disc paints a bar but for its four corners, and nothing once it is wider."""
    bar = [Path.box(Box(0, 0, 200, 20))]
    corners = (1 - math.pi / 4) * 20**2
    assert painted(bar, 19.999) == pytest.approx(1 - corners / 4000, abs=1e-3)
    assert painted(bar, 20.001) == 0


def test_a_ring_is_painted_whole() -> None:
    """A disc as wide as a ring paints all of it: the hole counts."""
    ring = [Path.circle(Point(0, 0), 50), Path.circle(Point(0, 0), 40)]
    assert painted(ring, 9.9) == pytest.approx(1, abs=2e-3)
    assert painted(ring, 10.1) == 0


@given(st.floats(1, 60), st.floats(1, 60))
def test_a_wider_brush_paints_less(one: float, two: float) -> None:
    """The share painted never grows with the brush."""
    shape = [Path.box(Box(0, 0, 60, 60)), Path.box(Box(20, 20, 50, 30))]
    thin, wide = sorted((one, two))
    assert 1.0005 > painted(shape, thin) >= painted(shape, wide) - 1e-3


def test_painted_agrees_with_the_area() -> None:
    """A brush of next to no width paints everything."""
    shape = [Path.box(Box(0, 0, 60, 60)), Path.box(Box(20, 20, 50, 30))]
    assert painted(shape, 1e-6) == pytest.approx(1)


def test_the_lightest_that_is_wide_enough() -> None:
    """A stroke asked for is had from the lightest weight, and from none that is lighter."""
    for wanted in (0.10, 0.15, 0.19, 0.2):
        rule = Rule(stroke_least=wanted * 200.0)
        weight = lightest(rule, 200.0)
        assert weight is not None
        assert suits(rule, weight, 200.0)
        lighter = WEIGHTS[: WEIGHTS.index(weight)]
        assert not any(suits(rule, one, 200.0) for one in lighter)


def test_a_stroke_no_weight_has() -> None:
    """A stroke wider than the widest, or a range between weights, is had from none."""
    assert lightest(Rule(stroke_least=80.0), 200.0) is None
    assert lightest(Rule(stroke_most=5.0), 200.0) is None


def test_a_stroke_of_about_a_width() -> None:
    """About a width is the weight whose usual stroke is nearest."""
    for weight in WEIGHTS:
        about = stroke(weight).usual * 254.0 + 1.0
        assert lightest(Rule(stroke_about=about), 254.0) == weight


def test_no_rule_no_question() -> None:
    """Where no stroke is asked for the usual weight is taken."""
    assert lightest(Rule(least=200.0), 200.0) == USUAL


@pytest.mark.parametrize("name", names())
def test_every_published_rule_can_be_kept(name: str) -> None:
    """The font has a weight for the least height of every published set."""
    rules = named(name, Place("order.toml"))
    for rule in (rules.back_number, rules.front_number):
        if rule.least is not None:
            assert lightest(rule, rule.least + 5.0 * (rule.most != rule.least)) is not None
