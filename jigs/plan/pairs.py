"""Plates that serve two prints of an order: which, for which sizes, and why not elsewhere."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from jigs.errors import BadInput, Finding, Place
from jigs.locations import LOCATIONS, Location, Seen
from jigs.names import safe_name
from jigs.order.order import Cutter, Transfer
from jigs.plan.jigs import broken, for_material, plate_cutting, sinking, slug, unique, unwritten
from jigs.plan.plan import JigPlan, TableFacts
from jigs.plan.prints import Site, stands
from jigs.plan.sizes import sizes_text
from jigs.styles import STYLES
from jigs.template import Template, Tolerance, Wish, shared, template
from jigs.widths import WidthPlan

#: The style that holds both transfers.
STYLE = "window"


@dataclass(frozen=True, slots=True)
class Wide:
    """A print with its widths, before it has jigs."""

    name: str
    location: Location
    where: tuple[Site, ...]
    plan: WidthPlan


@dataclass(frozen=True, slots=True)
class Shared:
    """The plates for two prints, the sizes they serve, and what is to be said."""

    jigs: tuple[JigPlan, ...]
    served: frozenset[str]
    """`table/size`: these need no window of their own."""
    findings: tuple[Finding, ...]


def must_match(one: Wide, other: Wide, place: Place) -> None:
    """Refuse two prints whose jigs do not seat on the same edge.

    Raises:
        BadInput: they do not.
    """
    if not alike(one.location, other.location):
        found = f"found {other.name!r}, a {other.location.title} print"
        these = [name for name, each in LOCATIONS if each != one.location]
        these = [name for name in these if alike(one.location, LOCATIONS.get(name))]
        allowed = (
            f"locations that can share a plate with {one.name!r}: {', '.join(these) or 'none'}"
        )
        raise BadInput(place, found, allowed)


def alike(one: Location, other: Location) -> bool:
    """Return whether jigs of two locations seat on one edge; a back's inside is the same edge."""
    back = {Seen.BACK, Seen.INSIDE_BACK}
    side = one.seen is other.seen or {one.seen, other.seen} == back
    return side and (one.seat, one.hangs, one.panel) == (other.seat, other.hangs, other.panel)


def plates(
    one: Wide,
    other: Wide,
    *,
    reference: str,
    unit: str,
    transfer: Transfer,
    cutter: Cutter,
    tables: Sequence[TableFacts],
) -> Shared:
    """Return the plates that serve two prints; sizes that have only one of them need none."""
    jigs: list[JigPlan] = []
    findings: list[Finding] = []
    served: set[str] = set()
    # The larger gives the opening its sides.
    one, other = sorted((one, other), key=_size, reverse=True)
    name = f"{one.name}-with-{other.name}"
    for bare in _templates(one, other, transfer, f"{reference} · {one.name} + {other.name}", unit):
        keys = [seat.key for seat in bare.seats]
        both = for_material(replace(bare, sizes=sizes_text(keys, tables)), cutter)
        about = f"{one.name} with {other.name}, {both.sizes}"
        says = STYLES.get(STYLE).objection(both)
        faults = () if says else broken(STYLE, both)
        if says or faults:
            reason = says or faults[0]
            findings.append(Finding(blocks=False, about=about, says=f"no plate for both: {reason}"))
            continue
        jigs.append(
            JigPlan(STYLE, unique(safe_name(f"{name}-{STYLE}-{slug(keys, tables)}"), jigs), both)
        )
        served.update(keys)
        remark = plate_cutting(STYLE, both, cutter).remark
        remarks = (sinking(both), remark, unwritten(STYLE, both))
        findings += [Finding(blocks=False, about=about, says=said) for said in remarks if said]
    if not jigs and not findings:
        says = "no size has both prints, so no plate serves both"
        findings.append(Finding(blocks=False, about=f"{one.name} with {other.name}", says=says))
    return Shared(tuple(jigs), frozenset(served), tuple(findings))


def _size(one: Wide) -> float:
    """Return the area of a print at its greatest width."""
    return max((each.width * each.height for each in one.plan.ranges), default=0.0)


def _templates(
    one: Wide, other: Wide, transfer: Transfer, reference: str, unit: str
) -> Iterator[Template]:
    """Yield the templates of the sizes that have both prints, by the widths they have them in."""
    first = {site.key: site for site in one.where}
    second = {site.key: site for site in other.where}
    for a in one.plan.ranges:
        for b in other.plan.ranges:
            keys = [key for key in a.sizes if key in set(b.sizes)]
            if not keys:
                continue
            # Sizes that hang alike are neighbours, whatever the garments' order.
            keys.sort(key=lambda key: round(first[key].placement.drop, 3))
            runs = shared(
                stands(one.location, [first[key] for key in keys]),
                Tolerance(),
                min(one.location.engaged, other.location.engaged),
                stands(other.location, [second[key] for key in keys]),
            )
            for run in runs:
                yield template(
                    run,
                    one.location,
                    width=a.width,
                    height=a.height,
                    trim=transfer.trim,
                    slip=transfer.slip,
                    sizes="",
                    reference=reference,
                    unit=unit,
                    beside=Wish(other.location, b.width, b.height),
                )
