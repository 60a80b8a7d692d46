"""Sizes of the shipped tables and jigs on them, for tests that need real garments."""

from dataclasses import replace
from functools import cache

from jigs.errors import Place
from jigs.locations import LOCATIONS, lacks
from jigs.order.order import Press, Transfer
from jigs.plan.jigs import named
from jigs.plan.prints import Site, film_template, sites, stands, templates
from jigs.plan.sizes import Sized, facts, sized, sizes_text
from jigs.styles import STYLES
from jigs.tables import library
from jigs.template import Template, Tolerance, Wish, shared, template
from jigs.units import INCH, Mm
from jigs.widths import WidthRange

#: The crew-neck tees, of every age.
TABLES = (
    "infant-crew-tee", "toddler-crew-tee", "youth-crew-tee", "womens-crew-tee", "adult-crew-tee",
)  # fmt: skip
#: A table of every other cut.
OTHERS = (
    "adult-crew-sweatshirt", "adult-hoodie", "adult-long-sleeve-tee", "adult-polo", "adult-tank",
    "adult-v-neck-tee", "adult-zip-hoodie", "infant-bodysuit", "toddler-hoodie", "tote-bag",
)  # fmt: skip
#: A width that is usual at each location on the smallest size of an age, by the age's table.
SMALL = {"infant": 0.25, "toddler": 0.45, "youth": 0.75, "adult": 1.0}
USUAL = {
    "full-front": 10 * INCH, "centre-chest": 6 * INCH, "left-chest": 3 * INCH,
    "right-chest": 3 * INCH, "full-back": 10 * INCH, "upper-back": 8 * INCH,
    "left-sleeve": 2.5 * INCH, "right-sleeve": 2.5 * INCH, "neck-label": 2.25 * INCH,
    "left-hem": 2 * INCH, "right-hem": 2 * INCH, "left-hood": 2.5 * INCH,
    "right-hood": 2.5 * INCH, "left-long-sleeve": 2 * INCH, "right-long-sleeve": 2 * INCH,
    "nape": 2 * INCH, "pocket": 4 * INCH, "tote-centre": 6 * INCH,
}  # fmt: skip


@cache
def sizes(table: str) -> tuple[Sized, ...]:
    """Return every size of a shipped table, completed and drawn."""
    found = library.find(table, Place(table))
    return tuple(sized(found, one) for one in found.sizes)


def has(location: str, table: str) -> bool:
    """Return whether the garments of a table have a place for a location, with room for a print."""
    one = LOCATIONS.get(location)
    if any(lacks(one, size.flat) for size in sizes(table)):
        return False
    return not any(site.placement.room(1.0).covered for site in at(location, table))


@cache
def places() -> tuple[tuple[str, str], ...]:
    """Return every location with every table of `TABLES` and `OTHERS` that has it."""
    return tuple(
        (location, table)
        for location in LOCATIONS.names()
        for table in (*TABLES, *OTHERS)
        if has(location, table)
    )


def one_table(location: str) -> str:
    """Return a table that has a location: the adult crew tee, if it does."""
    tables = [table for name, table in places() if name == location]
    return "adult-crew-tee" if "adult-crew-tee" in tables else tables[0]


def at(location: str, table: str, drop: Mm | None = None) -> tuple[Site, ...]:
    """Return a location on every size of a shipped table."""
    found, said = sites(LOCATIONS.get(location), sizes(table), Press(), drop)
    assert not any(finding.blocks for finding in said)
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


@cache
def plates(one: str, two: str, table: str, scale: float = 1.0) -> tuple[Template, ...]:
    """Return the plates for two prints on all sizes of a shipped table, the larger print first."""
    first, other = sorted((one, two), key=lambda name: -USUAL[name])
    a, b = LOCATIONS.get(first), LOCATIONS.get(other)
    where, beside = at(first, table), at(other, table)
    small, aspect = SMALL[where[0].sized.flat.measures.age] * scale, 1.25
    wide, narrow = USUAL[first] * small, USUAL[other] * small
    runs = shared(stands(a, where), Tolerance(), min(a.engaged, b.engaged), stands(b, beside))
    known = facts([library.find(table, Place(table))])
    return tuple(
        template(
            run,
            a,
            width=wide,
            height=wide / aspect,
            trim=Transfer().trim,
            slip=Transfer().slip,
            sizes=sizes_text([seat.key for seat in run.seats], known),
            reference="test order",
            beside=Wish(b, narrow, narrow / aspect),
        )
        for run in runs
    )


def drawn_in(
    style: str, location: str, table: str, aspect: float = 1.25, unit: str = "in"
) -> tuple[Template, ...]:
    """Return the templates of one width on every size of a shipped table that a style draws."""
    if STYLES.get(style).touch:
        return jigs(location, table, aspect, unit)
    return (by_eye(location, table, aspect, unit),)


@cache
def by_eye(location: str, table: str, aspect: float = 1.25, unit: str = "in") -> Template:
    """Return the template of one width on every size of a shipped table, to be laid on by eye."""
    where = at(location, table)
    width = USUAL[location] * SMALL[where[0].sized.flat.measures.age]
    keys = tuple(site.key for site in where)
    one = WidthRange(keys, width, width / aspect, len(keys))
    made = film_template(LOCATIONS.get(location), where, one, Transfer(), "test order", unit)
    known = facts([library.find(table, Place(table))])
    return replace(named(made, known), sizes=sizes_text(keys, known))
