r"""Joints that lock two pieces of a plate in its plane: a straight cut with round keys.

        head                  v
       .----.                 ^        The shoulders, left and right of a key, are one line for
      (      )                |        both pieces: they butt, so that along the pull the pieces
       \    /  neck           |        come to lie as drawn. Only the key is smaller than its
    ----'  '----  shoulders   +--> u   socket, by half the fit all round.

All is arcs and lines that run into one another, so that no inner corner is sharper than the
fillets between shoulder and neck.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.geometry import Affine, Arc, Line, Path, Point, Segment
from jigs.geometry.crossing import Carrier, Round, Straight
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class Knob:
    """A key's shape: half its neck, its head's radius and height over the shoulders, its fillet."""

    neck: Mm
    head: Mm
    rise: Mm
    fillet: Mm

    @classmethod
    def of(cls, neck: Mm, head: Mm, fillet: Mm) -> "Knob":
        """Return the knob whose head runs into its fillets."""
        return cls(
            neck, head, fillet + math.sqrt((head + fillet) ** 2 - (neck + fillet) ** 2), fillet
        )

    @property
    def foot(self) -> Mm:
        """Half the width at the shoulders."""
        return self.neck + self.fillet

    @property
    def depth(self) -> Mm:
        """How far it reaches into the other piece."""
        return self.rise + self.head

    def smaller(self, by: Mm) -> "Knob":
        """Return the knob with neck and head smaller all round, on the same shoulders."""
        neck, head, rise = self.neck - by, self.head - by, self.rise
        # (neck + f)² + (rise - f)² = (head + f)²: the fillet that runs into both.
        half = rise + head - neck
        fillet = half - math.sqrt(half**2 - (neck**2 + rise**2 - head**2))
        return Knob(neck, head, rise, fillet)

    def holds(self, u: Mm, v: Mm) -> bool:
        """Return whether a point over the shoulders lies in it."""
        if math.hypot(u, v - self.rise) <= self.head:
            return True
        meet = self.fillet + (self.rise - self.fillet) * self.fillet / (self.head + self.fillet)
        beside = math.hypot(abs(u) - self.foot, v - self.fillet)
        return 0 <= v <= meet and abs(u) <= self.foot and beside >= self.fillet

    def segments(self) -> tuple[Arc, Arc, Arc]:
        """Return its outline from shoulder to shoulder, u rising, v outwards."""
        lean = math.atan2(self.rise - self.fillet, self.foot)
        share = self.fillet / (self.head + self.fillet)
        x, y = self.foot * (1 - share), self.fillet + (self.rise - self.fillet) * share
        fillet = math.tan((lean + math.pi / 2) / 4)
        head = -math.tan((math.pi + 2 * lean) / 4)
        return (
            Arc(Point(-self.foot, 0.0), Point(-x, y), fillet),
            Arc(Point(-x, y), Point(x, y), head),
            Arc(Point(x, y), Point(self.foot, 0.0), fillet),
        )


#: No fit is wider: half of it is taken from a neck all round, and a key must still lock.
_FIT: Mm = 0.5
#: What keys have more than half a web in the neck, what heads have more than necks, which is what
#: locks, and their fillets; from the stoutest to the one for the narrowest strip: a frame's side of
#: 18 mm holds that with a web of 5 mm on either side (common practice, no source).
_SIZES: tuple[tuple[Mm, Mm, Mm], ...] = ((2.5, 2.0, 2.5), (1.3, 1.6, 2.0), (_FIT / 2, 1.1, 1.5))
#: A neck is never thinner than this, whatever the material allows.
_LEAST_NECK: Mm = 3.0


def knobs(web: Mm, inner: Mm) -> tuple[Knob, ...]:
    """Return keys for a material of a least web and inner radius, the stoutest first."""
    half = max(web, _LEAST_NECK) / 2
    return tuple(
        Knob.of(half + more, half + more + lock, max(fillet, inner))
        for more, lock, fillet in _SIZES
    )


@dataclass(frozen=True, slots=True)
class Key:
    """A key on a joint: where its middle is along the line, and to which side it reaches."""

    at: Mm
    out: int
    """1 if the piece before the line has it and it reaches beyond, -1 the other way round."""
    knob: Knob


@dataclass(frozen=True, slots=True)
class Joint:
    """A cut along an upright (axis 0) or level (axis 1) line, with its keys and their clearance."""

    axis: int
    place: Mm
    keys: tuple[Key, ...]
    fit: Mm = 0.0
    """Total gap across a key; half of it on either side."""

    def knob(self, key: Key, side: int) -> Knob:
        """Return a key as a piece has it, before (-1) or beyond (1) the line: key or socket."""
        own = key.out == -side
        return key.knob.smaller(self.fit / 2) if own and self.fit else key.knob

    def side(self, point: Point, of: int) -> int:
        """Return on which side a point lies, by the outline of the piece before (-1) or beyond."""
        u, v = point[1 - self.axis], point[self.axis] - self.place
        base = 1 if v >= 0 else -1
        for key in self.keys:
            if base == key.out and self.knob(key, of).holds(u - key.at, abs(v)):
                return -base
        return base

    def carriers(self, of: int) -> list[Carrier]:
        """Return the line and the circles that the cut of one piece runs along."""
        found: list[Carrier] = [Straight(self.axis, self.place)]
        for key in self.keys:
            place, arcs = self._place(key), self.knob(key, of).segments()
            found += (Round(place.on(arc.centre), arc.radius) for arc in arcs)
        return found

    def path(self, start: Point, end: Point, side: int) -> Path:
        """Return the cut from one point on the line to another, as a piece has it."""
        forward = start[1 - self.axis] < end[1 - self.axis]
        first, last = (start, end) if forward else (end, start)
        between = [k for k in self.keys if first[1 - self.axis] < k.at < last[1 - self.axis]]
        made: list[Segment] = []
        at = first
        for key in sorted(between, key=lambda k: k.at):
            arcs = [arc.moved(self._place(key)) for arc in self.knob(key, side).segments()]
            made += [Line(at, arcs[0].a), *arcs]
            at = arcs[-1].b
        path = Path((*made, Line(at, last)))
        return path if forward else path.reversed()

    def _place(self, key: Key) -> Affine:
        """Return the map from a knob's own u and v."""
        if self.axis == 1:
            return Affine(a=1.0, d=float(key.out), e=key.at, f=self.place)
        return Affine(a=0.0, b=1.0, c=float(key.out), d=0.0, e=self.place, f=key.at)


def letters(count: int) -> Iterator[str]:
    """Yield names of joints: A, B, ... Z, AA, AB, ..."""
    for number in range(count):
        name, rest = "", number + 1
        while rest:
            rest, letter = divmod(rest - 1, 26)
            name = chr(65 + letter) + name
        yield name


def deepest(keys: Sequence[Key], out: int) -> Mm:
    """Return how far keys reach to a side."""
    return max((key.knob.depth for key in keys if key.out == out), default=0.0)
