"""One garment line with its prints in place: every size side by side, to one scale.

Rows are what the order prints on: front, inside of the neck, back, sleeves. A neck label also
shows through the neck opening of the front view, as far as the front does not cover it.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.documents.shades import darker, ink_on, lighter
from jigs.drawing.drawing import Anchor, Area, Drawing, Entity, Layer, Page, Picture, Shape, Text
from jigs.drawing.scaled import scaled
from jigs.garments import GARMENTS, Flat
from jigs.geometry import Affine, Box, Line, Path, Point
from jigs.geometry.strokes import width_of
from jigs.locations import LOCATIONS, Location, Seen
from jigs.plan import Garment, Plan, PrintPlan
from jigs.plan.plan import Placed
from jigs.units import Mm, say

#: Pictures are made to fit a landscape A3 sheet (ISO 216), whatever the number of sizes.
_WIDTH: Mm = 420.0
_EDGE: Mm = 10.0
_SCALES = (3, 4, 5, 6, 8, 10, 12, 15, 20, 25)
_MIRROR = Affine.scale(-1, 1)
#: The angle at which a sleeve lies beside the body, below the level.
_SLEEVE_ANGLE = math.radians(42)
_RIB: Mm = 18.0
_TITLE: Mm = 5.0
_LABEL: Mm = 2.6

_ROWS = (
    ("front", (Seen.FRONT, Seen.INSIDE_BACK)),
    ("inside the neck", (Seen.INSIDE_BACK,)),
    ("back", (Seen.BACK,)),
    ("left sleeve", (Seen.LEFT_SLEEVE,)),
    ("right sleeve", (Seen.RIGHT_SLEEVE,)),
)


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
        (name, {key: tuple(_marks(plan, garment, key, seen)) for key in keys})
        for name, seen in _ROWS
    ]
    # A garment without any print still gets its front, so that the order is seen whole.
    rows = [row for row in rows if any(row[1].values())] or rows[:1]
    cells = [
        [_cell(name, flats[key], marks[key], garment.colour_hex) for key in keys]
        for name, marks in rows
    ]
    widest = sum(max(row[k].bounds().width for row in cells) for k in range(len(keys)))
    scale = next((n for n in _SCALES if widest / n + 3 * len(keys) <= _WIDTH - 2 * _EDGE), 30)
    drawing, height = _laid_out(plan, garment, rows, cells, scale)
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
            entities += scaled(row[k], 1 / scale).moved(middle, top).entities
            lines = [f"{plan.size(key).title} × {quantity}", *_sizes(marks[key], plan.units)]
            most = max(most, len(lines))
            entities += _labels(lines, Point(middle, y + tall + 2), columns[k] + gap - 2, ink)
            x += columns[k] + gap
        y += tall + 4 + most * _LABEL * 1.8 + 4
    return Drawing(tuple(entities)), y + _EDGE - 4


def _sizes(marks: Sequence[_Mark], unit: str) -> list[str]:
    return [f"{one.location.title} {say(one.placed.width, unit)}" for one in marks]


def _labels(lines: Sequence[str], top: Point, room: Mm, ink: str) -> Iterator[Text]:
    """Return lines under a size, the first larger, none wider than its column."""
    y = top.y
    for k, line in enumerate(lines):
        height = _LABEL * (1.15 if k == 0 else 0.85)
        height = min(height, height * room / width_of(line, height))
        y += _LABEL * 1.8
        yield Text(Layer.NOTE, line, Point(top.x, y), height, Anchor.MIDDLE, colour=ink)


def _cell(name: str, flat: Flat, marks: Sequence[_Mark], colour: str) -> Drawing:
    """Return one size in one view, full size, the middle of the garment at x = 0."""
    line = darker(colour) if ink_on(colour) == "#000000" else lighter(colour, 0.45)
    if name == "front":
        inside = [m for m in marks if m.location.seen is Seen.INSIDE_BACK]
        outside = [m for m in marks if m.location.seen is Seen.FRONT]
        return Drawing().plus(
            _neck_inside(flat, colour, line),
            _prints(inside, mirrored=False),
            _body(flat, "front", colour, line),
            _prints(outside, mirrored=False),
        )
    if name == "inside the neck":
        return Drawing().plus(
            _neck_patch(flat, marks, colour, line), _prints(marks, mirrored=False)
        )
    if name == "back":
        return Drawing().plus(_body(flat, "back", colour, line), _prints(marks, mirrored=True))
    return Drawing().plus(
        _filled(flat.panels["sleeve"].outline, colour, line), _prints(marks, mirrored=False)
    )


def _body(flat: Flat, panel: str, colour: str, line: str) -> list[Entity]:
    entities: list[Entity] = []
    for mirror in (False, True):
        sleeve = _sleeve(flat)
        if sleeve is not None:
            entities += _filled(sleeve.moved(_MIRROR) if mirror else sleeve, colour, line)
    entities += _filled(flat.panels[panel].outline, colour, line)
    entities += _filled(_rib(flat, panel), lighter(colour, 0.08), line)
    return entities


def _sleeve(flat: Flat) -> Path | None:
    """Return the wearer's left sleeve as it lies beside the body, folded."""
    if "sleeve" not in flat.panels:
        return None
    length, opening = flat.measures.mm("sleeve_length"), flat.measures.mm("sleeve_opening")
    shoulder, underarm = flat.landmarks["shoulder point"], flat.landmarks["underarm"]
    along = Point(math.cos(_SLEEVE_ANGLE), math.sin(_SLEEVE_ANGLE))
    outer = shoulder.plus(along.times(length))
    inner = outer.plus(along.quarter().times(opening))
    # It goes on under the body, whose armhole seam then shows as its end.
    inside = 0.6 * shoulder.x
    under = (Point(inside, underarm.y), Point(inside, shoulder.y))
    return Path.through([shoulder, outer, inner, underarm, *under], closed=True)


