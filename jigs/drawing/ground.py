"""What lies where on a drawing, for those who cut it up: covered squares, and where cuts harm.

A drawing is looked at in squares of a millimetre. A square is covered if something is drawn on
it or beside it, or if it is part of a plate, for a plate on paper is needed whole.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise
from operator import or_

from jigs.drawing.drawing import Area, Drawing, Layer, Shape, Text
from jigs.drawing.lower import text_box
from jigs.geometry import Box, Path, Point
from jigs.units import Mm

#: How closely lines are followed; squares beside a line count as covered, so this is ample.
_CHORD: Mm = 0.05
#: A line counts as parallel to a cut if it strays by no more than this share of its length.
_PARALLEL = 0.1
#: From nearer than this, a line beside a cut is in the way of the knife and of the tape.
_BESIDE: Mm = 4.0
#: The harm of a cut: along 10 mm of a line, through a word, through a small shape such as a hole,
#: and along the centre line (chosen so that a word weighs as much as 100 mm of line).
_LINE, _WORD, _HOLE, _CENTRE = 0.1, 10.0, 4.0, 40.0
_SMALL: Mm = 25.0


@dataclass(frozen=True, slots=True)
class Side:
    """One way across a drawing: its length, and by the millimetre what is there."""

    size: Mm
    covered: tuple[int, ...]
    """For each millimetre this way, the covered millimetres the other way as bits."""
    harm: tuple[float, ...]
    """For each millimetre this way, how much a cut across the drawing there would harm."""

    def harm_at(self, place: Mm) -> float:
        """Return how much a cut at a place would harm."""
        return self.harm[min(max(round(place), 0), len(self.harm) - 1)]

    def strip(self, start: Mm, end: Mm) -> int:
        """Return what is covered anywhere between two places, the other way, as bits."""
        return reduce(or_, self.covered[max(math.floor(start), 0) : math.ceil(end) + 1], 0)


@dataclass(frozen=True, slots=True)
class Ground:
    """A drawing's two ways, across and down, measured from a box's top left corner."""

    across: Side
    down: Side


def clear(bits: int, start: Mm, end: Mm) -> bool:
    """Return whether no bit is set between two places."""
    first, last = max(math.floor(start), 0), math.ceil(end) + 1
    return not (bits >> first) & ((1 << max(last - first, 0)) - 1)


def ground(drawing: Drawing, x: float, y: float, box: Box) -> Ground:
    """Return what lies where on a drawing that is stretched by `x` and `y`, inside a box."""
    lines = [_chain(s.path, x, y, box) for s in drawing.shapes()]
    solid = [_moved(b, x, y, box) for b in _solid(drawing)]
    words = [_moved(text_box(e), x, y, box) for e in drawing.entities if isinstance(e, Text)]
    small = [
        Box.around(chain)
        for chain, shape in zip(lines, drawing.shapes(), strict=True)
        if shape.path.closed
    ]
    small = [one for one in small if max(one.width, one.height) < _SMALL]
    plates = [
        chain for chain, shape in zip(lines, drawing.shapes(), strict=True)
        if shape.layer is Layer.CUT and shape.path.closed
    ]  # fmt: skip
    wide, tall = math.ceil(box.width) + 1, math.ceil(box.height) + 1
    rows = [0] * tall
    _cover_lines(rows, lines, wide)
    for one in (*solid, *words):
        bits = _bits(one.left, one.right, wide)
        for row in range(max(math.floor(one.top), 0), min(math.floor(one.bottom) + 1, tall)):
            rows[row] |= bits
    _cover_plates(rows, plates, wide)
    rows = _grown(rows, wide)
    turned = [[Point(p.y, p.x) for p in chain] for chain in lines]
    centre = -box.left if box.left < 0 < box.right else None
    return Ground(
        Side(box.width, _columns(rows, wide), _harm(wide, lines, words, small, centre)),
        Side(
            box.height, tuple(rows),
            _harm(tall, turned, [_turned(b) for b in words], [_turned(b) for b in small], None),
        ),
    )  # fmt: skip


def _chain(path: Path, x: float, y: float, box: Box) -> list[Point]:
    return [Point(p.x * x - box.left, p.y * y - box.top) for p in path.points(_CHORD)]


def _moved(one: Box, x: float, y: float, box: Box) -> Box:
    return Box(
        one.left * x - box.left, one.top * y - box.top,
        one.right * x - box.left, one.bottom * y - box.top,
    )  # fmt: skip


def _turned(box: Box) -> Box:
    return Box(box.top, box.left, box.bottom, box.right)


def _solid(drawing: Drawing) -> Iterator[Box]:
    """Yield the boxes of what is no line and no word."""
    for entity in drawing.entities:
        if isinstance(entity, Area):
            yield from (path.bounds() for path in entity.paths)
        elif not isinstance(entity, (Shape, Text)):
            yield entity.box


def _bits(start: Mm, end: Mm, size: int) -> int:
    first, last = max(math.floor(start), 0), min(math.floor(end), size - 1)
    return ((1 << (last - first + 1)) - 1) << first if last >= first else 0


def _cover_lines(rows: list[int], lines: Sequence[Sequence[Point]], wide: int) -> None:
    for chain in lines:
        for a, b in pairwise(chain):
            steps = math.ceil(2 * max(abs(b.x - a.x), abs(b.y - a.y))) or 1
            for k in range(steps + 1):
                row = math.floor(a.y + (b.y - a.y) * k / steps)
                column = math.floor(a.x + (b.x - a.x) * k / steps)
                if 0 <= row < len(rows) and 0 <= column < wide:
                    rows[row] |= 1 << column


def _cover_plates(rows: list[int], plates: Sequence[Sequence[Point]], wide: int) -> None:
    """Cover the insides of closed cuts, a cut inside another one being a hole."""
    crossings: list[list[Mm]] = [[] for _ in rows]
    for chain in plates:
        for a, b in pairwise(chain):
            top, bottom = sorted((a.y, b.y))
            for row in range(max(math.ceil(top - 0.5), 0), len(rows)):
                if row + 0.5 >= bottom:
                    break
                crossings[row].append(a.x + (row + 0.5 - a.y) / (b.y - a.y) * (b.x - a.x))
    for row, found in enumerate(crossings):
        found.sort()
        for start, end in zip(found[::2], found[1::2], strict=False):
            rows[row] |= _bits(start, end, wide)


def _grown(rows: Sequence[int], wide: int) -> list[int]:
    """Return the squares with those beside them: a line has a width."""
    mask = (1 << wide) - 1
    sideways = [(row | row << 1 | row >> 1) & mask for row in rows]
    padded = [0, *sideways, 0]
    return [padded[k] | padded[k + 1] | padded[k + 2] for k in range(len(rows))]


def _columns(rows: Sequence[int], wide: int) -> tuple[int, ...]:
    # As text the bits are turned over at once; bit 0 is the last letter.
    lines = [format(row, f"0{wide}b")[::-1] for row in reversed(rows)]
    return tuple(int("".join(letters), 2) for letters in zip(*lines, strict=True))


def _harm(
    size: int,
    lines: Sequence[Sequence[Point]],
    words: Sequence[Box],
    small: Sequence[Box],
    centre: Mm | None,
) -> tuple[float, ...]:
    """Return how much an upright cut would harm at each millimetre."""
    found = [0.0] * size
    for chain in lines:
        for a, b in pairwise(chain):
            long = abs(b.y - a.y)
            if abs(b.x - a.x) <= _PARALLEL * long:
                _add_near(found, (a.x + b.x) / 2, _LINE * long)
    for weight, boxes in ((_WORD, words), (_HOLE, small)):
        for box in boxes:
            for k in range(max(math.ceil(box.left - 1), 0), min(math.floor(box.right + 2), size)):
                found[k] += weight
    if centre is not None:
        _add_near(found, centre, _CENTRE)
    return tuple(found)


def _add_near(found: list[float], place: Mm, weight: float) -> None:
    first, last = math.ceil(place - _BESIDE), math.floor(place + _BESIDE)
    for k in range(max(first, 0), min(last + 1, len(found))):
        found[k] += weight * (1 - abs(k - place) / _BESIDE)
