"""All rules on one drawing."""

from itertools import islice

from jigs.drawing.drawing import Drawing
from jigs.geometry import Box
from jigs.rules.corners import corner_faults
from jigs.rules.marks import mark_faults
from jigs.rules.outlines import (
    Contour,
    crossings,
    cut_paths,
    lone_faults,
    material,
    nested,
    once,
    plate_faults,
)
from jigs.rules.seat import seat_faults, window_faults
from jigs.rules.violation import Facts, Violation
from jigs.rules.webs import web_faults

#: More of one rule's faults are not listed: what breaks it so often is spoilt as a whole.
_MOST = 100


def check(drawing: Drawing, facts: Facts) -> tuple[Violation, ...]:
    """Return every rule that a drawing breaks, in the order of the rules.

    Where outlines are open or cross, only that is told: what is inside and what outside is then
    not known.
    """
    contours, found = sound(drawing)
    if contours is None:
        return found
    left = material(contours)
    return (
        *found,
        *islice(plate_faults(contours, facts), _MOST),
        *islice(web_faults(contours, facts), _MOST),
        *islice(corner_faults(contours, facts), _MOST),
        *islice(mark_faults(drawing, left, facts), _MOST),
        *window_faults(contours, facts),
        *seat_faults(drawing, contours, facts),
    )


def sound(drawing: Drawing) -> tuple[tuple[Contour, ...] | None, tuple[Violation, ...]]:
    """Return the cut outlines, or None if they are not sound, and what is wrong with them."""
    paths = cut_paths(drawing)
    if not paths:
        says = "nothing is cut: there is no line on the cut layer"
        return None, (Violation("plate", says, Box(0.0, 0.0, 0.0, 0.0)),)
    faults = list(islice((fault for path in paths for fault in lone_faults(path)), _MOST))
    if faults:
        return None, tuple(faults)
    kept, again = once(paths)
    crossed = tuple(islice(crossings(kept), _MOST))
    if crossed:
        return None, (*again, *crossed)
    return nested(kept), tuple(again)
