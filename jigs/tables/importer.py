"""A supplier's spec sheet as one of our size tables: what was read, and what was left out.

The table that is written is read again by our own reader, so that nothing is written that the
program would refuse; what the reader says is said of the sheet's cells.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from jigs.errors import BadInput, BadInputs, Finding, Place, raise_all
from jigs.tables.points import POINTS, REQUIRED
from jigs.tables.spec_cells import Grid
from jigs.tables.spec_layout import Kind, Layout, find_layout
from jigs.tables.spec_names import LEFT_OUT, Names, is_heading, own_names
from jigs.tables.spec_rows import Left, Reading, Row, labelled, read_rows
from jigs.tables.spec_toml import TableFile, Written
from jigs.tables.spec_units import find_units
from jigs.tables.spec_values import Value, without_unit
from jigs.tables.table import SizeTable, read

_MOST_CELLS = 4
_LENGTH_KEY = re.compile(r"measurements\.(\w+)\[(\d+)\]")
_SIZE_KEY = re.compile(r"sizes\[(\d+)\]")
_TOLERANCE_KEY = re.compile(r"tolerances\.(\w+)")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the user says of the table beside the sheet; None: as the sheet has it."""

    cut: str
    age: str
    source: str
    called: str
    """The title where neither the user nor the sheet gives one."""
    title: str | None = None
    unit: str | None = None
    maps: tuple[str, ...] = ()
    """What names mean, each as `NAME=POINT`."""
    points: frozenset[str] = frozenset(POINTS)
    """The points of measure that the cut uses."""

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """The pairs of points of which a table of the cut gives one."""
        return tuple(pair for pair in REQUIRED if self.points.issuperset(pair))


@dataclass(frozen=True, slots=True)
class Imported:
    """A table, the text of its file, and what the report says of the sheet."""

    text: str
    table: SizeTable
    orientation: str
    """Such as `points of measure down column A, sizes across row 1`."""
    unit: str
    unit_from: str
    """The cells that say the unit, or the option."""
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
    raise_all(_of_other_cuts(names, wanted))
    layout, problems = find_layout(sheet, names, place)
    units, contradictions = find_units(layout, wanted.unit, place)
    problems += contradictions
    reading = read_rows(layout, names, units, wanted.points, place, problems)
    problems += [*_unused(names, layout, place), *_doubtful_sleeve(reading, names, place)]
    unit = _table_unit(reading)
    clear = bool(reading.units) and not contradictions
    file = TableFile(
        title=(_title(sheet, layout) or wanted.called) if wanted.title is None else wanted.title,
        cut=wanted.cut,
        age=wanted.age,
        unit=unit,
        source=wanted.source,
        sizes=layout.sizes(),
        measurements=_measurements(reading, unit),
        tolerances=_tolerances(reading, unit),
    )
    text = file.text()
    try:
        table = read(text, name, place)
    except BadInput as problem:
        problems += _of_sheet([problem], reading, wanted, problems, place, clear=clear)
    except BadInputs as several:
        problems += _of_sheet(several.problems, reading, wanted, problems, place, clear=clear)
    raise_all(sorted(problems, key=_where))
    return Imported(
        text=text,
        table=table,
        orientation=_orientation(layout),
        unit=unit,
        unit_from=_unit_from(reading),
        sizes=layout.sizes(),
        rows=tuple(reading.rows.values()),
        left_out=reading.left,
        findings=(
            *_foreign(reading, wanted.cut, place),
            *(
                Finding(
                    one.blocks,
                    str(_place(one.about.removeprefix(f"{place}: "), reading, place)),
                    one.says,
                )
                for one in table.warnings
            ),
        ),
    )


def _of_other_cuts(names: Names, wanted: Wanted) -> Iterator[BadInput]:
    """Yield the meanings given by the user that the cut has not."""
    for key, meaning in names.own.items():
        if meaning != LEFT_OUT and meaning.point not in wanted.points:
            found = f"found {key!r} as {meaning.point}, which is no point of a {wanted.cut}"
            allowed = ", ".join(point for point in POINTS if point in wanted.points)
            yield BadInput(Place("option", "--map"), found, f"points: {allowed}")


