"""A list as a spreadsheet saves it (CSV): its rows by column name, whatever the dialect.

Comma, semicolon or tab; UTF-8, with or without a byte order mark, or Windows-1252. The columns
stand in any order under a header. Every cell is text: nothing in it is ever calculated.
"""

import csv
import io
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from jigs.errors import BadInput, Place, Unknown

#: No team's list is longer; a longer one is a slip or an attack.
MOST_ROWS = 2000
LARGEST_FILE = 500_000
_DELIMITERS = ",;\t"
_ALLOWED = 'a list saved as CSV, with a header such as "size,name,number"'

#: Each column and what else its header may be.
COLUMNS = {
    "garment": ("garment", "garments", "garment line", "line"),
    "size": ("size", "sizes"),
    "name": ("name", "names", "player", "player name", "back name", "surname"),
    "number": ("number", "numbers", "no", "nr", "num", "#", "player number", "back number"),
    "quantity": ("quantity", "qty", "pieces", "pcs", "count"),
}


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its line in the file, and its cells by column, trimmed."""

    line: int
    cells: dict[str, str]

    def place(self, file: str, column: str = "") -> Place:
        """Return where a cell stands."""
        return Place(file, f"row {self.line}, {column}" if column else f"row {self.line}")


def rows(data: bytes, file: str, needed: Collection[str]) -> tuple[tuple[Row, ...], list[BadInput]]:
    """Return a list's rows, blank ones left out, and what is wrong with them or its columns.

    Raises:
        BadInput: the file as a whole cannot be read.
    """
    place = Place(file)
    text = _text(data, place)
    table = _table(text, place)
    header = next(table, None)
    if header is None:
        raise BadInput(place, "found no rows", _ALLOWED)
    problems: list[BadInput] = []
    here = Place(file, f"row {header[0]}")
    columns = _columns(header[1], here, problems)
    if not problems:
        missing = [name for name in COLUMNS if name in needed and name not in columns]
        problems += [BadInput(here, f"found no column {name}", _ALLOWED) for name in missing]
    found = []
    for line, cells in table:
        if any(cells[len(columns) :]):
            says = f"found {len(cells)} cells under {len(columns)} headers"
            allowed = "put a cell that holds a delimiter in quotes"
            problems.append(BadInput(Place(file, f"row {line}"), says, allowed))
        named = {name: cell for name, cell in zip(columns, cells, strict=False) if name}
        found.append(Row(line, named))
    return tuple(found), problems


def _text(data: bytes, place: Place) -> str:
    if data[:2] in {b"\xff\xfe", b"\xfe\xff"}:
        raise BadInput(place, "found UTF-16 text", 'save it as "CSV UTF-8"')
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise BadInput(place, "found bytes that are no text", 'save it as "CSV UTF-8"')


def _table(text: str, place: Place) -> Iterator[tuple[int, list[str]]]:
    """Yield each row that is not blank, with its line."""
    first = next((line for line in text.splitlines() if line.strip(_DELIMITERS + " ")), "")
    delimiter = max(_DELIMITERS, key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    count = 0
    while True:
        start = reader.line_num + 1
        try:
            cells = [cell.strip() for cell in next(reader)]
        except StopIteration:
            return
        except csv.Error as error:
            here = place.at(f"row {max(start, reader.line_num)}")
            raise BadInput(here, f"no CSV: {error}", "check the quotes there") from None
        if any(cells):
            count += 1
            if count > MOST_ROWS:
                raise BadInput(place, f"found more than {MOST_ROWS} rows", "split the list")
            yield start, cells


def _columns(header: Sequence[str], place: Place, problems: list[BadInput]) -> list[str]:
    """Return the column of each header; empty for one that cannot be used."""
    known = {alias: name for name, aliases in COLUMNS.items() for alias in aliases}
    found: list[str] = []
    for cell in _without_empty_end(header):
        name = known.get(" ".join(cell.casefold().replace("_", " ").split()).rstrip("."), "")
        if not name:
            problems.append(Unknown(place, "column", cell[:40], COLUMNS))
        elif name in found:
            says = f"found two columns for the {name}"
            problems.append(BadInput(place, says, "give each column once"))
            name = ""
        found.append(name)
    return found


def _without_empty_end(header: Sequence[str]) -> list[str]:
    """Return the header without the empty cells that a spreadsheet leaves at its end."""
    cells = list(header)
    while cells and not cells[-1]:
        cells.pop()
    return cells
