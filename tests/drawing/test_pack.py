"""Boxes on sheets: inside, apart, on few sheets, and always the same."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.drawing.pack import Packing, packed

SHEET = (590.0, 390.0)
_SIDE = st.floats(20, 380).map(lambda side: round(side, 2))


def check(found: Packing, sizes: list[tuple[float, float]], gap: float) -> None:
    """Assert that all boxes lie inside their sheets, each once, no two nearer than the gap."""
    seen = [place.index for sheet in found.sheets for place in sheet]
    assert sorted([*seen, *found.left]) == list(range(len(sizes)))
    for sheet in found.sheets:
        boxes = []
        for place in sheet:
            wide, high = sizes[place.index][::-1] if place.turned else sizes[place.index]
            boxes.append((place.x, place.y, place.x + wide, place.y + high))
        for left, top, right, bottom in boxes:
            assert left >= 0
            assert top >= 0
            assert right <= SHEET[0] + 1e-6
            assert bottom <= SHEET[1] + 1e-6
        for one, two in combinations(boxes, 2):
            across = max(two[0] - one[2], one[0] - two[2])
            down = max(two[1] - one[3], one[1] - two[3])
            assert max(across, down) >= gap - 1e-6


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(_SIDE, _SIDE), min_size=1, max_size=24), st.sampled_from([0.0, 5.2]))
def test_boxes_lie_inside_and_apart(sizes: list[tuple[float, float]], gap: float) -> None:
    """Whatever is packed, nothing lies outside or too near, and no box is lost."""
    found = packed(sizes, SHEET, gap)
    check(found, sizes, gap)
    assert len(found.sheets) >= found.bound
    assert not found.left
    assert packed(sizes, SHEET, gap) == found


@pytest.mark.parametrize(
    ("sizes", "count"),
    [
        ([(590.0, 390.0)] * 3, 3),
        ([(390.0, 590.0)], 1),
        ([(290.0, 390.0)] * 4, 2),
        ([(292.5, 192.5)] * 4, 1),
        ([(190.0, 292.0)] * 5 + [(100.0, 90.0)], 2),
    ],
)
def test_known_answers(sizes: list[tuple[float, float]], count: int) -> None:
    """Boxes whose fewest sheets can be counted by hand come on so many."""
    found = packed(sizes, SHEET, 5.0)
    check(found, sizes, 5.0)
    assert len(found.sheets) == count


def test_what_fits_no_sheet_is_left() -> None:
    """A box larger than a sheet is named, the others are packed."""
    found = packed([(600.0, 100.0), (100.0, 100.0)], SHEET, 5.0)
    assert found.left == (0,)
    assert [place.index for sheet in found.sheets for place in sheet] == [1]


def test_nothing_to_pack() -> None:
    """No boxes need no sheet."""
    assert packed([], SHEET, 5.0) == Packing((), (), 0)
    assert packed([(900.0, 900.0)], SHEET, 5.0) == Packing((), (0,), 0)
