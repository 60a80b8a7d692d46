"""Left hem: a small print above the front's hem, on the wearer's left."""

from jigs.locations._kinds import hem

LOCATION = hem("left hem", 1)
