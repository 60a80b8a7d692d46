"""Mixed pixels on an edge that look like a third ink: grey between black and white.

A pixel is such a mixture if its own ink is nowhere three pixels wide round it, other inks lie on
two opposite sides of it, and its colour lies between theirs. It is given to the nearer of the two.
So a line of a third ink that is thinner than three pixels, and of just a colour between those on
its sides, is taken for an edge: nobody can tell them apart.
"""

from typing import TYPE_CHECKING, TypeAlias

from jigs.artwork.examine.morphology import highest, same, square

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.morphology import Map

    Vectors: TypeAlias = NDArray[np.float32]
    """Colours times their opacity, and the opacity: four numbers, 0 to 255, of each."""

#: A mixed edge is at most so many pixels wide on each side of a pixel.
WIDE = 2
#: A colour lies between two others if the way by it is hardly longer than the straight one.
_BETWEEN = 1.15
#: An edge of several mixed pixels is resolved from its sides inwards.
_TIMES = 2
#: Columns and rows from a pixel to its neighbour: right, down, and along both diagonals.
_WAYS = ((1, 0), (0, 1), (1, 1), (1, -1))


def vectors(strip: "NDArray[np.uint8]") -> "Vectors":
    """Return pixels that are not premultiplied as vectors."""
    import numpy as np

    found = strip.astype(np.float32)
    found[..., :3] *= found[..., 3:] / 255
    return found


def apart(one: "Vectors", two: "Vectors") -> "NDArray[np.float32]":
    """Return how far colours are from others."""
    import numpy as np

    found: NDArray[np.float32] = np.sqrt(((one - two) ** 2).sum(axis=-1))
    return found


def resolve(labels: "Map", strip: "NDArray[np.uint8]", inks: "Vectors") -> None:
    """Give mixed pixels to one of the inks that they are mixed of, in place.

    `inks` holds the colour of each label; the ground's comes first.
    """
    import numpy as np

    for _ in range(_TIMES):
        thin = highest(same(labels, square()), square()) == 0
        thin[:WIDE] = thin[-WIDE:] = False
        thin[:, :WIDE] = thin[:, -WIDE:] = False
        rows, columns = np.nonzero(thin)
        if not len(rows):
            return
        own = labels[rows, columns]
        colour = vectors(strip[rows, columns])
        chosen = own.copy()
        for right, down in _WAYS:
            one = _beside(labels, rows, columns, own, right, down)
            two = _beside(labels, rows, columns, own, -right, -down)
            to_one, to_two = apart(colour, inks[one]), apart(colour, inks[two])
            mixed = (one != own) & (two != own) & (one != two) & (chosen == own)
            mixed &= to_one + to_two <= _BETWEEN * apart(inks[one], inks[two])
            chosen[mixed] = np.where(to_one <= to_two, one, two)[mixed]
        labels[rows, columns] = chosen


def _beside(
    labels: "Map",
    rows: "NDArray[np.intp]",
    columns: "NDArray[np.intp]",
    own: "Map",
    right: int,
    down: int,
) -> "Map":
    """Return the next other label one way from pixels; their own if there is none near."""
    import numpy as np

    found = own
    for away in range(WIDE, 0, -1):
        seen = labels[rows + down * away, columns + right * away]
        found = np.where(seen != own, seen, found)
    return found
