"""Where on a cut a key has room, and where it harms least."""

import math
from dataclasses import dataclass

from jigs.drawing.joint import Key, Knob
from jigs.geometry import Box, Point
from jigs.geometry.point import from_chord
from jigs.units import Mm

#: Of straight cut left on either side of a key's foot.
_SHOULDER: Mm = 3.0
#: One key holds so much of a cut; longer ones have more.
_PER_KEY: Mm = 110.0
#: The harm of a key on a word, on another mark, and by each millimetre away from the middle.
_ON_WORD, _ON_MARK, _ASIDE = 8.0, 0.5, 0.02


@dataclass(frozen=True, slots=True)
class Line:
    """A cut's line with what lies near it, and how far along it and across it there is room."""

    axis: int
    place: Mm
    knobs: tuple[Knob, ...]
    web: Mm
    """Left all round a key."""
    chords: tuple[tuple[Point, Point], ...]
    keep: tuple[Box, ...]
    words: tuple[Box, ...]
    marks: tuple[Box, ...]
    along: tuple[Mm, Mm]
    """Keys' middles lie between these."""
    across: tuple[Mm, Mm]
    """Keys reach no farther than to a web's width from these."""

    def keys(self, span: tuple[Mm, Mm]) -> tuple[list[Key], float] | None:
        """Return the keys of a stretch of material with their harm; None if none has room."""
        count = max(1, round((span[1] - span[0]) / _PER_KEY))
        share = (span[1] - span[0]) / count
        for knob in self.knobs:
            reach = share / 2 - knob.foot - _SHOULDER
            if reach < 0:
                continue
            places = (span[0] + (k + 0.5) * share for k in range(count))
            found = [best for at in places if (best := self._best(knob, at, reach)) is not None]
            # A long joint does without a key on a word.
            clear = [one for one in found if one[0] < _ON_WORD]
            found = clear if len(clear) > 1 else found
            if found:
                return [key for _, key in found], sum(harm for harm, _ in found)
        return None

    def _best(self, knob: Knob, middle: Mm, reach: Mm) -> tuple[float, Key] | None:
        """Return the key that harms least, near the middle of a stretch."""
        best: tuple[float, Key] | None = None
        for step in range(math.floor(reach) + 1):
            if best is not None and best[0] <= _ASIDE * step:
                break
            for at in dict.fromkeys((middle + step, middle - step)):
                if not self.along[0] <= at <= self.along[1]:
                    continue
                for out in (1, -1):
                    harm = self._harm(knob, at, out) + _ASIDE * step
                    if (best is None or harm < best[0] - 1e-9) and self._roomy(knob, at, out):
                        best = harm, Key(at, out, knob)
        return best

    def _box(self, knob: Knob, at: Mm, out: int) -> Box:
        one, two = sorted((self.place, self.place + out * knob.depth))
        half = max(knob.head, knob.foot)
        if self.axis == 1:
            return Box(at - half, one, at + half, two)
        return Box(one, at - half, two, at + half)

    def _harm(self, knob: Knob, at: Mm, out: int) -> float:
        """Return how much a key would harm what is marked."""
        box = self._box(knob, at, out).grown(0.5)
        words = sum(box.overlaps(one) for one in self.words)
        marks = sum(meet(box, one) for one in self.marks)
        return _ON_WORD * words + _ON_MARK * marks

    def _roomy(self, knob: Knob, at: Mm, out: int) -> bool:
        """Return whether a key leaves a web on all sides and keeps off what must stay whole."""
        box = self._box(knob, at, out)
        if any(box.overlaps(one) for one in self.keep):
            return False
        tip = self.place + out * (knob.depth + self.web)
        if not self.across[0] < tip < self.across[1]:
            return False
        v = self.place + out * knob.rise
        head = Point(at, v) if self.axis == 1 else Point(v, at)
        least = knob.head + self.web
        return not any(
            min(a.x, b.x) - least < head.x < max(a.x, b.x) + least
            and min(a.y, b.y) - least < head.y < max(a.y, b.y) + least
            and from_chord(head, a, b) < least
            for a, b in self.chords
        )


def ends(box: Box, axis: int) -> tuple[Mm, Mm]:
    """Return where a box begins and ends, across (axis 0) or down (axis 1)."""
    return (box.left, box.right) if axis == 0 else (box.top, box.bottom)


def meet(one: Box, other: Box) -> bool:
    """Return whether boxes share a point; a box may be a line."""
    return (
        one.left <= other.right and other.left <= one.right
        and one.top <= other.bottom and other.top <= one.bottom
    )  # fmt: skip
