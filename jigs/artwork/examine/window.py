"""What is seen round one place, magnified: which of the shapes are thin there, and how thin."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.detail import Thin
from jigs.artwork.examine.measured import (
    CLOSE_SIDE,
    CLOSE_WIDTHS,
    SIDE,
    WIDTHS,
    narrowest,
    width_across,
    width_alone,
)
from jigs.artwork.examine.morphology import looked_up, present_in
from jigs.artwork.examine.shape import Shape, table
from jigs.geometry import Box, Point

if TYPE_CHECKING:
    from jigs.artwork.examine.opening import Piece
    from jigs.artwork.examine.sheet import Sheet

#: Below this share of the first window's width the second did not see the same place.
_AGREE = 0.45


@dataclass(frozen=True, slots=True)
class Place:
    """Where to look: about how wide something is there, on the page."""

    width: float
    at: Point


class Window:
    """What is seen round a place."""

    def __init__(self, sheet: "Sheet", place: Place) -> None:
        """Look at a place; the window is some of its widths wide."""
        self._sheet, self._place = sheet, place
        self._labels = sheet.look.labels(_square(place.at, WIDTHS * place.width), SIDE)
        self._present = frozenset(present_in(self._labels))

    def thin(self, shape: Shape, deep: float = 0.0) -> Thin | None:
        """Return where a shape is thinnest near the middle, if it is as thin as is thought.

        With `deep`, it is as deep there as such a part of what would be thin.
        """
        chosen = shape.labels(self._sheet.inks) & self._present
        if chosen in {frozenset(), self._present}:
            return None
        seen = narrowest(looked_up(self._labels, table(chosen)), deep)
        if seen is None:
            return None
        piece, disc = seen
        pixel = WIDTHS * self._place.width / SIDE
        at = _moved(self._place.at, Point(*piece.middle), pixel, SIDE)
        # The first disc tried may be much wider than the line; but the piece may also only reach
        # into the middle of the window by its edge, and be less deep there than it is.
        for about in sorted({min(disc, 2 * piece.depth + 1), disc}):
            thin = self._closer(shape, piece, at, about * pixel)
            if thin is not None:
                return thin
        return None

    def _closer(self, shape: Shape, piece: "Piece", at: Point, about: float) -> Thin | None:
        """Return a place about so wide, seen more closely; None if no such thing is seen there."""
        # The edges of a picture's line are a pixel wide, on both sides.
        grain = self._sheet.grain
        side = CLOSE_WIDTHS * about + 4 * grain
        chosen = shape.labels(self._sheet.inks)
        cover = self._sheet.look.cover(_square(at, side), CLOSE_SIDE, chosen)
        small = side / CLOSE_SIDE
        # Beside its middle a dot is less wide.
        close = (
            width_alone(cover, about / small)
            if piece.alone
            else width_across(cover, about / small, grain / small)
        )
        if close is None or not _AGREE * about <= close[0] * small <= about / _AGREE:
            return None
        width, middle, across = close
        found = _moved(at, middle, small, CLOSE_SIDE)
        return Thin(shape.kind, shape.ink, width * small, found, across)


def _moved(middle: Point, pixel: Point, size: float, side: int) -> Point:
    """Return where a pixel of a window lies on the page, by the window's middle."""
    half = side / 2
    return Point(middle.x + (pixel.x + 0.5 - half) * size, middle.y + (pixel.y + 0.5 - half) * size)


def _square(middle: Point, side: float) -> Box:
    half = side / 2
    return Box(middle.x - half, middle.y - half, middle.x + half, middle.y + half)
