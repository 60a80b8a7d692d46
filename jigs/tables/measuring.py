"""A size table and a file of measured garments: the table that comes of both, and what is odd."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from jigs.errors import BadInput, Finding, Place, Unknown, raise_all
from jigs.tables.additions import Added, with_garments
from jigs.tables.garments_csv import Garment, read_garments
from jigs.tables.outliers import Oddity, oddities
from jigs.tables.points import POINTS
from jigs.tables.sheet import read_sheet
from jigs.tables.table import SizeTable, read
from jigs.units import unit_names, unit_worth

#: So many names stand in a line.
_MOST_NAMES = 6


@dataclass(frozen=True, slots=True)
class TableText:
    """A size table as text: its name, and what to call the place it stands in."""

    text: str
    name: str
    place: Place


@dataclass(frozen=True, slots=True)
class Garments:
    """A CSV text of garments, where it stands, and what the user says of its rows."""

    text: str
    place: Place
    unit: str | None = None
    """That of bare numbers under headings that name none; None: the table's."""
    without: Sequence[int] = ()
    """Rows to leave out."""
    keep: Sequence[int] = ()
    """Rows that are right, odd as they look."""
    points: Callable[[str], AbstractSet[str]] = lambda _: frozenset(POINTS)
    """Returns the points of measure that a cut uses."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A table before and after, its new text, and which points of which sizes were measured."""

    before: SizeTable
    after: SizeTable
    text: str
    points: Mapping[str, tuple[str, ...]]
    """Points of measure by size, both in the table's order, that have something new."""
    findings: tuple[Finding, ...]
    """What the table gives to think about, a garment of the file named by its row."""
    odd: tuple[BadInput, ...]
    """A line for each garment that looks odd and is not to be kept: a reason not to write."""


def measured(table: TableText, name: str, garments: Garments) -> Measured:
    """Return what a table becomes by a file of garments, under the name it will have.

    Raises:
        BadInput, BadInputs: what is wrong with the table, with the file, or with what comes of it.
    """
    if garments.unit is not None and unit_worth(garments.unit) is None:
        raise Unknown(Place("option", "--unit"), "unit", garments.unit, unit_names())
    before = read(table.text, table.name, table.place)
    sheet, _ = read_sheet(table.text, table.place)
    own, there = sheet.words["unit"], Place(f"{name}.toml")
    unit = garments.unit or own
    rows = read_garments(garments.text, sheet.sizes, unit, garments.without, garments.place)
    raise_all([*_unknown_rows(garments, rows), *_of_other_cuts(garments, rows, before.cut)])
    added = with_garments(table.text, sheet.sizes, own, rows, there)
    after = read(added.text, name, there)
    changed, _ = read_sheet(added.text, there)
    odd = _by_garment(oddities(changed), added.places)
    points = {
        size.size: tuple(point for point in size.values if (index, point) in added.new)
        for index, size in enumerate(after.sizes)
    }
    return Measured(
        before,
        after,
        added.text,
        {size: names for size, names in points.items() if names},
        (
            *_not_added(added, sheet.sizes, garments.place.file),
            *_findings(after, odd, added.places, garments.place),
        ),
        tuple(
            BadInput(
                _row(one, garments.place),
                says,
                f"nothing written: --without {one.row} leaves it out, --keep {one.row} takes it in",
            )
            for one, says in _said(odd)
            if one.row not in garments.keep
        ),
    )


def _unknown_rows(garments: Garments, rows: Sequence[Garment]) -> Iterator[BadInput]:
    """Yield the rows to keep that are not there."""
    known = {one.row for one in rows}
    allowed = "the number of a garment's row that is not left out; the headings are row 1"
    for row in garments.keep:
        if row not in known:
            yield BadInput(Place("option", "--keep"), f"found {row}", allowed)


def _of_other_cuts(garments: Garments, rows: Sequence[Garment], cut: str) -> Iterator[BadInput]:
    """Yield each point that was measured and that the table's cut does not use."""
    measured = {point for row in rows for point in row.readings}
    used = garments.points(cut)
    for point in POINTS:
        if point in measured and point not in used:
            found = f"{point} is no point of a {cut}"
            allowed = f"points: {', '.join(one for one in POINTS if one in used)}"
            yield BadInput(garments.place.at("headings").at(point), found, allowed)


def _not_added(added: Added, sizes: Sequence[str], file: str) -> Iterator[Finding]:
    """Yield which garments the table knows already, and which lengths of theirs are replaced."""
    if added.known:
        rows = {one.row: one.name for one, _ in added.known}
        names = list(dict.fromkeys(rows[row] for row in sorted(rows)))
        more = f" and {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else ""
        says = (
            f"{len(added.known)} length{'s are' if len(added.known) > 1 else ' is'} in the table "
            f"already and not added again, of {', '.join(names[:_MOST_NAMES])}{more}"
        )
        yield Finding(blocks=False, about=file, says=says)
    for one, point, was in added.replaced:
        says = (
            f"{point} of size {sizes[one.size]} was {was} in the table and is replaced by "
            f"{one.readings[point].text}"
        )
        yield Finding(blocks=False, about=str(_row(one, Place(file))), says=says)


def _by_garment(
    odd: Iterator[Oddity], places: Mapping[str, Garment]
) -> list[tuple[Garment, list[Oddity]]]:
    """Return what is odd of the file's garments, in the order of its rows."""
    found: dict[int, tuple[Garment, list[Oddity]]] = {}
    for one in odd:
        garment = places.get(str(one.place))
        if garment is not None:
            found.setdefault(garment.row, (garment, []))[1].append(one)
    return [found[row] for row in sorted(found)]


def _said(odd: Sequence[tuple[Garment, list[Oddity]]]) -> Iterator[tuple[Garment, str]]:
    """Yield one line for each garment."""
    for garment, (first, *others) in odd:
        points = list(
            dict.fromkeys(f"{one.point} {garment.readings[one.point].text}" for one in others)
        )
        yield garment, first.says + (f"; also odd: {', '.join(points)}" if points else "")


def _findings(
    after: SizeTable,
    odd: Sequence[tuple[Garment, list[Oddity]]],
    places: Mapping[str, Garment],
    file: Place,
) -> Iterator[Finding]:
    """Yield what the table gives to think about, what is odd of a garment of the file in one."""
    told = {garment.row: tuple(one.says for one in several) for garment, several in odd}
    for garment, says in _said(odd):
        yield Finding(blocks=False, about=str(_row(garment, file)), says=says)
    for finding in after.warnings:
        one = places.get(finding.about)
        if one is None:
            yield finding
        elif not finding.says.startswith(told.get(one.row, ())):
            yield replace(finding, about=str(_row(one, file)))


def _row(garment: Garment, file: Place) -> Place:
    name = f", {garment.name}" if garment.name else ""
    return file.at(f"row {garment.row}{name}")
