"""One place looked at closely: is it a line (or a gap), how wide exactly, and which way across."""

import math
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import sampled
from jigs.artwork.examine.opening import Piece, depths, unpainted
from jigs.geometry import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Cover, Distances, Mask

#: The first window: guessed widths along its side, and pixels.
WIDTHS, SIDE = 12, 144
#: The second window: widths along its side, and pixels.
CLOSE_WIDTHS, CLOSE_SIDE = 2.4, 320
#: Discs tried: from this part of the guessed width to this multiple, each larger by a factor.
_LEAST, _MOST, _FACTOR = 0.55, 1.7, 1.3
#: Pixels to which the disc is found in the first window; the second gives the width itself.
_FINE = 0.5
#: How far from the window's middle a piece may be, as a part of half its side.
_NEAR = 0.3
#: Turns of the direction across that are tried for the shortest way, in degrees.
_TURNS = tuple(range(-15, 16, 3))
#: Cross-sections in the second window: so many to each side, this part of the width apart. Few,
#: because a dot is shorter away from its middle.
_SECTIONS, _APART = 3, 0.04
#: So many cross-sections beside each other are taken together: single ones show pixels' corners.
_TOGETHER = 5
#: Samples a pixel along a cross-section, and the cover that counts as none.
_SAMPLES, _NONE = 2, 0.06


def narrowest(mask: "Mask", below: float | None = None) -> tuple[Piece, float] | None:
    """Return the narrowest piece near a window's middle, and its width, in pixels.

    With `below`, nothing is returned unless it is narrower than that.
    """
    guess = SIDE / WIDTHS
    depth = depths(mask)
    most = _MOST * guess
    if below is not None:
        # One look tells in most cases that there is nothing.
        most = min(most, below)
        if not _near_middle(mask, depth, most):
            return None
    low = high = _LEAST * guess
    while (piece := _near_middle(mask, depth, high)) is None:
        low, high = high, high * _FACTOR
        if low >= most:
            return None
    while high - low > _FINE:
        disc = (low + high) / 2
        found = _near_middle(mask, depth, disc)
        if found is None:
            low = disc
        else:
            high, piece = disc, found
    return piece, high


def _near_middle(mask: "Mask", depth: "Distances", disc: float) -> Piece | None:
    middle = mask.shape[0] / 2
    low, high = int(middle * (1 - _NEAR)), int(middle * (1 + _NEAR))
    pieces = unpainted(mask, depth, disc, (low, low, high, high))
    return min(pieces, key=lambda one: math.dist(one.middle, (middle, middle)), default=None)


def direction(mask: "Mask", piece: Piece) -> Point:
    """Return the unit vector across a piece: towards its nearest edge."""
    import numpy as np

    x, y = piece.middle
    reach = int(piece.depth) + 3
    left, top = max(int(x) - reach, 0), max(int(y) - reach, 0)
    rows, columns = np.nonzero(mask[top : int(y) + reach + 1, left : int(x) + reach + 1] == 0)
    if not len(rows):
        return Point(1, 0)
    dx, dy = columns + left - x, rows + top - y
    away = np.hypot(dx, dy)
    # The mean of all that are about as near on the same side: one pixel's place is rough.
    first = int(away.argmin())
    side = (dx * dx[first] + dy * dy[first] > 0) & (away <= away[first] + 0.7)
    ux, uy = float(dx[side].mean()), float(dy[side].mean())
    return Point(ux / math.hypot(ux, uy), uy / math.hypot(ux, uy))


def width_across(cover: "Cover", width: float, across: Point) -> tuple[float, Point, Point] | None:
    """Return the width at the narrowest cross-section near a picture's middle.

    `cover` says how much of each pixel the shape covers, `width` is about how wide it is there. A
    width is the sum of the cover along a straight line across, so that it is right below a pixel.
    Also returned: the middle of the cross-section, and the direction across. All in pixels.
    """
    import numpy as np

    half = (cover.shape[0] - 1) / 2
    reach = np.arange(-0.96 * half, 0.96 * half, 1 / _SAMPLES, dtype=np.float32)
    beside = np.arange(-_SECTIONS, _SECTIONS + 1, dtype=np.float32) * _APART * width
    best = None
    for turn in _TURNS:
        angle = math.atan2(across.y, across.x) + math.radians(turn)
        nx, ny = math.cos(angle), math.sin(angle)
        xs = half - beside[:, None] * ny + reach[None, :] * nx
        ys = half + beside[:, None] * nx + reach[None, :] * ny
        spans = [_span(line) for line in sampled(cover, xs, ys)]
        for k in range(len(spans) - _TOGETHER + 1):
            group = [span for span in spans[k : k + _TOGETHER] if span is not None]
            if len(group) < _TOGETHER:
                continue
            found = sum(span[0] for span in group) / _TOGETHER / _SAMPLES
            if best is None or found < best[0] - 1e-6:
                at = sum(span[1] for span in group) / _TOGETHER / _SAMPLES + float(reach[0])
                off = float(beside[k + _TOGETHER // 2])
                middle = Point(half - off * ny + at * nx, half + off * nx + at * ny)
                best = (found, middle, Point(nx, ny))
    return best


def _span(line: "NDArray[np.float32]") -> tuple[float, float] | None:
    """Return the length and the middle of the covered stretch nearest a line's middle, in samples.

    None if the line has no such stretch, or it reaches an end.
    """
    import numpy as np

    within = line > _NONE
    inside = np.flatnonzero(within)
    if not len(inside):
        return None
    middle = len(line) / 2
    zero = int(inside[np.abs(inside - middle).argmin()])
    outside = np.flatnonzero(~within)
    before, after = outside[outside < zero], outside[outside > zero]
    if not len(before) or not len(after):
        return None
    low, high = int(before[-1]) + 1, int(after[0])
    part = line[low:high]
    total = float(part.sum())
    return total, low + float((part * np.arange(len(part))).sum()) / total
