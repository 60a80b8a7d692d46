"""Lines of a drawing: how wide they are, and what is none."""

import math
from typing import Any

import pytest
import shapely

from .looking import COLOURS, bar, circle, drawn, in_a_row, path

#: What the close look promises of a drawing printed 50 to 350 mm wide.
EXACT = 0.02

WIDTHS = (0.05, 0.08, 0.13, 0.2, 0.3, 0.5, 0.8, 1.3, 2.1, 5.0)
ANGLES = (0.0, 7.0, 22.5, 30.0, 45.0, 61.0, 90.0)


@pytest.mark.parametrize("angle", ANGLES)
def test_bars_at_any_angle(angle: float) -> None:
    """A bar is as wide as it was drawn, from a hairline to a bold stroke."""
    body, _ = in_a_row([bar(0, 0, 17, width, angle) for width in WIDTHS], 20)
    looked = drawn(body, 200, 20)

    found = [looked.line(colour) for colour in COLOURS]
    assert found == pytest.approx(WIDTHS, abs=EXACT)
    assert looked.line() == pytest.approx(WIDTHS[0], abs=EXACT)
