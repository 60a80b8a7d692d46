"""Reads an order file (TOML) into an `Order`.

reference = "harbour-relay"     names the output folder
customer  = "Harbour Road Runners"
units     = "in"                or "mm": how reports speak; "in" if left out

[[garments]]                    one block per garment line
name = "adult"
table = "adult-crew-tee"        a size table, or "my-table.toml" beside the order
colour = "navy"
colour_hex = "#1f2a44"          only for a colour without a usual name
sizes = { S = 4, M = 10, "2XL" = 3 }

[[prints]]                      one block per location
location = "left-chest"
artwork = "artwork/crest.svg"   a file beside the order
name = "left-chest"             names the output files; the location if left out
width = "auto"                  or "3 1/2 in", or { "S-XL" = "11 in", "2XL" = "12 in" }
drop = "3 in"                   the location's own if left out
garments = ["adult"]            all if left out
styles = ["window", "ledge"]
turn = 90                       degrees clockwise: a wordmark that runs down a sleeve
plate_with = "full-front"       another print that one plate is to serve as well, where one can
page = 2                        of an artwork file that has several; 1 if left out
ignore_specks = true            leaves small things away from all else out of the artwork

[paper]     size = "letter" or ["8.5 in", "11 in"], margin, overlap
[printer]   x, y; or profile = "my-printer.toml", a file beside the order: see profile.py
[cutter]    material = "acrylic-3mm", or one described: see materials.py; kerf, the material's if
            left out; tabs = "1 mm", none if left out; bed = ["600 mm", "400 mm"],
            stock = ["12 in", "20 in"], as the bed if left out; fit = "0.1 mm"
[press]     platen = ["16 in", "20 in"]
[transfer]  trim, slip, step, line = "1 pt", gap = "1.5 pt", least_ppi
[team]      list = "squad.csv", rules = "fifa", prints = ["back-name", "back-number"]; see team.py
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from jigs.errors import BadInput, Place, raise_all
from jigs.names import path_problem, safe_name
from jigs.order.colours import colour_key, colours, hex_colour
from jigs.order.equipment import (
    read_cutter,
    read_paper,
    read_press,
    read_printer,
    read_transfer,
)
from jigs.order.fields import MOST_ENTRIES, Fields, shown
from jigs.order.order import TURNS, GarmentLine, Order, Print
from jigs.order.team import Team, read_team
from jigs.order.toml_text import parsed
from jigs.units import Mm

MOST_PIECES = 100_000
#: No print is narrower or wider than this, and none hangs lower.
_LEAST_WIDTH: Mm = 5.0
_MOST_WIDTH: Mm = 1000.0
_MOST_DROP: Mm = 1000.0
_MOST_PAGES = 9999

_TOP = (
    "reference", "customer", "units", "garments", "prints",
    "paper", "printer", "cutter", "press", "transfer", "team",
)  # fmt: skip
_PRINT = (
    "name", "location", "artwork", "width", "drop", "garments", "styles", "turn", "page",
    "ignore_specks", "plate_with",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Known:
    """The names an order may use, handed in because other layers own them."""

    locations: tuple[str, ...]
    styles: tuple[str, ...]
    tables: tuple[str, ...]
    rule_sets: tuple[str, ...] = ()


def read(text: str, file: str, known: Known) -> Order:
    """Return the order that a file's text says.

    Raises:
        BadInput: one thing is wrong.
        BadInputs: several things are wrong; all are named, each with its key.
    """
    problems: list[BadInput] = []
    fields = Fields(Place(file), parsed(text, Place(file), "an order"), problems)
    fields.known_keys(*_TOP)
    reference = _file_name(fields, "reference", fields.text("reference"))
    customer = fields.text("customer", most=200)
    units = fields.choice("units", "unit", ("in", "mm"), "in")
    lines = tuple(_garment(one, known) for one in fields.tables("garments"))
    _must_differ(fields, "garments", [line.name for line in lines])
    # With a garment's own name missing, a print that names it is not to blame.
    names = [line.name for line in lines if line.name]
    judged = names if len(names) == len(lines) and names else None
    team = read_team(fields.table("team"), known.rule_sets) if "team" in fields.values else None
    # Garments may get nothing but names and numbers.
    listed = fields.tables("prints") if team is None or "prints" in fields.values else ()
    prints = tuple(_print(one, known, names, judged) for one in listed)
    _must_differ(fields, "prints", [one.name for one in prints])
    _keep_off_team(fields, team, prints)
    _pairs(fields, prints)
    printer, profile = read_printer(fields.table("printer"))
    order = Order(
        reference,
        customer,
        units,
        lines,
        prints,
        read_paper(fields.table("paper")),
        printer,
        read_cutter(fields.table("cutter")),
        read_press(fields.table("press")),
        read_transfer(fields.table("transfer")),
        team,
        profile,
    )
    raise_all(problems)
    return order


def _file_name(fields: Fields, key: str, name: str, most: int = 60) -> str:
    """Return a name that can be part of a file name; note one that cannot."""
    safe = safe_name(name)[:most]
    if name and name != safe:
        allowed = f"use letters a-z, digits, dot, dash and underscore, such as {safe!r}"
        fields.note(key, f"found {shown(name)}, which cannot name a file", allowed)
    return name


def _must_differ(fields: Fields, key: str, names: list[str]) -> None:
    """Note names that are the same, or would be as file names on any system."""
    inner = Fields(fields.place.at(key), {}, fields.problems)
    seen: dict[str, int] = {}
    for index, name in enumerate(names):
        if not name:
            continue
        first = seen.setdefault(safe_name(name).casefold(), index)
        if first != index:
            at = Fields(inner.place.at(index), {}, fields.problems)
            found = f"found {shown(name)}, which {inner.place.at(first).key} has already"
            at.note("name", found, "give this one a name of its own")


def _keep_off_team(fields: Fields, team: Team | None, prints: Sequence[Print]) -> None:
    """Note prints whose jigs would be called as those of the team are."""
    taken = {f"team-{kind}" for kind in team.prints} if team else set()
    inner = Fields(fields.place.at("prints"), {}, fields.problems)
    for index, one in enumerate(prints):
        if one.name.casefold() in taken:
            at = Fields(inner.place.at(index), {}, fields.problems)
            found = f"found {shown(one.name)}, which the team's own print is called"
            at.note("name", found, "give this one a name of its own")


def _pairs(fields: Fields, prints: Sequence[Print]) -> None:
    """Note prints that are to share a plate with none of the others, or that two would share."""
    names = [one.name for one in prints]
    inner = Fields(fields.place.at("prints"), {}, fields.problems)
    taken: dict[str, str] = {}
    for index, one in enumerate(prints):
        if not one.plate_with:
            continue
        at = Fields(inner.place.at(index), {}, fields.problems)
        if one.plate_with == one.name or one.plate_with not in names:
            others = ", ".join(name for name in names if name != one.name) or "there is none"
            at.note("plate_with", f"found {shown(one.plate_with)}", f"another print: {others}")
            continue
        for name in (one.name, one.plate_with):
            if name in taken:
                found = f"{shown(name)} shares a plate with {shown(taken[name])} already"
                at.note("plate_with", found, "one plate serves two prints, not three")
                break
        taken |= {one.name: one.plate_with, one.plate_with: one.name}


def _garment(fields: Fields, known: Known) -> GarmentLine:
    fields.known_keys("name", "table", "colour", "colour_hex", "sizes")
    name = fields.text("name", most=40)
    table = fields.text("table", most=200)
    if table.endswith(".toml"):
        _path(fields, "table", table)
    elif table:
        fields.must_be_known("table", "size table", table, known.tables)
    colour, worth = _colour(fields)
    return GarmentLine(name, table, colour, worth, _quantities(fields))


def _colour(fields: Fields) -> tuple[str, str]:
    name = fields.text("colour", most=60)
    own = fields.text("colour_hex", "")
    if "colour_hex" in fields.values:
        worth = hex_colour(own)
        if own and worth is None:
            fields.note("colour_hex", f"found {shown(own)}", 'write it like "#1f2a44"')
        return name, worth or ""
    names = colours()
    key = colour_key(name)
    if name and key not in names:
        near = get_close_matches(key, names, n=1, cutoff=0.6)
        hint = f"did you mean {near[0]!r}? " if near else ""
        allowed = f'{hint}add colour_hex = "#rrggbb", or use one of: {", ".join(sorted(names))}'
        fields.note("colour", f"unknown colour {shown(name)}", allowed)
    return name, names.get(key, "")


def _quantities(fields: Fields) -> tuple[tuple[str, int], ...]:
    example = 'sizes with how many of each, such as sizes = { S = 4, "2XL" = 3 }'
    if "sizes" not in fields.values:
        fields.note("sizes", "missing", f"write {example}")
        return ()
    noted = len(fields.problems)
    sizes = fields.table("sizes", example)
    if len(sizes.values) > MOST_ENTRIES:
        fields.note("sizes", f"found {len(sizes.values)} sizes", f"at most {MOST_ENTRIES}")
        return ()
    pieces = []
    for size, count in sizes.values.items():
        if not size.strip() or size != size.strip() or not size.isprintable() or len(size) > 20:
            sizes.note(size[:40], f"found a size called {shown(size)}", "write a size's name")
        elif isinstance(count, bool) or not isinstance(count, int):
            sizes.note(size, f"found {shown(count)}", "write a whole number without quotes")
        elif not 0 <= count <= MOST_PIECES:
            allowed = f"allowed: a whole number from 0 to {MOST_PIECES}"
            sizes.note(size, f"found {shown(count)}", allowed)
        elif count:
            pieces.append((size, count))
    if not pieces and len(fields.problems) == noted:
        fields.note("sizes", "found no pieces of any size", f"write {example}")
    return tuple(pieces)


def _print(
    fields: Fields, known: Known, garments: list[str], judged: Collection[str] | None
) -> Print:
    fields.known_keys(*_PRINT)
    location = fields.choice("location", "location", known.locations)
    name = fields.text("name", location)
    if "name" in fields.values:
        _file_name(fields, "name", name)
    artwork = fields.text("artwork", most=200)
    _path(fields, "artwork", artwork)
    width, widths = _width(fields)
    on = fields.names("garments", "garment", judged) if "garments" in fields.values else garments
    drop = fields.length("drop", 0.0, 0.0, _MOST_DROP) if "drop" in fields.values else None
    read = Print(
        name,
        location,
        artwork,
        tuple(on),
        width,
        widths,
        drop,
        turn=_turn(fields),
        page=fields.whole("page", 1, 1, _MOST_PAGES),
        plate_with=fields.text("plate_with", "", most=60),
        ignore_specks=fields.flag("ignore_specks"),
    )
    if "styles" not in fields.values:
        return read
    return replace(read, styles=fields.names("styles", "jig style", known.styles))


def _turn(fields: Fields) -> int:
    """Return the degrees by which the artwork is turned."""
    turn = fields.values.get("turn", 0)
    if isinstance(turn, bool) or turn not in TURNS:
        allowed = "write 90, 180 or 270: degrees, clockwise"
        fields.note("turn", f"found {shown(turn)}", allowed)
        return 0
    return int(turn)


def _width(fields: Fields) -> tuple[Mm | None, tuple[tuple[str, Mm], ...]]:
    value = fields.values.get("width", "auto")
    if isinstance(value, str) and value.strip().lower() == "auto":
        return None, ()
    if not isinstance(value, dict):
        return fields.as_length("width", value, _LEAST_WIDTH, _MOST_WIDTH), ()
    ranges = fields.table("width")
    if not 0 < len(value) <= MOST_ENTRIES:
        allowed = 'write "auto", a width, or ranges such as { "S-XL" = "11 in" }'
        fields.note("width", f"found {shown(value)}", allowed)
        return None, ()
    widths = []
    for sizes, width in ranges.values.items():
        if not sizes.strip() or not sizes.isprintable() or len(sizes) > 45:
            allowed = 'write a size or a range of sizes, such as "S-XL"'
            ranges.note(sizes[:40], f"found a range called {shown(sizes)}", allowed)
        else:
            length = ranges.as_length(sizes, width, _LEAST_WIDTH, _MOST_WIDTH)
            widths.append((sizes.strip(), length))
    return None, tuple(widths)


def _path(fields: Fields, key: str, path: str) -> None:
    problem = path_problem(path) if path else None
    if problem is not None:
        allowed = "write a path beside the order file, such as artwork/crest.svg"
        fields.note(key, f"found {shown(path)}: {problem}", allowed)
