"""Measures a PNG picture by its pixels."""

from io import BytesIO
from typing import Any


def picture(data: bytes) -> Any:
    """Return the picture as Pillow sees it."""
    from PIL import Image

    return Image.open(BytesIO(data))


def per_mm(data: bytes) -> float:
    """Return the pixels per mm that the file claims (PNG stores pixels per metre)."""
    across, down = picture(data).info["dpi"]
    assert across == down
    return float(across / 25.4)


def dark(data: bytes, box: tuple[float, float, float, float]) -> tuple[float, ...]:
    """Return left, top, right, bottom in mm of what is not light in a part of the picture.

    The edges are where a half covered pixel would put them, so good to half a pixel.
    """
    scale = per_mm(data)
    left, top, right, bottom = (round(edge * scale) for edge in box)
    part = picture(data).convert("L").crop((left, top, right, bottom))
    found = part.point(lambda value: 255 if value < 160 else 0).getbbox()
    assert found, "nothing is drawn there"
    x0, y0, x1, y1 = found
    return (left + x0) / scale, (top + y0) / scale, (left + x1) / scale, (top + y1) / scale
