"""What a disc cannot paint: the rule by which a place is a line, or a gap, and how wide it is.

A shape is *opened* by a disc: painted with the disc wherever the disc fits into it. What stays
unpainted falls into pieces. By what a piece touches of the painted part it is

- an island, if it touches nothing: all of it is narrower than the disc;
- a bridge, if it touches the painted part at two places or more: a waist, or a line between;
- a tip, if it touches at one place: a line that ends, or only a corner.

A tip is a line if it is at least `LONG` disc widths long and on average at least `PARALLEL` as wide
as the disc. A corner of more than 29 degrees is too short for that, and one that runs to a point is
on average half as wide as the disc, whatever its angle: so corners, the points of stars and the
tips of serifs are no lines, and a hairline serif is one. The width of a line is the diameter of the
smallest disc that leaves it unpainted. (Opening: Serra, Image Analysis and Mathematical
Morphology, 1982; the rule for tips is this program's own.)
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from jigs.artwork.examine.morphology import distances, framed, highest, pieces, square

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Distances, Mask

#: Left, top, right and bottom of a part of a picture; the last two are outside it.
Pixels: TypeAlias = tuple[int, int, int, int]

#: A tip is a line from this many disc widths on (common practice, no source).
LONG = 1.5
#: Mean width over disc width from which a tip is a line and no point: a point's is 1/2.
PARALLEL = 0.7
#: A piece's greatest depth over the disc's diameter. A bridge of 2/3 of the disc has 1/3; corners
#: of more than 60 degrees have less than 1/4.
DEEP = 0.25
#: Pixels that a painted edge may lie beside a drawn one without a piece between.
_SLACK = 1.0


@dataclass(frozen=True, slots=True)
class Piece:
    """What a disc leaves unpainted at one place."""

    middle: tuple[float, float]
    """Its deepest pixel's middle: x, y."""
    depth: float
    """How far that is from the shape's edge."""


def depths(mask: "Mask") -> "Distances":
    """Return for each pixel of a shape how far its middle is from the shape's edge.

    The picture's border is no edge: the shape is taken to go on as it arrives there.
    """
    # The edge is half a pixel nearer than the middle of the nearest pixel outside.
    return distances(framed(mask, 1, 1, 1, 1, None))[1:-1, 1:-1] - 0.5


def unpainted(mask: "Mask", depth: "Distances", disc: float, within: Pixels) -> list[Piece]:
    """Return the pieces of a shape that are lines narrower than a disc of a diameter in pixels.

    Only pieces that reach into a part of the picture are told, and their deepest pixel there.
    """
    import numpy as np

    away = distances((depth < disc / 2).view(np.uint8))
    painted = (mask > 0) & (away <= disc / 2 + _SLACK)
    left = (mask > 0) & ~painted
    if not left.any():
        return []
    # What reaches the picture's border goes on beyond it.
    frame = np.zeros_like(left)
    frame[[0, -1], :] = frame[:, [0, -1]] = True
    painted |= frame & left
    left &= ~frame
    parts = pieces(left.view(np.uint8))
    found = []
    left_, top, right, bottom = within
    for k in np.unique(parts.numbers[top:bottom, left_:right]):
        if not k:
            continue
        x, y, across, down, area = (int(v) for v in parts.boxes[k])
        part = (slice(y - 1, y + down + 1), slice(x - 1, x + across + 1))
        piece = (parts.numbers[part] == k).view(np.uint8)
        inner = np.where(piece, depth[part], 0)
        if inner.max() < DEEP * disc or not _is_line(piece, painted[part], area, disc):
            continue
        inner = inner[max(top - y + 1, 0) : bottom - y + 1, max(left_ - x + 1, 0) : right - x + 1]
        row, column = np.unravel_index(int(inner.argmax()), inner.shape)
        middle = (max(left_, x - 1) + float(column), max(top, y - 1) + float(row))
        found.append(Piece(middle, float(inner.max())))
    return found


def _is_line(piece: "Mask", painted: "NDArray[np.bool_]", area: int, disc: float) -> bool:
    import numpy as np

    touching = (painted & (highest(piece, square()) > 0)).view(np.uint8)
    if not touching.any() or pieces(touching).count > 2:
        return True
    length = float(distances(1 - touching)[piece > 0].max())
    return length >= LONG * disc and area >= PARALLEL * disc * length
