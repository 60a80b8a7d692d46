"""Stray specks, and small things that are none."""

from typing import Any

import numpy as np
import pytest
import shapely

from jigs.artwork.examine import specks
from jigs.geometry import Box

from .looking import circle, pixels


def found(*shapes: Any) -> tuple[Box, ...]:
    """Return the specks of a picture of 600 x 400 pixels."""
    picture = pixels([(shape, "#000000") for shape in shapes], 600, 400, "none", fine=1)
    return specks((picture[..., 3] > 127).astype(np.uint8))


MAIN = shapely.box(200, 120, 450, 300)


def test_a_dot_in_a_corner_is_a_speck() -> None:
    """Its box is told to the pixel."""
    (speck,) = found(MAIN, shapely.box(10, 20, 14, 25))

    assert (speck.left, speck.top, speck.right, speck.bottom) == pytest.approx(
        (10, 20, 14, 25), abs=1
    )


def test_several_specks_come_largest_first() -> None:
    """Each is told on its own."""
    boxes = found(MAIN, shapely.box(10, 20, 13, 23), shapely.box(580, 380, 586, 386))

    assert [round(box.left) for box in boxes] == [580, 10]


@pytest.mark.parametrize(
    "small",
    [
        shapely.box(320, 108, 326, 114),
        circle(458, 296, 5),
        circle(457, 124, 6).difference(circle(457, 124, 3)),
        shapely.union_all([circle(458 + 9 * k, 298, 4) for k in range(6)]),
    ],
    ids=["dot of an i", "full stop", "ring beside it", "row of dots"],
)
def test_what_stands_with_the_artwork_is_none(small: Any) -> None:
    """The dot of an i, a full stop, a small mark beside the artwork, dots in a row from it."""
    assert found(MAIN, small) == ()


def test_a_scattered_pattern_is_none() -> None:
    """Many small things are a design, no oversight."""
    dots = [circle(20 + 60 * k, 15 + 365 * (k % 2), 4) for k in range(10)]
    sides = [circle(20 + 550 * (k % 2), 60 + 40 * k, 4) for k in range(8)]

    assert found(MAIN, *dots, *sides) == ()


def test_nothing_but_specks_is_none() -> None:
    """Where all is small, all of it is the artwork."""
    assert found(circle(100, 100, 6), circle(500, 300, 6)) == ()
    assert found(MAIN) == ()
