"""PNG preview at a whole number of pixels per millimetre, so that it can be measured.

It is drawn from our own SVG by cairo where that library is installed, and from our own PDF by
pdfium, which every installation has, where it is not. Both give pictures of one size.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from io import BytesIO
from typing import Any, BinaryIO

from jigs.drawing import palette
from jigs.drawing.drawing import Area, Clip, Drawing, Entity, Page, Picture, Shape
from jigs.drawing.lower import lowered
from jigs.geometry import Arc, Cubic, Line
from jigs.units import Mm
from jigs.writers import pdf, svg
from jigs.writers._writer import Writer

#: Pixels per millimetre; halved until the long side is no more than `LONGEST`.
FINEST = 4.0
LONGEST = 4000


@cache
def renderer() -> str:
    """Return which renderer draws previews on this machine: `cairo` or `pdfium`."""
    try:
        import cairosvg
    except OSError:
        # The Python package is there, the native library it needs is not.
        return "pdfium"
    return "cairo" if cairosvg else "pdfium"


def scale(page: Page) -> float:
    """Return the pixels per millimetre of a page's preview.

    >>> from jigs.drawing.drawing import Drawing
    >>> scale(Page(210, 297, Drawing(), "", "")), scale(Page(1200, 900, Drawing(), "", ""))
    (4.0, 2.0)
    """
    found = FINEST
    while math.ceil(max(page.width, page.height) * found - 1e-6) > LONGEST:
        found /= 2
    return found


def _write(pages: Sequence[Page], out: BinaryIO) -> None:
    from PIL import Image

    page, per_mm = pages[0], scale(pages[0])
    wide = math.ceil(page.width * per_mm - 1e-6)
    high = math.ceil(page.height * per_mm - 1e-6)
    # A sheet of whole pixels: otherwise a renderer would stretch the page to fill them.
    sheet = replace(
        page, width=wide / per_mm, height=high / per_mm,
        drawing=_visible(page.drawing, 1 / per_mm),
    )  # fmt: skip
    draw = _by_cairo if renderer() == "cairo" else _by_pdfium
    drawn: Any = draw(sheet, wide, high)
    ground = Image.new("RGB", (wide, high), "white")
    ground.paste(drawn, (0, 0))
    # PNG says its resolution in pixels per metre; Pillow asks for it in dots per inch.
    ground.save(out, "PNG", dpi=(per_mm * 25.4, per_mm * 25.4))


WRITER = Writer(".png", frozenset({Line, Arc, Cubic, Area, Picture, Clip}), _write)


def _visible(drawing: Drawing, pixel: Mm) -> Drawing:
    """Return the drawing with no line thinner than a pixel, which would only show as a shade."""
    entities: list[Entity] = []
    for entity in drawing.entities:
        if isinstance(entity, Shape):
            own = entity.stroke if entity.stroke is not None else palette.PENS[entity.layer].width
            entities.append(replace(entity, stroke=max(own, pixel)))
        elif isinstance(entity, Clip):
            entities.append(replace(entity, drawing=_visible(entity.drawing, pixel)))
        else:
            entities.append(entity)
    return Drawing(tuple(entities))


def _by_cairo(page: Page, wide: int, high: int) -> Any:
    import cairosvg
    from PIL import Image

    source = BytesIO()
    svg.WRITER.write([page], source)
    picture = cairosvg.svg2png(
        bytestring=source.getvalue(), output_width=wide, output_height=high,
        background_color="white",
    )  # fmt: skip
    return Image.open(BytesIO(picture)).convert("RGB")


def _by_pdfium(page: Page, wide: int, high: int) -> Any:
    import pypdfium2

    source = BytesIO()
    pdf.WRITER.write([lowered(page, pdf.WRITER.holds)], source)
    document = pypdfium2.PdfDocument(source.getvalue())
    try:
        sheet = document[0]
        # pdfium rounds the size up to whole pixels; a hair less keeps an exact size as it is.
        points = max(sheet.get_width() / wide, sheet.get_height() / high)
        bitmap = sheet.render(scale=(1 - 1e-7) / points)
        return bitmap.to_pil().convert("RGB").copy()
    finally:
        document.close()
