"""Right hood: the side of the hood on the wearer's right, above its neck seam."""

from jigs.locations._kinds import hood
from jigs.locations._location import Seen

LOCATION = hood("right hood", Seen.RIGHT_HOOD)
