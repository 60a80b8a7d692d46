"""One print of an order: how wide on which size, where, and with which jigs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from jigs.errors import Finding
from jigs.locations import LOCATIONS, Location, Placement, lacks, place
from jigs.locations._location import usual_width
from jigs.order.order import Press, Transfer
from jigs.plan.plan import Placed
from jigs.plan.sizes import Sized
from jigs.template import Stand, Template, Tolerance, film, shared, template, trade_off
from jigs.units import Mm, say
from jigs.widths import Band, WidthPlan, WidthRange, as_ordered, band, fewest
from jigs.widths.choose import on_step


@dataclass(frozen=True, slots=True)
class Site:
    """A location on one size."""

    sized: Sized
    placement: Placement

    @property
    def key(self) -> str:
        """`table/size`."""
        return self.sized.key


def sites(
    location: Location,
    sizes: Sequence[Sized],
    press: Press,
    drop: Mm | None = None,
    unit: str = "in",
) -> tuple[tuple[Site, ...], tuple[Finding, ...]]:
    """Return a location on every size that has it, and what is to be said of it.

    A finding blocks for each table that has no such place; others say what to mind at the press.
    """
    found: list[Site] = []
    said: list[Finding] = []
    platen = (press.platen_width, press.platen_height)
    for one in sizes:
        if lacks(location, one.flat):
            table = one.plan.measures.table
            said.append(Finding(blocks=True, about=table, says=_no_place(location, one, platen)))
        else:
            found.append(Site(one, place(location, one.flat, platen, drop)))
    return tuple(found), (*dict.fromkeys(said), *_lowered(found, unit), *_cautions(location, found))


def _has_room(location: Location, one: Sized, platen: tuple[Mm, Mm]) -> bool:
    if lacks(location, one.flat):
        return False
    return place(location, one.flat, platen).room(1.0).mm > 0


def _no_place(location: Location, one: Sized, platen: tuple[Mm, Mm]) -> str:
    others = [name for name, each in LOCATIONS if _has_room(each, one, platen)]
    article = "an" if one.block[0] in "aeiou" else "a"
    has = ", ".join(others)
    return f"{article} {one.block} has no place for a {location.title} print; it has: {has}"


def _lowered(where: Sequence[Site], unit: str) -> Iterator[Finding]:
    """Yield, once for each table, what its prints are hung lower than usual to clear."""
    tables: dict[tuple[str, str], list[Mm]] = {}
    for site in where:
        if site.placement.cleared:
            key = (site.sized.plan.measures.table, site.placement.cleared)
            tables.setdefault(key, []).append(site.placement.drop)
    for (table, over), drops in tables.items():
        least, most = say(min(drops), unit), say(max(drops), unit)
        drop = least if least == most else f"{least} to {most}"
        says = f"hung lower than usual, drop {drop}, to clear the {over}"
        yield Finding(blocks=False, about=table, says=says)


def _cautions(location: Location, where: Sequence[Site]) -> Iterator[Finding]:
    """Yield what to mind at the press, once for each table."""
    tables: dict[str, str] = {}
    for site in where:
        says = site.sized.flat.cautions.get(location.panel)
        if says is not None:
            tables.setdefault(site.sized.flat.measures.table, says)
    for table, says in tables.items():
        yield Finding(blocks=False, about=table, says=f"at the press: {says}")


def widths(
    location: Location,
    where: Sequence[Site],
    aspect: float,
    transfer: Transfer,
    *,
    wanted: Sequence[tuple[Mm, Sequence[str]]] = (),
    unit: str = "in",
    findings: Sequence[Finding] = (),
) -> WidthPlan:
    """Return the widths of a print: the fewest that suit, or the wanted ones, judged.

    `wanted` gives widths with the sizes (`table/size`) each is meant for.
    """
    bands: list[Band] = []
    remarks = list(findings)
    for site in where:
        measures = site.sized.flat.measures
        breadth = measures.breadth
        found, said = band(
            site.key,
            usual=usual_width(location, measures.age, breadth, aspect),
            bounds=(location.usual[0].at(measures.age), location.usual[1].at(measures.age)),
            room=site.placement.room(aspect),
            breadth=breadth,
            quantity=site.sized.quantity,
            unit=unit,
        )
        bands.append(found)
        # A width of the order's own is judged by itself, not against what would be usual.
        remarks += said if not wanted else ()
    if wanted:
        return as_ordered(bands, aspect, wanted, remarks, unit)
    plan = fewest(bands, aspect, transfer.step, remarks)
    return replace(plan, findings=(*plan.findings, *_off_step(plan, transfer.step, unit)))


def _off_step(plan: WidthPlan, step: Mm, unit: str) -> Iterator[Finding]:
    for one in plan.ranges:
        if not on_step(one.width, step):
            says = (
                f"no multiple of {say(step, unit)} suits {_these(one)}, so the width is "
                f"{say(one.width, unit)}"
            )
            yield Finding(blocks=False, about=", ".join(one.sizes), says=says)


def _these(one: WidthRange) -> str:
    return "this size" if len(one.sizes) == 1 else "these sizes together"


def placed(where: Sequence[Site], plan: WidthPlan) -> tuple[Placed, ...]:
    """Return the place and size of the print on every size that has a width."""
    by_key = {site.key: site for site in where}
    return tuple(
        Placed(key, by_key[key].placement.anchor, one.width, one.height)
        for one in plan.ranges
        for key in one.sizes
    )


def stands(location: Location, where: Sequence[Site]) -> list[Stand]:
    """Return what a jig finds on each size."""
    return [
        Stand(
            key=site.key,
            seam=site.sized.flat.seams[location.seat],
            drop=site.placement.drop,
            across=site.placement.anchor.x,
            hangs=location.hangs,
            garment=site.sized.block,
        )
        for site in where
    ]


def film_template(
    location: Location,
    where: Sequence[Site],
    width: WidthRange,
    transfer: Transfer,
    reference: str,
    unit: str,
) -> Template:
    """Return the template of all sizes that have one width, for a sheet laid on by eye.

    `sizes`, and the names of its seam lines, are left empty: only the caller knows the tables'
    titles.
    """
    members = [site for site in where if site.key in set(width.sizes)]
    return film(
        stands(location, members),
        location,
        width=width.width,
        height=width.height,
        trim=transfer.trim,
        slip=transfer.slip,
        sizes="",
        reference=reference,
        unit=unit,
    )


def templates(
    location: Location,
    where: Sequence[Site],
    width: WidthRange,
    transfer: Transfer,
    reference: str,
    unit: str,
    tolerance: Tolerance | None = None,
) -> list[Template]:
    """Return the templates of one width: the sizes that have it, in runs that share a jig.

    `sizes` of a template is left empty: only the caller knows the tables' titles.
    """
    members = [site for site in where if site.key in set(width.sizes)]
    # Neighbours share a jig: those that hang alike stand together, whatever the garments' order.
    members.sort(key=lambda site: round(site.placement.drop, 3))
    found = stands(location, members)
    runs = shared(found, tolerance or Tolerance(), location.engaged)
    trade = trade_off(found, tolerance or Tolerance(), location.engaged)
    made = (
        template(
            run,
            location,
            width=width.width,
            height=width.height,
            trim=transfer.trim,
            slip=transfer.slip,
            sizes="",
            reference=reference,
            unit=unit,
        )
        for run in runs
    )
    return [replace(one, trade=trade) for one in made]
