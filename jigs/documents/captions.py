"""Lines of text of a picture, none wider than its column."""

from collections.abc import Iterator, Sequence

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


def broken(text: str, height: Mm, room: Mm) -> list[str]:
    """Return a text as lines that are no wider than a room, unless a single word is.

    Words that a no-break space joins stay together.
    """
    return list(_lines(text, height, room))


def _lines(text: str, height: Mm, room: Mm) -> Iterator[str]:
    said = ""
    for word in text.split(" "):
        longer = f"{said} {word}".strip()
        if said and width_of(longer, height) > room:
            yield said
            longer = word
        said = longer
    yield said
