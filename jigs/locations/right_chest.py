"""Right chest: plumb below the HPS on the wearer's right, four fingers below the collar seam."""

from jigs.locations._location import ByAge, Location, Seen, body_clearances, under_right_hps
from jigs.units import FINGER, INCH

LOCATION = Location(
    title="right chest",
    panel="front",
    datum="front collar",
    drop=ByAge(adult=4 * FINGER, youth=2.25 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
    seen=Seen.FRONT,
    target=0.175,
    usual=(
        ByAge(adult=3 * INCH, youth=2.5 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        ByAge(adult=4 * INCH, youth=3.25 * INCH, toddler=2.5 * INCH, infant=2 * INCH),
    ),
    tallest=ByAge(adult=4 * INCH, youth=3.25 * INCH, toddler=2.5 * INCH, infant=2 * INCH),
    clear=body_clearances(collar=0.75 * INCH),
    across=under_right_hps,
    keeps_off_centre=0.5 * INCH,
)
