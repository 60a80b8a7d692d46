"""Live text on a page of a PDF: in which fonts, where, and whether the file holds them."""

import ctypes
from collections.abc import Iterator
from typing import Any

from jigs.artwork.pdf_page import PdfPage
from jigs.artwork.remarks import LIVE, Remarks
from jigs.geometry import Affine, Box, Point

#: Objects that are looked at, those in forms counted each time.
MOST_OBJECTS = 50_000
#: Forms inside forms.
DEEPEST = 12


def note_text(page: PdfPage, found: Remarks) -> tuple[str, ...]:
    """Note the live text on a page, once per font; return the fonts that the file does not hold."""
    to_mm = page.in_mm()
    shown = Box.around(map(to_mm.on, _corners(page.handle.get_bbox())))
    boxes: dict[tuple[str, bool], list[Box]] = {}
    for text, form_to_page in _texts(page.handle):
        box = _box(text, form_to_page.then(to_mm))
        if box is not None and box.overlaps(shown):
            boxes.setdefault(_font(text), []).append(box)
    for (name, held), where in boxes.items():
        says = f"live text in {name}; convert it to outlines"
        if not held:
            says = (
                f"live text in {name}, which the file does not hold: it may look different on "
                "another machine; convert it to outlines"
            )
        found.add("text" if held else LIVE, says, Box.of_all(where))
    return tuple(sorted({name for name, held in boxes if not held}))


def _texts(page: Any) -> Iterator[tuple[Any, Affine]]:
    """Yield each text object and the map from its space to the page's."""
    import pypdfium2.raw as pdfium

    left = MOST_OBJECTS
    # Contents that are still looked through: their objects, and the map to the page's space.
    open_ = [(_objects(page, pdfium.FPDFPage_CountObjects, pdfium.FPDFPage_GetObject), Affine())]
    while open_ and left:
        objects, to_page = open_[-1]
        item = next(objects, None)
        left -= 1
        if item is None:
            open_.pop()
            continue
        kind = pdfium.FPDFPageObj_GetType(item)
        if kind == pdfium.FPDF_PAGEOBJ_TEXT:
            if pdfium.FPDFTextObj_GetTextRenderMode(item) != pdfium.FPDF_TEXTRENDERMODE_INVISIBLE:
                yield item, to_page
        elif kind == pdfium.FPDF_PAGEOBJ_FORM and len(open_) < DEEPEST:
            inside = _objects(item, pdfium.FPDFFormObj_CountObjects, pdfium.FPDFFormObj_GetObject)
            open_.append((inside, _matrix(item).then(to_page)))


def _objects(holder: Any, count: Any, get: Any) -> Iterator[Any]:
    for index in range(count(holder)):
        item = get(holder, index)
        if item:
            yield item


def _matrix(item: Any) -> Affine:
    import pypdfium2.raw as pdfium

    m = pdfium.FS_MATRIX()
    found = pdfium.FPDFPageObj_GetMatrix(item, m)
    return Affine(m.a, m.b, m.c, m.d, m.e, m.f) if found else Affine()


def _box(item: Any, to_mm: Affine) -> Box | None:
    import pypdfium2.raw as pdfium

    sides = [ctypes.c_float() for _ in range(4)]
    if not pdfium.FPDFPageObj_GetBounds(item, *sides):
        return None
    left, bottom, right, top = (side.value for side in sides)
    return Box.around(map(to_mm.on, _corners((left, bottom, right, top))))


def _corners(sides: tuple[float, float, float, float]) -> tuple[Point, ...]:
    left, bottom, right, top = sides
    return Box(left, bottom, right, top).corners()


def _font(item: Any) -> tuple[str, bool]:
    """Return the name of a text's font, and whether the file holds it."""
    import pypdfium2.raw as pdfium
    from pypdfium2 import PdfFont, PdfiumError

    font = pdfium.FPDFTextObj_GetFont(item)
    if not font:
        return "a font without a name", False
    try:
        name = PdfFont(font).get_base_name()
        return name or "a font without a name", pdfium.FPDFFont_GetIsEmbedded(font) == 1
    except PdfiumError:
        return "a font without a name", False
