"""From an order and what it names to a plan; nothing is read and nothing written here."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from jigs.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.turned import turned
from jigs.drawing.tile import takes
from jigs.errors import BadInput, Finding, Place, collecting, raise_all
from jigs.locations import LOCATIONS
from jigs.order.materials import never
from jigs.order.order import Cutter, GarmentLine, Order, Print
from jigs.plan.holding import Use, holding
from jigs.plan.jigs import jig_plans
from jigs.plan.loading import loads
from jigs.plan.overlaps import overlaps, team_overlaps
from jigs.plan.pairs import Shared, Wide, must_match, plates
from jigs.plan.plan import Garment, Plan, PrintPlan, Shop, TableFacts
from jigs.plan.prints import placed, sites, widths
from jigs.plan.sizes import Sized, facts, sized, sizes_text
from jigs.plan.team import team_plan
from jigs.plan.wanted import asked, wanted
from jigs.tables.table import SizeTable
from jigs.team.roster import Player
from jigs.widths import WidthPlan


@dataclass(frozen=True, slots=True)
class Job:
    """An order with everything it names: size tables by name, artwork by file and what is asked."""

    order: Order
    file: str
    tables: dict[str, SizeTable]
    artwork: dict[tuple[str, Asked], Artwork]
    players: tuple[Player, ...] = ()
    """The list of the order's team."""
    remarks: tuple[Finding, ...] = ()
    """What is to be said of the list."""
    noted: tuple[Finding, ...] = ()
    """What is to be said of the printer's profile."""


def build(job: Job, tell: Callable[[str], None] = lambda _: None) -> Plan:
    """Return the plan of an order; `tell` is told each print as it is begun.

    Raises:
        BadInput: a size or width of the order does not go with its tables.
    """
    order, paper = job.order, job.order.paper
    if not takes(paper.width, paper.height, paper.margin, paper.overlap):
        found = f"{paper.name} with this margin and overlap leaves no room for tiles"
        allowed = "a larger paper, or an overlap above 0 and below half of what is printed"
        raise BadInput(Place(job.file, "paper"), found, allowed)
    lines = _lines(job)
    tables = list({table.name: table for table in job.tables.values()}.values())
    known = facts(tables)
    findings: list[Finding] = [*job.noted, *dangers(order.cutter)]
    findings += [warning for table in tables for warning in table.warnings]
    wide: list[_Wide] = []
    for index, wish in enumerate(order.prints):
        tell(wish.name)
        wide.append(_wide(job, wish, lines, Place(job.file, "prints").at(index)))
    pairs = _pairs(job, wide, known)
    prints: list[PrintPlan] = []
    for one in wide:
        made, said = _print(job, one, known, pairs.get(one.wish.name))
        prints.append(made)
        findings += said
    findings += overlaps(prints)
    team = None
    if order.team is not None:
        tell("team")
        place = Place(job.file, "team")
        team = team_plan(order, order.team, job.players, lines, known, place)
        about_team = (*job.remarks, *team.findings, *team_overlaps(prints, team))
        team = replace(team, findings=about_team)
    drawn = [one for sizes in lines.values() for one in sizes]
    return Plan(
        reference=order.reference,
        customer=order.customer,
        units=order.units,
        shop=Shop(order.paper, order.printer, order.cutter, order.press, order.transfer),
        tables=known,
        sizes=tuple({one.key: one.plan for one in drawn}.values()),
        garments=tuple(
            Garment(
                name=line.name,
                table=job.tables[line.table].name,
                colour=line.colour,
                colour_hex=line.colour_hex,
                quantities=tuple((one.key, one.quantity) for one in lines[line.name]),
            )
            for line in order.garments
        ),
        prints=tuple(prints),
        findings=tuple(findings),
        team=team,
    )


def _lines(job: Job) -> dict[str, tuple[Sized, ...]]:
    """Return the sizes of each garment line, in the table's order."""
    problems: list[BadInput] = []
    lines: dict[str, tuple[Sized, ...]] = {}
    named: dict[str, SizeTable] = {}
    for index, line in enumerate(job.order.garments):
        place, table = Place(job.file, "garments").at(index), job.tables[line.table]
        if named.setdefault(table.name, table) != table:
            found = f"two different tables of the order are called {table.name!r}"
            problems.append(BadInput(place.at("table"), found, "rename your own table file"))
        lines[line.name] = tuple(_sizes(table, line, place.at("sizes"), problems))
    raise_all(problems)
    return lines


def _sizes(
    table: SizeTable, line: GarmentLine, place: Place, problems: list[BadInput]
) -> Iterator[Sized]:
    pieces: dict[str, int] = {}
    for name, quantity in line.quantities:
        with collecting(problems):
            size = table.size(name, place.at(name)).size
            pieces[size] = pieces.get(size, 0) + quantity
    for given in table.sizes:
        if given.size in pieces:
            yield sized(table, given, pieces[given.size])


