"""Artwork without its stray specks: found on a page or in a picture, and left out of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.examine.specks import specks
from jigs.artwork.ground import cover
from jigs.artwork.ink import FAINT, pixels
from jigs.artwork.pixels import ROWS, Pixels, Window
from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image

    from jigs.artwork.drawn import Page

#: Pixels along the longer side of the ink when specks are looked for.
_LOOK = 1500


def specks_on(page: "Page", ink: Box) -> tuple[Box, ...]:
    """Return the boxes of the specks on a page whose ink is known, in the page's unit."""
    import numpy as np

    across, down = pixels(ink, _LOOK)
    picture = page.render(ink, across, down)
    inked = np.asarray(picture)[..., 3] > FAINT
    x, y = ink.width / across, ink.height / down
    return tuple(
        # A pixel larger all round: the edge of a speck may be too faint to be seen.
        Box(
            ink.left + (box.left - 1) * x,
            ink.top + (box.top - 1) * y,
            ink.left + (box.right + 1) * x,
            ink.top + (box.bottom + 1) * y,
        )
        for box in specks(inked.view(np.uint8))
    )


def specks_in(picture: "Pixels", ground: str) -> tuple["Window", ...]:
    """Return the boxes of the specks in a picture, in its pixels."""
    import numpy as np

    if ground == "none":
        return ()
    step = max(1, -(-max(picture.width, picture.height) // _LOOK))
    inked = np.zeros((-(-picture.height // step), -(-picture.width // step)), np.uint8)
    for top, strip in picture.strips(-(-ROWS // step) * step):
        found = cover(strip, ground) > FAINT
        rows, columns = (np.arange(0, size, step) for size in found.shape)
        most = np.maximum.reduceat(np.maximum.reduceat(found, rows, axis=0), columns, axis=1)
        inked[top // step : top // step + len(most)] = most
    return tuple(
        # A pixel larger all round: the edge of a speck may be too faint to be seen.
        (
            max(int(box.left - 1) * step, 0),
            max(int(box.top - 1) * step, 0),
            min(int(box.right + 1) * step, picture.width),
            min(int(box.bottom + 1) * step, picture.height),
        )
        for box in specks(inked)
    )


@dataclass(frozen=True, slots=True)
class Cleared:
    """A page with some parts left blank."""

    page: "Page"
    parts: Sequence[Box]

    @property
    def width(self) -> float:
        """Width, in the file's own unit."""
        return self.page.width

    @property
    def height(self) -> float:
        """Height, in the same unit."""
        return self.page.height

    def render(self, part: Box, across: int, down: int, *, crisp: bool = False) -> "Image.Image":
        """Return a part of the page, filling so many pixels, as RGBA."""
        picture = self.page.render(part, across, down, crisp=crisp)
        x, y = across / part.width, down / part.height
        for box in self.parts:
            left, top = (box.left - part.left) * x, (box.top - part.top) * y
            right, bottom = (box.right - part.left) * x, (box.bottom - part.top) * y
            # Far outside, a corner's pixel would be too large a number.
            corners = (
                max(int(left // 1), 0),
                max(int(top // 1), 0),
                min(int(-(-right // 1)), across),
                min(int(-(-bottom // 1)), down),
            )
            if corners[0] < corners[2] and corners[1] < corners[3]:
                picture.paste((0, 0, 0, 0), corners)
        return picture
