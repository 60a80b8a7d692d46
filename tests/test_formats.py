"""A jig measured in every format it is written in, by readers that are not the writers'."""

from collections.abc import Callable
from functools import cache
from io import BytesIO, StringIO
from typing import cast

import pytest
import shapely

from jigs.documents.jig_pages import jig_outputs
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.plan import Shop
from jigs.template import Template
from tests import shipped
from tests.readers import dxf, pdf, png, svg
from tests.readers.contour import Contour

READERS: dict[str, Callable[[bytes], list[Contour]]] = {
    "svg": svg.contours,
    "dxf": dxf.contours,
    "one-page.pdf": pdf.contours,
}
#: A large jig: wide enough for several tiles, so that it also comes as one page.
PLACE = ("full-front", "adult-crew-tee")
AGREE = 0.05


@cache
def files(kerf: float = 0.0) -> dict[str, bytes]:
    """Return the files of a jig by their suffix."""
    shop = Shop(Paper(), Printer(), Cutter(kerf=kerf), Press(), Transfer())
    made = jig_outputs(template(), "window", "x", shop)
    return {one.name.removeprefix("x").lstrip(".-"): one.data for one in made}


def template() -> Template:
    """Return the jig's template."""
    return shipped.jigs(*PLACE)[0]


def cuts(suffix: str, kerf: float = 0.0) -> list[shapely.Polygon]:
    """Return a file's closed cut outlines, the largest first: plate, window, hole."""
    found = READERS[suffix](files(kerf)[suffix])
    closed = [c for c in found if c.closed and len(c.points) > 3]
    if suffix != "one-page.pdf":
        closed = [c for c in closed if c.layer and c.layer.lower() == "cut"]
    shapes = sorted((shapely.Polygon(c.points) for c in closed), key=lambda s: -s.area)
    # The PDF names no layers: round letters, dots and the note of the ink are closed there too.
    if suffix == "one-page.pdf":
        hole = min(shapes, key=lambda s: abs(s.area - 3.0**2 * 3.14159))
        shapes = [shapes[0], shapes[1], hole]
    return shapes


@pytest.mark.parametrize("suffix", READERS)
def test_the_window_has_its_size(suffix: str) -> None:
    """The window measures what the jig promises: carrier plus slip, within 0.05 mm."""
    left, top, right, bottom = cuts(suffix)[1].bounds
    window = template().window

    assert right - left == pytest.approx(window.width, abs=AGREE)
    assert bottom - top == pytest.approx(window.height, abs=AGREE)


@pytest.mark.parametrize("suffix", READERS)
def test_the_window_hangs_by_the_drop_below_the_edge(suffix: str) -> None:
    """From the edge's deepest point down to the ink is the jig's drop; the window is centred."""
    plate, window, _ = cuts(suffix)
    left, top, right, _ = window.bounds
    middle = (left + right) / 2
    # On the centre line, the plate begins at the seat edge.
    line = shapely.LineString([(middle, plate.bounds[1] - 1), (middle, top - 1)])
    edge = line.intersection(plate).bounds[1]

    drop = top + 6.35 + 0.5 - edge
    one = template()
    assert drop == pytest.approx(one.ink.top - one.level, abs=AGREE)
    # On a shared jig the errors of its sizes are balanced, so it is off by no more than they.
    assert abs(drop - one.drop) <= max(abs(seat.height) for seat in one.seats) + AGREE
    assert middle == pytest.approx((plate.bounds[0] + plate.bounds[2]) / 2, abs=AGREE)


def test_all_formats_agree() -> None:
    """Plate, window and hole have the same place, size and area in SVG, DXF and PDF."""
    one, *others = (cuts(suffix) for suffix in READERS)
    for other in others:
        for a, b in zip(one, other, strict=True):
            assert a.bounds == pytest.approx(b.bounds, abs=AGREE)
            assert a.hausdorff_distance(b) < AGREE


