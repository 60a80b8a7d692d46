"""The inks of a drawing, their shares, and its optical centre."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from .looking import Drawing, bar, circle, drawn, path

#: Part of the inked area to which a share is right.
SHARE = 0.002


def test_shares_are_the_areas() -> None:
    """Inks are told by their exact colour, each with its part of the inked area."""
    body = (
        path(shapely.box(10, 10, 60, 50), "#1b2a4a")
        + path(circle(90, 30, 30), "#c8102e")
        + path(bar(140, 30, 40, 3, 20), "#f2b705")
    )
    areas = {"#1b2a4a": 2000.0, "#c8102e": math.pi * 225, "#f2b705": 120.0}
    shares = drawn(body, 170, 60).shares

    total = sum(areas.values())
    assert list(shares) == ["#1b2a4a", "#c8102e", "#f2b705"]
    assert shares == pytest.approx({k: a / total for k, a in areas.items()}, abs=SHARE)


def test_shares_of_what_is_seen() -> None:
    """Order, clip paths and opacity are reckoned with: only what is seen counts."""
    body = (
        '<clipPath id="c"><rect x="0" y="0" width="40" height="40"/></clipPath>'
        '<rect x="10" y="10" width="60" height="30" fill="#1b2a4a" clip-path="url(#c)"/>'
        '<rect x="20" y="10" width="10" height="30" fill="#c8102e"/>'
        '<rect x="20" y="10" width="10" height="10" fill="#f2b705" opacity="0"/>'
    )
    looked = drawn(body, 80, 50)

    assert looked.shares == pytest.approx({"#1b2a4a": 2 / 3, "#c8102e": 1 / 3}, abs=SHARE)
    assert looked.detail.flat


def test_a_translucent_ink_over_another_makes_a_third() -> None:
    """Half-opaque red on navy is the colour that is seen: the mean of both (SVG 1.1, 14.2)."""
    body = (
        '<rect x="10" y="10" width="40" height="20" fill="#000080"/>'
        '<rect x="20" y="10" width="10" height="20" fill="#ff0000" opacity="0.5"/>'
    )
    shares = drawn(body, 60, 40).shares

    assert sorted(shares.values()) == pytest.approx([0.25, 0.75], abs=SHARE)
    mixed = min(shares, key=lambda one: shares[one])
    channels = [int(mixed[k : k + 2], 16) for k in (1, 3, 5)]
    assert channels == pytest.approx([127.5, 0, 64], abs=1)


def test_a_gradient_is_not_flat() -> None:
    """A drawing with a gradient has shades, and says so."""
    body = (
        '<linearGradient id="g"><stop offset="0" stop-color="#ffe000"/>'
        '<stop offset="1" stop-color="#7000a0"/></linearGradient>'
        '<rect x="5" y="5" width="90" height="10" fill="url(#g)"/>'
    )

    assert not drawn(body, 100, 20).detail.flat


def test_sixteen_colours_are_many() -> None:
    """More colours than any transfer has: the main ones are told, and that there are more."""
    hues = [
        f"#{r:02x}{g:02x}{b:02x}" for r in (0, 85, 170, 240) for g in (20, 220) for b in (30, 210)
    ]
    body = "".join(path(shapely.box(6 * k, 2, 6 * k + 5, 8), hue) for k, hue in enumerate(hues))
    detail = drawn(body, 100, 10).detail

    assert len(hues) == 16
    assert len(detail.inks) == 12
    assert not detail.flat


@given(
    st.lists(
        st.tuples(st.floats(0, 80), st.floats(0, 20), st.floats(2, 15), st.floats(2, 10)),
        min_size=1,
        max_size=4,
    )
)
@settings(max_examples=6)
def test_the_centroid_is_that_of_the_area(boxes: list[tuple[float, float, float, float]]) -> None:
    """The optical centre is the centroid of the union of all ink, as shapely finds it."""
    shape = shapely.union_all([shapely.box(x, y, x + w, y + h) for x, y, w, h in boxes])
    centre = drawn(path(shape), 100, 30).detail.centroid

    assert (centre.x, centre.y) == pytest.approx((shape.centroid.x, shape.centroid.y), abs=0.1)


def test_the_centroid_of_a_triangle_and_a_half_disc() -> None:
    """A triangle's lies at a third of its height, a half disc's at 4 r / 3 pi (Euclid; Guldin)."""
    triangle = drawn('<path d="M10 5 L70 5 L10 65 Z"/>', 80, 70).detail.centroid
    half = drawn('<path d="M10 40 A30 30 0 0 1 70 40 Z"/>', 80, 50).detail.centroid

    assert (triangle.x, triangle.y) == pytest.approx((30, 25), abs=0.03)
    assert (half.x, half.y) == pytest.approx((40, 40 - 4 * 30 / (3 * math.pi)), abs=0.03)


def test_the_same_twice() -> None:
    """Two looks at the same drawing say the same to the last bit."""
    body = path(bar(20, 10, 30, 0.4, 25)) + path(circle(60, 10, 9), "#c8102e")

    assert Drawing(body, 80, 20).looked == Drawing(body, 80, 20).looked
