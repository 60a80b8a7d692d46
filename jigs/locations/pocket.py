"""Pocket: on the front pocket of a hooded sweatshirt, hung from its top edge."""

from jigs.locations._location import ByAge, Location, Seen
from jigs.units import INCH

LOCATION = Location(
    title="pocket",
    panel="pocket",
    datum="pocket top",
    drop=ByAge(adult=1.75 * INCH, youth=1.5 * INCH, toddler=1.25 * INCH, infant=1 * INCH),
    seen=Seen.FRONT,
    target=0.28,
    usual=(
        ByAge(adult=3 * INCH, youth=2.5 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        ByAge(adult=7 * INCH, youth=5.5 * INCH, toddler=4 * INCH, infant=3 * INCH),
    ),
    tallest=ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
    # Three layers meet at the pocket's seams: the press is weak beside them.
    clear={"pocket top": 0.75 * INCH, "pocket opening": 0.75 * INCH, "pocket bottom": 0.75 * INCH},
    seat="pocket top",
)
