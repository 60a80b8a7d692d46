"""The text of a size table as checked values: every key, every row, every length on its own.

What the shop measured is read in `measured.py`; what the lengths must be to each other is in
`rules.py`.
"""

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from jigs.errors import BadInput, Place, Unknown
from jigs.tables.measure import Measure
from jigs.tables.measured import Piece, read_measured
from jigs.tables.points import POINTS, REQUIRED
from jigs.tables.size_names import folded
from jigs.tables.spread import figures
from jigs.tables.values import by_point, length, shown
from jigs.units import INCH, Mm, say, unit_names, unit_worth

AGES = ("infant", "toddler", "youth", "adult")

_WORDS = {
    "title": 'write what the table is called, such as title = "Crew-neck tee, adult"',
    "cut": 'write the garment\'s cut, such as cut = "crew-tee"',
    "age": f"write one of {', '.join(AGES)}",
    "unit": 'write the unit of the bare numbers, such as unit = "in"',
    "source": 'write where the figures come from, such as source = "measured in the shop"',
}
_KEYS = (*_WORDS, "sizes", "measurements", "tolerances", "measured")
_LONGEST_TEXT = 1_000_000
_LARGEST_TOLERANCE: Mm = 75.0
_LINE = re.compile(r"\(at (line \d+), column \d+\)$")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table as written; a length that could not be read is None, a row left out is not there."""

    words: Mapping[str, str]
    sizes: tuple[str, ...]
    given: Mapping[str, tuple[Mm | None, ...]]
    tolerances: Mapping[str, Mm]
    garments: Mapping[str, Mapping[int, tuple[Piece, ...]]]
    """What the shop measured: by point, by index of the size, garment by garment."""
    figures: Mapping[str, Mapping[int, Measure]]
    """What that comes to."""
    rows: Mapping[str, tuple[Mm | None, ...]]
    """What holds: the measured length of a size where there is one, else the given."""

    def tolerance(self, point: str) -> Mm:
        """Return the tolerance of a point of measure: the table's own, or the usual one."""
        return _tolerance(point, self.tolerances)

    def is_measured(self, point: str, index: int) -> bool:
        """Return whether the shop measured a point of a size."""
        return index in self.figures.get(point, {})

    def measure(self, point: str, index: int) -> Measure | None:
        """Return what holds of a size: measured before given, None if there is neither."""
        if self.is_measured(point, index):
            return self.figures[point][index]
        known = self.rows[point][index]
        return None if known is None else Measure(known, self.tolerance(point))

    def place(self, point: str, index: int, file: Place) -> Place:
        """Return where the length that holds stands in the file."""
        if self.is_measured(point, index):
            return file.at("measured").at(point).at(self.sizes[index])
        return file.at("measurements").at(point).at(index)

    def said(self, length: Mm) -> str:
        """Return a length in the table's own way of measuring, inches or millimetres."""
        return say(length, "in" if unit_worth(self.words["unit"]) == INCH else "mm")


def read_sheet(text: str, place: Place) -> tuple[Sheet, list[BadInput]]:
    """Return what could be read of a table, and all that is wrong with the rest.

    Raises:
        BadInput: the text is no TOML at all.
    """
    document = _document(text, place)
    problems: list[BadInput] = [
        Unknown(place.at(key), "key", key, _KEYS) for key in document if key not in _KEYS
    ]
    words = {key: _word(document, key, place, problems) for key in _WORDS}
    sizes = _sizes(document, place, problems)
    unit = words["unit"]
    known_unit = unit if unit_worth(unit) else None
    if words["age"] and words["age"] not in AGES:
        problems.append(Unknown(place.at("age"), "age", words["age"], AGES))
    if unit and not known_unit:
        problems.append(Unknown(place.at("unit"), "unit", unit, unit_names()))
    given = _rows(document, sizes, known_unit, place, problems)
    tolerances = _tolerances(document, known_unit, place, problems)
    garments = read_measured(document, sizes, known_unit, place, problems)
    known = {p: figures(lengths_of(one), _tolerance(p, tolerances)) for p, one in garments.items()}
    rows = _rows_that_hold(given, known, len(sizes))
    return Sheet(words, sizes, given, tolerances, garments, known, rows), problems


def lengths_of(garments: Mapping[int, Sequence[Piece]]) -> dict[int, tuple[Mm, ...]]:
    """Return the lengths alone of a point's garments, by index of the size."""
    return {index: tuple(one.mm for one in pieces) for index, pieces in garments.items()}


def _tolerance(point: str, tolerances: Mapping[str, Mm]) -> Mm:
    return tolerances.get(point, POINTS[point].tolerance)


