"""Seam lines as strokes of a tool: dashed where they have to be told apart, and none twice.

Lines of many sizes run through nearly one place on the centre line. A laser that followed each of
them there would burn through a thin film, so what one line shares with others is engraved once.
"""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import groupby

from jigs.drawing.drawing import Layer, Shape
from jigs.geometry import Path, Point
from jigs.geometry.path import Segment
from jigs.units import Mm

#: Lines closer than this are one line of an engraving tool (common practice, no source).
ONCE: Mm = 0.3
#: A dash is longer than any letter is large, so that a file's reader takes none for lettering.
DASH: Mm = 15.0
GAP: Mm = 6.0
#: Pieces and shared stretches shorter than this are not parted: there, two lines only cross.
_SHORT: Mm = 3.0
#: Places along a segment at which lines are compared.
_PLACES = 240

#: A place on a segment: its distance along, where on it that is, and the point.
_Place = tuple[Mm, float, Point]


def strokes(paths: Sequence[Path], dashed: Sequence[bool]) -> list[list[Shape]]:
    """Return the strokes of each line; the unbroken ones are drawn first, whatever the order.

    All paths run from left to right, x rising all along. Each half of a collar is by itself, so
    that its lowest point, which is laid on the seam, is never in a gap.
    """
    drawn: list[list[Point]] = []
    found: list[list[Shape]] = [[] for _ in paths]
    for k in sorted(range(len(paths)), key=lambda k: (dashed[k], k)):
        fresh: list[list[Point]] = []
        for segment in paths[k].segments:
            places = list(_places(segment))
            for start, end in _fresh(places, drawn):
                fresh.append([place[2] for place in places[start : end + 1]])
                pieces = _dashes(places, start, end) if dashed[k] else [(start, end)]
                for one, two in pieces:
                    part = _between(segment, places[one][1], places[two][1])
                    found[k].append(Shape(Layer.ENGRAVE, Path((part,))))
        drawn += fresh
    return found


def dashes(start: Mm, end: Mm) -> Iterator[tuple[Mm, Mm]]:
    """Yield the dashes of a stretch, alike, with one at each end; a short stretch is one."""
    length = end - start
    count = max(1, math.floor((length + GAP) / (DASH + GAP)))
    each = (length - (count - 1) * GAP) / count
    for k in range(count):
        begin = start + k * (each + GAP)
        yield begin, begin + each


def _places(segment: Segment) -> Iterator[_Place]:
    along, before = 0.0, segment.a
    for k in range(_PLACES + 1):
        point = segment.at(k / _PLACES)
        along += math.dist(before, point)
        before = point
        yield along, k / _PLACES, point


def _fresh(places: Sequence[_Place], drawn: Sequence[Sequence[Point]]) -> list[tuple[int, int]]:
    """Return the stretches, as first and last places, that no drawn line runs along.

    Each is at least a dash long, if the line is: a little is then engraved twice.
    """
    taken = [any(_near(places, k, points) for points in drawn) for k in range(len(places))]
    # Where two lines only cross, neither is broken.
    for first, last in _runs(taken):
        if taken[first] and places[last][0] - places[first][0] < _SHORT:
            taken[first : last + 1] = [False] * (last + 1 - first)
    found: list[tuple[int, int]] = []
    for one, two in _runs(taken):
        if taken[one] or places[two][0] - places[one][0] < _SHORT:
            continue
        first, last = _longer(places, one, two)
        if found and found[-1][1] >= first - 1:
            first = found.pop()[0]
        found.append((first, last))
    return found


def _runs(marks: Sequence[bool]) -> list[tuple[int, int]]:
    """Return the first and last place of each run of equal marks."""
    runs = [list(run) for _, run in groupby(range(len(marks)), key=lambda k: marks[k])]
    return [(run[0], run[-1]) for run in runs]


def _longer(places: Sequence[_Place], first: int, last: int) -> tuple[int, int]:
    """Return a stretch drawn out both ways until it is a dash long, or all of the line."""
    while places[last][0] - places[first][0] < DASH and (first > 0 or last < len(places) - 1):
        first, last = max(first - 1, 0), min(last + 1, len(places) - 1)
    return first, last


def _near(places: Sequence[_Place], k: int, points: Sequence[Point]) -> bool:
    """Return whether a place of one line lies on another, measured square to the line."""
    point = places[k][2]
    if not points[0].x <= point.x <= points[-1].x:
        return False
    after = min(bisect_right(points, point.x, key=lambda p: p.x), len(points) - 1)
    a, b = points[after - 1], points[after]
    y = a.y + (b.y - a.y) * (point.x - a.x) / (b.x - a.x) if b.x > a.x else a.y
    one, two = places[max(k - 1, 0)][2], places[min(k + 1, len(places) - 1)][2]
    return abs(y - point.y) * (two.x - one.x) / math.dist(one, two) < ONCE


def _dashes(places: Sequence[_Place], start: int, end: int) -> Iterator[tuple[int, int]]:
    """Yield the dashes between two places of a line, as places."""

    def at(along: Mm) -> int:
        return min(range(start, end + 1), key=lambda k: abs(places[k][0] - along))

    for one, two in dashes(places[start][0], places[end][0]):
        yield at(one), at(two)


def _between(segment: Segment, low: float, high: float) -> Segment:
    """Return the part of a segment between two of its places, of the same curve."""
    part: Segment = segment if high == 1.0 else segment.split(high)[0]
    return part if low == 0.0 else part.split(low / high)[1]
