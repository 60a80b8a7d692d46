"""A team's list, set and placed: every name and number with its own width, and one jig for all."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from jigs.errors import Finding, Place
from jigs.geometry import Box
from jigs.locations._location import LOWERED_BY
from jigs.order.order import Order
from jigs.order.team import PRINTS, Team
from jigs.plan.jigs import jig_plans
from jigs.plan.loading import loads
from jigs.plan.plan import TableFacts, TeamEntry, TeamMark, TeamPlan, TeamPrint
from jigs.plan.prints import Site, sites
from jigs.plan.sizes import Sized, sizes_text
from jigs.tables.size_names import index_of
from jigs.team import fit, lettering, rules
from jigs.team.fit import Fit, Setting
from jigs.team.places import below, location
from jigs.team.roster import Line, Player
from jigs.team.rules import RuleSet
from jigs.team.stroke import USUAL
from jigs.units import INCH, Mm, say
from jigs.widths import WidthPlan, WidthRange

#: Names and numbers differ in width; a ledge gives their top and their middle whatever it is.
_STYLE = "ledge"
_SLACK: Mm = 1e-6


@dataclass(frozen=True, slots=True)
class _Worn:
    """A player with the size of garment, and the text of each print."""

    player: Player
    sized: Sized
    texts: Mapping[str, str]

    @property
    def key(self) -> str:
        return self.sized.key


def garment_lines(order: Order) -> tuple[Line, ...]:
    """Return what a list may name of an order's garments."""
    return tuple(
        Line(one.name, one.colour_hex, tuple(size for size, _ in one.quantities))
        for one in order.garments
    )


def team_plan(
    order: Order,
    team: Team,
    players: Sequence[Player],
    lines: Mapping[str, Sequence[Sized]],
    tables: Sequence[TableFacts],
    place: Place,
) -> TeamPlan:
    """Return a team's names and numbers on their garments, and what is to be said of them.

    Raises:
        Unknown: the order names a rule set that is not known.
    """
    asked = (
        rules.named(team.rules, place.at("rules"))
        if isinstance(team.rules, str)
        else rules.own(team.rules)
    )
    settings, findings = _settings(team, asked, order.units)
    worn = [_worn(one, lines[one.garment], team) for one in players]
    where, said = _placed(order, team, asked, settings, worn)
    findings += said
    entries = []
    for one in worn:
        marks, remarks = _marks(one, settings, where, tables, order.units)
        findings += [*remarks, *_crowded(marks, asked, one, order.units)]
        entries.append(
            TeamEntry(
                row=one.player.row,
                garment=one.player.garment,
                key=one.key,
                name=one.player.name,
                number=one.player.number,
                quantity=one.player.quantity,
                marks=marks,
            )
        )
    findings += _counts(entries, lines, tables)
    prints = []
    for kind, setting in settings.items():
        made, said = _print(kind, setting, entries, where[kind], order, tables)
        prints.append(made)
        findings += said
    return TeamPlan(
        list=team.list,
        rules=asked,
        font=lettering.version(),
        prints=tuple(prints),
        entries=tuple(entries),
        findings=tuple(dict.fromkeys(findings)),
    )


def _settings(team: Team, asked: RuleSet, unit: str) -> tuple[dict[str, Setting], list[Finding]]:
    """Return how each kind of print is set; names take the weight of the numbers below them."""
    heights = dict(team.heights)
    settings: dict[str, Setting] = {}
    findings: list[Finding] = []
    for kind in ("back-number", "front-number"):
        if kind in team.prints:
            settings[kind], said = fit.number_setting(kind, asked.of(kind), heights.get(kind), unit)
            findings += said
    if "back-name" in team.prints:
        below_it = settings.get("back-number")
        weight = below_it.weight if below_it else USUAL
        settings["back-name"], said = fit.name_setting(
            asked.of("back-name"), heights.get("back-name"), unit, weight
        )
        findings += said
    return {kind: settings[kind] for kind in PRINTS if kind in settings}, findings


def _worn(player: Player, sizes: Sequence[Sized], team: Team) -> _Worn:
    names = [one.key.partition("/")[2] for one in sizes]
    index = index_of(player.size, names)
    if index is None:
        raise ValueError(f"{player.size} is none of {names}")
    name = player.name.upper() if team.case == "upper" else player.name
    texts = {kind: name if kind == "back-name" else player.number for kind in team.prints}
    return _Worn(player, sizes[index], {kind: text for kind, text in texts.items() if text})


