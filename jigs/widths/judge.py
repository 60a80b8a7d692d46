"""Widths that are already decided, judged on every size."""

from collections.abc import Sequence

from jigs.errors import Finding
from jigs.units import Mm, say
from jigs.widths.band import Band
from jigs.widths.choose import WidthPlan, range_of


def as_ordered(
    bands: Sequence[Band],
    aspect: float,
    widths: Sequence[tuple[Mm, Sequence[str]]],
    findings: Sequence[Finding] = (),
    unit: str = "in",
) -> WidthPlan:
    """Return the plan for widths given with the sizes each is meant for (`table/size`).

    A width that does not fit blocks; one outside the usual band is remarked.
    """
    ranges, remarks = [], list(findings)
    for width, keys in widths:
        members = [b for b in bands if b.key in set(keys)]
        if members:
            ranges.append(range_of(members, width, aspect))
            remarks += [remark for b in members if (remark := judged(b, width, unit))]
    return WidthPlan(tuple(ranges), tuple(bands), (), tuple(remarks))


def judged(one: Band, width: Mm, unit: str = "in") -> Finding | None:
    """Return what is to be said about a width on a size; None if it suits."""
    if width > one.room + 1e-6:
        says = (
            f"a print of {say(width, unit)} does not fit: {say(one.room, unit)} is the most "
            f"(limited by the {one.stops})"
        )
        return Finding(blocks=True, about=one.key, says=says)
    if width > one.most + 1e-6 or width < one.least - 1e-6:
        side = "wider" if width > one.most else "narrower"
        says = (
            f"a print of {say(width, unit)} is {side} than usual here "
            f"({say(one.least, unit)} to {say(one.most, unit)})"
        )
        return Finding(blocks=False, about=one.key, says=says)
    return None
