"""Where the sizes and the names stand on a spec sheet, and what its other columns are.

A sheet whose sizes run down is turned first, so that from here on a row is a point of measure and
a column a size.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

from jigs.errors import BadInput, Place
from jigs.tables.size_names import folded as folded_size
from jigs.tables.spec_cells import NO_RESULT, Cell, Grid
from jigs.tables.spec_names import LEFT_OUT, Names, is_heading
from jigs.tables.spec_sizes import is_sure, may_be_size, size_name
from jigs.tables.spec_values import Value, read_tolerance, read_value, unit_word, without_unit

#: How far above the sizes a column's heading may stand.
_ABOVE = 2


class Kind(Enum):
    """What a column is."""

    SIZE = "size"
    NAME = "names"
    TOLERANCE = "tolerance"
    UNIT = "unit"
    GRADING = "grading"
    CODE = "code"
    NOTES = "notes"
    LEFT_OUT = "left out with --map"


@dataclass(frozen=True, slots=True)
class Layout:
    """A grid with a row of sizes, a column of names, and what is known of the other columns."""

    grid: Grid
    size_row: int
    name_column: int
    kinds: Mapping[int, Kind]

    def columns(self, kind: Kind) -> tuple[int, ...]:
        """Return the columns of a kind, from left to right."""
        return tuple(column for column, known in self.kinds.items() if known is kind)

    def heading(self, column: int) -> Cell:
        """Return the cell that heads a column: in the row of sizes, or near it."""
        sizes = self.columns(Kind.SIZE)
        return self.grid.at(*_heading_at(self.grid, self.size_row, column, sizes))

    def name(self, row: int) -> str:
        """Return the name in a row."""
        return self.grid.at(row, self.name_column).text

    def figures(self, row: int) -> tuple[Cell, ...]:
        """Return the cells of a row below the sizes, one for each size."""
        return tuple(self.grid.at(row, column) for column in self.columns(Kind.SIZE))

    def has_figures(self, row: int) -> bool:
        """Return whether a row has something in it under a size that is not a unit's name."""
        return any(map(_is_entry, self.figures(row)))

    def sizes(self) -> tuple[str, ...]:
        """Return the names of the sizes, in the sheet's order."""
        return tuple(size_name(cell.text) for cell in self.figures(self.size_row))

    def heading_rows(self) -> range:
        """Return the rows in which a column's heading may stand."""
        below = 0 if self.has_figures(self.size_row + 1) else 1
        return range(max(self.size_row - _ABOVE, 0), self.size_row + below + 1)

    def data_rows(self) -> tuple[int, ...]:
        """Return the rows below the sizes that have figures, or what may be meant as such."""
        return tuple(filter(self.has_figures, range(self.size_row + 1, self.grid.height)))

    def is_second_heading(self, row: int) -> bool:
        """Return whether a row is the sizes once more, or other names of them just below."""
        cells = [cell for cell in self.figures(row) if not cell.blank]
        name = self.name(row)
        if not all(map(may_be_size, cells)) or (name and not is_heading(name, "names")):
            return False
        same = all(
            cell.blank or folded_size(size_name(cell.text)) == folded_size(size)
            for cell, size in zip(self.figures(row), self.sizes(), strict=True)
        )
        return same or all(
            not self.has_figures(one) or self.is_second_heading(one)
            for one in range(self.size_row + 1, row)
        )


@dataclass(frozen=True, slots=True)
class _Candidate:
    """A row that may be that of the sizes, and how much speaks for it."""

    grid: Grid
    row: int
    name_column: int
    sizes: tuple[int, ...]
    rank: tuple[int, ...]


def find_layout(sheet: Grid, names: Names, place: Place) -> tuple[Layout, list[BadInput]]:
    """Return the layout that most speaks for, and the columns of figures without a size.

    First counts how many names below are known, then how many sizes are sizes for sure.

    Raises:
        BadInput: no row and no column is one of sizes.
    """
    marks = [
        [_mark(cell, names, sheet.name(r, c)) for c, cell in enumerate(row)]
        for r, row in enumerate(sheet.rows)
    ]
    turned = [list(column) for column in zip(*marks, strict=True)]
    found = [*_candidates(sheet, marks), *_candidates(sheet.turn(), turned)]
    if not found:
        raise BadInput(place, *_nothing(sheet))
    best = max(found, key=lambda one: one.rank)
    rivals = {one.grid.turned for one in found if one.rank[:-1] == best.rank[:-1]}
    if len(rivals) > 1:
        allowed = "one table, with sizes either across or down"
        raise BadInput(place, "found sizes both across and down", allowed)
    kinds, problems = _kinds(best, names, place)
    return Layout(best.grid, best.row, best.name_column, kinds), problems


def _nothing(sheet: Grid) -> tuple[str, str]:
    for r, row in enumerate(sheet.rows):
        for c, cell in enumerate(row):
            if cell.problem is NO_RESULT:
                return f"found no sizes, and in {sheet.name(r, c)} {cell.problem.what}", _SIZES
    return "found no row and no column of sizes", _SIZES


_SIZES = (
    "a sheet names its sizes, such as S, 2XL, YM, 5/6T, 6-12M or 36, in one row above the figures "
    "or one column beside them"
)


class _Mark(NamedTuple):
    """What a cell may be, before it is known where it stands."""

    name: bool
    size: bool
    sure: bool
    """A size and nothing else."""


def _mark(cell: Cell, names: Names, place: str) -> _Mark:
    found = None if cell.problem or not cell.text else names.find(cell.text, place)
    size = may_be_size(cell)
    return _Mark(found not in {None, LEFT_OUT}, size, size and is_sure(cell.text))


