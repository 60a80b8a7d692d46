"""The fewest widths, against exhaustive search."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.widths import Band, fewest
from jigs.widths.choose import candidates, inside, on_step

STEP = 6.35


def a_band(key: str, target: float, below: float, above: float, quantity: int = 1) -> Band:
    """Return a band with its ends given as shares of its target."""
    most = target * (1 + above)
    low = target * (1 - below)
    return Band(
        key,
        quantity,
        target,
        low,
        most,
        "usual size",
        most,
        "hem",
        estimated=False,
        breadth=2 * target,
    )


bands = st.lists(
    st.builds(
        a_band,
        key=st.just("t/?"),
        target=st.floats(40, 330),
        below=st.floats(0.0, 0.2),
        above=st.floats(0.0, 0.2),
        quantity=st.integers(1, 40),
    ),
    min_size=1,
    max_size=7,
).map(lambda found: [replace(b, key=f"t/{k}") for k, b in enumerate(found)])


def least_stabbing(found: list[Band]) -> int:
    """Return the fewest points that stab all bands, by trying all sets of right ends."""
    ends = sorted({b.most for b in found})
    for count in range(1, len(found) + 1):
        for points in combinations(ends, count):
            if all(any(inside(p, b) for p in points) for b in found):
                return count
    raise AssertionError("each band's own end stabs it")


def cost(found: list[Band], widths: tuple[float, ...]) -> float | None:
    """Return the weighted squares if every band takes its best width; None if one has none."""
    total = 0.0
    for b in found:
        fits = [b.quantity * (w / b.target - 1) ** 2 for w in widths if inside(w, b)]
        if not fits:
            return None
        total += min(fits)
    return total


@given(bands)
def test_no_fewer_widths_would_do(found: list[Band]) -> None:
    """The number of widths is the least that stabs every band."""
    plan = fewest(found, 1.5, STEP)

    assert len(plan.ranges) <= least_stabbing(found)
    assert plan.trade[0][0] == least_stabbing(found)


@given(bands)
def test_every_size_gets_a_width_in_its_band(found: list[Band]) -> None:
    """Each size is in one range, and that range's width is in its band."""
    plan = fewest(found, 1.5, STEP)
    by_key = {b.key: b for b in found}

    assert sorted(key for r in plan.ranges for key in r.sizes) == sorted(by_key)
    for r in plan.ranges:
        assert r.height == pytest.approx(r.width / 1.5)
        assert r.quantity == sum(by_key[key].quantity for key in r.sizes)
        assert all(inside(r.width, by_key[key]) for key in r.sizes)


@given(bands.filter(lambda found: len(found) <= 5))
def test_the_choice_is_the_best_of_all(found: list[Band]) -> None:
    """Of all sets of as few widths, none has fewer off the step, or as few and a lower cost."""
    plan = fewest(found, 1.0, STEP)
    count = plan.trade[0][0]
    best = min(
        (sum(not on_step(w, STEP) for w in widths), paid)
        for widths in combinations(candidates(found, STEP), count)
        if (paid := cost(found, widths)) is not None
    )

    chosen = tuple(r.width for r in plan.ranges)
    paid = cost(found, chosen)
    assert paid is not None
    assert sum(not on_step(w, STEP) for w in chosen) <= best[0]
    # A width off the step is moved to the best place for its sizes, so the cost may be lower.
    assert paid <= best[1] + 1e-9


@given(bands)
def test_one_more_width_never_makes_it_worse(found: list[Band]) -> None:
    """The trade-off's second line is no farther from the targets, unless it is off the step."""
    plan = fewest(found, 1.0, STEP)
    if len(plan.trade) == 2 and all(on_step(r.width, STEP) for r in plan.ranges):
        (few, off), (more, less) = plan.trade

        assert more == few + 1
        assert less <= off + 1e-9


def test_widths_are_on_the_shops_step() -> None:
    """With room for it, a width is a multiple of the step: 11 in, not 10.9."""
    plan = fewest([a_band("t/M", 10.9 * 25.4, 0.15, 0.15)], 1.0, STEP)

    assert [r.width for r in plan.ranges] == [pytest.approx(11 * 25.4)]


def test_a_band_between_two_steps_gets_a_width_all_the_same() -> None:
    """A band too narrow for the step is served off it, not left out."""
    narrow = a_band("t/M", 100.0, 0.002, 0.002)
    plan = fewest([narrow], 1.0, STEP)

    assert len(plan.ranges) == 1
    assert inside(plan.ranges[0].width, narrow)


def test_a_size_without_room_is_left_out() -> None:
    """A size on which nothing fits has no width; the others have."""
    none = Band(
        "t/S", 1, 0.0, 0.0, 0.0, "collar seam", 0.0, "collar seam", estimated=False, breadth=400.0
    )
    plan = fewest([none, a_band("t/M", 100.0, 0.1, 0.1)], 1.0, STEP)

    assert [r.sizes for r in plan.ranges] == [("t/M",)]


@pytest.mark.parametrize(("aspect", "step"), [(0.0, 1.0), (1.0, 0.0), (-1.0, 1.0)])
def test_nonsense_is_refused(aspect: float, step: float) -> None:
    """Neither aspect nor step may be zero or negative."""
    with pytest.raises(ValueError, match="positive"):
        fewest([a_band("t/M", 100.0, 0.1, 0.1)], aspect, step)
