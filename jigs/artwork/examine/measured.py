"""One place looked at closely: is it a line (or a gap), how wide exactly, and which way across."""

import math
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import sampled
from jigs.artwork.examine.opening import Piece, depths, near_middle
from jigs.geometry import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Cover, Distances, Mask

#: The first window: guessed widths along its side, and pixels.
WIDTHS, SIDE = 10, 160
#: The second window: widths along its side, and pixels.
CLOSE_WIDTHS, CLOSE_SIDE = 2.4, 200
#: Discs tried: first this part of the guessed width, then as long as it leaves nothing up to this
#: multiple, or else as long as it leaves something downwards, by a factor each.
_LEAST, _MOST, _FACTOR = 0.8, 1.7, 1.3
#: Pixels of the narrowest disc tried, at least.
_THINNEST = 5.0
#: Pixels to which the disc is found in the first window; the second gives the width itself.
_FINE = 0.25
#: Directions across that are tried for the shortest way, in degrees: all round, then so many steps
#: to each side of the best, of 3 degrees and then of 1 (in radians). Each time the middle moves to
#: the shortest way, so that where two corners face each other it is found.
_ROUGH = tuple(range(0, 180, 15))
_STEPS, _FINELY = 4, (0.0524, 0.0524, 0.0175, 0.0175)
#: Cross-sections in the second window: so many to each side, this part of the width apart. Few,
#: because a dot is shorter away from its middle.
_SECTIONS, _APART = 5, 0.02
#: A cross-section of a picture is a mean over so many of its pixels to each side: one alone shows
#: how they lie, not how wide the line is.
_GRAINS = 2.0
#: Samples a pixel along a cross-section, and the cover that counts as none.
_SAMPLES, _NONE = 2, 0.06


def narrowest(mask: "Mask", deep: float = 0.0) -> tuple[Piece, float] | None:
    """Return the narrowest piece near a window's middle, and its width, in pixels.

    With `deep`, only pieces count whose depth is such a part of the disc, or more.
    """
    guess = SIDE / WIDTHS
    depth = depths(mask)
    low = high = _LEAST * guess
    piece = _near_middle(mask, depth, high, deep)
    if piece is None:
        while piece is None:
            low, high = high, high * _FACTOR
            if low >= _MOST * guess:
                return None
            piece = _near_middle(mask, depth, high, deep)
    else:
        while low == high >= _THINNEST:
            found = _near_middle(mask, depth, high / _FACTOR, deep)
            low = high / _FACTOR
            high, piece = (low, found) if found else (high, piece)
    while high - low > _FINE:
        disc = (low + high) / 2
        found = _near_middle(mask, depth, disc, deep)
        if found is None:
            low = disc
        else:
            high, piece = disc, found
    return piece, high


def _near_middle(mask: "Mask", depth: "Distances", disc: float, deep: float) -> Piece | None:
    middle = mask.shape[0] / 2
    pieces = [one for one in near_middle(mask, depth, disc) if one.depth >= deep * disc]
    return min(pieces, key=lambda one: math.dist(one.middle, (middle, middle)), default=None)


def width_across(
    cover: "Cover", width: float, grain: float = 0.0
) -> tuple[float, Point, Point] | None:
    """Return the width at the narrowest cross-section near a picture's middle.

    `grain` is the side of a pixel of the artwork: what is seen is a mean over some of them.

    `cover` says how much of each pixel the shape covers, `width` is about how wide it is there. A
    width is the sum of the cover along a straight line across, so that it is right below a pixel.
    Also returned: the middle of the cross-section, and the direction across. All in pixels.
    """
    import numpy as np

    half = (cover.shape[0] - 1) / 2
    centre = Point(half, half)
    turns = np.radians(np.array(_ROUGH, np.float32))
    lengths = _spans(_sections(cover, turns, np.zeros(1, np.float32), centre))[0]
    if np.isnan(lengths).all():
        return None
    turn = turns[int(np.nanargmin(lengths))]
    blurred = _GRAINS * grain > _SECTIONS * _APART * width
    reach = _GRAINS * grain if blurred else _SECTIONS * _APART * width
    beside = np.linspace(-reach, reach, 2 * _SECTIONS + 1, dtype=np.float32)
    best: tuple[float, Point, Point] | None = None
    for step in _FINELY[:1] if blurred else _FINELY:
        turns = turn + step * np.arange(-_STEPS, _STEPS + 1, dtype=np.float32)
        lengths, middles = _spans(_sections(cover, turns, beside, centre))
        if blurred:
            lengths[:, :] = lengths.mean(axis=1, keepdims=True)
        if np.isnan(lengths).all():
            break
        at, k = (int(v) for v in np.unravel_index(int(np.nanargmin(lengths)), lengths.shape))
        if best and lengths[at, k] >= best[0]:
            continue
        turn = turns[at]
        nx, ny = math.cos(turn), math.sin(turn)
        off, along = float(beside[k]), float(middles[at, k])
        # From here the shortest way across may go on being shorter to one side.
        middle = Point(centre.x - off * ny + along * nx, centre.y + off * nx + along * ny)
        best = float(lengths[at, k]), middle, Point(nx, ny)
        centre = middle
    return best


