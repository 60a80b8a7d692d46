"""What each layer looks like where a format shows colour, width and pattern.

The colours are from the set of Okabe & Ito, "Color Universal Design" (2008), which people with
any kind of colour vision can tell apart. Colour never stands alone: cut is a black hairline,
score is dashed, engrave and note are wider, and notes say in words what they are.
"""

from dataclasses import dataclass

from jigs.drawing.drawing import Layer
from jigs.units import Mm

BLACK = "#000000"
BLUE = "#0072b2"
VERMILION = "#d55e00"
GREEN = "#009e73"


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn: `#rrggbb`, width, lengths of dash and gap (empty: solid)."""

    colour: str
    width: Mm
    dashes: tuple[Mm, ...] = ()


#: A cutter's driver takes a line of 0.1 mm for a path to follow, not for an area to fill, and
#: on paper a knife can keep to its middle (common practice, no source). Black, because a
#: monochrome printer breaks a coloured hairline into dots. A dash is longer than any gap in a
#: stroke letter.
PENS = {
    Layer.CUT: Pen(BLACK, 0.1),
    Layer.SCORE: Pen(BLUE, 0.1, (3.0, 1.5)),
    Layer.ENGRAVE: Pen(VERMILION, 0.2),
    Layer.NOTE: Pen(GREEN, 0.2),
}
#: Notes are dotted where they are dashed, so that no dashed note passes for a score line.
DASHED = {
    Layer.CUT: (3.0, 1.5),
    Layer.SCORE: (3.0, 1.5),
    Layer.ENGRAVE: (3.0, 1.5),
    Layer.NOTE: (0.4, 1.2),
}
#: From the bottom up, so that nothing is ever drawn over the line that is cut.
ORDER = (Layer.NOTE, Layer.ENGRAVE, Layer.SCORE, Layer.CUT)

SAYS = {
    Layer.CUT: "Cut through",
    Layer.SCORE: "Score: fold or half cut",
    Layer.ENGRAVE: "Engrave: mark the surface",
    Layer.NOTE: "Note: for reading only, never cut",
}


def pen(
    layer: Layer,
    *,
    dashed: bool = False,
    colour: str | None = None,
    stroke: Mm | None = None,
    dashes: tuple[Mm, ...] = (),
) -> Pen:
    """Return the layer's pen, with what a shape wants otherwise."""
    own = PENS[layer]
    pattern = DASHED[layer] if dashed else own.dashes
    return Pen(
        colour if colour and layer is Layer.NOTE else own.colour,
        own.width if stroke is None else stroke,
        dashes if dashes and layer is Layer.NOTE else pattern,
    )
