"""Right chest: plumb below the HPS on the wearer's right, four fingers below the collar seam."""

from jigs.locations._kinds import chest, under_right_hps

LOCATION = chest("right chest", under_right_hps)
