"""Collars, armholes and sleeves that several blocks share.

Everything here is drawn on the half with x >= 0 and mirrored. The rules of shape are drafting
practice (from memory): the neckline leaves the shoulder seam at a right angle, so that front
and back join without a corner; the armhole leaves it at a right angle too and reaches the
underarm level; a sleeve cap is as long as the armhole it is sewn into.
"""

import math
from itertools import combinations, pairwise

from jigs.geometry import Box, Cubic, Line, Path, Point
from jigs.geometry.point import Affine
from jigs.tables.measure import Measures
from jigs.units import Mm

#: Handle length that makes a cubic quarter turn nearly round.
_ROUND = 0.5523
_MIRROR = Affine.scale(-1, 1)


def mirrored(path: Path) -> Path:
    """Return a path's mirror image on the other side of the centre line, run backwards."""
    return path.moved(_MIRROR).reversed()


def crosses(half: Path) -> bool:
    """Return whether half an outline, from the centre line round to it, crosses it or itself.

    Asked of its polyline to half a millimetre: pieces that only come that close may count too.
    """
    points = half.points(0.5)
    if min(p.x for p in points[1:-1]) <= 0:
        return True
    sides = list(pairwise(points))
    return any(_cross(one, two) for one, two in combinations(sides, 2) if one[1] != two[0])


def _cross(one: tuple[Point, Point], two: tuple[Point, Point]) -> bool:
    """Return whether the ends of each piece lie on two sides of the other."""
    (a, b), (c, d) = one, two
    # Most pieces lie apart, and that is quickly seen.
    if (a.x < c.x and a.x < d.x and b.x < c.x and b.x < d.x) or (
        a.y > c.y and a.y > d.y and b.y > c.y and b.y > d.y
    ):
        return False
    along, beside = b.minus(a), d.minus(c)
    return (
        along.cross(c.minus(a)) * along.cross(d.minus(a)) < 0
        and beside.cross(a.minus(c)) * beside.cross(b.minus(c)) < 0
    )


def strip(half_width: Mm, top: Mm, bottom: Mm) -> Path:
    """Return the outline of an upright strip on the centre line: a placket, a zip."""
    return Path.box(Box(-half_width, top, half_width, bottom))


def both_sides(half: Path) -> Path:
    """Return the path from the mirror image of a half's end, through the centre, to its end."""
    return mirrored(half).then(half)


def collar(half_width: Mm, drop: Mm, slope: float) -> Cubic:
    """Return half a neckline, from the centre out to the HPS.

    `slope` is the shoulder's angle below the level, radians. The curve is level at the centre
    and square to the shoulder seam at the HPS. It stays monotone both ways.
    """
    # A shallow back neck runs level for longer before it turns up to the shoulder.
    level = min(0.75, max(_ROUND, 1 - 1.2 * drop / half_width))
    reach = drop * _ROUND
    inwards = min(reach * math.tan(slope), half_width * (1 - level) * 0.8)
    hps = Point(half_width, 0.0)
    return Cubic(
        Point(0.0, drop),
        Point(half_width * level, drop),
        Point(half_width - inwards, reach),
        hps,
    )


def crew_collars(m: Measures, slope: float) -> dict[str, Cubic]:
    """Return half the round necklines of front and back, by panel."""
    half = m.mm("neck_width") / 2
    return {name: collar(half, m.mm(f"{name}_neck_drop"), slope) for name in ("front", "back")}


def v_collar(half_width: Mm, drop: Mm) -> Cubic:
    """Return half a V neckline, from its point out to the HPS.

    It runs straight from the point for the better half and steepens towards the shoulder
    (drafting practice, from memory). The curve stays monotone both ways.
    """
    return Cubic(
        Point(0.0, drop),
        Point(0.55 * half_width, 0.45 * drop),
        Point(0.82 * half_width, 0.3 * drop),
        Point(half_width, 0.0),
    )


def band_below(neckline: Cubic, depth: Mm) -> Path:
    """Return the closed band from a neckline down to its image that much lower."""
    lower = neckline.moved(Affine.move(0.0, depth))
    half = Path((lower, Line(lower.b, neckline.b), neckline.reversed()))
    return half.then(mirrored(half))


def armhole(shoulder: Point, underarm: Point, slope: float) -> Cubic:
    """Return the armhole from the shoulder point to the underarm point."""
    depth = underarm.y - shoulder.y
    down = Point(-math.sin(slope), math.cos(slope)).times(0.5 * depth)
    return Cubic(
        shoulder,
        shoulder.plus(down),
        Point(min(underarm.x, shoulder.x) - 0.12 * depth, underarm.y - 0.02 * depth),
        underarm,
    )


def cap_height(half_width: Mm, armhole_length: Mm, longest: Mm) -> Mm:
    """Return the height at which half a sleeve cap is as long as its armhole, to 1e-6.

    A cap wider than the armhole allows comes out flat, one that would be taller than `longest`
    stops there: both are matters of ease, not of a given measurement.
    """
    low, high = 0.05 * longest, longest
    if cap(half_width, low).length() >= armhole_length:
        return low
    if cap(half_width, high).length() <= armhole_length:
        return high
    while high - low > 1e-6:
        middle = (low + high) / 2
        if cap(half_width, middle).length() < armhole_length:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def cap(half_width: Mm, height: Mm) -> Cubic:
    """Return half a sleeve cap, from the shoulder point on the fold to the underarm."""
    return Cubic(
        Point(0.0, 0.0),
        Point(0.5 * half_width, 0.0),
        Point(0.55 * half_width, height),
        Point(half_width, height),
    )
