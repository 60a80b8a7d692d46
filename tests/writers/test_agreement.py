"""The same page in every format, measured by readers that share nothing with the writers."""

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO

import pytest

from jigs.drawing.drawing import Drawing, Layer, Page, Shape
from jigs.geometry import Box, Line, Path, Point
from jigs.writers import WRITERS, as_bytes
from tests.readers import dxf, pdf, png, svg
from tests.readers.contour import Contour
from tests.writers import pages

READERS: dict[str, Callable[[bytes], list[Contour]]] = {
    "svg": svg.contours,
    "dxf": dxf.contours,
    "pdf": pdf.contours,
}
#: Formats agree to this with the drawing and with each other.
AGREE = 0.05


def by_place(found: list[Contour]) -> list[Contour]:
    """Sort lines by where they are, so that two readings can be laid side by side."""
    return sorted(found, key=lambda c: [round(v, 1) for v in (*c.box(), c.length())])


def true_contours() -> list[Contour]:
    """Return the plate's own lines, without the texts' strokes."""
    return [
        Contour(s.layer.value, [(p.x, p.y) for p in s.path.points(0.002)], s.path.closed)
        for s in pages.plate().shapes()
    ]


def far(one: Contour, other: Contour) -> float:
    """Return how far the points of one line stray from the other."""
    from shapely.geometry import LineString
    from shapely.geometry import Point as Place

    line = LineString([*other.points, other.points[0]] if other.closed else other.points)
    return max(float(line.distance(Place(point))) for point in one.points)


@pytest.mark.parametrize("name", READERS)
def test_every_line_is_where_it_was_drawn(name: str) -> None:
    """Each line of the plate is found in each format, within 0.05 mm both ways."""
    found = READERS[name](as_bytes(name, [pages.page()]))

    for true in true_contours():
        near = [
            c for c in found
            if max(abs(a - b) for a, b in zip(c.box(), true.box(), strict=True)) < AGREE
        ]  # fmt: skip
        assert len(near) == 1, true.box()
        assert far(near[0], true) < AGREE
        assert far(true, near[0]) < AGREE
        assert near[0].closed == true.closed
        assert near[0].layer in {true.layer, None}


def test_formats_hold_the_same_lines() -> None:
    """SVG, DXF and PDF hold as many lines, of the same boxes and lengths, text included."""
    read = [by_place(READERS[name](as_bytes(name, [pages.page()]))) for name in READERS]

    for one, two, three in zip(*read, strict=True):
        for other in (two, three):
            assert one.closed == other.closed
            assert one.box() == pytest.approx(other.box(), abs=AGREE)
            assert one.length() == pytest.approx(other.length(), abs=AGREE)


@pytest.mark.parametrize("name", READERS)
def test_no_line_is_there_twice_or_has_no_length(name: str) -> None:
    """No two lines of a file are the same, and none is a point."""
    found = READERS[name](as_bytes(name, [pages.page()]))

    keys = [(c.layer, tuple(round(v, 3) for v in (*c.box(), c.length()))) for c in found]
    assert len(set(keys)) == len(keys)
    assert min(c.length() for c in found) > 0.05


def test_a_picture_shows_lines_within_half_a_pixel() -> None:
    """The bounds of the plate's outline in the preview are right to half a pixel."""
    data = as_bytes("png", [pages.page(Drawing(pages.plate().shapes(Layer.CUT)[:1]))])
    half = 0.5 / png.per_mm(data)

    left, top, right, bottom = png.dark(data, (0, 0, 230, 130))

    # A line of one pixel: its outer edge is half a pixel outside its middle.
    assert (left, top) == pytest.approx((20 - half, 20 - half), abs=half)
    assert (right, bottom) == pytest.approx((120 + half, 90 + half), abs=half)


