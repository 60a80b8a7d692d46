"""One garment line with its prints in place: every size side by side, to one scale.

Rows are what the order prints on: front or bag, inside of the neck, back, sleeves, hood. A neck
label also shows through the neck opening of the front view, as far as the front does not cover it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.documents.captions import PITCH, captions
from jigs.documents.garment_parts import Cloth, body, inside_neck, neck_patch, opened
from jigs.drawing.drawing import Drawing, Entity, Layer, Page, Picture, Text
from jigs.drawing.scaled import scaled
from jigs.garments import GARMENTS, Flat
from jigs.geometry import Box, Point
from jigs.locations import LOCATIONS, Location, Seen
from jigs.plan import Garment, Plan, PrintPlan
from jigs.plan.plan import Placed
from jigs.units import Mm, say

#: Pictures are made to fit a landscape A3 sheet (ISO 216), whatever the number of sizes.
_WIDTH: Mm = 420.0
_EDGE: Mm = 10.0
_SCALES = (3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30)
#: Many rows of few sizes are drawn smaller, so that the picture is no longer than this.
_LONGEST: Mm = 594.0
#: Room between two sizes.
_BETWEEN: Mm = 3.0
_TITLE: Mm = 5.0
_LABEL: Mm = 2.6

#: Rows: what is looked at, and what shows in it besides.
_ROWS = (
    ("front", Seen.FRONT, (Seen.INSIDE_BACK,)),
    ("bag", Seen.BAG, ()),
    ("inside the neck", Seen.INSIDE_BACK, ()),
    ("back", Seen.BACK, ()),
    ("left sleeve", Seen.LEFT_SLEEVE, ()),
    ("right sleeve", Seen.RIGHT_SLEEVE, ()),
    ("left side of the hood", Seen.LEFT_HOOD, ()),
    ("right side of the hood", Seen.RIGHT_HOOD, ()),
)
_PANELS = {
    Seen.LEFT_SLEEVE: "sleeve",
    Seen.RIGHT_SLEEVE: "sleeve",
    Seen.LEFT_HOOD: "hood",
    Seen.RIGHT_HOOD: "hood",
}


@dataclass(frozen=True, slots=True)
class _Mark:
    """A print on one size: which, and where."""

    plan: PrintPlan
    location: Location
    placed: Placed


def garment_page(plan: Plan, garment: Garment) -> Page:
    """Return the picture of one garment line."""
    keys = [key for key, _ in garment.quantities]
    flats = {key: _flat(plan, key) for key in keys}
    rows = [
        (name, seen, {key: tuple(_marks(plan, garment, key, (seen, *also))) for key in keys})
        for name, seen, also in _ROWS
    ]
    # A garment without any print still gets its front, so that the order is seen whole.
    rows = [row for row in rows if any(row[2].values())] or rows[:1]
    cells = [
        [_cell(seen, flats[key], marks[key], garment.colour_hex) for key in keys]
        for _, seen, marks in rows
    ]
    widest = sum(max(row[k].bounds().width for row in cells) for k in range(len(keys)))
    named = [(name, marks) for name, _, marks in rows]
    room = _WIDTH - 2 * _EDGE - _BETWEEN * len(keys)
    for scale in [n for n in _SCALES if widest / n <= room] or _SCALES[-1:]:
        drawing, height = _laid_out(plan, garment, named, cells, scale)
        if height <= _LONGEST:
            break
    head = f"{garment.name}, {garment.colour}"
    says = f"Every size with its prints in place, scale 1:{scale}"
    return Page(_WIDTH, height, drawing, f"{plan.reference}: {head}", says)


def _flat(plan: Plan, key: str) -> Flat:
    size = plan.size(key)
    return GARMENTS.get(size.cut).draw(size.measures)


def _marks(plan: Plan, garment: Garment, key: str, seen: tuple[Seen, ...]) -> Iterator[_Mark]:
    for one in plan.prints:
        location = LOCATIONS.get(one.location)
        if garment.name in one.garments and location.seen in seen:
            for placed in one.placed:
                if placed.key == key:
                    yield _Mark(one, location, placed)


def _laid_out(
    plan: Plan,
    garment: Garment,
    rows: Sequence[tuple[str, dict[str, tuple[_Mark, ...]]]],
    cells: Sequence[Sequence[Drawing]],
    scale: int,
) -> tuple[Drawing, Mm]:
    """Return the drawing and its height: titles, then a row of cells for each view."""
    ink = "#222222"
    names = " · ".join(name for name in (plan.reference, plan.customer) if name)
    says = f"{garment.name}: {garment.colour} · scale 1:{scale} · {names}"
    entities: list[Entity] = [
        Text(Layer.NOTE, says, Point(_EDGE, _EDGE + _TITLE), _TITLE, colour=ink)
    ]
    count = len(garment.quantities)
    boxes = [[cell.bounds() for cell in row] for row in cells]
    columns = [max(row[k].width for row in boxes) / scale for k in range(count)]
    gap = (_WIDTH - 2 * _EDGE - sum(columns)) / count
    y = _EDGE + 2 * _TITLE + 4
    for (name, marks), row, around in zip(rows, cells, boxes, strict=True):
        entities.append(Text(Layer.NOTE, name, Point(_EDGE, y + 3), 3.2, colour=ink))
        y += 7
        x = _EDGE
        tall = max(box.height for box in around) / scale
        most = 0
        for k, (key, quantity) in enumerate(garment.quantities):
            middle = x + gap / 2 + columns[k] / 2
            top = y - around[k].top / scale
            left = middle - around[k].centre.x / scale
            entities += scaled(row[k], 1 / scale).moved(left, top).entities
            lines = [f"{plan.size(key).title} × {quantity}", *_sizes(marks[key], plan.units)]
            most = max(most, len(lines))
            entities += captions(
                lines, Point(middle, y + tall + 2), columns[k] + gap - 2, _LABEL, 1.15, ink
            )
            x += columns[k] + gap
        y += tall + 4 + most * _LABEL * PITCH + 4
    return Drawing(tuple(entities)), y + _EDGE - 4


def _sizes(marks: Sequence[_Mark], unit: str) -> list[str]:
    return [f"{one.location.title} {say(one.placed.width, unit)}" for one in marks]


def _cell(seen: Seen, flat: Flat, marks: Sequence[_Mark], colour: str) -> Drawing:
    """Return one size in one view, full size."""
    cloth = Cloth.of(colour)
    prints = _prints(marks)
    if seen in {Seen.FRONT, Seen.BAG}:
        inside = _prints([m for m in marks if m.location.seen is Seen.INSIDE_BACK])
        outside = _prints([m for m in marks if m.location.seen is seen])
        return Drawing().plus(inside_neck(flat, cloth), inside, body(flat, "front", cloth), outside)
    if seen is Seen.INSIDE_BACK:
        low = max(m.placed.anchor.y + m.placed.height for m in marks) + 20.0 if marks else 100.0
        return Drawing().plus(neck_patch(flat, low, cloth), prints)
    if seen is Seen.BACK:
        return Drawing().plus(body(flat, "back", cloth), prints)
    panel = flat.panels[_PANELS[seen]]
    return Drawing().plus(opened(panel, cloth, mirrored=seen.mirrors), prints)


def _prints(marks: Sequence[_Mark]) -> list[Entity]:
    pictures: list[Entity] = []
    for one in marks:
        box = one.placed.box(hangs=one.location.hangs)
        if one.location.seen.mirrors:
            box = Box(-box.right, box.top, -box.left, box.bottom)
        pictures.append(Picture(box, one.plan.artwork.preview, one.plan.name))
    return pictures


def bare(flat: Flat, panel: str, colour: str) -> list[Entity]:
    """Return the front or back of a garment without prints, full size, its middle at x = 0."""
    cloth = Cloth.of(colour)
    inside = inside_neck(flat, cloth) if panel == "front" else []
    return [*inside, *body(flat, panel, cloth)]
