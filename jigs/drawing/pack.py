"""Boxes packed on as few sheets as can be found, a gap apart, upright or turned by a quarter.

One sheet is packed by the library rectangle-packer: whether boxes fit one sheet, and where. Boxes
go to the first sheet that takes them as well, in several orders; the order that needs the fewest
sheets is kept. That is first-fit decreasing with an exact sheet in place of a level (Coffman,
Garey, Johnson, Tarjan, "Performance bounds for level-oriented two-dimensional packing
algorithms", 1980).
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from jigs.units import Mm

#: Boxes are rounded up to whole parts of a millimetre, which is what is packed.
_PARTS = 10

Size: TypeAlias = tuple[Mm, Mm]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a box lies on a sheet: its number, its top left corner, whether it is turned."""

    index: int
    x: Mm
    y: Mm
    turned: bool


@dataclass(frozen=True, slots=True)
class Packing:
    """Sheets with what lies on them, what fits on none, and the fewest that areas allow."""

    sheets: tuple[tuple[Place, ...], ...]
    left: tuple[int, ...]
    bound: int


#: Width and height in parts of a millimetre, and the number of the box.
_Box: TypeAlias = tuple[int, int, int]


def packed(sizes: Sequence[Size], sheet: Size, gap: Mm) -> Packing:
    """Return boxes on as few sheets as several orders find; all lie inside, a gap apart."""
    # A gap right of and below each box, and the same on the sheet: between any two is one.
    wide, high = (math.floor((side + gap) * _PARTS + 1e-6) for side in sheet)
    boxes = [
        (math.ceil((w + gap) * _PARTS - 1e-6), math.ceil((h + gap) * _PARTS - 1e-6), k)
        for k, (w, h) in enumerate(sizes)
    ]
    fit = [box for box in boxes if _fits(box, wide, high)]
    bound = math.ceil(sum(w * h for w, h, _ in fit) / (wide * high)) if fit else 0
    best: list[list[_Box]] | None = None
    for order in _orders(fit):
        found = _first_fit(order, wide, high)
        if best is None or _spread(found) < _spread(best):
            best = found
        if len(best) == bound:
            break
    sheets = tuple(_placed(one, wide, high, boxes) for one in best or ())
    return Packing(sheets, tuple(k for *_, k in boxes if boxes[k] not in fit), bound)


def _fits(box: _Box, wide: int, high: int) -> bool:
    return any(w <= wide and h <= high for w, h in (box[:2], box[1::-1]))


def _orders(boxes: Sequence[_Box]) -> Iterator[list[_Box]]:
    """Yield the boxes by area, longest side, shortest side and both together; upright or flat."""
    keys: tuple[Callable[[_Box], int], ...] = (
        lambda b: b[0] * b[1], lambda b: max(b[:2]), lambda b: min(b[:2]), lambda b: b[0] + b[1],
    )  # fmt: skip
    for flat in (True, False):
        turned = [_turned(b) if (b[0] < b[1]) == flat else b for b in boxes]
        for key in keys:
            yield sorted(turned, key=lambda b, key=key: (-key(b), b[2]))  # type: ignore[misc]


def _turned(box: _Box) -> _Box:
    return box[1], box[0], box[2]


def _spread(sheets: Sequence[Sequence[_Box]]) -> tuple[int, int]:
    """Return the number of sheets, then how full the emptiest is: an emptier one leaves more."""
    return len(sheets), min(sum(w * h for w, h, _ in sheet) for sheet in sheets)


def _first_fit(boxes: Sequence[_Box], wide: int, high: int) -> list[list[_Box]]:
    sheets: list[list[_Box]] = []
    for box in boxes:
        for sheet in sheets:
            way = next((w for w in (box, _turned(box)) if _corners([*sheet, w], wide, high)), None)
            if way is not None:
                sheet.append(way)
                break
        else:
            sheets.append([box if box[0] <= wide and box[1] <= high else _turned(box)])
    return sheets


def _corners(boxes: Sequence[_Box], wide: int, high: int) -> list[tuple[int, int]] | None:
    """Return where boxes lie on a sheet, or None if no place was found for all."""
    import rpack

    if sum(w * h for w, h, _ in boxes) > wide * high:
        return None
    try:
        found = rpack.pack([(w, h) for w, h, _ in boxes], max_width=wide, max_height=high)
    except rpack.PackingImpossibleError:
        return None
    return [(int(x), int(y)) for x, y in found]


def _placed(
    sheet: Sequence[_Box], wide: int, high: int, boxes: Sequence[_Box]
) -> tuple[Place, ...]:
    corners = _corners(sheet, wide, high) or []
    places = [
        Place(k, x / _PARTS, y / _PARTS, turned=(w, h, k) != boxes[k])
        for (w, h, k), (x, y) in zip(sheet, corners, strict=True)
    ]
    return tuple(sorted(places, key=lambda place: (place.y, place.x)))
