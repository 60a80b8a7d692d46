"""Where lines and gaps may be thin, found on a map of the inks by how far its edges are.

Inside a shape the distance to its edge grows by a pixel with each pixel, away from the edge: its
gradient is 1. Amid a line, and at a waist, the edges on both sides are equally far, and there it is
0; amid a corner of the angle a it is sin(a / 2). So where it is small there is the middle of
something, and the distance is half its width. (The medial axis: Blum, A Transformation for
Extracting New Descriptors of Shape, 1967.) However a thing lies, and whatever its width, it is
found so. What of it is a line, and what a sharp corner, `opening` says of each place.

This only proposes places: `measured` looks at each closely.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import distances_in_parts, looked_up, steepness
from jigs.artwork.examine.opening import depths, near_middle

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Bytes, Map, Mask

#: Amid a line of an even number of pixels the gradient is 0.5; in a corner of 74 degrees 0.6.
_LEVEL = 0.6
#: Amid a dot of an even number of pixels it is 0.71: what is nowhere farther round it counts, too.
_AMID = 0.75
#: Along a line there are pixels about as far both ways; where something runs to a point, those one
#: way are nearer by this for each pixel. In a corner of 44 degrees it is 0.375.
_TAPER = 0.375
#: Of each square of so many pixels the thinnest place is taken.
_CELL = 16
#: Places told, at most: the thinnest.
_MOST = 4000
#: Pixels of a band, and rows of its neighbours that it is given. No farther can be seen in it.
_MOST_PIXELS, _HALO = 4_000_000, 34
#: Places times this, modulo 2 ** 32, are in no order (Knuth, TAOCP 3, 6.4).
_MIXED = 2654435761
#: Pixels of the widest that is looked for on a map; half of that is as far as a band's halo shows.
WIDEST = 64
#: Distances are taken in so many parts of a pixel: half the widest then fits into a byte.
_PARTS = 7
#: A window in which a place is judged: discs along its side, and pixels. The disc is as wide as
#: the place seems to be, and by so many parts and pixels of the map wider.
_DISCS, _SIDE, _WIDER, _PIXELS = 6, 144, 1.15, 1.5


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place that may be thin, in pixels of the map it was found on."""

    width: float
    x: float
    y: float


def may_be_thin(labels: "Map", table: "Map") -> list[Candidate]:
    """Return where a shape may be thin, about the thinnest places first.

    A table says which labels of the map are the shape. What is wider than `WIDEST` is left out.
    The map is gone through in bands, so that little is kept.
    """
    import numpy as np

    height, width = labels.shape
    rows = max(_MOST_PIXELS // width, 1)
    parts = []
    for top in range(0, height, rows):
        above, below = min(_HALO, top), min(_HALO, max(height - top - rows, 0))
        band = looked_up(labels[top - above : top + rows + below], table)
        at, far, farthest = _amid(band)
        own = (at >= above * width) & (at < (len(band) - below) * width)
        parts.append((at[own] + (top - above) * width, far[own], farthest[own]))
    at, far, farthest = (np.concatenate(each) for each in zip(*parts, strict=True))
    y, x = np.divmod(at, width)
    # What is beyond the map is not seen, so its border seems level.
    inside = (x > 0) & (x < width - 1) & (y > 0) & (y < height - 1)
    at, far, farthest = at[inside], far[inside], farthest[inside]
    # Those equally far are mixed, so that not all that come first are of one line.
    order = np.lexsort((at * _MIXED % 2**32, far))
    at, far, farthest = at[order], far[order], farthest[order]
    y, x = np.divmod(at, width)
    # Of equals the first is taken: in each square the thinnest of both sorts. A single pixel that
    # stands out is not to hide the dot that it belongs to.
    square = y // _CELL * (width // _CELL + 1) + x // _CELL
    _, first = np.unique(2 * square + farthest, return_index=True)
    first = np.sort(first)[:_MOST]
    # From the middle of the last pixel inside to that of the first outside is half more.
    widths = 2 * far[first].astype(float) / _PARTS - 1
    return [
        Candidate(*one)
        for one in zip(widths.tolist(), x[first].tolist(), y[first].tolist(), strict=True)
    ]


def _amid(
    mask: "Mask",
) -> tuple["NDArray[np.intp]", "Bytes", "NDArray[np.bool_]"]:
    """Return which pixels are amid something, how far from what is outside, and more of them.

    That is, whether none round them is farther. Distances are in parts of a pixel.
    """
    import numpy as np

    if not mask.any():
        return np.zeros(0, np.intp), np.zeros(0, np.uint8), np.zeros(0, np.bool_)
    far = distances_in_parts(mask, _PARTS)
    steep = steepness(far)
    found = steep <= round((2 * _AMID * _PARTS) ** 2)
    found &= far <= WIDEST // 2 * _PARTS
    found &= mask > 0
    at = np.flatnonzero(found)
    rows, columns = np.divmod(at, mask.shape[1])
    own = far.ravel()[at].astype(np.int16)
    around = _around(far, rows, columns, 1)
    farthest = np.max(around, axis=0) <= own
    along = np.zeros(len(at), np.bool_)
    level = np.flatnonzero(steep.ravel()[at] <= round((2 * _LEVEL * _PARTS) ** 2))
    around = _around(far, rows[level], columns[level], 2)
    half = len(around) // 2
    both = np.max(np.minimum(around[:half], around[half:]), axis=0)
    along[level] = both >= own[level] - round(2 * _TAPER * _PARTS)
    chosen = farthest | along
    return at[chosen], own[chosen], farthest[chosen]


def _around(
    values: "Bytes", rows: "NDArray[np.intp]", columns: "NDArray[np.intp]", away: int
) -> "Bytes":
    """Return the values so many pixels away from some, all round: half a turn on is opposite."""
    import numpy as np

    height, width = values.shape
    side = range(-away, away)
    ring = [(-away, k) for k in side] + [(k, away) for k in side]
    ring += [(-down, -right) for down, right in ring]
    return np.asarray(
        [
            values[(rows + down).clip(0, height - 1), (columns + right).clip(0, width - 1)]
            for down, right in ring
        ],
        np.uint8,
    )


def judged(one: Candidate, labels: "Map", table: "Map") -> Iterator[Candidate]:
    """Yield where a line, or a gap, is about there on the map, if there is one."""
    import numpy as np

    disc = _WIDER * one.width + _PIXELS
    scale = _SIDE / (_DISCS * disc)
    height, width = labels.shape
    steps = (np.arange(_SIDE) + 0.5 - _SIDE / 2) / scale
    columns = np.floor(one.x + 0.5 + steps).astype(np.intp).clip(0, width - 1)
    rows = np.floor(one.y + 0.5 + steps).astype(np.intp).clip(0, height - 1)
    mask = looked_up(labels[np.ix_(rows, columns)], table)
    middle = _SIDE / 2
    for piece in near_middle(mask, depths(mask), _SIDE / _DISCS):
        x, y = ((v + 0.5 - middle) / scale for v in piece.middle)
        yield Candidate(2 * piece.depth / scale, one.x + x, one.y + y)
