"""What became of a supplier's spec sheet: as data for JSON, as text for a terminal."""

from typing import Any

from jigs.documents.report import columns, findings_data, findings_text
from jigs.tables.importer import Imported
from jigs.tables.spec_rows import Row


def import_data(imported: Imported) -> dict[str, Any]:
    """Return the report as data; all lengths in millimetres."""
    return {
        "title": imported.table.title,
        "orientation": imported.orientation,
        "unit": imported.unit,
        "unit_from": imported.unit_from,
        "sizes": list(imported.sizes),
        "measurements": [
            {
                "cell": row.cell,
                "name": row.name,
                "point": row.meaning.point,
                "times": row.meaning.times,
                "mm": {size.size: size.mm(row.meaning.point) for size in imported.table.sizes},
                "tolerance_mm": imported.table.sizes[0][row.meaning.point].plus_minus,
                "tolerance_cell": row.tolerance_cell or None,
            }
            for row in imported.rows
        ],
        "left_out": [
            {"where": left.where, "what": left.what, "why": left.why} for left in imported.left_out
        ],
        "findings": findings_data(imported.findings),
    }


def import_text(imported: Imported) -> list[str]:
    """Return the report as lines."""
    lines = [
        f"title: {imported.table.title}",
        f"layout: {imported.orientation}",
        f"unit: {imported.unit} ({imported.unit_from})",
        f"sizes: {', '.join(imported.sizes)}",
        "measurements:",
    ]
    lines += columns([_row(row) for row in imported.rows], indent="  ")
    if imported.left_out:
        lines.append("left out:")
        lines += columns([(one.where, one.what, one.why) for one in imported.left_out], indent="  ")
    return [*lines, *findings_text(imported.findings)]


def _row(row: Row) -> tuple[str, ...]:
    times = "" if row.meaning.times == 1 else f", times {row.meaning.times:g}"
    usual = "usual tolerance"
    if row.tolerance is not None:
        unit = row.tolerance.unit or (row.unit.unit if row.unit else "")
        usual = f"± {row.tolerance.text()} {unit} ({row.tolerance_cell})"
    return (row.cell, row.name, f"-> {row.meaning.point}{times}", usual)
