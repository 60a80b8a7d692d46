"""An invented team's order, written into a test's folder."""

from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from jigs.documents import plan_json
from jigs.documents.team_files import team_files
from jigs.pipeline import make, read
from jigs.plan import Plan, TeamPlan
from tests.orders import ART

ORDER = """\
reference = "quay-rovers"
customer = "Quay Street Rovers"
units = "mm"

[[garments]]
name = "adult"
table = "adult-crew-tee"
colour = "navy"
sizes = { S = 1, M = 3, L = 1, XXL = 1 }

[[garments]]
name = "youth"
table = "youth-crew-tee"
colour = "white"
sizes = { L = 1 }

[[prints]]
location = "left-sleeve"
artwork = "art.svg"
styles = ["ledge"]

[team]
list = "squad.csv"
rules = "fifa"
prints = ["back-name", "back-number", "front-number"]
"""
LIST = """\
Garment;Size;Player;No.;Qty
adult;S;Núñez;7;
adult;M;Montgomery;10;2
adult;L;Abbott;1;
adult;2XL;Łukasik;88;
adult;M;;12;
youth;L;Ahn;00;
"""
#: One shirt with a number and nothing else, for what is made whole.
SHORT_ORDER = """\
reference = "quay-keeper"
customer = "Quay Street Rovers"

[[garments]]
name = "adult"
table = "adult-crew-tee"
colour = "yellow"
sizes = { M = 1 }

[team]
list = "squad.csv"
rules = "fiba"
prints = ["back-number"]
"""
SHORT_LIST = "size,number\nM,1\n"


def team(folder: Path, order: str = ORDER, squad: str = LIST) -> Path:
    """Write a team's order, its artwork and its list into a folder; return the order's path."""
    folder.mkdir(parents=True, exist_ok=True)
    # An ink that shows on all of the team's shirts.
    art = ART.replace("#F4F1E6", "#e0403a").replace("#f4f1e6", "#e0403a")
    (folder / "art.svg").write_text(art, encoding="utf-8")
    (folder / "squad.csv").write_text(squad, encoding="utf-8")
    (folder / "order.toml").write_text(order, encoding="utf-8")
    return folder / "order.toml"


@cache
def planned(order: str = ORDER, squad: str = LIST) -> Plan:
    """Return the plan of a team's order."""
    return make(read(team(Path(mkdtemp()), order, squad)))


def squad_of(plan: Plan) -> TeamPlan:
    """Return a plan's team, which it must have."""
    assert plan.team is not None
    return plan.team


@cache
def files() -> dict[str, bytes]:
    """Return the files of the team and the plan by their names; the jigs are left out."""
    plan = planned()
    made = {one.name: one.data for one in team_files(plan, squad_of(plan))}
    return made | {"plan.json": plan_json.dumped(plan)}
