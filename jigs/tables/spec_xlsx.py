"""Spec sheets of XLSX workbooks: which sheet, which cells. Formulas are never evaluated."""

import io
import re
import struct
import warnings
import zipfile
import zlib
from collections.abc import Iterator, Sequence
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
    with warnings.catch_warnings():
        # It warns of features that it does not keep; none of them is a length.
        warnings.simplefilter("ignore")
        try:
            written = _sheets(data, place, results=False)
            results = _sheets(data, place, results=True)
        except _DAMAGE as error:
            raise _damaged(error, place) from None
    if sheet is not None:
        if sheet not in written:
            allowed = f"sheets: {', '.join(written)}"
            raise BadInput(Place("option", "--sheet"), f"found {sheet!r}", allowed)
        return grid(_merged(written[sheet][1], results[sheet][1]), place)
    visible = {name: rows for name, (seen, rows) in written.items() if seen}
    filled = [name for name, rows in visible.items() if any(map(any, rows))]
    if len(filled) > 1:
        found = f"found {len(filled)} sheets: {', '.join(filled)}"
        raise BadInput(place, found, 'say which with --sheet "NAME"')
    name = (filled or list(visible))[0] if visible else ""
    return grid(_merged(visible.get(name, []), results[name][1] if name else []), place)


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


Rows = list[list[Any]]


def _sheets(data: bytes, place: Place, *, results: bool) -> dict[str, tuple[bool, Rows]]:
    """Return each sheet: whether it is visible, and its cells, blank ones as None."""
    import openpyxl

    book = openpyxl.load_workbook(
        io.BytesIO(data), read_only=True, data_only=results, keep_links=False
    )
    return {
        one.title: (one.sheet_state == "visible", list(_rows(one, place)))
        for one in book.worksheets
    }


def _rows(sheet: Any, place: Place) -> Iterator[list[Any]]:
    # What a workbook says of its sheets' size need not be so.
    sheet.reset_dimensions()
    for number, row in enumerate(sheet.iter_rows(), start=1):
        cells = [None if _empty(cell) else cell for cell in row]
        while cells and cells[-1] is None:
            cells.pop()
        if number > _LAST_ROW or len(cells) > COLUMNS or (number > ROWS and cells):
            found = f"sheet {sheet.title!r} reaches further than row {ROWS} or {COLUMNS} columns"
            raise BadInput(place, found, "give a workbook of the spec sheet alone")
        if number <= ROWS:
            yield cells


def _empty(cell: Any) -> bool:
    # A formula's empty text has no value either, but its kind is text.
    return cell.value is None and cell.data_type != "str"


def _merged(written: Rows, results: Rows) -> list[list[Cell]]:
    """Return cells from what is written in them and from the results of their formulas."""
    return [
        [_cell(one, _at(results, r, c)) if one is not None else Cell() for c, one in enumerate(row)]
        for r, row in enumerate(written)
    ]


def _at(rows: Sequence[Sequence[Any]], row: int, column: int) -> Any:
    inside = row < len(rows) and column < len(rows[row])
    return rows[row][column] if inside else None


def _cell(written: Any, result: Any) -> Cell:
    if written.data_type == "f" and result is None:
        return Cell("", NO_RESULT)
    shown = written if result is None else result
    value = "" if shown.value is None else shown.value
    if shown.data_type == "d":
        return Cell(str(value).removesuffix(" 00:00:00"), DATE)
    if shown.data_type == "e":
        return Cell(str(value), ERROR)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return cell_of(_formatted(value, str(shown.number_format or "")))
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
