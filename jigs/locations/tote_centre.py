"""Tote centre: in the middle of a bag, hung from its top edge."""

from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="tote centre",
    panel="front",
    datum="top edge",
    # A bag has no age; it counts as adult.
    drop=ByAge(adult=4 * INCH, youth=4 * INCH, toddler=4 * INCH, infant=4 * INCH),
    seen=Seen.BAG,
    target=0.6,
    usual=(
        ByAge(adult=6 * INCH, youth=6 * INCH, toddler=6 * INCH, infant=6 * INCH),
        ByAge(adult=11 * INCH, youth=11 * INCH, toddler=11 * INCH, infant=11 * INCH),
    ),
    tallest=ByAge(adult=10 * INCH, youth=10 * INCH, toddler=10 * INCH, infant=10 * INCH),
    clear={"top edge": 1.5 * INCH, "side seam": 1 * INCH, "bottom": 1.5 * INCH},
    seat="top edge",
)
