"""SVG: known drawings against elementary geometry."""

import io
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from jigs.artwork import draw_svg as drawing
from jigs.artwork.ink import accuracy
from jigs.errors import BadInput
from jigs.geometry import Box

from .samples import HEAD, assert_ink, inked, svg

COS, SIN = math.cos(math.radians(30)), math.sin(math.radians(30))
#: Half extents of an ellipse of half axes 40 and 10 turned by 30 degrees.
EX, EY = math.hypot(40 * COS, 10 * SIN), math.hypot(40 * SIN, 10 * COS)
WHOLE = "width='200' height='100'"
CLIP = '<clipPath id="c"><circle cx="50" cy="50" r="20"/></clipPath>'
MASK = '<mask id="m"><rect x="40" y="20" width="30" height="25" fill="#fff"/></mask>'
NAMED = '<defs><rect id="r" width="10" height="10"/></defs>'
STYLE = "<style>.a{fill:none;stroke:#f00;stroke-width:4}</style>"

KNOWN = {
    "a filled rectangle": ('<rect x="20" y="30" width="50" height="40"/>', (20, 30, 70, 70)),
    "a stroke adds half its width": (
        '<rect x="20" y="30" width="50" height="40" fill="none" stroke="red" stroke-width="3"/>',
        (18.5, 28.5, 71.5, 71.5),
    ),
    "a stroke in mm is 96/25.4 user units a mm": (
        '<path d="M20 50H120" stroke="#00f" stroke-width="2mm"/>',
        (20, 50 - 96 / 25.4, 120, 50 + 96 / 25.4),
    ),
    "a turned square": (
        '<rect width="40" height="40" transform="translate(90 20) rotate(30)"/>',
        (90 - 40 * SIN, 20, 90 + 40 * COS, 20 + 40 * (SIN + COS)),
    ),
    "a turned ellipse": (
        '<ellipse rx="40" ry="10" transform="translate(90 50) rotate(30)"/>',
        (90 - EX, 50 - EY, 90 + EX, 50 + EY),
    ),
    "a clip path": (
        f"{CLIP}<rect {WHOLE} clip-path='url(#c)'/>",
        (30, 30, 70, 70),
    ),
    "a use, moved": (
        f"{NAMED}<use href='#r' x='5' y='7'/><use xlink:href='#r' x='150' y='60'/>",
        (5, 7, 160, 70),
    ),
    "a mask": (
        f"{MASK}<rect {WHOLE} mask='url(#m)'/>",
        (40, 20, 70, 45),
    ),
    "a faint ink of a fifth": (
        '<rect x="20" y="30" width="50" height="40" fill="#123" opacity="0.2"/>',
        (20, 30, 70, 70),
    ),
    "white ink": ('<circle cx="100" cy="50" r="31" fill="#fff"/>', (69, 19, 131, 81)),
    "only what is on the page": (
        '<circle cx="0" cy="0" r="40"/><rect x="300" width="9" height="9"/>',
        (0, 0, 40, 40),
    ),
    "a percentage of the view box": (
        '<rect x="10%" y="10%" width="50%" height="50%"/>',
        (20, 10, 120, 60),
    ),
    "a hidden layer": (
        f"<g display='none'><rect {WHOLE}/></g><rect x='9' y='9' width='9' height='9'/>",
        (9, 9, 18, 18),
    ),
    "a style sheet": (
        f"{STYLE}<circle class='a' cx='50' cy='50' r='20'/>",
        (28, 28, 72, 72),
    ),
    "a speck far from the rest": (
        '<rect x="20" y="30" width="50" height="40"/><circle cx="190" cy="90" r="0.5"/>',
        (20, 30, 190.5, 90.5),
    ),
    "a hairline": ('<rect x="20" y="30" width="150" height="0.3"/>', (20, 30, 170, 30.3)),
}


@pytest.mark.parametrize("known", KNOWN)
def test_ink_of_a_known_drawing(known: str) -> None:
    """The ink box is where geometry says it is."""
    body, box = KNOWN[known]

    assert_ink(inked("a.svg", svg(body)), Box(*box))


MM = 25.4 / 96


