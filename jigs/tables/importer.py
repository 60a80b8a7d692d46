"""A supplier's spec sheet as one of our size tables: what was read, and what was left out.

The table that is written is read again by our own reader, so that nothing is written that the
program would refuse; what the reader says is said of the sheet's cells.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jigs.errors import BadInput, BadInputs, Finding, Place, raise_all
from jigs.tables.points import POINTS, REQUIRED
from jigs.tables.spec_cells import Grid
from jigs.tables.spec_layout import Kind, Layout, find_layout
from jigs.tables.spec_names import Names, is_heading, own_names
from jigs.tables.spec_rows import Left, Row, labelled, read_rows
from jigs.tables.spec_toml import TableFile, Written
from jigs.tables.spec_units import find_units
from jigs.tables.spec_values import Value, units_said, without_unit
from jigs.tables.table import SizeTable, read

_LENGTH_KEY = re.compile(r"measurements\.(\w+)\[(\d+)\]")
_SIZE_KEY = re.compile(r"sizes\[(\d+)\]")
_TOLERANCE_KEY = re.compile(r"tolerances\.(\w+)")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the user says of the table beside the sheet; None: as the sheet has it."""

    cut: str
    age: str
    source: str
    title: str | None = None
    unit: str | None = None
    maps: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Imported:
    """A table, the text of its file, and what the report says of the sheet."""

    text: str
    table: SizeTable
    orientation: str
    unit: str
    unit_from: str
    sizes: tuple[str, ...]
    rows: tuple[Row, ...]
    left_out: tuple[Left, ...]
    findings: tuple[Finding, ...]


def import_sheet(sheet: Grid, wanted: Wanted, name: str, place: Place) -> Imported:
    """Return the size table that a spec sheet gives; `name` is that of the table.

    Raises:
        BadInput: the one thing wrong with it.
        BadInputs: everything wrong with it, each with its cell.
    """
    names = own_names(wanted.maps)
    layout, problems = find_layout(sheet, names, place)
    units, contradictions = find_units(layout, wanted.unit, place)
    problems += contradictions
    rows, left_out = read_rows(layout, names, units, place, problems)
    problems += _unused(names, layout, place)
    unit = _table_unit(rows)
    file = TableFile(
        title=wanted.title or _title(sheet, layout) or name,
        cut=wanted.cut,
        age=wanted.age,
        unit=unit or "mm",
        source=wanted.source,
        sizes=layout.sizes(),
        measurements=_measurements(rows, unit),
        tolerances=_tolerances(rows, unit),
    )
    text = file.text()
    try:
        table = read(text, name, place)
    except BadInput as problem:
        problems += _of_sheet([problem], layout, rows, unit, problems, place)
    except BadInputs as several:
        problems += _of_sheet(several.problems, layout, rows, unit, problems, place)
    raise_all(sorted(problems, key=_where))
    return Imported(
        text=text,
        table=table,
        orientation=_orientation(layout),
        unit=file.unit,
        unit_from=_unit_from(rows),
        sizes=tuple(file.sizes),
        rows=rows,
        left_out=left_out,
        findings=_findings(table, layout, rows, place),
    )


def _table_unit(rows: Sequence[Row]) -> str | None:
    """Return the unit that all rows have; millimetres, which are exact, where they differ."""
    units = {row.unit.unit for row in rows if row.unit}
    return units.pop() if len(units) == 1 else "mm" if units else None


def _unit_from(rows: Sequence[Row]) -> str:
    units: dict[str, list[str]] = {}
    for row in rows:
        assert row.unit is not None  # noqa: S101 - or else it was a problem
        units.setdefault(row.unit.unit, []).append(row.unit.where)
    said = [f"{unit}: {', '.join(dict.fromkeys(where))}" for unit, where in units.items()]
    return said[0].partition(": ")[2] if len(said) == 1 else f"converted; {'; '.join(said)}"


def _measurements(rows: Sequence[Row], unit: str | None) -> dict[str, list[Written]]:
    of = {row.meaning.point: row for row in rows}
    return {
        point: [_length(value, of[point], unit) for value in of[point].values]
        for point in POINTS
        if point in of
    }


def _length(value: Value | None, row: Row, unit: str | None) -> Written:
    """Return a value as the file says it: in the table's unit, doubled or halved as need be."""
    if value is None:
        return ""  # which our reader refuses, where the cell has been reported already
    in_unit = Value(value.number, value.fraction, row.unit.unit if row.unit else None)
    return _written((in_unit.to(unit) if unit else in_unit).times(row.meaning.times))


def _tolerances(rows: Sequence[Row], unit: str | None) -> dict[str, Written]:
    of = {row.meaning.point: row for row in rows if row.tolerance is not None}
    return {point: _tolerance(of[point], unit) for point in POINTS if point in of}


def _tolerance(row: Row, unit: str | None) -> Written:
    """Return a row's tolerance; one in another unit than the table's keeps its own."""
    assert row.tolerance is not None  # noqa: S101 - only rows with one are asked
    value = row.tolerance.times(row.meaning.times)
    if value.unit is not None and value.unit != unit:
        return f"{value.text()} {value.unit}"
    if value.unit is None and row.unit and unit:
        value = Value(value.number, value.fraction, row.unit.unit).to(unit)
    return _written(value)


