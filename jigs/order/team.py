"""The team of an order file: its list, the rules of its sizes, and which prints it gets.

[team]
list = "squad.csv"              garment, size, name, number, quantity; a file beside the order
rules = "fifa"                  a published set, or the order's own:
                                { back-number = "8 in", back-name = ["2 in", "3 in"],
                                  stroke = ["1 in", "1 1/2 in"], gap = "1 in", source = "..." }
prints = ["back-name", "back-number", "front-number"]
heights = { back-number = "28 cm" }     else as the rules have it
drops = { back-name = "2 in" }          else the locations' own
case = "upper"                  or "as-written"
"""

from collections.abc import Collection
from dataclasses import dataclass

from jigs.names import path_problem
from jigs.order.fields import Fields, shown
from jigs.units import Mm

#: What a team can get.
PRINTS = ("back-name", "back-number", "front-number")
CASES = ("upper", "as-written")
#: No figure is lower or higher than this, and nothing hangs lower.
_LEAST: Mm = 10.0
_MOST: Mm = 500.0
_MOST_DROP: Mm = 1000.0
_LEAST_STROKE: Mm = 1.0


@dataclass(frozen=True, slots=True)
class OwnRules:
    """Rules that stand in the order itself."""

    heights: tuple[tuple[str, tuple[Mm, Mm]], ...]
    """Print and its least and greatest height; the same twice where one is given."""
    stroke: tuple[Mm, Mm] | None
    """Least and greatest width of the numbers' stroke."""
    gap: Mm | None
    source: str
    """Where the user has them from."""


@dataclass(frozen=True, slots=True)
class Team:
    """What an order says of a team."""

    list: str
    """Path of the list, relative to the order."""
    rules: str | OwnRules
    prints: tuple[str, ...]
    heights: tuple[tuple[str, Mm], ...] = ()
    """Wanted heights by print."""
    drops: tuple[tuple[str, Mm], ...] = ()
    """Drops by print that override the locations' own."""
    case: str = "upper"


def read_team(fields: Fields, rule_sets: Collection[str]) -> Team:
    """Return the team; what is wrong is noted."""
    fields.known_keys("list", "rules", "prints", "heights", "drops", "case")
    path = fields.text("list", most=200)
    problem = path_problem(path) if path else None
    if problem is not None:
        allowed = "write a path beside the order file, such as squad.csv"
        fields.note("list", f"found {shown(path)}: {problem}", allowed)
    prints: tuple[str, ...] = ()
    if "prints" in fields.values:
        prints = fields.names("prints", "team print", PRINTS)
    else:
        fields.note("prints", "missing", f"write a list of some of {', '.join(PRINTS)}")
    return Team(
        path,
        _rules(fields, rule_sets),
        prints,
        _by_print(fields.table("heights"), prints, _LEAST, _MOST),
        _by_print(fields.table("drops"), prints, 0.0, _MOST_DROP),
        fields.choice("case", "case", CASES, CASES[0]),
    )


def _rules(fields: Fields, rule_sets: Collection[str]) -> str | OwnRules:
    if not isinstance(fields.values.get("rules"), dict):
        return fields.choice("rules", "rule set", rule_sets)
    own = fields.table("rules")
    own.known_keys(*PRINTS, "stroke", "gap", "source")
    heights = tuple(
        (kind, _range(own, kind, _LEAST, _MOST)) for kind in PRINTS if kind in own.values
    )
    stroke = _range(own, "stroke", _LEAST_STROKE, _MOST) if "stroke" in own.values else None
    gap = own.length("gap", 0.0, 0.0, _MOST) if "gap" in own.values else None
    return OwnRules(heights, stroke, gap, own.text("source", "source not given", 200))


def _range(fields: Fields, key: str, least: Mm, most: Mm) -> tuple[Mm, Mm]:
    """Return a least and a greatest length; one length alone is both."""
    if not isinstance(fields.values[key], list):
        one = fields.length(key, least, least, most)
        return one, one
    noted = len(fields.problems)
    low, high = fields.pair(
        key, (least, most), least, most, allowed='write a least and a most: ["5 cm", "7.5 cm"]'
    )
    if len(fields.problems) == noted and low > high:
        fields.note(
            key,
            "found a first number that is larger than the second",
            "write the smaller one first",
        )
    return low, high


def _by_print(
    fields: Fields, prints: Collection[str], least: Mm, most: Mm
) -> tuple[tuple[str, Mm], ...]:
    return tuple(
        (kind, fields.length(kind, least, least, most))
        for kind in fields.values
        if fields.must_be_known(kind[:40], "print of this team", kind[:40], prints)
    )
