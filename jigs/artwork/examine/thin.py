"""The thinnest lines and the narrowest gaps of each ink, and of all inks together.

A line of an ink is where the ink itself is thin; a gap is where what lies between two parts of it
is thin, be that bare or another ink. All inks together are one shape: inks that touch are one.
"""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from jigs.artwork.detail import GAP, Thin
from jigs.artwork.examine.at_once import in_turn
from jigs.artwork.examine.candidates import WIDEST, Candidate, judged, may_be_thin
from jigs.artwork.examine.morphology import looked_up, per_block
from jigs.artwork.examine.shape import Shape, shapes, table
from jigs.artwork.examine.sheet import Sheet
from jigs.artwork.examine.window import Place, Window
from jigs.geometry import Point

if TYPE_CHECKING:
    from jigs.artwork.examine.morphology import Map, Mask

#: Places listed of each ink and kind.
_MOST_PLACES = 5
#: Places looked at closely in a row without a thinner one among them, and places tried at all.
_MOST_LOOKS, _MOST_TRIED = 6, 400
#: So much thinner than the thinnest so far is thinner.
_BETTER = 0.97
#: A place is listed while it is no wider than this many times the thinnest.
_LISTED = 2.0
#: Places nearer to a listed one than this many of its widths are the same place.
_SAME = 4.0
#: A pixel is in a shape if its middle is: something may be up to a pixel wider than it seems, or,
#: if it seems hardly any wide, much thinner. (Pixels; what the width is multiplied by then.)
_UNSEEN, _HARDLY, _THINNER = 0.5, 2.0, 0.25
#: Pixels of a map by which a place may be less wide than it seems there.
_SLACK = 2.0
#: A hair may lie farther beside the place than it is wide.
_WIDER = 3.0
#: Beyond so many widths from the middle of a window it is looked at again from there; so often.
_BESIDE, _MOST_MOVES = 0.9, 2
#: What is less wide than such a part of what it seemed is looked at again; if it is nothing then,
#: what is at least so deep, by the disc, as lines are.
_MUCH, _DEEP = 0.7, 0.3
#: A smaller map's pixels are so many of the larger one's, across and down; rows made at once.
_STEP, _BAND = 8, 512
#: A map of fewer pixels shows nothing more.
_SMALLEST = 8


def thinnest(sheet: Sheet, hairs: Iterable[tuple[float, Point]] = ()) -> tuple[Thin, ...]:
    """Return the thinnest places of every ink and kind, thinnest first.

    `hairs` are places, and about how wide, that are too thin for the sheet's map.
    """
    search = _Search(sheet)
    for width, at in hairs:
        search.look_at(Place(width, at), search.shapes, _WIDER)
    tables = [table(shape.labels(sheet.inks)) for shape in search.shapes]
    found = in_turn(lambda own: may_be_thin(sheet.labels, own), tables)
    for shape, own, places in zip(search.shapes, tables, found, strict=True):
        search.look(shape, places, sheet.labels, own, 1)
        _on_smaller_maps(search, shape, own)
    return search.listed()


def _on_smaller_maps(search: "_Search", shape: Shape, own: "Map") -> None:
    """Look at what is too wide for one map on smaller and smaller ones, until some is found."""
    mask, chosen, step = search.sheet.labels, own, 1
    while max(mask.shape) >= _STEP * _SMALLEST and not search.is_sure(shape, step):
        mask = _reduced(mask, chosen, outside=shape.kind == GAP)
        chosen, step = table(frozenset({1})), step * _STEP
        search.look(shape, may_be_thin(mask, chosen), mask, chosen, step)