@pytest.mark.parametrize(
    ("head", "box", "page"),
    [
        # 1 in is 96 px, 72 pt, 6 pc, 25.4 mm (CSS Values and Units Module Level 4, 6.2).
        ('width="96" height="192"', (10 * MM, 10 * MM, 20 * MM, 20 * MM), (25.4, 50.8)),
        ('width="1in" height="2in"', (10 * MM, 10 * MM, 20 * MM, 20 * MM), (25.4, 50.8)),
        ('width="72pt" height="12pc"', (10 * MM, 10 * MM, 20 * MM, 20 * MM), (25.4, 50.8)),
        ('viewBox="0 0 96 96"', (10 * MM, 10 * MM, 20 * MM, 20 * MM), (25.4, 25.4)),
        ('width="100%" viewBox="0 0 96 96"', (10 * MM, 10 * MM, 20 * MM, 20 * MM), (25.4, 25.4)),
        ('width="4cm" viewBox="0 0 20 40"', (20, 20, 40, 40), (40, 80)),
        ('width="40mm" height="40mm" viewBox="-10,-10 40 40"', (20, 20, 30, 30), (40, 40)),
        # preserveAspectRatio: meet centres (SVG 2, 8.8): scale 2, 40 mm over in x.
        ('width="160mm" height="80mm" viewBox="0 0 40 40"', (60, 20, 80, 40), (160, 80)),
        (
            'width="160mm" height="80mm" viewBox="0 0 40 40" preserveAspectRatio="xMinYMid"',
            (20, 20, 40, 40),
            (160, 80),
        ),
        (
            'width="160mm" height="80mm" viewBox="0 0 40 40" preserveAspectRatio="none"',
            (40, 20, 80, 40),
            (160, 80),
        ),
        (
            'width="160mm" height="80mm" viewBox="0 0 40 40" preserveAspectRatio="xMidYMin slice"',
            (40, 40, 80, 80),
            (160, 80),
        ),
    ],
)
def test_the_page_of_an_svg(head: str, box: tuple[float, ...], page: tuple[float, float]) -> None:
    """Width, height, viewBox and preserveAspectRatio mean what CSS and SVG say."""
    body = '<rect x="10" y="10" width="10" height="10"/>'
    artwork = inked("a.svg", svg(body, f'xmlns="http://www.w3.org/2000/svg" {head}'))

    assert page == pytest.approx((artwork.page_width, artwork.page_height))
    assert_ink(artwork, Box(*box))


@settings(max_examples=12)
@given(
    st.floats(0, 150),
    st.floats(0, 80),
    st.floats(2, 50),
    st.floats(2, 20),
    st.floats(0, 90),
)
def test_any_turned_ellipse(x: float, y: float, rx: float, ry: float, turn: float) -> None:
    """The ink box of an ellipse anywhere, of any shape and turn, is right to the accuracy."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    half_x, half_y = math.hypot(rx * c, ry * s), math.hypot(rx * s, ry * c)
    body = (
        f'<svg xmlns="http://www.w3.org/2000/svg"><ellipse rx="{rx!r}" ry="{ry!r}" '
        f'transform="translate({x + half_x!r} {y + half_y!r}) rotate({turn!r})"/></svg>'
    )
    task = {"width": 300.0, "height": 200.0, "fonts": False, "closely": False}
    ink = drawing.draw_svg(task, body.encode()).ink

    assert ink is not None
    slack = accuracy(300, 200, ink)
    assert abs(ink.left - x) <= slack
    assert abs(ink.top - y) <= slack
    assert abs(ink.right - x - 2 * half_x) <= slack
    assert abs(ink.bottom - y - 2 * half_y) <= slack


def test_a_large_page_hides_no_small_ink() -> None:
    """A mark of 1 mm on a page of 3 m is found to 0.02 % and the page's millionth."""
    head = 'xmlns="http://www.w3.org/2000/svg" width="3000mm" height="2000mm" '
    head += 'viewBox="0 0 3000 2000"'
    artwork = inked("a.svg", svg('<circle cx="1800" cy="1200" r="0.5"/>', head))

    assert_ink(artwork, Box(1799.5, 1199.5, 1800.5, 1200.5))


