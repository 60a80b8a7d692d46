"""A size table and a file of measured garments: the table that comes of both, and what is odd."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from jigs.errors import Finding, Place, Unknown
from jigs.tables.additions import with_garments
from jigs.tables.garments_csv import Garment, read_garments
from jigs.tables.sheet import read_sheet
from jigs.tables.table import SizeTable, read
from jigs.units import unit_names, unit_worth


@dataclass(frozen=True, slots=True)
class TableText:
    """A size table as text: its name, and what to call the place it stands in."""

    text: str
    name: str
    place: Place


@dataclass(frozen=True, slots=True)
class Measured:
    """A table before and after, its new text, and which points of which sizes were measured."""

    before: SizeTable
    after: SizeTable
    text: str
    points: Mapping[str, tuple[str, ...]]
    """Points of measure by size, both in the table's order."""
    findings: tuple[Finding, ...]
    """What the table gives to think about, a garment of the file named by its row."""


def measured(
    table: TableText,
    name: str,
    garments: tuple[str, Place],
    unit: str | None,
    without: Sequence[int],
) -> Measured:
    """Return what a table becomes by a file of garments, under the name it will have.

    `garments` is a CSV text and where it stands, `unit` that of bare numbers under headings that
    name none, `without` are rows to leave out.

    Raises:
        BadInput, BadInputs: what is wrong with the table, with the file, or with what comes of it.
    """
    if unit is not None and unit_worth(unit) is None:
        raise Unknown(Place("option", "--unit"), "unit", unit, unit_names())
    before = read(table.text, table.name, table.place)
    sheet, _ = read_sheet(table.text, table.place)
    own, there = sheet.words["unit"], Place(f"{name}.toml")
    rows = read_garments(garments[0], sheet.sizes, unit or own, without, garments[1])
    new_text, places = with_garments(table.text, sheet.sizes, own, rows, there)
    after = read(new_text, name, there)
    points = {
        size.size: tuple(
            point
            for point in after.sizes[index].values
            if any(one.size == index and point in one.readings for one in rows)
        )
        for index, size in enumerate(after.sizes)
    }
    return Measured(
        before,
        after,
        new_text,
        {size: names for size, names in points.items() if names},
        tuple(_named(one, places, garments[1].file) for one in after.warnings),
    )


def _named(finding: Finding, places: Mapping[str, Garment], file: str) -> Finding:
    """Return a finding about a garment of the file as one about its row."""
    garment = places.get(finding.about)
    if garment is None:
        return finding
    name = f", {garment.name}" if garment.name else ""
    return replace(finding, about=f"{file}: row {garment.row}{name}")
