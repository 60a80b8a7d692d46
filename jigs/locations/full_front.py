"""Full front: centred on the chest, hung from the front collar seam."""

from jigs.locations._kinds import body_clearances
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="full front",
    panel="front",
    datum="front collar",
    drop=ByAge(adult=3 * INCH, youth=2.25 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
    seen=Seen.FRONT,
    target=0.55,
    usual=(
        ByAge(adult=10 * INCH, youth=7.5 * INCH, toddler=4.5 * INCH, infant=2.5 * INCH),
        ByAge(adult=12 * INCH, youth=10.5 * INCH, toddler=7 * INCH, infant=5.5 * INCH),
    ),
    tallest=ByAge(adult=14 * INCH, youth=11 * INCH, toddler=7.5 * INCH, infant=5.5 * INCH),
    clear=body_clearances(collar=0.75 * INCH),
    lowered=6 * INCH,
)