def _written(value: Value) -> Written:
    text = value.text()
    return text if "/" in text else float(text)


def _title(sheet: Grid, layout: Layout) -> str | None:
    """Return the title above the table: the first text that stands in a row alone."""
    top = layout.name_column if layout.grid.turned else layout.size_row
    for row in sheet.rows[:top]:
        texts = [cell.text for cell in row if not cell.blank]
        if len(texts) == 1 and _is_title(texts[0]):
            return texts[0]
    return None


def _is_title(text: str) -> bool:
    bare = without_unit(text)
    words = len(re.findall(r"[^\W\d_]", bare)) >= 3 and not is_heading(bare, "names")
    return words and not units_said(bare) and text.isprintable() and len(text) <= 200


def _orientation(layout: Layout) -> str:
    names = layout.grid.column_name(layout.name_column)
    sizes = layout.grid.row_name(layout.size_row)
    if layout.grid.turned:
        return f"points of measure across {names}, sizes down {sizes}"
    return f"points of measure down {names}, sizes across {sizes}"


def _unused(names: Names, layout: Layout, place: Place) -> list[BadInput]:
    grid, used = layout.grid, set()
    for r, row in enumerate(grid.rows):
        for c, cell in enumerate(row):
            used.add(names.own_key(cell.text, grid.name(r, c)))
    lines = range(layout.size_row + 1, grid.height)
    known = [grid.at(row, layout.name_column).text for row in lines if layout.has_figures(row)]
    allowed = f"names in {place.file}: {', '.join(filter(None, known))}"
    return [
        BadInput(Place("option", "--map"), f"found {key!r}, which the sheet does not have", allowed)
        for key in names.own
        if key not in used
    ]


def _of_sheet(
    said: Iterable[BadInput],
    layout: Layout,
    rows: Sequence[Row],
    unit: str | None,
    before: Sequence[BadInput],
    place: Place,
) -> list[BadInput]:
    """Return what our reader says as said of the sheet; what was reported before is left out."""
    cells = {problem.place.key.partition(" ")[0] for problem in before}
    can = " ".join(problem.found for problem in before)
    found = []
    for problem in said:
        key = problem.place.key
        at = _place(key, layout, rows, place)
        point = key.removeprefix("measurements.")
        if point in POINTS and problem.found == "missing":
            if not re.search(rf"\b{point}\b", can):
                found.append(_missing(point, layout, rows, place))
        elif at.key.partition(" ")[0] not in cells and (unit or not _is_length(key)):
            found.append(BadInput(at, problem.found, problem.allowed))
    return found


def _is_length(key: str) -> bool:
    return bool(_LENGTH_KEY.fullmatch(key) or _TOLERANCE_KEY.fullmatch(key))


def _missing(point: str, layout: Layout, rows: Sequence[Row], place: Place) -> BadInput:
    read = {row.row for row in rows}
    others = [
        layout.grid.at(row, layout.name_column).text
        for row in layout.data_rows()
        if row not in read
    ]
    unknown = ", ".join(repr(name) for name in others if name)
    needs = " or ".join(f"{one} and {two}" for one, two in REQUIRED)
    allowed = f'every table gives {needs}; say which name it has with --map "NAME={point}"'
    hint = f"; other names in the sheet: {unknown}" if unknown else ""
    return BadInput(place, f"found no figures for {point}", f"{allowed}{hint}")


def _place(key: str, layout: Layout, rows: Sequence[Row], place: Place) -> Place:
    """Return the cell of what our reader found in the table's file, or the option."""
    of = {row.meaning.point: row for row in rows}
    columns = layout.columns(Kind.SIZE)
    if found := _LENGTH_KEY.fullmatch(key):
        row, index = of[found[1]], int(found[2]) - 1
        about = f"size {layout.sizes()[index]}"
        return labelled(layout, row.row, columns[index], about, place)
    if found := _SIZE_KEY.fullmatch(key):
        return place.at(layout.grid.name(layout.size_row, columns[int(found[1]) - 1]))
    if found := _TOLERANCE_KEY.fullmatch(key):
        row = of[found[1]]
        return place.at(f"{row.tolerance_cell or row.cell} ({row.name}, tolerance)")
    if key in {"title", "cut", "age", "source"}:
        return Place("option", f"--{key}")
    return place.at(key)


def _findings(
    table: SizeTable, layout: Layout, rows: Sequence[Row], place: Place
) -> tuple[Finding, ...]:
    return tuple(
        Finding(
            one.blocks,
            str(_place(one.about.removeprefix(f"{place}: "), layout, rows, place)),
            one.says,
        )
        for one in table.warnings
    )


def _where(problem: BadInput) -> tuple[bool, int, str]:
    """Return what sorts problems as the sheet is read: by row, then by column."""
    found = re.match(r"([A-Z]+)(\d+)\b", problem.place.key)
    if problem.place.file == "option" or not found:
        return (False, 0, "")
    return (True, int(found[2]), found[1].rjust(4))
