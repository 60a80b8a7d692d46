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
from jigs.plan.overlaps import overlaps, team_overlaps
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
    prints: list[PrintPlan] = []
    findings: list[Finding] = [*job.noted, *dangers(order.cutter)]
    findings += [warning for table in tables for warning in table.warnings]
    for index, wish in enumerate(order.prints):
        tell(wish.name)
        place = Place(job.file, "prints").at(index)
        made, said = _print(job, wish, lines, known, place)
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


def _print(
    job: Job,
    wish: Print,
    lines: dict[str, tuple[Sized, ...]],
    known: Sequence[TableFacts],
    place: Place,
) -> tuple[PrintPlan, list[Finding]]:
    order, location = job.order, LOCATIONS.get(wish.location, place.at("location"))
    artwork = turned(job.artwork[wish.artwork, asked(wish)], wish.turn)
    tables = _tables(job, wish)
    names = {table.name for table in tables}
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
    jigs, findings = jig_plans(
        wish.name,
        wish.styles,
        location,
        where,
        plan,
        reference=f"{order.reference} · {wish.name}",
        unit=order.units,
        transfer=order.transfer,
        cutter=order.cutter,
        tables=[table for table in known if table.name in names],
    )
    held = holding(artwork, _use(job, wish, plan, known))
    made = PrintPlan(
        name=wish.name,
        location=wish.location,
        garments=wish.garments,
        artwork=artwork,
        widths=plan,
        placed=placed(where, plan),
        jigs=tuple(jigs),
        held=held,
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
