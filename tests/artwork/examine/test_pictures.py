"""Pictures: lines, gaps, inks and grounds to a part of a pixel."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.artwork.colour import difference

from .looking import COLOURS, Looked, bar, circle, compressed, pixels, seen

#: What the close look promises of a picture with smoothed edges, in pixels.
EXACT = 0.3
RED, NAVY, YELLOW = "#c8102e", "#1b2a4a", "#f2b705"


@pytest.mark.parametrize(
    ("angle", "ground"), [(0.0, "white"), (17.0, "white"), (17.0, "transparent"), (45.0, "white")]
)
def test_lines_to_a_part_of_a_pixel(angle: float, ground: str) -> None:
    """A line is as wide as it was drawn, on white and on a transparent ground, however it lies."""
    widths = (1.3, 2.0, 2.6, 4.5, 9.4)
    shapes = [
        (bar(45.4 + 70 * k, 45.5, 60, width, angle), COLOURS[k]) for k, width in enumerate(widths)
    ]
    ground_colour = "#ffffff" if ground == "white" else "none"
    looked = seen(pixels(shapes, 370, 90, ground_colour), ground)

    found = [looked.line(k) for k in of_colours(looked, COLOURS[: len(widths)])]
    assert found == pytest.approx(widths, abs=EXACT)


def of_colours(looked: Looked, colours: Sequence[str]) -> list[int]:
    """Return which inks are nearest to some colours; each is seen within 3 (CIEDE2000)."""
    inks = [ink.colour for ink in looked.detail.inks]
    found = [min(range(len(inks)), key=lambda k: difference(inks[k], one)) for one in colours]
    assert all(difference(inks[k], one) < 3 for k, one in zip(found, colours, strict=True))
    return found


@pytest.mark.parametrize(("width", "angle"), [(1.3, 31.0), (2.6, 0.0), (5.2, 31.0)])
def test_gaps_to_a_part_of_a_pixel(width: float, angle: float) -> None:
    """A slot in a shape is a gap of its width."""
    shape = bar(100, 100, 150, 90).difference(bar(100.3, 100.2, 100, width, angle))
    looked = seen(pixels([(shape, NAVY)], 200, 200))

    assert looked.gap() == pytest.approx(width, abs=EXACT)


@pytest.mark.parametrize("width", [1, 2, 3, 7])
def test_hard_edges_to_a_pixel(width: int) -> None:
    """Without smoothed edges, too, a line is right to a pixel; upright, to hardly anything."""
    picture = np.full((160, 200, 4), 255, np.uint8)
    picture[20 : 20 + width, 20:180, :3] = (27, 42, 74)
    picture[90:140, 20:180, :3] = (200, 16, 46)

    assert seen(picture).line() == pytest.approx(width, abs=0.1)


def test_the_inks_of_a_picture() -> None:
    """Inks are found by their colours, each with its part of the area; edges make no others."""
    shapes = [
        (shapely.box(20, 20, 120, 120), NAVY),
        (circle(200, 70, 80), RED),
        (bar(150, 160, 200, 10, 8), YELLOW),
    ]
    areas = [10_000, math.pi * 1600, 2000]
    looked = seen(pixels(shapes, 280, 200))

    assert looked.detail.flat
    assert list(looked.shares) == [NAVY, RED, YELLOW]
    expected = [area / sum(areas) for area in areas]
    assert list(looked.shares.values()) == pytest.approx(expected, abs=0.004)


@pytest.mark.parametrize("wide", [3, 6])
def test_grey_between_black_and_white(wide: int) -> None:
    """A grey band between black and white is an ink, though edges have that colour, too."""
    shapes = [
        (shapely.box(20, 20, 180, 80), "#000000"),
        (shapely.box(20, 80, 180, 80 + wide), "#808080"),
    ]
    looked = seen(pixels(shapes, 200, 120))

    assert set(looked.shares) == {"#000000", "#808080"}
    assert looked.line("#808080") == pytest.approx(wide, abs=1.0)
    assert looked.line() > 50


def test_smoothed_edges_are_no_lines() -> None:
    """Round shapes of black have no thin grey rim, and no ink but black; dark on a colour, too."""
    shapes = [
        (circle(100, 100, 170), YELLOW),
        (circle(100, 100, 90.5), "#000000"),
        (circle(100, 100, 40.2), "#ffffff"),
    ]
    looked = seen(pixels(shapes, 200, 200, "none"), "transparent")

    assert set(looked.shares) == {YELLOW, "#000000", "#ffffff"}
    assert looked.line("#000000") == pytest.approx(25.15, abs=1)
    assert looked.line(YELLOW) == pytest.approx(39.75, abs=1)
    assert looked.line("#ffffff") == pytest.approx(40.2, abs=1)


@pytest.mark.parametrize(("quality", "subsampling"), [(75, 2), (95, 0)])
def test_compressed_pictures(quality: int, subsampling: int) -> None:
    """JPEG adds no inks and no thin lines; a line is right to a pixel."""
    shapes = [
        (shapely.box(30, 150, 220, 220), RED),
        (circle(80, 80, 90), NAVY),
        (bar(180, 80, 90, 8, 20), NAVY),
    ]
    picture = compressed(pixels(shapes, 250, 250), quality, subsampling)
    looked = seen(picture, blurred=True)

    assert len(looked.shares) == 2
    for found, true in zip(looked.shares, (RED, NAVY), strict=True):
        assert difference(found, true) < 3
    assert looked.detail.flat
    assert looked.line() == pytest.approx(8, abs=1)


def test_a_photograph_is_not_flat() -> None:
    """Shades without number are no inks."""
    rows, columns = np.mgrid[:200, :200]
    noise = np.random.default_rng(5).integers(0, 25, (200, 200))
    channels = (rows + noise / 2, columns + noise, (rows + columns) / 2 + noise, 255 + 0 * rows)
    picture: Any = np.clip(np.stack(channels, axis=2), 0, 255).astype(np.uint8)

    assert not seen(picture, "none").detail.flat


@given(st.floats(2.5, 12), st.floats(0, 180), st.floats(0, 1), st.sampled_from(["turn", "mirror"]))
@settings(max_examples=4)
def test_turned_and_mirrored_pictures(width: float, angle: float, shift: float, how: str) -> None:
    """A picture turned by 90 degrees or mirrored has the same lines."""
    shapes = [(bar(80 + shift, 70, 110, width, angle), NAVY), (shapely.box(10, 130, 150, 155), RED)]
    picture = pixels(shapes, 160, 160)
    other = np.rot90(picture) if how == "turn" else picture[:, ::-1]
    one, two = seen(picture), seen(np.ascontiguousarray(other))

    assert one.line(NAVY) == pytest.approx(two.line(NAVY), abs=EXACT)
    assert one.line(NAVY) == pytest.approx(width, abs=EXACT)
    assert one.shares == pytest.approx(two.shares, abs=1e-3)


def test_the_same_twice_whatever_the_strips() -> None:
    """Two looks at the same picture say the same to the last bit."""
    picture = pixels([(bar(80, 70, 110, 3.3, 20), NAVY), (circle(80, 120, 50), RED)], 160, 160)

    assert seen(picture) == seen(picture)
