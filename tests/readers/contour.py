"""What every reader gives back: a line of points, and what the file said about it."""

import math
from dataclasses import dataclass
from itertools import pairwise

XY = tuple[float, float]

#: Curves are read as chords that stray by no more than this.
CHORD = 0.004


@dataclass(frozen=True)
class Contour:
    """A line as it was read: page mm, y down; the box it is clipped to, if it is."""

    layer: str | None
    points: list[XY]
    closed: bool
    clip: tuple[float, float, float, float] | None = None

    def box(self) -> tuple[float, float, float, float]:
        """Return left, top, right, bottom."""
        xs, ys = [x for x, _ in self.points], [y for _, y in self.points]
        return min(xs), min(ys), max(xs), max(ys)

    def length(self) -> float:
        """Return the length of the line, with the closing side."""
        ends = [*self.points, self.points[0]] if self.closed else self.points
        return sum(math.dist(a, b) for a, b in pairwise(ends))


def cubic_points(a: XY, p: XY, q: XY, b: XY) -> list[XY]:
    """Return points after `a` on a cubic, evenly in its parameter, plenty of them."""
    around = math.dist(a, p) + math.dist(p, q) + math.dist(q, b)
    count = max(4, math.ceil(math.sqrt(around / CHORD)))
    found = []
    for k in range(1, count + 1):
        t = k / count
        u = 1 - t
        w = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
        found.append((
            w[0] * a[0] + w[1] * p[0] + w[2] * q[0] + w[3] * b[0],
            w[0] * a[1] + w[1] * p[1] + w[2] * q[1] + w[3] * b[1],
        ))  # fmt: skip
    return found


def arc_points(centre: XY, radius: float, start: float, sweep: float) -> list[XY]:
    """Return points on a circle after the start angle, through a signed sweep in radians."""
    step = 2 * math.acos(max(0.0, 1 - CHORD / radius))
    count = max(1, math.ceil(abs(sweep) / step))
    return [
        (
            centre[0] + radius * math.cos(start + sweep * k / count),
            centre[1] + radius * math.sin(start + sweep * k / count),
        )
        for k in range(1, count + 1)
    ]
