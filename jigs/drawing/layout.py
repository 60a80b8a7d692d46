"""How a drawing is cut into the fewest tiles, and where the cuts harm least.

      0        e1          e2     size       edges across: e1 and e2 are joins
    0 +--------+-----------+------+
      |   A1   |    A2     |  A3  |          a tile between two joins shows at most `inner` of
   e1 +--------+-----------+------+          the drawing, one at an end at most `outer`, for it
      |   B1   | (nothing) |  B3  |          needs an overlap on one side only; a tile on which
 size +--------+-----------+------+          nothing is drawn is no page

First the grids of full pitch are tried at every millimetre of offset, for the fewest pages; then
each join is moved within the slack to where it harms least, by dynamic programming.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from jigs.drawing.ground import Ground, Side, clear
from jigs.units import Mm

#: A tile shows at least so much of the drawing beyond the overlap: a narrower strip is hard to
#: cut and to tape (common practice, no source).
LEAST: Mm = 12.0
#: How much it harms to move a join from where the tiles would be even by the size of a tile:
#: less than a word cut through, so that evenness decides between places that are alike.
_UNEVEN = 6.0
#: Squares and floats meet at whole millimetres; a hair more is no longer edge.
_HAIR = 1e-6

Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Reach:
    """How much of a drawing a tile can show one way, between two joins and at an end."""

    whole: Mm
    """What one page shows where there is no join."""
    overlap: Mm

    @property
    def inner(self) -> Mm:
        """The most between two joins."""
        return self.whole - self.overlap

    @property
    def outer(self) -> Mm:
        """The most between an end of the drawing and a join."""
        return self.whole - self.overlap / 2

    @property
    def least(self) -> Mm:
        """The least between an end of the drawing and a join, where it can be had."""
        return min(LEAST + self.overlap / 2, self.inner / 2)

    def count(self, size: Mm) -> int:
        """Return the fewest tiles that show a size."""
        if size <= self.whole:
            return 1
        return math.ceil((size - self.overlap) / self.inner - 1e-9)

    def even(self, size: Mm, count: int) -> tuple[Mm, ...]:
        """Return the edges where all tiles leave the same share of their pages empty."""
        if count == 1:
            return (0.0, size)
        share = size / (2 * self.outer + (count - 2) * self.inner)
        joins = (share * (self.outer + k * self.inner) for k in range(count - 1))
        return (0.0, *joins, size)


@dataclass(frozen=True, slots=True)
class Layout:
    """Where a drawing is cut, measured from its box's top left corner, and which tiles exist."""

    across: tuple[Mm, ...]
    """The tiles' true edges from left to right, both ends of the drawing among them."""
    down: tuple[Mm, ...]
    pages: tuple[Cell, ...]
    """Row and column of each tile that is a page, row by row."""
    harm: float
    """How much the joins harm what is drawn: words, long lines, the centre line."""


def layout(ground: Ground, across: Reach, down: Reach) -> Layout:
    """Return the tiles of a drawing: the fewest pages, then joins where they harm least."""
    edges_x, edges_y, blank = _fewest(ground, across, down)
    edges_x = _moved(ground.across, across, edges_x, _strips(ground.down, edges_y, blank, turn=0))
    edges_y = _moved(ground.down, down, edges_y, _strips(ground.across, edges_x, blank, turn=1))
    found = _blank(ground, edges_x, edges_y)
    rows, columns = len(edges_y) - 1, len(edges_x) - 1
    if not _hangs_together(rows, columns, found):
        found = blank
    cells = [(row, column) for row in range(rows) for column in range(columns)]
    harm = math.fsum(
        side.harm_at(join)
        for side, edges in ((ground.across, edges_x), (ground.down, edges_y))
        for join in edges[1:-1]
    )
    return Layout(edges_x, edges_y, tuple(cell for cell in cells if cell not in found), harm)


def _fewest(
    ground: Ground, across: Reach, down: Reach
) -> tuple[tuple[Mm, ...], tuple[Mm, ...], frozenset[Cell]]:
    """Return the edges both ways with the fewest pages, and the cells that are no pages."""
    wide, tall = ground.across.size, ground.down.size
    columns, rows = across.count(wide), down.count(tall)
    fewest = columns * rows
    best = across.even(wide, columns), down.even(tall, rows), frozenset[Cell]()
    if fewest < 3:
        return best
    least_harm = math.inf
    downs = list(_pitched(ground.down, down))
    # Along straight sides of a plate, strips at many offsets are alike.
    known: dict[int, dict[int, tuple[int, ...]]] = {}
    for xs in _pitched(ground.across, across):
        strips = [ground.across.strip(*pair) for pair in pairwise(xs)]
        for bits in strips:
            if bits not in known:
                known[bits] = _clear_rows(bits, downs, tall, down)
        for index in sorted({index for bits in strips for index in known[bits]}):
            ys = downs[index]
            cells = [(row, column) for column, bits in enumerate(strips)
                     for row in known[bits].get(index, ())]  # fmt: skip
            pages = (len(xs) - 1) * (len(ys) - 1) - len(cells)
            if pages > fewest or (pages == fewest and not best[2]):
                continue
            blank = frozenset(cells)
            harm = math.fsum(
                (*map(ground.across.harm_at, xs[1:-1]), *map(ground.down.harm_at, ys[1:-1]))
            )
            better = pages < fewest or harm < least_harm - _HAIR
            if better and _hangs_together(len(ys) - 1, len(xs) - 1, blank):
                fewest, least_harm, best = pages, harm, (xs, ys, blank)
    return best


