"""How large numbers and names must be: a federation's published rules, or the order's own."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from jigs.errors import Place, Unknown
from jigs.order.team import OwnRules
from jigs.units import Mm, mm

#: What a rule's sizes are called in `rules.toml`.
_LENGTHS = ("least", "most", "stroke_least", "stroke_most", "stroke_about")


@dataclass(frozen=True, slots=True)
class Rule:
    """What a rule asks of one print; None where it says nothing."""

    least: Mm | None = None
    """Least and greatest height of the figures, or of a name's capitals."""
    most: Mm | None = None
    stroke_least: Mm | None = None
    """Least and greatest width of the figures' stroke."""
    stroke_most: Mm | None = None
    stroke_about: Mm | None = None
    """About how wide the stroke is, where a rule says no more than that."""


@dataclass(frozen=True, slots=True)
class RuleSet:
    """The rules of one document, and where they stand."""

    name: str
    body: str
    """Who publishes them; empty for an order's own."""
    document: str
    edition: str
    article: str
    known: str
    """`read`, or which figures are from memory."""
    notes: tuple[str, ...]
    gap: Mm | None
    """Least distance between a name and the number below it."""
    back_number: Rule
    front_number: Rule
    back_name: Rule

    def of(self, kind: str) -> Rule:
        """Return what is asked of one kind of print: `back-number`, `front-number`, `back-name`."""
        rules = {
            "back-number": self.back_number,
            "front-number": self.front_number,
            "back-name": self.back_name,
        }
        return rules[kind]

    @property
    def source(self) -> str:
        """Where the rules stand, in one line."""
        if not self.body:
            return f"the order's own rules: {self.document}"
        return f"{self.body}, {self.document} ({self.edition}), {self.article}"


def names() -> tuple[str, ...]:
    """Return the names of the published rule sets, sorted."""
    return tuple(sorted(_sets()))


def named(name: str, place: Place) -> RuleSet:
    """Return a published rule set.

    Raises:
        Unknown: there is none of that name.
    """
    if name not in _sets():
        raise Unknown(place, "rule set", name, names())
    return _sets()[name]


def own(rules: OwnRules) -> RuleSet:
    """Return an order's own rules; a stroke is asked of the numbers only."""
    heights = dict(rules.heights)
    thin, wide = rules.stroke or (None, None)

    def rule(kind: str, thin: Mm | None, wide: Mm | None) -> Rule:
        least, most = heights.get(kind, (None, None))
        return Rule(least, most, thin, wide)

    return RuleSet(
        name="own",
        body="",
        document=rules.source,
        edition="",
        article="",
        known="given in the order",
        notes=(),
        gap=rules.gap,
        back_number=rule("back-number", thin, wide),
        front_number=rule("front-number", thin, wide),
        back_name=rule("back-name", None, None),
    )


@cache
def _sets() -> Mapping[str, RuleSet]:
    text = files("jigs.team").joinpath("rules.toml").read_text(encoding="utf-8")
    return {name: _read(name, row) for name, row in tomllib.loads(text).items()}


def _read(name: str, row: Mapping[str, object]) -> RuleSet:
    place, notes = Place("rules.toml", name), row["notes"]
    return RuleSet(
        name=name,
        body=str(row["body"]),
        document=str(row["document"]),
        edition=str(row["edition"]),
        article=str(row["article"]),
        known=str(row["known"]),
        notes=tuple(str(note) for note in notes) if isinstance(notes, list) else (),
        gap=mm(row["gap"], place.at("gap")) if "gap" in row else None,
        back_number=_rule(row.get("back-number", {}), place),
        front_number=_rule(row.get("front-number", {}), place),
        back_name=_rule(row.get("back-name", {}), place),
    )


def _rule(row: object, place: Place) -> Rule:
    if not isinstance(row, dict) or row.keys() - set(_LENGTHS):
        raise ValueError(f"{place}: found {row!r}")
    return Rule(**{key: mm(value, place.at(key)) for key, value in row.items()})
