"""A drawing on a white rectangle that fills its page: white is its ground, as in a picture."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.drawn import PageOver
from jigs.artwork.ink import FAINT
from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image


@dataclass(frozen=True, slots=True)
class OnWhite(PageOver):
    """A page of which what is white counts as blank."""

    def render(self, part: Box, across: int, down: int, *, crisp: bool = False) -> "Image.Image":
        """Return a part of the page, filling so many pixels, as RGBA."""
        import numpy as np
        from PIL import Image

        pixels = np.array(self.page.render(part, across, down, crisp=crisp))
        white = pixels[..., :3].min(axis=2) >= 255 - FAINT
        pixels[white] = 0
        return Image.fromarray(pixels)
