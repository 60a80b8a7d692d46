"""The acceptable widths of one size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.locations import Room
from jigs.widths import Band, as_ordered, band
from jigs.widths.band import SMALLEST, USUAL

BOUNDS = (254.0, 304.8)


def of(usual: float, room: float, needed: float = 0.0) -> tuple[Band, list[str], bool]:
    """Return the band, its remarks and whether one blocks."""
    found, said = band(
        "t/M", usual=usual, bounds=BOUNDS, room=Room(room, "hem"), breadth=500.0, needed=needed
    )
    return found, [one.says for one in said], any(one.blocks for one in said)


def test_room_to_spare_leaves_the_usual_band() -> None:
    """The band is the usual width ± 15 %, inside what is usual on any garment."""
    found, said, _ = of(280.0, 400.0)

    assert (found.target, found.limited_by) == (280.0, USUAL)
    assert found.least == pytest.approx(254.0)
    assert found.most == pytest.approx(304.8)
    assert said == []


def test_a_seam_cuts_the_band_and_is_named() -> None:
    """Where only 260 fit, 260 is the most, and the hem is to blame."""
    found, said, blocks = of(280.0, 260.0)

    assert (found.target, found.most, found.limited_by) == (260.0, 260.0, "hem")
    assert not said
    assert not blocks


def test_far_less_room_than_usual_is_remarked() -> None:
    """Where much less fits than is usual, that is said, but it does not block."""
    found, said, blocks = of(280.0, 200.0)

    assert found.target == 200.0
    assert "only 7 7/8 in fits where 11.02 in is usual (limited by the hem)" in said[0]
    assert not blocks


def test_no_room_blocks() -> None:
    """A print that does not fit at all blocks the order."""
    found, said, blocks = of(280.0, 2.0)

    assert not found.usable
    assert blocks
    assert "the hem is too close" in said[0]


def test_artwork_that_needs_more_than_fits_blocks() -> None:
    """Artwork that only holds at a width for which there is no room blocks the order."""
    found, said, blocks = of(280.0, 260.0, needed=270.0)

    assert not found.usable
    assert blocks
    assert "needs 10.63 in to hold" in said[0]


@given(st.floats(20, 330), st.floats(6, 400), st.floats(0, 100))
def test_a_band_is_in_order(usual: float, room: float, needed: float) -> None:
    """Least, target and most are in order, and the most fits."""
    found, _, _ = of(usual, room, needed)

    assert found.most <= room + 1e-9
    if found.usable:
        assert found.most >= SMALLEST
        assert found.least <= found.target <= found.most + 1e-9
        assert found.least >= needed - 1e-9


@pytest.mark.parametrize(
    ("width", "blocks", "says"),
    [
        (270.0, None, ""),
        (320.0, False, "wider than usual"),
        (200.0, False, "narrower than usual"),
        (401.0, True, "does not fit: 15.75 in is the most (limited by the hem)"),
    ],
)
def test_a_given_width_is_judged(width: float, blocks: bool | None, says: str) -> None:
    """A width of the order's own fits, looks unusual, or does not fit and blocks."""
    found, _, _ = of(280.0, 400.0)
    plan = as_ordered([found], 2.0, [(width, ["t/M"])])

    assert [r.width for r in plan.ranges] == [width]
    assert [f.blocks for f in plan.findings] == ([] if blocks is None else [blocks])
    assert all(says in f.says for f in plan.findings)
