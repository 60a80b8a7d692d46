"""PDF: known drawings against elementary geometry, and what is refused."""

import io
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf import PdfReader, PdfWriter
from pypdf.generic import NameObject, NumberObject, RectangleObject

from jigs.artwork import draw_pdf as drawing
from jigs.artwork.ink import accuracy
from jigs.errors import BadInput
from jigs.geometry import Box

from .samples import assert_ink, inked, looked_at, pdf

#: A point is 1/72 in (ISO 32000-1, 8.3.2.3).
PT = 25.4 / 72


def bar(canvas: Any) -> None:
    """Draw 100 x 40 pt, 50 from the left and 60 from the bottom."""
    canvas.rect(50, 60, 100, 40, stroke=0, fill=1)


def points(left: float, top: float, right: float, bottom: float) -> Box:
    """Return a box of points from the page's top left in mm."""
    return Box(left * PT, top * PT, right * PT, bottom * PT)


def changed(data: bytes, **entries: Any) -> bytes:
    """Return a PDF with entries of its page set."""
    writer = PdfWriter(PdfReader(io.BytesIO(data)))
    for name, value in entries.items():
        writer.pages[0][NameObject(f"/{name}")] = value
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def test_a_filled_bar_on_the_page() -> None:
    """PDF counts from the bottom, the ink box from the top."""
    artwork = inked("a.pdf", pdf(bar))

    assert (artwork.kind, artwork.ground, artwork.findings) == ("pdf", "transparent", ())
    assert (artwork.page_width, artwork.page_height) == pytest.approx((300 * PT, 200 * PT))
    assert_ink(artwork, points(50, 100, 150, 140))


def test_a_stroke_on_a_moved_and_turned_origin() -> None:
    """A stroked circle of 30 pt under a translation and a turn lies where both carry it."""

    def draw(canvas: Any) -> None:
        canvas.translate(100, 80)
        canvas.rotate(45)
        canvas.setLineWidth(4)
        canvas.circle(40, 0, 30, stroke=1, fill=0)

    x, y = 100 + 40 * math.sqrt(0.5), 200 - 80 - 40 * math.sqrt(0.5)

    assert_ink(inked("a.pdf", pdf(draw)), points(x - 32, y - 32, x + 32, y + 32))


def test_a_clip_is_regarded() -> None:
    """What a clip hides is no ink."""

    def draw(canvas: Any) -> None:
        path = canvas.beginPath()
        path.rect(70, 70, 20, 10)
        canvas.clipPath(path, stroke=0, fill=0)
        bar(canvas)

    assert_ink(inked("a.pdf", pdf(draw)), points(70, 120, 90, 130))


def test_the_crop_box_is_the_page() -> None:
    """The page is what the CropBox shows (ISO 32000-1, 14.11.2)."""
    data = changed(pdf(bar), CropBox=RectangleObject((40, 50, 240, 150)))
    artwork = inked("a.pdf", data)

    assert (artwork.page_width, artwork.page_height) == pytest.approx((200 * PT, 100 * PT))
    assert_ink(artwork, points(10, 50, 110, 90))


def test_a_rotated_page_is_read_as_shown() -> None:
    """/Rotate 90 turns the page clockwise: what was up lies to the right."""
    artwork = inked("a.pdf", changed(pdf(bar), Rotate=NumberObject(90)))

    assert (artwork.page_width, artwork.page_height) == pytest.approx((200 * PT, 300 * PT))
    assert_ink(artwork, points(60, 50, 100, 150))


def test_an_origin_beside_the_page_corner() -> None:
    """A MediaBox need not begin at zero."""
    data = changed(
        pdf(bar),
        MediaBox=RectangleObject((-100, -50, 200, 150)),
        CropBox=RectangleObject((-100, -50, 200, 150)),
    )

    assert_ink(inked("a.pdf", data), points(150, 50, 250, 90))


@settings(max_examples=12)
@given(st.floats(0, 150), st.floats(0, 80), st.floats(4, 100), st.floats(4, 60), st.floats(0, 90))
def test_any_turned_rectangle(x: float, y: float, w: float, h: float, turn: float) -> None:
    """The ink box of a rectangle anywhere, of any shape and turn, is right to the accuracy."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    half_x, half_y = (w * c + h * s) / 2, (w * s + h * c) / 2

    def draw(canvas: Any) -> None:
        canvas.translate(x + half_x, 300 - y - half_y)
        canvas.rotate(turn)
        canvas.rect(-w / 2, -h / 2, w, h, stroke=0, fill=1)

    ink = drawing.draw_pdf({"longest": 1e9, "closely": False}, pdf(draw, (400, 300))).ink

    assert ink is not None
    # reportlab writes six decimals.
    slack = accuracy(400, 300, ink) + 2e-4
    assert abs(ink.left - x) <= slack
    assert abs(ink.top - y) <= slack
    assert abs(ink.right - x - 2 * half_x) <= slack
    assert abs(ink.bottom - y - 2 * half_y) <= slack


def test_the_preview_has_no_ground() -> None:
    """The preview of a PDF is the ink on a transparent ground."""

    def draw(canvas: Any) -> None:
        canvas.setFillColorRGB(1, 0, 0)
        canvas.ellipse(50, 50, 150, 100, stroke=0, fill=1)

    picture = Image.open(io.BytesIO(inked("a.pdf", pdf(draw)).preview))

    assert (picture.mode, picture.size) == ("RGBA", (1200, 600))
    assert picture.getpixel((3, 3)) == (0, 0, 0, 0)
    assert picture.getpixel((600, 300)) == (255, 0, 0, 255)


def test_a_font_that_the_file_does_not_hold_is_told() -> None:
    """Text in a font that is not embedded looks different elsewhere."""

    def draw(canvas: Any) -> None:
        canvas.drawString(20, 20, "HRR")

    (finding,) = looked_at("a.pdf", pdf(draw)).findings

    assert "Helvetica" in finding.says
    assert finding.blocks


def test_more_pages_are_told() -> None:
    """Of several pages the first is read, and that is said."""

    def draw(canvas: Any) -> None:
        bar(canvas)
        canvas.showPage()
        canvas.rect(0, 0, 300, 200, fill=1)

    artwork = inked("a.pdf", pdf(draw))

    assert "2 pages" in artwork.findings[0].says
    assert "--page, or by page =" in artwork.findings[0].says
    assert_ink(artwork, points(50, 100, 150, 140))


def encrypted(password: str) -> bytes:
    """Return a PDF that opens with a password."""
    writer = PdfWriter(PdfReader(io.BytesIO(pdf(bar))))
    writer.encrypt(password, "owner", algorithm="RC4-128")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def test_an_encrypted_pdf_is_refused() -> None:
    """A PDF that asks for a password says so."""
    with pytest.raises(BadInput, match="password"):
        inked("a.pdf", encrypted("secret"))


def test_an_empty_password_opens() -> None:
    """A PDF that is locked only against changes is read."""
    assert_ink(inked("a.pdf", encrypted("")), points(50, 100, 150, 140))


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (pdf(bar)[:400], "broken or cut short"),
        (b"%PDF-1.7\n", "broken or cut short"),
        (pdf(lambda canvas: canvas.translate(1, 1)), "no ink"),
        (pdf(bar, (1e6, 1e6)), "the page is"),
    ],
)
def test_what_is_no_artwork_is_refused(data: bytes, says: str) -> None:
    """A PDF without ink, page or sense is one BadInput that says why."""
    with pytest.raises(BadInput, match=says):
        inked("a.pdf", data)
