"""What a disc cannot paint: the rule by which a place is a line, or a gap, and how wide it is.

A shape is *opened* by a disc: painted with the disc wherever the disc fits into it. What stays
unpainted falls into pieces. By what a piece touches of the painted part it is

- an island, if it touches nothing: all of it is narrower than the disc;
- a bridge, if it touches the painted part at two places or more: a line between;
- a tip, if it touches at one place: a line that ends, or only a corner.

Where the disc cannot be moved from one place to another there is a waist between the two, even if
it can paint all of it from both sides, as in an hourglass: a seam of the two is a bridge, too.

A tip is a line if it is at least `LONG` times as long as it is wide at its widest place, and at
least the part `FAR` of it lies in its farther half. A corner of more than 39 degrees is too short
for that, and any that runs to a point has no more than a quarter there: so corners, the points of
stars and the tips of serifs are no lines, and a hairline serif is one. The width of a line is the
diameter of the smallest disc that leaves it unpainted, or has a seam there.
(Opening: Serra, Image Analysis and Mathematical Morphology, 1982; the rule for tips is this
program's own.)
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from jigs.artwork.examine.morphology import (
    distances,
    framed,
    highest,
    nearest_pieces,
    pieces,
    present_in,
    square,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Distances, Mask

#: Left, top, right and bottom of a part of a picture; the last two are outside it.
Pixels: TypeAlias = tuple[int, int, int, int]

#: A tip is a line from this many of its widths on (common practice, no source). What a disc leaves
#: of a corner of the angle a is 1 / (2 sin(a / 2)) of its own widest place long.
LONG = 1.5
#: Part of a tip's area in its farther half from which it is a line: a point has 1/4 there, half an
#: ellipse 0.39, what narrows to 0.4 of its width 0.39.
FAR = 0.37
#: How wide, over its widest place, what leaves the picture is there at least: a needle's middle is
#: no line, though its point is not seen.
CUT = 0.6
#: A piece's greatest depth over the disc's diameter, at least. A line of 3/10 of the disc has 0.15;
#: corners of more than 95 degrees have less: (1 - sin(a / 2)) / 2.
DEEP = 0.13
#: Pixels that a painted edge may lie beside a drawn one without a piece between.
_SLACK = 1.0
#: A piece that is not this part as deep as anywhere only reaches into a part by its edge.
_MIDST = 0.35
#: Pixels by which a place is surely wider than a disc.
_SURELY = 1.5
#: How far from a window's middle a piece may be, as a part of half its side.
_NEAR = 0.3
#: Pixels by which one pixel is hardly deeper than another.
_AS_DEEP = 0.5


@dataclass(frozen=True, slots=True)
class Piece:
    """What a disc leaves unpainted at one place."""

    middle: tuple[float, float]
    """Its deepest pixel's middle: x, y."""
    depth: float
    """How far that is from the shape's edge."""
    alone: bool = False
    """Whether it is an island."""


def depths(mask: "Mask") -> "Distances":
    """Return for each pixel of a shape how far its middle is from the shape's edge.

    The picture's border is no edge: the shape is taken to go on as it arrives there.
    """
    # The edge is half a pixel nearer than the middle of the nearest pixel outside.
    return distances(framed(mask, 1, 1, 1, 1, None))[1:-1, 1:-1] - 0.5


