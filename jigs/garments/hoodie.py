r"""Hooded sweatshirt: hood, front pocket, drawcords, cuffs, a hem's rib; a zip if one is given.

        .-~~~-.          hood_height from the neck seam to its top, hood_width from its
       |       |         opening to the back; at rest on the back it hangs hood_fall low
       '.     .'
     .-' '-v-' '-.
        |     |          drawcords
     |   _____   |       pocket_top
     |  /     \  |       pocket_height, down to the seam of the hem's rib
     |_|_______|_|       pocket_width

The rest is measured as drawn in `_body.py`. The collar seam is the hood's neck seam.
"""

import math
from dataclasses import replace

from jigs.garments import _body
from jigs.garments._block import Block, Edge, Flat, Panel, Seam
from jigs.garments._parts import crew_collars, mirrored, strip
from jigs.geometry import Cubic, Line, Path, Point
from jigs.tables.measure import Measures
from jigs.units import INCH, Mm

#: The pocket's sides run plumb for this share of its height, then slant in to its top.
_PLUMB = 0.3
#: The hood at rest spreads over this share of the shoulder seam (from memory).
_SPREAD = 0.45
#: Radius of the hood's crown as a share of its width (from memory).
_CROWN = 0.6
_HOW = "pull the hood up and away from the body"


def draw(m: Measures) -> Flat:
    """Return the flat of one size.

    Raises:
        ValueError: measurements contradict each other.
    """
    shell = _body.shell(m)
    necklines = crew_collars(m, shell.slope)
    collar, bottom = necklines["front"].a.y, shell.length - shell.rib
    top = bottom - m.mm("pocket_height")
    if top <= collar:
        raise ValueError("pocket_height reaches up to the collar seam")
    if m.mm("pocket_width") >= min(m.mm("half_chest"), m.mm("hem_width")):
        raise ValueError("pocket_width must be less than half_chest and hem_width")
    half = _pocket(m, top, bottom)
    zips = _zip(m, collar, shell.length)
    lengths = ("body_length", "hem_rib", "pocket_height")
    spread = math.hypot(*(m[name].plus_minus for name in lengths))
    whole = half.then(mirrored(half))
    pocket = Edge(
        "pocket",
        whole,
        spread,
        clear=0.75 * INCH,
        beside=max(m["pocket_width"].plus_minus, m["pocket_top"].plus_minus) / 2,
        stands=True,
        rests_on=(*lengths, "pocket_top", "pocket_width"),
    )
    hood = Edge(
        "hood at rest",
        _at_rest(m, shell, necklines["back"]),
        m["hood_fall"].plus_minus,
        clear=0.5 * INCH,
        rests_on=("hood_fall",),
    )
    body = _body.flat(
        m,
        shell,
        necklines,
        features={"front": (pocket, *zips), "back": (hood,)},
        how={"front": _HOW, "back": _HOW},
        cautions=_cautions(zipped=bool(zips)),
    )
    return replace(
        body,
        panels={
            **body.panels,
            "pocket": _pocket_panel(m, half, _zip(m, top, bottom)),
            "hood": _hood(m),
        },
        landmarks={
            **body.landmarks,
            "pocket top": Point(0.0, top),
            "hood neck": Point(0.0, m.mm("hood_height")),
        },
        seams={
            **body.seams,
            "pocket top": Seam("pocket's top edge", frozenset({"pocket top"})),
            "hood neck": Seam("hood's neck seam", frozenset({"neck seam"})),
        },
    )


def _zip(m: Measures, top: Mm, bottom: Mm) -> tuple[Edge, ...]:
    """Return the zip as far as it runs down a panel, if there is one."""
    if "zip_width" not in m:
        return ()
    width = m["zip_width"]
    path = strip(width.mm / 2, top, bottom)
    spread = width.plus_minus / 2
    return (Edge("zip", path, spread, 0.0, clear=0.75 * INCH, rests_on=("zip_width",)),)


def _cautions(*, zipped: bool) -> dict[str, str]:
    front = "lay the drawcords and their tips out of the print's way and out of the press"
    if zipped:
        front += "; lay the zip off the platen: its teeth hold the press off the print"
    return {
        "front": front,
        "back": "lay the hood off the platen, not under the print",
        "pocket": f"{front}; a pad inside the pocket keeps its seams off the print",
        "hood": "a pad inside the hood keeps its seams and cords off the print",
    }


def _pocket(m: Measures, top: Mm, bottom: Mm) -> Path:
    """Return half the pocket's outline, from the middle of its top round to that of its bottom."""
    wide, narrow = m.mm("pocket_width") / 2, m.mm("pocket_top") / 2
    bend = bottom - _PLUMB * (bottom - top)
    sides = [Point(narrow, top), Point(wide, bend), Point(wide, bottom)]
    return Path.through([Point(0.0, top), *sides, Point(0.0, bottom)])


def _pocket_panel(m: Measures, half: Path, zips: tuple[Edge, ...]) -> Panel:
    first, *sides, last = half.segments
    top, bottom = Path((first,)), Path((last,))
    wide = m["pocket_width"].plus_minus / 2
    return Panel(
        name="pocket",
        outline=half.then(mirrored(half)),
        edges=(
            Edge("pocket top", mirrored(top).then(top), 0.0),
            *_body.pair(
                "pocket opening", Path(tuple(sides)), wide, 0.5, ("pocket_width", "pocket_top")
            ),
            Edge(
                "pocket bottom",
                bottom.then(mirrored(bottom)),
                m["pocket_height"].plus_minus,
                rests_on=("pocket_height",),
            ),
        ),
        features=zips,
    )


def _hood(m: Measures) -> Panel:
    """Return one side of the hood, its opening edge at x = 0."""
    high, wide = m.mm("hood_height"), m.mm("hood_width")
    radius = min(_CROWN * wide, 0.9 * high)
    corner, peak = Point(wide, high), Point(0.0, 0.0)
    crown, back = Point(wide - radius, 0.0), Point(wide, radius)
    turn = 0.5523 * radius
    round_ = Cubic(crown, Point(crown.x + turn, 0.0), Point(wide, back.y - turn), back)
    opening = Path((Line(Point(0.0, high), peak),))
    seam = Path((Line(peak, crown), round_, Line(back, corner)))
    neck = Path((Line(corner, Point(0.0, high)),))
    spread = math.hypot(m["hood_width"].plus_minus, m["hood_height"].plus_minus)
    return Panel(
        name="hood",
        outline=opening.then(seam, neck),
        edges=(
            Edge("hood opening", opening, 0.0, 0.0),
            Edge("hood seam", seam, spread, 0.5, rests_on=("hood_width", "hood_height")),
            Edge("neck seam", neck, 0.0),
        ),
    )


def _at_rest(m: Measures, shell: _body.Shell, collar: Cubic) -> Path:
    """Return what the hood covers of the back as it lies at rest, up to the collar seam."""
    end = shell.hps.plus(shell.shoulder.minus(shell.hps).times(_SPREAD))
    low = collar.a.y + m.mm("hood_fall")
    rises = Point(end.x, end.y + 0.5 * (low - end.y))
    lower = Cubic(Point(0.0, low), Point(0.7 * end.x, low), rises, end)
    half = Path((lower, Line(end, shell.hps), collar.reversed()))
    return half.then(mirrored(half))


BLOCK = Block(
    title="hooded sweatshirt",
    needs=_body.NEEDS
    | _body.SLEEVES
    | {"cuff_height", "hem_rib", "pocket_width", "pocket_top", "pocket_height"}
    | {"hood_height", "hood_width", "hood_fall"},
    draw=draw,
    may=frozenset({"zip_width"}),
)
