"""What the readers share: what was drawn, in millimetres and in words."""

from collections.abc import Iterator
from dataclasses import replace

from jigs.artwork.detail import Detail
from jigs.artwork.drawn import Drawn
from jigs.geometry import Box
from jigs.units import Mm


def box_in_mm(box: Box, unit: Mm) -> Box:
    """Return a box of the file's own unit in millimetres."""
    return Box(box.left * unit, box.top * unit, box.right * unit, box.bottom * unit)


def in_mm(drawn: Drawn, unit: Mm) -> Detail | None:
    """Return what a close look found, in millimetres and with the remarks."""
    if drawn.detail is None:
        return None
    found = drawn.detail
    return replace(
        found,
        centroid=found.centroid.times(unit),
        thin=tuple(
            replace(one, width=one.width * unit, at=one.at.times(unit)) for one in found.thin
        ),
        specks=tuple(box_in_mm(box, unit) for box in found.specks),
        body=box_in_mm(found.body, unit) if found.body else None,
        remarks=drawn.remarks,
    )


def found_on(drawn: Drawn) -> Iterator[str]:
    """Yield what is noteworthy about any drawn page."""
    if drawn.ground == "white":
        yield (
            "a white rectangle fills the page and was taken for the ground, so white is not "
            "printed; if it is to be, take the rectangle out, or make the page larger than it"
        )
