"""What a size table leaves out, estimated by drafting relations, each with its plus-minus."""

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from jigs.tables.measure import Measure, Measures, Origin
from jigs.tables.points import BELOW, POINTS
from jigs.units import Mm

#: How far an estimate stays from the lengths it must lie between, as a part of them.
_CLEARANCE = 0.02


@dataclass(frozen=True, slots=True)
class Relation:
    """One point of measure as a base and so much of each of some others."""

    point: str
    ages: tuple[str, ...]
    cuts: tuple[str, ...]
    """Cuts it holds for; empty: for all."""
    base: Mm
    slopes: tuple[tuple[str, float], ...]
    plus_minus: Mm
    source: str

    def holds(self, age: str, cut: str) -> bool:
        """Return whether the relation is one for this age and cut."""
        return age in self.ages and (not self.cuts or cut in self.cuts)

    def estimate(self, values: Mapping[str, Measure]) -> Measure:
        """Return the estimate; its plus-minus is the root of the sum of squares.

        The squares are those of the relation's own plus-minus and of each input's, times its
        slope: the inputs are taken as independent.

        Raises:
            KeyError: an input is not among the values.
        """
        length = self.base + math.fsum(slope * values[name].mm for name, slope in self.slopes)
        spreads = (slope * values[name].plus_minus for name, slope in self.slopes)
        return Measure(length, math.hypot(self.plus_minus, *spreads), Origin.ESTIMATED)


def completed(measures: Measures, cut: str) -> Measures:
    """Return the measures with every point of measure that the cut uses.

    What is there stays as it is. An estimate that would not fit between the lengths that are
    there (a neck wider than the chest) is moved between them and is that much less sure.
    """
    values = dict(measures.values)
    for relation in relations(measures.age, cut):
        known = all(name in values for name, _ in relation.slopes)
        if known and relation.point not in values:
            values[relation.point] = _fitted(relation.point, relation.estimate(values), values)
    in_order = {point: values[point] for point in POINTS if point in values}
    return Measures(measures.table, measures.size, measures.age, in_order)


def relations(age: str, cut: str) -> tuple[Relation, ...]:
    """Return the relations for an age and cut, in the order in which they are tried."""
    return tuple(relation for relation in _relations() if relation.holds(age, cut))


def _fitted(point: str, estimate: Measure, values: Mapping[str, Measure]) -> Measure:
    """Return the estimate, moved between the known lengths that must be below and above it."""
    pairs, bounds = BELOW.items(), POINTS[point]
    below = (values[a].mm + gap for (a, b), gap in pairs if b == point and a in values)
    above = (values[b].mm - gap for (a, b), gap in pairs if a == point and b in values)
    low, high = max((bounds.least, *below)), min((bounds.most, *above))
    margin = _CLEARANCE * min(low, high - low)
    length = min(max(estimate.mm, low + margin), high - margin)
    moved = abs(length - estimate.mm)
    return Measure(length, estimate.plus_minus + moved, Origin.ESTIMATED)


@cache
def _relations() -> tuple[Relation, ...]:
    text = files("jigs.tables").joinpath("relations.toml").read_text(encoding="utf-8")
    document = tomllib.loads(text)
    families = document["families"]
    return tuple(
        Relation(
            point=entry["point"],
            ages=tuple(entry["ages"]),
            cuts=tuple(families[entry["family"]]) if "family" in entry else (),
            base=float(entry["base"]),
            slopes=tuple(entry.get("slopes", {}).items()),
            plus_minus=float(entry["plus_minus"]),
            source=entry["source"],
        )
        for entry in document["relations"]
    )
