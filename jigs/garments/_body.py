r"""The body that tees, sweatshirts, polos and bodysuits share: shell, panels, sleeves, flat.

             neck_width
            HPS     HPS  _ _ _ _ _ _ _ _ _ _ _ _  y = 0
          .-'(_______)'-.     back_neck_drop
       .-'    \     /    '-.
      |  shoulder ''' point  |  front_neck_drop, shoulder_drop
      |       .       .      |
       \_____|       |_____/   sleeve: length along its fold, opening at its end
             |       |        _ _ armhole_depth
             |<----->|        half_chest, 1 in below the armhole
             |_______|
             |_______|        hem_rib, where there is one
                              _ _ body_length; hem_width

The side seam is straight through the half chest, measured 1 in below the armhole (common
practice of spec sheets), and the hem width; above a hem's rib it runs plumb, and the rib draws
in to the hem width. Both sleeves are the same panel.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from jigs.garments._block import Edge, Flat, Panel, Seam
from jigs.garments._parts import armhole, both_sides, cap, cap_height, crosses, mirrored
from jigs.geometry import Cubic, Line, Path, Point
from jigs.tables.measure import Measures
from jigs.units import INCH, Mm

#: How far below the armhole the half chest is measured.
CHEST_BELOW_ARMHOLE: Mm = 1 * INCH
#: What every body needs; sleeves need more.
NEEDS = frozenset(
    {
        "half_chest", "body_length", "neck_width", "front_neck_drop", "back_neck_drop",
        "across_shoulder", "shoulder_drop", "armhole_depth", "hem_width",
    }
)  # fmt: skip
SLEEVES = frozenset({"sleeve_length", "sleeve_opening", "bicep"})
#: Beside a print an armhole runs steeply: a third of a shift down counts square to it.
STEEP = 0.35
#: Depth of a round neck's seam, from its width (as the relations estimate it, from memory).
_ROUND_NECK = {"front": (25.0, 0.37), "back": (0.0, 0.11)}
#: Round necks are up to so much deeper than that.
_AS_ROUND: Mm = 0.75 * INCH
_DEEPER_BY: Mm = 0.5 * INCH
#: What moves along with each seam that jigs seat on.
_COLLAR = frozenset({"collar seam", "placket", "zip", "folded collar", "hood at rest"})
_HEM = frozenset({"hem", "hem rib"})
_SLEEVE_HEM = frozenset({"sleeve hem", "cuff"})
#: A sleeve is gathered into its cuff: above the seam it is so much wider than the cuff's end
#: (from memory).
_GATHERED = 1.25
#: A sleeve longer than this share of the body ends below the elbow.
_LONG = 0.55


@dataclass(frozen=True, slots=True)
class Shell:
    """Half a body without its neckline, on x >= 0."""

    slope: float
    """The shoulder's angle below the level, radians."""
    hps: Point
    shoulder: Point
    underarm: Point
    scye: Cubic
    sides: tuple[tuple[str, Path], ...]
    """From the HPS round to the centre of the hem, by name."""
    rib: Mm
    """Height of the hem's rib; 0 where there is none."""
    length: Mm


def shell(m: Measures, below: tuple[tuple[str, Path], ...] = ()) -> Shell:
    """Return the shell of one size; `below` replaces what comes after the side seam's end.

    Raises:
        ValueError: measurements contradict each other.
    """
    neck, tip = m.mm("neck_width") / 2, m.mm("across_shoulder") / 2
    chest, hem = m.mm("half_chest") / 2, m.mm("hem_width") / 2
    depth, length = m.mm("armhole_depth"), m.mm("body_length")
    rib = m.mm("hem_rib") if "hem_rib" in m else 0.0
    level = depth + CHEST_BELOW_ARMHOLE
    if tip <= neck:
        raise ValueError("across_shoulder must be more than neck_width")
    if level >= length:
        raise ValueError("body_length must reach more than 1 in below armhole_depth")
    if rib and level >= length - rib:
        raise ValueError("body_length less hem_rib must reach more than 1 in below armhole_depth")
    if m.mm("shoulder_drop") >= depth:
        raise ValueError("armhole_depth must be more than shoulder_drop")
    slope = math.atan2(m.mm("shoulder_drop"), tip - neck)
    hps, shoulder = Point(neck, 0.0), Point(tip, m.mm("shoulder_drop"))
    if below:
        end = below[0][1].start
    elif rib:
        end = Point(chest, length - rib)
    else:
        end = Point(hem, length)
    # The straight side seam runs on up past the chest line to the underarm.
    flare = (chest - end.x) / (end.y - level)
    underarm = Point(chest + flare * CHEST_BELOW_ARMHOLE, depth)
    scye = armhole(shoulder, underarm, slope)
    corner = Point(hem, length)
    if not below:
        pulled = Path((Line(end, corner),)) if rib else None
        below = (
            *((("rib side", pulled),) if pulled else ()),
            ("hem", Path((Line(corner, Point(0.0, length)),))),
        )
    sides = (
        ("shoulder seam", Path((Line(hps, shoulder),))),
        ("armhole seam", Path((scye,))),
        ("side seam", Path((Line(underarm, end),))),
        *below,
    )
    return Shell(slope, hps, shoulder, underarm, scye, sides, rib, length)


