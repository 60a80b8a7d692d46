"""Right hem: a small print above the front's hem, on the wearer's right."""

from jigs.locations._kinds import hem

LOCATION = hem("right hem", -1)