def _rows_that_hold(
    given: Mapping[str, tuple[Mm | None, ...]],
    figures: Mapping[str, Mapping[int, Measure]],
    count: int,
) -> dict[str, tuple[Mm | None, ...]]:
    rows = {}
    for point in (point for point in POINTS if point in given or point in figures):
        row = list(given.get(point, (None,) * count))
        for index, measure in figures.get(point, {}).items():
            row[index] = measure.mm
        rows[point] = tuple(row)
    return rows


def _document(text: str, place: Place) -> dict[str, Any]:
    if len(text) > _LONGEST_TEXT:
        raise BadInput(place, f"found {len(text)} characters", f"at most {_LONGEST_TEXT}")
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except RecursionError:
        raise BadInput(place, "found lists within lists without end", _TOML) from None
    except ValueError as error:  # also what int() raises on a number of thousands of digits
        said = str(error)
        line = _LINE.search(said)
        where = place.at(line[1]) if line else place
        raise BadInput(where, said[: line.start()].strip() if line else said, _TOML) from None


_TOML = "a size table is a TOML file"


def _word(document: Mapping[str, Any], key: str, place: Place, problems: list[BadInput]) -> str:
    value = document.get(key)
    if key not in document:
        problems.append(BadInput(place.at(key), "missing", _WORDS[key]))
    elif not isinstance(value, str) or not value.strip():
        problems.append(BadInput(place.at(key), f"found {shown(value)}", _WORDS[key]))
    elif not value.isprintable() or len(value) > 500:
        allowed = "at most 500 printable characters on one line"
        problems.append(BadInput(place.at(key), f"found {shown(value)}", allowed))
    else:
        return value.strip()
    return ""


def _sizes(document: Mapping[str, Any], place: Place, problems: list[BadInput]) -> tuple[str, ...]:
    here, value = place.at("sizes"), document.get("sizes")
    if not isinstance(value, list) or not value:
        found = f"found {shown(value)}" if "sizes" in document else "missing"
        problems.append(BadInput(here, found, 'write a list of names, such as ["S", "M"]'))
        return ()
    first: dict[str, str] = {}
    for index, name in enumerate(value):
        if not isinstance(name, str) or not _usable(name):
            allowed = "a size is a text of 1 to 20 printable characters without a comma"
            problems.append(BadInput(here.at(index), f"found {shown(name)}", allowed))
        elif folded(name) in first:
            found = f"found {name!r}, the same size as {first[folded(name)]!r}"
            problems.append(BadInput(here.at(index), found, "each size stands in a table once"))
        else:
            first[folded(name)] = name
    return tuple(name.strip() if isinstance(name, str) else shown(name) for name in value)


def _usable(name: str) -> bool:
    return bool(name.strip()) and name.isprintable() and len(name) <= 20 and "," not in name


def _rows(
    document: Mapping[str, Any],
    sizes: tuple[str, ...],
    unit: str | None,
    place: Place,
    problems: list[BadInput],
) -> dict[str, tuple[Mm | None, ...]]:
    here = place.at("measurements")
    table = by_point(document, "measurements", place, problems)
    # What a table gives one of is what it is a table of: a garment, or a bag.
    wanted = next((pair for pair in REQUIRED if any(point in table for point in pair)), REQUIRED[0])
    allowed = " or ".join(f"{one} and {two}" for one, two in REQUIRED)
    problems += [
        BadInput(here.at(point), "missing", f"every table gives {allowed}")
        for point in wanted
        if point not in table
    ]
    return {
        point: _row(table[point], point, sizes, unit, here.at(point), problems)
        for point in POINTS
        if point in table
    }


def _row(
    value: object,
    point: str,
    sizes: tuple[str, ...],
    unit: str | None,
    place: Place,
    problems: list[BadInput],
) -> tuple[Mm | None, ...]:
    if not isinstance(value, list):
        allowed = f"write a list of {len(sizes)} lengths, one for each size"
        problems.append(BadInput(place, f"found {shown(value)}", allowed))
        return (None,) * len(sizes)
    if sizes and len(value) != len(sizes):
        found = f"found {len(value)} lengths for {len(sizes)} sizes"
        problems.append(BadInput(place, found, "a row has one length for each size"))
        return (None,) * len(sizes)
    bounds = (POINTS[point].least, POINTS[point].most)
    return tuple(
        length(entry, unit, bounds, f"size {size}: ", place.at(index), problems)
        for index, (entry, size) in enumerate(zip(value, sizes, strict=False))
    )


def _tolerances(
    document: Mapping[str, Any], unit: str | None, place: Place, problems: list[BadInput]
) -> dict[str, Mm]:
    if "tolerances" not in document:
        return {}
    table = by_point(document, "tolerances", place, problems)
    here, bounds = place.at("tolerances"), (0.0, _LARGEST_TOLERANCE)
    read = {
        point: length(table[point], unit, bounds, "", here.at(point), problems)
        for point in POINTS
        if point in table
    }
    return {point: length for point, length in read.items() if length is not None}
