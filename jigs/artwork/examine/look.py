"""The close look itself: from a page or a picture to what there is to know of its ink."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from jigs.artwork.colour import difference
from jigs.artwork.detail import Detail, Ink
from jigs.artwork.examine.drawn_map import Render, drawn_map
from jigs.artwork.examine.seen_colours import Strips
from jigs.artwork.examine.seen_map import seen_map
from jigs.artwork.examine.sheet import LABEL, Look, Sheet
from jigs.artwork.examine.thin import thinnest
from jigs.geometry import Box, Point

if TYPE_CHECKING:
    from jigs.artwork.examine.morphology import Cover, Map

#: Rows that are gone through at a time.
_BAND = 512
#: A colour is a named separation's if they differ no more than this (CIEDE2000).
_NAMED = 3.0


def examine_drawn(render: Render, ink: Box, separations: Sequence[tuple[str, str]] = ()) -> Detail:
    """Return what is to be known of the ink of a drawing, in the page's own unit.

    `ink` is its box; `separations` are the names that the file gives its inks, each with a colour.
    """
    seen = drawn_map(render, ink)
    return Detail(
        _centroid(seen.sheet),
        _named(seen.inks, separations),
        seen.flat,
        thinnest(_judged(seen.sheet, flat=seen.flat), seen.hairs),
    )


def examine_seen(
    strips: Strips, width: int, height: int, ground: str, *, blurred: bool
) -> Detail | None:
    """Return what is to be known of the ink of a picture, in pixels.

    None if no ink can be told from the ground; `blurred` is what a file's compression has blurred.
    """
    seen = seen_map(strips, width, height, ground, blurred=blurred)
    if seen is None:
        return None
    thin = thinnest(_judged(seen.sheet, flat=seen.flat))
    return Detail(_centroid(seen.sheet), seen.inks, seen.flat, thin)


def _judged(sheet: Sheet, *, flat: bool) -> Sheet:
    """Return the map on which lines are looked for: shades have none of their own."""
    if flat:
        return sheet
    all_ink = sheet.labels
    for top in range(0, len(all_ink), _BAND):
        band = all_ink[top : top + _BAND]
        band[:] = band - (band & LABEL) + (band & LABEL > 0)
    return replace(sheet, labels=all_ink, inks=1, look=_AllInk(sheet.look, sheet.inks))


@dataclass(frozen=True, slots=True)
class _AllInk:
    """All inks taken for one."""

    look: Look
    inks: int

    def labels(self, part: Box, side: int) -> "Map":
        """Return the map of a part."""
        return self.look.labels(part, side).clip(max=1)

    def cover(self, part: Box, side: int, inks: frozenset[int]) -> "Cover":
        """Return how much of each pixel the ink, or the ground, covers."""
        every = frozenset(range(1, self.inks + 1)) if 1 in inks else frozenset[int]()
        return self.look.cover(part, side, every | (inks & {0}))


def _centroid(sheet: Sheet) -> Point:
    """Return the middle of the weight of all ink."""
    import numpy as np

    rows = np.zeros(sheet.labels.shape[0])
    columns = np.zeros(sheet.labels.shape[1])
    for top in range(0, len(rows), _BAND):
        inked = sheet.labels[top : top + _BAND] & LABEL > 0
        rows[top : top + _BAND] = inked.sum(axis=1)
        columns += inked.sum(axis=0)
    total = columns.sum()
    x = float((columns * np.arange(len(columns))).sum() / total)
    y = float((rows * np.arange(len(rows))).sum() / total)
    return sheet.on_page(x, y)


def _named(inks: Sequence[Ink], separations: Sequence[tuple[str, str]]) -> tuple[Ink, ...]:
    """Return inks with the names of the separations that have their colours."""
    found = []
    for ink in inks:
        far, name = min(
            ((difference(ink.colour, colour), name) for name, colour in separations),
            default=(_NAMED + 1, ""),
        )
        found.append(replace(ink, name=name) if far <= _NAMED else ink)
    return tuple(found)
