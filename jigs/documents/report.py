"""The widths report: as data for JSON, as text for a terminal."""

from collections.abc import Sequence
from typing import Any

from jigs.documents.cutting import cutting_lines
from jigs.errors import Finding
from jigs.geometry import Box
from jigs.plan import JigPlan, Plan, TableFacts
from jigs.plan.sizes import sizes_text
from jigs.template import Seat, Template
from jigs.template.template import size_names
from jigs.units import Mm, say
from jigs.widths import WidthPlan


def widths_data(location: str, plan: WidthPlan) -> dict[str, Any]:
    """Return a width plan as data; all lengths in millimetres."""
    return {
        "location": location,
        "ranges": [
            {
                "sizes": list(one.sizes),
                "width_mm": one.width,
                "height_mm": one.height,
                "quantity": one.quantity,
            }
            for one in plan.ranges
        ],
        "sizes": [
            {
                "table": one.key.partition("/")[0],
                "size": one.key.partition("/")[2],
                "target_mm": one.target,
                "least_mm": one.least,
                "most_mm": one.most,
                "limited_by": one.limited_by,
                "room_mm": one.room,
                "room_estimated": one.estimated,
                "quantity": one.quantity,
            }
            for one in plan.bands
        ],
        "trade_off": [{"widths": n, "rms_from_target": miss} for n, miss in plan.trade],
        "findings": findings_data(plan.findings),
    }


def findings_data(findings: Sequence[Finding]) -> list[dict[str, Any]]:
    """Return findings as data."""
    return [{"blocks": one.blocks, "about": one.about, "says": one.says} for one in findings]


def widths_text(title: str, plan: WidthPlan, tables: Sequence[TableFacts], unit: str) -> str:
    """Return a width plan as text: what to order first, then what was weighed."""
    lines = [title, *columns(_range_rows(plan, tables, unit), indent="  ")]
    rows = [("size", "target", "least", "most", "limited by", "fits up to")]
    rows += [
        (
            sizes_text([one.key], tables),
            say(one.target, unit),
            say(one.least, unit),
            say(one.most, unit),
            one.limited_by,
            f"{say(one.room, unit)} ({one.stops}{', est.' if one.estimated else ''})",
        )
        for one in plan.bands
    ]
    lines += ["", *columns(rows, indent="  ")]
    if len(plan.trade) > 1:
        (few, off), (more, less) = plan.trade
        lines += [
            "",
            (
                f"  {_count(few)} put the prints {off:.1%} from their targets (rms); "
                f"{_count(more)} would put them {less:.1%} away."
            ),
        ]
    lines += ["", *findings_text(plan.findings)] if plan.findings else []
    return "\n".join(lines)


def _range_rows(plan: WidthPlan, tables: Sequence[TableFacts], unit: str) -> list[tuple[str, ...]]:
    """Return a heading and a row per range; pieces only where an order counts them."""
    by_key = {one.key: one for one in plan.bands}
    counted = any(one.quantity != 1 for one in plan.bands)
    rows: list[tuple[str, ...]] = [
        ("sizes", "width", "height", *(["pieces"] if counted else []), "looks")
    ]
    for one in plan.ranges:
        shares = [one.width / by_key[key].breadth for key in one.sizes]
        whole = " or ".join(dict.fromkeys(each.whole for each in tables if _has(each, one.sizes)))
        looks = f"{max(shares):.0%} to {min(shares):.0%} of the {whole}"
        rows.append(
            (
                sizes_text(one.sizes, tables),
                say(one.width, unit),
                say(one.height, unit),
                *([str(one.quantity)] if counted else []),
                looks if len(shares) > 1 else f"{shares[0]:.0%} of the {whole}",
            )
        )
    return rows


def _has(table: TableFacts, keys: Sequence[str]) -> bool:
    return any(key.partition("/")[0] == table.name for key in keys)


def findings_text(findings: Sequence[Finding]) -> list[str]:
    """Return a line for each thing said, those that block first; what many are told is one line."""
    about: dict[tuple[bool, str], list[str]] = {}
    for one in sorted(findings, key=lambda one: not one.blocks):
        about.setdefault((one.blocks, one.says), []).append(one.about)
    return [
        f"  {'STOP' if blocks else 'note'}  {_together(names)}: {says}"
        for (blocks, says), names in about.items()
    ]


def _together(names: Sequence[str]) -> str:
    """Return names one after the other; sizes of one table after its name: `tee/S, M, L`."""
    said: list[str] = []
    table: str | None = None
    for name in dict.fromkeys(names):
        before, slash, rest = name.partition("/")
        said.append(rest if slash and before == table else name)
        table = before if slash else None
    return ", ".join(said)


