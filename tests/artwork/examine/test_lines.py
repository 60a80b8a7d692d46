"""Lines of a drawing: how wide they are, and what is none."""

import math
from typing import Any

import fontpkg_barlow_condensed
import numpy as np
import pytest
import shapely
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from jigs.artwork.detail import LINE
from jigs.artwork.examine.opening import depths, unpainted

from .looking import COLOURS, bar, circle, drawn, in_a_row, on_maps, path

#: What the close look promises of a drawing, in mm.
EXACT = 0.02

WIDTHS = (0.05, 0.13, 0.3, 0.5, 0.8, 1.3, 2.1, 4.0)


def triangle(degrees: float, base: float) -> Any:
    """Return a wedge that runs to a point of an angle."""
    height = base / 2 / math.tan(math.radians(degrees / 2))
    return shapely.Polygon([(-base / 2, height / 2), (base / 2, height / 2), (0, -height / 2)])


def star(points: int, outer: float, inner: float) -> Any:
    """Return a star round 0, 0."""
    radii = [outer, inner] * points
    turns = [math.pi * k / points for k in range(2 * points)]
    return shapely.Polygon(
        [(r * math.sin(a), -r * math.cos(a)) for r, a in zip(radii, turns, strict=True)]
    )


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
def test_bars_at_any_angle(angle: float) -> None:
    """A bar is as wide as it was drawn, from a hairline to a bold stroke."""
    body, _ = in_a_row([bar(0, 0, 17, width, angle) for width in WIDTHS], 20)
    looked = drawn(body, 160, 20)

    found = [looked.line(colour) for colour in COLOURS[: len(WIDTHS)]]
    assert found == pytest.approx(WIDTHS, abs=EXACT)
    assert looked.line() == pytest.approx(WIDTHS[0], abs=EXACT)


@pytest.mark.parametrize("wide", [50, 350])
def test_a_bar_of_small_and_large_artwork(wide: float) -> None:
    """A width is right to the same fraction of a millimetre on small and on large artwork."""
    body = path(bar(wide / 2, 3, wide, 0.3)) + path(bar(wide / 2, 7, wide, 3), "#c8102e")
    looked = drawn(body, wide, 10)

    assert looked.line("#000000") == pytest.approx(0.3, abs=EXACT)
    assert looked.line("#c8102e") == pytest.approx(3, abs=EXACT)
    assert looked.gap() == pytest.approx(5.5 - 3.15, abs=EXACT)


def test_where_a_line_is_and_which_way_it_runs() -> None:
    """A thin place lies on the line; across it is at right angles to it."""
    body = path(bar(20, 10, 30, 0.4, 25)) + path(shapely.box(45, 2, 60, 18))
    (first, *_) = drawn(body, 80, 20).thin(LINE)

    along = math.radians(25)
    across = (-math.sin(along), math.cos(along))
    assert abs((first.at.x - 20) * across[0] + (first.at.y - 10) * across[1]) < 0.05
    turn = first.across.x * across[0] + first.across.y * across[1]
    assert abs(turn) > math.cos(math.radians(5))


@on_maps
def test_rings_waists_crosses_and_dots(longest: int) -> None:
    """Each of these has one least width, known from how it is drawn."""
    shapes = {
        "ring": (circle(0, 0, 16).difference(circle(0, 0, 15.5)), 0.25),
        "hourglass": (
            shapely.Polygon([(-8, -8), (8, -8), (0.15, 0), (8, 8), (-8, 8), (-0.15, 0)]),
            0.3,
        ),
        "cross": (bar(0, 0, 16, 1.1).union(bar(0, 0, 1.1, 16)), 1.1),
        "two strokes": (bar(0, 0, 16, 1.1, 10).union(bar(0, 0, 0.7, 16, 10)), 0.7),
        "dot": (circle(0, 0, 0.2), 0.2),
        "larger dot": (circle(0.02, 0.03, 1.0), 1.0),
        "frame": (bar(0, 0, 16, 16).difference(bar(0, 0, 14, 14)), 1.0),
        "two strokes joined": (
            bar(-5, 0, 6, 6).union(bar(5, 0, 6, 6)).union(bar(0, 0, 9, 0.45)),
            0.45,
        ),
    }
    body, _ = in_a_row([shape for shape, _ in shapes.values()], 20)
    looked = drawn(body, 160, 20, longest=longest)

    found = [looked.line(colour) for colour in COLOURS[: len(shapes)]]
    assert found == pytest.approx([width for _, width in shapes.values()], abs=EXACT)


def test_points_are_no_lines() -> None:
    """What runs to a point is not thin there: it is half as wide as the largest disc, or more."""
    shapes = {
        "needle": triangle(10, 3),
        "wedge": triangle(30, 8),
        "triangle": triangle(60, 16),
        "star": star(5, 9, 3.5),
        "badge": star(12, 9, 6),
        "square": bar(0, 0, 12, 12, 10),
        "leaf": circle(-6, 0, 18).intersection(circle(6, 0, 18)),
    }
    body, placed = in_a_row(list(shapes.values()), 20)
    looked = drawn(body, 140, 20)

    for colour, shape in placed.items():
        disc = 2 * shapely.maximum_inscribed_circle(shape, tolerance=0.01).length
        assert looked.line(colour) > 0.5 * disc