def unpainted(mask: "Mask", depth: "Distances", disc: float, within: Pixels) -> list[Piece]:
    """Return the pieces of a shape that are lines narrower than a disc of a diameter in pixels.

    Only pieces in a part of the picture are told, and their deepest pixel there.
    """
    import numpy as np

    centres = (depth >= disc / 2).view(np.uint8)
    painted = (mask > 0) & (distances(1 - centres) <= disc / 2 + _SLACK)
    left = (mask > 0) & ~painted
    found = _seams(painted, centres, depth, disc, within)
    if not left.any():
        return found
    # What reaches the picture's border goes on beyond it.
    frame = np.zeros_like(left)
    frame[[0, -1], :] = frame[:, [0, -1]] = True
    frame &= left
    left &= ~frame
    parts = pieces(left.view(np.uint8))
    left_, top, right, bottom = within
    for k in present_in(parts.numbers[top:bottom, left_:right]):
        if not k:
            continue
        x, y, across, down, _ = (int(v) for v in parts.boxes[k])
        part = (slice(y - 1, y + down + 1), slice(x - 1, x + across + 1))
        piece = (parts.numbers[part] == k).view(np.uint8)
        inner = np.where(piece, depth[part], 0)
        deepest = float(inner.max())
        if deepest < DEEP * disc:
            continue
        around = highest(piece, square()) > 0
        if _is_line(piece, painted[part] & around, frame[part] & around, 2 * deepest + 1):
            found += _deepest(
                inner, (x - 1, y - 1), within, alone=not (around & (painted | frame)[part]).any()
            )
    return found


def near_middle(mask: "Mask", depth: "Distances", disc: float) -> list[Piece]:
    """Return the same of the middle of a square window."""
    middle = mask.shape[0] / 2
    low, high = int(middle * (1 - _NEAR)), int(middle * (1 + _NEAR))
    if not mask[low:high, low:high].any():
        return []
    return unpainted(mask, depth, disc, (low, low, high, high))


def _is_line(
    piece: "Mask", painted: "NDArray[np.bool_]", border: "NDArray[np.bool_]", widest: float
) -> bool:
    """Return whether a piece is a line, by where it touches what is painted and the border."""
    ends = pieces((painted | border).view("u1"))
    if ends.count == 2:
        away = distances((ends.numbers == 0).view("u1"))[piece > 0]
        length = float(away.max())
        return length >= LONG * widest and float((away > length / 2).mean()) >= FAR
    if ends.count == 1 or pieces(painted.view("u1")).count > 2:
        return True
    cuts = pieces(border.view("u1")).boxes[1:, 4]
    return bool(cuts.min() >= CUT * widest)


def _seams(
    painted: "NDArray[np.bool_]", centres: "Mask", depth: "Distances", disc: float, within: Pixels
) -> list[Piece]:
    """Return where a disc paints from two places between which it cannot be moved."""
    import numpy as np

    # Along a line just as wide as the disc its places lie scattered: those are no two sides.
    parts = pieces(centres)
    if parts.count <= 2:
        return []
    sides = present_in(parts.numbers[depth >= disc / 2 + _SURELY])
    if len(sides) < 2:
        return []
    near = nearest_pieces(np.isin(parts.numbers, sides).view(np.uint8))
    seam = np.zeros_like(painted)
    seam[:, 1:] = near[:, 1:] != near[:, :-1]
    seam[1:] |= near[1:] != near[:-1]
    parts = pieces((seam & painted).view(np.uint8))
    left, top, right, bottom = within
    found = []
    for k in present_in(parts.numbers[top:bottom, left:right]):
        x, y, across, down, _ = (int(v) for v in parts.boxes[k])
        part = (slice(y, y + down), slice(x, x + across))
        inner = np.where(parts.numbers[part] == k, depth[part], 0)
        if k and float(inner.max()) >= DEEP * disc:
            found += _deepest(inner, (x, y), within)
    return found


def _deepest(
    inner: "Distances", corner: tuple[int, int], within: Pixels, *, alone: bool = False
) -> list[Piece]:
    """Return the piece that has these depths, and 0 round it, if it is within a part."""
    import numpy as np

    x, y = corner
    left, top, right, bottom = within
    first, upper = max(left - x, 0), max(top - y, 0)
    least = _MIDST * float(inner.max())
    inner = inner[upper : max(bottom - y, 0), first : max(right - x, 0)]
    deepest = float(inner.max(initial=0))
    if deepest <= least:
        return []
    # Of pixels about as deep the one amid them: the first may be as near to a line's end.
    rows, columns = np.nonzero(inner >= deepest - _AS_DEEP)
    amid = int(np.hypot(rows - rows.mean(), columns - columns.mean()).argmin())
    at = (x + first + float(columns[amid]), y + upper + float(rows[amid]))
    return [Piece(at, deepest, alone)]
