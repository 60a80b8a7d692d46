"""The close look at artwork: its inks, its thinnest lines and gaps, its optical centre.

Drawings (`drawn_map`) and pictures (`seen_map`) become a map of their inks (`sheet`); on it thin
places are proposed (`candidates`), then looked at closely and measured (`measured`) by one rule
(`opening`). All of it runs in the child process.
"""

from jigs.artwork.examine.look import examine_drawn, examine_seen
from jigs.artwork.examine.specks import specks

__all__ = ["examine_drawn", "examine_seen", "specks"]
