"""Which sizes share a jig: the fewest jigs, then the least errors, each with an edge of its own."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from jigs.template.edges import Edges, edges
from jigs.template.seat import Seat, Stand, Tolerance, seat, with_spread
from jigs.units import Mm

if TYPE_CHECKING:
    from jigs.template.edges import Numbers

#: Sizes up to which every way to part them is tried, not only into neighbours.
MOST_PARTED = 10
#: Jigs that the trade-off tells of.
_MOST_JIGS = 6
#: An edge is not worth a greater error than the least by this for being steadier.
STEADIER: Mm = 0.05
#: Heights are found to within this, so a jig must stay that far within the tolerance.
MARGIN: Mm = 0.005


@dataclass(frozen=True, slots=True)
class Run:
    """Sizes that share a jig, and the jig: an edge, and the print's place by it."""

    members: tuple[Stand, ...]
    jig: Stand
    """As if it were a size: its seam is the edge, its drop the print's distance from that."""
    engaged: Mm
    """The jig's edge lies against the seam over |x| up to this."""
    seats: tuple[Seat, ...]
    """One per member."""
    beside: "Run | None" = None
    """The same sizes and the same edge for the other print of a plate that serves two."""

    @property
    def drop(self) -> Mm:
        """The drop that its sizes want, or the middle of what they want."""
        wanted = [one.drop for one in self.members]
        return (min(wanted) + max(wanted)) / 2

    @property
    def worst(self) -> Mm:
        """Greatest error in height, either way."""
        return max(abs(one.height) for one in self.seats)


def shared(
    stands: Sequence[Stand],
    tolerance: Tolerance,
    engaged: float,
    beside: Sequence[Stand] = (),
) -> tuple[Run, ...]:
    """Return the fewest runs of sizes that share a jig each.

    A run may stand if some edge (`edges`) seats on all its sizes within the tolerance, the print's
    distance from it chosen so that the errors are alike both ways. Runs are of neighbours, by drop
    and collar; where others take fewer jigs, and there are no more than `MOST_PARTED` sizes, of
    any. Of all ways to part the sizes into as few, that with the least greatest error is taken,
    and of those the one with the least sum (dynamic programming, exact for the edges tried).
    A single size has its own edge, whatever its errors. `engaged` is the share of the narrowest
    member's half collar that an edge lies against at most, or less where a seam allows only less.

    `beside` is what the same sizes, in the same order, want of a second print on the same plate:
    both prints must then be within the tolerance.

    Raises:
        ValueError: there are no sizes, or those beside are others.
    """
    if not stands:
        raise ValueError("no sizes, no jigs")
    if beside and [(a.key, a.seam) for a in stands] != [(b.key, b.seam) for b in beside]:
        raise ValueError("two prints on one plate are on the same seams of the same sizes")
    choice = _Choice(tuple(stands), tolerance, engaged, tuple(beside))
    groups = _neighbours(choice)
    if len(groups) > 2 and len(stands) <= MOST_PARTED:
        others = _any(choice)
        groups = others if len(others) < len(groups) else groups
    return tuple(choice.run(group) for group in sorted(groups))


def trade_off(
    stands: Sequence[Stand], tolerance: Tolerance, engaged: float
) -> tuple[tuple[int, Mm], ...]:
    """Return the least greatest error in height with one jig, with two, and so on.

    The tolerance in height is left aside, those across and in tilt are kept; a number of jigs that
    does not do is left out. Runs are of neighbours.
    """
    choice = _Choice(tuple(stands), replace(tolerance, height=1e6), engaged)
    order, count = choice.order, len(stands)
    found = []
    # least[k]: the least greatest error of the first k sizes with so many jigs.
    least: list[Mm | None] = [0.0, *[None] * count]
    for jigs in range(1, min(count, _MOST_JIGS) + 1):
        more: list[Mm | None] = [None] * (count + 1)
        for end in range(jigs, count + 1):
            for start in range(jigs - 1, end):
                before, own = least[start], choice.worst(_mask(order[start:end]))
                known = more[end]
                if before is not None and own is not None:
                    worst = max(before, own)
                    more[end] = worst if known is None else min(worst, known)
        least = more
        whole = least[count]
        if whole is not None:
            found.append((jigs, whole))
            if whole < MARGIN:
                break
    return tuple(found)


def _mask(sizes: Sequence[int]) -> int:
    return sum(1 << k for k in sizes)


