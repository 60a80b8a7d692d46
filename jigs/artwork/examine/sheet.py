"""Artwork as a map of its inks, and the way to look at any part of it more closely."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from jigs.geometry import Box, Point

if TYPE_CHECKING:
    from jigs.artwork.examine.morphology import Cover, Map


#: The bits of a map's pixel that say which ink it is. There are fewer inks than that.
LABEL = 15


class Look(Protocol):
    """A square part of the page, magnified."""

    def labels(self, part: Box, side: int) -> "Map":
        """Return the map of a part, `side` pixels wide and high."""

    def cover(self, part: Box, side: int, inks: frozenset[int]) -> "Cover":
        """Return how much of each pixel some inks cover together."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A map of a page's ink, and the way to see any part of it magnified."""

    labels: "Map"
    """Map of the part of the page that holds the ink, in the low four bits of each pixel."""
    corner: Point
    """Where the map's top left corner lies on the page."""
    pixel: float
    """Side of the map's pixels, in the page's unit."""
    inks: int
    """How many inks there are."""
    look: Look
    grain: float = 0.0
    """Side of the artwork's own pixels, in the page's unit; 0 for a drawing."""

    def on_page(self, x: float, y: float) -> Point:
        """Return where a point of the map lies on the page; whole numbers are pixels' middles."""
        return Point(self.corner.x + (x + 0.5) * self.pixel, self.corner.y + (y + 0.5) * self.pixel)
