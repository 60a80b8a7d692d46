"""Drawing a cleaned SVG with resvg, any part of its page at any magnification."""

import io
from typing import TYPE_CHECKING

from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import find_ink, has_white_ground, pixels
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image


def draw_svg(task: Task, data: bytes) -> Drawn:
    """Return what resvg sees of a cleaned SVG, its page being `width` x `height` px."""
    width, height = float(task["width"]), float(task["height"])
    inner = data.decode()
    fonts = bool(task["fonts"])

    def render(part: Box, across: int, down: int) -> "Image.Image":
        return _render(inner, part, across, down, fonts=fonts)

    try:
        ink = find_ink(render, width, height)
        if ink is None:
            return Drawn(width, height)
        preview = png_bytes(render(ink, *pixels(ink, PREVIEW)))
    except ValueError as problem:
        return Drawn(problem=f"the SVG cannot be drawn: {str(problem)[:200]}")
    return Drawn(width, height, ink, preview, has_white_ground(render, width, height, ink))


def _render(inner: str, part: Box, across: int, down: int, *, fonts: bool) -> "Image.Image":
    import resvg_py
    from PIL import Image

    # The drawing stays whole inside a frame, so that its own view box, and every percentage
    # that refers to it, keep their meaning; the frame's view box chooses the part.
    frame = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}" height="{down}" '
        f'viewBox="{part.left!r} {part.top!r} {part.width!r} {part.height!r}" '
        f'preserveAspectRatio="none">{inner}</svg>'
    )
    # dpi is what mm and in inside the drawing are reckoned by; 96 is CSS's.
    drawn = resvg_py.svg_to_bytes(svg_string=frame, dpi=96, skip_system_fonts=not fonts)
    with Image.open(io.BytesIO(drawn)) as picture:
        return picture.convert("RGBA")
