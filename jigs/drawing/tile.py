"""A drawing at 1:1 on pages of a paper size.

Neighbouring pages show a strip of the drawing twice, the overlap; the tile's true edge runs
through the middle of it. The page to the right or below is cut there and laid on the other one,
so that the true edges meet and each place of the drawing is seen once.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.drawing import marks
from jigs.drawing.correct import corrected
from jigs.drawing.drawing import Clip, Drawing, Page, Text
from jigs.drawing.ground import ground
from jigs.drawing.layout import Layout, Reach, layout
from jigs.drawing.lower import text_box
from jigs.drawing.marks import Sheet
from jigs.geometry import Box, Point
from jigs.units import Mm

#: Room round the drawing, for the width of its outermost lines.
ROOM: Mm = 1.0
#: Where along a tile's edge the matching marks stand, as shares of the edge; one on a short edge.
_ALONG = (1 / 8, 1 / 2, 7 / 8)
_SHORT: Mm = 60.0


@dataclass(frozen=True, slots=True)
class _Match:
    """A matching mark: its place on the drawing, its tiles, the one that is laid on top last."""

    at: Point
    along: Point
    under: tuple[int, int]
    over: tuple[int, int]


@dataclass(frozen=True, slots=True)
class _Grid:
    """A drawing on a sheet, its box, and how it is cut into tiles."""

    sheet: Sheet
    drawing: Drawing
    words: tuple[Box, ...]
    box: Box
    layout: Layout
    overlap: Mm

    @property
    def bars(self) -> Clip:
        """The scale bars: one value on all pages, so that a format can store it once."""
        sheet = self.sheet
        return Clip(Box(0.0, 0.0, sheet.width, sheet.height), marks.scale_bars(sheet))

    def part(self, row: int, column: int) -> Box:
        """Return a tile's part of the drawing, between its true edges."""
        across, down, box = self.layout.across, self.layout.down, self.box
        return Box(
            box.left + across[column], box.top + down[row],
            box.left + across[column + 1], box.top + down[row + 1],
        )  # fmt: skip

    def shown(self, row: int, column: int) -> Box:
        """Return what of the drawing a tile's page shows: its part, and the overlap at joins."""
        part, more = self.part(row, column), self.overlap / 2
        return Box(
            part.left - (more if column else 0.0),
            part.top - (more if row else 0.0),
            part.right + (more if column + 2 < len(self.layout.across) else 0.0),
            part.bottom + (more if row + 2 < len(self.layout.down) else 0.0),
        )

    def shift(self, row: int, column: int) -> Point:
        """Return what takes the drawing to its place on a tile's page."""
        window, shown = self.sheet.window(), self.shown(row, column)
        # One row or column stands in the middle; of several, all begin at the top left.
        left = window.left if len(self.layout.across) > 2 else window.centre.x - shown.width / 2
        top = window.top if len(self.layout.down) > 2 else window.centre.y - shown.height / 2
        return Point(left - shown.left, top - shown.top)

    def matches(self) -> Iterator[_Match]:
        """Yield the matching marks, on the edges between two pages, clear of the words."""
        pages = frozenset(self.layout.pages)
        for row, column in self.layout.pages:
            part = self.part(row, column)
            corner = Point(part.right, part.bottom)
            if (row, column + 1) in pages:
                start, along = Point(part.right, part.top), Point(0.0, part.height)
                for at in _places(start, along, self.words):
                    yield _Match(at, along.unit(), (row, column), (row, column + 1))
            if (row + 1, column) in pages:
                start = Point(part.left, part.bottom)
                along = corner.minus(start)
                for at in _places(start, along, self.words):
                    yield _Match(at, along.unit(), (row, column), (row + 1, column))


def _places(start: Point, along: Point, words: Sequence[Box]) -> Iterator[Point]:
    """Yield the places of the marks on an edge."""
    shares = _ALONG if along.length() > _SHORT else (1 / 2,)
    for share in shares:
        yield _clear(start.plus(along.times(share)), along, words)


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

    Tiles on which nothing is drawn are no pages. Of layouts with as many pages, the one whose
    joins keep better off words, long lines and the centre line is taken.

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
    grid = min(grids, key=lambda g: (len(g.layout.pages), round(g.layout.harm, 6)))
    if len(grid.layout.pages) == 1:
        return (_single(grid, title, says, reference),)
    return tuple(
        _page(grid, index, title, says, reference) for index in range(len(grid.layout.pages))
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
    # Words are looked for in the drawing as it was: a correction may make lines of them.
    words = tuple(
        Box(b.left * sheet.x, b.top * sheet.y, b.right * sheet.x, b.bottom * sheet.y)
        for b in (text_box(e) for e in drawing.entities if isinstance(e, Text))
    )
    across, down = Reach(window.width, overlap), Reach(window.height, overlap)
    if across.count(box.width) == down.count(box.height) == 1:
        found = Layout((0.0, box.width), (0.0, box.height), ((0, 0),), 0.0)
    else:
        found = layout(ground(drawing, sheet.x, sheet.y, box), across, down)
    return _Grid(sheet, right, words, box, found, overlap)


def _single(grid: _Grid, title: str, says: str, reference: str) -> Page:
    sheet, shift = grid.sheet, grid.shift(0, 0)
    page = " - ".join(one for one in (reference, _paper(sheet)) if one)
    drawn = grid.drawing.moved(shift.x, shift.y).plus(
        marks.scale_bars(sheet), marks.footer(sheet, title, page)
    )
    return Page(sheet.width, sheet.height, drawn, title, says)


def _page(grid: _Grid, index: int, title: str, says: str, reference: str) -> Page:
    sheet, pages = grid.sheet, grid.layout.pages
    here = row, column = pages[index]
    shift, shown = grid.shift(row, column), grid.shown(row, column)
    box = Box(
        shown.left + shift.x, shown.top + shift.y, shown.right + shift.x, shown.bottom + shift.y
    )
    number = f"page {index + 1} of {len(pages)}"
    page = " - ".join(one for one in (reference, number, _paper(sheet)) if one)
    drawn = Drawing((Clip(box, grid.drawing, shift.x, shift.y), grid.bars)).plus(
        *(
            marks.matching_mark(m.at.plus(shift), m.along, grid.overlap, over=here == m.over)
            for m in grid.matches()
            if here in {m.under, m.over}
        ),
        *_edges(grid, box, row, column),
        marks.footer(sheet, title, page),
        marks.page_map(sheet, pages, here),
    )
    label = marks.tile_label(row, column)
    return Page(sheet.width, sheet.height, drawn, title, says, label)


def _edges(grid: _Grid, box: Box, row: int, column: int) -> Iterator[Drawing]:
    beside = {
        "left": (row, column - 1), "top": (row - 1, column),
        "right": (row, column + 1), "bottom": (row + 1, column),
    }  # fmt: skip
    for side, cell in beside.items():
        if cell in grid.layout.pages:
            name = marks.tile_label(*cell)
            yield marks.edge_marks(grid.sheet, box, side, grid.overlap / 2, name)


def _paper(sheet: Sheet) -> str:
    short, long = sorted((sheet.width, sheet.height))
    return f"paper {short:.4g} x {long:.4g} mm"
