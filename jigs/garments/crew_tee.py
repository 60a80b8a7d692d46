"""Crew-neck tee with set-in short sleeves; measured as drawn in `_body.py`."""

from jigs.garments import _body
from jigs.garments._block import Block, Flat
from jigs.garments._parts import crew_collars
from jigs.tables.measure import Measures


def draw(m: Measures) -> Flat:
    """Return the flat of one size."""
    shell = _body.shell(m)
    return _body.flat(m, shell, crew_collars(m, shell.slope))


BLOCK = Block(
    title="crew-neck tee",
    needs=_body.NEEDS | _body.SLEEVES,
    draw=draw,
    may=frozenset({"rib_width"}),
)
