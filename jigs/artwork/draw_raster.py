"""Decoding a picture and telling its ink from its ground, in the child process."""

from dataclasses import replace

from jigs.artwork.detail import Detail, Remark
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.examine.look import examine_seen
from jigs.artwork.examine.morphology import same, square
from jigs.artwork.ground import Told, tell
from jigs.artwork.ink import FAINT
from jigs.artwork.pixels import TITLES, Pixels
from jigs.artwork.stray import Stray, specks_in
from jigs.errors import BadInput
from jigs.geometry import Box

#: Alpha between these is neither clear nor solid; of more than this part of the ink it is told
#: (our own choice).
_CLEAR, _SOLID, _PART = 32, 223, 0.01
_HALF_CLEAR = "parts of the picture are half transparent: spot colour prints them solid or as dots"


def draw_raster(task: Task, data: bytes) -> Drawn:
    """Return what is in a PNG, JPEG or TIFF (`task["kind"]`); lengths in pixels."""
    kind = str(task["kind"])
    try:
        pixels = Pixels(data, kind, int(task["page"]))
        told = tell(pixels)
        closely, ignoring = bool(task.get("closely", True)), bool(task.get("ignore_specks"))
        stray = specks_in(pixels, told.ground) if closely or ignoring else Stray()
        if stray.specks and ignoring:
            pixels.clear(stray.specks, 255 if told.ground == "white" else 0)
            told = tell(pixels)
        detail = _detail(pixels, told) if closely else None
        remarks = _remarks(pixels, told) if closely else ()
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
        remarks=remarks,
        detail=detail and replace(detail, specks=stray.specks, body=stray.body),
    )


def _detail(pixels: Pixels, told: Told) -> Detail | None:
    return examine_seen(
        pixels.strips, pixels.width, pixels.height, told.ground, blurred=pixels.lossy
    )


def _remarks(pixels: Pixels, told: Told) -> tuple[Remark, ...]:
    """Return that parts are half transparent, if so: flat ones, not the soft edge of something."""
    import numpy as np

    if told.ground != "transparent":
        return ()
    inked = half = 0
    for _, strip in pixels.strips():
        alpha = np.ascontiguousarray(strip[..., 3])
        inked += int((alpha > FAINT).sum())
        between = (alpha >= _CLEAR) & (alpha <= _SOLID)
        half += int((same(alpha, square())[between]).sum())
    return (Remark("opacity", _HALF_CLEAR),) if half > _PART * inked else ()
