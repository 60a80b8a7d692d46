"""The rules a plate has to keep before it is cut: a drawing in, what breaks a rule out.

Nothing here knows a garment, a style or an order; it judges lines by what is said about them.
"""

from jigs.rules.check import check
from jigs.rules.measured import Measured, measured
from jigs.rules.violation import Facts, Violation, place_text

__all__ = ["Facts", "Measured", "Violation", "check", "measured", "place_text"]