def _foreign(reading: Reading, cut: str, place: Place) -> Iterator[Finding]:
    """Yield what the sheet measures that the cut has not: it may be a sheet of another garment."""
    if reading.foreign:
        points, several = ", ".join(reading.foreign), len(reading.foreign) > 1
        said = "are no points" if several else "is no point"
        says = f"{points} {said} of a {cut}, and left out; is the cut right?"
        yield Finding(blocks=False, about=str(place), says=says)


def _table_unit(reading: Reading) -> str:
    """Return the unit that all rows have; millimetres, which are exact, where they differ."""
    return next(iter(reading.units)) if len(reading.units) == 1 else "mm"


def _unit_from(reading: Reading) -> str:
    units: dict[str, list[str]] = {}
    for row in reading.rows.values():
        assert row.unit is not None  # noqa: S101 - or else it was a problem
        units.setdefault(row.unit.unit, []).append(row.unit.where)
    said = {unit: _listed(where) for unit, where in units.items()}
    if len(said) == 1:
        return next(iter(said.values()))
    return "converted; " + "; ".join(f"{unit}: {where}" for unit, where in said.items())


def _listed(where: Iterable[str]) -> str:
    cells = list(dict.fromkeys(one.partition(" ")[0] for one in where))
    more = f" and {len(cells) - _MOST_CELLS} more" if len(cells) > _MOST_CELLS else ""
    return ", ".join(cells[:_MOST_CELLS]) + more


def _measurements(reading: Reading, unit: str) -> dict[str, list[Written]]:
    rows = reading.rows
    return {
        point: [_length(value, rows[point], unit) for value in rows[point].values]
        for point in POINTS
        if point in rows
    }


def _length(value: Value | None, row: Row, unit: str) -> Written:
    """Return a value as the file says it: in the table's unit, doubled or halved as need be."""
    if value is None:
        return ""  # which our reader refuses, where the cell has been reported already
    in_unit = Value(value.number, value.fraction, row.unit.unit if row.unit else None)
    return _written(in_unit.to(unit).times(row.meaning.times))


def _tolerances(reading: Reading, unit: str) -> dict[str, Written]:
    rows = reading.rows
    return {
        point: _tolerance(rows[point], value, unit)
        for point in POINTS
        if point in rows and (value := rows[point].tolerance) is not None
    }


def _tolerance(row: Row, value: Value, unit: str) -> Written:
    """Return a row's tolerance; one in another unit than the row's keeps its own."""
    of_row = row.unit.unit if row.unit else None
    said = value.times(row.meaning.times)
    if said.unit not in {None, of_row, unit}:
        return f"{said.text()} {said.unit}"
    return _written(Value(said.number, said.fraction, said.unit or of_row).to(unit))


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
    bare = without_unit(text, sentences=True)
    words = len(re.findall(r"[^\W\d_]", bare)) >= 3 and not is_heading(bare, "names")
    return words and text.isprintable() and len(text) <= 200


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
    known = [layout.name(row) for row in layout.data_rows()]
    allowed = f"names in {place.file}: {', '.join(filter(None, known))}"
    return [
        BadInput(Place("option", "--map"), f"found {key!r}, which the sheet does not have", allowed)
        for key in names.own
        if key not in used
    ]


def _doubtful_sleeve(reading: Reading, names: Names, place: Place) -> Iterator[BadInput]:
    """Yield that a sleeve longer than the body is probably one from centre back.

    Catalogues call that sleeve length too (common practice, no source).
    """
    sleeve, body = reading.rows.get("sleeve_length"), reading.rows.get("body_length")
    if sleeve is None or body is None or names.own_key(sleeve.name, sleeve.cell) is not None:
        return
    lengths = zip(_in_mm(sleeve), _in_mm(body), strict=True)
    if any(one is not None and other is not None and one > other for one, other in lengths):
        found = f"found {sleeve.name!r} longer than the body, as if from centre back"
        ways = [
            f'--map "{sleeve.cell}={point}"' for point in ("centre_back_sleeve", "sleeve_length")
        ]
        yield BadInput(place.at(sleeve.cell), found, f"say which with {' or '.join(ways)}")


