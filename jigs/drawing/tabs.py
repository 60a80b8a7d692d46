"""Tabs: small bridges left uncut, so that neither a jig nor what falls out of it tips or moves."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

from jigs.drawing.drawing import Drawing, Entity, Layer, Shape
from jigs.geometry import Line, Path, Point, Segment
from jigs.geometry.point import distance, from_chord
from jigs.units import Mm

#: A piece smaller than this, either way, is held by the bed or falls through it.
SMALL: Mm = 20.0
#: No tab comes nearer to the end of a straight side, nor to a line that has to stay whole.
CORNER: Mm = 10.0
CLEAR: Mm = 5.0
#: A line that is to be spared lies on a side of the outline to within half a kerf.
_ON: Mm = 1.5
#: Places are looked at this far apart; tabs nearer to one another than this are one.
_STEP: Mm = 5.0
_APART: Mm = 15.0
#: One lets a piece turn; four as far apart as can be have its middle amid them. One more for so
#: much of a way round.
_USUAL = 4
_MORE: Mm = 500.0
_MOST = 6


@dataclass(frozen=True, slots=True)
class _Spot:
    """The middle of a tab: on which side of an outline, how far along it, and where."""

    side: int
    along: Mm
    at: Point


def tabbed(
    drawing: Drawing, gap: Mm, *, whole: Sequence[Path] = (), spared: Sequence[Path] = ()
) -> Drawing:
    """Return the drawing with gaps in its large cut outlines, which thereby become open lines.

    Gaps lie on straight sides, spread as far apart as they can, at least two to an outline: where
    there is no room for two it stays closed. None comes near a line of `whole`; on a side along
    one of `spared` there is none unless there is no other room. The order of the cuts stays.

    Raises:
        ValueError: the gap is negative.
    """
    if gap < 0:
        raise ValueError("a gap is not negative")
    if gap == 0:
        return drawing
    made: list[Entity] = []
    for entity in drawing.entities:
        spots: list[_Spot] = []
        if isinstance(entity, Shape) and entity.layer is Layer.CUT and _large(entity.path):
            found = list(_places(entity.path, gap, whole))
            free = [spot for spot in found if not _near(spot.at, spared, _ON)]
            count = _wanted(entity.path)
            spots = _spread(free, count) or _spread(found, count)
            made += [replace(entity, path=part) for part in _parted(entity.path, spots, gap)]
        if not spots:
            made.append(entity)
    return Drawing(tuple(made))


def _large(path: Path) -> bool:
    box = path.bounds()
    return path.closed and max(box.width, box.height) > SMALL


def _wanted(path: Path) -> int:
    return min(_MOST, _USUAL + int(path.length() / _MORE))


def _places(path: Path, gap: Mm, whole: Sequence[Path]) -> Iterator[_Spot]:
    """Yield where a tab may be: every few millimetres of the straight sides, evenly."""
    for k, side in enumerate(path.segments):
        room = side.length() - 2 * CORNER - gap
        if not isinstance(side, Line) or room < 0:
            continue
        steps = max(1, round(room / _STEP))
        for step in range(steps + 1):
            along = CORNER + gap / 2 + room * step / steps
            at = side.at(along / side.length())
            if not _near(at, whole, CLEAR + gap / 2):
                yield _Spot(k, along, at)


def _near(at: Point, lines: Iterable[Path], reach: Mm) -> bool:
    return any(_off(at, line) < reach for line in lines)


def _off(at: Point, line: Path) -> Mm:
    """Return the distance of a point from a line's chords."""
    points = line.points()
    return min(from_chord(at, a, b) for a, b in pairwise(points))


def _spread(spots: Sequence[_Spot], count: int) -> list[_Spot]:
    """Return up to so many places, each as far from the others as can be; none if not even two."""
    pairs = combinations(spots, 2)
    first = max(pairs, key=lambda pair: distance(pair[0].at, pair[1].at), default=None)
    if first is None or distance(first[0].at, first[1].at) < _APART:
        return []
    chosen = list(first)
    while len(chosen) < count:

        def alone(spot: _Spot) -> Mm:
            return min(distance(spot.at, other.at) for other in chosen)

        farthest = max(spots, key=alone)
        if alone(farthest) < _APART:
            break
        chosen.append(farthest)
    return chosen


def _parted(path: Path, spots: Sequence[_Spot], gap: Mm) -> list[Path]:
    """Return the lines that are left of an outline between its gaps, beginning after the first."""
    if not spots:
        return []
    pieces: list[list[Segment]] = [[]]
    for k, side in enumerate(path.segments):
        here = sorted(spot.along for spot in spots if spot.side == k)
        if not here or not isinstance(side, Line):
            pieces[-1].append(side)
            continue
        start, length = side.a, side.length()
        for along in here:
            end = side.at((along - gap / 2) / length)
            pieces[-1].append(Line(start, end))
            pieces.append([])
            start = side.at((along + gap / 2) / length)
        pieces[-1].append(Line(start, side.b))
    # The outline began within a piece: its last part goes on into its first.
    first, *others, last = pieces
    return [Path(tuple(piece)) for piece in (*others, [*last, *first])]
