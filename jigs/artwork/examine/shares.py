"""How much of a pixel its ink covers: on an edge the rest of it is what lies beside it."""

from typing import TYPE_CHECKING

from jigs.artwork.examine import fringe
from jigs.artwork.examine.morphology import beside

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from jigs.artwork.examine.fringe import Vectors
    from jigs.artwork.examine.morphology import Cover, Map

#: The share of a pixel that is all one ink: it fits into four bits.
WHOLE = 15


def shares(labels: "Map", strip: "NDArray[np.uint8]", inks: "Vectors") -> "Map":
    """Return the share of each pixel that is its own ink, by its colour.

    `strip` holds the smoothed colours, RGBA; `inks` the colour of each label, the ground's first.
    """
    import numpy as np

    found = np.full(labels.shape, WHOLE, np.uint8)
    around = beside(labels)
    edge = around != labels
    colour = fringe.vectors(strip[edge])
    to_own = fringe.apart(colour, inks[labels[edge]])
    to_other = fringe.apart(colour, inks[around[edge]])
    found[edge] = np.rint(WHOLE * to_other / np.maximum(to_own + to_other, 1e-3))
    return found


def covered(labels: "Map", share: "Map", chosen: frozenset[int]) -> "Cover":
    """Return how much of each pixel some labels cover together, 0 to 1."""
    import numpy as np

    part = share.astype(np.float32) / WHOLE
    own, other = np.isin(labels, list(chosen)), np.isin(beside(labels), list(chosen))
    return np.asarray(
        np.where(own, np.where(other, 1, part), np.where(other, 1 - part, 0)), np.float32
    )
