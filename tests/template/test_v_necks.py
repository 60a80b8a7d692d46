"""How a jig seats where a neck comes to a point, beside a search of the whole edge that is cut.

The search knows nothing of reliefs, halves or formulas: it has the points of the plate's edge, with
the small arc round the point, and moves and turns them against the seam, mirrored at the centre.
"""

import math
from dataclasses import replace
from itertools import product

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.garments._parts import v_collar
from jigs.geometry import Affine, Cubic, Path
from jigs.geometry.point import distance
from jigs.locations import LOCATIONS
from jigs.template import Stand, seat
from jigs.template.seat import FEEL, RELIEF, relief, with_spread
from jigs.template.template import _collar_edge
from tests import shipped
from tests.geometry.test_contact import heights
from tests.template.test_seat import a_seam, a_stand

Floats = npt.NDArray[np.float64]

#: The tilt is found at 96 places, which is good for so much of the lift; the play to so many mm.
CLOSE = 1e-2
SLID = 0.02


def a_v(half: float, deep: float, drop: float = 76.2, spread: float = 0.0) -> Stand:
    """Return what a jig finds on a V neck of a half width and depth."""
    return Stand("t/M", a_seam(v_collar(half, deep), spread, spread / 2), drop, 0.0)


v_necks = st.builds(a_v, half=st.floats(55, 120), deep=st.floats(60, 190), drop=st.floats(20, 120))
round_ones = st.builds(
    a_stand, key=st.just("t/L"), half=st.floats(55, 120), deep=st.floats(40, 130),
    drop=st.floats(20, 120),
)  # fmt: skip


def clear(pair: tuple[Stand, Stand]) -> bool:
    """Return whether a seam's point keeps out of the relief of a V's edge.

    It would reach the arc, a radius below the edge's own point, if the seam were steeper than the
    edge by the secant of the edge's angle. No jig is laid on such a neck: it would rest on its
    middle alone and turn far beyond the tolerance.
    """
    (edge, seam) = (one.seam.half for one in pair)
    assert edge
    assert seam
    one, other = edge.tangent(0), seam.tangent(0)
    steep = -one.y / one.x
    return -other.y / other.x < steep + 0.9 * math.hypot(1.0, steep)


v_pairs = st.tuples(v_necks, v_necks).filter(clear)
#: Jig and garment: a V on a V, a V on a round neck, a round edge on a V.
pairs = st.one_of(v_pairs, st.tuples(v_necks, round_ones), st.tuples(round_ones, v_necks))


class Laid:
    """An edge that is cut, as points, laid against a seam."""

    def __init__(self, edge: Path, seam: Cubic) -> None:
        self._seam = seam
        self._x, self._y = np.array(edge.points(2e-5)).T
        # The edge is turned about its centre mark, at the level of its own point.
        self._level = 0.0

    def about(self, level: float) -> "Laid":
        """Turn the edge about a place on the centre line from now on."""
        self._level = level
        return self

    def shift(self, *, slid: float = 0.0, tilted: float = 0.0, turned: float = 0.0) -> float:
        """Return how far down the edge lies, first slid, or tilted or turned by degrees.

        Tilted, it goes down on one side and up on the other; turned, it is truly turned.
        """
        x, y = self._x + slid, self._y + math.tan(math.radians(tilted)) * self._x
        if turned:
            angle, away = math.radians(turned), self._y - self._level
            x = self._x * math.cos(angle) - away * math.sin(angle)
            y = self._level + self._x * math.sin(angle) + away * math.cos(angle)
        # A seam's point may touch between two of the edge's.
        x, y = np.append(x, 0.0), np.append(y, np.interp(0.0, x, y))
        there = abs(x) <= self._seam.b.x
        return float((heights(self._seam, abs(x[there])) - y[there]).max())


def laid(jig: Stand, on: Stand, engaged: float) -> tuple[Laid, float]:
    """Return a jig's edge on a seam, and how much too low its print is."""
    assert jig.seam.half is not None
    assert on.seam.half is not None
    edge = _collar_edge(jig.seam.half, engaged)
    found = Laid(edge, on.seam.half).about(jig.seam.half.a.y)
    low = found.shift() + jig.seam.half.a.y - on.seam.half.a.y + jig.drop - on.drop
    return found, low


def engaged_of(jig: Stand, on: Stand, share: float) -> float:
    """Return how much of the edge lies against the seam."""
    return share * min(jig.half_width, on.half_width)


