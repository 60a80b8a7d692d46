"""Gaps of a drawing, and how inks lie beside and over each other."""

import pytest
import shapely

from jigs.artwork.detail import LINE

from .looking import COLOURS, bar, circle, drawn, in_a_row, on_maps, path

#: What the close look promises of a drawing, in mm.
EXACT = 0.02


@on_maps
def test_gaps_between_and_inside(longest: int) -> None:
    """Each of these has one narrowest gap, known from how it is drawn."""
    shapes = {
        "two circles": (circle(-4.075, 0, 8).union(circle(4.075, 0, 8)), 0.15),
        "pinhole": (bar(0, 0, 16, 16).difference(circle(2, 1, 0.3)), 0.3),
        "slot": (bar(0, 0, 16, 16).difference(bar(0, 0, 9, 0.6, 30)), 0.6),
        "frame in a frame": (
            bar(0, 0, 16, 16).difference(bar(0, 0, 12, 12))
            .union(bar(0, 0, 11, 11).difference(bar(0, 0, 8, 8))),
            0.5,
        ),
        "rows": (shapely.union_all([bar(0, -6 + k * 1.35, 14, 1) for k in range(9)]), 0.35),
        "corner to corner": (bar(-3, -3, 5.8, 5.8).union(bar(3, 3, 5.8, 5.8)), 0.2 * 2**0.5),
    }  # fmt: skip
    body, _ = in_a_row([shape for shape, _ in shapes.values()], 20)
    looked = drawn(body, 120, 20, longest=longest)

    found = [looked.gap(colour) for colour in COLOURS[: len(shapes)]]
    assert found == pytest.approx([width for _, width in shapes.values()], abs=EXACT)
    assert looked.gap() == pytest.approx(0.15, abs=EXACT)


def test_a_notch_is_no_gap() -> None:
    """Between the points of a star, or in the corner of an L, there is no gap."""
    zigzag = shapely.Polygon([(1, 19), *((2 + k, 3 + 9 * (k % 2)) for k in range(17)), (19, 19)])
    looked = drawn(path(zigzag), 20, 20)

    assert looked.gap() == float("inf")


def test_inks_that_touch_are_one_shape_together() -> None:
    """Of two abutting bars each has its own width, and both together the sum."""
    body = path(bar(50, 5, 90, 0.5), "#c8102e") + path(bar(50, 5.6, 90, 0.7), "#1b2a4a")
    looked = drawn(body + path(bar(50, 15, 90, 6)), 100, 20)

    assert looked.line("#c8102e") == pytest.approx(0.5, abs=EXACT)
    assert looked.line("#1b2a4a") == pytest.approx(0.7, abs=EXACT)
    assert looked.line() == pytest.approx(1.2, abs=EXACT)


def test_an_outline_round_a_fill() -> None:
    """The gap of an outline's ink is the fill's width; there is none of all inks together."""
    outline, fill = bar(50, 10, 80, 4), bar(50, 10, 78, 2)
    looked = drawn(path(outline, "#c8102e") + path(fill, "#f2b705"), 100, 20)

    assert looked.line("#c8102e") == pytest.approx(1, abs=EXACT)
    assert looked.line("#f2b705") == pytest.approx(2, abs=EXACT)
    assert looked.gap("#c8102e") == pytest.approx(2, abs=EXACT)
    assert looked.line() == pytest.approx(4, abs=EXACT)
    assert looked.gap() == float("inf")


def test_what_lies_on_top_is_what_is_seen() -> None:
    """An ink that another covers in part is as wide as what is left of it."""
    under, over = bar(50, 6, 90, 4), bar(50, 7.5, 96, 4)
    first = drawn(path(under, "#c8102e") + path(over, "#1b2a4a"), 100, 20)
    second = drawn(path(over, "#1b2a4a") + path(under, "#c8102e"), 100, 20)

    assert first.line("#c8102e") == pytest.approx(1.5, abs=EXACT)
    assert first.line("#1b2a4a") == pytest.approx(4, abs=EXACT)
    assert second.line("#c8102e") == pytest.approx(4, abs=EXACT)
    assert second.line("#1b2a4a") == pytest.approx(1.5, abs=EXACT)


def test_a_clip_leaves_what_it_leaves() -> None:
    """What a clip path cuts off is no ink: a sliver that it leaves is a line."""
    body = (
        '<clipPath id="c"><rect x="10" y="5" width="80" height="0.35"/>'
        '<rect x="10" y="9" width="80" height="5"/></clipPath>'
        '<rect x="0" y="0" width="100" height="20" fill="#c8102e" clip-path="url(#c)"/>'
    )
    looked = drawn(body, 100, 20)

    assert looked.line() == pytest.approx(0.35, abs=EXACT)
    assert looked.gap() == pytest.approx(3.65, abs=EXACT)
    assert all(10 <= one.at.x <= 90 for one in looked.thin(LINE))


def test_white_ink_is_ink() -> None:
    """White on a colour is an ink of its own, and a gap in the colour."""
    body = path(bar(50, 10, 90, 16), "#1b2a4a") + path(bar(50, 10, 60, 0.6), "#ffffff")
    looked = drawn(body, 100, 20)

    assert set(looked.shares) == {"#1b2a4a", "#ffffff"}
    assert looked.line("#ffffff") == pytest.approx(0.6, abs=EXACT)
    assert looked.gap("#1b2a4a") == pytest.approx(0.6, abs=EXACT)
    assert looked.gap() == float("inf")
