"""JPEG: it has no transparency, so the ink is what is not white on a white ground."""

from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.raster import read_raster
from jigs.artwork.readers._reader import Reader
from jigs.errors import Place


def recognises(data: bytes) -> bool:
    """Return whether the file begins with an image and a marker (ITU-T T.81, B.1.1)."""
    return data.startswith(b"\xff\xd8\xff")


def read(name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork in a JPEG.

    Raises:
        BadInput: broken, too many pixels, an impossible page, or no ink.
    """
    return read_raster("jpeg", name, data, place, asked)


READER = Reader("JPEG", (".jpg", ".jpeg", ".jpe", ".jfif"), recognises, read)