def body(
    name: str, neckline: Path, shell: Shell, m: Measures, features: tuple[Edge, ...] = ()
) -> Panel:
    """Return a front or back: its half neckline closed by a shell.

    Raises:
        ValueError: the outline crosses itself.
    """
    drop = f"{name}_neck_drop"
    half = neckline.then(*(path for _, path in shell.sides))
    if crosses(half):
        names = "neck_width, across_shoulder, armhole_depth, half_chest, hem_width"
        raise ValueError(f"the {name}'s outline crosses itself with this {drop}, {names}")
    rib = (_hem_rib(shell, m),) if shell.rib else ()
    return Panel(
        name=name,
        outline=half.then(mirrored(half)),
        edges=(
            Edge(
                "collar seam",
                both_sides(neckline),
                m[drop].plus_minus,
                rests_on=(drop, "neck_width"),
            ),
            *(edge for side, path in shell.sides for edge in _side(side, path, m)),
        ),
        features=(*rib, *features),
    )


def _side(name: str, path: Path, m: Measures) -> tuple[Edge, ...]:
    """Return an edge of the shell on both sides, or the one that crosses the centre line."""
    length = m["body_length"].plus_minus
    if path.end.x == 0:
        whole = path.then(mirrored(path))
        return (Edge(name, whole, length, clear=2 * INCH, rests_on=("body_length",)),)
    spread, level, rests_on = {
        "shoulder seam": (m["shoulder_drop"].plus_minus, 1.0, ("shoulder_drop", "across_shoulder")),
        "armhole seam": (_armhole_spread(m), STEEP, ("armhole_depth", "across_shoulder")),
        "leg opening": (length, 1.0, ("body_length", "leg_height")),
    }.get(name, (_width_spread(m) / 2, 0.0, ("half_chest", "hem_width")))
    return pair(name, path, spread, level, rests_on)


def _hem_rib(shell: Shell, m: Measures) -> Edge:
    top = shell.length - shell.rib
    side = dict(shell.sides)["rib side"].segments[0]
    corners = [Point(-side.a.x, top), side.a, side.b, Point(-side.b.x, shell.length)]
    spread = math.hypot(m["body_length"].plus_minus, m["hem_rib"].plus_minus)
    path = Path.through(corners, closed=True)
    return Edge("hem rib", path, spread, clear=0.75 * INCH, rests_on=("body_length", "hem_rib"))


def sleeve(m: Measures, armhole_length: Mm) -> Panel:
    """Return a set-in sleeve, with its cuff where there is one.

    Raises:
        ValueError: the cuff is longer than the sleeve has room for.
    """
    length, bicep, opening = m.mm("sleeve_length"), m.mm("bicep"), m.mm("sleeve_opening")
    cuff = m.mm("cuff_height") if "cuff_height" in m else 0.0
    height = cap_height(bicep, armhole_length, 0.75 * (length - cuff))
    if height >= length - cuff:
        raise ValueError("sleeve_length must reach further than the sleeve's cap and cuff_height")
    underarm, hem = Point(bicep, height), Point(opening, length)
    end = Point(min(_GATHERED * opening, bicep), length - cuff) if cuff else hem
    top, seam = Path((cap(bicep, height),)), Path((Line(underarm, end),))
    gathered = (Path((Line(end, hem),)),) if cuff else ()
    across = Path((Line(hem, Point(0.0, length)),))
    half = top.then(seam, *gathered, across)
    wide = m["sleeve_opening"].plus_minus
    features: tuple[Edge, ...] = ()
    if cuff:
        corners = [Point(-end.x, end.y), end, hem, Point(-hem.x, hem.y)]
        path = Path.through(corners, closed=True)
        features = (Edge("cuff", path, 0.0, clear=0.5 * INCH, rests_on=("cuff_height",)),)
    return Panel(
        name="sleeve",
        outline=half.then(mirrored(half)),
        edges=(
            Edge(
                "armhole seam", both_sides(top), _cap_spread(m), rests_on=("sleeve_length", "bicep")
            ),
            *pair("underarm seam", seam, wide, 0.0, ("bicep", "sleeve_opening")),
            *(
                edge
                for path in gathered
                for edge in pair("cuff side", path, wide, 0.0, ("sleeve_opening", "cuff_height"))
            ),
            Edge("sleeve hem", across.then(mirrored(across)), 0.0),
        ),
        features=features,
    )


