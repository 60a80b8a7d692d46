"""The close look against shapely, on the same polygons."""

import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jigs.artwork.detail import GAP, LINE
from tests.strategies import numbers

from .looking import bar, circle, drawn, path

#: Both sides of a place are known to what the close look promises, in mm.
EXACT = 0.04

bars = st.builds(
    bar, numbers(8, 52), numbers(6, 14), numbers(4, 20), numbers(0.3, 4), numbers(0, 180)
)
# Of dots smaller than the gap between them the gap is none by the rule: one can go round them.
circles = st.builds(circle, numbers(8, 52), numbers(6, 14), numbers(2, 8))


@given(st.lists(st.one_of(bars, circles), min_size=2, max_size=4))
@settings(max_examples=6)
def test_places_are_as_wide_as_shapely_finds_them(shapes: list[shapely.Geometry]) -> None:
    """The middle of a place is half its width from the nearest edge, and no waist is narrower.

    Eroded by hardly less than the thinnest line no part falls apart or vanishes; nor do, grown by
    hardly less than the narrowest gap, two parts meet (Serra 1982).
    """
    shape = shapely.union_all(shapes)
    assume(shape.bounds[2] - shape.bounds[0] > 15)
    looked = drawn(path(shape), 60, 20)

    for one in looked.detail.thin:
        if one.width < 5:
            at = shapely.Point(one.at.x, one.at.y)
            assert shape.contains(at) == (one.kind == LINE)
            assert abs(2 * shape.boundary.distance(at) - one.width) <= max(EXACT, 0.05 * one.width)
    count = len(shapely.get_parts(shape))
    thinnest, narrowest = min(looked.line(), 2), min(looked.gap(), 2)
    assert len(shapely.get_parts(shape.buffer(-0.45 * thinnest))) == count
    assert len(shapely.get_parts(shape.buffer(0.45 * narrowest))) == count
    assert {one.kind for one in looked.detail.thin} <= {LINE, GAP}