def _reduced(labels: "Map", own: "Map", *, outside: bool) -> "Mask":
    """Return a shape on a smaller map: a pixel is in it if all that it stands for are.

    So what is not in the shape never vanishes, however thin, and the shape's own parts grow no
    wider. `outside` says whether the shape goes on beyond the map. It is made in bands.
    """
    import numpy as np

    bands = [
        per_block(1 - looked_up(labels[top : top + _BAND], own), _STEP) == 0
        for top in range(0, len(labels), _BAND)
    ]
    mask = np.concatenate(bands).view(np.uint8)
    if not outside:
        # Blocks that reach beyond the map.
        mask[labels.shape[0] // _STEP :] = 0
        mask[:, labels.shape[1] // _STEP :] = 0
    return mask


class _Search:
    """What was found so far."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.shapes = shapes(sheet.inks)
        self.found: dict[Shape, list[Thin]] = {shape: [] for shape in self.shapes}

    def best(self, shape: Shape) -> float | None:
        """Return the least width found of a shape."""
        return min((thin.width for thin in self.found[shape]), default=None)

    def is_sure(self, shape: Shape, step: int) -> bool:
        """Return whether all that a map did not show is much wider than the thinnest."""
        best = self.best(shape)
        return best is not None and WIDEST * step * self.sheet.pixel > _LISTED * best

    def listed(self) -> tuple[Thin, ...]:
        """Return the thinnest places of each shape, thinnest first."""
        chosen = []
        for thins in self.found.values():
            thins.sort(key=_order)
            chosen += [one for one in thins[:_MOST_PLACES] if one.width <= _LISTED * thins[0].width]
        return tuple(sorted(chosen, key=_order))

    def look(
        self, shape: Shape, found: Iterable[Candidate], labels: "Map", own: "Map", step: int
    ) -> None:
        """Look closely at what seems thin on a map `step` times as small as the sheet's.

        The thinnest come first, to a pixel of the map; in the end nothing thinner is seen.
        """
        scale = step * self.sheet.pixel
        tried = idle = 0
        for one in found:
            best = self.best(shape)
            if best and one.width * scale > _LISTED * best + _SLACK * scale:
                return
            if self._is_known(shape, self._on_page(one, step), scale):
                continue
            tried += 1
            for seen in judged(one, labels, own):
                place = self._on_page(seen, step)
                if self._is_known(shape, place, scale):
                    continue
                # In a picture there is nothing finer to be seen.
                hardly = seen.width <= _HARDLY and not self.sheet.grain
                self.look_at(place, [shape], _THINNER if hardly else 1.0)
                idle += 1
                now = self.best(shape)
                if now and (best is None or now < _BETTER * best):
                    best, idle = now, 0
            if idle >= _MOST_LOOKS or tried == _MOST_TRIED:
                return

    def _on_page(self, one: Candidate, step: int) -> Place:
        x, y = ((v + 0.5) * step - 0.5 for v in (one.x, one.y))
        return Place((one.width + _UNSEEN) * step * self.sheet.pixel, self.sheet.on_page(x, y))

    def _is_known(self, shape: Shape, place: Place, pixel: float) -> bool:
        """Return whether a place found is not thinner than one nearby by more than a pixel."""
        return any(
            place.at.minus(thin.at).length() < _SAME * max(thin.width, place.width)
            and place.width > _BETTER * thin.width - pixel
            for thin in self.found[shape]
        )

    def look_at(self, place: Place, wanted: Sequence[Shape], otherwise: float = 1.0) -> None:
        """Look closely at a place for some shapes.

        If none is as thin there, it is looked at as if it were `otherwise` times as wide.
        """
        if not self._look_at(place, wanted, _MOST_MOVES) and otherwise != 1.0:
            self._look_at(Place(otherwise * place.width, place.at), wanted, _MOST_MOVES)

    def _look_at(self, place: Place, wanted: Sequence[Shape], moves: int) -> bool:
        """Return whether anything as thin as is thought is there; it may be a little beside."""
        window = Window(self.sheet, place)
        found = [self._look_for(shape, place, window, moves) for shape in wanted]
        return any(found)

    def _look_for(self, shape: Shape, place: Place, window: Window, moves: int) -> bool:
        thin = window.thin(shape)
        if thin is None:
            return False
        again = Place(thin.width, thin.at)
        if moves and thin.width < _MUCH * place.width and not self.sheet.grain:
            # So small a thing in the window may only be a rough edge: it must be seen larger, too.
            if self._look_at(again, [shape], moves - 1):
                return True
            thin = window.thin(shape, _DEEP)
            if thin is None:
                return False
        self._add(shape, thin)
        if moves and thin.at.minus(place.at).length() > _BESIDE * place.width:
            # It may be thinner still beyond what is taken to be near.
            self._look_at(again, [shape], moves - 1)
        return True

    def _add(self, shape: Shape, thin: Thin) -> None:
        near = [
            one
            for one in self.found[shape]
            if one.at.minus(thin.at).length() < _SAME * max(one.width, thin.width)
        ]
        if all(thin.width < one.width for one in near):
            self.found[shape] = [one for one in self.found[shape] if one not in near] + [thin]


def _order(thin: Thin) -> tuple[float, str, int, float, float]:
    return thin.width, thin.kind, -1 if thin.ink is None else thin.ink, thin.at.x, thin.at.y
