"""Sizes of the shipped crew-neck tees and jigs on them, for tests that need real garments."""

from dataclasses import replace
from functools import cache

from jigs.errors import Place
from jigs.locations import LOCATIONS
from jigs.order.order import Press, Transfer
from jigs.plan.prints import Site, sites, templates
from jigs.plan.sizes import Sized, facts, sized, sizes_text
from jigs.tables import library
from jigs.template import Template
from jigs.units import INCH, Mm
from jigs.widths import WidthRange

TABLES = (
    "infant-crew-tee", "toddler-crew-tee", "youth-crew-tee", "womens-crew-tee", "adult-crew-tee",
)  # fmt: skip
#: A width that is usual at each location on the smallest size of an age, by the age's table.
SMALL = {"infant": 0.25, "toddler": 0.45, "youth": 0.75, "adult": 1.0}
USUAL = {
    "full-front": 10 * INCH, "centre-chest": 6 * INCH, "left-chest": 3 * INCH,
    "right-chest": 3 * INCH, "full-back": 10 * INCH, "upper-back": 8 * INCH,
    "left-sleeve": 2.5 * INCH, "right-sleeve": 2.5 * INCH, "neck-label": 2.25 * INCH,
}  # fmt: skip


@cache
def sizes(table: str) -> tuple[Sized, ...]:
    """Return every size of a shipped table, completed and drawn."""
    found = library.find(table, Place(table))
    return tuple(sized(found, one) for one in found.sizes)


def at(location: str, table: str, drop: Mm | None = None) -> tuple[Site, ...]:
    """Return a location on every size of a shipped table."""
    found, missing = sites(LOCATIONS.get(location), sizes(table), Press(), drop)
    assert not missing
    return found


@cache
def jigs(location: str, table: str, aspect: float = 1.25, unit: str = "in") -> tuple[Template, ...]:
    """Return the templates of one width on every size of a shipped table."""
    where = at(location, table)
    width = USUAL[location] * SMALL[where[0].sized.flat.measures.age]
    keys = tuple(site.key for site in where)
    one = WidthRange(keys, width, width / aspect, len(keys))
    made = templates(LOCATIONS.get(location), where, one, Transfer(), "test order", unit)
    known = facts([library.find(table, Place(table))])
    return tuple(replace(t, sizes=sizes_text([seat.key for seat in t.seats], known)) for t in made)