def _placed(
    order: Order,
    team: Team,
    asked: RuleSet,
    settings: Mapping[str, Setting],
    worn: Sequence[_Worn],
) -> tuple[dict[str, dict[str, Site]], list[Finding]]:
    """Return where each kind of print hangs on each size that has it, and what is said of it.

    A number below a name hangs a gap below the capitals of the team's tallest name, so that all
    of one size hang alike whatever marks a name has.
    """
    drops = dict(team.drops)
    where: dict[str, dict[str, Site]] = {}
    findings: list[Finding] = []
    tallest: Mm = 0.0
    for kind in settings:
        # Where a team has names every number hangs below one, so that a size needs one jig.
        named = kind == "back-name"
        wearing = {one.key: one.sized for one in worn if named or kind in one.texts}
        where[kind] = {}
        for key, sized in wearing.items():
            drop = drops.get(kind)
            above = where.get("back-name", {}).get(key)
            if kind == "back-number" and drop is None and above is not None:
                drop = below(above.placement.drop, tallest, asked.gap)
            found, said = sites(location(kind), [sized], order.press, drop, order.units)
            if named and any(site.placement.cleared for site in found):
                found, said = _below_it(found, _highest(worn, sized, settings[kind]), said, order)
            where[kind] |= {site.key: site for site in found}
            findings += said
        if named:
            fits = [
                _fitted(kind, one.texts[kind], settings[kind], where[kind][one.key])
                for one in worn
                if kind in one.texts and one.key in where[kind]
            ]
            # Round letters keep the gap as well as flat ones do.
            over = 1 + lettering.depth(settings[kind].weight)
            tallest = max((one.height for one in fits), default=0.0) * over
    return where, findings


def _highest(worn: Sequence[_Worn], sized: Sized, setting: Setting) -> Mm:
    """Return how far marks rise above the capitals of the names on a garment's sizes."""
    table = sized.plan.measures.table
    names = [
        one.texts["back-name"]
        for one in worn
        if "back-name" in one.texts and one.sized.plan.measures.table == table
    ]
    return max((fit.rise(name, setting) for name in names), default=0.0)


def _below_it(
    found: Sequence[Site], rise: Mm, said: Sequence[Finding], order: Order
) -> tuple[tuple[Site, ...], tuple[Finding, ...]]:
    """Return sites that clear a hood or the like with marks above the capitals too."""
    lower = math.ceil(rise / LOWERED_BY - _SLACK) * LOWERED_BY
    (site,) = found
    if not lower:
        return (site,), tuple(said)
    drop, over = site.placement.drop + lower, site.placement.cleared
    made, _ = sites(location("back-name"), [site.sized], order.press, drop)
    says = f"names hung lower than usual, drop {say(drop, order.units)}, to clear the {over}"
    about = site.sized.plan.measures.table
    return made, (Finding(blocks=False, about=about, says=says),)


def _fitted(kind: str, text: str, setting: Setting, site: Site) -> Fit:
    fitted = fit.name_fit if kind == "back-name" else fit.number_fit
    return fitted(text, setting, site.placement)


def _marks(
    one: _Worn,
    settings: Mapping[str, Setting],
    where: Mapping[str, Mapping[str, Site]],
    tables: Sequence[TableFacts],
    unit: str,
) -> tuple[tuple[TeamMark, ...], list[Finding]]:
    marks: list[TeamMark] = []
    findings: list[Finding] = []
    for kind, setting in settings.items():
        site = where[kind].get(one.key)
        text = one.texts.get(kind)
        if site is None or text is None:
            continue
        fitted = _fitted(kind, text, setting, site)
        findings += fit.remarks(text, setting, fitted, sizes_text([one.key], tables), unit)
        marks.append(
            TeamMark(
                kind=kind,
                text=text,
                anchor=site.placement.anchor,
                drop=site.placement.drop,
                height=fitted.height,
                width=fitted.ink_width,
                ink_height=fitted.ink_height,
                rise=fitted.rise,
                most=fitted.most,
                stops=fitted.stops,
            )
        )
    return tuple(marks), findings