def width_alone(cover: "Cover", width: float) -> tuple[float, Point, Point] | None:
    """Return the same of a shape that stands alone: through the middle of its largest disc."""
    import numpy as np

    inside = depths((cover > 0.5).view("u1"))
    half = (cover.shape[0] - 1) / 2
    first, last = int(half - width / 2), int(half + width / 2) + 1
    part = inside[first:last, first:last]
    row, column = np.unravel_index(int(part.argmax()), part.shape)
    centre = Point(first + float(column), first + float(row))
    angles = np.radians(np.arange(0, 180, 3, dtype=np.float32))
    lengths, middles = _spans(_sections(cover, angles, np.zeros(1, np.float32), centre))
    if np.isnan(lengths).all():
        return None
    turn = int(np.nanargmin(lengths))
    nx, ny = math.cos(angles[turn]), math.sin(angles[turn])
    at = float(middles[turn, 0])
    return float(lengths[turn, 0]), Point(centre.x + at * nx, centre.y + at * ny), Point(nx, ny)


def _sections(
    cover: "Cover",
    angles: "NDArray[np.float32]",
    beside: "NDArray[np.float32]",
    middle: Point,
) -> "Cover":
    """Return the cover along straight lines: for each direction, those so far from a middle."""
    import numpy as np

    nx, ny = np.cos(angles)[:, None, None], np.sin(angles)[:, None, None]
    reach = _reach(cover)[None, None, :]
    xs = middle.x - beside[None, :, None] * ny + reach * nx
    ys = middle.y + beside[None, :, None] * nx + reach * ny
    lines = sampled(cover, xs.reshape(-1, reach.size), ys.reshape(-1, reach.size))
    return lines.reshape(len(angles), len(beside), -1)


def _reach(cover: "Cover") -> "NDArray[np.float32]":
    """Return where along a line the samples of a cross-section are, in pixels from its middle."""
    import numpy as np

    most = 0.96 * (cover.shape[0] - 1) / 2
    return np.arange(-most, most, 1 / _SAMPLES, dtype=np.float32)


def _spans(lines: "Cover") -> tuple["NDArray[np.float64]", "NDArray[np.float64]"]:
    """Return the length and the middle of the covered stretch nearest each line's middle.

    In pixels, the middle from the line's own; NaN if a line has no such stretch, or it reaches
    an end.
    """
    import numpy as np

    within = lines > _NONE
    steps = np.arange(lines.shape[-1])
    far = np.where(within, np.abs(steps - lines.shape[-1] / 2), np.inf)
    nearest = far.argmin(axis=-1)[..., None]
    low = np.where(~within & (steps < nearest), steps, -1).max(axis=-1, keepdims=True)
    high = np.where(~within & (steps > nearest), steps, len(steps)).min(axis=-1, keepdims=True)
    whole = within.any(axis=-1) & (low[..., 0] >= 0) & (high[..., 0] < len(steps))
    part = np.where((steps > low) & (steps < high), lines, 0).astype(np.float64)
    total = np.where(whole, part.sum(axis=-1), np.nan)
    middle = (part * steps).sum(axis=-1) / total
    return total / _SAMPLES, (middle - lines.shape[-1] / 2) / _SAMPLES