def test_the_preview_agrees_to_half_a_pixel() -> None:
    """In the PNG the plate spans what it does in the SVG, within half a pixel."""
    data = files()["png"]
    half = 0.5 / png.per_mm(data)
    wide, high = png.picture(data).size
    left, top, right, bottom = png.dark(
        data, (0, 0, wide / png.per_mm(data), high / png.per_mm(data))
    )
    plate = cuts("svg")[0].bounds
    # A line is drawn as a pixel's width, half of it outside.
    pen = 0.5 / png.per_mm(data)

    assert left == pytest.approx(plate[0] - pen, abs=half + 0.01)
    assert top == pytest.approx(plate[1] - pen, abs=half + 0.01)
    assert right == pytest.approx(plate[2] + pen, abs=half + 0.01)
    assert bottom == pytest.approx(plate[3] + pen, abs=half + 0.01)


def test_the_window_in_the_preview_agrees_to_half_a_pixel() -> None:
    """In the PNG the window's sides are where they are in the SVG, within half a pixel."""
    data = files()["png"]
    half = 0.5 / png.per_mm(data)
    left, top, right, bottom = cuts("svg")[1].bounds
    third = (bottom - top) / 3
    strip = png.dark(data, (left - 2, top + third, left + 2, top + third + 5))
    other = png.dark(data, (right - 2, top + third, right + 2, top + third + 5))

    assert (strip[0] + strip[2]) / 2 == pytest.approx(left, abs=half)
    assert (other[0] + other[2]) / 2 == pytest.approx(right, abs=half)


@pytest.mark.parametrize("suffix", ["svg", "dxf"])
def test_the_kerf_is_in_the_cut_files(suffix: str) -> None:
    """Outside out and holes in by half the kerf: areas change by perimeter times half a kerf."""
    kerf = 0.3
    for k, sign in enumerate((1, -1, -1)):
        nominal, cut = cuts(suffix)[k], cuts(suffix, kerf)[k]
        # Steiner's formula for a convex outline's parallel, area + perimeter d + π d², to
        # first order; the plate's concave edge and its notch change the last term only.
        grown = sign * nominal.length * kerf / 2

        assert cut.area - nominal.area == pytest.approx(grown, abs=0.6)
        assert cut.hausdorff_distance(nominal) == pytest.approx(kerf / 2, abs=0.03)


def test_paper_is_nominal_whatever_the_kerf() -> None:
    """Scissors have no kerf: the PDF and the preview do not change with it."""
    assert files(0.3)["one-page.pdf"] == files()["one-page.pdf"]
    assert files(0.3)["png"] == files()["png"]


def test_the_dxf_is_clean() -> None:
    """A second library's audit finds nothing, units are millimetres, no entity is there twice."""
    import ezdxf
    from ezdxf.filemanagement import read

    document = read(StringIO(files()["dxf"].decode("cp1252")))
    audit = document.audit()
    # DXF Reference, HEADER: $INSUNITS 4 is millimetres; $MEASUREMENT 1 is metric.
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    assert not audit.errors
    assert not audit.fixes
    assert ezdxf.units.MM == 4
    seen = [(c.layer, c.closed, tuple(c.points)) for c in dxf.contours(files()["dxf"])]
    assert len(seen) == len(set(seen))


def test_the_tiles_are_letter_sheets_that_may_not_be_scaled() -> None:
    """The PDF's pages are US Letter, 612 x 792 pt (ANSI/ASME Y14.1), scaling off (ISO 32000-1)."""
    from pypdf import PdfReader

    reader = PdfReader(BytesIO(files()["pdf"]))
    sizes = {tuple(sorted(map(float, page.mediabox[2:]))) for page in reader.pages}
    prefs = cast("dict[str, str]", reader.root_object["/ViewerPreferences"])

    assert sizes == {(612.0, 792.0)}
    assert prefs["/PrintScaling"] == "/None"


def test_a_file_says_what_it_is_and_warns() -> None:
    """Cut files carry their kerf, the laser's and the press's cautions."""
    svg_text = files(0.3)["svg"].decode()
    # A DXF comment is wrapped over several lines, each with its group code before it.
    dxf_text = files(0.3)["dxf"].decode("cp1252").replace("\n999\n", " ")

    for text in (svg_text, dxf_text):
        for words in ("Kerf 0.3 mm", "moved by half of it", "never PVC", "press is hot", "manual"):
            assert words in text
