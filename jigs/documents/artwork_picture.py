"""Artwork at its printed size on the garment's colour, with what does not hold pointed at.

+------------------------------------------+
| crest.svg at 3 1/2 in: STOP, ...         |
| +---------------------+   (1) [magnified]  line 0.21 mm, coral
| |      artwork  <-(1) |   (2) [magnified]  gap 0.30 mm
| +---------------------+   its middle and its optical centre
|  |------| 2 in            its inks on each garment
+------------------------------------------+
"""

from collections.abc import Iterator, Sequence

from jigs.artwork.artwork import Artwork
from jigs.artwork.cropped import pixels_across
from jigs.artwork.detail import LINE, Thin
from jigs.documents.artwork_beside import COLUMN, INSET, column
from jigs.documents.artwork_sheet import GREY, INK, LINE_HIGH, SMALL, Mark, Sheet, cross, ring, text
from jigs.documents.artwork_verdict import file_stops, stops_anywhere, stops_at
from jigs.documents.pointers import pointer, spots
from jigs.documents.shades import ink_on
from jigs.drawing import palette
from jigs.drawing.drawing import Area, Drawing, Entity, Layer, Page, Picture, Shape, Text
from jigs.geometry import Box, Path, Point
from jigs.order.order import Transfer
from jigs.plan import Holding
from jigs.plan.held import (
    WIDE,
    at_width,
    held_at,
    ink_name,
    judged,
    limit_of,
    passes,
    place_name,
    thicken_by,
    told,
)
from jigs.plan.held_words import ground_text, hundredths, tiny
from jigs.units import INCH, POINT, Mm, say

_EDGE: Mm = 10.0
_TITLE: Mm = 5.0
#: Room between the ink and the cloth's edge, for numbers.
_AROUND: Mm = 16.0
_LEAST_WIDTH, _LEAST_HEIGHT = 96.0, 72.0
_GAP: Mm = 8.0
#: How wide a place is in its magnified part, on a part of the print of these sizes.
_PLACE: Mm = 3.0
_LEAST_PART, _MOST_PART = 3.0, 20.0
_LEAST_PIXELS = 36
#: More places than these only make a picture that nobody reads.
_MOST_PLACES, _MOST_SPECKS = 6, 2
#: A print larger than this is shown smaller, so that the words on the page stay legible.
_LARGEST: Mm = 500.0
_NEUTRAL = ("#d4d4d4", "#5c5c5c")


def artwork_page(
    art: Artwork, held: Holding | None, transfer: Transfer, unit: str, name: str
) -> Page:
    """Return the picture of artwork at the least width that it is judged at."""
    rows = held.rows if held else ()
    width = min((row.width for row in rows), default=art.ink.width)
    sheet = _sheet(art, width, held)
    marks = _marks(sheet, transfer)
    found = held.contrasts if held else ()
    stops = _stops(art, held, width, transfer)
    right = sheet.cloth.right + _GAP + COLUMN + _EDGE
    title = f"{name} at {say(width, unit)}"
    verdict = f"STOP: {stops}" if stops else "holds"
    corner = Point(sheet.cloth.right + _GAP, sheet.cloth.top)
    beside, bottom = column(sheet, marks, found, unit, corner)
    drawing = Drawing().plus(
        _head(title, verdict, _scale_says(sheet), right - 2 * _EDGE),
        _cloth(sheet),
        _pointers(sheet, marks),
        _bar(sheet, unit),
        beside,
    )
    height = max(bottom, sheet.cloth.bottom + 14) + _EDGE
    says = f"Artwork with what was found, scale 1:{sheet.scale:g}"
    return Page(right, height, drawing, f"{title}: {verdict}", says)


def _sheet(art: Artwork, width: Mm, held: Holding | None) -> Sheet:
    scale = next(
        n for n in (1, 2, 4, 10) if max(width, art.height_at(width)) / n <= _LARGEST or n == 10
    )
    wide, high = width / scale, art.height_at(width) / scale
    top = _EDGE + _TITLE * 4.0
    cloth = Box(
        _EDGE,
        top,
        _EDGE + max(wide + 2 * _AROUND, _LEAST_WIDTH),
        top + max(high + 2 * _AROUND, _LEAST_HEIGHT),
    )
    x, y = cloth.centre
    ink = Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
    return Sheet(art, width, scale, ink, cloth, _ground(art, held))


def _ground(art: Artwork, held: Holding | None) -> str:
    """Return the first garment's colour; without any, the grey on which the main ink shows."""
    if held and held.contrasts:
        return held.contrasts[0].garment_hex
    from jigs.artwork.colour import contrast

    inks = art.detail.inks[:1] if art.detail else ()
    return max(_NEUTRAL, key=lambda grey: [contrast(ink.colour, grey) for ink in inks])


def _marks(sheet: Sheet, transfer: Transfer) -> list[Mark]:
    """Return what is pointed at: what fails, worst first; or the thinnest of each kind; specks."""
    art, detail = sheet.art, sheet.art.detail
    if detail is None:
        return []
    places = sorted(judged(detail), key=lambda one: one.width / limit_of(one.kind, transfer))
    failing = told([one for one in places if not passes(art, one, sheet.width, transfer)])
    first = {one.kind: one for one in reversed(places)}
    shown = failing[:_MOST_PLACES] or [one for one in places if first[one.kind] is one]
    marks = [_place(sheet, one, transfer) for one in shown]
    for box in detail.specks[:_MOST_SPECKS]:
        if art.ink.overlaps(box):
            size = " × ".join(
                f"{at_width(art, side, sheet.width):.2g}" for side in (box.width, box.height)
            )
            words = (
                f"speck {size} mm",
                place_name(art.ink, box.centre),
                "stray? delete or ignore it",
            )
            marks.append(Mark(sheet.on_page(box.centre), words, _part(sheet, box.centre, 1.0)))
    return marks


