"""What stands beside the artwork in its picture: places magnified, its signs, its garments."""

from collections.abc import Iterator, Sequence

from jigs.artwork.cropped import cropped
from jigs.documents.artwork_sheet import (
    GREY,
    LINE_HIGH,
    SMALL,
    Mark,
    Sheet,
    cross,
    ring,
    text,
)
from jigs.documents.pointers import arrow, badge
from jigs.drawing.drawing import Area, Entity, Layer, Picture, Shape
from jigs.geometry import Box, Path, Point
from jigs.geometry.strokes import written
from jigs.plan import Contrast
from jigs.plan.held import ink_name, main_inks
from jigs.plan.held_words import centre_text, ratio_text
from jigs.plan.holding import WANTED_CONTRAST, hidden
from jigs.units import Mm

COLUMN: Mm = 96.0
#: A magnified part.
INSET: Mm = 24.0
_PITCH = 1.75
_TIGHT = 1.6
_MOST_GARMENTS, _MOST_INKS = 8, 4
_SWATCH: Mm = 7.0


def column(
    sheet: Sheet, marks: Sequence[Mark], found: Sequence[Contrast], unit: str, at: Point
) -> tuple[list[Entity], Mm]:
    """Return what stands beside the artwork, from a corner down, and where it ends."""
    x, y = at
    made: list[Entity] = []
    for k, mark in enumerate(marks, 1):
        made += badge(k, Point(x + 3, y + 4))
        beside, down = x + 8, len(mark.words) * _PITCH * LINE_HIGH + 3
        if mark.part is not None:
            made += _inset(sheet, mark, mark.part, Box(x + 8, y, x + 8 + INSET, y + INSET))
            beside, down = x + 8 + INSET + 3, INSET + 4
        for n, words in enumerate(mark.words, 1):
            line = Point(beside, y + n * LINE_HIGH * _PITCH + (2 if mark.part else 0))
            made.append(text(words, line, LINE_HIGH, x + COLUMN - beside))
        y += down
    y += 2 if marks else 0
    made += _legend(sheet, Point(x, y), unit)
    y += 2 * LINE_HIGH * _PITCH + 3
    garments, y = _garments(sheet, found, Point(x, y))
    return [*made, *garments], y


def _inset(sheet: Sheet, mark: Mark, part: Box, room: Box) -> Iterator[Entity]:
    """Yield a part of the artwork magnified, with arrows to both sides of a thin place."""
    ink, outline = sheet.art.ink, Path.box(room)
    yield Area((outline,), sheet.colour)
    shares = Box(
        (part.left - ink.left) / ink.width,
        (part.top - ink.top) / ink.height,
        (part.right - ink.left) / ink.width,
        (part.bottom - ink.top) / ink.height,
    )
    png, _ = cropped(sheet.art.preview, shares)
    yield Picture(room, png, "magnified")
    yield Shape(Layer.NOTE, outline, colour=GREY, stroke=0.2)
    if mark.thin is not None:
        more = room.width / part.width
        for way in (mark.thin.across, mark.thin.across.times(-1)):
            tip = room.centre.plus(way.times(mark.thin.width / 2 * more))
            yield from arrow(tip.plus(way.times(5.0)), tip)


def _legend(sheet: Sheet, at: Point, unit: str) -> Iterator[Entity]:
    """Yield what the two signs on the artwork mean, and how far apart they are."""
    y = at.y + LINE_HIGH
    yield from cross(Point(at.x + 3, y - LINE_HIGH / 2))
    yield text("middle of the ink box", Point(at.x + 8, y), LINE_HIGH, COLUMN - 8)
    detail = sheet.art.detail
    if detail is None:
        return
    y += LINE_HIGH * _PITCH
    yield from ring(Point(at.x + 3, y - LINE_HIGH / 2))
    says = f"optical centre: {centre_text(sheet.art, sheet.width, unit)}"
    yield text(says, Point(at.x + 8, y), LINE_HIGH, COLUMN - 8)


def _grounds(found: Sequence[Contrast]) -> list[tuple[str, str]]:
    return list(dict.fromkeys((one.garment, one.garment_hex) for one in found))[:_MOST_GARMENTS]


def _garments(sheet: Sheet, found: Sequence[Contrast], at: Point) -> tuple[list[Entity], Mm]:
    """Return a swatch for each garment colour with the inks on it, their contrast; and the end."""
    detail = sheet.art.detail
    if not found or detail is None:
        return [], at.y
    head = f"contrast on garments ({WANTED_CONTRAST:g} is asked)"
    made: list[Entity] = [text(head, Point(at.x, at.y + LINE_HIGH), LINE_HIGH, COLUMN)]
    y = at.y + LINE_HIGH + 3
    for name, value in _grounds(found):
        shown = min(len(main_inks(detail)), _MOST_INKS)
        on = [
            one
            for one in found
            if (one.garment, one.garment_hex) == (name, value) and one.ink < shown
        ]
        wide = max(len(on), 1) * 5.0 + 2.0
        words = [f"{ink_name(detail.inks[one.ink])} {_ratio(one)}" for one in on]
        lines = _wrapped([f"{name}: {words[0]}", *words[1:]], COLUMN - wide - 3)
        high = max(_SWATCH, len(lines) * SMALL * _TIGHT)
        swatch = Path.box(Box(at.x, y, at.x + wide, y + _SWATCH))
        made += [
            Area((swatch,), value),
            Shape(Layer.NOTE, swatch, colour=GREY, stroke=0.2),
            *(
                Area(
                    (Path.circle(Point(at.x + 3.5 + 5 * k, y + _SWATCH / 2), 1.9),),
                    detail.inks[one.ink].colour,
                )
                for k, one in enumerate(on)
            ),
        ]
        first = y + (high - len(lines) * SMALL * _TIGHT) / 2 + SMALL * (1 + _TIGHT) / 2
        for n, said in enumerate(lines):
            place = Point(at.x + wide + 3, first + n * SMALL * _TIGHT)
            made.append(text(said, place, SMALL, COLUMN - wide - 3))
        y += high + 1.5
    return made, y


def _wrapped(words: Sequence[str], room: Mm) -> list[str]:
    """Return words with commas between them, on as many lines as they need."""
    lines: list[str] = []
    for k, word in enumerate(words, 1):
        word_and = f"{word}," if k < len(words) else word
        longer = f"{lines[-1]} {word_and}" if lines else word_and
        if lines and written(longer, SMALL).width <= room:
            lines[-1] = longer
        else:
            lines.append(word_and)
    return lines


def _ratio(one: Contrast) -> str:
    said = ratio_text(one.ratio)
    if hidden(one):
        return f"{said} hidden"
    return f"{said} weak" if one.ratio < WANTED_CONTRAST else said
