"""Left hood: the side of the hood on the wearer's left, above its neck seam."""

from jigs.locations._kinds import hood
from jigs.locations._location import Seen

LOCATION = hood("left hood", Seen.LEFT_HOOD)
