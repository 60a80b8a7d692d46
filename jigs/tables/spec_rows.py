"""The rows of a spec sheet that are points of ours, with their lengths; and those left out."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from jigs.errors import BadInput, Place
from jigs.tables.spec_layout import Kind, Layout
from jigs.tables.spec_names import LEFT_OUT, Meaning, Names, Unclear
from jigs.tables.spec_sizes import is_sure
from jigs.tables.spec_units import Said, Units, unit_of_values
from jigs.tables.spec_values import Value, greater, read_tolerance, read_value

_NONE = "none of our points of measure"


@dataclass(frozen=True, slots=True)
class Row:
    """A row that is a point of measure of ours, as the sheet says it."""

    row: int
    name: str
    cell: str
    """The cell of the name."""
    meaning: Meaning
    values: tuple[Value | None, ...]
    """One for each size; None where the cell could not be read."""
    unit: Said | None
    tolerance: Value | None
    tolerance_cell: str


@dataclass(frozen=True, slots=True)
class Left:
    """What of a sheet is not in the table, and why."""

    where: str
    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read of a sheet: its layout, the rows that are points of ours, and the rest."""

    layout: Layout
    rows: Mapping[str, Row]
    """By point of measure."""
    left: tuple[Left, ...]
    unclear: frozenset[str]
    """Points of measure that a name may mean, which the user must say."""
    foreign: tuple[str, ...] = ()
    """Points of measure of the sheet that the cut does not use."""

    @property
    def units(self) -> frozenset[str]:
        """The units of the rows' figures, as far as they are known."""
        return frozenset(row.unit.unit for row in self.rows.values() if row.unit)


def read_rows(
    layout: Layout,
    names: Names,
    units: Units,
    points: frozenset[str],
    place: Place,
    problems: list[BadInput],
) -> Reading:
    """Return the rows that are points of ours, and what is left out; adds what is wrong.

    `points` are those that the cut uses.
    """
    problems += _sizes(layout, place)
    rows: dict[str, Row] = {}
    left: list[Left] = []
    unclear: set[str] = set()
    foreign: list[str] = []
    for row in layout.data_rows():
        name, cell = _name(layout, row)
        if layout.is_second_heading(row):
            left.append(Left(layout.grid.row_name(row), "", "more names of the sizes"))
            continue
        problem = _unusable(layout, row, place)
        if problem is not None:
            problems.append(problem)
            continue
        meaning = names.find(name, cell)
        if meaning is None or meaning == LEFT_OUT:
            left.append(Left(cell, name, "left out with --map" if meaning else _NONE))
            continue
        meaning = _of_cut(meaning, points)
        if meaning is None:
            left.append(Left(cell, name, "no point of this cut"))
            foreign += [one.point for one in [names.find(name, cell)] if isinstance(one, Meaning)]
        elif isinstance(meaning, Unclear):
            unclear |= {one.point for one in meaning.candidates}
            problems.append(_unclear(meaning, name, cell, place))
        else:
            read = _read_row(layout, row, meaning, units, place, problems)
            first = rows.setdefault(meaning.point, read)
            if first is not read:
                problems.append(_twice(first, read, place))
    problems += _without_unit(tuple(rows.values()), units, place)
    left += _without_figures(layout, names)
    left += _columns(layout)
    return Reading(layout, rows, tuple(left), frozenset(unclear), tuple(foreign))


def _of_cut(meaning: Meaning | Unclear, points: frozenset[str]) -> Meaning | Unclear | None:
    """Return what of a meaning the cut uses; None if it uses none of it."""
    if isinstance(meaning, Meaning):
        return meaning if meaning.point in points else None
    candidates = tuple(one for one in meaning.candidates if one.point in points)
    return Unclear(candidates) if candidates else None


def labelled(layout: Layout, row: int, column: int, about: str, place: Place) -> Place:
    """Return the place of a cell, with the name of its row and what it is about."""
    name = layout.name(row)
    said = ", ".join(filter(None, (name[:40], about)))
    return place.at(f"{layout.grid.name(row, column)} ({said})")


def _sizes(layout: Layout, place: Place) -> Iterator[BadInput]:
    for column in layout.columns(Kind.SIZE):
        at = place.at(f"{layout.grid.name(layout.size_row, column)} (size)")
        problem = layout.grid.at(layout.size_row, column).unusable(at)
        if problem is not None:
            yield problem


def _name(layout: Layout, row: int) -> tuple[str, str]:
    return layout.name(row), layout.grid.name(row, layout.name_column)


def _unusable(layout: Layout, row: int, place: Place) -> BadInput | None:
    """Return why a row of figures is no row of a table, whatever its name means."""
    cells = [cell for cell in layout.figures(row) if not cell.blank]
    name, at = layout.grid.at(row, layout.name_column), place.at(_name(layout, row)[1])
    if all(is_sure(cell.text) for cell in cells):
        found = f"{layout.grid.row_name(row)} names other sizes: {cells[0].text!r}"
        return BadInput(at, found, "one table in a sheet; move the other to a sheet of its own")
    if name.blank:
        return BadInput(at, "found figures without a name", "name what is measured")
    return name.unusable(at)


