"""Left chest: plumb below the HPS on the wearer's left, four fingers below the collar seam."""

from jigs.locations._kinds import chest, under_hps

LOCATION = chest("left chest", under_hps)
