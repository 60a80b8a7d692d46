"""TIFF: one page of it; the ink is what is opaque, or on an opaque ground what is not white."""

from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.raster import read_raster
from jigs.artwork.readers._reader import Reader
from jigs.errors import Place

#: Byte order and version of TIFF (TIFF 6.0, section 2) and of BigTIFF.
_MAGICS = (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+")


def recognises(data: bytes) -> bool:
    """Return whether the file has TIFF's signature."""
    return data.startswith(_MAGICS)


def read(name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork on a TIFF's page.

    Raises:
        BadInput: broken, no such page, too many pixels, an impossible page, or no ink.
    """
    return read_raster("tiff", name, data, place, asked)


READER = Reader("TIFF", (".tif", ".tiff"), recognises, read)
