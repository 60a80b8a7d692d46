"""A file of measured garments: a row for each garment, a column for each point of measure.

    garment, size, front_neck_drop (cm), body_length, note
    A1,      M,    9.2,                  "28 1/2 in",
    A2,      M,    9.4,                  ,            sewn crooked?

Commas, semicolons or tabs part the columns. A bare number is in the unit of the column's heading,
else in the one that was asked for, else in the table's.
"""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import StringIO

from jigs.errors import BadInput, Place, Unknown, raise_all
from jigs.tables.measured import same_garment
from jigs.tables.points import POINTS
from jigs.tables.size_names import index_of
from jigs.tables.values import length, shown
from jigs.units import Mm, mm, unit_names, unit_worth

_WORDS = ("size", "garment", "note")
_HEADING = re.compile(r"(?P<name>[^(\[]*?)\s*(?:[(\[]\s*(?P<unit>[^)\]]*?)\s*[)\]])?")
_MOST_ROWS = 5000
_LONGEST_NAME = 60


@dataclass(frozen=True, slots=True)
class Reading:
    """One length of one garment: as it was written, with its unit, and in millimetres."""

    text: str
    mm: Mm


@dataclass(frozen=True, slots=True)
class Garment:
    """A measured garment: the row it stands in (headings are row 1), what it is, its lengths."""

    row: int
    name: str
    size: int
    readings: Mapping[str, Reading]


@dataclass(frozen=True, slots=True)
class _Column:
    name: str
    unit: str | None


def read_garments(
    text: str, sizes: Sequence[str], unit: str, without: Sequence[int], place: Place
) -> tuple[Garment, ...]:
    """Return the garments of a file but those of the rows left out; nothing of these is judged.

    Raises:
        BadInput: the one thing wrong with the file, with its row.
        BadInputs: everything wrong with it.
    """
    rows = _rows(text, place)
    columns = _columns(rows[0][1], unit, place)
    problems: list[BadInput] = []
    known = {number for number, _ in rows[1:]}
    for number in without:
        if number not in known:
            allowed = "the number of a garment's row; the headings are row 1"
            problems.append(BadInput(Place("option", "--without"), f"found {number}", allowed))
    garments = [
        _garment(number, cells, columns, sizes, place, problems)
        for number, cells in rows[1:]
        if number not in without
    ]
    if not garments and not problems:
        problems.append(BadInput(place, "found no garment", "a row for each garment measured"))
    found = tuple(one for one in garments if one is not None)
    problems += _twice(found, place)
    raise_all(problems)
    return found


def _twice(garments: Sequence[Garment], place: Place) -> Iterator[BadInput]:
    """Yield the lengths that a garment has in two rows."""
    first: dict[tuple[str, int, str], int] = {}
    for one in garments:
        for point in one.readings if one.name else ():
            row = first.setdefault((same_garment(one.name), one.size, point), one.row)
            if row != one.row:
                found = f"found {one.name!r} again, with the size and point of row {row}"
                allowed = "a name for each garment, or leave a row out with --without ROW"
                yield BadInput(place.at(f"row {one.row}").at(point), found, allowed)


def _rows(text: str, place: Place) -> list[tuple[int, list[str]]]:
    """Return the rows that are not blank, each with its number in the file."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    mark = max(",;\t", key=first.count)
    reader = csv.reader(StringIO(text, newline=""), delimiter=mark)
    rows: list[tuple[int, list[str]]] = []
    try:
        for number, cells in enumerate(reader, start=1):
            if any(cell.strip() for cell in cells):
                rows.append((number, [cell.strip() for cell in cells]))
            if len(rows) > _MOST_ROWS:
                raise BadInput(place, f"found more than {_MOST_ROWS} rows", "write several files")
    except csv.Error as error:
        raise BadInput(place.at(f"line {reader.line_num}"), str(error), _ALLOWED) from None
    if not rows:
        raise BadInput(place, "found nothing", _ALLOWED)
    return rows


_ALLOWED = "a CSV file: headings such as size, front_neck_drop (cm), then a row for each garment"


def _columns(cells: Sequence[str], unit: str, place: Place) -> list[_Column | None]:
    here, problems = place.at("headings"), list[BadInput]()
    columns: list[_Column | None] = []
    for cell in cells:
        column = _column(cell, unit, here, problems) if cell else None
        if column and any(column.name == one.name for one in columns if one):
            problems.append(BadInput(here, f"found {column.name!r} again", "write a column once"))
        columns.append(column)
    names = {one.name for one in columns if one}
    if "size" not in names and not problems:
        problems.append(BadInput(here, "found no column 'size'", _ALLOWED))
    if not names - set(_WORDS) and not problems:
        allowed = f"a column for each point of measure, such as {', '.join(list(POINTS)[:4])}"
        problems.append(BadInput(here, "found no point of measure", allowed))
    raise_all(problems)
    return columns


def _column(cell: str, unit: str, here: Place, problems: list[BadInput]) -> _Column | None:
    match = _HEADING.fullmatch(cell)
    name = re.sub(r"[\s-]+", "_", (match["name"] if match else cell).casefold())
    own = match["unit"] if match else None
    if name in _WORDS and own is None:
        return _Column(name, None)
    if name not in POINTS:
        problems.append(Unknown(here, "column", cell, (*_WORDS, *POINTS)))
        return None
    if own is not None and unit_worth(own) is None:
        problems.append(Unknown(here.at(name), "unit", own, unit_names()))
        return None
    return _Column(name, own or unit)


def _garment(
    number: int,
    cells: Sequence[str],
    columns: Sequence[_Column | None],
    sizes: Sequence[str],
    place: Place,
    problems: list[BadInput],
) -> Garment | None:
    here, before = place.at(f"row {number}"), len(problems)
    words: dict[str, str] = {}
    readings: dict[str, Reading] = {}
    for k, cell in enumerate(cells):
        column = columns[k] if k < len(columns) else None
        if not cell:
            continue
        if column is None:
            allowed = "as many cells as headings; a number with a comma stands in quotes"
            problems.append(BadInput(here, f"found {cell!r} in column {k + 1}", allowed))
        elif column.unit is None:
            words[column.name] = cell
        else:
            bounds = (POINTS[column.name].least, POINTS[column.name].most)
            at = here.at(column.name)
            found = length(cell, column.unit, bounds, "", at, problems)
            if found is not None:
                whole = f"{cell} {column.unit}" if _is_bare(cell, at) else cell
                readings[column.name] = Reading(whole, found)
    size = words.get("size", "")
    index = index_of(size, sizes)
    if not size:
        problems.append(BadInput(here.at("size"), "missing", f"one of {', '.join(sizes)}"))
    elif index is None:
        problems.append(Unknown(here.at("size"), "size", size, sizes, in_order=True))
    elif not readings and len(problems) == before:
        allowed = "at least one, or leave the row away"
        problems.append(BadInput(here, "found no length", allowed))
    name = _name(words, here, problems)
    if index is None or len(problems) > before:
        return None
    return Garment(number, name, index, readings)


def _name(words: Mapping[str, str], place: Place, problems: list[BadInput]) -> str:
    name = " ".join(words.get("garment", "").split())
    if not name.isprintable() or len(name) > _LONGEST_NAME:
        allowed = f"at most {_LONGEST_NAME} printable characters"
        problems.append(BadInput(place.at("garment"), f"found {shown(name)}", allowed))
    return name


def _is_bare(cell: str, place: Place) -> bool:
    """Return whether what is a length in some unit names none itself."""
    try:
        mm(cell, place)
    except BadInput:
        return True
    return False
