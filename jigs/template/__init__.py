"""The jig before it has a style: its edge, its window, and how it seats on every size."""

from jigs.template.ranges import Run, shared, trade_off
from jigs.template.seat import Seat, Stand, Tolerance, seat
from jigs.template.template import STEP, Beside, Template, Wish, template

__all__ = [
    "STEP",
    "Beside",
    "Run",
    "Seat",
    "Stand",
    "Template",
    "Tolerance",
    "Wish",
    "seat",
    "shared",
    "template",
    "trade_off",
]
