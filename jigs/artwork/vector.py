"""What the readers of SVG and PDF share."""

from collections.abc import Iterator

from jigs.artwork.drawn import Drawn
from jigs.geometry import Box
from jigs.units import Mm


def box_in_mm(box: Box, unit: Mm) -> Box:
    """Return a box of the file's own unit in millimetres."""
    return Box(box.left * unit, box.top * unit, box.right * unit, box.bottom * unit)


def found_on(drawn: Drawn) -> Iterator[str]:
    """Yield what is noteworthy about any drawn page."""
    if drawn.white_ground:
        yield (
            "a white rectangle fills the page and counts as ink; "
            "if it is only the ground, take it out of the drawing"
        )
