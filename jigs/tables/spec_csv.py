"""Spec sheets saved as CSV: which letters, which delimiter, which cells."""

import codecs
import csv
import io

from jigs.errors import BadInput, Place
from jigs.tables.spec_cells import Cell, Grid, cell_of, grid

_SAVE = "save the sheet as CSV, UTF-8"
_WIDE = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def read_csv(data: bytes, place: Place) -> Grid:
    """Return the cells of a CSV file: UTF-8, UTF-16 with its mark, or else Windows-1252.

    Cells stand between semicolons, tabs or commas, whichever is in most rows.

    Raises:
        BadInput: it is no such text, or its quotes do not match.
    """
    text = _text(data, place)
    first, _, rest = text.partition("\n")
    if first.strip().lower().startswith("sep=") and len(first.strip()) == 5:
        # A line by which spreadsheets say the delimiter; it stays a row, so that rows keep
        # their numbers.
        return grid([[], *_cells(rest, first.strip()[-1], place)], place)
    # Where all rows hold two of them, a comma is a decimal comma.
    delimiter = max("\t;,", key=lambda one: _parted(text, one))
    return grid(_cells(text, delimiter, place), place)


def _text(data: bytes, place: Place) -> str:
    try:
        text = data.decode("utf-16" if data.startswith(_WIDE) else "utf-8-sig")
    except UnicodeDecodeError:
        text = _of_windows(data, place)
    if "\x00" in text:
        raise BadInput(place, "found bytes of nought, which no text has", _SAVE)
    return text


def _of_windows(data: bytes, place: Place) -> str:
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        found = (
            f"line {line}: byte 0x{data[error.start]:02x} is a letter of no kind of text we read"
        )
        raise BadInput(place, found, _SAVE) from None


def _parted(text: str, delimiter: str) -> int:
    """Return how many rows a delimiter parts; quotes may seem wrong with those that are none."""
    try:
        return sum(
            len(row) > 1 for row in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
        )
    except csv.Error:
        return 0


def _cells(text: str, delimiter: str, place: Place) -> list[list[Cell]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        return [[cell_of(entry) for entry in row] for row in reader]
    except csv.Error as error:
        found = f"line {reader.line_num}: {error}"
        allowed = 'a quoted cell ends with its quote, and a quote within it is doubled: "18"""'
        raise BadInput(place, found, allowed) from None
