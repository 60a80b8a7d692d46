"""Lines of text under a view of a garment, none wider than its column."""

from collections.abc import Sequence

from jigs.drawing.drawing import Anchor, Entity, Layer, Text
from jigs.geometry import Point
from jigs.geometry.strokes import width_of
from jigs.units import Mm

#: Distance of two lines, as a share of the letters' height, and letters of all lines but the first.
PITCH = 1.8
_REST = 0.85


def captions(
    lines: Sequence[str], top: Point, room: Mm, height: Mm, first: float, ink: str
) -> list[Entity]:
    """Return lines centred below a point; the first is larger than the rest by its own share."""
    made: list[Entity] = []
    y = top.y
    for k, line in enumerate(lines):
        high = height * (first if k == 0 else _REST)
        high = min(high, high * room / width_of(line, high))
        y += height * PITCH
        made.append(Text(Layer.NOTE, line, Point(top.x, y), high, Anchor.MIDDLE, colour=ink))
    return made
