"""A supplier's spec sheet as a grid of cells, whatever file it came in.

Nothing is understood here: a cell has a text, as its reader sees it, and perhaps a reason for
which the text cannot be taken at its word.
"""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from jigs.errors import BadInput, Place

#: Larger than any spec sheet. What is larger is something else.
ROWS = 1000
COLUMNS = 200
_LONGEST_CELL = 4000

_SIGNS = str.maketrans({
    **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\u3000", " "),
    **dict.fromkeys("“”„‟″＂", '"'),
    **dict.fromkeys("‘’‚‛′＇", "'"),
    **dict.fromkeys("‐‑‒–—―−－", "-"),
    **dict.fromkeys("⁄∕／", "/"),
    "＋": "+",
})  # fmt: skip
_MONTHS = "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
_DATE = re.compile(
    rf"""\d{{1,2}} [-/. ] (?:{_MONTHS})[a-z]* (?:[-/. ]\d{{2,4}})?
    | (?:{_MONTHS})[a-z]* [-/. ] \d{{1,4}}
    | \d{{4}}-\d{{1,2}}-\d{{1,2}} (?:[ T].*)?
    | \d{{1,2}}[/.]\d{{1,2}}[/.](?:\d{{2}}|\d{{4}})""",
    re.VERBOSE | re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Problem:
    """Why a cell says nothing that can be used, and what to do about it."""

    what: str
    remedy: str


DATE = Problem(
    "a date, which spreadsheets make of entries such as 6-12 or 1/2",
    "format the cell as text and write the entry again",
)
FORMULA = Problem("a formula", "write its result")
NO_RESULT = Problem(
    "a formula without a stored result", "open the file in a spreadsheet program and save it"
)
ERROR = Problem("an error of the spreadsheet", "write the figure")


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell: its text on one line with plain quotes, dashes and spaces, and what is wrong."""

    text: str = ""
    problem: Problem | None = None

    @property
    def blank(self) -> bool:
        """Whether there is nothing in it."""
        return not self.text and not self.problem

    def unusable(self, place: Place) -> BadInput | None:
        """Return why the cell cannot be used, if it cannot."""
        if self.problem is None:
            return None
        text = f"{self.text[:40]!r}, " if self.text else ""
        return BadInput(place, f"found {text}{self.problem.what}", self.problem.remedy)


_BLANK = Cell()


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows of cells, all of one length; `turned` where the sheet's columns became the rows."""

    rows: tuple[tuple[Cell, ...], ...]
    turned: bool = False

    @property
    def height(self) -> int:
        """How many rows there are."""
        return len(self.rows)

    @property
    def width(self) -> int:
        """How many columns there are."""
        return len(self.rows[0]) if self.rows else 0

    def at(self, row: int, column: int) -> Cell:
        """Return a cell; outside the grid all is blank."""
        inside = 0 <= row < self.height and 0 <= column < self.width
        return self.rows[row][column] if inside else _BLANK

    def name(self, row: int, column: int) -> str:
        """Return a cell's name in the sheet: `C7`."""
        if self.turned:
            row, column = column, row
        return f"{letters(column)}{row + 1}"

    def turn(self) -> "Grid":
        """Return the grid with its columns as rows."""
        return Grid(tuple(zip(*self.rows, strict=True)), not self.turned)

    def row_name(self, row: int) -> str:
        """Return what one of the grid's rows is called in the sheet: `row 7`, or `column C`."""
        return f"column {letters(row)}" if self.turned else f"row {row + 1}"

    def column_name(self, column: int) -> str:
        """Return what one of the grid's columns is called in the sheet: `column C`, or `row 7`."""
        return f"row {column + 1}" if self.turned else f"column {letters(column)}"


def letters(column: int) -> str:
    """Return a column's letters.

    >>> letters(0), letters(25), letters(26)
    ('A', 'Z', 'AA')
    """
    name = ""
    column += 1
    while column:
        column, last = divmod(column - 1, 26)
        name = chr(ord("A") + last) + name
    return name


def grid(rows: Sequence[Sequence[Cell]], place: Place) -> Grid:
    """Return the rows as a grid, without the blank ones after the last that is not.

    Raises:
        BadInput: there is nothing in them, or more than a spec sheet holds.
    """
    filled = [(r, c) for r, row in enumerate(rows) for c, cell in enumerate(row) if not cell.blank]
    if not filled:
        raise BadInput(place, "found no cell with anything in it", "give a spec sheet")
    height, width = max(r for r, _ in filled) + 1, max(c for _, c in filled) + 1
    if height > ROWS or width > COLUMNS:
        found = f"found {height} rows and {width} columns"
        raise BadInput(place, found, f"a spec sheet has at most {ROWS} and {COLUMNS}")
    for r, c in filled:
        if len(rows[r][c].text) > _LONGEST_CELL:
            found = f"found a text of {len(rows[r][c].text)} characters"
            at = place.at(f"{letters(c)}{r + 1}")
            raise BadInput(at, found, f"a cell holds at most {_LONGEST_CELL}")
    blank = (_BLANK,) * width
    return Grid(tuple((*row[:width], *blank[len(row) :]) for row in rows[:height]))


def cell_of(text: str) -> Cell:
    """Return the cell of a text; one that a spreadsheet has made into a date is a problem."""
    plain = tidy(text)
    if plain.startswith("=") and len(plain) > 1:
        return Cell(plain, FORMULA)
    return Cell(plain, DATE if is_date(plain) else None)


@lru_cache(10_000)
def tidy(text: str) -> str:
    r"""Return a text on one line, with plain quotes, dashes and spaces.

    >>> tidy("18\u00a0½” \n–  19")
    '18 ½" - 19'
    """
    plain = text.translate(_SIGNS).replace("''", '"')
    if plain.isprintable():
        return " ".join(plain.split())
    kept = "".join(
        " " if unicodedata.category(sign) in {"Cc", "Zl", "Zp"} else sign
        for sign in plain
        if unicodedata.category(sign) not in {"Cf", "Cs"}
    )
    return " ".join(kept.split())


def is_date(text: str) -> bool:
    """Return whether a text is what a spreadsheet writes for a date.

    >>> is_date("12-Jun"), is_date("2024-06-12"), is_date("6-12"), is_date("1/2")
    (True, True, False, False)
    """
    return bool(_DATE.fullmatch(text))
