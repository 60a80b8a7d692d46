"""Prints of one garment that would lie on one another, names and numbers among them."""

from collections.abc import Iterator, Sequence
from itertools import combinations, product

from jigs.errors import Finding
from jigs.geometry import Box
from jigs.locations import LOCATIONS
from jigs.plan.plan import PrintPlan, TeamPlan
from jigs.team.places import location


def overlaps(prints: Sequence[PrintPlan]) -> Iterator[Finding]:
    """Yield a finding that blocks for each two prints that share garments and overlap there."""
    for one, two in combinations(prints, 2):
        sides = {LOCATIONS.get(each.location).seen for each in (one, two)}
        if len(sides) > 1 or not set(one.garments) & set(two.garments):
            continue
        other = _boxes(two)
        sizes = [
            key for key, box in _boxes(one).items() if key in other and box.overlaps(other[key])
        ]
        if sizes:
            says = f"the two prints lie on one another on {', '.join(sizes)}"
            yield Finding(blocks=True, about=f"{one.name} and {two.name}", says=says)


def team_overlaps(prints: Sequence[PrintPlan], team: TeamPlan) -> Iterator[Finding]:
    """Yield a finding that blocks for each print that a kind of the team's lies on, with sizes."""
    for one, setting in product(prints, [each.setting for each in team.prints]):
        if LOCATIONS.get(one.location).seen is not location(setting.kind).seen:
            continue
        other = _boxes(one)
        sizes = {
            entry.key: None
            for entry in team.entries
            for mark in entry.marks
            if entry.garment in one.garments and mark.kind == setting.kind
            if entry.key in other and mark.box.overlaps(other[entry.key])
        }
        if sizes:
            says = f"the two prints lie on one another on {', '.join(sizes)}"
            yield Finding(blocks=True, about=f"{one.name} and {setting.kind}", says=says)


def _boxes(one: PrintPlan) -> dict[str, Box]:
    """Return where the ink of a print lies on each size."""
    hangs = LOCATIONS.get(one.location).hangs
    return {placed.key: placed.box(hangs=hangs) for placed in one.placed}
