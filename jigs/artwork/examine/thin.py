"""The thinnest lines and the narrowest gaps of each ink, and of all inks together.

A line of an ink is where the ink itself is thin; a gap is where what lies between two parts of it
is thin, be that bare or another ink. All inks together are one shape: inks that touch are one.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from jigs.artwork.detail import GAP, LINE, Thin
from jigs.artwork.examine.candidates import DISCS, Candidate, of_labels, of_mask
from jigs.artwork.examine.measured import (
    CLOSE_SIDE,
    CLOSE_WIDTHS,
    SIDE,
    WIDTHS,
    narrowest,
    width_across,
    width_alone,
)
from jigs.artwork.examine.morphology import framed, looked_up, present_in
from jigs.artwork.examine.opening import Piece
from jigs.artwork.examine.sheet import Sheet
from jigs.geometry import Box, Point

if TYPE_CHECKING:
    from jigs.artwork.examine.morphology import Map, Mask

#: Places listed of each ink and kind, and looked at closely for each disc.
_MOST_PLACES, _MOST_LOOKS = 5, 6
#: A place is listed while it is no wider than this many times the thinnest.
_LISTED = 2.0
#: Places nearer to a listed one than this many of its widths are the same place.
_SAME = 4.0
#: Less wide than this part of it, it is looked at all the same.
_THINNER = 0.8
#: A disc finds widths to a pixel of the map, so discs a little wider than the thinnest are tried.
_SURE, _PIXELS = 1.2, 1.5
#: A map of fewer pixels shows nothing more.
_SMALLEST = 4
#: Rows of a smaller map that are made at once.
_BAND = 256
#: Other shapes than the one that a place was found for are looked for up to this multiple of it.
_OTHERS = 1.3
#: Below this share of the first window's width the second did not see the same place.
_AGREE = 0.45


@dataclass(frozen=True, slots=True)
class Shape:
    """What is looked at: the lines of some inks, or the gaps between their parts."""

    kind: str
    ink: int | None
    """Index of the ink; None for all together."""

    def labels(self, inks: int) -> frozenset[int]:
        """Return the labels that make up the shape."""
        own = {self.ink + 1} if self.ink is not None else set(range(1, inks + 1))
        return frozenset(own if self.kind == LINE else set(range(inks + 1)) - own)


@dataclass(frozen=True, slots=True)
class Place:
    """Where to look: about how wide on the page, where, and first of all for which shape."""

    width: float
    at: Point
    shape: Shape | None
    """None if it may be any."""


def shapes(inks: int) -> tuple[Shape, ...]:
    """Return every shape of artwork in so many inks; a single ink is all inks together."""
    each = (None, *range(inks)) if inks > 1 else (None,)
    return tuple(Shape(kind, ink) for ink in each for kind in (LINE, GAP))


def thinnest(sheet: Sheet, hairs: Iterable[tuple[float, Point]] = ()) -> tuple[Thin, ...]:
    """Return the thinnest places of every ink and kind, thinnest first.

    `hairs` are places, and about how wide, that are too thin for the sheet's map.
    """
    search = _Search(sheet)
    for width, at in hairs:
        search.look([Place(width, at, None)])
    _on_labels(search)
    _on_shapes(search)
    return search.listed()


def _on_labels(search: "_Search") -> None:
    """Look at what is thin on the map itself, all labels at once."""
    sheet = search.sheet
    own = {0: Shape(GAP, None)} | {k + 1: Shape(LINE, k) for k in range(sheet.inks)}
    if sheet.inks == 1:
        own[1] = Shape(LINE, None)
    for found in of_labels(sheet.labels):
        for label, each in found.items():
            search.look(_on_page(sheet, each, 1, own[label]))


def _on_shapes(search: "_Search") -> None:
    """Look at what is thin on smaller and smaller maps, shape by shape, until each is found."""
    sheet = search.sheet
    for shape in search.shapes:
        table = _table(shape.labels(sheet.inks))
        if len(shape.labels(sheet.inks)) > 1 and not search.is_sure(shape, 1):
            # A single label was looked for with all others.
            search.look(_on_page(sheet, of_mask(sheet.labels, table), 1, shape))
        outside = shape.kind == GAP
        mask, step = sheet.labels, 1
        while max(mask.shape) >= 2 * _SMALLEST and not search.is_sure(shape, 2 * step):
            mask, step = _halved(mask, table if step == 1 else None, outside=outside), 2 * step
            search.look(_on_page(sheet, of_mask(mask), step, shape))


def _halved(mask: "Map", table: "Map | None", *, outside: bool) -> "Mask":
    """Return a shape on a map half as large: a pixel is in it if all four of the larger map are.

    So what is not in the shape never vanishes, however thin, and the shape's own parts grow no
    wider. The frame, and what is beyond an odd map's last pixels, is what lies outside. It is made
    in bands; a table says which labels of the larger map are the shape.
    """
    import numpy as np

    height, width = mask.shape
    half = np.empty((height // 2 + 1 + height % 2, width // 2 + 1 + width % 2), np.uint8)
    for top in range(0, len(half), _BAND):
        first, last = 2 * top - 1, 2 * min(top + _BAND, len(half)) - 1
        part = mask[max(first, 0) : last]
        part = part if table is None else looked_up(part, table)
        above, below = max(-first, 0), max(last - height, 0)
        wide = framed(part, above, below, 1, 1 + width % 2, int(outside))
        half[top : top + _BAND] = (
            wide[::2, ::2] & wide[1::2, ::2] & wide[::2, 1::2] & wide[1::2, 1::2]
        )
    return half


def _table(chosen: frozenset[int]) -> "Map":
    """Return the table that tells a shape by its labels."""
    import numpy as np

    table = np.zeros(256, np.uint8)
    table[list(chosen)] = 1
    return table


def _on_page(sheet: Sheet, found: Iterable[Candidate], step: int, shape: Shape) -> Iterator[Place]:
    scale = step * sheet.pixel
    # Each halving puts one pixel of its own map round it: together, all but one of the largest map
    # that make up one of the smallest.
    frame = step - 1
    for one in found:
        x, y = ((v + 0.5) * step - 0.5 - frame for v in (one.x, one.y))
        yield Place(one.width * scale, sheet.on_page(x, y), shape)


class _Search:
    """What was found so far."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.shapes = shapes(sheet.inks)
        self.found: dict[Shape, list[Thin]] = {shape: [] for shape in self.shapes}

    def best(self, shape: Shape | None) -> float | None:
        """Return the least width found of a shape."""
        return min((thin.width for thin in self._listed(shape)), default=None)

    def _listed(self, shape: Shape | None) -> list[Thin]:
        return self.found[shape] if shape else [one for each in self.found.values() for one in each]

    def is_sure(self, shape: Shape, step: int) -> bool:
        """Return whether what a map half as fine would show is wider than the thinnest."""
        best = self.best(shape)
        pixel = step * self.sheet.pixel
        return best is not None and DISCS[-1] / 2 * pixel > _SURE * best + _PIXELS * pixel

    def listed(self) -> tuple[Thin, ...]:
        """Return the thinnest places of each shape, thinnest first."""
        chosen = []
        for thins in self.found.values():
            thins.sort(key=_order)
            chosen += [one for one in thins[:_MOST_PLACES] if one.width <= _LISTED * thins[0].width]
        return tuple(sorted(chosen, key=_order))

    def look(self, places: Iterable[Place]) -> None:
        """Look closely at places, the thinnest of which come first, but not quite in order."""
        looks = wider = 0
        for place in places:
            best = self.best(place.shape)
            slack = 2 * self.sheet.pixel
            if best and place.width > _LISTED * best + slack:
                wider += 1
            elif not self._is_known(place):
                looks += 1
                self._look_at(place)
            if _MOST_LOOKS in {looks, wider}:
                return

    def _is_known(self, place: Place) -> bool:
        return any(
            place.at.minus(thin.at).length() < _SAME * max(thin.width, place.width)
            and place.width > _THINNER * thin.width
            for thin in self._listed(place.shape)
        )

    def _look_at(self, place: Place) -> None:
        labels = self.sheet.look.labels(_square(place.at, WIDTHS * place.width), SIDE)
        present = frozenset(present_in(labels))
        known: dict[frozenset[int], tuple[float, Thin | None]] = {}
        for shape in sorted(self.shapes, key=lambda one: one != place.shape):
            chosen = shape.labels(self.sheet.inks) & present
            if chosen in {frozenset(), present}:
                continue
            # Other shapes are only of interest here if they are thinner than anywhere so far.
            below = math.inf
            if place.shape not in {shape, None}:
                below = min(self.best(shape) or math.inf, _OTHERS * place.width)
            # Many shapes are the same here: an ink is all of them together where it is alone.
            looked, thin = known.get(chosen, (0.0, None))
            if thin is None and looked < below:
                thin = self._measured(place, shape, looked_up(labels, _table(chosen)), below)
                known[chosen] = below, thin
            if thin is not None and thin.width <= below:
                self._add(shape, replace(thin, kind=shape.kind, ink=shape.ink))

    def _add(self, shape: Shape, thin: Thin) -> None:
        near = [
            one
            for one in self.found[shape]
            if one.at.minus(thin.at).length() < _SAME * max(one.width, thin.width)
        ]
        if all(thin.width < one.width for one in near):
            self.found[shape] = [one for one in self.found[shape] if one not in near] + [thin]

    def _measured(self, place: Place, shape: Shape, mask: "Mask", below: float) -> Thin | None:
        seen = narrowest(mask, below * SIDE / (WIDTHS * place.width))
        if seen is None:
            return None
        piece, disc = seen
        pixel = WIDTHS * place.width / SIDE
        x, y = piece.middle
        half = SIDE / 2
        at = Point(place.at.x + (x + 0.5 - half) * pixel, place.at.y + (y + 0.5 - half) * pixel)
        # The first disc tried may be much wider than the line; but the piece may also only reach
        # into the middle of the window by its edge, and be less deep there than it is.
        for about in sorted({min(disc, 2 * piece.depth + 1), disc}):
            thin = self._measured_close(shape, piece, at, about * pixel)
            if thin is not None:
                return thin
        return None

    def _measured_close(self, shape: Shape, piece: Piece, at: Point, about: float) -> Thin | None:
        """Return a place about so wide, seen more closely; None if no such thing is seen there."""
        # The edges of a picture's line are a pixel wide, on both sides.
        side = CLOSE_WIDTHS * about + 4 * self.sheet.grain
        cover = self.sheet.look.cover(_square(at, side), CLOSE_SIDE, shape.labels(self.sheet.inks))
        small = side / CLOSE_SIDE
        # Beside its middle a dot is less wide.
        close = (
            width_alone(cover, about / small)
            if piece.alone
            else width_across(cover, about / small, self.sheet.grain / small)
        )
        if close is None or not _AGREE * about <= close[0] * small <= about / _AGREE:
            return None
        width, middle, across = close
        half = CLOSE_SIDE / 2
        at = Point(at.x + (middle.x + 0.5 - half) * small, at.y + (middle.y + 0.5 - half) * small)
        return Thin(shape.kind, shape.ink, width * small, at, across)


def _square(middle: Point, side: float) -> Box:
    half = side / 2
    return Box(middle.x - half, middle.y - half, middle.x + half, middle.y + half)


def _order(thin: Thin) -> tuple[float, str, int, float, float]:
    return thin.width, thin.kind, -1 if thin.ink is None else thin.ink, thin.at.x, thin.at.y
