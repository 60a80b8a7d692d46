"""The rule sets hold the published figures, and say where each stands."""

import pytest

from jigs.errors import Place, Unknown
from jigs.order.team import PRINTS, OwnRules
from jigs.team.rules import Rule, named, names, own
from tests.reference.rows import rows

PLACE = Place("order.toml", "team.rules")
#: What an inch and a centimetre are in millimetres (NIST Special Publication 811, appendix B).
_MM = {"in": 25.4, "cm": 10.0}
_FIELDS = ("least", "most", "stroke_least", "stroke_most", "stroke_about")


def test_the_published_figures() -> None:
    """Every figure of the published list stands in the rule sets, and no other."""
    published = {
        (row["set"], row["print"], row["what"]): float(row["value"]) * _MM[row["unit"]]
        for row in rows("shirt_numbers.csv")
    }
    held = {
        (name, kind, what): value
        for name in names()
        for kind in PRINTS
        for what in _FIELDS
        if (value := getattr(named(name, PLACE).of(kind), what)) is not None
    }
    held |= {
        (name, "gap", "gap"): gap for name in names() if (gap := named(name, PLACE).gap) is not None
    }
    assert held == pytest.approx(published)


def test_what_is_from_memory_says_so() -> None:
    """A set with a figure from memory says so, and no other does."""
    remembered = {row["set"] for row in rows("shirt_numbers.csv") if "memory" in row["source"]}
    assert {name for name in names() if "memory" in named(name, PLACE).known} == remembered


@pytest.mark.parametrize("name", names())
def test_every_set_says_where_it_stands(name: str) -> None:
    """A set's source names the body, the document, its edition and the article."""
    found = named(name, PLACE)
    assert all(
        part and part in found.source
        for part in (found.body, found.document, found.edition, found.article)
    )


@pytest.mark.parametrize("name", names())
def test_ranges_run_upwards(name: str) -> None:
    """No least is above its most, and a stroke is thinner than its figure is high."""
    for rule in (named(name, PLACE).of(kind) for kind in PRINTS):
        assert (rule.least or 0) <= (rule.most or 1e9)
        assert (rule.stroke_least or 0) <= (rule.stroke_most or 1e9)
        assert (rule.stroke_most or rule.stroke_about or 0) <= (rule.least or 1e9) / 2


def test_an_unknown_set() -> None:
    """A misspelt set is named with the nearest known one."""
    with pytest.raises(Unknown, match="did you mean 'fifa'"):
        named("fiffa", PLACE)


def test_an_orders_own_rules() -> None:
    """An order's own rules ask a stroke of numbers only, and say where they are from."""
    given = OwnRules((("back-number", (200.0, 250.0)),), (20.0, 30.0), 25.0, "harbour league")
    found = own(given)
    assert found.of("back-number") == Rule(200.0, 250.0, 20.0, 30.0)
    assert found.of("front-number") == Rule(None, None, 20.0, 30.0)
    assert found.of("back-name") == Rule()
    assert found.gap == 25.0
    assert found.source == "the order's own rules: harbour league"
