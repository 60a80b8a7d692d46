"""Which sizes share a jig: runs of neighbouring sizes, each seated within the tolerance."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from jigs.template.seat import Seat, Stand, Tolerance, seat, with_spread
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class Run:
    """Sizes that share a jig, and the size whose edge it has."""

    members: tuple[Stand, ...]
    lead: Stand
    engaged: Mm
    """The jig's edge lies against the seam over |x| up to this."""
    seats: tuple[Seat, ...]
    """One per member."""

    @property
    def worst(self) -> Mm:
        """Greatest error in height, either way."""
        return max(abs(one.height) for one in self.seats)


def shared(stands: Sequence[Stand], tolerance: Tolerance, engaged: float) -> tuple[Run, ...]:
    """Return the fewest runs of neighbouring sizes, in the given order, that share a jig each.

    A run may stand if some member's own edge seats on all of them within the tolerance; it takes
    the edge with the least worst error in height. Of all ways to part the sizes into as few runs
    the one with the least sum of worst errors is taken (dynamic programming over the ends, exact).
    `engaged` is the share of the narrowest member's half collar that the edge lies against, or
    less where a seam allows only less.

    Raises:
        ValueError: there are no sizes.
    """
    if not stands:
        raise ValueError("no sizes, no jigs")
    # best[n]: runs, their worst errors together, and the runs, for the first n sizes.
    best: list[tuple[int, Mm, tuple[Run, ...]]] = [(0, 0.0, ())]
    for end in range(1, len(stands) + 1):
        options = []
        for start in range(end):
            run = _best(stands[start:end], tolerance, engaged)
            if run is not None:
                count, worst, before = best[start]
                options.append((count + 1, worst + run.worst, (*before, run)))
        best.append(min(options, key=lambda one: one[:2]))
    return tuple(_with_spread(run) for run in best[-1][2])


def _best(members: Sequence[Stand], tolerance: Tolerance, engaged: float) -> Run | None:
    """Return the best run of exactly these sizes; None if no member's edge seats on all."""
    found = [
        run
        for run in _run(members, engaged)
        if len(members) == 1 or all(one.within(tolerance) for one in run.seats)
    ]
    if not found:
        return None
    return min(found, key=lambda run: (run.worst, run.members.index(run.lead)))


def _run(members: Sequence[Stand], share: float) -> list[Run]:
    """Return the run of some sizes, once for each member's edge."""
    engaged = min(min(share, one.seam.engaged) * one.half_width for one in members)
    return [
        Run(tuple(members), lead, engaged, tuple(seat(lead, one, engaged) for one in members))
        for lead in members
    ]


def _with_spread(run: Run) -> Run:
    pairs = zip(run.seats, run.members, strict=True)
    return replace(
        run, seats=tuple(with_spread(one, run.lead, on, run.engaged) for one, on in pairs)
    )
