"""What an order says of its team is read, and what is wrong with it is said with its key."""

from pathlib import Path

import pytest

from jigs.errors import BadInput, BadInputs
from jigs.order.read import Known, read
from jigs.order.team import OwnRules, Team
from jigs.pipeline import read as read_job
from tests.order.known import GOOD, KNOWN
from tests.team.orders import LIST, ORDER, team

RULED = Known(KNOWN.locations, KNOWN.styles, KNOWN.tables, ("fiba", "fifa"))
TEAM = """
[team]
list = "squad.csv"
rules = "fifa"
prints = ["back-name", "back-number"]
"""


def read_team(text: str) -> Team:
    """Return the team of the small good order with a team added."""
    found = read(GOOD + text, "order.toml", RULED).team
    assert found is not None
    return found


def said(text: str) -> list[str]:
    """Return what is wrong with an order, line by line."""
    with pytest.raises((BadInput, BadInputs)) as caught:
        read(text, "order.toml", RULED)
    return list(caught.value.lines())


def test_a_team() -> None:
    """Without wishes heights and drops are left open, and names are in capitals."""
    assert read_team(TEAM) == Team("squad.csv", "fifa", ("back-name", "back-number"))


def test_no_team() -> None:
    """An order without the heading has none."""
    assert read(GOOD, "order.toml", RULED).team is None


def test_wishes() -> None:
    """Heights and drops are lengths by print, in any unit."""
    found = read_team(
        TEAM + 'heights = { back-number = "28 cm" }\ndrops = { back-name = "2 in" }\n'
        'case = "as-written"\n'
    )
    assert found.heights == (("back-number", 280.0),)
    assert found.drops == (("back-name", 50.8),)
    assert found.case == "as-written"


def test_own_rules() -> None:
    """An order's own rules are heights or ranges of them, a stroke, a gap, and a source."""
    rules = (
        'rules = { back-number = "8 in", back-name = ["2 in", "3 in"], '
        'stroke = ["1 in", "1 1/2 in"], gap = "1 in", source = "harbour league" }'
    )
    assert read_team(TEAM.replace('rules = "fifa"', rules)).rules == OwnRules(
        (("back-name", (50.8, 76.19999999999999)), ("back-number", (203.2, 203.2))),
        (25.4, 38.099999999999994),
        25.4,
        "harbour league",
    )


def test_a_team_needs_no_other_prints() -> None:
    """Garments may get names and numbers alone."""
    found = read(GOOD[: GOOD.index("[[prints]]")] + TEAM, "order.toml", RULED)
    assert found.prints == ()
    assert found.team is not None


@pytest.mark.parametrize(
    ("old", "new", "key", "says"),
    [
        ('list = "squad.csv"\n', "", "team.list", "missing"),
        ('"squad.csv"', '"../squad.csv"', "team.list", "leaves the folder"),
        ('"squad.csv"', "7", "team.list", "found 7"),
        ('rules = "fifa"\n', "", "team.rules", "missing"),
        ('"fifa"', '"fiffa"', "team.rules", "did you mean 'fifa'"),
        ('"fifa"', "7", "team.rules", "found 7"),
        ('"fifa"', '{ number = "8 in" }', "team.rules.number", "unknown key"),
        ('"fifa"', '{ back-number = "8" }', "team.rules.back-number", "no unit"),
        ('"fifa"', '{ back-number = ["8 in"] }', "team.rules.back-number", "least and a most"),
        (
            '"fifa"',
            '{ back-name = ["3 in", "2 in"] }',
            "team.rules.back-name",
            "the smaller one first",
        ),
        ('"fifa"', '{ gap = "2 m" }', "team.rules.gap", "to 500 mm"),
        ('prints = ["back-name", "back-number"]', "", "team.prints", "missing"),
        ('["back-name", "back-number"]', "[]", "team.prints", "an empty list"),
        ('"back-number"]', '"back-numbre"]', "team.prints[2]", "did you mean 'back-number'"),
        ('"fifa"\n', '"fifa"\ncase = "lower"\n', "team.case", "unknown case"),
        ('"fifa"\n', '"fifa"\nlst = "a"\n', "team.lst", "did you mean 'list'"),
        ('"fifa"\n', '"fifa"\nheights = { back-name = 7 }\n', "team.heights.back-name", "no unit"),
        (
            '"fifa"\n',
            '"fifa"\nheights = { front-number = "4 in" }\n',
            "team.heights.front-number",
            "unknown print of this team",
        ),
        ('"fifa"\n', '"fifa"\ndrops = { back-name = "2 m" }\n', "team.drops.back-name", "1000 mm"),
    ],
)
def test_one_thing_wrong(old: str, new: str, key: str, says: str) -> None:
    """One mistake gives one problem, at its key, in words that tell what to do."""
    assert TEAM.count(old) == 1
    (line,) = said(GOOD + TEAM.replace(old, new))
    assert line.startswith(f"order.toml: {key}: ")
    assert says in line


def test_a_print_called_like_the_teams() -> None:
    """A print whose jigs would overwrite those of the team must be called otherwise."""
    (line,) = said(GOOD + 'name = "team-back-name"\n' + TEAM)
    assert "prints[1].name" in line


def test_a_list_that_is_not_there(tmp_path: Path) -> None:
    """A list that is missing is blamed on the order's key, with the nearest file."""
    path = team(tmp_path, ORDER.replace("squad.csv", "sqaud.csv"))
    with pytest.raises(BadInput, match=r"team\.list: no file 'sqaud.csv'; did you mean 'squad"):
        read_job(path)


def test_a_list_with_a_mistake(tmp_path: Path) -> None:
    """A mistake in the list is said with the list's row, together with the order's other files'."""
    path = team(tmp_path, ORDER, LIST.replace("adult;L", "adult;XL"))
    (tmp_path / "art.svg").unlink()
    with pytest.raises(BadInputs) as caught:
        read_job(path)
    lines = caught.value.lines()
    assert any("no file 'art.svg'" in line for line in lines)
    assert any(line.startswith("squad.csv: row 4, size: unknown size") for line in lines)
