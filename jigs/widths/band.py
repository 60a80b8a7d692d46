"""The widths that suit one size: the usual one, and how far from it is acceptable."""

from dataclasses import dataclass

from jigs.errors import Finding
from jigs.locations import Room
from jigs.units import Mm, say

#: How far from the usual width still looks right (common practice, no source).
SHARE = 0.15
#: A print narrower than this is no print.
SMALLEST: Mm = 5.0
#: What limits a width that neither a seam nor the platen does.
USUAL = "usual size"


@dataclass(frozen=True, slots=True)
class Band:
    """The acceptable widths of one print on one size: `least` to `most` around `target`."""

    key: str
    """`table/size`."""
    quantity: int
    target: Mm
    least: Mm
    most: Mm
    limited_by: str
    """What stops a width above `most`: an edge's name, `platen` or `usual size`."""
    room: Mm
    """The largest width that fits at all."""
    stops: str
    """What stops a width above `room`: an edge's name or `platen`."""
    breadth: Mm
    """Of the garment laid flat, for saying how wide a print looks."""

    @property
    def usable(self) -> bool:
        """Whether any width does for this size."""
        return self.most >= max(self.least, SMALLEST)


def band(
    key: str,
    *,
    usual: Mm,
    bounds: tuple[Mm, Mm],
    room: Room,
    breadth: Mm,
    quantity: int = 1,
    needed: Mm = 0.0,
    unit: str = "in",
) -> tuple[Band, tuple[Finding, ...]]:
    """Return the band of one size and what is to be said about it.

    The usual width ± 15 %, within the least and most that is usual on any garment (`bounds`), no
    more than there is room for, no less than the artwork needs. A band that little room or a
    bound makes narrow reaches down half the share below its top, so that neighbouring sizes can
    still meet.
    """
    # Artwork that is narrow because it is tall may fall short of the least, which stands for wide.
    floor, ceiling = min(bounds[0], usual), max(bounds[1], usual)
    high, limited_by = min(usual * (1 + SHARE), ceiling), USUAL
    if room.mm < high:
        high, limited_by = room.mm, room.limited_by
    low = min(max(usual * (1 - SHARE), floor), high * (1 - SHARE / 2))
    low = max(low, needed)
    target = min(max(usual, low), high)
    found = Band(key, quantity, target, low, high, limited_by, room.mm, room.limited_by, breadth)
    return found, tuple(_remarks(found, usual, needed, room, unit))


def _remarks(found: Band, usual: Mm, needed: Mm, room: Room, unit: str) -> list[Finding]:
    if room.mm < SMALLEST:
        where = "lies where it would begin" if room.covered else "is too close"
        says = f"no room for this artwork at this drop: the {room.limited_by} {where}"
        return [Finding(blocks=True, about=found.key, says=says)]
    if needed > found.most:
        says = (
            f"the artwork needs {say(needed, unit)} to hold, but at most {say(found.most, unit)} "
            f"suits this size (limited by the {found.limited_by})"
        )
        return [Finding(blocks=True, about=found.key, says=says)]
    if room.mm < usual * (1 - SHARE):
        says = (
            f"only {say(room.mm, unit)} fits where {say(usual, unit)} is usual "
            f"(limited by the {room.limited_by})"
        )
        return [Finding(blocks=False, about=found.key, says=says)]
    return []
