"""Every place a garment has is one a print fits, on every shipped table."""

from itertools import pairwise

import pytest

from jigs.locations import LOCATIONS, lacks
from jigs.locations._location import usual_width
from jigs.tables.library import names
from jigs.units import INCH
from tests import shipped

PLACES = [
    (location, table)
    for table in names()
    for location in LOCATIONS.names()
    if not any(lacks(LOCATIONS.get(location), size.flat) for size in shipped.sizes(table))
]
#: Where a usual print does not fit on the smallest sizes: a pocket or deep armholes leave less.
TIGHT = {
    ("centre-chest", "toddler-hoodie"),
    ("full-front", "toddler-hoodie"),
    ("full-front", "youth-hoodie"),
    ("full-back", "womens-tank"),
    ("full-front", "womens-tank"),
    ("full-back", "youth-tank"),
}
#: What is pressed where something always lies in the way: it is refused, in words.
COVERED = {
    ("nape", "hood at rest"),
    ("left-hem", "pocket"),
    ("right-hem", "pocket"),
    ("full-front", "zip"),
    ("centre-chest", "zip"),
    ("pocket", "zip"),
    ("centre-chest", "placket"),
}


@pytest.mark.parametrize(("location", "table"), PLACES)
def test_a_usual_print_fits(location: str, table: str) -> None:
    """85 % of the least that is usual fits, half of it where little room is known and listed."""
    where = LOCATIONS.get(location)
    for site in shipped.at(location, table):
        room, m = site.placement.room(1.25), site.sized.flat.measures
        if room.covered:
            assert (location, room.limited_by) in COVERED
            continue
        least = min(where.usual[0].at(m.age), usual_width(where, m.age, m.breadth, 1.25))
        assert room.mm >= least * (0.5 if (location, table) in TIGHT else 0.85), m.size


@pytest.mark.parametrize(("location", "table"), PLACES)
def test_neighbouring_sizes_print_at_neighbouring_places(location: str, table: str) -> None:
    """From size to size a print moves by a grading step and one step of half an inch at most."""
    anchors = [site.placement.anchor for site in shipped.at(location, table)]
    for one, two in pairwise(anchors):
        assert abs(two.y - one.y) <= 0.5 * INCH + 1.75 * INCH * (location in OFF_THE_HEM)
        assert abs(two.x - one.x) <= 0.25 * INCH


#: Places that move with the garment's own length.
OFF_THE_HEM = {
    "left-hem", "right-hem", "left-sleeve", "right-sleeve", "left-long-sleeve",
    "right-long-sleeve", "pocket",
}  # fmt: skip
