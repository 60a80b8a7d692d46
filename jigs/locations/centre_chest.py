"""Centre chest: a band or emblem in the middle of the chest, narrower than a full front."""

from jigs.locations._kinds import body_clearances
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="centre chest",
    panel="front",
    datum="front collar",
    drop=ByAge(adult=3 * INCH, youth=2.25 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
    seen=Seen.FRONT,
    target=0.38,
    usual=(
        ByAge(adult=6 * INCH, youth=5 * INCH, toddler=3.5 * INCH, infant=2 * INCH),
        ByAge(adult=9 * INCH, youth=7 * INCH, toddler=5 * INCH, infant=4 * INCH),
    ),
    tallest=ByAge(adult=6 * INCH, youth=5 * INCH, toddler=4 * INCH, infant=3 * INCH),
    clear=body_clearances(collar=0.75 * INCH),
    lowered=2 * INCH,
)
