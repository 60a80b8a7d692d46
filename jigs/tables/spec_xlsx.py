"""Spec sheets of XLSX workbooks: which sheet, which cells. Formulas are never evaluated."""

import io
import re
import struct
import warnings
import zipfile
import zlib
from collections.abc import Mapping
from contextlib import redirect_stdout
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from jigs.errors import BadInput, Place
from jigs.tables.spec_cells import COLUMNS, DATE, ERROR, NO_RESULT, ROWS, Cell, Grid, cell_of, grid

_MB = 1_000_000
_LARGEST = 50 * _MB
_MOST_PARTS = 2000
#: Longer than a spreadsheet program lets one be.
_LONGEST_FORMAT = 255
#: Rows to look at, formatted ones without content included.
_LAST_ROW = 20 * ROWS
_SAVE = "save it anew as .xlsx"
#: What the library raises on a workbook that is damaged.
_DAMAGE = (
    ArithmeticError, AssertionError, AttributeError, EOFError, LookupError, OSError,
    RuntimeError, SyntaxError, TypeError, ValueError, struct.error, zipfile.BadZipFile, zlib.error,
)  # fmt: skip
_LITERAL = re.compile(r'"([^"]*)"|\\(.)|_(.)|\*(.)|\[[^\]]*\]')
_FRACTION = re.compile(r"\?\s*/\s*[?\d]")


def read_xlsx(data: bytes, sheet: str | None, place: Place) -> Grid:
    """Return the cells of one sheet: the named one, or the only visible one that is not empty.

    Raises:
        BadInput: it is no workbook, a damaged or oversized one, or which sheet is not clear.
    """
    _check_parts(data, place)
    # It warns of features that it does not keep, none of which is a length, and prints on damage.
    with warnings.catch_warnings(), redirect_stdout(io.StringIO()):
        warnings.simplefilter("ignore")
        try:
            written = _sheets(data, results=False)
            results = _sheets(data, results=True)
        except _DAMAGE as error:
            raise _damaged(error, place) from None
    name = _only(written, place) if sheet is None else sheet
    if name not in written:
        allowed = f"sheets: {', '.join(written)}"
        raise BadInput(Place("option", "--sheet"), f"found {sheet!r}", allowed)
    if written[name].too_far:
        found = f"sheet {name!r} reaches further than row {ROWS} or {COLUMNS} columns"
        raise BadInput(place, found, "give a workbook of the spec sheet alone")
    return grid(_merged(written[name].rows, results[name].rows), place)


def _only(sheets: Mapping[str, "_Sheet"], place: Place) -> str:
    """Return the name of the only visible sheet with content, or of the first if none has any."""
    visible = [name for name, one in sheets.items() if one.visible]
    filled = [name for name in visible if sheets[name].too_far or any(map(any, sheets[name].rows))]
    if len(filled) > 1:
        found = f"found {len(filled)} sheets: {', '.join(filled)}"
        raise BadInput(place, found, 'say which with --sheet "NAME"')
    if not visible:
        raise BadInput(place, "found no sheet that is to be seen", _SAVE)
    return (filled or visible)[0]


def _check_parts(data: bytes, place: Place) -> None:
    """Look at the list of what is packed, before anything is unpacked."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            parts = packed.infolist()
    except _DAMAGE as error:
        raise _damaged(error, place) from None
    names = {part.filename for part in parts}
    if "[Content_Types].xml" not in names or not any(name.startswith("xl/") for name in names):
        raise BadInput(place, "is a zip file, but no workbook", _SAVE)
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > _LARGEST:
        found = f"unpacks to more than {_LARGEST // _MB} MB or {_MOST_PARTS} parts"
        raise BadInput(place, found, "give a workbook of the spec sheet alone")


def _damaged(error: BaseException, place: Place) -> BadInput:
    said = " ".join(str(error).split())[:100] or type(error).__name__
    return BadInput(place, f"cannot be read as an .xlsx workbook ({said})", _SAVE)


@dataclass(frozen=True, slots=True)
class _Entry:
    """A cell as the library has it: what it holds, of which kind, and how that is shown."""

    value: Any
    kind: str
    number_format: str


Rows = list[list[_Entry | None]]


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A sheet: its rows, with None for a blank cell, as far as a spec sheet reaches."""

    visible: bool
    rows: Rows
    too_far: bool
    """Whether there is more."""


