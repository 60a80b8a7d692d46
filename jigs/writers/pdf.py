"""PDF at 1:1, told not to be scaled; a drawing that several pages show is stored once.

A point is 1/72 inch (ISO 32000-1, 8.3.2.3), so 25.4/72 mm. All numbers inside a page are
millimetres, y down, under one transform.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from io import BytesIO
from typing import Any, BinaryIO

from jigs.drawing import palette
from jigs.drawing.drawing import Area, Clip, Drawing, Page, Picture, Shape
from jigs.geometry import Box, Cubic, Line, Path
from jigs.units import POINT, Mm
from jigs.writers._writer import Writer, plain

#: Room round a stored drawing, so that its outermost lines keep their whole width.
_ROOM: Mm = 2.0


def _write(pages: Sequence[Page], out: BinaryIO) -> None:
    from reportlab.pdfgen.canvas import Canvas

    whole = BytesIO()
    canvas: Any = Canvas(whole, invariant=1, pageCompression=1, pdfVersion=(1, 7), lang="en")
    canvas.setTitle(plain(pages[0].title))
    canvas.setSubject(plain(pages[0].says))
    canvas.setAuthor("")
    canvas.setCreator("Garment Jigs")
    _tell_viewers(canvas)
    stored: dict[Drawing, str] = {}
    for k, page in enumerate(pages):
        for drawing in _seen_through_clips(page.drawing):
            if drawing not in stored:
                stored[drawing] = f"drawing{len(stored) + 1}"
                _store(canvas, stored[drawing], drawing)
        canvas.setPageSize((page.width / POINT, page.height / POINT))
        canvas.addPageLabel(k, prefix=plain(page.label) or str(k + 1))
        canvas.transform(1 / POINT, 0, 0, -1 / POINT, 0, page.height / POINT)
        _draw(canvas, page.drawing, stored)
        canvas.showPage()
    with _plain_bytes():
        canvas.save()
    out.write(whole.getvalue())


WRITER = Writer(".pdf", frozenset({Line, Cubic, Area, Picture, Clip}), _write, pages=True)


@contextmanager
def _plain_bytes() -> Iterator[None]:
    """Have reportlab leave out the ASCII coding of compressed streams, a quarter of their size.

    There is only this global switch for it; it is put back.
    """
    from reportlab import rl_config

    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before


def _tell_viewers(canvas: Any) -> None:
    """Ask for no scaling, one side of the paper, and the tray with paper of the page's size.

    ISO 32000-1, table 150; reportlab's own setter does not know them all.
    """
    from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFName

    wishes = {
        "PrintScaling": PDFName("None"),
        "Duplex": PDFName("Simplex"),
        "PickTrayByPDFSize": "true",
        "DisplayDocTitle": "true",
    }
    canvas.setCatalogEntry("ViewerPreferences", PDFDictionary(wishes))


def _seen_through_clips(drawing: Drawing) -> list[Drawing]:
    """Return the drawings to store, each after those it shows itself."""
    found = []
    for entity in drawing.entities:
        if isinstance(entity, Clip):
            found += [*_seen_through_clips(entity.drawing), entity.drawing]
    return [one for one in found if _storable(one)]


def _storable(drawing: Drawing) -> bool:
    """Whether a drawing can be stored: reportlab forgets the see-through areas of a stored one."""
    return bool(drawing.entities) and not any(
        (isinstance(e, Area) and e.opacity < 1) or isinstance(e, Clip) for e in drawing.entities
    )


def _store(canvas: Any, name: str, drawing: Drawing) -> None:
    box = drawing.bounds().grown(_ROOM)
    canvas.beginForm(name, box.left, box.top, box.right, box.bottom)
    _draw(canvas, drawing, {})
    canvas.endForm()


def _draw(canvas: Any, drawing: Drawing, stored: dict[Drawing, str]) -> None:
    for entity in drawing.entities:
        if isinstance(entity, Clip):
            _clip(canvas, entity, stored)
    held = None
    for layer in palette.ORDER:
        for entity in drawing.on(layer):
            if isinstance(entity, Shape):
                held = _shape(canvas, entity, held)
            elif isinstance(entity, Area):
                _area(canvas, entity)
            elif isinstance(entity, Picture):
                _picture(canvas, entity)


def _clip(canvas: Any, clip: Clip, stored: dict[Drawing, str]) -> None:
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(clip.box.left, clip.box.top, clip.box.width, clip.box.height)
    canvas.clipPath(window, stroke=0, fill=0)
    canvas.translate(clip.x, clip.y)
    if clip.drawing in stored:
        canvas.doForm(stored[clip.drawing])
    else:
        _draw(canvas, clip.drawing, stored)
    canvas.restoreState()


def _shape(canvas: Any, shape: Shape, held: palette.Pen | None) -> palette.Pen:
    """Draw a line, and return its pen, so that the next one need not take up the same again."""
    pen = palette.pen(
        shape.layer,
        dashed=shape.dashed,
        colour=shape.colour,
        stroke=shape.stroke,
        dashes=shape.dashes,
    )
    if pen != held:
        canvas.setStrokeColor(_colour(pen.colour))
        canvas.setLineWidth(pen.width)
        canvas.setDash(list(pen.dashes))
        canvas.setLineCap(1)
        canvas.setLineJoin(1)
    made = canvas.beginPath()
    _trace(made, shape.path)
    canvas.drawPath(made, stroke=1, fill=0)
    return pen


def _area(canvas: Any, area: Area) -> None:
    made = canvas.beginPath()
    for path in area.paths:
        _trace(made, path)
    canvas.saveState()
    canvas.setFillColor(_colour(area.colour))
    if area.opacity < 1:
        canvas.setFillAlpha(area.opacity)
    canvas.drawPath(made, stroke=0, fill=1, fillMode=0)
    canvas.restoreState()


def _picture(canvas: Any, picture: Picture) -> None:
    from reportlab.lib.utils import ImageReader

    box: Box = picture.box
    canvas.saveState()
    # Pictures stand with y up, so this one is put back on its feet.
    canvas.transform(1, 0, 0, -1, box.left, box.bottom)
    image = ImageReader(BytesIO(picture.png))
    canvas.drawImage(image, 0, 0, box.width, box.height, mask="auto")
    canvas.restoreState()


def _trace(made: Any, path: Path) -> None:
    made.moveTo(*path.start)
    for segment in path.segments:
        if isinstance(segment, Cubic):
            made.curveTo(*segment.p, *segment.q, *segment.b)
        else:
            made.lineTo(*segment.b)
    if path.closed:
        made.close()


def _colour(value: str) -> Any:
    from reportlab.lib.colors import HexColor

    return HexColor(value)
