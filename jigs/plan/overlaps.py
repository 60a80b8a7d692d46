"""Prints of one garment that would lie on one another."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from jigs.errors import Finding
from jigs.geometry import Box
from jigs.locations import LOCATIONS
from jigs.plan.plan import PrintPlan


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


def _boxes(one: PrintPlan) -> dict[str, Box]:
    """Return where the ink of a print lies on each size."""
    hangs = LOCATIONS.get(one.location).hangs
    return {placed.key: placed.box(hangs=hangs) for placed in one.placed}
