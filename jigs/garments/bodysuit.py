r"""Infant bodysuit with envelope shoulders and snaps at the crotch.

           __     __
        .-'  \___/  '-.        front and back lap over the shoulder; the laps' bound edges
      |  '-. front .-'  |      run from the neckline to the armhole, lap_depth below the HPS
       \___|       |___/
           |       |
           |       |           hem_width at the top of the leg openings
            \     /            leg_height
             |___|             crotch_width; body_length from HPS to the snaps

There is no shoulder seam, so the HPS is the high point of the shoulder's fold, and no corner of
a collar to seat a jig in: it registers on the middle half of the front's own binding, which no
lap covers, and its sides are held level by the ends of the laps. The rest is measured as drawn in
`_body.py`.
"""

from jigs.garments import _body
from jigs.garments._block import Block, Edge, Flat
from jigs.garments._parts import crew_collars, mirrored
from jigs.geometry import Cubic, Line, Path, Point
from jigs.geometry.contact import parameter_at
from jigs.tables.measure import Measures
from jigs.units import INCH

#: Where a lap's edge leaves the neckline, as a share of its half width (from memory).
_LAP = 0.85
#: How the leg opening turns in (drafting practice, from memory).
_IN, _UP = 0.6, 0.55
_HOW = "laps flat, their ends at the armholes equally high on both sides"
_SNAPS = "lay the snaps off the platen: they hold the press off the print"


def draw(m: Measures) -> Flat:
    """Return the flat of one size.

    Raises:
        ValueError: measurements contradict each other.
    """
    length, leg = m.mm("body_length"), m.mm("leg_height")
    hip = Point(m.mm("hem_width") / 2, length - leg)
    snap = Point(m.mm("crotch_width") / 2, length)
    if snap.x >= hip.x:
        raise ValueError("crotch_width must be less than hem_width")
    if m.mm("armhole_depth") + _body.CHEST_BELOW_ARMHOLE >= hip.y:
        raise ValueError("body_length less leg_height must reach 1 in below armhole_depth")
    inner = Point(hip.x + (snap.x - hip.x) * _IN, hip.y)
    opening = Cubic(hip, inner, Point(snap.x, snap.y - _UP * leg), snap)
    below = (
        ("leg opening", Path((opening,))),
        ("snaps", Path((Line(snap, Point(0.0, length)),))),
    )
    shell = _body.shell(m, below)
    necklines = crew_collars(m, shell.slope)
    return _body.flat(
        m,
        shell,
        necklines,
        features={name: _laps(m, shell, half) for name, half in necklines.items()},
        how={"front": _HOW, "back": _HOW},
        cautions={"front": _SNAPS, "back": _SNAPS},
    )


def _laps(m: Measures, shell: _body.Shell, neckline: Cubic) -> tuple[Edge, ...]:
    """Return the laps' bound edges, from the neckline to the armhole."""
    depth = m.mm("lap_depth")
    leaves = neckline.at(parameter_at(neckline, _LAP * neckline.b.x))
    if not shell.shoulder.y < depth < shell.underarm.y or leaves.y >= depth:
        raise ValueError("lap_depth must lie between shoulder_drop and armhole_depth")
    # The armhole's y rises all along: turned on its side it is a curve whose x does.
    scye = shell.scye
    sideways = Cubic(*(Point(p.y, p.x) for p in (scye.a, scye.p, scye.q, scye.b)))
    edge = Path((Line(leaves, scye.at(parameter_at(sideways, depth))),))
    spread = m["lap_depth"].plus_minus
    return tuple(
        Edge("lap", path, spread, 0.5, clear=0.5 * INCH, rests_on=("lap_depth",))
        for path in (edge, mirrored(edge))
    )


BLOCK = Block(
    title="infant bodysuit",
    needs=_body.NEEDS | _body.SLEEVES | {"lap_depth", "crotch_width", "leg_height"},
    draw=draw,
)