@given(pairs, st.floats(0.25, 0.95))
@settings(max_examples=60)
def test_height_tilt_and_play_are_those_of_a_dense_search(
    pair: tuple[Stand, Stand], share: float
) -> None:
    """The print is as low, and the edge as free, as the search finds; not freer, nor less so."""
    jig, on = pair
    engaged = engaged_of(jig, on, share)
    found = seat(jig, on, engaged)
    searched, low = laid(jig, on, engaged)
    rests = searched.shift()

    assert found.height == pytest.approx(low, abs=1e-3)
    assert searched.shift(tilted=found.tilt) - rests == pytest.approx(FEEL, abs=CLOSE)
    assert searched.shift(tilted=-found.tilt) - rests == pytest.approx(FEEL, abs=CLOSE)
    for part in (0.25, 0.5, 0.75, 0.95):
        assert searched.shift(tilted=part * found.tilt) - rests < FEEL
        assert searched.shift(slid=part * (found.play - SLID)) - rests < FEEL
    if found.play < engaged:
        assert searched.shift(slid=found.play + SLID) - rests > FEEL


@given(v_pairs, st.floats(0.25, 0.5))
@settings(max_examples=40)
def test_a_plate_truly_turned_backs_off_no_later(pair: tuple[Stand, Stand], share: float) -> None:
    """Turned about its centre mark by the tilt that is told, a plate has backed off already.

    The formula only lowers one side and lifts the other. A turn also carries the lifted side
    inwards, where a V is deeper, so that a hand feels it sooner: what is told is on the safe side.
    """
    jig, on = pair
    engaged = engaged_of(jig, on, share)
    found = seat(jig, on, engaged)
    searched, _ = laid(jig, on, engaged)

    for sign in (1, -1):
        lift = searched.shift(turned=sign * min(found.tilt, 45.0)) - searched.shift()
        assert lift >= FEEL - CLOSE


@given(pairs, st.floats(0.25, 0.9), st.floats(0, 6))
@settings(max_examples=20)
def test_the_ends_of_the_plus_minus_are_the_worst(
    pair: tuple[Stand, Stand], share: float, spread: float
) -> None:
    """Nowhere within a neck's plus-minus does the search find an edge lower, higher or freer."""
    jig, on = pair
    half = on.seam.half
    assert half is not None
    on = replace(on, seam=replace(on.seam, drop=spread, width=spread / 2))
    engaged = share * min(jig.half_width, on.half_width - spread / 2)
    found = with_spread(seat(jig, on, engaged), jig, on, engaged)

    for x, y in product((-1, -0.5, 0, 0.5, 1), repeat=2):
        by = Affine.scale(1 + x * spread / 2 / half.b.x, 1 + y * spread / half.a.y)
        one = replace(on, seam=replace(on.seam, half=half.moved(by)))
        searched, low = laid(jig, one, engaged)
        rests = searched.shift()
        assert found.highest - 0.02 <= low <= found.lowest + 0.02
        assert searched.shift(tilted=found.most_tilt + 0.02) - rests >= FEEL - CLOSE
        if found.most_play < engaged:
            assert searched.shift(slid=found.most_play + SLID) - rests >= FEEL - CLOSE


@given(v_necks)
def test_the_relief_is_clear_of_the_point(one: Stand) -> None:
    """The arc keeps 1.5 mm from the V's point, and a shared neck touches only beside it."""
    half = one.seam.half
    assert half is not None
    engaged = 0.3 * one.half_width
    arc = _collar_edge(half, engaged).segments[1]

    for t in np.linspace(0, 1, 33).tolist():
        assert distance(arc.at(t), half.a) == pytest.approx(RELIEF, abs=1e-6)
    x, y = np.array([arc.at(t) for t in np.linspace(0.01, 0.99, 99).tolist()]).T
    assert (y > heights(half, abs(x))).all()
    assert seat(one, one, engaged).height == pytest.approx(0.0, abs=1e-9)
    assert relief(half).x == pytest.approx(arc.b.x, abs=1e-9)


@pytest.mark.parametrize("table", ["adult-v-neck-tee", "womens-v-neck-tee"])
@pytest.mark.parametrize("location", ["full-front", "centre-chest", "left-chest"])
def test_shipped_v_necks_seat_as_a_search_of_their_plate_finds(location: str, table: str) -> None:
    """The errors of every size, as its jig tells them, are those of the template's own edge."""
    seams = {
        size.key: size.flat.seams[LOCATIONS.get(location).seat].half
        for size in shipped.sizes(table)
    }
    for template in shipped.jigs(location, table):
        assert template.relief > 0
        lows = []
        for told in template.seats:
            seam = seams[told.key]
            assert seam is not None
            searched = Laid(template.edge, seam).about(template.level)
            rests = searched.shift()
            lows.append((rests + template.level - seam.a.y, told.height))
            assert searched.shift(tilted=told.tilt) - rests == pytest.approx(FEEL, abs=CLOSE)
            lifts = [searched.shift(slid=told.play + s) - rests for s in (-SLID, SLID)]
            assert lifts[0] < FEEL < lifts[1]
        # All sizes of a table want one drop here, so that the heights differ only by the seats.
        off = [low - height for low, height in lows]
        assert max(off) - min(off) < 2e-3
