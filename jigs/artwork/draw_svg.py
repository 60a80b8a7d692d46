"""Looking at a cleaned SVG as resvg draws it, and into what it holds."""

from jigs.artwork.drawing import see
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.remarks import Remarks
from jigs.artwork.svg_contents import TOO_MUCH, note_contents
from jigs.artwork.svg_fonts import missing
from jigs.artwork.svg_page import SvgPage
from jigs.artwork.svg_parse import parse
from jigs.errors import BadInput, Place


def draw_svg(task: Task, data: bytes) -> Drawn:
    """Return what there is in a cleaned SVG, its page being `width` x `height` px."""
    width, height = float(task["width"]), float(task["height"])
    page = SvgPage(data.decode(), width, height, bool(task["fonts"]))
    try:
        seen = see(page, task)
    except ValueError as problem:
        return Drawn(problem=f"the SVG cannot be drawn: {str(problem)[:200]}")
    if seen is None:
        return Drawn(width, height)
    if seen.detail is None:
        return Drawn(width, height, seen.ink, seen.preview, ground=seen.ground)
    found = Remarks()
    families: tuple[str, ...] = ()
    try:
        families = note_contents(parse(data, Place("the drawing")), page, found)
    except BadInput:  # cleaned, it is larger than what is read as XML
        found.add("unread", TOO_MUCH)
    return Drawn(
        width,
        height,
        seen.ink,
        seen.preview,
        ground=seen.ground,
        fonts=missing(families),
        remarks=found.done(),
        detail=seen.detail,
    )