def _crowded(marks: Sequence[TeamMark], asked: RuleSet, one: _Worn, unit: str) -> Iterator[Finding]:
    """Yield a finding that blocks if a number is nearer to the name above it than it may be."""
    boxes = {mark.kind: mark.box for mark in marks}
    if "back-name" not in boxes or "back-number" not in boxes:
        return
    gap, least = boxes["back-number"].top - boxes["back-name"].bottom, asked.gap or 0.0
    if gap < least - _SLACK:
        wanted = f"; the rule asks at least {say(least, unit)}" if least else ""
        # In whole millimetres or sixteenths, so that what is said is enough.
        step = INCH / 16 if unit == "in" else 1.0
        number = next(mark for mark in marks if mark.kind == "back-number")
        drop = math.ceil((number.drop + least - gap) / step - _SLACK) * step
        says = (
            f"the number begins {say(gap, unit)} below the name{wanted}: "
            f"give back numbers a drop of {say(drop, unit)}"
        )
        yield Finding(blocks=True, about=one.player.title, says=says)


def _counts(
    entries: Sequence[TeamEntry],
    lines: Mapping[str, Sequence[Sized]],
    tables: Sequence[TableFacts],
) -> Iterator[Finding]:
    """Yield a finding for each size of which the list has more or fewer than the order."""
    listed: dict[tuple[str, str], int] = {}
    for one in entries:
        listed[one.garment, one.key] = listed.get((one.garment, one.key), 0) + one.quantity
    for name in dict.fromkeys(one.garment for one in entries):
        for sized in lines[name]:
            count = listed.get((name, sized.key), 0)
            if count != sized.quantity:
                says = f"the list has {count}, the order {sized.quantity}"
                about = f"{name}, {sizes_text([sized.key], tables)}"
                yield Finding(blocks=count > sized.quantity, about=about, says=says)


def _print(
    kind: str,
    setting: Setting,
    entries: Sequence[TeamEntry],
    where: Mapping[str, Site],
    order: Order,
    tables: Sequence[TableFacts],
) -> tuple[TeamPrint, list[Finding]]:
    """Return one kind of print with its jigs: each is for all widths, so it is made for the widest.

    Sizes are in the order of their tables, so that neighbours can share a jig.
    """
    marks = [mark for one in entries for mark in one.marks if mark.kind == kind]
    unit, trim = order.units, order.transfer.trim
    above = trim
    if kind == "back-name":
        above = fit.trim_above((mark.rise for mark in marks), setting, trim, unit)
    if not marks:
        return TeamPrint(setting, above, ()), []
    known = [f"{table.name}/{size}" for table in tables for size in table.sizes]
    worn = {one.key for one in entries for mark in one.marks if mark.kind == kind}
    keys = sorted(worn, key=known.index)
    inks = {
        key: Box.of_all(
            mark.box for one in entries for mark in one.marks if (one.key, mark.kind) == (key, kind)
        )
        for key in keys
    }
    sizes = [where[key] for key in keys]
    one_width = WidthRange(
        sizes=tuple(keys),
        width=max(mark.width for mark in marks),
        height=max(mark.ink_height - mark.rise for mark in marks),
        quantity=len(marks),
    )
    jigs, findings = jig_plans(
        f"team-{kind}",
        (_STYLE,),
        location(kind),
        sizes,
        WidthPlan((one_width,), (), (), ()),
        reference=f"{order.reference} · {kind}",
        unit=order.units,
        transfer=replace(order.transfer, trim=above),
        cutter=order.cutter,
        tables=tables,
        prints=_prints_text(kind, setting, above, unit),
    )
    if above > trim:
        findings = [_thin(one, above, unit) for one in findings]
    laid = loads(location(kind), sizes, inks, order.press, unit)
    return TeamPrint(setting, above, tuple(jigs), laid), findings


def _thin(one: Finding, above: Mm, unit: str) -> Finding:
    """Return what is said of a jig that cannot be made for names with marks, with what helps."""
    if not one.blocks:
        return one
    begin = one.says.partition(":")[0]
    says = f"{begin}: names with marks are trimmed {say(above, unit)} above their capitals"
    return replace(one, says=f"{says}; give back names a longer drop")


def _prints_text(kind: str, setting: Setting, above: Mm, unit: str) -> str:
    """Return what a jig says of its prints: `numbers, 10 in high`."""
    if kind == "back-name":
        high = f"names, up to {say(setting.height, unit)} high, of any width"
        return f"{high}, trimmed {say(above, unit)} above capitals"
    return f"numbers, {say(setting.height, unit)} high, of any width"
