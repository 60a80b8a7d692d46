"""Decoding a picture and telling its ink from its ground, in the child process."""

from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ground import tell
from jigs.artwork.pixels import TITLES, Pixels
from jigs.errors import BadInput
from jigs.geometry import Box


def draw_raster(task: Task, data: bytes) -> Drawn:
    """Return what is in a PNG, JPEG or TIFF (`task["kind"]`); lengths in pixels."""
    kind = str(task["kind"])
    try:
        pixels = Pixels(data, kind, int(task["page"]))
        told = tell(pixels)
    except BadInput as bad:
        return Drawn(problem=bad.found, remedy=bad.allowed)
    except MemoryError:
        return Drawn(problem=f"the {TITLES[kind]} needs too much memory", remedy="make it smaller")
    return Drawn(
        pixels.width,
        pixels.height,
        Box(*told.box),
        told.preview,
        pages=pixels.pages,
        ground=told.ground,
        accuracy=told.accuracy,
        white_inside=told.white_inside,
        ppi=pixels.ppi,
        says=pixels.says,
    )