def report_text(plan: Plan) -> str:
    """Return the whole order's widths as text."""
    unit = plan.units
    head = " · ".join(part for part in (plan.reference, plan.customer) if part)
    parts = [head, ""]
    for one in plan.prints:
        name = one.name if one.name == one.location else f"{one.name} ({one.location})"
        turn = f" turned {one.artwork.turn}°" if one.artwork.turn else ""
        title = f"{name}, {one.artwork.name}{turn}, {one.artwork.aspect:.3f} wide to 1 high"
        parts += [widths_text(title, one.widths, plan.tables, unit), ""]
        if one.artwork.findings:
            parts += [*findings_text(one.artwork.findings), ""]
        parts += [*columns(jig_rows(one.jigs), indent="  "), *trade_lines(one.jigs), ""]
    parts += [
        (
            "In brackets: the worst over the garment's tolerance, or over the uncertainty of an "
            "estimated collar. Turns: before a hand feels it. Aside: to the left or right of where "
            "the size would have it."
        ),
        "",
    ]
    parts += [*cutting_lines(plan.shop.cutter), ""]
    if plan.findings:
        parts += ["Jigs and order", *findings_text(plan.findings), ""]
    estimated = sorted(
        {
            f"{size.measures.table}: {name}"
            for size in plan.sizes
            for name, measure in size.measures.values.items()
            if measure.origin.value == "estimated"
        }
    )
    if estimated:
        parts += ["Estimated, not given by the size tables (est.):"]
        parts += [f"  {line}" for line in estimated]
    return "\n".join(parts).rstrip() + "\n"


def jig_rows(jigs: Sequence[JigPlan]) -> list[tuple[str, ...]]:
    """Return a heading and a row for each template: its styles, its sizes, its errors."""
    styles: dict[Template, list[str]] = {}
    for jig in jigs:
        styles.setdefault(jig.template, []).append(jig.style)
    rows: list[tuple[str, ...]] = [
        ("jigs", "sizes", "drop", "off centre", "turns", "too low by, mm, on each size")
    ]
    for template, names in styles.items():
        if template.seams:
            rows.append(_by_eye(names, template))
            continue
        other = template.beside
        called = f"{', '.join(names)}: {template.title}" if other else ", ".join(names)
        begin = called, template.sizes, say(template.drop, template.unit)
        end = _turns(template), _errors(template.seats)
        rows.append((*begin, _aside(template.ink, template.unit), *end))
        if other:
            begin = f"  and {other.title}", template.sizes, say(other.drop, template.unit)
            end = _turns(template), _errors(other.seats)
            rows.append((*begin, _aside(other.ink, template.unit), *end))
    return rows


def _by_eye(names: Sequence[str], template: Template) -> tuple[str, ...]:
    """Return the row of a sheet that nothing seats: each size has a drop and centre of its own."""
    unit = template.unit
    aside = [abs(template.ink.centre.x - line.centre) for line in template.seams]
    off = _span(aside, unit) if max(aside) else "on it"
    drop = _span(template.drops, unit)
    return ", ".join(names), template.sizes, drop, off, "–", "by eye, to about 1 mm"


def _span(lengths: Sequence[Mm], unit: str) -> str:
    """Return lengths as one, or as from the least to the most."""
    least, most = say(min(lengths), unit), say(max(lengths), unit)
    return least if least == most else f"{least} to {most}"


def _aside(ink: Box, unit: str) -> str:
    """Return how far a print's middle is off the centre line."""
    aside = abs(ink.centre.x)
    return say(aside, unit) if aside else "on it"


def _errors(seats: Sequence[Seat]) -> str:
    """Return how much too low a print is on each size."""
    if all(max(abs(seat.worst), abs(seat.side)) < 0.05 for seat in seats):
        return "true on every size"
    said = []
    for name, seat in zip(size_names([seat.key for seat in seats]), seats, strict=True):
        spread = f" ({seat.worst:+.1f})" if abs(seat.worst - seat.height) >= 0.05 else ""
        side = f" {abs(seat.side):.1f} aside" if abs(seat.side) >= 0.05 else ""
        said.append(f"{name} {round(seat.height, 1) + 0.0:.1f}{spread}{side}")
    return "  ".join(said)


def _turns(template: Template) -> str:
    """Return how far a jig can turn before it is felt, and at the end of the collar's tolerance."""
    if not template.curved:
        return "–"
    drawn = max(seat.tilt for seat in template.seats)
    most = max(seat.most_tilt for seat in template.seats)
    return f"{drawn:.1f}° ({most:.1f}°)"


def trade_lines(jigs: Sequence[JigPlan]) -> list[str]:
    """Return, for each width, how far off prints would be with fewer jigs and with more."""
    made: dict[tuple[float, tuple[tuple[int, float], ...]], set[Template]] = {}
    for jig in jigs:
        made.setdefault((jig.template.ink.width, jig.template.trade), set()).add(jig.template)
    lines = []
    for (width, trade), templates in made.items():
        said = []
        for count, worst in trade:
            these = " (these)" if count == len(templates) else ""
            said.append(f"{count} {'jig' if count == 1 else 'jigs'}{these} {worst:.1f} mm")
        if len(said) > 1:
            unit = jigs[0].template.unit
            lines.append(f"  {say(width, unit)} wide, off in height by at most: {', '.join(said)}")
    return lines


def report_data(plan: Plan) -> dict[str, Any]:
    """Return the whole order's widths as data, without its team; all lengths in millimetres."""
    return {
        "reference": plan.reference,
        "prints": [
            {
                "name": one.name,
                "artwork": one.artwork.name,
                "aspect": one.artwork.aspect,
                "turn": one.artwork.turn,
                **widths_data(one.location, one.widths),
                "findings": findings_data((*one.artwork.findings, *one.widths.findings)),
            }
            for one in plan.prints
        ],
        "findings": findings_data(plan.findings),
    }


def columns(rows: Sequence[Sequence[str]], indent: str = "") -> list[str]:
    """Return rows as lines with aligned columns."""
    widths = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    return [
        (indent + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)))
        .rstrip()
        for row in rows
    ]  # fmt: skip


def _count(widths: int) -> str:
    return "one width" if widths == 1 else f"{widths} widths"
