"""What is looked at: the lines of an ink, the gaps between its parts, and those of all inks."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.detail import GAP, LINE
from jigs.artwork.examine.sheet import LABEL

if TYPE_CHECKING:
    from jigs.artwork.examine.morphology import Map


@dataclass(frozen=True, slots=True)
class Shape:
    """The lines of some inks, or the gaps between their parts."""

    kind: str
    ink: int | None
    """Index of the ink; None for all together."""

    def labels(self, inks: int) -> frozenset[int]:
        """Return the labels that make up the shape, on a map of so many inks."""
        own = {self.ink + 1} if self.ink is not None else set(range(1, inks + 1))
        return frozenset(own if self.kind == LINE else set(range(inks + 1)) - own)


def shapes(inks: int) -> tuple[Shape, ...]:
    """Return every shape of artwork in so many inks; a single ink is all inks together."""
    each = (None, *range(inks)) if inks > 1 else (None,)
    return tuple(Shape(kind, ink) for ink in each for kind in (LINE, GAP))


def table(labels: frozenset[int]) -> "Map":
    """Return the table that tells a shape by its labels: 1 for each of them, 0 for others.

    Only the low four bits of what is looked up in it count.
    """
    import numpy as np

    return np.isin(np.arange(256) & LABEL, list(labels)).astype(np.uint8)
