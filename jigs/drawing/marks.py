"""What is printed round a part of a drawing: scale bars, matching marks, the map of the pages.

+--+----------------------------+      gutter: trim marks, what to do with
|  |                            |      each edge, the upright scale bar
|  |   window: the drawing      |
|  |   and nothing else but     |
|  |   the matching marks       |
+--+----------------------------+
| title                     B2  |      footer: title, lying scale bar,
| |||||||||||||||  [map]        |      page map, what the bar must measure
+-------------------------------+
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jigs.drawing.drawing import Anchor, Area, Drawing, Entity, Layer, Shape, Text
from jigs.drawing.palette import BLACK
from jigs.geometry import Box, Path, Point
from jigs.geometry.strokes import written
from jigs.units import INCH, Mm

GUTTER: Mm = 7.0
FOOTER: Mm = 27.0
#: A misfit of half a millimetre leaves a gap wider than the line itself.
FINE: Mm = 0.15
#: Arms of a matching mark, where the overlap is wide enough.
ARM: Mm = 5.0
_WORDS = 2.3
_SMALL = 1.9


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of paper with its unprintable margin, and the printer's correction each way."""

    width: Mm
    height: Mm
    margin: Mm
    x: float = 1.0
    y: float = 1.0

    def window(self) -> Box:
        """Return where the drawing shows."""
        edge = self.margin + GUTTER
        return Box(edge, edge, self.width - edge, self.height - edge - FOOTER)

    def footer(self) -> Box:
        """Return the strip below for title, scale bar and map."""
        bottom = self.height - self.margin
        return Box(self.margin, bottom - FOOTER, self.width - self.margin, bottom)


def fitted(text: str, height: Mm, room: Mm, least: Mm = _SMALL) -> tuple[str, Mm]:
    """Return a text and the height at which it fits into a room; at the least height cut short."""
    width = written(text, height).width
    if width <= room:
        return text, height
    height = max(min(least, height), height * room / width)
    width = written(text, height).width
    if width > room * (1 + 1e-9):
        # To about the length first, with letters to spare, then letter by letter.
        text = text[: 2 + math.ceil(2 * len(text) * room / width)]
        while text and written(f"{text}...", height).width > room:
            text = text[:-1].rstrip()
        text = f"{text}..."
    return text, height


def line(*points: Point, closed: bool = False) -> Shape:
    """Return a thin black line on the note layer."""
    return Shape(Layer.NOTE, Path.through(points, closed=closed), colour=BLACK, stroke=FINE)


def mark(*points: Point) -> Shape:
    """Return a thin line for putting pages together, in the notes' colour: it is not the jig's."""
    return Shape(Layer.NOTE, Path.through(points), stroke=FINE)


def words(
    text: str, at: Point, height: Mm, anchor: Anchor = Anchor.START, angle: float = 0.0
) -> Text:
    """Return a line of text on the note layer."""
    return Text(Layer.NOTE, text, at, height, anchor, angle, colour=BLACK)


def footer(sheet: Sheet, title: str, page: str) -> Drawing:
    """Return title and which page it is, above the scale bar."""
    box = sheet.footer()
    aside, small = fitted(page, _WORDS, 0.5 * box.width)
    heading, size = fitted(title, 3.2, box.width - written(aside, small).width - 4)
    return Drawing((
        words(heading, Point(box.left, box.top + 6), size),
        words(aside, Point(box.right, box.top + 6), small, Anchor.END),
    ))  # fmt: skip


def scale_bars(sheet: Sheet) -> Drawing:
    """Return the bars, and what one of them must measure: the same on every page."""
    box = sheet.footer()
    long = 100 if box.width >= 150 else 50
    rule, size = fitted(
        f"Print at 100 % (actual size). This bar must measure {long} mm. "
        "If it does not, nothing on it is right: turn off 'fit to page'.",
        _WORDS + 0.2, box.width, least=0.5,
    )  # fmt: skip
    top = line(Point(box.left, box.top + 1), Point(box.right, box.top + 1))
    said = words(rule, Point(box.left, box.bottom - 1.0), size)
    bar = _ruler(Point(box.left + 0.2, box.top + 14.2), long, sheet.x)
    return Drawing((top, said, *bar, *_upright(sheet)))


def _ruler(start: Point, long: int, factor: float) -> list[Entity]:
    """Return a bar with millimetres above it and inches below."""
    inches = long // 25
    end = max(long, inches * INCH)
    made: list[Entity] = [line(start, Point(start.x + end * factor, start.y))]
    for k in range(long + 1):
        tall = 3.2 if k % 10 == 0 else 2.2 if k % 5 == 0 else 1.2
        x = start.x + k * factor
        made.append(line(Point(x, start.y), Point(x, start.y - tall)))
    for k in range(8 * inches + 1):
        tall = 3.2 if k % 8 == 0 else 2.2 if k % 4 == 0 else 1.2
        x = start.x + k * INCH / 8 * factor
        made.append(line(Point(x, start.y), Point(x, start.y + tall)))
    for k in range(0, long + 1, 10):
        said = f"{k} mm" if k == long else str(k)
        anchor = Anchor.START if k in {0, long} else Anchor.MIDDLE
        made.append(words(said, Point(start.x + k * factor, start.y - 4), _SMALL, anchor))
    for k in range(inches + 1):
        said = f"{k} in" if k == inches else str(k)
        anchor = Anchor.START if k in {0, inches} else Anchor.MIDDLE
        at = Point(start.x + k * INCH * factor, start.y + 4 + _SMALL)
        made.append(words(said, at, _SMALL, anchor))
    return made


