"""All the jigs of an order on one sheet, to one scale, each with its name: to find them by."""

from collections.abc import Sequence
from dataclasses import dataclass

from jigs.drawing.drawing import Anchor, Drawing, Entity, Layer, Page, Text
from jigs.drawing.scaled import scaled
from jigs.geometry import Box, Point
from jigs.geometry.strokes import width_of
from jigs.units import Mm, say

_WIDTH: Mm = 420.0
_EDGE: Mm = 10.0
_GAP: Mm = 6.0
_TITLE: Mm = 5.0
_LINE: Mm = 2.3
_SCALE = 5
_INK = "#222222"


@dataclass(frozen=True, slots=True)
class Entry:
    """A jig on the sheet: its drawing at 1:1, and what stands below it."""

    drawing: Drawing
    lines: tuple[str, ...]


def contact_page(title: str, entries: Sequence[Entry], unit: str) -> Page:
    """Return the sheet: jigs in rows from the left, each row as high as it needs."""
    small = [scaled(entry.drawing, 1 / _SCALE) for entry in entries]
    boxes = [drawing.bounds() for drawing in small]
    widths = [_cell_width(entry, box) for entry, box in zip(entries, boxes, strict=True)]
    says = f"{title} · scale 1:{_SCALE}"
    entities: list[Entity] = [
        Text(Layer.NOTE, says, Point(_EDGE, _EDGE + _TITLE), _TITLE, colour=_INK)
    ]
    y = _EDGE + 2 * _TITLE + 2
    for row in _rows(widths):
        tall = max(boxes[k].height for k in row)
        x = _EDGE
        for k in row:
            middle, box = x + widths[k] / 2, boxes[k]
            entities += small[k].moved(middle - box.centre.x, y - box.top).entities
            for n, line in enumerate(entries[k].lines):
                at = Point(middle, y + box.height + 2 + (n + 1) * _LINE * 1.8)
                entities.append(Text(Layer.NOTE, line, at, _LINE, Anchor.MIDDLE, colour=_INK))
            x += widths[k] + _GAP
        deepest = max(len(entries[k].lines) for k in row)
        y += tall + 2 + deepest * _LINE * 1.8 + 2 * _GAP
    said = f"All jigs of the order, scale 1:{_SCALE} ({say(10.0 * _SCALE, unit)} show as 10 mm)"
    return Page(_WIDTH, y + _EDGE - _GAP, Drawing(tuple(entities)), title, said)


def _cell_width(entry: Entry, box: Box) -> Mm:
    return max(box.width, *(width_of(line, _LINE) for line in entry.lines))


def _rows(widths: Sequence[Mm]) -> list[list[int]]:
    rows: list[list[int]] = [[]]
    x = _EDGE
    for k, width in enumerate(widths):
        if rows[-1] and x + width > _WIDTH - _EDGE:
            rows.append([])
            x = _EDGE
        rows[-1].append(k)
        x += width + _GAP
    return rows
