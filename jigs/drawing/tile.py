"""A drawing at 1:1 on pages of a paper size.

Neighbouring pages show a strip of the drawing twice, the overlap; the tile's true edge runs
through the middle of it. The page to the right or below is cut there and laid on the other one,
so that the true edges meet and each place of the drawing is seen once.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.drawing import marks
from jigs.drawing.correct import corrected
from jigs.drawing.drawing import Clip, Drawing, Page, Text
from jigs.drawing.lower import text_box
from jigs.drawing.marks import Sheet
from jigs.geometry import Box, Point
from jigs.units import Mm

#: Room round the drawing, for the width of its outermost lines.
ROOM: Mm = 1.0
#: Where along a tile's edge the matching marks stand, as shares of the tile.
_ALONG = (1 / 8, 1 / 2, 7 / 8)


@dataclass(frozen=True, slots=True)
class _Grid:
    """How a drawing is cut into tiles: rows and columns, and where the first window starts."""

    sheet: Sheet
    drawing: Drawing
    columns: int
    rows: int
    left: Mm
    top: Mm
    overlap: Mm

    @property
    def bars(self) -> Clip:
        """The scale bars: one value on all pages, so that a format can store it once."""
        sheet = self.sheet
        return Clip(Box(0.0, 0.0, sheet.width, sheet.height), marks.scale_bars(sheet))

    @property
    def steps(self) -> tuple[Mm, Mm]:
        """How far a window lies from the next, across and down."""
        window = self.sheet.window()
        return window.width - self.overlap, window.height - self.overlap

    def shift(self, row: int, column: int) -> Point:
        """Return what takes the drawing to its place on a tile's page."""
        window, (across, down) = self.sheet.window(), self.steps
        return Point(window.left - self.left - column * across, window.top - self.top - row * down)

    def matches(self) -> Iterator[Point]:
        """Yield the places of the matching marks, on the drawing, clear of its words."""
        across, down = self.steps
        x0, y0 = self.left + self.overlap / 2, self.top + self.overlap / 2
        words = [text_box(e) for e in self.drawing.entities if isinstance(e, Text)]
        for column in range(1, self.columns):
            x = x0 + column * across
            for row in range(self.rows):
                wished = (Point(x, y0 + (row + part) * down) for part in _ALONG)
                yield from (_clear(at, Point(0.0, down), words) for at in wished)
        for row in range(1, self.rows):
            y = y0 + row * down
            for column in range(self.columns):
                wished = (Point(x0 + (column + part) * across, y) for part in _ALONG)
                yield from (_clear(at, Point(across, 0.0), words) for at in wished)


def _clear(at: Point, along: Point, words: Sequence[Box]) -> Point:
    """Return the place nearest to one, along a tile's edge, where a mark covers no word."""
    shifts = sorted((k / 48 for k in range(-5, 6)), key=abs)
    for place in (at.plus(along.times(shift)) for shift in shifts):
        around = Box(place.x, place.y, place.x, place.y).grown(marks.ARM)
        if not any(around.overlaps(box) for box in words):
            return place
    return at


def tiles(
    drawing: Drawing,
    *,
    title: str,
    says: str,
    width: Mm,
    height: Mm,
    margin: Mm,
    overlap: Mm,
    x: float = 1.0,
    y: float = 1.0,
    reference: str = "",
) -> tuple[Page, ...]:
    """Return a drawing on as few sheets as it takes, upright or turned, row by row.

    `x` stretches along the sheet's width and `y` along its height, to make up for the printer;
    on a turned sheet they turn with it, for it is fed as the upright one is.

    Raises:
        ValueError: the sheet leaves no room for a drawing, or nothing is drawn.
    """
    sheets = [Sheet(width, height, margin, x, y)]
    if width != height:
        sheets.append(Sheet(height, width, margin, y, x))
    usable = [s for s in sheets if _usable(s, overlap)]
    if not usable:
        raise ValueError(f"a sheet of {width} by {height} leaves no room for a drawing")
    grids = [_grid(sheet, drawing, overlap) for sheet in usable]
    grid = min(grids, key=lambda g: g.columns * g.rows)
    if grid.columns == grid.rows == 1:
        return (_single(grid, title, says, reference),)
    return tuple(
        _page(grid, row, column, title, says, reference)
        for row in range(grid.rows)
        for column in range(grid.columns)
    )


