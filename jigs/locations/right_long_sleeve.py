"""Right long sleeve: down the arm, centred on the fold, above the cuff."""

from jigs.locations._kinds import long_sleeve
from jigs.locations._location import Seen

LOCATION = long_sleeve("right long sleeve", Seen.RIGHT_SLEEVE)