def _rib(flat: Flat, panel: str) -> Path:
    """Return the collar's band, from its seam to its inner edge."""
    return _ring(flat.panels[panel].edge("collar seam").path, _inner(flat, panel))


def _ring(one: Path, two: Path) -> Path:
    """Return the outline between two curves that run the same way, joined where they end apart."""
    back = two.reversed()
    parts = [one, _across(one.end, back.start), back, _across(back.end, one.start)]
    return Path(tuple(s for part in parts if part is not None for s in part.segments))


def _inner(flat: Flat, panel: str) -> Path:
    """Return the collar's inner edge: the seam drawn in and raised by the width of the rib."""
    seam = flat.panels[panel].edge("collar seam").path
    half = seam.end.x
    rib = min(flat.measures.mm("rib_width") if "rib_width" in flat.measures else _RIB, half / 3)
    return seam.moved(Affine.scale((half - rib) / half, 1.0).then(Affine.move(0.0, -rib)))


def _across(a: Point, b: Point) -> Path | None:
    return None if a == b else Path((Line(a, b),))


def _neck_inside(flat: Flat, colour: str, line: str) -> list[Entity]:
    """Return the inside of the back that shows in the neck opening, and the rib behind it."""
    opening = _ring(_inner(flat, "front"), _inner(flat, "back"))
    shade = darker(colour, 0.25) if ink_on(colour) == "#000000" else lighter(colour, 0.16)
    seam = flat.panels["back"].edge("collar seam").path
    return [
        *_filled(opening, shade, line),
        Shape(Layer.NOTE, seam, colour=line),
    ]


def _neck_patch(flat: Flat, marks: Sequence[_Mark], colour: str, line: str) -> list[Entity]:
    """Return the top of the back's inside, as it lies open for the neck label."""
    seam = flat.panels["back"].edge("collar seam").path
    side = seam.end.x + 40.0
    low = max(m.placed.anchor.y + m.placed.height for m in marks) + 20.0 if marks else 100.0
    corners = [seam.end, Point(side, 12.0), Point(side, low), Point(-side, low), Point(-side, 12.0)]
    patch = seam.then(Path.through([*corners, seam.start]))
    return [
        *_filled(patch, colour, line),
        *_filled(_rib(flat, "back"), lighter(colour, 0.08), line),
    ]


def _filled(path: Path, colour: str, line: str) -> list[Entity]:
    return [Area((path,), colour), Shape(Layer.NOTE, path, colour=line, stroke=0.2)]


def _prints(marks: Sequence[_Mark], *, mirrored: bool) -> list[Entity]:
    pictures: list[Entity] = []
    for one in marks:
        box = one.placed.box(hangs=one.location.hangs)
        if mirrored:
            box = Box(-box.right, box.top, -box.left, box.bottom)
        pictures.append(Picture(box, one.plan.artwork.preview, one.plan.name))
    return pictures


def bare(flat: Flat, panel: str, colour: str) -> list[Entity]:
    """Return the front or back of a garment without prints, full size, its middle at x = 0.

    A garment without such a panel shows the first it has; one without a collar only its outline.
    """
    line = darker(colour) if ink_on(colour) == "#000000" else lighter(colour, 0.45)
    shown = flat.panels.get(panel) or next(iter(flat.panels.values()))
    if all(edge.name != "collar seam" for edge in shown.edges):
        return _filled(shown.outline, colour, line)
    inside = _neck_inside(flat, colour, line) if panel == "front" else []
    return [*inside, *_body(flat, panel, colour, line)]
