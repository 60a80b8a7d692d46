"""The platen map of a print: one page to hang beside the press, and one at 1:1 to mark it by.

title, location, scale, platen
how to lay the garment: one sentence
the figure, as large as there is room for
a row of figures for each place of ink
what to mind
"""

from jigs.documents.captions import broken
from jigs.documents.platen_figure import Figure
from jigs.documents.platen_full_size import full_size
from jigs.documents.platen_shown import Shown
from jigs.documents.platen_words import loaded, notes, rows
from jigs.drawing.drawing import Drawing, Entity, Layer, Page, Text
from jigs.drawing.marks import fitted
from jigs.drawing.palette import BLACK
from jigs.drawing.tile import tiles
from jigs.geometry import Point
from jigs.geometry.strokes import width_of
from jigs.order.order import Paper
from jigs.plan.plan import Shop
from jigs.units import Mm, say

#: No smaller page holds a map, and no larger one is hung beside a press (ISO 216, A3).
_LEAST: tuple[Mm, Mm] = (190.0, 254.0)
_MOST: tuple[Mm, Mm] = (297.0, 420.0)
_EDGE: Mm = 10.0
_TITLE, _HEAD, _LOAD, _ROW, _NOTE = 5.0, 2.8, 3.2, 2.1, 2.2
_PITCH = 1.75
_GAP: Mm = 4.0
_SCALES = (1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40)


def map_page(one: Shown, reference: str, paper: Paper) -> Page:
    """Return the map of a load, to scale."""
    wide = min(max(paper.width, _LEAST[0]), _MOST[0])
    high = min(max(paper.height, _LEAST[1]), _MOST[1])
    room = wide - 2 * _EDGE
    below, deep = _below(one, room)
    load = broken(loaded(one), _LOAD, room)
    top = _EDGE + _TITLE + 2.0 * _HEAD + _GAP + len(load) * _LOAD * _PITCH + _GAP / 2
    left = high - _EDGE - deep - _GAP - top
    figure = _figure(one, room, left)
    number, count = one.count
    which = f" · load {number} of {count}" if count > 1 else ""
    platen = " × ".join(say(side, one.unit) for side in
                        (one.press.platen_width, one.press.platen_height))  # fmt: skip
    title = f"{reference}: platen map, {one.title}"
    says = f"{one.side} up{which} · platen {platen} · scale 1:{figure.scale:g}"
    entities: list[Entity] = []
    y = _EDGE + _TITLE
    entities.append(_text(*fitted(title, _TITLE, room), y))
    y += 2.0 * _HEAD
    entities.append(_text(*fitted(says, _HEAD, room), y))
    y += _GAP
    for line in load:
        y += _LOAD * _PITCH
        entities.append(_text(line, _LOAD, y))
    corner = Point((wide - figure.width) / 2, top + max(0.0, (left - figure.height) / 2))
    entities += figure.drawn(corner)
    entities += Drawing(tuple(below)).moved(0.0, high - _EDGE - deep).entities
    words = f"How garments lie on the platen, scale 1:{figure.scale:g}. {loaded(one)}"
    return Page(wide, high, Drawing(tuple(entities)), title, words)


def full_size_pages(one: Shown, reference: str, shop: Shop) -> tuple[Page, ...]:
    """Return the map of a load at 1:1 on the order's paper."""
    number, count = one.count
    which = f", load {number} of {count}" if count > 1 else ""
    paper = shop.paper
    return tiles(
        full_size(one),
        title=f"Platen map, {one.title}{which}",
        says=f"To lay on the cold platen, 1:1. {loaded(one)}",
        width=paper.width,
        height=paper.height,
        margin=paper.margin,
        overlap=paper.overlap,
        x=shop.printer.x,
        y=shop.printer.y,
        reference=reference,
    )


def _figure(one: Shown, wide: Mm, high: Mm) -> Figure:
    figures = (Figure(one, scale) for scale in _SCALES)
    fits = (each for each in figures if each.width <= wide and each.height <= high)
    return next(fits, Figure(one, _SCALES[-1]))


def _text(words: str, height: Mm, y: Mm, x: Mm = _EDGE) -> Text:
    return Text(Layer.NOTE, words, Point(x, y), height, colour=BLACK)


def _table(one: Shown, room: Mm) -> tuple[list[Text], Mm]:
    """Return the figures below one another, from y = 0 down, and how deep they are.

    Sizes are broken over as many lines as they take.
    """
    lines = rows(one)
    wide = [_GAP + max(width_of(row[k], _ROW) for row in lines if row[k])
            for k in range(len(lines[0]))]  # fmt: skip
    wide[1] = min(wide[1], room - sum(wide) + wide[1] + _GAP)
    made, y = [], 0.0
    for row in lines:
        x, deepest = _EDGE, 1
        for k, cell in enumerate(row):
            said = broken(cell, _ROW, wide[k] - _GAP + 1e-6) if cell else []
            made += [
                _text(each, _ROW, y + (n + 1) * _ROW * _PITCH, x) for n, each in enumerate(said)
            ]
            x, deepest = x + wide[k], max(deepest, len(said))
        y += deepest * _ROW * _PITCH
    return made, y


def _below(one: Shown, room: Mm) -> tuple[list[Text], Mm]:
    """Return the table and what is to be minded, from y = 0 down, and how deep they are."""
    made, y = _table(one, room)
    y += _GAP / 2
    for note in notes(one):
        for line in broken(note, _NOTE, room):
            y += _NOTE * _PITCH
            made.append(_text(line, _NOTE, y))
        y += 0.6
    return made, y