def flat(
    m: Measures,
    shell: Shell,
    necklines: Mapping[str, Cubic],
    *,
    sleeves: bool = True,
    features: Mapping[str, tuple[Edge, ...]] | None = None,
    engaged: float = 1.0,
    how: Mapping[str, str] | None = None,
    cautions: Mapping[str, str] | None = None,
) -> Flat:
    """Return the flat of a body: `necklines` gives half the collar seam of front and back.

    `engaged` and `how` (by `front`, `back`) go to the collars' seams.

    Raises:
        ValueError: measurements contradict each other.
    """
    features, how = features or {}, how or {}
    panels = {
        name: body(name, Path((half,)), shell, m, features.get(name, ()))
        for name, half in necklines.items()
    }
    landmarks = {
        "HPS": shell.hps,
        "shoulder point": shell.shoulder,
        "underarm": shell.underarm,
        "front collar": necklines["front"].a,
        "back collar": necklines["back"].a,
    }
    seams = {
        f"{name} collar": Seam(
            title=f"{name} collar seam",
            edges=_COLLAR,
            half=half,
            drop=m[f"{name}_neck_drop"].plus_minus,
            width=m["neck_width"].plus_minus / 2,
            engaged=engaged if name == "front" else 1.0,
            how=how.get(name, ""),
            estimated=m.guessed((f"{name}_neck_drop", "neck_width")),
        )
        for name, half in necklines.items()
    }
    spread = {
        "front collar": m["front_neck_drop"].plus_minus,
        "back collar": m["back_neck_drop"].plus_minus,
        "HPS": m["neck_width"].plus_minus / 2,
    }
    if shell.sides[-1][0] == "hem":
        rib = m["hem_rib"].plus_minus if shell.rib else 0.0
        landmarks["hem"] = Point(0.0, shell.length - shell.rib)
        spread["hem"] = math.hypot(m["body_length"].plus_minus, rib)
        seams["hem"] = Seam("seam of the hem's rib" if shell.rib else "hem", _HEM)
    if sleeves:
        panels["sleeve"] = sleeve(m, shell.scye.length())
        length, cuff = m.mm("sleeve_length"), "cuff_height" in m
        end = length - (m.mm("cuff_height") if cuff else 0.0)
        landmarks["sleeve hem"] = Point(0.0, end)
        seams["sleeve hem"] = Seam("cuff seam" if cuff else "sleeve hem", _SLEEVE_HEM)
        if length > _LONG * shell.length:
            landmarks["elbow"] = Point(0.0, length / 2)
    deeper = {f"{name} collar": _deeper(m, name) for name in necklines}
    return Flat(m, panels, landmarks, spread, seams, deeper, cautions or {})


def _deeper(m: Measures, name: str) -> Mm:
    """Return how much deeper than any round neck a neckline is, in half inches.

    In steps, so that sizes whose necks grow a little deeper still share a jig.
    """
    base, share = _ROUND_NECK[name]
    excess = m.mm(f"{name}_neck_drop") - base - share * m.mm("neck_width")
    return max(0.0, round((excess - _AS_ROUND) / _DEEPER_BY) * _DEEPER_BY)


def pair(
    name: str, path: Path, plus_minus: Mm, level: float, rests_on: tuple[str, ...]
) -> tuple[Edge, ...]:
    """Return the edge on the wearer's left and its twin on the right, under one name."""
    return tuple(
        Edge(name, side, plus_minus, level, rests_on=rests_on) for side in (path, mirrored(path))
    )


def _width_spread(m: Measures) -> Mm:
    """Return how unsure the body's width is where it is least sure, at the chest or at the hem."""
    return max(m["half_chest"].plus_minus, m["hem_width"].plus_minus)


def _armhole_spread(m: Measures) -> Mm:
    """Return how far the armhole may lie off, its independent causes added as squares."""
    deep = max(m["armhole_depth"].plus_minus, m["shoulder_drop"].plus_minus)
    return math.hypot(m["across_shoulder"].plus_minus / 2, STEEP * deep)


def _cap_spread(m: Measures) -> Mm:
    """Return how far a sleeve's cap may lie off: its length, and the height its width gives."""
    return math.hypot(m["sleeve_length"].plus_minus, STEEP * m["bicep"].plus_minus)
