"""Drawing the first page of a PDF with pdfium, any part of it at any magnification."""

from typing import TYPE_CHECKING, Any

from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import find_ink, has_white_ground, pixels
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image

#: Objects of a page that are asked for their font.
_MOST_ASKED = 5000


def draw_pdf(task: Task, data: bytes) -> Drawn:
    """Return what pdfium sees of a PDF's first page; lengths in points."""
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(data)
        if len(document) == 0:
            return Drawn(problem="the PDF has no page")
        page = document[0]
        width, height = page.get_size()
    except pypdfium2.PdfiumError as problem:
        return Drawn(problem=_why(str(problem)))
    if max(width, height) > float(task["longest"]):
        return Drawn(width, height)

    def render(part: Box, across: int, down: int) -> "Image.Image":
        return _render(page, part, across, down)

    ink = find_ink(render, width, height)
    if ink is None:
        return Drawn(width, height)
    return Drawn(
        width,
        height,
        ink,
        png_bytes(render(ink, *pixels(ink, PREVIEW))),
        has_white_ground(render, width, height, ink),
        len(document),
        _absent_fonts(page),
    )


def _render(page: Any, part: Box, across: int, down: int) -> "Image.Image":
    import pypdfium2
    import pypdfium2.raw as pdfium

    bitmap = pypdfium2.PdfBitmap.new_native(across, down, pdfium.FPDFBitmap_BGRA)
    bitmap.fill_rect((0, 0, 0, 0), 0, 0, across, down)
    x, y = across / part.width, down / part.height
    matrix = pdfium.FS_MATRIX(x, 0, 0, y, -part.left * x, -part.top * y)
    whole = pdfium.FS_RECTF(0, 0, across, down)
    pdfium.FPDF_RenderPageBitmapWithMatrix(bitmap, page, matrix, whole, 0)
    picture: Image.Image = bitmap.to_pil().convert("RGBA")
    bitmap.close()
    return picture


def _absent_fonts(page: Any) -> tuple[str, ...]:
    import pypdfium2
    import pypdfium2.raw as pdfium

    names: set[str] = set()
    for count, item in enumerate(page.get_objects(filter=(pdfium.FPDF_PAGEOBJ_TEXT,))):
        if count == _MOST_ASKED:
            break
        try:
            font = item.get_font()
            if not font.is_embedded:
                names.add(font.get_base_name())
        except pypdfium2.PdfiumError:  # a font without a name, or without a file to look into
            names.add("a font without a name")
    return tuple(sorted(names))


def _why(problem: str) -> str:
    if "assword" in problem or "ecurity" in problem:
        return "the PDF is encrypted: it opens only with a password"
    return "the PDF is broken or cut short"
