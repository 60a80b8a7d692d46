"""Where lines and gaps may be thin, found on a map of the inks by small discs.

What a small disc leaves unpainted (`opening` says how) is either thin or a corner, and of corners
only the deep part of sharp ones is kept. Small discs are quick, so for wider places the map is made
smaller instead of the disc larger. This only proposes places: `measured` looks at each closely.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import (
    disc,
    framed,
    highest,
    looked_up,
    lowest,
    painted_twice,
    pieces,
    same,
)
from jigs.artwork.examine.opening import depths, unpainted

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Map, Mask

#: Diameters of the discs in pixels. A line that the last has just painted is on a map half as
#: large wide enough for `_DEEP`, so that no width is left out.
DISCS = (3, 9)
#: Of the larger disc's pieces the part is kept into which this one fits: no blunt corners.
_DEEP = 3
#: Pixels of what lies on each side of a waist.
_SIDE = 12
#: The discs that judge a piece: the smaller one above finds lines of one pixel and of two.
_JUDGED = {3: (3.0, 1.6), 9: (9.0, 5.0)}
#: Long pieces are cut into parts of this many pixels, to find where they are thinnest.
_CELL = 96
#: Pixels of a band, and rows of its neighbours that it is given.
_MOST_PIXELS, _HALO = 4_000_000, 32
#: Pieces of a map that are judged for one disc, the largest of each band: most corners are small.
_MOST_JUDGED = 400
#: Pixels a piece is magnified to for judging, per pixel, by disc; discs of ground left round it.
_MAGNIFIED, _ROUND = {3: 5, 9: 3}, 1.5


@dataclass(frozen=True, slots=True, order=True)
class Candidate:
    """A place that may be thin, in pixels of the map it was found on."""

    width: float
    x: float
    y: float
    label: int


def of_labels(labels: "Map") -> Iterator[tuple[int, list[Candidate]]]:
    """Yield disc by disc where any one label of a map may be thin: the disc, and the places."""
    for size in DISCS:
        yield size, _in_bands(labels, size, same)


def of_mask(mask: "Map", table: "Map | None" = None) -> list[Candidate]:
    """Return where one shape may be thin by the largest disc; a table says which labels it is."""
    return _in_bands(mask, DISCS[-1], lowest, table)


def _in_bands(
    labels: "Map", size: int, core: "Callable[[Map, Mask], Mask]", table: "Map | None" = None
) -> list[Candidate]:
    """Go through a map in bands, so that what is kept of it beside it stays small."""
    height, width = labels.shape
    rows = max(_MOST_PIXELS // width // _CELL, 1) * _CELL
    bands = -(-height // rows)
    found = []
    for top in range(0, height, rows):
        above, below = min(_HALO, top), min(_HALO, max(height - top - rows, 0))
        band = labels[top - above : top + rows + below]
        band = band if table is None else looked_up(band, table)
        centres = core(band, disc(size))
        left = (highest(centres, disc(size)) == 0) | painted_twice(centres, disc(size), _SIDE)
        if core is not same:
            left &= band > 0
        if size > _DEEP:
            left &= core(band, disc(_DEEP)) > 0
        left[:above] = left[len(band) - below :] = False
        places = _judged(left, band, size, top - above, max(_MOST_JUDGED // bands, 1))
        found += [replace(one, y=one.y + top - above) for one in places]
    return sorted(found)


def _judged(
    left: "NDArray[np.bool_]", labels: "Map", size: int, top: int, most: int
) -> Iterator[Candidate]:
    """Yield the pieces that are lines, or gaps."""
    import numpy as np

    if not left.any():
        return
    left[-top % _CELL :: _CELL] = False
    left[:, ::_CELL] = False
    parts = pieces(left.view(np.uint8))
    largest = np.argsort(-parts.boxes[1:, 4], kind="stable")[:most] + 1
    for k in (int(k) for k in largest):
        x, y, across, down, _ = (int(v) for v in parts.boxes[k])
        column = x + int(np.argmax(parts.numbers[y, x : x + across] == k))
        label = int(labels[y, column])
        halo, fine = int(_ROUND * size), _MAGNIFIED[size]
        part = labels[max(y - halo, 0) : y + down + halo, max(x - halo, 0) : x + across + halo]
        # Beyond the map it goes on as at its border.
        part = framed(
            part,
            max(halo - y, 0),
            max(y + down + halo - len(labels), 0),
            max(halo - x, 0),
            max(x + across + halo - labels.shape[1], 0),
            None,
        )
        first, upper = x - halo, y - halo
        mask = (part == label).view(np.uint8)
        mask = np.repeat(np.repeat(mask, fine, axis=0), fine, axis=1)
        within = (
            halo * fine, halo * fine, (halo + across) * fine, (halo + down) * fine,
        )  # fmt: skip
        depth = depths(mask)
        for diameter in _JUDGED[size]:
            found = unpainted(mask, depth, diameter * fine, within)
            for piece in found:
                at = [(v + 0.5) / fine - 0.5 for v in piece.middle]
                width = 2 * piece.depth / fine
                yield Candidate(width, first + at[0], upper + at[1], label)
            if not found:
                # What the larger disc paints, the smaller one does.
                break