def _place(sheet: Sheet, one: Thin, transfer: Transfer) -> Mark:
    art, detail = sheet.art, sheet.art.detail
    printed = at_width(art, one.width, sheet.width)
    limit = f"{limit_of(one.kind, transfer) / POINT:.3g} pt"
    lacks = thicken_by(art, one, sheet.width, transfer)
    verdict = (
        f"under {limit}: widen {hundredths(lacks)} mm"
        if lacks > 0
        else f"the thinnest; {limit} will do"
    )
    if one.kind != LINE and lacks <= 0:
        verdict = f"the narrowest; {limit} will do"
    inks = detail.inks if detail else ()
    ink = ink_name(inks[one.ink]) if one.ink is not None else ""
    words = (
        f"{one.kind} {tiny(printed, limit_of(one.kind, transfer))}",
        ", ".join(w for w in (ink, place_name(art.ink, one.at)) if w),
    )
    # Of a wide place both sides do not fit into a part that is worth magnifying.
    wide = printed > WIDE * limit_of(one.kind, transfer)
    part = None if wide else _part(sheet, one.at, printed)
    return Mark(sheet.on_page(one.at), (*words, verdict), part, one)


def _part(sheet: Sheet, at: Point, printed: Mm) -> Box:
    """Return which square of the file is magnified: larger where there are few pixels."""
    across = pixels_across(sheet.art.preview) / sheet.width
    shown = min(max(printed * INSET / _PLACE, _LEAST_PART), _MOST_PART)
    shown = max(shown, _LEAST_PIXELS / across)
    half = shown / 2 * sheet.art.ink.width / sheet.width
    return Box(at.x - half, at.y - half, at.x + half, at.y + half)


def _stops(art: Artwork, held: Holding | None, width: Mm, transfer: Transfer) -> str:
    """Return what does not hold at the width that is drawn, in few words; empty if all does."""
    if art.detail is None or held is None:
        return ", ".join(file_stops(art))
    at_this = stops_at(held_at(art, (), width, transfer), transfer)
    return ", ".join([*at_this, *stops_anywhere(art, held)])


def _scale_says(sheet: Sheet) -> str:
    size = "at the printed size" if sheet.scale == 1 else f"scale 1:{sheet.scale:g}"
    return f"{size} · {sheet.art.kind.upper()}, {ground_text(sheet.art)}"


def _head(title: str, verdict: str, below: str, room: Mm) -> Iterator[Entity]:
    colour = INK if verdict == "holds" else palette.VERMILION
    y = _EDGE + _TITLE
    yield text(title, Point(_EDGE, y), _TITLE, room)
    yield text(verdict, Point(_EDGE, y + 1.5 * _TITLE), 0.8 * _TITLE, room, colour=colour)
    yield text(below, Point(_EDGE, y + 2.45 * _TITLE), SMALL, room, colour=GREY)


def _cloth(sheet: Sheet) -> Iterator[Entity]:
    """Yield the artwork on its ground, its ink box, the box's middle and the optical centre."""
    outline = Path.box(sheet.cloth)
    yield Area((outline,), sheet.colour)
    yield Shape(Layer.NOTE, outline, colour=GREY, stroke=0.2)
    yield Picture(sheet.ink, sheet.art.preview, sheet.art.name)
    line = ink_on(sheet.colour)
    box = Path.box(sheet.ink.grown(0.5))
    yield Shape(Layer.NOTE, box, colour=line, stroke=0.15, dashes=(1.6, 1.2))
    for sign, at in zip((cross, ring), _centres(sheet), strict=False):
        yield from sign(at)


def _centres(sheet: Sheet) -> list[Point]:
    """Return the middle of the ink box and, if it is known, the optical centre."""
    detail = sheet.art.detail
    return [sheet.ink.centre, *([sheet.on_page(detail.centroid)] if detail else [])]


def _pointers(sheet: Sheet, marks: Sequence[Mark]) -> Iterator[Entity]:
    targets = [one.at for one in marks]
    placed = spots(targets, sheet.cloth, sheet.ink, _centres(sheet))
    pointers = [
        pointer(k, spot, target)
        for k, (spot, target) in enumerate(zip(placed, targets, strict=True), 1)
    ]
    for one in marks:
        if one.thin is None:
            yield Shape(Layer.NOTE, Path.circle(one.at, 2.5), colour=palette.VERMILION, stroke=0.4)
    for entities in pointers:
        yield from entities


def _bar(sheet: Sheet, unit: str) -> Iterator[Entity]:
    """Yield a scale bar below the cloth."""
    step, name = (INCH, "in") if unit == "in" else (10.0, "mm")
    count = next(
        (n for n in (4, 2, 1) if n * step * (5 if unit == "mm" else 1) / sheet.scale <= 80), 1
    ) * (5 if unit == "mm" else 1)  # fmt: skip
    long, y = count * step / sheet.scale, sheet.cloth.bottom + 6
    left = sheet.cloth.left
    yield Shape(Layer.NOTE, Path.through([Point(left, y), Point(left + long, y)]), colour=INK)
    for k in range(count + 1):
        x = left + k * step / sheet.scale
        tall = 2.0 if k in {0, count} else 1.0
        yield Shape(
            Layer.NOTE, Path.through([Point(x, y - tall), Point(x, y)]), colour=INK, stroke=0.2
        )
    said = f"{count} in" if name == "in" else f"{count * 10} mm"
    yield Text(Layer.NOTE, said, Point(left + long + 2, y), LINE_HIGH, colour=INK)
