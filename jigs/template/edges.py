"""The edges that a jig may have, and where each would put the print on every size.

A jig's edge is one of the sizes' own, or a curve between those of two neighbours in width; it lies
against the seam over the share of some size's collar that the location allows. On every size such
an edge rests at some height; how far down the plate the print then is can be chosen, so only the
differences between sizes count.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from jigs.geometry import Cubic, Point
from jigs.template.seat import FEEL, Stand, relief
from jigs.units import Mm

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

#: How far along the way from one size's collar to the next one's an edge may be.
_BETWEEN = (0.25, 0.5, 0.75)
#: Places along an edge at which it is laid against a seam, and points that a curve is taken by.
#: Between neighbouring places the gap of two collars bends by less than 0.005 mm.
_PLACES, _POINTS = 96, 1000
_CLOSE: Mm = 1e-9


@dataclass(frozen=True, slots=True)
class Edges:
    """Every edge that is tried, and what it does on every size."""

    halves: tuple[Cubic | None, ...]
    """An edge's half; None where it is straight."""
    engaged: tuple[Mm, ...]
    """How far from the centre each lies against the seam."""
    own: tuple[int, ...]
    """Which of them is each size's own, as far as its collar lets it."""
    heights: "Numbers"
    """By edge and size: how much too low the print is, for a print at the edge itself.

    NaN where the edge does not reach, or is not to lie against so much of the seam.
    """
    tilts: "Numbers"
    """Likewise: degrees that the jig can turn."""


@lru_cache(maxsize=16)
def edges(stands: tuple[Stand, ...], share: float) -> Edges:
    """Return the edges for some sizes; `share` is the part of a half collar that one may engage."""
    import numpy as np

    kinds = list(_kinds(stands, share))
    levels = sorted({limit for _, limit in kinds})
    halves: list[Cubic | None] = []
    engaged: list[Mm] = []
    heights, tilts = [], []
    for half, limit in kinds:
        for level in levels if half else (0.0,):
            if level > limit + _CLOSE or (half and level <= relief(half).x):
                continue
            row = _row(half, level, stands, share)
            halves.append(half)
            engaged.append(level)
            heights.append(row[0])
            tilts.append(row[1])
    own = tuple(
        next(
            k
            for k, (half, level) in enumerate(zip(halves, engaged, strict=True))
            if half == one.seam.half and abs(level - _limit(one, share)) <= _CLOSE
        )
        for one in stands
    )
    return Edges(tuple(halves), tuple(engaged), own, np.array(heights), np.array(tilts))


def _limit(one: Stand, share: float) -> Mm:
    return min(share, one.seam.engaged) * one.half_width


def _kinds(stands: Sequence[Stand], share: float) -> Iterator[tuple[Cubic | None, Mm]]:
    """Yield every edge with how far from the centre it may lie against a seam."""
    seen: dict[tuple[Cubic | None, Mm], None] = {}
    for one in stands:
        seen[one.seam.half, _limit(one, share)] = None
    yield from seen
    collars = sorted(((h, limit) for h, limit in seen if h), key=lambda one: (one[0].b.x, one[1]))
    for round_ in (True, False):
        alike = [one for one in collars if (relief(one[0]) == one[0].a) is round_]
        for (narrow, first), (wide, second) in pairwise(alike):
            for part in _BETWEEN if narrow != wide else ():
                yield _between(narrow, wide, part), min(first, second)


def _between(one: Cubic, two: Cubic, part: float) -> Cubic:
    def on(a: Point, b: Point) -> Point:
        return a.plus(b.minus(a).times(part))

    return Cubic(on(one.a, two.a), on(one.p, two.p), on(one.q, two.q), on(one.b, two.b))


def _row(
    half: Cubic | None, level: Mm, stands: Sequence[Stand], share: float
) -> tuple["Numbers", "Numbers"]:
    """Return how much too low a print at an edge is on each size, and how far it can turn."""
    import numpy as np

    heights, tilts = np.full(len(stands), np.nan), np.full(len(stands), np.nan)
    for k, one in enumerate(stands):
        if half is None and one.seam.half is None:
            heights[k], tilts[k] = (-one.drop if one.hangs else one.drop), 0.0
        elif half and one.seam.half and level <= _limit(one, share) + _CLOSE:
            inner = relief(half).x
            xs = np.linspace(inner, level, _PLACES + 1)
            gaps = _heights(one.seam.half, inner, level) - _heights(half, inner, level)
            most = float(gaps.max())
            heights[k] = most + half.a.y - one.seam.half.a.y - one.drop
            turned = (FEEL + most - gaps[xs > 0]) / xs[xs > 0]
            tilts[k] = np.degrees(np.arctan(turned.min()))
    return heights, tilts


@lru_cache(maxsize=4096)
def _heights(half: Cubic, inner: Mm, level: Mm) -> "Numbers":
    """Return a curve's y at even steps of x; one is laid against many others."""
    import numpy as np

    return np.interp(np.linspace(inner, level, _PLACES + 1), *_points(half))


@lru_cache(maxsize=256)
def _points(half: Cubic) -> tuple["Numbers", "Numbers"]:
    """Return x and y of points along a curve."""
    import numpy as np

    t = np.linspace(0.0, 1.0, _POINTS + 1)
    weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3)
    points = (half.a, half.p, half.q, half.b)
    along = sum(w * p.x for w, p in zip(weights, points, strict=True))
    down = sum(w * p.y for w, p in zip(weights, points, strict=True))
    return np.asarray(along), np.asarray(down)
