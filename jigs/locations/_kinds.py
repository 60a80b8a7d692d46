"""Kinds of locations that come in pairs, left and right, and what many locations share.

All numbers are common practice of the trade, no source.
"""

from collections.abc import Callable

from jigs.garments import Flat
from jigs.locations._location import ByAge, Location, Seen
from jigs.units import FINGER, INCH, Mm

#: On tank tops and on the smallest sizes the HPS lies near the armhole: a chest print is hung no
#: farther out than this share of the way to the shoulder point, the middle of what is free there.
_OUT = 0.42


def under_hps(flat: Flat) -> Mm:
    """Return the x plumb below the HPS on the wearer's left: where a chest print hangs."""
    return min(flat.landmarks["HPS"].x, _OUT * flat.landmarks["shoulder point"].x)


def under_right_hps(flat: Flat) -> Mm:
    """Return the x of a chest print on the wearer's right."""
    return -under_hps(flat)


def body_clearances(collar: Mm) -> dict[str, Mm]:
    """Return the clearances of a print on the body; only the collar's differs by location."""
    return {
        "collar seam": collar,
        "shoulder seam": 0.75 * INCH,
        "armhole seam": 1 * INCH,
        "side seam": 1 * INCH,
        "hem": 2 * INCH,
    }


def chest(title: str, across: Callable[[Flat], Mm]) -> Location:
    """Return a print beside the centre line, plumb below an HPS, four fingers below the collar."""
    return Location(
        title=title,
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
        across=across,
        plumb="HPS",
        keeps_off_centre=0.5 * INCH,
    )


def hem(title: str, side: int) -> Location:
    """Return a small print above the hem of the front, beside the centre line."""
    out = ByAge(adult=4.5 * INCH, youth=3.5 * INCH, toddler=2.5 * INCH, infant=2 * INCH)
    return Location(
        title=title,
        panel="front",
        datum="hem",
        drop=ByAge(adult=1 * INCH, youth=0.75 * INCH, toddler=0.625 * INCH, infant=0.5 * INCH),
        seen=Seen.FRONT,
        target=0.12,
        usual=(
            ByAge(adult=2 * INCH, youth=1.5 * INCH, toddler=1.25 * INCH, infant=1 * INCH),
            ByAge(adult=3.5 * INCH, youth=2.75 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        ),
        tallest=ByAge(adult=3 * INCH, youth=2.5 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        clear=body_clearances(collar=0.75 * INCH) | {"hem": 0.5 * INCH, "hem rib": 0.5 * INCH},
        across=lambda flat: side * out.at(flat.measures.age),
        hangs=False,
        keeps_off_centre=0.5 * INCH,
        seat="hem",
    )


def hood(title: str, seen: Seen) -> Location:
    """Return a print in the middle of one side of a hood, above the neck seam."""
    return Location(
        title=title,
        panel="hood",
        datum="hood neck",
        drop=ByAge(adult=3 * INCH, youth=2.5 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        seen=seen,
        target=0.15,
        usual=(
            ByAge(adult=2.5 * INCH, youth=2 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
            ByAge(adult=4.5 * INCH, youth=3.5 * INCH, toddler=3 * INCH, infant=2 * INCH),
        ),
        tallest=ByAge(adult=5 * INCH, youth=4 * INCH, toddler=3 * INCH, infant=2.5 * INCH),
        # The cords' tunnel runs along the opening.
        clear={"hood opening": 1.5 * INCH, "hood seam": 1 * INCH, "neck seam": 1 * INCH},
        across=lambda flat: flat.measures.mm("hood_width") / 2,
        hangs=False,
        seat="hood neck",
    )


def long_sleeve(title: str, seen: Seen) -> Location:
    """Return a tall print down a long sleeve, centred on the fold."""
    return Location(
        title=title,
        panel="sleeve",
        datum="sleeve hem",
        drop=ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        seen=seen,
        target=0.12,
        usual=(
            ByAge(adult=2 * INCH, youth=1.5 * INCH, toddler=1.25 * INCH, infant=1 * INCH),
            ByAge(adult=3 * INCH, youth=2.5 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        ),
        tallest=ByAge(adult=14 * INCH, youth=10 * INCH, toddler=6 * INCH, infant=4 * INCH),
        clear={"armhole seam": 2 * INCH, "underarm seam": 0.75 * INCH, "sleeve hem": 0.5 * INCH},
        hangs=False,
        seat="sleeve hem",
        needs=frozenset({"elbow"}),
    )


def sleeve(title: str, seen: Seen) -> Location:
    """Return a print centred on a sleeve's fold, above its hem or cuff."""
    return Location(
        title=title,
        panel="sleeve",
        datum="sleeve hem",
        drop=ByAge(adult=1 * INCH, youth=0.75 * INCH, toddler=0.625 * INCH, infant=0.5 * INCH),
        seen=seen,
        target=0.15,
        usual=(
            ByAge(adult=2.5 * INCH, youth=2 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
            ByAge(adult=3.5 * INCH, youth=2.75 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        ),
        tallest=ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        clear={"armhole seam": 0.75 * INCH, "underarm seam": 1 * INCH, "sleeve hem": 0.5 * INCH},
        hangs=False,
        seat="sleeve hem",
    )