def _clear_rows(
    bits: int, downs: Sequence[tuple[Mm, ...]], tall: Mm, down: Reach
) -> dict[int, tuple[int, ...]]:
    """Return the tiles of a strip that are clear, for each of the grids where there are any."""
    if not _may_be_clear(bits, math.ceil(tall), down):
        return {}
    rows = (
        tuple(row for row, pair in enumerate(pairwise(ys)) if clear(bits, *pair)) for ys in downs
    )
    return {index: found for index, found in enumerate(rows) if found}


def _pitched(side: Side, reach: Reach) -> Iterator[tuple[Mm, ...]]:
    """Yield the edges of every grid of full pitch, by the millimetre, that leaves no sliver."""
    if side.size <= reach.whole:
        yield (0.0, side.size)
        return
    starts = [*range(math.ceil(reach.least), math.floor(reach.outer) + 1), reach.outer]
    for start in dict.fromkeys(float(one) for one in starts):
        joins = [start]
        while side.size - joins[-1] > reach.outer + _HAIR:
            joins.append(joins[-1] + reach.inner)
        if side.size - joins[-1] >= reach.least - _HAIR:
            yield (0.0, *joins, side.size)


def _may_be_clear(bits: int, size: int, reach: Reach) -> bool:
    """Return whether a tile somewhere along a strip may be clear, wherever the joins are."""
    if not bits:
        return True
    lowest, highest = (bits & -bits).bit_length() - 1, bits.bit_length() - 1
    if lowest > reach.least - 1 or size - highest > reach.least - 1:
        return True
    # What is left of the gaps when they are narrowed by a tile's length, less the rounding.
    narrowed, long = bits, 1
    while long < reach.inner:
        step = min(long, math.ceil(reach.inner) - long) or 1
        narrowed |= narrowed << step
        long += step
    inside = (1 << highest + 1) - 1
    return narrowed & inside >> lowest << lowest != inside >> lowest << lowest


def _blank(ground: Ground, xs: Sequence[Mm], ys: Sequence[Mm]) -> frozenset[Cell]:
    strips = [ground.across.strip(*pair) for pair in pairwise(xs)]
    return frozenset(
        (row, column)
        for row, (start, end) in enumerate(pairwise(ys))
        for column, bits in enumerate(strips)
        if clear(bits, start, end)
    )


def _hangs_together(rows: int, columns: int, blank: frozenset[Cell]) -> bool:
    """Return whether every page shares an edge with the others: only then can all be joined."""
    pages = {(r, c) for r in range(rows) for c in range(columns)} - blank
    if not pages:
        return False
    reached, edge = set(), [min(pages)]
    while edge:
        row, column = edge.pop()
        reached.add((row, column))
        beside = ((row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column))
        edge += [one for one in beside if one in pages and one not in reached]
    return reached == pages


def _strips(
    other: Side, edges: Sequence[Mm], blank: frozenset[Cell], *, turn: int
) -> dict[int, int]:
    """Return what must stay clear: for each tile one way, what its blank cells lie on, as bits."""
    found: dict[int, int] = {}
    for cell in blank:
        beside, index = (cell[0], cell[1]) if turn == 0 else (cell[1], cell[0])
        bits = other.strip(edges[beside], edges[beside + 1])
        found[index] = found.get(index, 0) | bits
    return found


def _moved(
    side: Side, reach: Reach, edges: tuple[Mm, ...], blank: dict[int, int]
) -> tuple[Mm, ...]:
    """Return the edges with the joins where they harm least; blank tiles stay blank."""
    count = len(edges) - 1
    if count == 1:
        return edges
    even = reach.even(side.size, count)

    # By place of the last join so far: the harm of all, and the edges.
    known: dict[Mm, tuple[float, tuple[Mm, ...]]] = {0.0: (0.0, (0.0,))}
    for index in range(count):
        places = [side.size] if index == count - 1 else _places(index, side, reach, edges, even)
        most = (reach.outer if index in {0, count - 1} else reach.inner) + _HAIR
        starts, ways = list(known), list(known.values())
        known = {}
        for place in places:
            first = bisect_left(starts, place - most)
            last = bisect_right(starts, place - reach.least + _HAIR)
            near = ways[first:last]
            if index in blank:
                near = [way for way in near if clear(blank[index], way[1][-1], place)]
            if near:
                harm, before = min(near)
                known[place] = (harm + _cost(index, place, side, reach, even), (*before, place))
    return known[side.size][1] if side.size in known else edges


def _places(
    index: int, side: Side, reach: Reach, edges: Sequence[Mm], even: Sequence[Mm]
) -> list[Mm]:
    """Return where the join after a tile may be: by the millimetre, even, or where it was."""
    left = len(edges) - 3 - index
    first = side.size - reach.outer - left * reach.inner
    last = reach.outer + index * reach.inner
    whole = range(math.ceil(first), math.floor(last) + 1)
    return sorted({*map(float, whole), even[index + 1], edges[index + 1]})


def _cost(index: int, place: Mm, side: Side, reach: Reach, even: Sequence[Mm]) -> float:
    if index == len(even) - 2:
        return 0.0
    return side.harm_at(place) + _UNEVEN * ((place - even[index + 1]) / reach.inner) ** 2
