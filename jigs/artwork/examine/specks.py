"""Stray specks: small things outside the main artwork, such as a dot left in a corner.

A speck is a piece of ink no larger than `SMALL` of the artwork, outside the box of all that is
larger, and farther from it than `AWAY` of the artwork. Small things that stand together with the
artwork, or in a row that leads to it, belong to it: the dot of an i, the dots after a word.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import pieces
from jigs.geometry import Box

if TYPE_CHECKING:
    from jigs.artwork.examine.morphology import Mask

#: Longer side of a speck, and its distance from the rest, over the longer side of the artwork.
SMALL, AWAY = 0.03, 0.04
#: More than these are no oversight but a scattered design.
MOST = 12
#: Pieces that are looked at; artwork of more is a texture.
_MOST_PIECES = 20_000


def specks(mask: "Mask") -> tuple[Box, ...]:
    """Return the boxes, in pixels, of specks on a map of the ink; the largest first."""
    parts = pieces(mask)
    if not 2 < parts.count <= _MOST_PIECES:
        return ()
    boxes = [
        Box(float(x), float(y), float(x + across), float(y + down))
        for x, y, across, down, _ in parts.boxes[1:]
    ]
    size = max(max(box.width, box.height) for box in boxes)
    whole = _around([box for box in boxes if max(box.width, box.height) > SMALL * size])
    size = max(whole.width, whole.height)
    left = [box for box in boxes if not whole.holds(box)]
    while near := [box for box in left if _between(whole, box) <= _reach(box, size)]:
        whole = _around([whole, *near])
        left = [box for box in left if not whole.holds(box)]
    left = [box for box in left if max(box.width, box.height) <= SMALL * size]
    if len(left) > MOST:
        return ()
    return tuple(sorted(left, key=lambda box: (-box.width * box.height, box.left, box.top)))


def body(mask: "Mask", left_out: Sequence[Box]) -> Box:
    """Return the box, in pixels, of what is on a map of the ink besides specks."""
    import numpy as np

    rest = mask.copy()
    for box in left_out:
        rest[int(box.top) : int(box.bottom), int(box.left) : int(box.right)] = 0
    rows, columns = np.flatnonzero(rest.any(axis=1)), np.flatnonzero(rest.any(axis=0))
    return Box(float(columns[0]), float(rows[0]), float(columns[-1] + 1), float(rows[-1] + 1))


def _reach(box: Box, size: float) -> float:
    """Return how far from the artwork something still belongs to it."""
    return AWAY * size if max(box.width, box.height) <= SMALL * size else float("inf")


def _around(boxes: Sequence[Box]) -> Box:
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def _between(one: Box, two: Box) -> float:
    """Return how far two boxes are apart; 0 if they meet."""
    across = max(one.left - two.right, two.left - one.right, 0.0)
    down = max(one.top - two.bottom, two.top - one.bottom, 0.0)
    return max(across, down)
