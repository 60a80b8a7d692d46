"""Which sizes share a jig: against trying every way to part them."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.garments._block import Seam
from jigs.garments._parts import collar, v_collar
from jigs.geometry import Cubic
from jigs.template import Stand, Tolerance, seat, shared
from jigs.template.edges import edges
from jigs.template.ranges import MARGIN, MOST_PARTED, STEADIER, Run, trade_off
from tests import shipped
from tests.strategies import numbers

SHARE = 0.85
TOLERANCE = Tolerance()


def stand(key: str, half: Cubic | None, drop: float, across: float = 0.0) -> Stand:
    """Return what a jig finds on a collar, or on a straight edge."""
    return Stand(key, Seam("seam", frozenset(), half), drop, across)


@st.composite
def sizes(draw: st.DrawFn, most: int = 5) -> list[Stand]:
    """Draw some sizes of garments whose collars are nearly alike, so that some share a jig."""
    count = draw(st.integers(1, most))
    half, deep = draw(numbers(60, 100)), draw(numbers(20, 100))
    found = []
    for k in range(count):
        shape = v_collar if draw(st.integers(0, 5)) == 0 else None
        wide, low = half + draw(numbers(0, 14)), deep + draw(numbers(0, 10))
        curve = shape(wide, low) if shape else collar(wide, low, 0.35)
        drop, across = draw(st.sampled_from((63.5, 69.85, 76.2))), draw(numbers(-8, 8))
        found.append(stand(f"t/{k}", curve, drop, across))
    return found


def parted(count: int) -> Iterator[list[list[int]]]:
    """Yield every way to part some sizes into groups."""
    if count == 0:
        yield []
        return
    for rest in parted(count - 1):
        for k in range(len(rest)):
            yield [*rest[:k], [*rest[k], count - 1], *rest[k + 1 :]]
        yield [*rest, [count - 1]]


def error(found: Sequence[Stand]) -> float | None:
    """Return the least greatest error of any edge for a group, by laying each on every size."""
    if len(found) == 1:
        return 0.0
    across = [one.across for one in found]
    if (max(across) - min(across)) / 2 > TOLERANCE.side:
        return None
    return min((e for e in map(abs, tried(found)) if e <= TOLERANCE.height - MARGIN), default=None)


def tried(found: Sequence[Stand]) -> Iterator[float]:
    """Yield the greatest error of each edge that may be had, its print's distance balanced."""
    for half, engaged in zip(ALL.halves, ALL.engaged, strict=True):
        if any(engaged > SHARE * one.half_width + 1e-9 for one in found):
            continue
        jig = replace(found[0], seam=replace(found[0].seam, half=half), drop=0.0)
        seats = [seat(jig, one, engaged) for one in found]
        if all(one.tilt <= TOLERANCE.tilt for one in seats):
            heights = [one.height for one in seats]
            yield (max(heights) - min(heights)) / 2


def known(found: Sequence[Stand]) -> dict[tuple[int, ...], float | None]:
    """Return the error of every group of some sizes."""
    groups = {tuple(sorted(group)) for way in parted(len(found)) for group in way}
    return {group: error([found[k] for k in group]) for group in groups}


def neighbour(one: Stand) -> tuple[float, float, float]:
    """Return what sizes are neighbours by: drop, width and depth of the collar."""
    return round(one.drop, 3), one.half_width, one.seam.half.a.y if one.seam.half else 0.0


@given(sizes())
@settings(max_examples=30)
def test_no_way_to_part_the_sizes_takes_fewer_jigs(found: list[Stand]) -> None:
    """Of all ways to part them none takes fewer jigs; none of as few neighbours errs less."""
    global ALL  # noqa: PLW0603 - what is tried is the same for every group
    ALL = edges(tuple(found), SHARE)
    runs = shared(found, TOLERANCE, SHARE)
    costs = known(found)
    order = sorted(range(len(found)), key=lambda k: neighbour(found[k]))
    all_ways, neighbours = [], []
    for way in parted(len(found)):
        errors = [costs[tuple(sorted(group))] for group in way]
        possible = [one for one in errors if one is not None]
        if len(possible) == len(errors):
            all_ways.append((len(way), max(possible)))
            places = [sorted(order.index(k) for k in group) for group in way]
            if all(place[-1] - place[0] + 1 == len(place) for place in places):
                neighbours.append((len(way), max(possible)))

    assert sorted(one.key for run in runs for one in run.members) == sorted(o.key for o in found)
    assert len(runs) == min(all_ways)[0]
    least = min(neighbours) if min(neighbours)[0] == len(runs) else min(all_ways)
    # Steadier edges may be taken, a little off the least.
    assert least[1] - 0.01 <= max(run.worst for run in runs) <= least[1] + STEADIER + 0.01


@given(sizes(most=7))
@settings(max_examples=30)
def test_runs_keep_the_tolerance(found: list[Stand]) -> None:
    """A shared jig seats within the tolerance on all its sizes, as far one way as the other."""
    for run in shared(found, TOLERANCE, SHARE):
        if len(run.members) == 1:
            assert run.jig == run.members[0]
            assert run.worst == pytest.approx(0, abs=1e-6)
            continue
        assert all(one.within(TOLERANCE) for one in run.seats)
        heights, aside = [s.height for s in run.seats], [s.side for s in run.seats]
        assert max(heights) == pytest.approx(-min(heights), abs=2 * MARGIN)
        assert max(aside) == pytest.approx(-min(aside), abs=1e-9)


