"""A path: segments end to end."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from jigs.geometry.point import Affine, Box, Point, distance
from jigs.geometry.segments import Arc, Cubic, Line
from jigs.units import Mm

Segment: TypeAlias = Line | Arc | Cubic

#: Flattened outlines stray from the true curve by no more than this.
CHORD: Mm = 0.02


@dataclass(frozen=True, slots=True)
class Path:
    """Segments that join end to end; closed if the last ends where the first starts.

    Raises:
        ValueError: there are no segments, or two neighbours do not share their end exactly.
    """

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        if not self.segments:
            raise ValueError("a path needs a segment")
        for one, two in pairwise(self.segments):
            if one.b != two.a:
                raise ValueError(f"the path is broken between {one.b} and {two.a}")

    @classmethod
    def through(cls, points: Sequence[Point], *, closed: bool = False) -> "Path":
        """Return the straight path through points, with a last side if it is to be closed."""
        chain = [*points, points[0]] if closed else list(points)
        return cls(tuple(Line(a, b) for a, b in pairwise(chain) if a != b))

    @classmethod
    def box(cls, box: Box, radius: Mm = 0.0) -> "Path":
        """Return a box as a closed path, its corners rounded to a radius.

        Raises:
            ValueError: the radius does not fit into the box.
        """
        if radius < 0 or 2 * radius > min(box.width, box.height):
            raise ValueError(f"a corner radius of {radius} does not fit {box}")
        return rounded(box.corners(), (radius,) * 4)

    @classmethod
    def circle(cls, centre: Point, radius: Mm) -> "Path":
        """Return a circle as two arcs."""
        east, west = Point(centre.x + radius, centre.y), Point(centre.x - radius, centre.y)
        return cls((Arc(east, west, 1.0), Arc(west, east, 1.0)))

    @property
    def start(self) -> Point:
        """First point."""
        return self.segments[0].a

    @property
    def end(self) -> Point:
        """Last point."""
        return self.segments[-1].b

    @property
    def closed(self) -> bool:
        """Whether the path ends where it starts."""
        return self.start == self.end

    def length(self) -> Mm:
        """Return the length along the path."""
        return math.fsum(segment.length() for segment in self.segments)

    def area(self) -> float:
        """Return the signed area, positive when the outline turns from +x towards +y.

        Raises:
            ValueError: the path is open.
        """
        if not self.closed:
            raise ValueError("an open path has no area")
        return math.fsum(segment.swept() for segment in self.segments)

    def bounds(self) -> Box:
        """Return the exact bounding box."""
        return Box.of_all(segment.bounds() for segment in self.segments)

    def reversed(self) -> "Path":
        """Return the path run backwards."""
        return Path(tuple(segment.reversed() for segment in reversed(self.segments)))

    def moved(self, by: Affine) -> "Path":
        """Return the image under an affine map; arcs need one that keeps circles."""
        # An end that two segments share is moved once: most of what is moved is lettering.
        here, made = by.on(self.start), []
        for segment in self.segments:
            there = by.on(segment.b)
            made.append(segment.moved_between(here, there, by))
            here = there
        return Path(tuple(made))

    def then(self, *others: "Path") -> "Path":
        """Return the path continued by others, each starting where the one before ended."""
        return Path(tuple(s for path in (self, *others) for s in path.segments))

    def points(self, tolerance: Mm = CHORD) -> list[Point]:
        """Return the polyline on the path whose chords stray by no more than the tolerance."""
        found = [self.start]
        for segment in self.segments:
            found += segment.points(tolerance)
        return found


def rounded(corners: Sequence[Point], radii: Iterable[Mm]) -> Path:
    """Return the closed path through corners, each rounded by a tangent arc of its own radius.

    Raises:
        ValueError: an arc is longer than the sides it joins.
    """
    count = len(corners)
    pieces: list[tuple[Point, Point, float]] = []
    used = [0.0] * count
    for k, radius in enumerate(radii):
        here = corners[k]
        back, ahead = corners[k - 1].minus(here).unit(), corners[(k + 1) % count].minus(here).unit()
        turn = math.pi - math.acos(max(-1.0, min(1.0, back.dot(ahead))))
        cut = radius * math.tan(turn / 2)
        used[k - 1] += cut
        used[k] += cut
        bulge = math.copysign(math.tan(turn / 4), ahead.cross(back))
        pieces.append((here.plus(back.times(cut)), here.plus(ahead.times(cut)), bulge))
    for k in range(count):
        if used[k] > distance(corners[k], corners[(k + 1) % count]) + 1e-9:
            raise ValueError(f"the radii do not fit on the side from {corners[k]}")
    segments: list[Segment] = []
    for k, (into, out, bulge) in enumerate(pieces):
        if distance(into, out) > 1e-12:
            segments.append(Arc(into, out, bulge))
        following = pieces[(k + 1) % count][0]
        # A corner without an arc is one point; both names must be the same for the path to join.
        leave = out if distance(into, out) > 1e-12 else into
        if distance(leave, following) > 1e-12:
            segments.append(Line(leave, following))
        elif segments:
            segments[-1] = ended(segments[-1], following)
    if segments[-1].b != segments[0].a:
        segments[-1] = ended(segments[-1], segments[0].a)
    return Path(tuple(segments))


def ended(segment: Segment, at: Point) -> Segment:
    """Return the segment with its end nudged, by less than 1e-12, onto a shared point."""
    if isinstance(segment, Arc):
        return Arc(segment.a, at, segment.bulge)
    if isinstance(segment, Cubic):
        return Cubic(segment.a, segment.p, segment.q, at)
    return Line(segment.a, at)
