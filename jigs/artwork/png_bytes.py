"""A picture as PNG bytes that do not change from run to run."""

import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import Image

#: Pixels along the longer side of a preview: a line of 1 pt in a full back is a pixel wide.
PREVIEW = 1200


def png_bytes(picture: "Image.Image") -> bytes:
    """Return a picture as PNG: a fixed compression and no other chunk than the pixels."""
    out = io.BytesIO()
    bare = picture.copy()
    bare.info.clear()
    bare.save(out, "PNG", compress_level=6)
    return out.getvalue()
