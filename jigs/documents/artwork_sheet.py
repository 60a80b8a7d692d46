"""What the parts of the artwork's picture share: where it lies, what is pointed at, its signs."""

from collections.abc import Iterator
from dataclasses import dataclass

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import Thin
from jigs.drawing import palette
from jigs.drawing.drawing import Anchor, Entity, Layer, Shape, Text
from jigs.drawing.marks import fitted
from jigs.geometry import Box, Path, Point
from jigs.units import Mm

#: Height of what is said, and of small print.
LINE_HIGH: Mm = 2.9
SMALL: Mm = 2.4
INK, GREY = "#222222", "#8a8a8a"


@dataclass(frozen=True, slots=True)
class Sheet:
    """The artwork at a width, and where its ink lies on the page."""

    art: Artwork
    width: Mm
    scale: float
    ink: Box
    cloth: Box
    colour: str

    def on_page(self, at: Point) -> Point:
        """Return where a point of the file lies on the page."""
        k = self.ink.width / self.art.ink.width
        return Point(
            self.ink.left + (at.x - self.art.ink.left) * k,
            self.ink.top + (at.y - self.art.ink.top) * k,
        )


@dataclass(frozen=True, slots=True)
class Mark:
    """Something pointed at: its place on the page, what is said of it, how it is magnified."""

    at: Point
    words: tuple[str, ...]
    part: Box | None
    """In the file; None if it is not magnified."""
    thin: Thin | None = None


def text(
    words: str, at: Point, height: Mm, room: Mm, anchor: Anchor = Anchor.START, colour: str = INK
) -> Text:
    """Return words that fit into a room: smaller, and cut short if that does not do."""
    said, high = fitted(words, height, room, least=0.75 * height)
    return Text(Layer.NOTE, said, at, high, anchor, colour=colour)


def cross(at: Point) -> Iterator[Entity]:
    """Yield the sign of the middle of the ink box, which shows on any colour."""
    for colour, stroke in (("#ffffff", 1.0), ("#000000", 0.4)):
        for way in (Point(2.2, 0.0), Point(0.0, 2.2)):
            path = Path.through([at.minus(way), at.plus(way)])
            yield Shape(Layer.NOTE, path, colour=colour, stroke=stroke)


def ring(at: Point) -> Iterator[Entity]:
    """Yield the sign of the optical centre, likewise."""
    for colour, stroke in (("#ffffff", 1.2), (palette.BLUE, 0.6)):
        yield Shape(Layer.NOTE, Path.circle(at, 1.7), colour=colour, stroke=stroke)
