"""Sheets to cut: all plates of an order nested on the cutter's bed or stock, and their list."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from typing import Any, TypeAlias

from jigs.documents.cutting import cut_drawing, cut_says, cutting_lines, joints_say
from jigs.drawing.bed import MARGIN
from jigs.drawing.drawing import Drawing, Entity, Layer, Page, Shape, Text
from jigs.drawing.pack import Packing, Place, packed
from jigs.files import Output
from jigs.geometry import Affine, Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.order.order import Cutter
from jigs.plan import JigPlan, Plan
from jigs.plan.jigs import cutter_of, plate_cutting
from jigs.plan.jigs import drawn as drawn_whole
from jigs.styles import STYLES
from jigs.units import Mm, say
from jigs.writers import as_bytes

#: `map`, or an executor's.
Draw: TypeAlias = Callable[..., Any]

#: What is left of the sheet between two parts, for heat and clamps (common practice, no source).
GAP: Mm = 5.0
#: A part's name stands in the gap below it, no larger than that takes.
_NAME: Mm = 2.4
_BELOW: Mm = 1.2


@dataclass(frozen=True, slots=True)
class Part:
    """A plate or a piece of one: its name, its jig, and its nominal drawing."""

    name: str
    jig: JigPlan
    drawing: Drawing

    @property
    def box(self) -> Box:
        """Box of its cut outlines."""
        return Drawing(self.drawing.shapes(Layer.CUT)).bounds()


@dataclass(frozen=True, slots=True)
class Nest:
    """An order's parts of one material, how they are packed, and the jigs too large for a sheet."""

    name: str
    """What its sheets are called: `sheet`, or the style whose material is its own."""
    cutter: Cutter
    gap: Mm
    parts: tuple[Part, ...]
    packing: Packing
    left: tuple[str, ...]


def nests(plan: Plan) -> tuple[Nest, ...]:
    """Return an order's plates, and the pieces of larger ones, packed on the cutter's sheets.

    What is made of another material than the cutter's lies on sheets of its own.
    """
    by_name: dict[str, list[JigPlan]] = {}
    for jig in plan.jigs:
        name = jig.style if STYLES.get(jig.style).material else "sheet"
        by_name.setdefault(name, []).append(jig)
    return tuple(_nest(name, jigs, plan.shop.cutter) for name, jigs in by_name.items())


def _nest(name: str, jigs: Sequence[JigPlan], cutter: Cutter) -> Nest:
    cutter = cutter_of(jigs[0].style, cutter)
    parts: list[Part] = []
    left = []
    for jig in jigs:
        pieces = plate_cutting(jig.style, jig.template, cutter).pieces
        many = len(pieces) > 1
        parts += (
            Part(f"{jig.stem}-piece-{k}" if many else jig.stem, jig, piece)
            for k, piece in enumerate(pieces, start=1)
        )
        left += [] if pieces else [jig.stem]
    sizes = [(part.box.width, part.box.height) for part in parts]
    wide, high = cutter.sheet
    room = wide - 2 * MARGIN, high - 2 * MARGIN
    # What is left of a sheet between two parts has to hold too; both cuts take a kerf from it.
    gap = max(GAP, cutter.material.web)
    return Nest(
        name, cutter, gap, tuple(parts), packed(sizes, room, gap + 2 * cutter.kerf), tuple(left)
    )


def cut_sheets(plan: Plan, draw: Draw = map) -> Iterator[Output]:
    """Return the sheets and their list, if the order has a cutter and more than one part.

    `draw` maps a function over sheets, at once if it can: they are begun when this is called.
    """
    if not plan.shop.cutter.own:
        return iter(())
    found = nests(plan)
    if sum(len(one.parts) for one in found) < 2:
        return iter(())
    text = "".join(f"{line}\n" for line in _text(plan, found)).encode()
    paths, pages = [], []
    for one in found:
        for number in range(1, len(one.packing.sheets) + 1):
            paths.append(f"cut-sheets/{one.name}-{number}")
            pages.append(tuple(sheet_page(plan, one, number, kerf=kerf) for kerf in (True, False)))
    drawn = draw(_files, paths, pages)
    return chain([Output("cut-sheets.txt", text)], chain.from_iterable(drawn))


def _files(path: str, pages: tuple[Page, ...]) -> tuple[Output, ...]:
    """Return a sheet's files: to cut, with the kerf in them, and a nominal preview."""
    cut, nominal = pages
    return (
        Output(f"{path}.svg", as_bytes("svg", [cut])),
        Output(f"{path}.dxf", as_bytes("dxf", [cut])),
        Output(f"{path}.png", as_bytes("png", [nominal])),
    )


