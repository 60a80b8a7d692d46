"""Which unit the figures of a spec sheet are in, and which cell says so. Never a guess."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from jigs.errors import BadInput, Place
from jigs.tables.spec_layout import Kind, Layout
from jigs.tables.spec_values import Value, unit_word, units_said

_ONE = "one unit for the same figures; correct the sheet"


@dataclass(frozen=True, slots=True)
class Said:
    """A unit, and where it is said: a cell's name, or the option."""

    unit: str
    where: str


@dataclass(frozen=True, slots=True)
class Units:
    """What is said of units: for the whole sheet, for rows, and for columns of tolerances."""

    sheet: Said | None
    rows: Mapping[int, Said]
    tolerances: Mapping[int, Said]

    def of_row(self, row: int) -> Said | None:
        """Return the unit of a row's bare figures."""
        return self.rows.get(row, self.sheet)


def find_units(layout: Layout, option: str | None, place: Place) -> tuple[Units, list[BadInput]]:
    """Return the units that the sheet and the option say, and every contradiction."""
    problems: list[BadInput] = []
    told = [] if option is None else [Said(option, "--unit")]
    sheet = _agreed([*told, *_of_sheet(layout)], None, place, problems)
    rows = {
        row: said
        for row in layout.data_rows()
        if (said := _agreed(list(_of_row(layout, row)), sheet, place, problems))
    }
    tolerances = {
        column: said
        for column in layout.columns(Kind.TOLERANCE)
        if (said := _agreed(list(_of_tolerances(layout, column)), None, place, problems))
    }
    return Units(sheet, rows, tolerances), problems


def unit_of_values(
    values: Mapping[str, Value], said: Said | None, place: Place, problems: list[BadInput]
) -> Said | None:
    """Return the unit of a row's values, by cell: what is said of it, or beside every value."""
    beside = [Said(value.unit, cell) for cell, value in values.items() if value.unit]
    agreed = _agreed(beside, said, place, problems)
    return agreed if len(beside) == len(values) else said


def _agreed(
    said: list[Said], before: Said | None, place: Place, problems: list[BadInput]
) -> Said | None:
    """Return the one unit that is said; whatever contradicts the first is a problem."""
    first = before or (said[0] if said else None)
    if first is not None:
        problems += [_contradiction(first, one, place) for one in said if one.unit != first.unit]
    return first if said else before


def _contradiction(first: Said, other: Said, place: Place) -> BadInput:
    if first.where == other.where:
        return BadInput(place.at(first.where), f"says {first.unit} and {other.unit}", _ONE)
    found = f"says {other.unit}, and {first.where} says {first.unit}"
    return BadInput(place.at(other.where), found, _ONE)


def _of_sheet(layout: Layout) -> Iterator[Said]:
    """Yield what is said above and below the figures, and in the row of the sizes."""
    apart = layout.columns(Kind.TOLERANCE) + layout.columns(Kind.LEFT_OUT)
    for row in range(layout.grid.height):
        if row > layout.size_row and layout.has_figures(row):
            continue
        for column in range(layout.grid.width):
            near = row in layout.heading_rows()
            if not (near and column in apart) and not _is_of_column(layout, row, column):
                yield from _said(layout, row, column)


def _is_of_column(layout: Layout, row: int, column: int) -> bool:
    """Return whether a cell is in a column that says the unit of each row, below its heading."""
    return row > layout.size_row and layout.kinds.get(column) is Kind.UNIT


def _of_row(layout: Layout, row: int) -> Iterator[Said]:
    yield from _said(layout, row, layout.name_column)
    for column in layout.columns(Kind.NOTES):
        yield from _said(layout, row, column)
    for column in layout.columns(Kind.UNIT):
        unit = unit_word(layout.grid.at(row, column).text)
        if unit:
            yield Said(unit, layout.grid.name(row, column))


def _of_tolerances(layout: Layout, column: int) -> Iterator[Said]:
    for row in layout.heading_rows():
        yield from _said(layout, row, column)


def _said(layout: Layout, row: int, column: int) -> Iterator[Said]:
    for unit in units_said(layout.grid.at(row, column).text):
        yield Said(unit, layout.grid.name(row, column))
