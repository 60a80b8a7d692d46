"""The printable zones of a garment: one small panel for each location, its zone shaded."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.drawing import palette
from jigs.drawing.drawing import Anchor, Area, Drawing, Entity, Layer, Shape, Text
from jigs.drawing.scaled import scaled
from jigs.garments import Flat
from jigs.geometry import Affine, Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.locations import LOCATIONS, Location, Placement, Seen, lacks, place
from jigs.order.order import Press
from jigs.units import Mm, say

_SCALES = (3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 25, 30)
_NAME: Mm = 3.0
_LABEL: Mm = 1.9
_LINE: Mm = 3.4
_GAP: Mm = 4.0
_HEAD: Mm = 4.0
_INK = "#222222"
_GREY = "#8a8a8a"
_ZONE = "#bcdcf0"
#: In the order a garment is looked at, front first.
_VIEWS = tuple(Seen)


@dataclass(frozen=True, slots=True)
class _Cell:
    """A location on its panel, full size, and what is said of it."""

    drawing: Drawing
    box: Box
    words: tuple[str, ...]

    @property
    def least(self) -> Mm:
        """Width that its words take."""
        return max(width_of(word, _LABEL) for word in self.words)


def zones(flat: Flat, room: Box, unit: str) -> tuple[Drawing, float]:
    """Return the zones of all locations of a garment, in a box of the page, and their scale."""
    cells = [_cell(location, flat, unit) for location in _locations(flat)]
    scale = next((n for n in _SCALES if _tall(cells, n, room.width) <= room.height), _SCALES[-1])
    return Drawing(tuple(_laid_out(cells, scale, room))), scale


def _locations(flat: Flat) -> list[Location]:
    found = [one for _, one in LOCATIONS if not lacks(one, flat)]
    return sorted(found, key=lambda one: _VIEWS.index(one.seen))


def _cell(location: Location, flat: Flat, unit: str) -> _Cell:
    """Return a location's panel as the operator looks at it, with its zone."""
    press = Press()
    placed = place(location, flat, (press.platen_width, press.platen_height))
    zone = placed.zone()
    side = Affine.scale(-1 if location.seen.mirrors else 1, 1)
    drop = f"{'drop' if location.hangs else 'up'} {say(placed.drop, unit)}"
    room = placed.room(1.0)
    if zone is None:
        words = (location.title, drop, f"no room: {room.limited_by}")
        shaded: list[Entity] = []
    else:
        words = (location.title, drop, f"square to {say(room.mm, unit)}: {room.limited_by}")
        path = zone.moved(side)
        shaded = [Area((path,), _ZONE), Shape(Layer.NOTE, path, colour=palette.BLUE, stroke=0.2)]
    panel = flat.panels[location.panel]
    outline = panel.outline.moved(side)
    drawn = [Shape(Layer.NOTE, outline, colour=_INK, stroke=0.18)] + [
        Shape(Layer.NOTE, one.path.moved(side), colour=_GREY, stroke=0.12) for one in panel.features
    ]
    drawing = Drawing().plus(shaded, drawn, _hung(location, placed, flat, side))
    return _Cell(drawing, outline.bounds(), words)


def _hung(location: Location, placed: Placement, flat: Flat, side: Affine) -> Iterator[Entity]:
    """Yield the drop, from the datum's level to the anchor, and a tick at the anchor."""
    x, y = placed.anchor
    level = flat.landmarks[location.datum].y
    reach = flat.measures.breadth / 25
    for a, b, width in (
        (Point(x, level), Point(x, y), 0.25),
        (Point(x - reach, level), Point(x + reach, level), 0.15),
        (Point(x - 2 * reach, y), Point(x + 2 * reach, y), 0.4),
    ):
        if a != b:
            path = Path.through([a, b]).moved(side)
            yield Shape(Layer.NOTE, path, colour=palette.VERMILION, stroke=width)


def _rows(cells: Sequence[_Cell], scale: float, width: Mm) -> list[list[_Cell]]:
    """Return the cells in rows no wider than the page, as even as they go."""
    count = max(1, len(cells))
    widths = [_wide(one, scale) for one in cells]
    for rows in range(1, count + 1):
        per = -(-count // rows)
        if all(sum(widths[k : k + per]) <= width for k in range(0, count, per)):
            break
    return [list(cells[k : k + per]) for k in range(0, len(cells), per)]


def _wide(cell: _Cell, scale: float) -> Mm:
    return max(cell.box.width / scale, cell.least) + _GAP


def _high(row: Sequence[_Cell], scale: float) -> Mm:
    return max(one.box.height for one in row) / scale + 3 * _LINE + _GAP


def _tall(cells: Sequence[_Cell], scale: float, width: Mm) -> Mm:
    return _HEAD + sum(_high(row, scale) for row in _rows(cells, scale, width))


def _laid_out(cells: Sequence[_Cell], scale: float, room: Box) -> Iterator[Entity]:
    says = f"printable zones, scale 1:{scale:g}"
    yield Text(Layer.NOTE, says, Point(room.left, room.top), _NAME, colour=_INK)
    y = room.top + _HEAD
    for row in _rows(cells, scale, room.width):
        tall = max(one.box.height for one in row) / scale
        free = (room.width - sum(_wide(one, scale) for one in row)) / len(row)
        x = room.left
        for one in row:
            wide = _wide(one, scale) + free
            middle = x + wide / 2
            at = Point(middle - one.box.centre.x / scale, y - one.box.top / scale)
            yield from scaled(one.drawing, 1 / scale).moved(at.x, at.y).entities
            for k, words in enumerate(one.words):
                at = Point(middle, y + tall + (k + 1) * _LINE)
                yield Text(Layer.NOTE, words, at, _LABEL, Anchor.MIDDLE, colour=_INK)
            x += wide
        y += _high(row, scale)