@given(sizes(most=4), st.data())
@settings(max_examples=25)
def test_a_plate_for_two_prints_keeps_both_within_the_tolerance(
    found: list[Stand], data: st.DataObject
) -> None:
    """No fewer plates serve both prints: every way to part the sizes is tried, on every edge."""
    global ALL  # noqa: PLW0603 - what is tried is the same for every group
    drops = [data.draw(st.sampled_from((19.05, 22.0, 25.4))) for _ in found]
    other = [replace(one, drop=drop, across=0.0) for one, drop in zip(found, drops, strict=True)]
    runs = shared(found, TOLERANCE, SHARE, other)
    ALL = edges(tuple(found), SHARE)

    def possible(group: Sequence[int]) -> bool:
        one, two = [found[k] for k in group], [other[k] for k in group]
        return error(one) is not None and any(
            max(errors) <= TOLERANCE.height - MARGIN
            for errors in zip(all_edges(one), all_edges(two), strict=True)
        )

    for run in runs:
        assert run.beside is not None
        assert run.beside.jig.seam == run.jig.seam
        assert [one.key for one in run.beside.members] == [one.key for one in run.members]
        if len(run.members) > 1:
            assert all(one.within(TOLERANCE) for one in (*run.seats, *run.beside.seats))
    assert len(runs) == min(
        len(way)
        for way in parted(len(found))
        if all(len(group) == 1 or possible(group) for group in way)
    )


def all_edges(found: Sequence[Stand]) -> Iterator[float]:
    """Yield the greatest error of each edge in turn; infinite where it may not be had."""
    for half, engaged in zip(ALL.halves, ALL.engaged, strict=True):
        if any(engaged > SHARE * one.half_width + 1e-9 for one in found):
            yield float("inf")
            continue
        jig = replace(found[0], seam=replace(found[0].seam, half=half), drop=0.0)
        seats = [seat(jig, one, engaged) for one in found]
        heights = [one.height for one in seats]
        fits = all(one.tilt <= TOLERANCE.tilt for one in seats)
        yield (max(heights) - min(heights)) / 2 if fits else float("inf")


def test_two_prints_on_one_plate_are_on_the_same_sizes() -> None:
    """What stands beside must be the same seams of the same sizes."""
    one, two = stand("t/S", None, 60.0), stand("t/M", None, 60.0)

    with pytest.raises(ValueError, match="same seams"):
        shared([one], TOLERANCE, SHARE, [two])


def test_sizes_that_are_no_neighbours_may_share() -> None:
    """Two shallow and two deep collars in turn, widths rising, take two jigs, not four."""
    found = [
        stand(f"t/{k}", collar(80 + k, deep, 0.35), 76.2) for k, deep in enumerate((20, 90) * 2)
    ]
    runs = shared(found, TOLERANCE, 0.9)

    assert [[one.key for one in run.members] for run in runs] == [["t/0", "t/2"], ["t/1", "t/3"]]


def test_a_range_may_join_tables() -> None:
    """A large youth size and a small adult one of like collars and drops share a jig."""
    youth = [stand(f"youth/{s}", collar(h, d, 0.35), 69.85) for s, h, d in (("L", 84, 88),)]
    adult = [stand(f"adult/{s}", collar(h, d, 0.35), 69.85) for s, h, d in (("S", 86, 90),)]

    assert len(shared([*youth, *adult], TOLERANCE, SHARE)) == 1


def test_the_drop_is_balanced() -> None:
    """Two straight edges whose drops differ by 6 mm share a jig, and each is off by 3 mm."""
    found = [stand("t/S", None, 60.0), stand("t/M", None, 66.0)]
    (run,) = shared(found, TOLERANCE, SHARE)

    assert [one.height for one in run.seats] == pytest.approx([3.0, -3.0])
    assert run.jig.drop == run.drop == pytest.approx(63.0)


def test_the_trade_off_of_straight_edges() -> None:
    """Drops of 60, 60 and 66 mm: one jig is off by 3 mm, two by nothing."""
    found = [stand(f"t/{k}", None, drop) for k, drop in enumerate((60.0, 60.0, 66.0))]

    (one, two) = trade_off(found, TOLERANCE, SHARE)
    assert (one[0], two) == (1, (2, 0.0))
    assert one[1] == pytest.approx(3.0)


@given(sizes(most=6))
@settings(max_examples=20)
def test_more_jigs_never_err_more(found: list[Stand]) -> None:
    """The trade-off falls with every jig; a jig for each size errs nowhere."""
    table = trade_off(found, TOLERANCE, SHARE)

    assert [jigs for jigs, _ in table] == sorted({jigs for jigs, _ in table})
    assert [e for _, e in table] == sorted((e for _, e in table), reverse=True)
    if len(table) and table[-1][0] == len(found):
        assert table[-1][1] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("table", shipped.TABLES)
def test_shipped_tables_keep_the_tolerance(table: str) -> None:
    """On every size of a shipped table a full front lies within the tolerance in height."""
    for made in shipped.jigs("full-front", table):
        assert max(abs(one.height) for one in made.seats) <= TOLERANCE.height


def test_many_sizes_are_parted_into_neighbours() -> None:
    """Of more sizes than all ways can be tried for, neighbours share."""
    found = [
        stand(f"t/{k}", collar(70 + 2 * k, 60 + k, 0.35), 76.2) for k in range(MOST_PARTED + 3)
    ]
    runs: Sequence[Run] = shared(found, TOLERANCE, SHARE)

    assert [one.key for run in runs for one in run.members] == [one.key for one in found]
    assert len(runs) < len(found) / 2


ALL = edges((stand("t/M", None, 0.0),), SHARE)
