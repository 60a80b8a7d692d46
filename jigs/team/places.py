"""Where names and numbers hang: like known locations, a name above its number.

Drops and distances are common practice of the trade, no source, where a rule says nothing.
"""

from dataclasses import replace

from jigs.locations import LOCATIONS, Location
from jigs.units import INCH, Mm

#: Between the capitals of a name and the number below it, where no rule asks for more.
GAP: Mm = 1 * INCH
#: The location each print hangs like: its panel, its clearances, and its drop.
_LIKE = {"back-name": "upper-back", "back-number": "full-back", "front-number": "centre-chest"}


def location(kind: str) -> Location:
    """Return where a kind of print hangs: `back-name`, `back-number` or `front-number`."""
    return replace(LOCATIONS.get(_LIKE[kind]), title=kind.replace("-", " "))


def below(name_drop: Mm, name_height: Mm, gap: Mm | None) -> Mm:
    """Return the drop of a number below capitals that are so high, at the gap a rule asks for."""
    return name_drop + name_height + (GAP if gap is None else gap)
