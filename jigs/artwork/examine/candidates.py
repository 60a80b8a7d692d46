"""Where lines and gaps may be thin, found on a map of the inks by small discs.

What a small disc leaves unpainted (`opening` says how) is either thin or a corner, and of corners
only the deep part of sharp ones is kept. Small discs are quick, so for wider places the map is made
smaller instead of the disc larger. This only proposes places: `measured` looks at each closely.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import (
    disc,
    distances,
    framed,
    highest,
    looked_up,
    lowest,
    painted_twice,
    pieces,
    present_in,
    same,
)
from jigs.artwork.examine.opening import depths, unpainted

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Distances, Map, Mask

#: Diameters of the discs in pixels. A line that the last has just painted is on a map half as
#: large wide enough for `_DEEP`, so that no width is left out.
DISCS = (3, 9)
#: Of the larger disc's pieces the part is kept into which this one fits: no blunt corners.
_DEEP = 3
#: Pixels of what lies on each side of a waist.
_SIDE = 12
#: The discs that judge a piece: what the larger paints, the smaller does.
_JUDGED = {3: (3.0, 1.6), 9: (9.0, 5.0)}
#: Long pieces are cut into parts of this many pixels, to find where they are thinnest.
_CELL = 96
#: Pixels of a band, and rows of its neighbours that it is given.
_MOST_PIXELS, _HALO = 4_000_000, 32
#: Pieces of one label that may be judged for one disc, the largest: most corners are small.
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


def of_labels(labels: "Map") -> Iterator[dict[int, Iterator[Candidate]]]:
    """Yield disc by disc where each label of a map may be thin, thinnest first."""
    for size in DISCS:
        found: dict[int, list[_Piece]] = {}
        for piece in _in_bands(labels, size, same):
            found.setdefault(piece.label, []).append(piece)
        yield {label: _judged(each, labels, size) for label, each in sorted(found.items())}


def of_mask(mask: "Map", table: "Map | None" = None) -> Iterator[Candidate]:
    """Yield where one shape may be thin by the largest disc, thinnest first.

    A table says which labels the shape is made up of.
    """
    return _judged(_in_bands(mask, DISCS[-1], lowest, table), mask, DISCS[-1], table)


def _in_bands(
    labels: "Map", size: int, core: "Callable[[Map, Mask], Mask]", table: "Map | None" = None
) -> "list[_Piece]":
    """Return the pieces of a map, which is gone through in bands so that little is kept."""
    height, width = labels.shape
    rows = max(_MOST_PIXELS // width // _CELL, 1) * _CELL
    found: list[_Piece] = []
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
        if left.any():
            # What the smallest disc leaves is all about as thin.
            depth = distances(core(band, disc(_DEEP))) if size > _DEEP else None
            found += _pieces(left, band, depth, top - above)
    return found


@dataclass(frozen=True, slots=True)
class _Piece:
    """What a disc has left of a map, deepest inside it."""

    depth: float
    box: tuple[int, int, int, int]
    """Left, top, width and height."""
    area: int
    label: int


def _pieces(
    left: "NDArray[np.bool_]", labels: "Map", depth: "Distances | None", top: int
) -> Iterator[_Piece]:
    """Yield the largest pieces of each label of a band that begins at a row of the map."""
    import numpy as np

    left[-top % _CELL :: _CELL] = False
    left[:, ::_CELL] = False
    parts = pieces(left.view(np.uint8))
    at = np.flatnonzero(left)
    numbers = parts.numbers.ravel()[at]
    deepest = np.zeros(parts.count, np.float32)
    if depth is not None:
        np.maximum.at(deepest, numbers, depth.ravel()[at])
    known, first = np.unique(numbers, return_index=True)
    of_piece = labels.ravel()[at[first]]
    for label in present_in(of_piece):
        own = known[of_piece == label]
        largest = own[np.argsort(-parts.boxes[own, 4], kind="stable")[:_MOST_JUDGED]]
        for k in largest.tolist():
            x, y, across, down, area = (int(v) for v in parts.boxes[k])
            yield _Piece(float(deepest[k]), (x, y + top, across, down), area, label)


def _judged(
    found: "list[_Piece]", labels: "Map", size: int, table: "Map | None" = None
) -> Iterator[Candidate]:
    """Yield the pieces that are lines, or gaps, the shallowest first, as they are asked for."""
    halo, fine = int(_ROUND * size), _MAGNIFIED[size]
    height, width = labels.shape
    largest = sorted(found, key=lambda piece: (-piece.area, piece.box))[:_MOST_JUDGED]
    for one in sorted(largest, key=lambda piece: (piece.depth, piece.box)):
        x, y, across, down = one.box
        part = labels[max(y - halo, 0) : y + down + halo, max(x - halo, 0) : x + across + halo]
        part = part if table is None else looked_up(part, table)
        # Beyond the map it goes on as at its border.
        part = framed(
            part,
            max(halo - y, 0),
            max(y + down + halo - height, 0),
            max(halo - x, 0),
            max(x + across + halo - width, 0),
            None,
        )
        mask = (part == one.label).view("u1").repeat(fine, axis=0).repeat(fine, axis=1)
        ends = (halo * fine, halo * fine, (halo + across) * fine, (halo + down) * fine)
        depth = depths(mask)
        seen = []
        for diameter in _JUDGED[size]:
            there = unpainted(mask, depth, diameter * fine, ends)
            if not there:
                break
            seen += there
        for piece in sorted(seen, key=lambda piece: (piece.depth, piece.middle)):
            column, row = ((v + 0.5) / fine - 0.5 - halo for v in piece.middle)
            yield Candidate(2 * piece.depth / fine, x + column, y + row, one.label)
