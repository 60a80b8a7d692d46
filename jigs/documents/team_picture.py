"""The team at a glance: every entry's garment to scale, its name and number in place."""

from dataclasses import dataclass

from jigs.documents.captions import PITCH, captions
from jigs.documents.garment_picture import bare
from jigs.documents.shades import ink_on
from jigs.drawing.drawing import Area, Drawing, Entity, Layer, Page, Text
from jigs.drawing.scaled import scaled
from jigs.garments import GARMENTS, Flat
from jigs.geometry import Point
from jigs.plan import Plan, TeamEntry, TeamMark, TeamPlan
from jigs.plan.sizes import sizes_text
from jigs.team.lettering import lettered
from jigs.team.places import location
from jigs.units import Mm

#: As wide as a landscape A3 sheet (ISO 216), as high as it needs to be.
_WIDTH: Mm = 420.0
_EDGE: Mm = 10.0
_GAP: Mm = 5.0
_TITLE: Mm = 5.0
_LABEL: Mm = 2.8
_SCALES = (6, 8, 10, 12, 15, 20, 25, 30)
#: A row has this many views at most, and fewer where wide garments would be shown smaller.
_IN_A_ROW = 8
_SMALLEST = 20
#: More entries than this are no picture any more.
_MOST = 96
_INK = "#222222"
_SLACK: Mm = 1e-6


@dataclass(frozen=True, slots=True)
class _Cell:
    """One view of one entry: its garment with its texts, full size, and what stands below."""

    drawing: Drawing
    lines: tuple[str, ...]


def team_page(plan: Plan, team: TeamPlan) -> Page:
    """Return the picture of a team: the back of each entry, and the front if it is printed."""
    shown = team.entries[:_MOST]
    sides = _sides(team)
    cells = [_cell(plan, team, entry, side) for entry in shown for side in sides]
    boxes = [cell.drawing.bounds() for cell in cells]
    wide, tall = max(box.width for box in boxes), max(box.height for box in boxes)
    room = int((_WIDTH - 2 * _EDGE) / (wide / _SMALLEST + _GAP))
    # A row holds whole entries: front and back of one stay together.
    count = max(min(_IN_A_ROW, len(cells), room) // len(sides), 1) * len(sides)
    column = (_WIDTH - 2 * _EDGE) / count
    scale = next((n for n in _SCALES if wide / n + _GAP <= column), _SCALES[-1])
    first = f" · the first {_MOST} of {len(team.entries)}" if len(team.entries) > _MOST else ""
    says = f"{plan.reference}: {team.list} · scale 1:{scale}{first}"
    entities: list[Entity] = [
        Text(Layer.NOTE, says, Point(_EDGE, _EDGE + _TITLE), _TITLE, colour=_INK)
    ]
    lines = max(len(cell.lines) for cell in cells)
    pitch = tall / scale + 2 + lines * _LABEL * PITCH + 2 * _GAP
    y = _EDGE + 2 * _TITLE + 2
    for k, (cell, box) in enumerate(zip(cells, boxes, strict=True)):
        middle = _EDGE + (k % count + 0.5) * column
        top = y + k // count * pitch
        entities += scaled(cell.drawing, 1 / scale).moved(middle, top - box.top / scale).entities
        entities += captions(
            cell.lines, Point(middle, top + tall / scale + 2), column - 2, _LABEL, 1.2, _INK
        )
    rows = (len(cells) - 1) // count + 1
    height = y + rows * pitch + _EDGE - 2 * _GAP
    title = f"{plan.reference}: team"
    return Page(_WIDTH, height, Drawing(tuple(entities)), title, f"Names and numbers, 1:{scale}")


def _sides(team: TeamPlan) -> tuple[str, ...]:
    """Return the panels that anything is printed on, the front first."""
    panels = {location(one.setting.kind).panel for one in team.prints}
    return tuple(panel for panel in ("front", "back") if panel in panels)


def _cell(plan: Plan, team: TeamPlan, entry: TeamEntry, side: str) -> _Cell:
    garment = next(one for one in plan.garments if one.name == entry.garment)
    weights = {one.setting.kind: one.setting.weight for one in team.prints}
    size = plan.size(entry.key)
    flat: Flat = GARMENTS.get(size.cut).draw(size.measures)
    colour = garment.colour_hex
    entities = bare(flat, side, colour)
    for mark in entry.marks:
        where = location(mark.kind)
        if where.panel == side:
            entities += _text(mark, weights[mark.kind], colour, mirrored=where.seen.mirrors)
    who = " ".join(part for part in (entry.number, entry.name) if part)
    pieces = f" × {entry.quantity}" if entry.quantity > 1 else ""
    what = f"{sizes_text([entry.key], plan.tables)}{pieces}"
    return _Cell(Drawing(tuple(entities)), (who, what, *_too_large(team, entry, side)))


def _too_large(team: TeamPlan, entry: TeamEntry, side: str) -> tuple[str, ...]:
    """Return that a text is higher than what fits, or lower than the rule asks, for a caption."""
    wrong = (
        mark.kind.replace("-", " ")
        for mark in entry.marks
        if location(mark.kind).panel == side
        and mark.most < max(mark.height, team.rules.of(mark.kind).least or 0.0) - _SLACK
    )
    return tuple(f"STOP: {kind} does not fit" for kind in wrong)


def _text(mark: TeamMark, weight: str, colour: str, *, mirrored: bool) -> list[Entity]:
    """Return a text where it lies on the view; on a back the wearer's left is on the left."""
    x = -mark.anchor.x if mirrored else mark.anchor.x
    line = lettered(mark.text, weight, mark.height).moved(x - mark.width / 2, mark.box.top)
    return [Area(glyph, ink_on(colour)) for glyph in line.glyphs]