def _unclear(unclear: Unclear, name: str, cell: str, place: Place) -> BadInput:
    can = " or ".join(
        f"{one} (half of all round)" if one.times == 0.5 else str(one) for one in unclear.candidates
    )
    more = "" if len(unclear.candidates) > 1 else " or something else"
    allowed = (
        f'say which with --map "{cell}={unclear.candidates[0]}", '
        f'or leave it out with --map "{cell}=-"'
    )
    return BadInput(place.at(cell), f"found {name!r}, which can mean {can}{more}", allowed)


def _twice(first: Row, again: Row, place: Place) -> BadInput:
    found = f"{again.name!r} means {again.meaning.point}, as {first.name!r} in {first.cell} does"
    return BadInput(place.at(again.cell), found, f'leave one out with --map "{again.cell}=-"')


def _read_row(
    layout: Layout,
    row: int,
    meaning: Meaning,
    units: Units,
    place: Place,
    problems: list[BadInput],
) -> Row:
    name, cell = _name(layout, row)
    columns, sizes = layout.columns(Kind.SIZE), layout.sizes()
    values = [
        _value(layout, row, column, size, place, problems)
        for column, size in zip(columns, sizes, strict=True)
    ]
    by_cell = {
        labelled(layout, row, column, f"size {size}", Place("")).key: value
        for column, size, value in zip(columns, sizes, values, strict=True)
        if value is not None
    }
    unit = unit_of_values(by_cell, units.of_row(row), place, problems)
    tolerances = list(_tolerances(layout, row, units, place, problems))
    return Row(
        row=row,
        name=name,
        cell=cell,
        meaning=meaning,
        values=tuple(values),
        unit=unit,
        tolerance=greater([value for value, _ in tolerances]) if tolerances else None,
        tolerance_cell=tolerances[0][1] if tolerances else "",
    )


def _value(
    layout: Layout, row: int, column: int, size: str, place: Place, problems: list[BadInput]
) -> Value | None:
    cell = layout.grid.at(row, column)
    at = labelled(layout, row, column, f"size {size}", place)
    read = read_value(cell.text)
    problem = cell.unusable(at)
    if cell.blank:
        problem = BadInput(at, "found nothing", "a row has one length for each size")
    elif problem is None and isinstance(read, str):
        problem = BadInput(at, f"found {_short(cell.text)}", read)
    if problem is not None:
        problems.append(problem)
    return None if problem or isinstance(read, str) else read


def _tolerances(
    layout: Layout, row: int, units: Units, place: Place, problems: list[BadInput]
) -> Iterator[tuple[Value, str]]:
    for column in layout.columns(Kind.TOLERANCE):
        cell = layout.grid.at(row, column)
        read = read_tolerance(cell.text)
        at = labelled(layout, row, column, "tolerance", place)
        heading = layout.grid.name(layout.size_row, column)
        if cell.blank:
            continue
        problem = cell.unusable(at)
        if problem is None and isinstance(read, str):
            allowed = f'{read}, or leave the column out with --map "{heading}=-"'
            problem = BadInput(at, f"found {_short(cell.text)}", allowed)
        if problem is not None or isinstance(read, str):
            problems += [problem] if problem else []
            continue
        said = units.tolerances.get(column)
        unit = read.unit or (said.unit if said else None)
        yield Value(read.number, read.fraction, unit), layout.grid.name(row, column)


def _without_unit(rows: tuple[Row, ...], units: Units, place: Place) -> Iterator[BadInput]:
    bare = [row for row in rows if row.unit is None and any(row.values)]
    if bare or (not rows and units.sheet is None):
        of = "the sheet" if len(bare) == len(rows) else f"{bare[0].name!r} in {bare[0].cell}"
        found = f"no unit is said of the figures of {of}"
        yield BadInput(place, found, "say it with --unit in, --unit cm or --unit mm")


def _without_figures(layout: Layout, names: Names) -> Iterator[Left]:
    for row in range(layout.size_row + 1, layout.grid.height):
        name, cell = _name(layout, row)
        if name and not layout.has_figures(row) and names.find(name, cell) is not None:
            yield Left(cell, name, "no figures")


def _columns(layout: Layout) -> Iterator[Left]:
    for column, kind in layout.kinds.items():
        if kind in {Kind.GRADING, Kind.CODE, Kind.NOTES, Kind.LEFT_OUT}:
            where = layout.grid.column_name(column)
            beside = layout.grid.at(layout.size_row, column)
            # What stands further up may be the title.
            heading = beside if kind in {Kind.CODE, Kind.NOTES} else layout.heading(column)
            yield Left(where, heading.text, kind.value)


def _short(text: str) -> str:
    return repr(text if len(text) <= 60 else f"{text[:57]}...")
