"""The inks of artwork: colours that are printed each on its own.

Colours are put together by CIEDE2000 as one ink if nobody would print them apart. What a drawing
paints is known exactly, so there that is little; in a picture, compression spreads a colour.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from jigs.artwork.colour import difference

#: Colours nearer than this are one ink in a drawing: side by side, 2 is hardly seen.
SAME_DRAWN = 2.0
#: Likewise in a picture (common practice, no source).
SAME_SEEN = 8.0
#: Hardly a transfer is screen-printed in more colours (common practice, no source).
MOST_INKS = 12
#: Part of the colours that the inks must make up for there to be no shades between.
_MOSTLY = 0.97
#: Colours that are looked at, and groups of them that are kept apart.
_MOST_COLOURS, _MOST_GROUPS = 1000, 32


@dataclass(frozen=True, slots=True)
class Palette:
    """Inks as `#rrggbb`, the heaviest first."""

    colours: tuple[str, ...]
    flat: bool
    """Whether they are all there is, without shades."""


def palette(found: Iterable[tuple[str, float]], same: float) -> Palette:
    """Return the inks that colours with their weights come to."""
    ordered = sorted(found, key=lambda one: (-one[1], one[0]))
    total = sum(weight for _, weight in ordered)
    groups: dict[str, float] = {}
    apart = 0.0
    for colour, weight in ordered[:_MOST_COLOURS]:
        near = min(groups, key=lambda one: difference(colour, one), default=None)
        if near is not None and difference(colour, near) <= same:
            groups[near] += weight
        elif len(groups) < _MOST_GROUPS:
            groups[colour] = weight
        else:
            apart += weight
    kept = sorted(groups.items(), key=lambda one: (-one[1], one[0]))[:MOST_INKS]
    held = sum(weight for _, weight in kept)
    return Palette(tuple(colour for colour, _ in kept), held >= _MOSTLY * total)
