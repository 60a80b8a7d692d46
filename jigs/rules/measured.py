"""What a drawing's cut lines measure: for a report, beside what breaks a rule."""

from dataclasses import dataclass

from jigs.drawing.drawing import Drawing
from jigs.geometry import Box, Point
from jigs.rules.check import sound
from jigs.rules.corners import inner_corners, round_hole
from jigs.rules.outlines import cut_paths
from jigs.rules.webs import least_web
from jigs.units import Mm

#: Wider bridges are not looked for.
WIDEST: Mm = 20.0


@dataclass(frozen=True, slots=True)
class Measured:
    """Sizes of a drawing's parts; None where there is nothing to measure."""

    plate: Box
    plates: tuple[Box, ...]
    openings: tuple[Box, ...]
    holes: tuple[tuple[Point, Mm], ...]
    """Middle and diameter."""
    web: tuple[Mm, Point] | None
    """The narrowest bridge, if one is narrower than `WIDEST`."""
    inner: tuple[Mm, Point] | None
    """The smallest radius of an inner corner."""
    length: Mm
    """Of all cut lines."""
    contours: int


def measured(drawing: Drawing) -> Measured:
    """Return what a drawing's cut lines measure; webs and corners only if they are sound.

    Raises:
        ValueError: nothing is cut.
    """
    paths = cut_paths(drawing)
    box = Box.of_all(path.bounds() for path in paths)
    length = sum(path.length() for path in paths)
    contours, _ = sound(drawing)
    if contours is None:
        return Measured(box, (), (), (), None, None, length, len(paths))
    cut = [(one, round_hole(one.path)) for one in contours if one.hole]
    web = least_web(contours, WIDEST)
    return Measured(
        plate=box,
        plates=tuple(one.path.bounds() for one in contours if one.depth == 0),
        openings=tuple(one.path.bounds() for one, circle in cut if circle is None),
        holes=tuple((circle[0], 2 * circle[1]) for _, circle in cut if circle is not None),
        web=(web[0], Point((web[1].x + web[2].x) / 2, (web[1].y + web[2].y) / 2)) if web else None,
        inner=min(inner_corners(contours), default=None),
        length=length,
        contours=len(paths),
    )