def _upright(sheet: Sheet) -> list[Entity]:
    """Return an upright bar in the left gutter: a printer may err one way and not the other."""
    long = _upright_length(sheet)
    x, bottom = sheet.margin + 0.2, sheet.window().bottom
    if long == 0:
        return []
    made: list[Entity] = [line(Point(x, bottom), Point(x, bottom - long * sheet.y))]
    for k in range(0, long + 1, 10):
        y = bottom - k * sheet.y
        made.append(line(Point(x, y), Point(x + (3 if k % 50 == 0 else 2), y)))
    middle = Point(x + 5.2, bottom - long / 2 * sheet.y)
    return [*made, words(f"{long} mm", middle, _SMALL, Anchor.MIDDLE, -90)]


def _upright_length(sheet: Sheet) -> int:
    """Return 100 or 50 mm, whichever leaves as much again of the gutter; 0 if neither does."""
    tall = sheet.window().height
    return 100 if tall >= 150 else 50 if tall >= 100 else 0


def page_map(sheet: Sheet, pages: Sequence[tuple[int, int]], here: tuple[int, int]) -> Drawing:
    """Return the pages that exist, by row and column, this one filled, its label beside it."""
    box = sheet.footer()
    rows, columns = (max(one) + 1 for one in zip(*pages, strict=True))
    tall, label = 13.0, tile_label(*here)
    top = box.top + 8.2
    size = 7.0 if len(label) <= 3 else 4.0
    right = box.right - written(label, size).width - 4
    room = max(4.0, min(34.0, right - box.left - (118 if box.width >= 150 else 68)))
    cell_y = min(tall / rows, 6.5)
    cell_x = min(room / columns, cell_y * 1.4)
    left = right - columns * cell_x

    def cell(row: int, column: int) -> Box:
        # A little apart, or a page that there is not would pass for part of its neighbours.
        x, y = left + column * cell_x, top + row * cell_y
        return Box(x, y, x + cell_x, y + cell_y).grown(-min(0.3, cell_x / 10, cell_y / 10))

    made: list[Entity] = [Area((Path.box(cell(*here)),), BLACK)]
    made += [line(*cell(*one).corners(), closed=True) for one in pages]
    made.append(words(label, Point(box.right, top + (tall + size) / 2), size, Anchor.END))
    return Drawing(tuple(made))


def tile_label(row: int, column: int) -> str:
    """Return a tile's name: the row as letters, the column as a number.

    >>> tile_label(0, 0), tile_label(1, 2), tile_label(26, 0)
    ('A1', 'B3', 'AA1')
    """
    letters, left = "", row + 1
    while left:
        left, last = divmod(left - 1, 26)
        letters = chr(ord("A") + last) + letters
    return f"{letters}{column + 1}"


def matching_mark(at: Point, along: Point, overlap: Mm, *, over: bool) -> tuple[Shape, ...]:
    r"""Return a page's half of a mark on a true edge that runs `along`; the other page has its own.

     \     |     /
      \    |    /      under: the page that is laid below
    ---*---*---*---    the true edge, on both pages: cut along it, lay the cut against it
        \  |  /
         \ | /         over: the page that is cut and laid on top

    Each page draws on its own side alone, so that no half can stand in for the other. A misfit
    along the edge breaks the upright stroke, one across it breaks both slanted strokes, each by as
    much as the misfit, and seven tenths of it for a slanted stroke; the lines are 0.15 mm wide.
    """
    arm = min(ARM, overlap / 2)
    out = along.quarter() if over else along.quarter().times(-1)
    if along.x == 0.0:
        # The quarter turn of downwards points left; the page on top is the right one.
        out = out.times(-1)
    foot, reach = 0.55 * arm, 0.4 * arm
    strokes = [mark(at, at.plus(out.times(arm)))]
    for side in (1.0, -1.0):
        met = at.plus(along.times(side * foot))
        lean = along.times((-side if over else side) * reach)
        strokes.append(mark(met, met.plus(lean).plus(out.times(reach))))
    ends = at.minus(along.times(arm)), at.plus(along.times(arm))
    return (mark(*ends), *strokes)


def edge_marks(sheet: Sheet, box: Box, side: str, inset: Mm, neighbour: str) -> Drawing:
    """Return the trim marks at both ends of an edge, `left` or the like, and what to do there.

    `box` is what the page shows, and `inset` how far inside it the tile's true edge runs.
    """
    reach = 5.0
    under = side in {"right", "bottom"}
    text = f"{neighbour} goes on top here" if under else f"cut at the marks, lay on {neighbour}"
    if side in {"left", "right"}:
        x = box.right - inset if under else box.left + inset
        trims = [
            mark(Point(x, end + out), Point(x, end + out * reach))
            for end, out in ((box.top, -1), (box.bottom, 1))
        ]
        # Below the trim mark of the upper edge and above the upright scale bar.
        bar = sheet.window().bottom - _upright_length(sheet) * sheet.y
        room = (box.bottom if under else min(box.bottom, bar)) - box.top - 2 * inset - 4
        said, size = fitted(text, _SMALL, room, least=0.8)
        at = Point(box.right + 4 if under else box.left - 2.5, box.top + 2 * inset + room / 2)
        return Drawing((*trims, words(said, at, size, Anchor.MIDDLE, -90)))
    y = box.bottom - inset if under else box.top + inset
    trims = [
        mark(Point(end + out, y), Point(end + out * reach, y))
        for end, out in ((box.left, -1), (box.right, 1))
    ]
    said, size = fitted(text, _SMALL, box.width - 2 * inset - 4, least=0.8)
    at = Point(box.centre.x, box.bottom + 4 if under else box.top - 2.5)
    return Drawing((*trims, words(said, at, size, Anchor.MIDDLE)))
