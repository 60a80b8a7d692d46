"""What the heads of picture files say of their resolution, read before anything is decoded."""

import struct

from jigs.artwork.tiff_tags import RESOLUTION_UNIT, X_RESOLUTION, Y_RESOLUTION, tags
from jigs.units import INCH

PNG_MAGIC = b"\x89PNG\r\n\x1a\n"


def png_size(data: bytes) -> tuple[int, int] | None:
    """Return the width and height that a PNG promises (PNG specification, 11.2.2)."""
    if len(data) < 33 or not data.startswith(PNG_MAGIC) or data[12:16] != b"IHDR":
        return None
    width, height = struct.unpack_from(">II", data, 16)
    return width, height


def png_ppi(data: bytes) -> tuple[float, float] | None:
    """Return the resolution of a PNG's pHYs chunk (PNG specification, 11.3.5.3)."""
    at = len(PNG_MAGIC)
    while at + 8 <= len(data):
        (length,) = struct.unpack_from(">I", data, at)
        name, body = data[at + 4 : at + 8], data[at + 8 : at + 8 + length]
        if name == b"IDAT":
            break
        if name == b"pHYs" and len(body) == 9:
            x, y, unit = struct.unpack(">IIB", body)
            # Pixels per metre, or the pixels' shape alone.
            return (x * INCH / 1000, y * INCH / 1000) if unit == 1 else None
        at += length + 12
    return None


def jpeg_ppi(data: bytes, exif: bytes) -> tuple[float, float] | None:
    """Return the resolution of a JPEG's JFIF head (JFIF 1.02), else of its EXIF."""
    if data[2:4] == b"\xff\xe0" and data[6:11] == b"JFIF\0" and len(data) > 18:
        unit, x, y = struct.unpack_from(">BHH", data, 13)
        if unit in {1, 2} and x and y:
            scale = 1.0 if unit == 1 else INCH / 10
            return x * scale, y * scale
    return tiff_ppi(exif.removeprefix(b"Exif\0\0"))


def tiff_ppi(data: bytes, page: int = 1) -> tuple[float, float] | None:
    """Return the resolution in a TIFF's tags (TIFF 6.0, section 8)."""
    found = tags(data, page)
    x, y = (found.get(tag, (0.0,))[0] for tag in (X_RESOLUTION, Y_RESOLUTION))
    # Without the tag the unit is the inch; 1 says that there is none.
    unit = found.get(RESOLUTION_UNIT, (2,))[0]
    if unit not in {2, 3} or x <= 0 or y <= 0:
        return None
    scale = 1.0 if unit == 2 else INCH / 10
    return x * scale, y * scale
