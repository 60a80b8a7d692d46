"""PDF made to fill memory, to loop or to mislead: refused with one line, or read."""

import zlib
from collections.abc import Sequence

import pytest

from jigs.artwork.draw_pdf import draw_pdf
from jigs.artwork.drawn import Drawn

from .samples import png

SQUARE = b"20 20 100 80 re f\n"
FLATE = b"/Filter/FlateDecode"
FORM = b"<</Type/XObject/Subtype/Form/BBox[0 0 99 99]"


def raw_pdf(
    content: bytes, more: bytes = b"", box: bytes = b"0 0 300 200", packed: bytes = b"",
    others: Sequence[bytes] = (),
) -> bytes:  # fmt: skip
    """Return a PDF of one page, written out by hand (ISO 32000-1, 7.5)."""
    objects = (
        b"<</Type/Catalog/Pages 2 0 R>>",
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        b"<</Type/Page/Parent 2 0 R/MediaBox[%b]/Contents 4 0 R%b>>" % (box, more),
        b"<</Length %d%b>>\nstream\n%b\nendstream" % (len(content), packed, content),
        *others,
    )
    out, offsets = b"%PDF-1.7\n", []
    for number, body in enumerate(objects, 1):
        offsets.append(len(out))
        out += b"%d 0 obj\n%b\nendobj\n" % (number, body)
    table = b"".join(b"%010d 00000 n \n" % offset for offset in offsets)
    size = len(objects) + 1
    out += b"xref\n0 %d\n0000000000 65535 f \n%b" % (size, table)
    at = out.index(b"xref\n0 ")
    return out + b"trailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF" % (size, at)


def drawn(data: bytes) -> Drawn:
    """Return what the child's work answers, looking for the ink alone."""
    return draw_pdf({"kind": "pdf", "page": 1, "longest": 28_346.0, "closely": False}, data)


def image(side: int) -> bytes:
    """Return a PDF with a picture that promises so many pixels a side and has none."""
    head = b"<</Type/XObject/Subtype/Image/Width %d/Height %d/BitsPerComponent 8" % (side, side)
    held = head + b"/ColorSpace/DeviceRGB/Length 5>>\nstream\nabcde\nendstream"
    return raw_pdf(
        b"q 9 0 0 9 9 9 cm /I Do Q", b"/Resources<</XObject<</I 5 0 R>>>>", others=[held]
    )


def test_the_plain_file_is_read() -> None:
    """Without harm in it, what is written out by hand is a sound PDF."""
    assert drawn(raw_pdf(SQUARE)).ink is not None


TINY = (
    b"<</Type/Pattern/PatternType 1/PaintType 1/TilingType 1/BBox[0 0 1 1]"
    b"/XStep 0.000000001/YStep 0.000000001/Resources<<>>/Length 14>>\n"
    b"stream\n0 0 .5 .5 re f\nendstream"
)
BLANK = {
    "a picture of 10^9": lambda: image(10**9),
    "a flate stream of 100 MB": lambda: raw_pdf(zlib.compress(bytes(10**8), 9), packed=FLATE),
    "flate in flate in flate": lambda: raw_pdf(
        zlib.compress(zlib.compress(zlib.compress(bytes(10**8), 9), 9), 9),
        packed=b"/Filter[/FlateDecode/FlateDecode/FlateDecode]",
    ),
    "a run-length bomb": lambda: raw_pdf(
        zlib.compress(b"\x81 " * 10**6, 9), packed=b"/Filter[/FlateDecode/RunLengthDecode]"
    ),
    "a pattern of 10^-9": lambda: raw_pdf(
        b"/Pattern cs /P scn 0 0 300 200 re f",
        b"/Resources<</Pattern<</P 5 0 R>>>>",
        others=[TINY],
    ),
    "nothing": lambda: raw_pdf(b""),
    "a page beside its content": lambda: raw_pdf(SQUARE, box=b"0 0 1 1"),
}


@pytest.mark.parametrize("harm", BLANK)
def test_what_draws_nothing_is_blank(harm: str) -> None:
    """What cannot be unpacked or drawn is as if it were not there."""
    found = drawn(BLANK[harm]())

    assert found.ink is None
    assert found.problem == ""