SCRIPT = """
import sys
from jigs.writers import as_bytes
from tests.writers import pages
for name in ("svg", "dxf", "pdf", "png"):
    drawing = pages.plate() if name == "dxf" else pages.painted()
    sys.stdout.buffer.write(as_bytes(name, [pages.page(drawing)]))
"""


def test_two_processes_write_the_same_bytes() -> None:
    """Neither the clock nor the order of hashes reaches a file."""
    written = [
        subprocess.run(
            [sys.executable, "-c", SCRIPT], check=True, capture_output=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(p for p in sys.path if p),
                 "TZ": zone},
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    ]  # fmt: skip

    assert len(written[0]) > 10_000
    assert written[0] == written[1]


@pytest.mark.parametrize("name", WRITERS.names())
@pytest.mark.parametrize("string", pages.HOSTILE, ids=range(len(pages.HOSTILE)))
def test_hostile_strings_do_no_harm(name: str, string: str) -> None:
    """Whatever a title, a description or a text holds, the drawing is whole and nothing more."""
    lines = pages.plate().shapes(Layer.CUT)
    sheet = pages.page(Drawing(lines), title=string, says=string)

    data = as_bytes(name, [sheet])

    if name in READERS:
        assert len(READERS[name](data)) == len(lines)
    if name == "svg":
        assert b"<script" not in data


def test_a_page_may_be_empty() -> None:
    """A page without a line is a file without a line."""
    for name, contours in READERS.items():
        assert contours(as_bytes(name, [pages.page(Drawing())])) == []


def test_renderers_agree_on_pdf_and_svg() -> None:
    """What pdfium makes of the PDF and resvg of the SVG differs by stray pixels only."""
    import pypdfium2
    import resvg_py
    from PIL import Image, ImageChops, ImageFilter

    # Thinner than a pixel a line is a shade, of which each renderer has its own idea.
    thick = [
        replace(e, stroke=0.5) if isinstance(e, Shape) else e for e in pages.painted().entities
    ]
    scale, sheet = 4, pages.page(Drawing(tuple(thick)))
    document = pypdfium2.PdfDocument(as_bytes("pdf", [sheet]))
    # Both renderers round the page up to whole pixels.
    size = (230 * scale, 130 * scale)
    one = document[0].render(scale=scale * 25.4 / 72).to_pil().convert("L").crop((0, 0, *size))
    document.close()
    text = as_bytes("svg", [sheet]).decode("utf-8")
    # With dpi=600 it reads mm exactly; the width then says how many pixels that is.
    drawn = bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=600, width=size[0]))
    two = Image.new("L", size, 255)
    picture = Image.open(BytesIO(drawn)).crop((0, 0, *size))
    two.paste(picture.convert("L"), (0, 0), picture.getchannel("A"))

    # A line may fall on the pixel beside: each picture must be covered by the other's, widened.
    for a, b in ((one, two), (two, one)):
        missed = ImageChops.subtract(b.filter(ImageFilter.MinFilter(3)), a)
        assert missed.point(lambda value: 255 if value > 60 else 0).getbbox() is None


def test_an_inch_is_an_inch() -> None:
    """An inch drawn as 25.4 mm (NIST SP 811, appendix B) is 25.4 mm in each format."""
    inch = Drawing((Shape(Layer.CUT, Path((Line(Point(10, 10), Point(35.4, 10)),))),))
    for name, contours in READERS.items():
        (line,) = contours(as_bytes(name, [Page(50, 50, inch, "", "")]))
        assert line.length() == pytest.approx(25.4, abs=1e-3)


def test_a_box_is_read_in_order_of_its_corners() -> None:
    """Down is +y: the top of a box is read above its bottom in every format."""
    box = Drawing((Shape(Layer.CUT, Path.box(Box(10, 5, 40, 20))),))
    for name, contours in READERS.items():
        (read,) = contours(as_bytes(name, [Page(50, 50, box, "", "")]))
        assert read.box() == pytest.approx((10, 5, 40, 20), abs=1e-3)
