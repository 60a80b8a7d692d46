"""The lines of a garment's panels for technical drawings: which lengths each rests on, and halves.

What a line rests on is found out, not written down: a length is changed a little, and the lines
that move are those that rest on it.
"""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import replace

from jigs.garments import GARMENTS, Edge, Flat, Panel
from jigs.geometry import Line, Path, Point, Segment
from jigs.geometry.region import apart
from jigs.tables.measure import Measures, Origin
from jigs.units import Mm

#: By how much a length is changed, and how far a line must move beside itself to rest on it.
_CHANGE: Mm = 2.0
_MOVES: Mm = 0.2

#: The points of measure each edge and feature of a panel rests on, by the panel's name.
Rests = Mapping[str, tuple[frozenset[str], ...]]


def lines(panel: Panel) -> tuple[Edge, ...]:
    """Return all lines of a panel: its edges, then its features."""
    return (*panel.edges, *panel.features)


def rests_on(cut: str, measures: Measures) -> Rests:
    """Return the points of measure that each line of a garment rests on, in the order of `lines`.

    A point that nothing can be changed by, because the others contradict it, moves nothing.
    """
    flat = GARMENTS.get(cut).draw(measures)
    found: dict[str, list[set[str]]] = {
        name: [set() for _ in lines(panel)] for name, panel in flat.panels.items()
    }
    for point in measures.values:
        other = _changed(cut, measures, point)
        if other is None:
            continue
        for name, panel in flat.panels.items():
            pairs = zip(lines(panel), lines(other.panels[name]), strict=True)
            for rests, (was, now) in zip(found[name], pairs, strict=True):
                if was.path != now.path and apart(was.path, now.path) > _MOVES:
                    rests.add(point)
    return {name: tuple(frozenset(one) for one in rests) for name, rests in found.items()}


def _changed(cut: str, measures: Measures, point: str) -> Flat | None:
    one = measures[point]
    for by in (_CHANGE, -_CHANGE):
        values = {**measures.values, point: replace(one, mm=one.mm + by)}
        with suppress(ValueError):
            return GARMENTS.get(cut).draw(replace(measures, values=values))
    return None


def origin(points: Iterable[str], measures: Measures) -> Origin:
    """Return the least sure origin of some lengths: estimated, then given, then measured."""
    origins = {measures[point].origin for point in points}
    for one in (Origin.ESTIMATED, Origin.GIVEN):
        if one in origins:
            return one
    return Origin.MEASURED if origins else Origin.GIVEN


def right_half(path: Path) -> list[Path]:
    """Return the parts of a path on x >= 0.

    A panel is symmetric, so its curves end on the centre line; only straight lines cross it.
    """
    parts: list[list[Segment]] = [[]]
    for segment in path.segments:
        kept = _kept(segment)
        if parts[-1] and (kept is None or parts[-1][-1].b != kept.a):
            parts.append([])
        if kept is not None:
            parts[-1].append(kept)
    return [Path(tuple(part)) for part in parts if part]


def _kept(segment: Segment) -> Segment | None:
    a, b = segment.a, segment.b
    if min(a.x, b.x) >= 0:
        return segment
    if max(a.x, b.x) <= 0 or not isinstance(segment, Line):
        return None
    middle = Point(0.0, a.y + (b.y - a.y) * a.x / (a.x - b.x))
    return Line(middle, b) if b.x > 0 else Line(a, middle)