def sheet_page(plan: Plan, found: Nest, number: int, *, kerf: bool) -> Page:
    """Return a sheet as a page of its own size; as the tool follows it if wanted, or nominal."""
    cutter = found.cutter
    wide, high = cutter.sheet
    places = found.packing.sheets[number - 1]
    drawing = Drawing((Shape(Layer.NOTE, Path.box(Box(0.0, 0.0, wide, high))),))
    for place in places:
        part = found.parts[place.index]
        drawn = part.drawing
        if kerf:
            jig = part.jig
            whole = drawn_whole(jig.style, jig.template)
            plate = None if drawn is whole else whole
            drawn = cut_drawing(drawn, jig.template, jig.style, cutter, plate)
        drawing = drawing.plus(_laid(drawn, part.box, place), *_named(part, place))
    count = len(found.packing.sheets)
    kind = "cut sheet" if found.name == "sheet" else f"{found.name} cut sheet"
    title = f"{plan.reference}: {kind} {number} of {count}"
    label = f"{title} - {wide:g} x {high:g} mm - {_parts(len(places))}"
    drawing = drawing.plus(Text(Layer.NOTE, label, Point(MARGIN, 3.6), _NAME))
    says = (
        f"{kind.capitalize()} {number} of {count} of {plan.reference}: {_parts(len(places))} on "
        f"{wide:g} x {high:g} mm, {found.gap:g} mm apart. The names between them are on the note "
        "layer, which no tool follows."
    )
    return Page(wide, high, drawing, title, says + cut_says(cutter, drawing))


def _laid(drawing: Drawing, box: Box, place: Place) -> Drawing:
    """Return a part's cut, scored and engraved lines where it lies, turned but never mirrored."""
    by = Affine.move(-box.left, -box.top)
    angle = 0.0
    if place.turned:
        # A quarter from +x to +y: what was the bottom comes to the left.
        angle = 90.0
        by = by.then(Affine.turn(90.0)).then(Affine.move(box.height, 0.0))
    by = by.then(Affine.move(MARGIN + place.x, MARGIN + place.y))
    made: list[Entity] = []
    for entity in drawing.on(Layer.CUT, Layer.SCORE, Layer.ENGRAVE):
        if isinstance(entity, Shape):
            made.append(replace(entity, path=entity.path.moved(by)))
        elif isinstance(entity, Text):
            made.append(replace(entity, at=by.on(entity.at), angle=(entity.angle + angle) % 360))
    return Drawing(tuple(made))


def _named(part: Part, place: Place) -> list[Text]:
    """Return a part's name in the gap below it, as small as it takes."""
    box = part.box
    wide, high = (box.height, box.width) if place.turned else (box.width, box.height)
    size = min(_NAME, _NAME * wide / width_of(part.name, _NAME))
    at = Point(MARGIN + place.x, MARGIN + place.y + high + _BELOW + size)
    return [Text(Layer.NOTE, part.name, at, size)]


def _text(plan: Plan, found: Sequence[Nest]) -> Iterator[str]:
    """Yield the list of sheets: what is on each, how full it is, and what to mind."""
    yield f"{plan.reference}: sheets to cut"
    for one in found:
        yield ""
        yield from _of_one(one, plan.units)


def _of_one(found: Nest, unit: str) -> Iterator[str]:
    """Yield the sheets of one material."""
    cutter, packing = found.cutter, found.packing
    wide, high = cutter.sheet
    count = len(packing.sheets)
    yield (
        f"{cutter.material.title}: {_sheets(count)} of {say(wide, unit)} × {say(high, unit)} for "
        f"{_parts(len(found.parts))}; by the area of their boxes, no fewer than {packing.bound} "
        "would do."
    )
    yield (
        f"Parts lie {say(found.gap, unit)} apart and {say(MARGIN, unit)} from the sheet's sides. "
        "Turned ones are turned by a quarter, never mirrored."
    )
    if any("-piece-" in part.name for part in found.parts):
        yield f"Some jigs come in pieces. {joints_say(cutter)}"
    for number, places in enumerate(packing.sheets, start=1):
        yield ""
        share = _filled(found.parts, places, cutter)
        yield f"{found.name}-{number}: its parts' boxes cover {share:.0%}"
        for place in places:
            part = found.parts[place.index]
            size = f"{say(part.box.width, unit)} × {say(part.box.height, unit)}"
            yield f"  {part.name}  {size}{', turned' if place.turned else ''}"
    if found.left:
        yield ""
        yield "Too large for a sheet and not to be split (see widths.txt for why):"
        yield from (f"  {name}" for name in found.left)
    yield ""
    yield from cutting_lines(cutter)


def _filled(parts: Sequence[Part], places: Sequence[Place], cutter: Cutter) -> float:
    """Return the share of a sheet that the boxes of its parts take."""
    wide, high = cutter.sheet
    boxes = [parts[place.index].box for place in places]
    return sum(box.width * box.height for box in boxes) / (wide * high)


def _parts(count: int) -> str:
    return f"{count} part{'s' if count != 1 else ''}"


def _sheets(count: int) -> str:
    return f"{count} sheet{'s' if count != 1 else ''}"
