"""A table that is graded evenly gives a nest that is graded evenly."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.garments import GARMENTS, Flat
from jigs.geometry import Point
from jigs.tables.estimate import completed
from jigs.tables.measure import Measure, Measures
from tests.strategies import numbers
from tests.tables.cuts import CHESTS, NEEDS, required

#: Sizes in a nest.
_COUNT = 6


def nest(cut: str, age: str, first: float, share: float, step: float) -> list[Flat]:
    """Return sizes in even steps, drawn from nothing but the two lengths a table must give.

    `share` is the length over the width, `step` the width from size to size.
    """
    flats = []
    for k in range(_COUNT):
        width = first + k * step
        # Lengths are graded by half as much as widths (common practice, no source).
        length = share * first + k * step / 2
        pairs = zip(required(cut), (width, length), strict=True)
        bare = Measures("t", f"{k}", age, {point: Measure(mm, 5.0) for point, mm in pairs})
        flats.append(GARMENTS.get(cut).draw(completed(bare, cut)))
    return flats


def tracks(flats: list[Flat]) -> dict[str, list[Point]]:
    """Return where each landmark and the middle of each edge come to lie, size by size."""
    found = {name: [flat.landmarks[name] for flat in flats] for name in flats[0].landmarks}
    for panel in flats[0].panels:
        for k, edge in enumerate(flats[0].panels[panel].edges):
            edges = [flat.panels[panel].edges[k].path.segments for flat in flats]
            found[f"{panel}: {edge.name} {k}"] = [
                segments[len(segments) // 2].at(0.5) for segments in edges
            ]
    return found


@pytest.mark.parametrize("cut", sorted(NEEDS))
@given(age=st.sampled_from(("infant", "toddler", "youth", "adult")), data=st.data())
@settings(max_examples=15)
def test_even_steps_give_even_steps(cut: str, age: str, data: st.DataObject) -> None:
    """First differences of every landmark and of every edge's middle hardly vary over the sizes.

    The estimates are linear, so a landmark's steps are the same to what the collars' own curves
    add: below a fifth of the step itself, and half a millimetre. A sleeve's cap is as high as the
    armhole's length makes it: 1.5 mm.
    """
    low, high = CHESTS[age]
    step = data.draw(numbers(10, 50))
    first = data.draw(numbers(low, max(low, high - step * _COUNT)))
    flats = nest(cut, age, first, data.draw(numbers(1.25, 1.6)), step)

    for name, track in tracks(flats).items():
        steps = [b.minus(a) for a, b in pairwise(track)]
        for one, two in pairwise(steps):
            slack = 1.5 if name.startswith("sleeve: armhole") else 0.5
            most = slack + 0.2 * max(one.length(), two.length())
            assert two.minus(one).length() <= most, name
