"""The team's names and numbers: what to order, for whom, and by which rule."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from jigs.documents.jig_pages import own_page
from jigs.documents.report import columns, findings_data, findings_text, jig_rows
from jigs.drawing.drawing import Area, Drawing, Page
from jigs.names import safe_name
from jigs.plan import Plan, TeamEntry, TeamMark, TeamPlan, TeamPrint
from jigs.plan.sizes import sizes_text
from jigs.team.lettering import lettered
from jigs.team.rules import Rule, RuleSet
from jigs.units import Mm, say

_INK = "#000000"
_LETTERS = str.maketrans({
    "Ł": "L", "ł": "l", "Ø": "O", "ø": "o", "Đ": "D", "đ": "d", "Ð": "D", "ð": "d", "Þ": "Th",
    "þ": "th", "Æ": "AE", "æ": "ae", "Œ": "OE", "œ": "oe", "ß": "ss", "ı": "i", "Ħ": "H", "ħ": "h",
})  # fmt: skip
#: Said wherever a rule is.
CURRENT = "Rule books change: the current one of your competition decides."


@dataclass(frozen=True, slots=True)
class Lettering:
    """One text at one height, however many garments it goes on: a transfer to order."""

    stem: str
    """Its file's name."""
    text: str
    weight: str
    height: Mm
    width: Mm
    ink_height: Mm
    pieces: int


def letterings(team: TeamPlan) -> tuple[Lettering, ...]:
    """Return every different text and height, names first, each with how many are needed."""
    weights = {one.setting.kind: one.setting.weight for one in team.prints}
    pieces: dict[tuple[str, str, Mm], int] = {}
    marks: dict[tuple[str, str, Mm], TeamMark] = {}
    for kind, weight in weights.items():
        for entry in team.entries:
            for mark in entry.marks:
                if mark.kind == kind:
                    same = (mark.text, weight, mark.height)
                    pieces[same] = pieces.get(same, 0) + entry.quantity
                    marks.setdefault(same, mark)
    made: dict[str, Lettering] = {}
    for (text, weight, height), mark in marks.items():
        what = "name" if mark.kind == "back-name" else "number"
        begin = safe_name(f"{what}-{_plain(text)}-{height:.1f}mm".replace(".0mm", "mm"))
        number, stem = 1, begin
        while stem.casefold() in made:
            number += 1
            stem = f"{begin}-{number}"
        made[stem.casefold()] = Lettering(
            stem, text, weight, height, mark.width, mark.ink_height, pieces[text, weight, height]
        )
    return tuple(made.values())


def _plain(text: str) -> str:
    """Return a text with letters that no decomposition makes plain as a file's name has them."""
    return text.translate(_LETTERS)


def lettering_page(one: Lettering, font: str) -> Page:
    """Return a text at 1:1, outlined and filled, on a page a little larger than its ink."""
    line = lettered(one.text, one.weight, one.height)
    drawing = Drawing(tuple(Area(glyph, _INK) for glyph in line.glyphs))
    says = (
        f"Outlined, 1:1: {one.width:.1f} x {one.ink_height:.1f} mm of ink, flat letters "
        f"{one.height:.1f} mm high; {one.pieces} wanted. {font.partition(':')[0]} {one.weight}."
    )
    return own_page(drawing, one.text, says)


def team_text(plan: Plan, team: TeamPlan) -> str:
    """Return the team as text: what to order, who gets what, the rules, the jigs."""
    unit = plan.units
    head = " · ".join(part for part in (plan.reference, plan.customer, team.list) if part)
    parts = [head, "", f"Rules: {rules_text(team.rules)}", f"  {CURRENT}"]
    parts += [f"  note: {note}" for note in team.rules.notes]
    parts += ["", *columns(_print_rows(team, unit), indent="  ")]
    trims = [one.trim_above for one in team.prints if one.setting.kind == "back-name"]
    parts += [line for trim in trims for line in ("", *_names_hang(trim, plan))]
    parts += ["", "Transfers to order", *columns(_order_rows(team, unit), indent="  ")]
    parts += ["", "Who gets what", *columns(_entry_rows(plan, team), indent="  ")]
    for one in team.prints:
        if one.jigs:
            title = f"Jigs of the {one.setting.kind.replace('-', ' ')}s"
            parts += ["", title, *columns(jig_rows(one.jigs), indent="  ")]
    if team.findings:
        parts += ["", "Findings", *findings_text(team.findings)]
    return "\n".join(parts).rstrip() + "\n"


def _names_hang(trim: Mm, plan: Plan) -> list[str]:
    """Return how names hang and are trimmed, so that one ledge is for all of them."""
    above, usual = say(trim, plan.units), say(plan.shop.transfer.trim, plan.units)
    sides = "" if above == usual else f", and {usual} from the ink on the other sides"
    return [
        "  Names hang by the top of their flat capitals; marks such as the dots of Ü stand above.",
        f"  Trim every name {above} above its flat capitals{sides}: the ledge is made for that.",
    ]


def rules_text(rules: RuleSet) -> str:
    """Return where rules stand and how they are known, in one line."""
    return f"{rules.source} [{rules.known}]"


