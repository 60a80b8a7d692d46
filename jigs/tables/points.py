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
    "centre_back_sleeve": PointOfMeasure(
        "back collar seam at the centre over the shoulder point to the sleeve's end", 60, 1500
    ),
    "cuff_height": PointOfMeasure("cuff, from its seam to the sleeve's end", 5, 200),
    "hem_rib": PointOfMeasure("rib of the hem, from its seam to the bottom", 10, 250),
    "placket_length": PointOfMeasure("collar seam at centre front to the placket's end", 20, 600),
    "placket_width": PointOfMeasure("placket across the centre front", 10, 120),
    "collar_fall": PointOfMeasure("back collar seam to the folded collar's edge below it", 1, 150),
    "zip_width": PointOfMeasure("zip across the centre front, teeth and tapes", 5, 100),
    "pocket_width": PointOfMeasure("front pocket along its bottom", 40, 800),
    "pocket_top": PointOfMeasure("front pocket along its top edge", 30, 700),
    "pocket_height": PointOfMeasure("front pocket, top edge to bottom", 30, 500),
    "hood_height": PointOfMeasure("hood laid flat, neck seam to its top", 80, 700),
    "hood_width": PointOfMeasure("hood laid flat, opening to the back", 60, 600),
    "hood_fall": PointOfMeasure(
        "back collar seam to the lowest point of the hood at rest", 10, 500
    ),
    "lap_depth": PointOfMeasure("HPS level down to where front and back lap end", 10, 250),
    "crotch_width": PointOfMeasure("bottom of a bodysuit, along its snaps", 20, 300),
    "leg_height": PointOfMeasure("bottom of a bodysuit up to the leg opening's top", 20, 400),
    "bag_width": PointOfMeasure("width of a bag laid flat", 50, 1200, 0.5 * INCH),
    "bag_height": PointOfMeasure("top edge of a bag to its bottom", 50, 1500, 0.5 * INCH),
    "handle_spread": PointOfMeasure("middle to middle of a handle's two ends", 30, 1000),
    "handle_width": PointOfMeasure("width of a handle's strap", 8, 150),
    "handle_depth": PointOfMeasure("top edge of a bag down to the end of a handle's seam", 5, 300),
}

#: The points of measure by name, in the order in which tables show them.
POINTS: Mapping[str, PointOfMeasure] = MappingProxyType(_POINTS)

#: What a size table gives at least: the first pair for what is worn, the second for bags.
REQUIRED = (("half_chest", "body_length"), ("bag_width", "bag_height"))

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
    ("cuff_height", "sleeve_length"): 0,
    ("sleeve_length", "centre_back_sleeve"): 0,
    ("hem_rib", "body_length"): 0,
    ("placket_width", "neck_width"): 0,
    ("placket_length", "body_length"): 0,
    ("collar_fall", "armhole_depth"): 0,
    ("zip_width", "neck_width"): 0,
    ("pocket_top", "pocket_width"): 0,
    ("pocket_width", "half_chest"): 0,
    ("pocket_height", "body_length"): 0,
    ("hood_fall", "body_length"): 0,
    ("lap_depth", "armhole_depth"): 0,
    ("crotch_width", "half_chest"): 0,
    ("leg_height", "body_length"): 0,
    ("handle_width", "handle_spread"): 0,
    ("handle_spread", "bag_width"): 0,
    ("handle_depth", "bag_height"): 0,
}

#: Pairs of which the second may equal the first: a sleeve may be a straight tube, a pocket square.
MAY_BE_EQUAL = frozenset({("sleeve_opening", "bicep"), ("pocket_top", "pocket_width")})


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
