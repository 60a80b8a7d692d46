r"""V-neck tee with set-in short sleeves; measured as drawn in `_body.py`.

  HPS       HPS
.-'\         /'-.
    \       /
     \     /       front_neck_drop runs down to the point of the collar seam
      \   /
        v
"""

from jigs.garments import _body
from jigs.garments._block import Block, Flat
from jigs.garments._parts import crew_collars, v_collar
from jigs.tables.measure import Measures

#: A jig lies against no more of the steep sides than this: a collar a little wider than drawn
#: lets it sink by as much more as the sides are steeper than a round neck's.
_ENGAGED = 0.3


def draw(m: Measures) -> Flat:
    """Return the flat of one size."""
    shell = _body.shell(m)
    necklines = crew_collars(m, shell.slope)
    necklines["front"] = v_collar(m.mm("neck_width") / 2, m.mm("front_neck_drop"))
    return _body.flat(m, shell, necklines, engaged=_ENGAGED)


BLOCK = Block(
    title="V-neck tee",
    needs=_body.NEEDS | _body.SLEEVES,
    draw=draw,
    may=frozenset({"rib_width"}),
)
