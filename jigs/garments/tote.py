r"""Tote bag: a rectangle with two handles sewn to its top edge.

        ___
       /   \
     _|_____|_        y = 0 at the top edge
    | #     # |       handle_spread, handle_width; their seams reach handle_depth down
    |         |
    |_________|       bag_width, bag_height

Front and back are alike. A bag has no HPS: lengths run from the top edge.
"""

import math

from jigs.garments._block import Block, Edge, Flat, Panel, Seam
from jigs.garments._parts import mirrored
from jigs.geometry import Box, Line, Path, Point
from jigs.tables.measure import Measures
from jigs.units import INCH

_HANDLES = "lay both handles and their seams off the platen"


def draw(m: Measures) -> Flat:
    """Return the flat of one size.

    Raises:
        ValueError: the handles do not fit on the bag.
    """
    middle, strap = m.mm("handle_spread") / 2, m.mm("handle_width") / 2
    if middle + strap >= m.mm("bag_width") / 2 or middle <= strap:
        raise ValueError("handle_spread and handle_width must fit within bag_width")
    return Flat(
        measures=m,
        panels={name: _side(name, m) for name in ("front", "back")},
        landmarks={"top edge": Point(0.0, 0.0), "bottom": Point(0.0, m.mm("bag_height"))},
        spread={},
        seams={"top edge": Seam("top edge", frozenset({"top edge"}))},
        cautions={"front": _HANDLES, "back": _HANDLES},
    )


def _side(name: str, m: Measures) -> Panel:
    side, bottom = m.mm("bag_width") / 2, m.mm("bag_height")
    middle, strap = m.mm("handle_spread") / 2, m.mm("handle_width") / 2
    top = Path((Line(Point(0.0, 0.0), Point(side, 0.0)),))
    down = Path((Line(top.end, Point(side, bottom)),))
    base = Path((Line(down.end, Point(0.0, bottom)),))
    half = top.then(down, base)
    handle = Path.box(Box(middle - strap, 0.0, middle + strap, m.mm("handle_depth")))
    beside = math.hypot(m["handle_spread"].plus_minus / 2, m["handle_width"].plus_minus / 2)
    wide = m["bag_width"].plus_minus / 2
    return Panel(
        name=name,
        outline=half.then(mirrored(half)),
        edges=(
            Edge("top edge", mirrored(top).then(top), 0.0, clear=1.5 * INCH),
            *(
                Edge("side seam", path, wide, 0.0, rests_on=("bag_width",))
                for path in (down, mirrored(down))
            ),
            Edge(
                "bottom",
                base.then(mirrored(base)),
                m["bag_height"].plus_minus,
                rests_on=("bag_height",),
            ),
        ),
        features=tuple(
            Edge(
                "handle",
                path,
                m["handle_depth"].plus_minus,
                clear=0.5 * INCH,
                beside=beside,
                rests_on=("handle_spread", "handle_width", "handle_depth"),
            )
            for path in (handle, mirrored(handle))
        ),
    )


BLOCK = Block(
    title="tote bag",
    needs=frozenset({"bag_width", "bag_height", "handle_spread", "handle_width", "handle_depth"}),
    draw=draw,
)
