r"""Polo shirt: a placket down from the collar seam, a collar that folds over its stand.

      ____________
     /  \ |  | /  \       placket_length from the collar seam down; placket_width
    /    \|  |/    \
          |__|            on the back the folded collar hangs collar_fall below its seam

The rest is measured as drawn in `_body.py`; the sleeves end in a band, cuff_height.
"""

from jigs.garments import _body
from jigs.garments._block import Block, Edge, Flat
from jigs.garments._parts import band_below, crew_collars, strip
from jigs.tables.measure import Measures
from jigs.units import INCH

_HOW = "turn the collar up"


def draw(m: Measures) -> Flat:
    """Return the flat of one size."""
    shell = _body.shell(m)
    necklines = crew_collars(m, shell.slope)
    top = necklines["front"].a.y
    length, fall = m["placket_length"], m["collar_fall"]
    placket = strip(m.mm("placket_width") / 2, top, top + length.mm)
    folded = band_below(necklines["back"], fall.mm)
    return _body.flat(
        m,
        shell,
        necklines,
        features={
            "front": (
                Edge(
                    "placket",
                    placket,
                    length.plus_minus,
                    clear=0.5 * INCH,
                    beside=m["placket_width"].plus_minus / 2,
                    rests_on=("placket_length", "placket_width"),
                ),
            ),
            "back": (
                Edge(
                    "folded collar",
                    folded,
                    fall.plus_minus,
                    clear=0.25 * INCH,
                    rests_on=("collar_fall",),
                ),
            ),
        },
        how={"front": _HOW, "back": _HOW},
        cautions={
            "front": (
                "lay buttons and placket off the platen: they hold the press off the print, and "
                "buttons melt"
            )
        },
    )


BLOCK = Block(
    title="polo shirt",
    needs=_body.NEEDS
    | _body.SLEEVES
    | {"cuff_height", "placket_length", "placket_width", "collar_fall"},
    draw=draw,
)
