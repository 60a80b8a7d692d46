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
from dataclasses import dataclass

from jigs.artwork.artwork import Artwork
from jigs.artwork.cropped import cropped, pixels_across
from jigs.artwork.detail import LINE, Thin
from jigs.documents.pointers import arrow, badge, pointer, spots
from jigs.documents.shades import ink_on
from jigs.drawing import palette
from jigs.drawing.drawing import Anchor, Area, Drawing, Entity, Layer, Page, Picture, Shape, Text
from jigs.drawing.marks import fitted
from jigs.geometry import Box, Path, Point
from jigs.order.order import Transfer
from jigs.plan import Contrast, Holding
from jigs.plan.held import at_width, ink_name, judged, limit_of, passes, place_name, thicken_by
from jigs.plan.holding import DETAIL_SHARE, WANTED_CONTRAST, hidden, hundredths, tiny
from jigs.units import INCH, POINT, Mm, say

_EDGE: Mm = 10.0
_TITLE: Mm = 5.0
_LINE: Mm = 2.9
_SMALL: Mm = 2.4
_PITCH = 1.75
#: Room between the ink and the cloth's edge, for numbers.
_AROUND: Mm = 16.0
_LEAST_WIDTH, _LEAST_HEIGHT = 96.0, 72.0
_COLUMN: Mm = 96.0
_GAP: Mm = 8.0
#: A magnified part, and how wide the place is in it, on a part of the print of these sizes.
_INSET: Mm = 24.0
_PLACE: Mm = 3.0
_LEAST_PART, _MOST_PART = 3.0, 20.0
_LEAST_PIXELS = 36
#: More places than these only make a picture that nobody reads.
_MOST_PLACES, _MOST_SPECKS, _MOST_GARMENTS = 6, 2, 8
#: A print larger than this is shown smaller, so that the words on the page stay legible.
_LARGEST: Mm = 500.0
_INK, _GREY = "#222222", "#8a8a8a"
_SWATCH: Mm = 7.0
_NEUTRAL = ("#d4d4d4", "#5c5c5c")


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The artwork at a width, and where its ink lies on the page."""

    art: Artwork
    width: Mm
    scale: float
    ink: Box
    cloth: Box
    colour: str

    def on_page(self, at: Point) -> Point:
        """Return where a point of the file lies on the page."""
        k = self.ink.width / self.art.ink.width
        return Point(
            self.ink.left + (at.x - self.art.ink.left) * k,
            self.ink.top + (at.y - self.art.ink.top) * k,
        )


@dataclass(frozen=True, slots=True)
class _Mark:
    """Something pointed at: its place on the page, what is said of it, how it is magnified."""

    at: Point
    words: tuple[str, ...]
    part: Box
    """In the file."""
    thin: Thin | None = None


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
    right = sheet.cloth.right + _GAP + _COLUMN + _EDGE
    title = f"{name} at {say(width, unit)}"
    verdict = f"STOP: {stops}" if stops else "holds"
    column, bottom = _column(sheet, marks, found, unit)
    drawing = Drawing().plus(
        _head(title, verdict, _scale_says(sheet), right - 2 * _EDGE),
        _cloth(sheet),
        _pointers(sheet, marks),
        _bar(sheet, unit),
        column,
    )
    height = max(bottom, sheet.cloth.bottom + 14) + _EDGE
    says = f"Artwork with what was found, scale 1:{sheet.scale:g}"
    return Page(right, height, drawing, f"{title}: {verdict}", says)


def _sheet(art: Artwork, width: Mm, held: Holding | None) -> _Sheet:
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
    return _Sheet(art, width, scale, ink, cloth, _ground(art, held))


def _ground(art: Artwork, held: Holding | None) -> str:
    """Return the first garment's colour; without any, the grey on which the main ink shows."""
    if held and held.contrasts:
        return held.contrasts[0].garment_hex
    from jigs.artwork.colour import contrast

    inks = art.detail.inks[:1] if art.detail else ()
    return max(_NEUTRAL, key=lambda grey: [contrast(ink.colour, grey) for ink in inks])