def _in_mm(row: Row) -> list[float | None]:
    unit = row.unit.unit if row.unit else "mm"
    return [
        None if one is None else Value(one.number, unit=unit).to("mm").number for one in row.values
    ]


def _of_sheet(
    said: Iterable[BadInput],
    reading: Reading,
    wanted: Wanted,
    before: Sequence[BadInput],
    place: Place,
    *,
    clear: bool,
) -> list[BadInput]:
    """Return what our reader says as said of the sheet; what was reported before is left out.

    Where the units are not clear, no length is judged.
    """
    cells = {_cell(problem.place) for problem in before}
    known = reading.unclear | set(reading.rows)
    pairs = wanted.pairs
    needed = next((pair for pair in pairs if known.intersection(pair)), pairs[0])
    found = [_missing(one, pairs, reading, place) for one in needed if one not in known]
    for problem in said:
        key = problem.place.key
        point = key.removeprefix("measurements.")
        at = _place(key, reading, place)
        if point in POINTS and point not in reading.rows:
            continue  # that of another pair, or said already
        if _cell(at) not in cells and (clear or not _is_length(key)):
            # The place says the size already.
            said_of = re.sub(r"^size [^:]*: ", "", problem.found)
            is_size = _SIZE_KEY.fullmatch(key)
            hint = f'; leave one out with --map "{_cell(at)}=-"' if is_size else ""
            found.append(BadInput(at, said_of, f"{problem.allowed}{hint}"))
    return found


def _cell(place: Place) -> str:
    return place.key.partition(" ")[0] or place.file


def _is_length(key: str) -> bool:
    return bool(_LENGTH_KEY.fullmatch(key) or _TOLERANCE_KEY.fullmatch(key))


def _missing(
    point: str, pairs: Sequence[tuple[str, str]], reading: Reading, place: Place
) -> BadInput:
    layout, read = reading.layout, {row.row for row in reading.rows.values()}
    others = [layout.name(row) for row in layout.data_rows() if row not in read]
    unknown = ", ".join(repr(name) for name in others if name)
    needs = " or ".join(f"{one} and {two}" for one, two in pairs)
    allowed = f'every table gives {needs}; say which name it has with --map "NAME={point}"'
    hint = f"; other names in the sheet: {unknown}" if unknown else ""
    return BadInput(place, f"found no figures for {point}", f"{allowed}{hint}")


def _place(key: str, reading: Reading, place: Place) -> Place:
    """Return the cell of what our reader found in the table's file, or the option."""
    layout = reading.layout
    columns = layout.columns(Kind.SIZE)
    if found := _LENGTH_KEY.fullmatch(key):
        row, index = reading.rows[found[1]], int(found[2]) - 1
        about = f"size {layout.sizes()[index]}"
        return labelled(layout, row.row, columns[index], about, place)
    if found := _SIZE_KEY.fullmatch(key):
        return place.at(f"{layout.grid.name(layout.size_row, columns[int(found[1]) - 1])} (size)")
    if found := _TOLERANCE_KEY.fullmatch(key):
        row = reading.rows[found[1]]
        return place.at(f"{row.tolerance_cell or row.cell} ({row.name[:40]}, tolerance)")
    if key in {"title", "cut", "age", "source"}:
        return Place("option", f"--{key}")
    return place.at(key)


def _where(problem: BadInput) -> tuple[bool, int, str]:
    """Return what sorts problems as the sheet is read: by row, then by column."""
    found = re.match(r"([A-Z]+)(\d+)\b", problem.place.key)
    if problem.place.file == "option" or not found:
        return (False, 0, "")
    return (True, int(found[2]), found[1].rjust(4))
