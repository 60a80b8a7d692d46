"""Artwork without its stray specks: found on a page or in a picture, and left out of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.drawn import PageOver
from jigs.artwork.examine.specks import body, specks
from jigs.artwork.ground import cover
from jigs.artwork.ink import FAINT, pixels
from jigs.artwork.pixels import ROWS, Pixels
from jigs.geometry import Box, Point

if TYPE_CHECKING:
    from PIL import Image

    from jigs.artwork.drawn import Page
    from jigs.artwork.examine.morphology import Mask

#: Pixels along the longer side of the ink when specks are looked for.
_LOOK = 1000


@dataclass(frozen=True, slots=True)
class Stray:
    """The specks of artwork, and the box of all else; none and None if there are none."""

    specks: tuple[Box, ...] = ()
    body: Box | None = None


def specks_on(page: "Page", ink: Box) -> Stray:
    """Return the specks on a page whose ink is known, in the page's unit."""
    import numpy as np

    across, down = pixels(ink, _LOOK)
    inked = np.asarray(page.render(ink, across, down))[..., 3] > FAINT
    return _stray(inked.view(np.uint8), Point(ink.left, ink.top), ink.width / across)


def specks_in(picture: "Pixels", ground: str) -> Stray:
    """Return the specks in a picture, in its pixels."""
    import numpy as np

    if ground == "none":
        return Stray()
    step = max(1, -(-max(picture.width, picture.height) // _LOOK))
    inked = np.zeros((-(-picture.height // step), -(-picture.width // step)), np.uint8)
    for top, strip in picture.strips(-(-ROWS // step) * step):
        found = cover(strip, ground) > FAINT
        rows, columns = (np.arange(0, size, step) for size in found.shape)
        most = np.maximum.reduceat(np.maximum.reduceat(found, rows, axis=0), columns, axis=1)
        inked[top // step : top // step + len(most)] = most
    return _stray(inked, Point(0, 0), step)


def _stray(inked: "Mask", corner: Point, pixel: float) -> Stray:
    found = specks(inked)
    if not found:
        return Stray()

    def placed(box: Box, more: float = 0.0) -> Box:
        return Box(
            corner.x + (box.left - more) * pixel,
            corner.y + (box.top - more) * pixel,
            corner.x + (box.right + more) * pixel,
            corner.y + (box.bottom + more) * pixel,
        )

    # A pixel larger all round: the edge of a speck may be too faint to be seen.
    return Stray(tuple(placed(box, 1.0) for box in found), placed(body(inked, found)))


@dataclass(frozen=True, slots=True)
class Cleared(PageOver):
    """A page with some parts left blank."""

    parts: Sequence[Box]

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
