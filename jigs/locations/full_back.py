"""Full back: centred, hung from the back collar seam."""

from jigs.locations._kinds import body_clearances
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="full back",
    panel="back",
    datum="back collar",
    drop=ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
    seen=Seen.BACK,
    target=0.55,
    usual=(
        ByAge(adult=10 * INCH, youth=7.5 * INCH, toddler=4.5 * INCH, infant=2.5 * INCH),
        ByAge(adult=13 * INCH, youth=10.5 * INCH, toddler=7 * INCH, infant=5.5 * INCH),
    ),
    tallest=ByAge(adult=15 * INCH, youth=12 * INCH, toddler=8 * INCH, infant=6 * INCH),
    clear=body_clearances(collar=0.75 * INCH),
    drop_from="the back collar seam",
    seat="back collar",
    lowered=6 * INCH,
)
