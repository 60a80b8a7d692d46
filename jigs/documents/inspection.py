"""What an inspected cut file measures and which rules it breaks, as text and as data."""

from collections.abc import Sequence
from typing import Any

from jigs.cutfile import CutFile
from jigs.geometry import Box
from jigs.rules import Facts, Measured, Violation, place_text
from jigs.rules.measured import WIDEST
from jigs.units import Mm, say


def inspection_text(
    name: str, file: CutFile, found: Measured, broken: Sequence[Violation], facts: Facts, unit: str
) -> list[str]:
    """Return the report, line by line; openings and holes with where their middles are."""
    kerf = f", outlines allow for a kerf of {say(facts.kerf, 'mm')}" if facts.kerf else ""
    rows = [f"{name}: {file.kind.upper()}{kerf}"]
    rows += [f"  plate         {_size(box, unit)}" for box in found.plates or (found.plate,)]
    for box in found.openings:
        rows.append(f"  opening       {_size(box, unit)}, {_middle(box, found)}")
    for at, diameter in found.holes:
        where = _middle(Box(at.x, at.y, at.x, at.y), found)
        rows.append(f"  hole          {say(diameter, unit)} across, {where}")
    if found.plates:
        web = f"{found.web[0]:.2f} mm" if found.web else f"none under {WIDEST:g} mm"
        inner = f"{found.inner[0]:.2f} mm radius" if found.inner else "none"
        rows.append(f"  least web     {web} (at least {facts.least_web + facts.kerf:g} mm)")
        rows.append(f"  inner corner  {inner} (at least {facts.least_inner - facts.kerf / 2:g} mm)")
    rows.append(f"  cut           {found.contours} contours, {found.length:.0f} mm in all")
    rows.append(f"  layers        {', '.join(f'{layer} {n}' for layer, n in file.layers)}")
    rows += [""] if broken or file.notes else []
    rows += [
        f"  STOP  {one.rule}: {one.says}, {place_text(one.where, found.plate)}" for one in broken
    ]
    rows += [f"  note  {note}" for note in file.notes]
    return rows


def inspection_data(
    name: str, file: CutFile, found: Measured, broken: Sequence[Violation], facts: Facts
) -> dict[str, Any]:
    """Return the report as data, lengths in mm, places from the plate's top left corner."""
    left, top = found.plate.left, found.plate.top

    def place(box: Box) -> dict[str, Mm]:
        return {"x_mm": box.centre.x - left, "y_mm": box.centre.y - top}

    def sized(box: Box) -> dict[str, Mm]:
        return {"width_mm": box.width, "height_mm": box.height, **place(box)}

    def spot(value: tuple[Mm, Any] | None, key: str) -> dict[str, Mm] | None:
        if value is None:
            return None
        return {key: value[0], "x_mm": value[1].x - left, "y_mm": value[1].y - top}

    return {
        "file": name,
        "kind": file.kind,
        "kerf_mm": facts.kerf,
        "plates": [sized(box) for box in found.plates],
        "openings": [sized(box) for box in found.openings],
        "holes": [
            {"diameter_mm": d, "x_mm": at.x - left, "y_mm": at.y - top} for at, d in found.holes
        ],
        "least_web": spot(found.web, "width_mm"),
        "inner_corner": spot(found.inner, "radius_mm"),
        "cut_length_mm": found.length,
        "contours": found.contours,
        "layers": dict(file.layers),
        "notes": list(file.notes),
        "broken": [
            {
                "rule": one.rule,
                "says": one.says,
                **place(one.where if isinstance(one.where, Box) else Box(*one.where, *one.where)),
            }
            for one in broken
        ],
    }


def _size(box: Box, unit: str) -> str:
    return f"{say(box.width, unit)} × {say(box.height, unit)}"


def _middle(box: Box, found: Measured) -> str:
    return f"middle {place_text(box, found.plate)}"
