import pytest

from jigs.drawing.drawing import Clip, Drawing, Layer, Page, Shape
from jigs.geometry import Box, Path, Point
from jigs.writers import as_bytes
from tests.readers import pdf
from tests.writers import pages


@pytest.mark.parametrize(
    ("width", "height", "points"),
    [
        (210, 297, (595.276, 841.890)),  # ISO 216 A4 as in PWG 5101.1, iso_a4_210x297mm
        (215.9, 279.4, (612, 792)),  # ANSI A as in PWG 5101.1, na_letter_8.5x11in
        (297, 420, (841.890, 1190.551)),  # iso_a3_297x420mm
        (279.4, 431.8, (792, 1224)),  # na_ledger_11x17in
    ],
)
def test_the_page_has_the_papers_size(
    width: float, height: float, points: tuple[float, float]
) -> None:
    """The media box is the paper, a point being 1/72 in (ISO 32000-1, 8.3.2.3)."""
    box = pdf.document(as_bytes("pdf", [Page(width, height, Drawing(), "", "")])).pages[0].mediabox

    assert [float(edge) for edge in box] == pytest.approx([0, 0, *points], abs=0.0006)


def test_viewers_are_told_not_to_scale() -> None:
    """PrintScaling None, one side, tray by paper size (ISO 32000-1, table 150)."""
    wishes = pdf.document(as_bytes("pdf", [pages.page()])).trailer["/Root"]["/ViewerPreferences"]

    assert wishes["/PrintScaling"] == "/None"
    assert wishes["/Duplex"] == "/Simplex"
    assert bool(wishes["/PickTrayByPDFSize"]) is True


def test_title_subject_and_labels() -> None:
    """The document bears the page's title and words, and each page its label."""
    sheets = [Page(210, 297, pages.plate(), "Größe ½ (M)", "Says", label) for label in ("A1", "A2")]
    document = pdf.document(as_bytes("pdf", sheets))

    assert document.metadata.title == "Größe ½ (M)"
    assert document.metadata.subject == "Says"
    assert document.page_labels == ["A1", "A2"]


def test_a_drawing_on_many_pages_is_stored_once() -> None:
    """Another page that shows the same drawing adds next to nothing to the file."""

    def size(count: int) -> int:
        sheets = [
            Page(
                210, 297, Drawing((Clip(Box(0, 0, 210, 297), pages.plate(), x=-float(k)),)), "", ""
            )
            for k in range(count)
        ]
        return len(as_bytes("pdf", sheets))

    assert size(9) - size(1) < 8 * 600
    assert size(1) > 4000


def test_clipped_see_through_areas_are_drawn() -> None:
    """What reportlab cannot store is drawn on the page itself, and is there."""
    import pypdfium2

    sheet = pages.page(Drawing((Clip(Box(0, 0, 230, 130), pages.painted()),)))
    document = pypdfium2.PdfDocument(as_bytes("pdf", [sheet]))
    picture = document[0].render(scale=25.4 / 72).to_pil().convert("RGB")
    document.close()

    # Half of #e69f00 on white, and half of the picture red.
    assert picture.getpixel((133, 98)) == pytest.approx((242, 207, 127), abs=3)
    assert picture.getpixel((170, 105)) == (255, 0, 0)
    assert picture.getpixel((190, 105)) == (255, 255, 255)


def test_a_pattern_of_a_lines_own_is_drawn() -> None:
    """A note's own dashes and gaps are the page's dash pattern (ISO 32000-1, 8.4.3.6)."""
    from io import BytesIO

    from pypdf import PdfReader

    path = Path.through([Point(0, 0), Point(9, 0)])
    page = pages.page(Drawing((Shape(Layer.NOTE, path, dashes=(1.5, 0.5)),)))
    content = PdfReader(BytesIO(as_bytes("pdf", [page]))).pages[0].get_contents()

    assert content is not None
    assert b"[1.5 .5] 0 d" in content.get_data()
