r"""Crew-neck tee with set-in short sleeves.

             neck_width
            HPS     HPS  _ _ _ _ _ _ _ _ _ _ _ _  y = 0
          .-'(_______)'-.     back_neck_drop
       .-'    \     /    '-.
      |  shoulder ''' point  |  front_neck_drop, shoulder_drop
      |       .       .      |
       \_____|       |_____/   sleeve: length along its fold, opening at its hem
             |       |        _ _ armhole_depth
             |<----->|        half_chest, 1 in below the armhole
             |       |
             |_______|        _ _ body_length; hem_width

Both sleeves are the same panel. The side seam is straight through the half chest, measured
1 in below the armhole (common practice of spec sheets), and the hem width.
"""

import math

from jigs.garments._block import Block, Edge, Flat, Panel, Seam
from jigs.garments._parts import (
    armhole,
    both_sides,
    cap_height,
    collar,
    crosses,
    mirrored,
    sleeve_outline,
)
from jigs.geometry import Line, Path, Point
from jigs.tables.measure import Measures
from jigs.units import INCH, Mm

#: How far below the armhole the half chest is measured.
CHEST_BELOW_ARMHOLE: Mm = 1 * INCH
#: Beside a print an armhole runs steeply: a third of a shift down counts square to it.
_STEEP = 0.35


def draw(m: Measures) -> Flat:
    """Return the flat of one size."""
    neck, tip = m.mm("neck_width") / 2, m.mm("across_shoulder") / 2
    chest, hem = m.mm("half_chest") / 2, m.mm("hem_width") / 2
    depth, length = m.mm("armhole_depth"), m.mm("body_length")
    level = depth + CHEST_BELOW_ARMHOLE
    if tip <= neck:
        raise ValueError("across_shoulder must be more than neck_width")
    if level >= length:
        raise ValueError("body_length must reach more than 1 in below armhole_depth")
    if m.mm("shoulder_drop") >= depth:
        raise ValueError("armhole_depth must be more than shoulder_drop")
    slope = math.atan2(m.mm("shoulder_drop"), tip - neck)
    hps, shoulder = Point(neck, 0.0), Point(tip, m.mm("shoulder_drop"))
    # The straight side seam runs on up past the chest line to the underarm.
    flare = (chest - hem) / (length - level)
    underarm = Point(chest + flare * CHEST_BELOW_ARMHOLE, depth)
    corner = Point(hem, length)
    scye = armhole(shoulder, underarm, slope)
    fronts = {
        "front": collar(neck, m.mm("front_neck_drop"), slope),
        "back": collar(neck, m.mm("back_neck_drop"), slope),
    }
    sides = (
        Path((Line(hps, shoulder),)),
        Path((scye,)),
        Path((Line(underarm, corner),)),
        Path((Line(corner, Point(0.0, length)),)),
    )
    panels = {
        name: _body(name, Path((half,)), sides, m, f"{name}_neck_drop")
        for name, half in fronts.items()
    }
    panels["sleeve"] = _sleeve(m, scye.length())
    return Flat(
        measures=m,
        panels=panels,
        landmarks={
            "HPS": hps,
            "shoulder point": shoulder,
            "underarm": underarm,
            "front collar": Point(0.0, m.mm("front_neck_drop")),
            "back collar": Point(0.0, m.mm("back_neck_drop")),
            "sleeve hem": Point(0.0, m.mm("sleeve_length")),
        },
        spread={
            "front collar": m["front_neck_drop"].plus_minus,
            "back collar": m["back_neck_drop"].plus_minus,
            "HPS": m["neck_width"].plus_minus / 2,
        },
        seams={
            f"{name} collar": Seam(
                half, m[f"{name}_neck_drop"].plus_minus, m["neck_width"].plus_minus / 2
            )
            for name, half in fronts.items()
        },
    )


def _body(
    name: str, neckline: Path, sides: tuple[Path, Path, Path, Path], m: Measures, drop: str
) -> Panel:
    shoulder, scye, side, hem = sides
    half = neckline.then(*sides)
    if crosses(half):
        names = "neck_width, across_shoulder, armhole_depth, half_chest, hem_width"
        raise ValueError(f"the {name}'s outline crosses itself with this {drop}, {names}")
    shoulder_slack = m["shoulder_drop"].plus_minus
    return Panel(
        name=name,
        outline=half.then(mirrored(half)),
        edges=(
            Edge("collar seam", both_sides(neckline), m[drop].plus_minus),
            *_pair("shoulder seam", shoulder, shoulder_slack),
            *_pair("armhole seam", scye, _armhole_spread(m), _STEEP),
            *_pair("side seam", side, m["half_chest"].plus_minus / 2, 0.0),
            Edge("hem", hem.then(mirrored(hem)), m["body_length"].plus_minus),
        ),
    )


def _sleeve(m: Measures, armhole_length: Mm) -> Panel:
    length, bicep = m.mm("sleeve_length"), m.mm("bicep")
    height = cap_height(bicep, armhole_length, 0.75 * length)
    cap, seam, hem = sleeve_outline(bicep, m.mm("sleeve_opening"), length, height)
    half = cap.then(seam, hem)
    return Panel(
        name="sleeve",
        outline=half.then(mirrored(half)),
        edges=(
            Edge("armhole seam", both_sides(cap), _cap_spread(m)),
            *_pair("underarm seam", seam, m["sleeve_opening"].plus_minus, 0.0),
            Edge("sleeve hem", hem.then(mirrored(hem)), 0.0),
        ),
    )


def _armhole_spread(m: Measures) -> Mm:
    """Return how far the armhole may lie off, its independent causes added as squares."""
    deep = max(m["armhole_depth"].plus_minus, m["shoulder_drop"].plus_minus)
    return math.hypot(m["across_shoulder"].plus_minus / 2, _STEEP * deep)


def _cap_spread(m: Measures) -> Mm:
    """Return how far a sleeve's cap may lie off: its length, and the height its width gives."""
    return math.hypot(m["sleeve_length"].plus_minus, _STEEP * m["bicep"].plus_minus)


def _pair(name: str, path: Path, plus_minus: Mm, level: float = 1.0) -> tuple[Edge, Edge]:
    """Return the edge on the wearer's left and its twin on the right, under one name."""
    return Edge(name, path, plus_minus, level), Edge(name, mirrored(path), plus_minus, level)


BLOCK = Block(
    title="crew-neck tee",
    needs=frozenset(
        {
            "half_chest", "body_length", "neck_width", "front_neck_drop", "back_neck_drop",
            "across_shoulder", "shoulder_drop", "armhole_depth", "sleeve_length",
            "sleeve_opening", "bicep", "hem_width",
        }
    ),
    draw=draw,
)  # fmt: skip