def test_the_preview_is_the_ink_alone() -> None:
    """The preview is 1200 px long, on no ground, and filled to its four sides by the ink."""
    body = '<ellipse cx="60" cy="50" rx="40" ry="20" fill="#ff6a3d"/>'
    picture = Image.open(io.BytesIO(inked("a.svg", svg(body)).preview))

    assert (picture.mode, picture.size) == ("RGBA", (1200, 600))
    assert picture.getbbox() == (0, 0, 1200, 600)
    assert picture.getpixel((2, 2)) == (0, 0, 0, 0)
    assert picture.getpixel((600, 300)) == (0xFF, 0x6A, 0x3D, 255)


def test_same_file_same_artwork() -> None:
    """Reading twice gives equal values, preview bytes included."""
    data = svg('<circle cx="50" cy="50" r="20"/>')

    assert inked("a.svg", data) == inked("a.svg", data)


def test_live_text_is_told() -> None:
    """Live text is named, because a machine's own fonts decide what it looks like."""
    body = '<rect width="9" height="9"/><text x="1" y="9">Harbour <tspan>Road</tspan></text>'
    (finding,) = inked("a.svg", svg(body)).findings

    assert finding.blocks
    assert finding.about == "a.svg"
    assert "'Harbour Road'" in finding.says
    assert "outlines" in finding.says


def test_a_white_ground_left_in_the_drawing_is_told() -> None:
    """A white rectangle as large as the page is taken for the ground, and that is told."""
    body = '<rect width="100%" height="100%" fill="#fff"/><circle cx="50" cy="50" r="20"/>'
    artwork = inked("a.svg", svg(body))

    assert "white rectangle" in artwork.findings[0].says
    assert artwork.ground == "white"
    assert_ink(artwork, Box(30, 30, 70, 70))


def test_a_page_that_is_all_white_is_white_artwork() -> None:
    """A white rectangle alone is what is to be printed: there is nothing on it."""
    artwork = inked("a.svg", svg('<rect width="100%" height="100%" fill="#fff"/>'))

    assert artwork.ground == "transparent"
    assert_ink(artwork, Box(0, 0, 200, 100))


def test_a_doctype_that_declares_nothing_is_passed_over() -> None:
    """Many drawing programs write the public document type of SVG 1.1; it is not fetched."""
    before = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
        '"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
    )
    data = svg('<rect x="20" y="30" width="50" height="40"/>', before=before)

    assert_ink(inked("a.svg", data), Box(20, 30, 70, 70))


def test_utf16_is_read() -> None:
    """XML may be UTF-16 with a byte order mark (XML 1.0, 4.3.3)."""
    text = svg('<rect x="20" y="30" width="50" height="40"/>').decode()

    assert_ink(inked("a.svg", text.encode("utf-16")), Box(20, 30, 70, 70))


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (svg(""), "no ink"),
        (svg('<rect x="300" width="9" height="9"/>'), "no ink"),
        (svg('<rect width="9" height="9" opacity="0.03"/>'), "no ink"),
        (svg("<g>")[:-6], "broken or cut short"),
        (svg("", 'xmlns="http://www.w3.org/2000/svg"'), "no size"),
        (svg("", 'width="9" height="9"'), "xmlns"),
        (svg("", HEAD.replace("200mm", "9em")), "'9em'"),
        (svg("", HEAD.replace("200mm", "-9mm")), "'-9mm'"),
        (svg("", HEAD.replace("200mm", "nan")), "'nan'"),
        (svg("", HEAD.replace("200mm", "1000000000")), "the page is"),
        (svg("", HEAD.replace("200mm", "1e300")), "the page is"),
        (svg("", HEAD.replace("0 0 200 100", "0 0 NaN 100")), "viewBox"),
        (svg("", HEAD.replace("0 0 200 100", "0 0 -200 100")), "viewBox"),
        (svg("", HEAD.replace("0 0 200 100", "0 0 200")), "viewBox"),
        (svg("", HEAD.replace("0 0 200 100", "0 0 1e999 100")), "viewBox"),
    ],
)
def test_what_is_no_artwork_is_refused(data: bytes, says: str) -> None:
    """A drawing without ink, size or sense is one BadInput that says why."""
    with pytest.raises(BadInput, match=says) as caught:
        inked("a.svg", data)

    assert str(caught.value.place) == "order.toml: prints[1].artwork"
