"""Where a plate may be cut in two, and where a cut harms least.

A cut runs along a whole millimetre, upright or level. It leaves alone what must stay whole, crosses
outlines nearly square and nowhere near their corners, and has room for a key in every stretch of
material, with a web on either side.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.ground import ground
from jigs.drawing.joint import Key, Knob, deepest, knobs
from jigs.drawing.keys import Line, ends
from jigs.drawing.lower import text_box
from jigs.geometry import Box, Point
from jigs.units import Mm

#: Where a cut crosses an outline, that leans from square to it by no more than this slope: 30°.
_LEAN = 0.58
#: How closely outlines are looked at.
_CHORD: Mm = 0.05
#: The harm of a cut through the window's frame: more than of any words that it may spare.
_WINDOW = 200.0


@dataclass(frozen=True, slots=True)
class Cut:
    """A possible cut: its place, its keys, its harm, and how far keys reach to both sides."""

    axis: int
    place: Mm
    keys: tuple[Key, ...]
    harm: float

    @property
    def beyond(self) -> Mm:
        """How far the piece before reaches beyond the line."""
        return deepest(self.keys, 1)

    @property
    def before(self) -> Mm:
        """How far the piece beyond reaches before the line."""
        return deepest(self.keys, -1)


@dataclass(frozen=True, slots=True)
class Plate:
    """A plate as chords of its outlines, with what must not be cut and what is marked on it."""

    chords: tuple[tuple[Point, Point], ...]
    box: Box
    keep: tuple[Box, ...]
    window: Box | None
    words: tuple[Box, ...]
    marks: tuple[Box, ...]
    harm: tuple[Callable[[Mm], float], Callable[[Mm], float]]
    """Of an upright and of a level cut at a place."""
    web: Mm
    knobs: tuple[Knob, ...]
    known: dict[tuple[int, Mm], list[tuple[Mm, Mm]]] = field(default_factory=dict, compare=False)

    @classmethod
    def of(
        cls, drawing: Drawing, keep: Sequence[Box], window: Box | None, web: Mm, inner: Mm
    ) -> "Plate":
        """Return the plate of a drawing, of a material with a least web and inner radius."""
        outlines = [s.path for s in drawing.shapes(Layer.CUT) if s.path.closed]
        chords = tuple(pair for path in outlines for pair in pairwise(path.points(_CHORD)))
        box = Box.of_all(path.bounds() for path in outlines)
        marked = [e for e in drawing.entities if not isinstance(e, Shape) or e.layer in _MARKS]
        sides = ground(Drawing(tuple(e for e in marked if _drawn(e))), 1.0, 1.0, box)
        return cls(
            chords,
            box,
            tuple(keep),
            window,
            tuple(text_box(e) for e in marked if isinstance(e, Text)),
            tuple(e.path.bounds() for e in marked if isinstance(e, Shape)),
            (
                lambda x: sides.across.harm_at(x - box.left),
                lambda y: sides.down.harm_at(y - box.top),
            ),
            web,
            knobs(web, inner),
        )

    def spans(self, axis: int, place: Mm) -> list[tuple[Mm, Mm]]:
        """Return the stretches of a line that lie in material."""
        if (axis, place) in self.known:
            return self.known[axis, place]
        found = []
        for a, b in self.chords:
            if (a[axis] >= place) != (b[axis] >= place):
                share = (place - a[axis]) / (b[axis] - a[axis])
                found.append(a[1 - axis] + share * (b[1 - axis] - a[1 - axis]))
        found.sort()
        self.known[axis, place] = list(zip(found[::2], found[1::2], strict=False))
        return self.known[axis, place]

    def free(self, axis: int, part: Box, step: int = 1) -> list[Mm]:
        """Return the places of a part at which a line crosses nothing that it must not cross."""
        first, last = ends(part, axis)
        places = range(math.ceil(first + self.web), math.floor(last - self.web) + 1, step)
        crossed = self._uncrossable(axis, part)
        return [float(place) for place in places if place not in crossed]

    def cuts(self, axis: int, part: Box, step: int = 1) -> list[Cut]:
        """Return the cuts of a part of the plate one way.

        `part` is the whole plate, or the box between two cuts of the other way.
        """
        found = (self.cut(axis, place, part) for place in self.free(axis, part, step))
        return [cut for cut in found if cut is not None]

    def _uncrossable(self, axis: int, part: Box) -> set[int]:
        """Return the places at which a cut would come too near to an outline's lean or end."""
        found: set[int] = set()
        low, high = ends(part, 1 - axis)
        for a, b in self.chords:
            if max(a[1 - axis], b[1 - axis]) < low or min(a[1 - axis], b[1 - axis]) > high:
                continue
            one, two = sorted((a[axis], b[axis]))
            if abs(b[1 - axis] - a[1 - axis]) > _LEAN * (two - one):
                found.update(range(math.ceil(one - self.web), math.floor(two + self.web) + 1))
            elif one == round(one):
                found.add(round(one))
        for box in self.keep:
            if box.overlaps(part):
                one, two = ends(box, axis)
                found.update(range(math.floor(one), math.ceil(two) + 1))
        return found

    def cut(self, axis: int, place: Mm, part: Box) -> Cut | None:
        """Return the cut at a place, or None if some stretch of it has no room for a key."""
        low, high = ends(part, 1 - axis)
        keys: list[Key] = []
        harm = self.harm[axis](place)
        line = self._line(axis, place, part)
        for span in self.spans(axis, place):
            start, end = max(span[0], low), min(span[1], high)
            if end <= start:
                continue
            found = line.keys((start, end))
            if found is None:
                return None
            keys += found[0]
            harm += found[1]
        if not keys:
            return None
        if self.window is not None and part.overlaps(self.window):
            one, two = ends(self.window, axis)
            harm += _WINDOW * (one < place < two)
        return Cut(axis, place, tuple(keys), harm)

    def _line(self, axis: int, place: Mm, part: Box) -> Line:
        """Return a cut's line with what bears on its keys."""
        far = self.knobs[0].depth + self.knobs[0].head + 2 * self.web
        low, high = place - far, place + far
        keep, words, marks = (
            tuple(box for box in boxes if ends(box, axis)[0] < high and ends(box, axis)[1] > low)
            for boxes in (self.keep, self.words, self.marks)
        )
        chords = tuple(
            (a, b) for a, b in self.chords if min(a[axis], b[axis]) < high
            and max(a[axis], b[axis]) > low
        )  # fmt: skip
        first, last = ends(part, 1 - axis)
        own_first, own_last = ends(self.box, 1 - axis)
        # Between two cuts of the other way, keys of those reach into the part as well.
        inset = self.knobs[0].depth + self.knobs[0].head + self.web
        along = first + inset * (first > own_first), last - inset * (last < own_last)
        return Line(
            axis, place, self.knobs, self.web, chords, keep, words, marks, along, ends(part, axis)
        )  # fmt: skip


_MARKS = (Layer.ENGRAVE, Layer.SCORE)


def _drawn(entity: object) -> bool:
    return isinstance(entity, (Shape, Text))


def rows(plate: Plate, axis: int, part: Box) -> Iterator[tuple[Mm, list[tuple[Mm, Mm]]]]:
    """Yield the stretches of material across a part, millimetre by millimetre."""
    first, last = ends(part, axis)
    low, high = ends(part, 1 - axis)
    for place in range(math.floor(first), math.ceil(last)):
        at = min(max(place + 0.5, first), last)
        spans = [(max(a, low), min(b, high)) for a, b in plate.spans(axis, at)]
        yield at, [span for span in spans if span[0] < span[1]]
