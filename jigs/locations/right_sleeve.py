"""Right sleeve: centred on the fold, above the hem; the sleeve is opened flat round the fold."""

from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="right sleeve",
    panel="sleeve",
    datum="sleeve hem",
    drop=ByAge(adult=1 * INCH, youth=0.75 * INCH, toddler=0.625 * INCH, infant=0.5 * INCH),
    seen=Seen.RIGHT_SLEEVE,
    target=0.15,
    usual=(
        ByAge(adult=2.5 * INCH, youth=2 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
        ByAge(adult=3.5 * INCH, youth=2.75 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
    ),
    tallest=ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
    clear={"armhole seam": 0.75 * INCH, "underarm seam": 1 * INCH, "sleeve hem": 0.5 * INCH},
    hangs=False,
    drop_from="the sleeve hem",
    seat="sleeve hem",
)