READ = {
    "a form in itself": lambda: raw_pdf(
        b"/F Do " + SQUARE,
        b"/Resources<</XObject<</F 5 0 R>>>>",
        others=[FORM + b"/Resources<</XObject<</F 5 0 R>>>>/Length 5>>\nstream\n/F Do\nendstream"],
    ),
    "100 000 filters": lambda: raw_pdf(
        SQUARE, packed=b"/Filter[%b]" % (b"/ASCIIHexDecode" * 10**5)
    ),
    "arrays in arrays": lambda: raw_pdf(SQUARE, b"/A%b%b" % (b"[" * 10**5, b"]" * 10**5)),
    "dictionaries in each other": lambda: raw_pdf(
        SQUARE, b"/A%b 1%b" % (b"<</A" * 10**5, b">>" * 10**5)
    ),
    "a page that is its own parent": lambda: raw_pdf(SQUARE).replace(
        b"/Parent 2 0 R", b"/Parent 3 0 R"
    ),
    "2^31 pages": lambda: raw_pdf(SQUARE).replace(b"/Count 1", b"/Count 2147483647"),
    "a stream as long as itself": lambda: raw_pdf(SQUARE).replace(b"/Length 18", b"/Length 4 0 R"),
    "saved states": lambda: raw_pdf(b"q " * 10**5 + SQUARE),
    "dashes of 10^-9": lambda: raw_pdf(b"[0.000000001 0.000000001] 0 d 5 w 9 9 m 290 190 l S"),
    "a unit beyond reason": lambda: raw_pdf(SQUARE, b"/UserUnit 1" + b"0" * 300),
    "a table that goes back to itself": lambda: raw_pdf(SQUARE).replace(
        b"trailer<<", b"trailer<</Prev 400 "
    ),
    "the head of a PNG": lambda: b"\x89PNG\r\n\x1a\n" + raw_pdf(SQUARE),
    "the head of a GIF": lambda: b"GIF89a" + raw_pdf(SQUARE),
}


@pytest.mark.parametrize("harm", READ)
def test_what_a_renderer_passes_over_does_no_harm(harm: str) -> None:
    """The square is found, whatever else the file says."""
    found = drawn(READ[harm]())

    assert found.problem == ""
    assert found.ink is not None


@pytest.mark.parametrize(
    "box", [b"0 0 0 0", b"5 5 5 5", b"0 0 NaN 5", b"0 0 1e9 1e9", b"[] [] 1 1", b"0 0 -5 5"]
)
def test_a_page_box_that_is_none_is_no_crash(box: bytes) -> None:
    """The renderer takes a usual page for it, or none of the ink."""
    found = drawn(raw_pdf(SQUARE, box=box))

    assert found.problem == ""
    assert found.width > 0


def test_a_page_of_10_to_the_9_is_not_drawn() -> None:
    """The reader refuses its size; the child has not tried."""
    found = drawn(raw_pdf(SQUARE, box=b"0 0 1000000000 1000000000"))

    assert found.ink is None
    assert found.width == pytest.approx(1e9)


def test_pages_that_hold_themselves_are_broken() -> None:
    """A tree of pages with no leaf has no page."""
    found = drawn(raw_pdf(SQUARE).replace(b"/Kids[3 0 R]", b"/Kids[2 0 R]"))

    assert "broken" in found.problem


def test_a_pdf_cut_short_anywhere_is_told_or_read() -> None:
    """Wherever it ends there is an answer: renderers mend what they can."""
    data = raw_pdf(SQUARE)
    for part in range(0, len(data), max(1, len(data) // 25)):
        found = drawn(data[:part])
        assert found.problem or found.width > 0, part
        assert "\n" not in found.problem


def test_two_files_in_one_are_the_one_that_shows() -> None:
    """A PDF behind a whole PNG, within what viewers search, is read as the PDF."""
    from PIL import Image

    from jigs.artwork import READERS

    both = png(Image.new("L", (9, 9))) + raw_pdf(SQUARE)
    claims = [name for name, reader in READERS if reader.recognises(both)]

    assert claims == ["pdf", "png"]
    assert drawn(both).ink is not None
