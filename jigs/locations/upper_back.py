"""Upper back: between the shoulder blades, hung from the back collar seam."""

from jigs.locations._kinds import body_clearances
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="upper back",
    panel="back",
    datum="back collar",
    drop=ByAge(adult=2 * INCH, youth=1.5 * INCH, toddler=1.25 * INCH, infant=1 * INCH),
    seen=Seen.BACK,
    target=0.45,
    usual=(
        ByAge(adult=8 * INCH, youth=6 * INCH, toddler=4 * INCH, infant=2 * INCH),
        ByAge(adult=11 * INCH, youth=8.5 * INCH, toddler=5.5 * INCH, infant=4 * INCH),
    ),
    tallest=ByAge(adult=5 * INCH, youth=4 * INCH, toddler=3 * INCH, infant=2.5 * INCH),
    clear=body_clearances(collar=0.75 * INCH),
    drop_from="the back collar seam",
    seat="back collar",
    lowered=8 * INCH,
)