def _candidates(grid: Grid, marks: list[list[_Mark]]) -> Iterator[_Candidate]:
    known = [[0] * grid.width for _ in range(grid.height + 1)]
    for r in reversed(range(grid.height)):
        known[r] = [below + mark.name for below, mark in zip(known[r + 1], marks[r], strict=True)]
    for r, row in enumerate(grid.rows):
        sizes = tuple(c for c, mark in enumerate(marks[r]) if mark.size)
        others = [c for c, mark in enumerate(marks[r]) if not mark.size]
        codes = [c for c in others if re.fullmatch("[A-Z]", row[c].text)]
        if not sizes or not others or len(codes) > len(sizes):
            continue  # more single letters than sizes: codes of the points of measure
        column = max(others, key=lambda c: (known[r + 1][c], -c))
        if not known[r + 1][column]:
            column = _text_column(grid, r, sizes)
        if column < 0 or marks[r][column].name:
            continue
        sure = sum(mark.sure for mark in marks[r])
        if sure or _heads(grid, r, column, sizes):
            rank = (known[r + 1][column], sure, len(sizes), r)
            yield _Candidate(grid, r, column, sizes, rank)


def _text_column(grid: Grid, row: int, sizes: tuple[int, ...]) -> int:
    """Return the column nearest before the sizes that holds texts; -1 if there is none."""
    for column in reversed(range(sizes[0])):
        texts = [grid.at(r, column).text for r in range(row + 1, grid.height)]
        words = [text for text in texts if len(text) > 2 and not _is_figure(text)]
        if len(words) * 2 > sum(map(bool, texts)):
            return column
    return -1


def _heads(grid: Grid, row: int, column: int, sizes: tuple[int, ...]) -> bool:
    """Return whether a row of mere numbers can be that of the sizes: it says so, or nothing else.

    Else the first row of figures would be taken for sizes where these have unknown names.
    """
    label = without_unit(grid.at(row, column).text)
    if label:
        return is_heading(label, "names")
    above = [grid.at(r, c) for r in range(row) for c in sizes]
    return all(cell.blank or may_be_size(cell) or is_heading(cell.text, "names") for cell in above)


def _heading_at(grid: Grid, row: int, column: int, sizes: Iterable[int]) -> tuple[int, int]:
    """Return where a column's heading is: in the row of sizes, else just below, else above."""
    below = [] if any(_is_entry(grid.at(row + 1, c)) for c in sizes) else [row + 1]
    above = [row - step for step in range(1, _ABOVE + 1)]
    filled = [r for r in (row, *below, *above) if not grid.at(r, column).blank]
    return (filled[0] if filled else row, column)


def _kinds(found: _Candidate, names: Names, place: Place) -> tuple[dict[int, Kind], list[BadInput]]:
    kinds: dict[int, Kind] = {}
    problems: list[BadInput] = []
    grid = found.grid
    below = range(found.row + 1, grid.height)
    rows = [r for r in below if any(_is_entry(grid.at(r, c)) for c in found.sizes)]
    for column in range(grid.width):
        at = _heading_at(grid, found.row, column, found.sizes)
        heading, cell_name = grid.at(*at).text, grid.name(*at)
        cells = [cell for r in rows if not (cell := grid.at(r, column)).blank]
        key = names.own_key(heading, cell_name)
        own = key or names.own_key("", grid.name(found.row, column))
        if column == found.name_column:
            kinds[column] = Kind.NAME
        elif own and names.own[own] == LEFT_OUT:
            kinds[column] = Kind.LEFT_OUT
        elif column in found.sizes:
            kinds[column] = Kind.SIZE
        elif cells:
            before = kinds.get(column - 1)
            kind = _kind(heading, cells, before)
            if kind is Kind.TOLERANCE and found.sizes[0] < column < found.sizes[-1]:
                kind = None  # a plus between two sizes is what is added to the first
            if kind is None and column < found.name_column and grid.at(found.row, column).blank:
                kind = Kind.CODE
            kinds[column] = kind or Kind.NOTES
            if kind is None:
                problems.append(_unnamed(grid, found.row, column, place))
    return kinds, problems


def _kind(heading: str, cells: list[Cell], before: Kind | None) -> Kind | None:
    """Return what a column is that is not one of sizes; None if it holds figures of no size."""
    if is_heading(heading, "tolerance"):
        return Kind.TOLERANCE
    signed = all(isinstance(read_tolerance(one.text), Value) for one in cells)
    if before is Kind.TOLERANCE and not heading and signed:
        return Kind.TOLERANCE  # the second of two under one heading
    if is_heading(heading, "grading"):
        return Kind.GRADING
    if is_heading(heading, "unit") or all(unit_word(one.text) for one in cells):
        return Kind.UNIT
    if is_heading(heading, "code"):
        return Kind.CODE
    figures = sum(_is_figure(one.text) or bool(one.problem) for one in cells)
    if is_heading(heading, "notes") or figures * 2 <= len(cells):
        return Kind.NOTES
    return None


def _unnamed(grid: Grid, row: int, column: int, place: Place) -> BadInput:
    text, name = grid.at(row, column).text, grid.name(row, column)
    problem = grid.at(row, column).unusable(place.at(f"{name} (size)"))
    if problem is not None:
        return problem
    found = f"found {text!r}, no size we know," if text else "found no size"
    allowed = f'write the size, such as XL or 6-12M, or leave it out with --map "{name}=-"'
    return BadInput(place.at(name), f"{found} over figures", allowed)


def _is_entry(cell: Cell) -> bool:
    return not (cell.blank or unit_word(cell.text))


def _is_figure(text: str) -> bool:
    return isinstance(read_value(text), Value)