def _marks(sheet: _Sheet, transfer: Transfer) -> list[_Mark]:
    """Return what is pointed at: what fails, worst first; or the thinnest of each kind; specks."""
    art, detail = sheet.art, sheet.art.detail
    if detail is None:
        return []
    places = sorted(judged(detail), key=lambda one: one.width / limit_of(one.kind, transfer))
    failing = [one for one in places if not passes(art, one, sheet.width, transfer)]
    first = {one.kind: one for one in reversed(places)}
    shown = failing[:_MOST_PLACES] or [one for one in places if first[one.kind] is one]
    marks = [_place(sheet, one, transfer) for one in shown]
    for box in detail.specks[:_MOST_SPECKS]:
        if art.ink.grown(1e-6).holds(box):
            size = " × ".join(
                f"{at_width(art, side, sheet.width):.2g}" for side in (box.width, box.height)
            )
            words = (
                f"speck {size} mm",
                place_name(art.ink, box.centre),
                "stray? delete or ignore it",
            )
            marks.append(_Mark(sheet.on_page(box.centre), words, _part(sheet, box.centre, 1.0)))
    return marks


def _place(sheet: _Sheet, one: Thin, transfer: Transfer) -> _Mark:
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
        f"{one.kind} {tiny(printed)}",
        ", ".join(w for w in (ink, place_name(art.ink, one.at)) if w),
    )
    return _Mark(sheet.on_page(one.at), (*words, verdict), _part(sheet, one.at, printed), one)


def _part(sheet: _Sheet, at: Point, printed: Mm) -> Box:
    """Return which square of the file is magnified: larger where there are few pixels."""
    across = pixels_across(sheet.art.preview) / sheet.width
    shown = min(max(printed * _INSET / _PLACE, _LEAST_PART), _MOST_PART)
    shown = max(shown, _LEAST_PIXELS / across)
    half = shown / 2 * sheet.art.ink.width / sheet.width
    return Box(at.x - half, at.y - half, at.x + half, at.y + half)


def _stops(art: Artwork, held: Holding | None, width: Mm, transfer: Transfer) -> str:
    """Return what does not hold, in few words; empty if all does."""
    detail = art.detail
    if detail is None or held is None:
        return "see what was said of the file" if any(one.blocks for one in art.findings) else ""
    failing = {one.kind for one in judged(detail) if not passes(art, one, width, transfer)}
    said = ["lines too thin"] if LINE in failing else []
    said += ["gaps too narrow"] if failing - {LINE} else []
    if any(row.ppi is not None and row.ppi < transfer.least_ppi for row in held.rows):
        said.append("too few pixels")
    lost = (
        f"{ink_name(detail.inks[one.ink])} hardly visible on {one.garment}"
        for one in held.contrasts
        if hidden(one) and detail.inks[one.ink].share >= DETAIL_SHARE
    )
    said += list(lost)[:1]
    blocking = [one for one in (*art.findings, *held.findings) if one.blocks]
    return ", ".join(said) or ("see the report" if blocking else "")


def _scale_says(sheet: _Sheet) -> str:
    size = "at the printed size" if sheet.scale == 1 else f"scale 1:{sheet.scale:g}"
    return f"{size} · {sheet.art.kind.upper()}, {sheet.art.ground} ground"


def _text(
    words: str, at: Point, height: Mm, room: Mm, anchor: Anchor = Anchor.START, colour: str = _INK
) -> Text:
    said, high = fitted(words, height, room, least=0.75 * height)
    return Text(Layer.NOTE, said, at, high, anchor, colour=colour)


def _head(title: str, verdict: str, below: str, room: Mm) -> Iterator[Entity]:
    colour = _INK if verdict == "holds" else palette.VERMILION
    y = _EDGE + _TITLE
    yield _text(title, Point(_EDGE, y), _TITLE, room)
    yield _text(verdict, Point(_EDGE, y + 1.5 * _TITLE), 0.8 * _TITLE, room, colour=colour)
    yield _text(below, Point(_EDGE, y + 2.45 * _TITLE), _SMALL, room, colour=_GREY)