def _print_rows(team: TeamPlan, unit: str) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = [("print", "weight", "height", "stroke", "the rule asks")]
    for one in team.prints:
        setting = one.setting
        stroke = "-"
        if setting.thin is not None and setting.usual is not None:
            stroke = f"{say(setting.thin, unit)}, usually {say(setting.usual, unit)}"
        most = "up to " if setting.kind == "back-name" else ""
        rows.append(
            (
                setting.kind,
                setting.weight,
                f"{most}{say(setting.height, unit)}",
                stroke,
                _asked(team.rules.of(setting.kind), unit) or "nothing",
            )
        )
    if team.rules.gap is not None:
        rows.append(("gap", "", "", "", f"at least {say(team.rules.gap, unit)}"))
    return rows


def _asked(rule: Rule, unit: str) -> str:
    """Return what a rule asks for, in words."""
    said = [_range("", rule.least, rule.most, unit)]
    said.append(_range("stroke ", rule.stroke_least, rule.stroke_most, unit))
    if rule.stroke_about is not None:
        said.append(f"stroke about {say(rule.stroke_about, unit)}")
    return ", ".join(part for part in said if part)


def _range(what: str, least: Mm | None, most: Mm | None, unit: str) -> str:
    if least is not None and most is not None:
        if least == most:
            return f"{what}{say(least, unit)}"
        return f"{what}{say(least, unit)} to {say(most, unit)}"
    if least is not None:
        return f"{what}at least {say(least, unit)}"
    return f"{what}at most {say(most, unit)}" if most is not None else ""


def _order_rows(team: TeamPlan, unit: str) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = [("text", "pieces", "high", "ink", "file")]
    rows += [
        (
            one.text,
            str(one.pieces),
            say(one.height, unit),
            f"{say(one.width, unit)} × {say(one.ink_height, unit)}",
            f"team/{one.stem}.svg",
        )
        for one in letterings(team)
    ]
    return rows


def _entry_rows(plan: Plan, team: TeamPlan) -> list[tuple[str, ...]]:
    """Return a heading and a row for each entry of the list."""
    kinds = [one.setting.kind for one in team.prints]
    rows: list[tuple[str, ...]] = [
        ("name", "number", "garment", "size", "pieces", *kinds, "shrunk by")
    ]
    for entry in team.entries:
        marks = {mark.kind: mark for mark in entry.marks}
        rows.append(
            (
                entry.name or "-",
                entry.number or "-",
                entry.garment,
                sizes_text([entry.key], plan.tables),
                str(entry.quantity),
                *(_size(marks.get(kind), plan.units) for kind in kinds),
                _shrunk(team.prints, entry),
            )
        )
    return rows


def _size(mark: TeamMark | None, unit: str) -> str:
    if mark is None:
        return "-"
    return f"{say(mark.width, unit)} × {say(mark.ink_height, unit)}"


def _shrunk(prints: Sequence[TeamPrint], entry: TeamEntry) -> str:
    """Return what keeps a name from the team's height."""
    heights = {one.setting.kind: one.setting.height for one in prints}
    return ", ".join(mark.stops for mark in entry.marks if mark.height < heights[mark.kind] - 1e-6)


def team_data(team: TeamPlan) -> dict[str, Any]:
    """Return the team as data; all lengths in millimetres."""
    rules = team.rules
    return {
        "list": team.list,
        "rules": {
            "name": rules.name,
            "source": rules.source,
            "known": rules.known,
            "notes": list(rules.notes),
            "caution": CURRENT,
            "gap_mm": rules.gap,
        },
        "font": team.font,
        "prints": [_print_data(one, rules.of(one.setting.kind)) for one in team.prints],
        "transfers": [
            {
                "text": one.text,
                "weight": one.weight,
                "height_mm": one.height,
                "ink_width_mm": one.width,
                "ink_height_mm": one.ink_height,
                "pieces": one.pieces,
                "file": f"team/{one.stem}.svg",
            }
            for one in letterings(team)
        ],
        "entries": [_entry_data(one) for one in team.entries],
        "findings": findings_data(team.findings),
    }


def _print_data(one: TeamPrint, rule: Rule) -> dict[str, Any]:
    return {
        "kind": one.setting.kind,
        "weight": one.setting.weight,
        "height_mm": one.setting.height,
        "trim_above_mm": one.trim_above,
        "thin_stroke_mm": one.setting.thin,
        "usual_stroke_mm": one.setting.usual,
        "rule": {
            "least_mm": rule.least,
            "most_mm": rule.most,
            "stroke_least_mm": rule.stroke_least,
            "stroke_most_mm": rule.stroke_most,
            "stroke_about_mm": rule.stroke_about,
        },
    }


def _entry_data(one: TeamEntry) -> dict[str, Any]:
    return {
        "row": one.row,
        "garment": one.garment,
        "size": one.key,
        "name": one.name,
        "number": one.number,
        "quantity": one.quantity,
        "prints": [
            {
                "kind": mark.kind,
                "text": mark.text,
                "drop_mm": mark.drop,
                "height_mm": mark.height,
                "ink_width_mm": mark.width,
                "ink_height_mm": mark.ink_height,
                "rise_mm": mark.rise,
                "most_height_mm": mark.most,
                "limited_by": mark.stops,
            }
            for mark in one.marks
        ],
    }
