"""The close look itself: from a page or a picture to what there is to know of its ink."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from jigs.artwork.colour import difference
from jigs.artwork.detail import Detail, Ink, Thin
from jigs.artwork.examine.drawn_map import Render, drawn_map
from jigs.artwork.examine.seen_colours import Strips
from jigs.artwork.examine.seen_map import seen_map
from jigs.artwork.examine.sheet import Sheet
from jigs.artwork.examine.thin import thinnest
from jigs.geometry import Box, Point
from jigs.units import Mm

if TYPE_CHECKING:
    pass

#: A colour is a named separation's if they differ no more than this (CIEDE2000).
_NAMED = 3.0


def examine_drawn(
    render: Render, ink: Box, unit: Mm, separations: Sequence[tuple[str, str]] = ()
) -> Detail:
    """Return what is to be known of the ink of a drawing.

    `ink` is its box in the page's own unit, which is `unit` mm long; `separations` are the names
    that the file gives its inks, each with its colour.
    """
    seen = drawn_map(render, ink)
    return Detail(
        centroid=_on_page(_centroid(seen.sheet), unit),
        inks=_named(seen.inks, separations),
        flat=seen.flat,
        thin=tuple(_in_mm(one, unit) for one in thinnest(seen.sheet, seen.hairs)),
    )


def examine_seen(
    strips: Strips, width: int, height: int, ground: str, unit: Mm, *, blurred: bool
) -> Detail | None:
    """Return what is to be known of the ink of a picture; None if no ink is told from the ground.

    A pixel is `unit` mm wide; `blurred` says whether the file's compression blurs colours.
    """
    seen = seen_map(strips, width, height, ground, blurred=blurred)
    if seen is None:
        return None
    return Detail(
        centroid=_on_page(_centroid(seen.sheet), unit),
        inks=seen.inks,
        flat=seen.flat,
        thin=tuple(_in_mm(one, unit) for one in thinnest(seen.sheet)),
    )


def _centroid(sheet: Sheet) -> Point:
    """Return the middle of the weight of all ink."""
    import numpy as np

    rows = np.zeros(sheet.labels.shape[0])
    columns = np.zeros(sheet.labels.shape[1])
    step = 1024
    for top in range(0, len(rows), step):
        inked = sheet.labels[top : top + step] > 0
        rows[top : top + step] = inked.sum(axis=1)
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


def _in_mm(thin: Thin, unit: Mm) -> Thin:
    return replace(thin, width=thin.width * unit, at=_on_page(thin.at, unit))


def _on_page(at: Point, unit: Mm) -> Point:
    return Point(at.x * unit, at.y * unit)