def _cloth(sheet: _Sheet) -> Iterator[Entity]:
    """Yield the artwork on its ground, its ink box, the box's middle and the optical centre."""
    outline = Path.box(sheet.cloth)
    yield Area((outline,), sheet.colour)
    yield Shape(Layer.NOTE, outline, colour=_GREY, stroke=0.2)
    yield Picture(sheet.ink, sheet.art.preview, sheet.art.name)
    line = ink_on(sheet.colour)
    box = Path.box(sheet.ink.grown(0.5))
    yield Shape(Layer.NOTE, box, colour=line, stroke=0.15, dashes=(1.6, 1.2))
    for sign, at in zip((_cross, _ring), _centres(sheet), strict=False):
        yield from sign(at)


def _centres(sheet: _Sheet) -> list[Point]:
    """Return the middle of the ink box and, if it is known, the optical centre."""
    detail = sheet.art.detail
    return [sheet.ink.centre, *([sheet.on_page(detail.centroid)] if detail else [])]


def _cross(at: Point) -> Iterator[Entity]:
    """Yield the sign of the middle of the ink box, which shows on any colour."""
    for colour, stroke in (("#ffffff", 1.0), ("#000000", 0.4)):
        for way in (Point(2.2, 0.0), Point(0.0, 2.2)):
            path = Path.through([at.minus(way), at.plus(way)])
            yield Shape(Layer.NOTE, path, colour=colour, stroke=stroke)


def _ring(at: Point) -> Iterator[Entity]:
    """Yield the sign of the optical centre, likewise."""
    for colour, stroke in (("#ffffff", 1.2), (palette.BLUE, 0.6)):
        yield Shape(Layer.NOTE, Path.circle(at, 1.7), colour=colour, stroke=stroke)


def _pointers(sheet: _Sheet, marks: Sequence[_Mark]) -> Iterator[Entity]:
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


def _bar(sheet: _Sheet, unit: str) -> Iterator[Entity]:
    """Yield a scale bar below the cloth."""
    step, name = (INCH, "in") if unit == "in" else (10.0, "mm")
    count = next(
        (n for n in (4, 2, 1) if n * step * (5 if unit == "mm" else 1) / sheet.scale <= 80), 1
    ) * (5 if unit == "mm" else 1)  # fmt: skip
    long, y = count * step / sheet.scale, sheet.cloth.bottom + 6
    left = sheet.cloth.left
    yield Shape(Layer.NOTE, Path.through([Point(left, y), Point(left + long, y)]), colour=_INK)
    for k in range(count + 1):
        x = left + k * step / sheet.scale
        tall = 2.0 if k in {0, count} else 1.0
        yield Shape(
            Layer.NOTE, Path.through([Point(x, y - tall), Point(x, y)]), colour=_INK, stroke=0.2
        )
    said = f"{count} in" if name == "in" else f"{count * 10} mm"
    yield Text(Layer.NOTE, said, Point(left + long + 2, y), _LINE, colour=_INK)


def _column(
    sheet: _Sheet, marks: Sequence[_Mark], found: Sequence[Contrast], unit: str
) -> tuple[list[Entity], Mm]:
    """Return what stands beside the artwork, and where it ends."""
    x, y = sheet.cloth.right + _GAP, sheet.cloth.top
    made: list[Entity] = []
    for k, mark in enumerate(marks, 1):
        inset = Box(x + 8, y, x + 8 + _INSET, y + _INSET)
        made += [*badge(k, Point(x + 3, y + 4)), *_inset(sheet, mark, inset)]
        for n, words in enumerate(mark.words):
            at = Point(inset.right + 3, y + (n + 1) * _LINE * _PITCH + 2)
            made.append(_text(words, at, _LINE, x + _COLUMN - at.x))
        y += _INSET + 4
    y += 2 if marks else 0
    made += _legend(sheet, Point(x, y), unit)
    y += 2 * _LINE * _PITCH + 3
    made += _garments(sheet, found, Point(x, y))
    return made, y + (_rows(found) + 1) * (_SWATCH + 1.5) if found else y


