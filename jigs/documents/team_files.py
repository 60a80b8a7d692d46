"""The files of a team: the report, the picture, and every name and number outlined."""

from collections.abc import Iterator

from jigs.documents.team_picture import team_page
from jigs.documents.team_report import lettering_page, letterings, team_data, team_text
from jigs.documents.text import as_json
from jigs.files import Output
from jigs.plan import Plan, TeamPlan
from jigs.writers import as_bytes


def team_files(plan: Plan, team: TeamPlan) -> Iterator[Output]:
    """Yield a team's files; the outlined ones are in the folder `team`."""
    yield Output("team.txt", team_text(plan, team).encode())
    yield Output("team.json", as_json(team_data(team)))
    page = team_page(plan, team)
    for suffix in ("svg", "png"):
        yield Output(f"team.{suffix}", as_bytes(suffix, [page]))
    for one in letterings(team):
        yield Output(f"team/{one.stem}.svg", as_bytes("svg", [lettering_page(one, team.font)]))
