"""Artwork turned by quarter turns: a wordmark that runs down a sleeve."""

from dataclasses import replace

from jigs.artwork.artwork import Artwork
from jigs.geometry import Box
from jigs.order.order import TURNS


def turned(art: Artwork, degrees: int) -> Artwork:
    """Return artwork as it is printed after turning it clockwise.

    Raises:
        ValueError: the degrees are none of 0, 90, 180, 270.
    """
    if degrees not in TURNS:
        raise ValueError(f"artwork turns by quarters, not by {degrees} degrees")
    for _ in range(degrees // 90):
        art = _quarter(art)
    return replace(art, turn=degrees, preview=_preview(art.preview, degrees))


def _quarter(art: Artwork) -> Artwork:
    ink, height = art.ink, art.page_height
    # What was at the bottom is at the left.
    box = Box(height - ink.bottom, ink.left, height - ink.top, ink.right)
    return replace(art, page_width=height, page_height=art.page_width, ink=box)


def _preview(png: bytes, degrees: int) -> bytes:
    if not degrees:
        return png
    import io

    from PIL import Image

    from jigs.artwork.png_bytes import png_bytes

    # Pillow turns the other way round.
    ways = {
        90: Image.Transpose.ROTATE_270,
        180: Image.Transpose.ROTATE_180,
        270: Image.Transpose.ROTATE_90,
    }
    return png_bytes(Image.open(io.BytesIO(png)).transpose(ways[degrees]))
