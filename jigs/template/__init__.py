"""The jig before it has a style: its edge, its window, and how it seats on every size."""

from jigs.template.film import film
from jigs.template.ranges import Run, shared, trade_off
from jigs.template.seam_line import SeamLine
from jigs.template.seat import Seat, Stand, Tolerance, seat
from jigs.template.template import STEP, Beside, Template, Wish, template

__all__ = [
    "STEP",
    "Beside",
    "Run",
    "SeamLine",
    "Seat",
    "Stand",
    "Template",
    "Tolerance",
    "Wish",
    "film",
    "seat",
    "shared",
    "template",
    "trade_off",
]
