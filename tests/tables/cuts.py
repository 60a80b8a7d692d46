"""What the cuts of garments are drawn from, and their sizes with everything estimated."""

from functools import cache

from jigs.errors import Place
from jigs.tables.estimate import completed
from jigs.tables.library import find, names
from jigs.tables.measure import Measure, Measures
from jigs.tables.points import REQUIRED

HERE = Place("test")

_BODY = (
    "half_chest", "body_length", "neck_width", "front_neck_drop", "back_neck_drop",
    "across_shoulder", "shoulder_drop", "armhole_depth", "hem_width",
)  # fmt: skip
_SLEEVE = ("sleeve_length", "sleeve_opening", "bicep")
_RIBS = ("cuff_height", "hem_rib")
_TEE = {*_BODY, *_SLEEVE, "rib_width"}

#: The points of measure of each cut: what its flat is drawn from, and its rib where it has one.
NEEDS: dict[str, frozenset[str]] = {
    cut: frozenset(points)
    for cut, points in {
        "crew-tee": _TEE,
        "v-neck-tee": _TEE,
        "long-sleeve-tee": {*_TEE, "cuff_height"},
        "tank": set(_BODY),
        "crew-sweatshirt": {*_TEE, *_RIBS},
        "hoodie": {
            *_BODY, *_SLEEVE, *_RIBS,
            "pocket_width", "pocket_top", "pocket_height", "hood_height", "hood_width", "hood_fall",
        },
        "polo": {*_BODY, *_SLEEVE, "cuff_height", "placket_length", "placket_width", "collar_fall"},
        "tote": {"bag_width", "bag_height", "handle_spread", "handle_width", "handle_depth"},
        "bodysuit": {*_BODY, *_SLEEVE, "lap_depth", "crotch_width", "leg_height"},
    }.items()
}  # fmt: skip
SLEEVED = tuple(cut for cut, points in NEEDS.items() if "bicep" in points)
#: Half chests, or widths of a bag, from the smallest to the largest worn at an age, in mm.
CHESTS = {"infant": (195, 300), "toddler": (280, 410), "youth": (350, 530), "adult": (380, 880)}


def required(cut: str) -> tuple[str, str]:
    """Return the two points of measure that every table of a cut gives."""
    return next(pair for pair in REQUIRED if pair[0] in NEEDS[cut])


def bare(cut: str, age: str, width: float, length: float | None = None) -> Measures:
    """Return nothing but the two lengths that a table must give, sure to 5 mm."""
    lengths = (width, 1.35 * width if length is None else length)
    pairs = zip(required(cut), lengths, strict=True)
    return Measures("t", "M", age, {point: Measure(mm, 5.0) for point, mm in pairs})


def from_bare(measures: Measures, cut: str) -> Measures:
    """Return a size as it would be if its table gave no more than it must."""
    kept = {point: measures[point] for point in required(cut)}
    return completed(Measures(measures.table, measures.size, measures.age, kept), cut)


@cache
def sizes(table: str) -> dict[str, Measures]:
    """Return the completed sizes of one of the package's tables."""
    found = find(table, HERE)
    return {size.size: completed(size, found.cut) for size in found.sizes}


def tables(*cuts: str) -> tuple[str, ...]:
    """Return the package's tables of some cuts."""
    return tuple(name for name in names() if find(name, HERE).cut in cuts)
