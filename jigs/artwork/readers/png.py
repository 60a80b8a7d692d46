"""PNG: the ink is what is opaque, or on an opaque ground what is not white."""

from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.raster import read_raster
from jigs.artwork.raster_head import PNG_MAGIC
from jigs.artwork.readers._reader import Reader
from jigs.errors import Place


def recognises(data: bytes) -> bool:
    """Return whether the file has PNG's signature (PNG specification, 5.2)."""
    return data.startswith(PNG_MAGIC)


def read(name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork in a PNG.

    Raises:
        BadInput: broken, too many pixels, an impossible page, or no ink.
    """
    return read_raster("png", name, data, place, asked)


READER = Reader("PNG", (".png",), recognises, read)