@dataclass(frozen=True, slots=True)
class _Wide:
    """A print with its widths, before it has jigs."""

    wish: Print
    place: Place
    artwork: Artwork
    tables: list[SizeTable]
    wide: Wide


def _wide(job: Job, wish: Print, lines: dict[str, tuple[Sized, ...]], place: Place) -> _Wide:
    order, location = job.order, LOCATIONS.get(wish.location, place.at("location"))
    artwork = turned(job.artwork[wish.artwork, asked(wish)], wish.turn)
    tables = _tables(job, wish)
    sizes = _merged([one for name in wish.garments for one in lines[name]])
    where, missing = sites(location, sizes, order.press, wish.drop, order.units)
    plan = widths(
        location,
        where,
        artwork.aspect,
        order.transfer,
        wanted=wanted(wish, tables, [site.key for site in where], place),
        unit=order.units,
        findings=missing,
    )
    return _Wide(wish, place, artwork, tables, Wide(wish.name, location, where, plan))


def _pairs(job: Job, wide: Sequence[_Wide], known: Sequence[TableFacts]) -> dict[str, Shared]:
    """Return, by the names of both prints, the plates that serve two."""
    order, problems = job.order, list[BadInput]()
    by_name = {one.wish.name: one for one in wide}
    asking = [(one, by_name[one.wish.plate_with]) for one in wide if one.wish.plate_with]
    for one, other in asking:
        with collecting(problems):
            must_match(one.wide, other.wide, one.place.at("plate_with"))
    raise_all(problems)
    found: dict[str, Shared] = {}
    for one, other in asking:
        made = plates(
            one.wide,
            other.wide,
            reference=order.reference,
            unit=order.units,
            transfer=order.transfer,
            cutter=order.cutter,
            tables=known,
        )
        found |= {one.wish.name: made, other.wish.name: made}
    return found


def _print(
    job: Job,
    one: _Wide,
    known: Sequence[TableFacts],
    pair: Shared | None,
) -> tuple[PrintPlan, list[Finding]]:
    """Return a print with its jigs.

    `pair` is what it shares with another print; its plates are listed with the print that asks.
    """
    order, wish, wide = job.order, one.wish, one.wide
    names = {table.name for table in one.tables}
    jigs, findings = jig_plans(
        wish.name,
        wish.styles,
        wide.location,
        wide.where,
        wide.plan,
        reference=f"{order.reference} · {wish.name}",
        unit=order.units,
        transfer=order.transfer,
        cutter=order.cutter,
        tables=[table for table in known if table.name in names],
        served=pair.served if pair else (),
    )
    if pair and wish.plate_with:
        jigs, findings = [*pair.jigs, *jigs], [*pair.findings, *findings]
    held = holding(one.artwork, _use(job, wish, wide.plan, known))
    spots = placed(wide.where, wide.plan)
    inks = {spot.key: spot.box(hangs=wide.location.hangs) for spot in spots}
    made = PrintPlan(
        name=wish.name,
        location=wish.location,
        garments=wish.garments,
        artwork=one.artwork,
        widths=wide.plan,
        placed=spots,
        jigs=tuple(jigs),
        held=held,
        loads=loads(wide.location, wide.where, inks, order.press, order.units),
    )
    return made, findings


def _use(job: Job, wish: Print, plan: WidthPlan, known: Sequence[TableFacts]) -> Use:
    """Return at which widths and on which colours a print's artwork is used."""
    rooms = {band.key: band.room for band in plan.bands}
    lines = [job.order.garment(name) for name in wish.garments]
    return Use(
        widths=tuple((one.width, one.sizes) for one in plan.ranges),
        grounds=tuple((line.colour, line.colour_hex) for line in lines),
        transfer=job.order.transfer,
        unit=job.order.units,
        sizes_text=lambda keys: sizes_text(keys, known),
        room=lambda keys: min(rooms[key] for key in keys),
        specks_ignored=wish.ignore_specks,
    )


def _tables(job: Job, wish: Print) -> list[SizeTable]:
    """Return the size tables of a print's garments, each once."""
    named = [job.tables[job.order.garment(name).table] for name in wish.garments]
    return list({table.name: table for table in named}.values())


def _merged(sizes: Sequence[Sized]) -> list[Sized]:
    """Return each size once: the same table in two colours is one size with more pieces."""
    found: dict[str, Sized] = {}
    for one in sizes:
        before = found.get(one.key)
        found[one.key] = (
            one if before is None else replace(one, quantity=before.quantity + one.quantity)
        )
    return list(found.values())


def dangers(cutter: Cutter) -> Iterator[Finding]:
    """Yield a finding that blocks for a material that must never be laser cut."""
    title = cutter.material.title
    why = never(title)
    if why is not None:
        says = f"never laser cut it: {why}; use acrylic, plywood or card"
        yield Finding(blocks=True, about=f"material {title!r}", says=says)
