import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from jigs import artwork
from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import Remark
from jigs.artwork.turned import turned
from jigs.errors import Place
from jigs.geometry import Box, Point
from tests.artwork import looked

ART = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="80mm" viewBox="0 0 120 80">'
    '<rect x="15" y="10" width="60" height="20" fill="#c00"/>'
    '<rect x="15" y="10" width="10" height="50" fill="#00c"/></svg>'
)


def art() -> Artwork:
    """Return artwork whose top left corner is blue, 60 mm wide and 50 mm high."""
    return artwork.read("mark.svg", ART.encode(), Place("mark.svg"))


def corner(of: Artwork, x: float, y: float) -> tuple[int, ...]:
    """Return the colour of the preview at a share of its width and height."""
    with Image.open(io.BytesIO(of.preview)) as picture:
        at = (round(x * (picture.width - 1)), round(y * (picture.height - 1)))
        colour = picture.convert("RGBA").getpixel(at)
    assert isinstance(colour, tuple)
    return colour


def test_a_quarter_turn_brings_the_left_side_to_the_top() -> None:
    """Clockwise: the blue stem at the left lies along the top; ink box and page turn with it."""
    one = turned(art(), 90)

    assert one.aspect == pytest.approx(50 / 60, abs=2e-3)
    assert (one.page_width, one.page_height) == pytest.approx((80, 120), abs=0.01)
    assert one.ink.left == pytest.approx(80 - 60, abs=0.05)
    assert one.ink.top == pytest.approx(15, abs=0.05)
    assert corner(one, 0.05, 0.05)[:3] == (0, 0, 204)
    assert corner(one, 0.95, 0.95)[:3] == (204, 0, 0)
    assert corner(one, 0.05, 0.95)[3] == 0


@given(st.sampled_from((0, 90, 180, 270)))
def test_turning_on_to_a_whole_turn_changes_nothing(degrees: int) -> None:
    """Turned and turned back, the ink box and the picture are what they were."""
    back = turned(turned(art(), degrees), (360 - degrees) % 360)

    assert back.ink.left == pytest.approx(art().ink.left)
    assert back.ink.bottom == pytest.approx(art().ink.bottom)
    assert back.preview == art().preview


def test_nothing_else_is_a_turn() -> None:
    """Artwork is pressed straight."""
    with pytest.raises(ValueError, match="by quarters"):
        turned(art(), 45)


def test_what_a_close_look_found_turns_with_the_artwork() -> None:
    """Points, boxes and the way across a line go where a quarter clockwise brings them."""
    one = turned(looked.looked(looked.detail(*looked.PLACES, specks=(looked.SPECK,))), 90)

    assert one.detail is not None
    place, speck = one.detail.thin[0], one.detail.specks[0]
    # 20 from the left and 15 from the top of a page 80 high: 15 from the right, 20 from the top.
    assert place.at == Point(80 - 15, 20)
    assert place.across == Point(-looked.ACROSS.y, looked.ACROSS.x)
    assert speck == Box(80 - 11, 108, 80 - 10, 110)
    assert one.ink.holds(speck)


def test_four_quarters_are_none() -> None:
    """Turned four times, artwork with all that was found in it is as it was."""
    first = looked.looked(
        looked.detail(
            *looked.PLACES,
            specks=(looked.SPECK,),
            remarks=(looked.GRADIENT, Remark("text", "live text")),
            body=Box(10, 10, 100, 70),
        )
    )
    one = first
    for _ in range(4):
        one = turned(one, 90)

    assert one.detail == first.detail
    assert (one.ink, one.page_width) == (first.ink, first.page_width)