def _inset(sheet: _Sheet, mark: _Mark, room: Box) -> Iterator[Entity]:
    """Yield a part of the artwork magnified, with arrows to both sides of a thin place."""
    ink, outline = sheet.art.ink, Path.box(room)
    yield Area((outline,), sheet.colour)
    shares = Box(
        (mark.part.left - ink.left) / ink.width,
        (mark.part.top - ink.top) / ink.height,
        (mark.part.right - ink.left) / ink.width,
        (mark.part.bottom - ink.top) / ink.height,
    )
    png, _ = cropped(sheet.art.preview, shares)
    yield Picture(room, png, "magnified")
    yield Shape(Layer.NOTE, outline, colour=_GREY, stroke=0.2)
    if mark.thin is not None:
        more = room.width / mark.part.width
        for way in (mark.thin.across, mark.thin.across.times(-1)):
            tip = room.centre.plus(way.times(mark.thin.width / 2 * more))
            yield from arrow(tip.plus(way.times(5.0)), tip)


def _legend(sheet: _Sheet, at: Point, unit: str) -> Iterator[Entity]:
    """Yield what the two signs on the artwork mean, and how far apart they are."""
    y = at.y + _LINE
    yield from _cross(Point(at.x + 3, y - _LINE / 2))
    yield _text("middle of the ink box", Point(at.x + 8, y), _LINE, _COLUMN - 8)
    detail = sheet.art.detail
    if detail is None:
        return
    y += _LINE * _PITCH
    off = detail.centroid.minus(sheet.art.ink.centre).times(sheet.width / sheet.art.ink.width)
    parts = [
        f"{say(abs(by), unit)} {words[by > 0]}"
        for by, words in ((off.x, ("left", "right")), (off.y, ("above", "below")))
        if abs(by) >= 0.5
    ]
    yield from _ring(Point(at.x + 3, y - _LINE / 2))
    says = f"optical centre: {', '.join(parts) or 'the same, within 0.5 mm'}"
    yield _text(says, Point(at.x + 8, y), _LINE, _COLUMN - 8)


def _grounds(found: Sequence[Contrast]) -> list[tuple[str, str]]:
    return list(dict.fromkeys((one.garment, one.garment_hex) for one in found))[:_MOST_GARMENTS]


def _rows(found: Sequence[Contrast]) -> int:
    return len(_grounds(found))


def _garments(sheet: _Sheet, found: Sequence[Contrast], at: Point) -> Iterator[Entity]:
    """Yield a swatch for each garment colour with the inks on it, and their contrast."""
    detail = sheet.art.detail
    if not found or detail is None:
        return
    head = f"contrast on garments ({WANTED_CONTRAST:g} is asked)"
    yield _text(head, Point(at.x, at.y + _LINE), _LINE, _COLUMN)
    y = at.y + _LINE + 3
    for name, value in _grounds(found):
        own = [one for one in found if (one.garment, one.garment_hex) == (name, value)][:4]
        wide = max(len(own), 1) * 5.0 + 2.0
        swatch = Path.box(Box(at.x, y, at.x + wide, y + _SWATCH))
        yield Area((swatch,), value)
        yield Shape(Layer.NOTE, swatch, colour=_GREY, stroke=0.2)
        for k, one in enumerate(own):
            disc = Path.circle(Point(at.x + 3.5 + 5 * k, y + _SWATCH / 2), 1.9)
            yield Area((disc,), detail.inks[one.ink].colour)
        words = ", ".join(f"{ink_name(detail.inks[one.ink])} {_ratio(one)}" for one in own)
        at_text = Point(at.x + wide + 3, y + _SWATCH / 2 + _SMALL / 2)
        yield _text(f"{name}: {words}", at_text, _SMALL, _COLUMN - wide - 3)
        y += _SWATCH + 1.5


def _ratio(one: Contrast) -> str:
    said = f"{one.ratio:.1f}"
    return (
        f"{said} hidden" if hidden(one) else f"{said} weak" if one.ratio < WANTED_CONTRAST else said
    )
