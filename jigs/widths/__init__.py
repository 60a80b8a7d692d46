"""How wide a print should be, for which sizes."""

from jigs.widths.band import Band, band
from jigs.widths.choose import WidthPlan, WidthRange, fewest
from jigs.widths.judge import as_ordered

__all__ = ["Band", "WidthPlan", "WidthRange", "as_ordered", "band", "fewest"]
