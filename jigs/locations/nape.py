"""Nape: a small print outside on the back, just below the back collar seam."""

from jigs.locations._kinds import body_clearances
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="nape",
    panel="back",
    datum="back collar",
    drop=ByAge(adult=1 * INCH, youth=0.75 * INCH, toddler=0.75 * INCH, infant=0.625 * INCH),
    seen=Seen.BACK,
    target=0.14,
    usual=(
        ByAge(adult=2 * INCH, youth=1.75 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
        ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2.5 * INCH, infant=2 * INCH),
    ),
    tallest=ByAge(adult=2 * INCH, youth=1.5 * INCH, toddler=1.25 * INCH, infant=1 * INCH),
    clear=body_clearances(collar=0.5 * INCH),
    drop_from="the back collar seam",
    seat="back collar",
    lowered=1 * INCH,
)