class _Choice:
    """What every group of sizes costs, and the jig it would have; a group is a set of bits."""

    def __init__(
        self,
        stands: tuple[Stand, ...],
        tolerance: Tolerance,
        engaged: float,
        beside: tuple[Stand, ...] = (),
    ) -> None:
        self.stands, self.tolerance, self.engaged = stands, tolerance, engaged
        self.prints = (stands, beside) if beside else (stands,)
        self._known: dict[int, tuple[Mm, int] | None] = {}

    @cached_property
    def edges(self) -> Edges:
        """The edges that are tried."""
        return edges(self.stands, self.engaged)

    @cached_property
    def order(self) -> tuple[int, ...]:
        """The sizes as neighbours: by drop, and by the width and depth of their collars."""

        def key(k: int) -> tuple[tuple[float, ...], float, float, int]:
            one = self.stands[k]
            half, drops = one.seam.half, tuple(round(stands[k].drop, 3) for stands in self.prints)
            return drops, one.half_width, half.a.y if half else 0.0, k

        return tuple(sorted(range(len(self.stands)), key=key))

    def sizes(self, group: int) -> list[int]:
        """Return which sizes a group has."""
        return [k for k in range(len(self.stands)) if group >> k & 1]

    def worst(self, group: int) -> Mm | None:
        """Return the greatest error of a group's jig; None if it can have none."""
        found = self._best(group)
        return None if found is None else found[0]

    def _best(self, group: int) -> tuple[Mm, int] | None:
        if group not in self._known:
            self._known[group] = self._found(self.sizes(group))
        return self._known[group]

    def _found(self, sizes: Sequence[int]) -> tuple[Mm, int] | None:
        """Return the least greatest error, and an edge that has it or hardly more."""
        import numpy as np

        if len(sizes) == 1:
            return 0.0, self.edges.own[sizes[0]]
        for stands in self.prints:
            across = [stands[k].across for k in sizes]
            if (max(across) - min(across)) / 2 > self.tolerance.side:
                return None
        tilts = self.edges.tilts[:, sizes].max(axis=1)
        every = [self._heights(stands)[:, sizes] for stands in self.prints]
        spreads = [(heights.max(axis=1) - heights.min(axis=1)) / 2 for heights in every]
        worst = np.max(spreads, axis=0)
        fits = (worst <= self.tolerance.height - MARGIN) & (tilts <= self.tolerance.tilt)
        if not fits.any():
            return None
        least = float(worst[fits].min())
        steady = np.flatnonzero(fits & (worst <= least + STEADIER))
        # Of edges about as good the one that turns least.
        best = int(steady[np.lexsort((steady, worst[steady], tilts[steady].round(6)))[0]])
        return least, best

    def _heights(self, stands: tuple[Stand, ...]) -> "Numbers":
        """Return how much too low one of the prints is: the drop it wants is all that differs."""
        import numpy as np

        wanted = np.array([one.drop for one in stands])
        lower = np.array([one.drop for one in self.stands]) - wanted
        heights: Numbers = self.edges.heights + (lower if stands[0].hangs else -lower)
        return heights

    def run(self, group: int) -> Run:
        """Return a group with its jig."""
        found = self._best(group)
        if found is None:
            raise ValueError("these sizes share no jig")
        runs = [self._run(self.sizes(group), found[1], stands) for stands in self.prints]
        return replace(runs[0], beside=runs[1]) if len(runs) > 1 else runs[0]

    def _run(self, sizes: Sequence[int], edge: int, stands: tuple[Stand, ...]) -> Run:
        """Return the jig of some sizes for one of the prints."""
        members = tuple(stands[k] for k in sizes)
        if len(sizes) == 1:
            jig = members[0]
        else:
            heights, first = self._heights(stands)[edge, sizes], members[0]
            middle = float(heights.max() + heights.min()) / 2
            across = [one.across for one in members]
            jig = replace(
                first,
                key="",
                seam=replace(first.seam, half=self.edges.halves[edge]),
                drop=-middle if first.hangs else middle,
                across=(min(across) + max(across)) / 2,
            )
        engaged = self.edges.engaged[edge]
        seats = (with_spread(seat(jig, one, engaged), jig, one, engaged) for one in members)
        return Run(members, jig, engaged, tuple(seats))


def _neighbours(choice: _Choice) -> list[int]:
    """Return the fewest groups of neighbours, of those the least errors."""
    order = choice.order
    spans = [
        (start, end, _mask(order[start:end]))
        for end in range(1, len(order) + 1)
        for start in range(end)
    ]

    def parted(limit: Mm, add: bool) -> tuple[int, Mm, tuple[int, ...]]:  # noqa: FBT001
        # best[n]: groups, their errors together, and the groups, for the first n sizes.
        best: dict[int, tuple[int, Mm, tuple[int, ...]]] = {0: (0, 0.0, ())}
        for start, end, group in spans:
            worst = choice.worst(group)
            if worst is None or worst > limit or start not in best:
                continue
            count, before, groups = best[start]
            total = before + worst if add else max(before, worst)
            one = (count + 1, total, (*groups, group))
            best[end] = min(best.get(end, one), one, key=lambda each: each[:2])
        return best[len(order)]

    return list(parted(parted(float("inf"), add=False)[1], add=True)[2])


def _any(choice: _Choice) -> list[int]:
    """Return the fewest groups of any sizes, of those the least greatest error."""
    every = (1 << len(choice.stands)) - 1
    best: dict[int, tuple[int, Mm, tuple[int, ...]]] = {0: (0, 0.0, ())}
    for mask in range(1, every + 1):
        lowest = mask & -mask
        rest = group = mask
        options = []
        while group:
            # Each group has the first size that is left.
            if group & lowest:
                worst = choice.worst(group)
                if worst is not None:
                    count, before, groups = best[rest ^ group]
                    options.append((count + 1, max(before, worst), (*groups, group)))
            group = (group - 1) & mask
        best[mask] = min(options, key=lambda each: each[:2])
    return list(best[every][2])
