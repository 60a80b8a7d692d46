"""Part of a preview, for showing it magnified."""

from jigs.artwork.png_bytes import png_bytes
from jigs.geometry import Box

#: Pixels along the longer side of a part that is shown: fewer are filled in smoothly.
_SHOWN = 240


def cropped(png: bytes, part: Box) -> tuple[bytes, Box]:
    """Return a part of a picture as PNG, and which part: grown to whole pixels.

    Parts are in shares of the picture's width and height; outside of it all is transparent.
    """
    import io

    from PIL import Image

    with Image.open(io.BytesIO(png)) as whole:
        picture = whole.convert("RGBA")
    wide, high = picture.size
    left, top = int(part.left * wide // 1), int(part.top * high // 1)
    right, bottom = int(-(-part.right * wide // 1)), int(-(-part.bottom * high // 1))
    right, bottom = max(right, left + 1), max(bottom, top + 1)
    found = picture.crop((left, top, right, bottom))
    more = _SHOWN / max(found.size)
    if more > 1:
        size = (max(1, round(found.width * more)), max(1, round(found.height * more)))
        found = found.resize(size, Image.Resampling.BICUBIC)
    return png_bytes(found), Box(left / wide, top / high, right / wide, bottom / high)


def pixels_across(png: bytes) -> int:
    """Return how many pixels wide a picture is."""
    import io

    from PIL import Image

    with Image.open(io.BytesIO(png)) as picture:
        return int(picture.width)
