"""Marks by which pieces are matched: the same letter on both sides of a joint, a number on each."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from jigs.drawing.drawing import Anchor, Drawing, Layer, Shape, Text
from jigs.drawing.joint import letters
from jigs.drawing.lower import text_box
from jigs.geometry import Box, Point
from jigs.geometry.strokes import width_of
from jigs.units import Mm

#: Capitals of the marks, the taller ones where there is room; lower ones cannot be read.
_HEIGHTS: tuple[Mm, ...] = (3.0, 2.2)
#: Marks keep this far from edges and from one another.
_CLEAR: Mm = 0.8
#: A mark stands no farther from its joint.
_NEAR: Mm = 14.0
_STEP: Mm = 1.5
#: A piece is looked at in squares of this.
_SQUARE: Mm = 0.5


@dataclass(frozen=True, slots=True)
class Seam:
    """A stretch of a joint through material: its line, and from where to where it runs."""

    axis: int
    place: Mm
    span: tuple[Mm, Mm]


class _Ground:
    """A piece while it is marked, looked at in small squares: those that are taken, as bits."""

    def __init__(self, piece: Drawing) -> None:
        self.piece = piece
        self.letters: list[Point] = []
        outlines = [s.path for s in piece.shapes(Layer.CUT)]
        self.box = box = Box.of_all(path.bounds() for path in outlines)
        chords = [pair for path in outlines for pair in pairwise(path.points())]
        self.wide = math.ceil(box.width / _SQUARE) + 1
        self.rows = _outside(chords, box, self.wide)
        for entity in piece.on(Layer.ENGRAVE, Layer.SCORE):
            if isinstance(entity, Text):
                self._take(text_box(entity))
            elif isinstance(entity, Shape):
                for a, b in pairwise(entity.path.points()):
                    self._take(Box.around((a, b)))

    def free(self, text: Text) -> bool:
        """Return whether a text stands on the material, clear of edges and of other marks."""
        box = text_box(text).grown(_CLEAR)
        if not self.box.holds(box):
            return False
        bits, first, last = self._squares(box)
        return not any(self.rows[row] & bits for row in range(first, last + 1))

    def mark(self, text: Text) -> None:
        """Put a text on the piece."""
        self.piece = self.piece.plus(text)
        self._take(text_box(text))
        self.letters.append(text.at)

    def _take(self, box: Box) -> None:
        bits, first, last = self._squares(box)
        for row in range(max(first, 0), min(last + 1, len(self.rows))):
            self.rows[row] |= bits

    def _squares(self, box: Box) -> tuple[int, int, int]:
        """Return the squares of a box: their columns as bits, the first and the last row."""
        left = max(math.floor((box.left - self.box.left) / _SQUARE), 0)
        right = min(math.floor((box.right - self.box.left) / _SQUARE), self.wide - 1)
        top = math.floor((box.top - self.box.top) / _SQUARE)
        bottom = math.floor((box.bottom - self.box.top) / _SQUARE)
        return ((1 << max(right - left + 1, 0)) - 1) << left, top, bottom


def _outside(chords: Sequence[tuple[Point, Point]], box: Box, wide: int) -> list[int]:
    """Return the squares that are off the material or under its edge, row by row as bits."""
    tall = math.ceil(box.height / _SQUARE) + 1
    rows = [0] * tall
    crossed: list[list[Mm]] = [[] for _ in rows]
    for a, b in chords:
        steps = max(1, math.ceil(2 * max(abs(b.x - a.x), abs(b.y - a.y)) / _SQUARE))
        for k in range(steps + 1):
            x, y = a.x + (b.x - a.x) * k / steps, a.y + (b.y - a.y) * k / steps
            # The last digit of a chord's end may lie off the box.
            row, column = ((y - box.top) / _SQUARE, (x - box.left) / _SQUARE)
            rows[min(max(math.floor(row), 0), tall - 1)] |= 1 << max(math.floor(column), 0)
        top, bottom = sorted(((a.y - box.top) / _SQUARE - 0.5, (b.y - box.top) / _SQUARE - 0.5))
        for row in range(max(math.ceil(top), 0), min(math.ceil(bottom), tall)):
            y = box.top + (row + 0.5) * _SQUARE
            crossed[row].append(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
    for row, found in enumerate(crossed):
        inside = 0
        found.sort()
        for start, end in zip(found[::2], found[1::2], strict=False):
            first = math.ceil((start - box.left) / _SQUARE - 0.5)
            last = math.floor((end - box.left) / _SQUARE - 0.5)
            inside |= ((1 << max(last - first + 1, 0)) - 1) << max(first, 0)
        rows[row] |= ((1 << wide) - 1) & ~inside
    return rows


def matched(pieces: Sequence[Drawing], seams: Sequence[Seam]) -> tuple[Drawing, ...]:
    """Return the pieces with letters at their joints and numbers, where there is room."""
    grounds = [_Ground(piece) for piece in pieces]
    for letter, seam in zip(letters(len(seams)), seams, strict=True):
        # A letter on one side only would be looked for on the other.
        for home, text in _pair(grounds, seam, letter):
            home.mark(text)
    for number, ground in enumerate(grounds, start=1):
        short = f"{number} of {len(grounds)}"
        places = (t for name in (f"piece {short}", short) for t in _all_over(ground, name))
        mark = next((place for place in places if ground.free(place)), None)
        if mark is not None:
            ground.mark(mark)
    return tuple(ground.piece for ground in grounds)


def _pair(grounds: Sequence[_Ground], seam: Seam, letter: str) -> list[tuple[_Ground, Text]]:
    """Return a letter on both sides of a joint, opposite one another; nothing without room."""
    start, end = seam.span
    count = int((end - start) / 2 / _STEP)
    middle = (start + end) / 2
    for height in _HEIGHTS:
        for k in range(count, -1, -1):
            for u in (middle - k * _STEP, middle + k * _STEP):
                found = [_beside(grounds, seam, side, u, height, letter) for side in (-1, 1)]
                if found[0] and found[1]:
                    return [found[0], found[1]]
    return []


def _beside(
    grounds: Sequence[_Ground], seam: Seam, side: int, u: Mm, height: Mm, letter: str
) -> tuple[_Ground, Text] | None:
    """Return where a letter has room on a side of a joint, the nearest to the joint first."""
    away = height / 2 + _CLEAR + 0.4
    while away < _NEAR:
        across = seam.place + side * away
        at = Point(u, across) if seam.axis == 1 else Point(across, u)
        text = Text(Layer.ENGRAVE, letter, Point(at.x, at.y + height / 2), height, Anchor.MIDDLE)
        home = next((ground for ground in grounds if ground.free(text)), None)
        if home is not None:
            return home, text
        away += _STEP
    return None


def _all_over(ground: _Ground, name: str) -> Iterator[Text]:
    """Yield places for a piece's number, those near its first letter first."""
    box = ground.box
    near = ground.letters[0] if ground.letters else Point(box.left, box.top)
    for height in _HEIGHTS:
        half = width_of(name, height) / 2
        places = [
            Point(box.left + 1.5 * i, box.top + 1.5 * j)
            for i in range(1, int(box.width / 1.5))
            for j in range(1, int(box.height / 1.5))
        ]
        for at in sorted(places, key=lambda p: (abs(p.x - near.x) + 3 * abs(p.y - near.y), p)):
            if box.left + half < at.x < box.right - half:
                yield Text(Layer.ENGRAVE, name, at, height, Anchor.MIDDLE)
