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


def greedy(stands: Sequence[Stand], tolerance: Tolerance, engaged: float) -> tuple[Run, ...]:
    """Return runs of sizes in the given order, each as long as its tolerance allows.

    A run grows while some member's own edge seats on all of them within the tolerance; it takes
    the edge with the least worst error in height. `engaged` is the share of the narrowest
    member's half collar that the edge lies against.

    Raises:
        ValueError: there are no sizes.
    """
    if not stands:
        raise ValueError("no sizes, no jigs")
    runs = []
    start = 0
    while start < len(stands):
        best = _run(stands[start : start + 1], engaged)[0]
        end = start + 1
        while end < len(stands):
            longer = [
                run
                for run in _run(stands[start : end + 1], engaged)
                if all(one.within(tolerance) for one in run.seats)
            ]
            if not longer:
                break
            best = min(longer, key=lambda run: (run.worst, run.members.index(run.lead)))
            end += 1
        runs.append(_with_spread(best))
        start = end
    return tuple(runs)


def _run(members: Sequence[Stand], share: float) -> list[Run]:
    """Return the run of some sizes, once for each member's edge."""
    engaged = share * min(one.half_width for one in members)
    return [
        Run(tuple(members), lead, engaged, tuple(seat(lead, one, engaged) for one in members))
        for lead in members
    ]


def _with_spread(run: Run) -> Run:
    pairs = zip(run.seats, run.members, strict=True)
    return replace(
        run, seats=tuple(with_spread(one, run.lead, on, run.engaged) for one, on in pairs)
    )
