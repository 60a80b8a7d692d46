"""The fewest widths that suit every size, and among those the best: exact.

Sizes are points on a line, their targets, each with an interval, its band. For a chosen set of
widths a size takes the nearest one below its target or the nearest above it, if in its band; so
the best set is found by dynamic programming over the widths in rising order. Candidates are the
multiples of the shop's step and, for bands too narrow to hold one, the ends of the bands: some
smallest set of stabbing points consists of right ends of intervals (the classical greedy proof).
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from jigs.errors import Finding
from jigs.units import Mm
from jigs.widths.band import SMALLEST, Band

_SLACK: Mm = 1e-6


@dataclass(frozen=True, slots=True)
class WidthRange:
    """Sizes that share one width."""

    sizes: tuple[str, ...]
    """`table/size`, in the order the bands were given."""
    width: Mm
    height: Mm
    quantity: int


@dataclass(frozen=True, slots=True)
class WidthPlan:
    """The widths of one print: which sizes share which, and what was weighed."""

    ranges: tuple[WidthRange, ...]
    bands: tuple[Band, ...]
    trade: tuple[tuple[int, float], ...]
    """Number of widths, and how far the prints would be from their targets (rms share)."""
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _Cost:
    """What a choice costs, compared in this order."""

    off_step: int
    squares: float

    def plus(self, other: "_Cost") -> "_Cost":
        return _Cost(self.off_step + other.off_step, self.squares + other.squares)

    def key(self) -> tuple[int, float]:
        return (self.off_step, self.squares)


def fewest(
    bands: Sequence[Band], aspect: float, step: Mm, findings: Sequence[Finding] = ()
) -> WidthPlan:
    """Return the plan with the fewest widths such that each usable size has one in its band.

    Among those it has the fewest widths that are no multiple of the step, and then the least
    sum over sizes of quantity × ((width − target) / target)² over the candidates; a width off
    the step is then moved to the best place for the sizes it serves. Sizes without any usable
    width are left out of the ranges; a finding of theirs says so.

    Raises:
        ValueError: the step or the aspect is not positive.
    """
    if not step > 0 or not aspect > 0:
        raise ValueError("the step and the aspect must be positive")
    usable = [b for b in bands if b.usable]
    if not usable:
        return WidthPlan((), tuple(bands), (), tuple(findings))
    parted = {
        count: _assigned(usable, widths, step)
        for count, widths in _best_by_count(usable, step).items()
    }
    ranges = [range_of(group, width, aspect) for width, group in parted[min(parted)]]
    trade = tuple((count, _rms(parted[count])) for count in sorted(parted))
    return WidthPlan(tuple(ranges), tuple(bands), trade, tuple(findings))


def range_of(group: Sequence[Band], width: Mm, aspect: float) -> WidthRange:
    """Return the range of sizes that share a width."""
    return WidthRange(
        sizes=tuple(b.key for b in group),
        width=width,
        height=width / aspect,
        quantity=sum(b.quantity for b in group),
    )


def _best_by_count(bands: list[Band], step: Mm) -> dict[int, tuple[Mm, ...]]:
    """Return the best widths for each possible number of them, up to one more than the least."""
    widths = candidates(bands, step)
    ordered = sorted(bands, key=lambda b: b.target)

    @cache
    def between(a: int, b: int) -> _Cost | None:
        """Return the cost of the targets in (widths[a], widths[b]]; None if a size is lost."""
        low = widths[a] if a >= 0 else -math.inf
        high = widths[b] if b < len(widths) else math.inf
        total = 0.0
        for one in ordered:
            if low < one.target <= high:
                paid = min(_miss(one, low), _miss(one, high))
                if math.isinf(paid):
                    return None
                total += paid
        return _Cost(0, total)

    found: dict[int, tuple[Mm, ...]] = {}
    # last[j]: the cheapest choice of n widths that ends with candidate j.
    last: dict[int, tuple[_Cost, tuple[int, ...]]] = {-1: (_Cost(0, 0.0), ())}
    for count in range(1, len(bands) + 1):
        last = _one_more(last, widths, step, between)
        closed = [
            (cost.plus(rest), chain)
            for j, (cost, chain) in last.items()
            if (rest := between(j, len(widths))) is not None
        ]
        if closed:
            _, chain = min(closed, key=lambda one: (one[0].key(), one[1]))
            found[count] = tuple(widths[j] for j in chain)
        if len(found) == 2 or not last:
            break
    return found


def _one_more(
    last: dict[int, tuple[_Cost, tuple[int, ...]]],
    widths: Sequence[Mm],
    step: Mm,
    between: Callable[[int, int], _Cost | None],
) -> dict[int, tuple[_Cost, tuple[int, ...]]]:
    following: dict[int, tuple[_Cost, tuple[int, ...]]] = {}
    for j, (cost, chain) in last.items():
        for k in range(j + 1, len(widths)):
            paid = between(j, k)
            if paid is None:
                continue
            total = cost.plus(paid).plus(_Cost(0 if on_step(widths[k], step) else 1, 0.0))
            if k not in following or total.key() < following[k][0].key():
                following[k] = (total, (*chain, k))
    return following


def candidates(bands: Sequence[Band], step: Mm) -> tuple[Mm, ...]:
    """Return the widths worth trying, rising: multiples of the step in a band, band ends."""
    low, high = min(b.least for b in bands), max(b.most for b in bands)
    first = max(math.ceil((low - _SLACK) / step), math.ceil(SMALLEST / step))
    steps = [k * step for k in range(first, math.floor((high + _SLACK) / step) + 1)]
    ends = [end for b in bands for end in (b.least, b.most) if not on_step(end, step)]
    return tuple(sorted({*steps, *ends}))


def on_step(width: Mm, step: Mm) -> bool:
    """Return whether a width is a multiple of the step."""
    return abs(width / step - round(width / step)) * step <= _SLACK


def inside(width: Mm, one: Band) -> bool:
    """Return whether a width is in a band."""
    return one.least - _SLACK <= width <= one.most + _SLACK


def _miss(one: Band, width: Mm) -> float:
    """Return what a width costs on a size, infinite outside its band."""
    if not inside(width, one):
        return math.inf
    return one.quantity * ((width - one.target) / one.target) ** 2


def _rms(parted: Sequence[tuple[Mm, list[Band]]]) -> float:
    """Return how far prints are from their targets: the root mean square of the shares."""
    squares = math.fsum(
        b.quantity * (width / b.target - 1) ** 2 for width, group in parted for b in group
    )
    return math.sqrt(squares / sum(b.quantity for _, group in parted for b in group))


def _assigned(bands: Sequence[Band], widths: Sequence[Mm], step: Mm) -> list[tuple[Mm, list[Band]]]:
    """Return each width with the sizes it serves; a width off the step is centred on them."""
    groups: dict[Mm, list[Band]] = {width: [] for width in widths}
    for one in bands:
        groups[min(widths, key=lambda width: (_miss(one, width), width))].append(one)
    made = []
    for width, group in groups.items():
        if not group:
            continue
        if on_step(width, step):
            made.append((width, group))
            continue
        # The least of Σ q (w/t − 1)² is at Σ(q/t) / Σ(q/t²), or at the nearest end of the bands.
        best = sum(b.quantity / b.target for b in group) / sum(
            b.quantity / b.target**2 for b in group
        )
        low, high = max(b.least for b in group), min(b.most for b in group)
        made.append((min(max(best, low), high), group))
    return made
