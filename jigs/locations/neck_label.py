"""Neck label: inside the back, hung from the back collar seam, where a sewn label would be."""

from jigs.locations._kinds import body_clearances
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="neck label",
    panel="back",
    datum="back collar",
    drop=ByAge(adult=0.75 * INCH, youth=0.75 * INCH, toddler=0.625 * INCH, infant=0.5 * INCH),
    seen=Seen.INSIDE_BACK,
    target=0.125,
    usual=(
        ByAge(adult=2.25 * INCH, youth=1.75 * INCH, toddler=1.5 * INCH, infant=1.25 * INCH),
        ByAge(adult=2.75 * INCH, youth=2.25 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
    ),
    tallest=ByAge(adult=2.75 * INCH, youth=2.25 * INCH, toddler=1.75 * INCH, infant=1.5 * INCH),
    clear=body_clearances(collar=0.25 * INCH),
    drop_from="the back collar seam, inside",
    seat="back collar",
)