@on_maps
def test_serifs(longest: int) -> None:
    """A hairline serif is a line; one that runs to a point is none."""
    slab = bar(0, 2, 4, 14)
    hairline = slab.union(bar(0, -5.1, 14, 0.2))
    pointed = slab.union(shapely.Polygon([(-7, -5), (7, -5), (2, -3), (-2, -3)]))
    body, _ = in_a_row([hairline, pointed], 20)
    looked = drawn(body, 40, 20, longest=longest)

    assert looked.line(COLOURS[0]) == pytest.approx(0.2, abs=EXACT)
    # Far above any limit a width is exact to a part of itself.
    assert looked.line(COLOURS[1]) == pytest.approx(4, rel=0.015)


@on_maps
def test_a_wedge_that_ends_bluntly(longest: int) -> None:
    """What narrows to a blunt end is about as wide as that end: no less, hardly more."""
    blunt = shapely.Polygon([(-1, 8), (1, 8), (0.2, -8), (-0.2, -8)])
    looked = drawn(path(shapely.affinity.translate(blunt, 10, 10)), 20, 20, longest=longest)

    # By the rule of tips: the disc b / (1 - 3 tan(a / 2)), 0.47 here.
    assert 0.4 - EXACT <= looked.line() <= 0.4 / (1 - 3 * 0.05) + EXACT


@on_maps
def test_strokes_thinner_than_any_pixel(longest: int) -> None:
    """A hairline that no map shows is found, in any ink, straight or bent."""
    body = (
        '<path d="M30 6 H195" stroke="#c8102e" stroke-width="0.02" fill="none"/>'
        '<path d="M5 8 L195 17" stroke="#1b2a4a" stroke-width="0.03" fill="none"/>'
        '<circle cx="50" cy="13.5" r="3" stroke="#2e7d32" stroke-width="0.025" fill="none"/>'
        '<rect x="5" y="5" width="20" height="12" fill="#f2b705"/>'
    )
    looked = drawn(body, 200, 20, longest=longest)

    found = [looked.line(one) for one in ("#c8102e", "#1b2a4a", "#2e7d32")]
    assert found == pytest.approx([0.02, 0.03, 0.025], abs=0.005)
    assert looked.line("#f2b705") == pytest.approx(12, rel=0.05)


@on_maps
def test_letters_are_as_bold_as_the_font_says(longest: int) -> None:
    """The thinnest strokes of I, H and E are stem, crossbar and arm of the font's outlines."""
    font = TTFont(fontpkg_barlow_condensed.ROOT / "files" / "BarlowCondensed-Regular.ttf")
    glyphs, scale, body = font.getGlyphSet(), 14 / 1000, ""
    # As the glyphs' own points have it, in 1/1000 of the size.
    strokes = {"I": 143 - 72, "H": 382 - 319, "E": 700 - 638}
    for k, letter in enumerate(strokes):
        pen = SVGPathPen(glyphs)
        glyphs[letter].draw(pen)
        place = f"translate({2 + 10 * k} 15) scale({scale} {-scale})"
        body += f'<path transform="{place}" fill="{COLOURS[k]}" d="{pen.getCommands()}"/>'
    looked = drawn(body, 40, 20, longest=longest)

    found = [looked.line(COLOURS[k]) for k in range(len(strokes))]
    assert found == pytest.approx([units * scale for units in strokes.values()], abs=EXACT)


@given(st.floats(5, 90), st.floats(0, 360), st.floats(-8, 8), st.floats(-8, 8), st.floats(9.5, 20))
def test_no_corner_is_a_line(degrees: float, turn: float, x: float, y: float, disc: float) -> None:
    """Whatever its angle, and however it lies among the pixels, a corner is no line."""
    rows, columns = np.mgrid[:144, :144] - 71.5
    a = math.radians(turn)
    along = (columns - x) * math.cos(a) + (rows - y) * math.sin(a)
    beside = (rows - y) * math.cos(a) - (columns - x) * math.sin(a)
    mask = (np.abs(beside) <= along * math.tan(math.radians(degrees / 2))).astype(np.uint8)

    assert unpainted(mask, depths(mask), disc, (50, 50, 94, 94)) == []


@given(st.floats(0, 180), st.floats(2.2, 6), st.floats(8, 9), st.floats(-1, 1))
def test_any_long_tip_is_a_line(turn: float, length: float, width: float, x: float) -> None:
    """A blunt stroke that sticks out more than twice its width is a line, however it lies."""
    rows, columns = np.mgrid[:144, :144] - 71.5
    a = math.radians(turn)
    along = (columns - x) * math.cos(a) + rows * math.sin(a)
    beside = rows * math.cos(a) - (columns - x) * math.sin(a)
    stroke = (np.abs(beside) <= width / 2) & (along <= length * width)
    mask = (stroke | (along <= 0)).astype(np.uint8)

    assert len(unpainted(mask, depths(mask), 9.8, (0, 0, 144, 144))) == 1
