"""A size table as text for a terminal, and as data."""

from collections.abc import Sequence
from typing import Any

from jigs.documents.report import columns, findings_data
from jigs.tables.estimate import completed
from jigs.tables.measure import Measure, Measures, Origin
from jigs.tables.measuring import Measured
from jigs.tables.table import SizeTable
from jigs.units import say

_MARKS = {Origin.GIVEN: "", Origin.ESTIMATED: " est.", Origin.MEASURED: " meas."}
_WORDS = {"in": "inches", "mm": "millimetres"}
_LEGEND = {
    Origin.ESTIMATED: "est.: estimated from other lengths",
    Origin.MEASURED: "meas.: measured by the shop, n the garments",
}


def table_text(table: SizeTable, sizes: Sequence[Measures], unit: str) -> str:
    """Return a table's lengths as text: origin and plus-minus of each.

    A plus-minus, or an origin, that is the same for the whole row stands once, at its end; else
    each length has its own mark, and the plus-minus stands in a second line under it.
    """
    points = list(dict.fromkeys(name for one in sizes for name in one.values))
    rows: list[tuple[str, ...]] = [("", *(one.size for one in sizes), "±")]
    for point in points:
        rows += _point_rows(point, [one.values.get(point) for one in sizes], unit)
    origins = {m.origin for one in sizes for m in one.values.values()}
    said = [words for origin, words in _LEGEND.items() if origin in origins]
    lines = [
        f"{table.title} ({table.name}); {table.source}",
        f"lengths in {'; '.join([_WORDS[unit], *said])}; nine of ten garments lie within the ±",
        *columns(rows),
    ]
    return "\n".join(lines) + "\n"


def table_data(table: SizeTable, sizes: Sequence[Measures]) -> dict[str, Any]:
    """Return a table's lengths as data, in millimetres."""
    return {
        "name": table.name,
        "title": table.title,
        "source": table.source,
        "sizes": {
            one.size: {name: _measure_data(measure) for name, measure in one.values.items()}
            for one in sizes
        },
    }


def measured_text(done: Measured, unit: str) -> str:
    """Return what measuring has changed as text: before and after, size by size."""
    rows: list[tuple[str, ...]] = [("size", "point of measure", "before", "now", "garments")]
    for size, point, before, after in _changes(done):
        was = f"{_said(before, unit)}{_MARKS[before.origin]}" if before else "nothing"
        rows.append((size, point, was, _said(after, unit), str(after.pieces)))
    return "\n".join(columns(rows, indent="  ")) + "\n"


def measured_data(done: Measured) -> dict[str, Any]:
    """Return what measuring has changed as data, in millimetres."""
    return {
        "changes": [
            {
                "size": size,
                "point": point,
                "before": _measure_data(before) if before else None,
                "now": _measure_data(after),
            }
            for size, point, before, after in _changes(done)
        ],
        "findings": findings_data(done.findings),
    }


def _changes(done: Measured) -> list[tuple[str, str, Measure | None, Measure]]:
    pairs = zip(done.before.sizes, done.after.sizes, strict=True)
    return [
        (new.size, point, completed(old, done.before.cut).values.get(point), new[point])
        for old, new in pairs
        for point in done.points.get(new.size, ())
    ]


def _point_rows(point: str, row: Sequence[Measure | None], unit: str) -> list[tuple[str, ...]]:
    origins = {one.origin for one in row if one}
    # A mark that holds for the whole row stands once, at its end.
    shared = _MARKS[next(iter(origins))] if len(origins) == 1 else ""
    marks = dict.fromkeys(_MARKS, "") if len(origins) == 1 else _MARKS
    lengths = [f"{_bare(one.mm, unit)}{marks[one.origin]}" if one else "" for one in row]
    spreads = [
        _bare(one.plus_minus, unit) + (f" n={one.pieces}" if one.pieces else "") if one else ""
        for one in row
    ]
    if len(set(spreads) - {""}) == 1:
        return [(point, *lengths, next(one for one in spreads if one) + shared)]
    return [(point, *lengths, shared.strip()), ("  ±", *spreads, "")]


def _said(measure: Measure, unit: str) -> str:
    return f"{say(measure.mm, unit)} ± {say(measure.plus_minus, unit)}"


def _bare(length: float, unit: str) -> str:
    """Return a length without its unit, which the legend names."""
    return say(length, unit).removesuffix(f" {unit}")


def _measure_data(measure: Measure) -> dict[str, Any]:
    data = {
        "mm": measure.mm,
        "plus_minus_mm": measure.plus_minus,
        "origin": measure.origin.value,
    }
    return {**data, "pieces": measure.pieces} if measure.pieces else data
