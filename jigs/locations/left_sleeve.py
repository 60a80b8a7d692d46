"""Left sleeve: centred on the fold, above the hem; the sleeve is opened flat round the fold."""

from jigs.locations._kinds import sleeve
from jigs.locations._location import Seen

LOCATION = sleeve("left sleeve", Seen.LEFT_SLEEVE)
