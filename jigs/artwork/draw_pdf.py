"""Looking at a page of a PDF as pdfium draws it, and into what it holds."""

from dataclasses import replace

from jigs.artwork import pdf_contents, pdf_file, pdf_separations, pdf_text
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import find_ink, has_white_ground, pixels
from jigs.artwork.pdf_page import POINT, PdfPage, UnreadableError, open_page, unlocked
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.artwork.remarks import Remarks
from jigs.geometry import Box


def draw_pdf(task: Task, data: bytes) -> Drawn:
    """Return what there is on the page `task["page"]` of a PDF, the first if none is said."""
    try:
        page = open_page(data, int(task.get("page", 1)))
    except UnreadableError as problem:
        return Drawn(problem=problem.problem, remedy=problem.remedy)
    file = pdf_file.open_file(unlocked(page) or data, page.number)
    if file is not None:
        page = page.with_unit(file.unit)
    width, height = page.width, page.height
    drawn = Drawn(width, height, pages=page.pages, page=page.number)
    if max(width, height) > float(task["longest"]):
        return drawn
    ink = find_ink(page.render, width, height)
    if ink is None:
        return drawn
    drawn = replace(
        drawn,
        ink=ink,
        preview=png_bytes(page.render(ink, *pixels(ink, PREVIEW))),
        white_ground=has_white_ground(page.render, width, height, ink),
    )
    return _with_contents(drawn, page, file)


def _with_contents(drawn: Drawn, page: PdfPage, file: pdf_file.PdfFile | None) -> Drawn:
    """Return what was drawn with what the page holds."""
    found = Remarks()
    fonts = pdf_text.note_text(page, found)
    separations: tuple[tuple[str, str], ...] = ()
    if file is None:
        found.add("unread", pdf_contents.UNREAD)
    else:
        shown = Box(0, 0, page.width * POINT, page.height * POINT)
        inks = pdf_contents.walk(file, page.in_mm(), shown, found)
        separations = pdf_separations.shown(inks) if inks else ()
    return replace(drawn, fonts=fonts, remarks=found.done(), separations=separations)
