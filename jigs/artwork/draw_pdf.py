"""Looking at a page of a PDF as pdfium draws it, and into what it holds."""

from dataclasses import dataclass, replace

from jigs.artwork import pdf_contents, pdf_file, pdf_separations, pdf_text
from jigs.artwork.detail import Remark
from jigs.artwork.drawing import see
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.pdf_page import PdfPage, UnreadableError, open_page, unlocked
from jigs.artwork.remarks import Remarks
from jigs.geometry import Box
from jigs.units import POINT


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
    contents = _contents(page, file) if task.get("closely", True) else Contents()
    seen = see(page, task, contents.separations)
    if seen is None:
        return drawn
    return replace(
        drawn,
        ink=seen.ink,
        preview=seen.preview,
        ground=seen.ground,
        detail=seen.detail,
        fonts=contents.fonts,
        remarks=contents.remarks,
        separations=contents.separations,
    )


@dataclass(frozen=True, slots=True)
class Contents:
    """What a page holds besides what is seen of it."""

    fonts: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    separations: tuple[tuple[str, str], ...] = ()


def _contents(page: PdfPage, file: pdf_file.PdfFile | None) -> Contents:
    found = Remarks()
    fonts = pdf_text.note_text(page, found)
    separations: tuple[tuple[str, str], ...] = ()
    if file is None:
        found.add("unread", pdf_contents.UNREAD)
    else:
        shown = Box(0, 0, page.width * POINT, page.height * POINT)
        inks = pdf_contents.walk(file, page.in_mm(), shown, found)
        separations = pdf_separations.shown(inks) if inks else ()
    return Contents(fonts, found.done(), separations)