def _sheets(data: bytes, *, results: bool) -> dict[str, _Sheet]:
    """Return the sheets by name, with formulas or with the results stored for them."""
    import openpyxl

    book = openpyxl.load_workbook(
        io.BytesIO(data), read_only=True, data_only=results, keep_links=False
    )
    return {one.title: _sheet(one) for one in book.worksheets}


def _sheet(sheet: Any) -> _Sheet:
    visible = sheet.sheet_state == "visible"
    rows: Rows = []
    # What a workbook says of its sheets' size need not be so.
    sheet.reset_dimensions()
    for number, row in enumerate(sheet.iter_rows(), start=1):
        cells = [None if _empty(cell) else _entry(cell) for cell in row]
        while cells and cells[-1] is None:
            cells.pop()
        if number > _LAST_ROW or len(cells) > COLUMNS or (number > ROWS and cells):
            return _Sheet(visible, rows, too_far=True)
        if number <= ROWS:
            rows.append(cells)
    return _Sheet(visible, rows, too_far=False)


def _entry(cell: Any) -> _Entry:
    return _Entry(cell.value, cell.data_type, str(cell.number_format or ""))


def _empty(cell: Any) -> bool:
    # A formula's empty text has no value either, but its kind is text.
    return cell.value is None and cell.data_type != "str"


def _merged(written: Rows, results: Rows) -> list[list[Cell]]:
    """Return cells from what is written in them and from the results of their formulas."""
    return [
        [_cell(one, _at(results, r, c)) if one is not None else Cell() for c, one in enumerate(row)]
        for r, row in enumerate(written)
    ]


def _at(rows: Rows, row: int, column: int) -> _Entry | None:
    inside = row < len(rows) and column < len(rows[row])
    return rows[row][column] if inside else None


def _cell(written: _Entry, result: _Entry | None) -> Cell:
    if written.kind == "f" and result is None:
        return Cell("", NO_RESULT)
    shown = written if result is None else result
    value = "" if shown.value is None else shown.value
    if shown.kind == "d":
        return Cell(str(value).removesuffix(" 00:00:00"), DATE)
    if shown.kind == "e":
        return Cell(str(value), ERROR)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return cell_of(_formatted(value, shown.number_format))
    return cell_of(str(value).upper() if isinstance(value, bool) else str(value))


def _formatted(value: float, number_format: str) -> str:
    """Return a number as the sheet shows it: fractions as such, with the text after it.

    Decimals are not cut to those that are shown.
    """
    shown = number_format.partition(";")[0][:_LONGEST_FORMAT]
    if shown == "General":
        return f"{value:.10g}"
    behind = re.split(r"[0#?](?=[^0#?]*$)", _LITERAL.sub(_nought, shown))[-1] if shown else ""
    digits = _LITERAL.sub("", shown)
    after = "".join(
        next(filter(None, one.groups()[:2]), "")
        for one in _LITERAL.finditer(shown, len(shown) - len(behind))
    )
    if "%" in digits:
        return f"{value * 100:.10g}%"
    exact = Fraction(value).limit_denominator(64)
    if _FRACTION.search(digits) and value > 0 and float(exact) == value and exact.denominator > 1:
        whole, part = divmod(exact.numerator, exact.denominator)
        fraction = f"{part}/{exact.denominator}"
        return f"{whole} {fraction}{after}" if whole else f"{fraction}{after}"
    return f"{value:.10g}{after}"


def _nought(found: re.Match[str]) -> str:
    """Return as many letters as a literal has, none of which is a digit's place."""
    return "x" * len(found[0])