def true_tile(page: Page, overlap: Mm) -> Box:
    """Return the part of a page that is left when its edges are cut at the marks.

    An edge without a neighbour is not cut; the box is then only a little larger than needed.

    Raises:
        ValueError: the page is not one of several tiles.
    """
    for entity in page.drawing.entities:
        if isinstance(entity, Clip):
            return entity.box.grown(-overlap / 2)
    raise ValueError("the page shows the whole drawing")


def takes(width: Mm, height: Mm, margin: Mm, overlap: Mm) -> bool:
    """Return whether a sheet, upright or turned, leaves room for tiles with an overlap."""
    sheets = (Sheet(width, height, margin, 1.0, 1.0), Sheet(height, width, margin, 1.0, 1.0))
    return any(_usable(sheet, overlap) for sheet in sheets)


def _usable(sheet: Sheet, overlap: Mm) -> bool:
    window = sheet.window()
    return 0 < overlap < min(window.width, window.height) / 2 and sheet.footer().width >= 70


def _grid(sheet: Sheet, drawing: Drawing, overlap: Mm) -> _Grid:
    right = corrected(drawing, sheet.x, sheet.y)
    box, window = right.bounds().grown(ROOM), sheet.window()
    columns, rows = (
        1 if size <= room else math.ceil((size - overlap) / (room - overlap) - 1e-9)
        for size, room in ((box.width, window.width), (box.height, window.height))
    )
    # A drawing in the middle of its windows would often have its centre line on a true edge, so
    # with several windows what they show beyond the drawing is all on the far side.
    left = box.left if columns > 1 else box.centre.x - window.width / 2
    top = box.top if rows > 1 else box.centre.y - window.height / 2
    return _Grid(sheet, right, columns, rows, left, top, overlap)


def _single(grid: _Grid, title: str, says: str, reference: str) -> Page:
    sheet, shift = grid.sheet, grid.shift(0, 0)
    page = " - ".join(one for one in (reference, _paper(sheet)) if one)
    drawn = grid.drawing.moved(shift.x, shift.y).plus(
        marks.scale_bars(sheet), marks.footer(sheet, title, page)
    )
    return Page(sheet.width, sheet.height, drawn, title, says)


def _page(grid: _Grid, row: int, column: int, title: str, says: str, reference: str) -> Page:
    sheet, window, shift = grid.sheet, grid.sheet.window(), grid.shift(row, column)
    number = f"page {row * grid.columns + column + 1} of {grid.rows * grid.columns}"
    page = " - ".join(one for one in (reference, number, _paper(sheet)) if one)
    seen = [at.plus(shift) for at in grid.matches()]
    drawn = Drawing((Clip(window, grid.drawing, shift.x, shift.y), grid.bars)).plus(
        *(marks.matching_mark(at, grid.overlap) for at in seen if _inside(at, window)),
        *_edges(grid, row, column),
        marks.footer(sheet, title, page),
        marks.page_map(sheet, grid.rows, grid.columns, row, column),
    )
    label = marks.tile_label(row, column)
    return Page(sheet.width, sheet.height, drawn, title, says, label)


def _inside(at: Point, window: Box) -> bool:
    return window.left < at.x < window.right and window.top < at.y < window.bottom


def _edges(grid: _Grid, row: int, column: int) -> Iterator[Drawing]:
    beside = {
        "left": (row, column - 1), "top": (row - 1, column),
        "right": (row, column + 1), "bottom": (row + 1, column),
    }  # fmt: skip
    for side, (r, c) in beside.items():
        if 0 <= r < grid.rows and 0 <= c < grid.columns:
            name = marks.tile_label(r, c)
            yield marks.edge_marks(grid.sheet, side, grid.overlap / 2, name)


def _paper(sheet: Sheet) -> str:
    short, long = sorted((sheet.width, sheet.height))
    return f"paper {short:.4g} x {long:.4g} mm"
