"""A page of a PDF as pdfium draws it, any part of it at any magnification."""

import io
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from jigs.geometry import Affine, Box
from jigs.units import POINT

if TYPE_CHECKING:
    from PIL import Image


class UnreadableError(ValueError):
    """What is wrong with a PDF, and what to do about it."""

    def __init__(self, problem: str, remedy: str = "") -> None:
        super().__init__(problem)
        self.problem, self.remedy = problem, remedy


@dataclass(frozen=True, slots=True)
class PdfPage:
    """One page; lengths in points."""

    handle: Any
    """The page as pdfium knows it."""
    number: int
    pages: int
    """How many the PDF has."""
    width: float
    height: float
    unit: float = 1.0
    """Points per unit of the page, its UserUnit (ISO 32000-1, 14.11.2); pdfium passes it over."""

    def render(self, part: Box, across: int, down: int, *, crisp: bool = False) -> "Image.Image":
        """Return a part of the page as RGBA; `crisp` is without antialiasing.

        Crisp or not, pdfium moves the sides of an upright filled rectangle to whole pixels and
        draws it, and any stroke, at least one pixel wide: magnify what is measured.
        """
        if not crisp:
            return self._render(part, across, down, 0)
        from jigs.artwork.rims import MARGIN, without_rims

        x, y = MARGIN * part.width / across, MARGIN * part.height / down
        wider = Box(part.left - x, part.top - y, part.right + x, part.bottom + y)
        picture = self._render(wider, across + 2 * MARGIN, down + 2 * MARGIN, _crisp_flags())
        return without_rims(picture).crop((MARGIN, MARGIN, MARGIN + across, MARGIN + down))

    def _render(self, part: Box, across: int, down: int, flags: int) -> "Image.Image":
        import pypdfium2
        import pypdfium2.raw as pdfium

        bitmap = pypdfium2.PdfBitmap.new_native(across, down, pdfium.FPDFBitmap_BGRA)
        bitmap.fill_rect((0, 0, 0, 0), 0, 0, across, down)
        x, y = across / part.width, down / part.height
        matrix = pdfium.FS_MATRIX(x * self.unit, 0, 0, y * self.unit, -part.left * x, -part.top * y)
        whole = pdfium.FS_RECTF(0, 0, across, down)
        pdfium.FPDF_RenderPageBitmapWithMatrix(bitmap, self.handle, matrix, whole, flags)
        picture: Image.Image = bitmap.to_pil().convert("RGBA")
        bitmap.close()
        return picture

    def with_unit(self, unit: float) -> "PdfPage":
        """Return the page with another UserUnit than 1."""
        return replace(self, width=self.width * unit, height=self.height * unit, unit=unit)

    def in_mm(self) -> Affine:
        """Return the map from the page's own space to mm, y down from its top left as shown.

        It regards the crop box, the turn of the page and its unit.
        """
        left, bottom, right, top = self.handle.get_bbox()
        shown = {
            0: Affine(1, 0, 0, -1, -left, top),
            90: Affine(0, 1, 1, 0, -bottom, -left),
            180: Affine(-1, 0, 0, 1, right, -bottom),
            270: Affine(0, -1, -1, 0, top, right),
        }[self.handle.get_rotation()]
        return shown.then(Affine.scale(self.unit * POINT))


def open_page(data: bytes, number: int = 1) -> PdfPage:
    """Return a page of a PDF, the first being 1.

    Raises:
        UnreadableError: the PDF is encrypted or broken, or it has no such page.
    """
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(data)
        pages = len(document)
        if pages == 0:
            raise UnreadableError("the PDF has no page")
        if not 1 <= number <= pages:
            has = f"{pages} pages" if pages > 1 else "1 page"
            remedy = f"allowed: 1 to {pages}" if pages > 1 else "allowed: 1"
            raise UnreadableError(f"the PDF has {has}; page {number} was asked for", remedy)
        handle = document[number - 1]
        width, height = handle.get_size()
    except pypdfium2.PdfiumError as problem:
        raise _why(str(problem)) from None
    return PdfPage(handle, number, pages, width, height)


def unlocked(page: PdfPage) -> bytes | None:
    """Return a PDF that opens without a password anew, not encrypted; None if it is not now."""
    import pypdfium2
    import pypdfium2.raw as pdfium

    document = page.handle.pdf
    if pdfium.FPDF_GetSecurityHandlerRevision(document) < 0:
        return None
    out = io.BytesIO()
    try:
        document.save(out, flags=pdfium.FPDF_REMOVE_SECURITY)
    except pypdfium2.PdfiumError:
        return None
    return out.getvalue()


def _crisp_flags() -> int:
    import pypdfium2.raw as pdfium

    smooth = (
        pdfium.FPDF_RENDER_NO_SMOOTHTEXT,
        pdfium.FPDF_RENDER_NO_SMOOTHIMAGE,
        pdfium.FPDF_RENDER_NO_SMOOTHPATH,
    )
    return int(smooth[0] | smooth[1] | smooth[2])


def _why(problem: str) -> UnreadableError:
    if "assword" in problem or "ecurity" in problem:
        return UnreadableError(
            "the PDF is encrypted: it opens only with a password", "save it without a password"
        )
    return UnreadableError("the PDF is broken or cut short")
