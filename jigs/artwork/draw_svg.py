"""Looking at a cleaned SVG as resvg draws it."""

from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import find_ink, has_white_ground, pixels
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.artwork.svg_page import SvgPage


def draw_svg(task: Task, data: bytes) -> Drawn:
    """Return what resvg sees of a cleaned SVG, its page being `width` x `height` px."""
    width, height = float(task["width"]), float(task["height"])
    page = SvgPage(data.decode(), width, height, bool(task["fonts"]))
    try:
        ink = find_ink(page.render, width, height)
        if ink is None:
            return Drawn(width, height)
        preview = png_bytes(page.render(ink, *pixels(ink, PREVIEW)))
    except ValueError as problem:
        return Drawn(problem=f"the SVG cannot be drawn: {str(problem)[:200]}")
    return Drawn(width, height, ink, preview, has_white_ground(page.render, width, height, ink))
