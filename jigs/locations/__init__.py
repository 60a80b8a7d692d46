"""Print locations: one file each, from a flat to where the artwork hangs and what limits it."""

from jigs.locations._location import ByAge, Limit, Location, Placement, Room, Seen, lacks, place
from jigs.registry import Registry

__all__ = [
    "LOCATIONS",
    "ByAge",
    "Limit",
    "Location",
    "Placement",
    "Room",
    "Seen",
    "lacks",
    "place",
]

LOCATIONS: Registry[Location] = Registry("jigs.locations", "LOCATION", Location, "location")
