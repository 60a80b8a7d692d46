"""Spec sheets for the tests: read from files or texts, or built as workbooks."""

import io
from collections.abc import Mapping, Sequence
from datetime import date, time
from fractions import Fraction
from pathlib import Path
from typing import Any

import openpyxl

from jigs.errors import BadInput, BadInputs, Place
from jigs.tables.importer import Imported, Wanted, import_sheet
from jigs.tables.spec_files import read_grid

FOLDER = Path(__file__).parent / "spec_sheets"

Entry = str | float | bool | date | time | None


def imported(
    data: bytes,
    name: str,
    *maps: str,
    unit: str | None = None,
    age: str = "adult",
    sheet: str | None = None,
    title: str | None = None,
) -> Imported:
    """Return what a spec sheet's bytes give."""
    place = Place(name)
    wanted = Wanted("any-cut", age, f"imported from {name}", "table", title, unit, maps)
    return import_sheet(read_grid(name, data, sheet, place), wanted, "table", place)


def complaints(data: bytes, name: str, *maps: str, **options: Any) -> list[tuple[str, str]]:
    """Return what is wrong with a spec sheet: the cell (or option), and the message."""
    try:
        imported(data, name, *maps, **options)
    except BadInput as problem:
        return [_complaint(problem)]
    except BadInputs as several:
        return [_complaint(problem) for problem in several.problems]
    return []


def _complaint(problem: BadInput) -> tuple[str, str]:
    return problem.place.key, f"{problem.found}; {problem.allowed}"


def workbook(
    *sheets: tuple[str, Sequence[Sequence[Entry]]],
    formats: Mapping[str, str] | None = None,
    merged: Sequence[str] = (),
    hidden: Sequence[str] = (),
) -> bytes:
    """Return a workbook of sheets by name; formats and merged ranges are those of the first."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets:
        one = book.create_sheet(name)
        for row in rows:
            one.append(list(row))
        one.sheet_state = "hidden" if name in hidden else "visible"
    first = book.worksheets[0]
    for cell, number_format in (formats or {}).items():
        first[cell].number_format = number_format
    for merge in merged:
        first.merge_cells(merge)
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def exact(text: str) -> Fraction:
    """Return the number a text says, by Python's own fractions: `18 1/2` or `18.5`."""
    return sum(map(Fraction, text.split()), Fraction(0))
