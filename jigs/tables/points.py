"""The points of measure a size table may give: what each one is, and how long it can be."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jigs.units import INCH, Mm


@dataclass(frozen=True, slots=True)
class PointOfMeasure:
    """Where a garment is measured, the lengths that are no slip of the pen, the usual tolerance."""

    title: str
    least: Mm
    most: Mm
    tolerance: Mm = 0.25 * INCH


_POINTS = {
    # Tolerances of half an inch on chest and length, a quarter on the rest: common practice.
    "half_chest": PointOfMeasure("width laid flat, 1 in below the armhole", 50, 1200, 0.5 * INCH),
    "body_length": PointOfMeasure("HPS to hem, laid flat", 80, 2000, 0.5 * INCH),
    "neck_width": PointOfMeasure("HPS to HPS, seam to seam", 30, 500),
    "front_neck_drop": PointOfMeasure("HPS level down to the collar seam at centre front", 5, 500),
    "back_neck_drop": PointOfMeasure("HPS level down to the collar seam at centre back", 1, 300),
    "across_shoulder": PointOfMeasure("shoulder point to shoulder point", 50, 1000),
    "shoulder_drop": PointOfMeasure("HPS level down to the shoulder point", 1, 250),
    "armhole_depth": PointOfMeasure("HPS level straight down to the underarm point", 30, 700),
    "sleeve_length": PointOfMeasure("shoulder point along the fold to the sleeve hem", 10, 1000),
    "sleeve_opening": PointOfMeasure("sleeve hem laid flat", 20, 500),
    "bicep": PointOfMeasure("half width of the sleeve laid flat, at the underarm point", 20, 600),
    "rib_width": PointOfMeasure("collar seam to the free edge of the rib", 1, 300),
    "hem_width": PointOfMeasure("hem of the body laid flat", 50, 1500),
}

#: The points of measure by name, in the order in which tables show them.
POINTS: Mapping[str, PointOfMeasure] = MappingProxyType(_POINTS)

#: What every size table gives.
REQUIRED = ("half_chest", "body_length")

_BELOW: dict[tuple[str, str], Mm] = {
    ("neck_width", "half_chest"): 0,
    ("neck_width", "across_shoulder"): 0,
    ("neck_width", "hem_width"): 0,
    ("back_neck_drop", "front_neck_drop"): 0,
    ("front_neck_drop", "armhole_depth"): 0,
    ("shoulder_drop", "armhole_depth"): 0,
    # The chest is measured an inch below the armhole, so the body reaches further than that.
    ("armhole_depth", "body_length"): 1 * INCH,
    ("rib_width", "neck_width"): 0,
    ("rib_width", "front_neck_drop"): 0,
    ("sleeve_opening", "bicep"): 0,
    ("bicep", "armhole_depth"): 0,
}

#: Pairs of which the second may equal the first: a sleeve may be a straight tube.
MAY_BE_EQUAL = frozenset({("sleeve_opening", "bicep")})


def _with_what_follows(pairs: Mapping[tuple[str, str], Mm]) -> dict[tuple[str, str], Mm]:
    """Return the pairs and all that follow from them: a < b and b < c give a < c."""
    known = dict(pairs)
    for middle in POINTS:
        smaller = [(a, gap) for (a, b), gap in known.items() if b == middle]
        larger = [(b, gap) for (a, b), gap in known.items() if a == middle]
        for a, gap in smaller:
            for b, more in larger:
                known[a, b] = max(gap + more, known.get((a, b), 0))
    return known


#: Every pair of points of which the first is shorter than the second on any garment that can be
#: sewn, and by how much at least. What follows from the pairs stands here too, because a table
#: may leave the middle out.
BELOW: Mapping[tuple[str, str], Mm] = MappingProxyType(_with_what_follows(_BELOW))
