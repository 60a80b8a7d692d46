"""Gathering what is remarkable in a drawing: the first of each kind, and how many more."""

from jigs.artwork.detail import Remark
from jigs.geometry import Box
from jigs.units import INCH

#: So many of one kind are told one by one.
SHOWN = 5
#: So many of one kind are kept until the worst are known.
_KEPT = 1000

#: Kind of live text that another machine may draw otherwise.
LIVE = "font"

#: What is said of each kind that needs no more than its name.
SAYS = {
    "gradient": "a gradient: its shades are no spot colour",
    "pattern": "a tiling pattern",
    "mask": "a soft mask: what it covers is partly clear",
    "filter": "a filter, such as a blur or a shadow: its shades are no spot colour",
    "overprint": "overprint is set, which is not simulated here",
    "hairline": "a line of no width: as thin as the device can, which no press holds",
}


def faint(part: float) -> str:
    """Return what is said of an opacity from 0 to 1."""
    return f"opacity of {part:.0%}: the shade it makes is no ink of its own"


class Remarks:
    """What was found so far."""

    def __init__(self) -> None:
        self._kept: dict[str, dict[Remark, None]] = {}
        self._more: dict[str, int] = {}

    def add(self, kind: str, says: str, where: Box | None = None, pixels: int = 0) -> None:
        """Note something, unless it is noted already."""
        kept = self._kept.setdefault(kind, {})
        if len(kept) < _KEPT:
            kept[Remark(kind, says, where, pixels)] = None
        else:
            self.count(kind)

    def count(self, kind: str) -> None:
        """Note one more of a kind, without its place."""
        self._more[kind] = self._more.get(kind, 0) + 1

    def image(self, size: tuple[int, int], where: Box, ppi: float) -> None:
        """Note an embedded picture of so many pixels, drawn at an effective resolution."""
        says = f"an image of {size[0]} x {size[1]} pixels, {ppi:.0f} ppi at the size of the page"
        self.add("image", says, where, max(round(ppi * where.width / INCH), 1))

    def done(self) -> tuple[Remark, ...]:
        """Return the first of each kind, of images the coarsest, and how many more there are."""
        told: list[Remark] = []
        for kind, kept in self._kept.items():
            found = sorted(kept, key=_pixels_per_mm)
            told += found[:SHOWN]
            more = max(len(found) - SHOWN, 0) + self._more.get(kind, 0)
            if more > 0:
                told.append(Remark(kind, f"and {more} more like these"))
        return tuple(told)


def _pixels_per_mm(remark: Remark) -> float:
    return remark.pixels / remark.where.width if remark.where and remark.pixels else 0.0
