"""The jig before it has a style: its edge, its window, and how it seats on every size."""

from jigs.template.ranges import Run, shared, trade_off
from jigs.template.seat import Seat, Stand, Tolerance, seat
from jigs.template.template import Template, template

__all__ = [
    "Run",
    "Seat",
    "Stand",
    "Template",
    "Tolerance",
    "seat",
    "shared",
    "template",
    "trade_off",
]
