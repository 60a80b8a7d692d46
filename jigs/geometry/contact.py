"""Where a concave edge, pushed against a seam, first touches it, and the tilt it has left.

Both curves are symmetric about x = 0; each is given by its half on x >= 0, a cubic that runs
outwards from the centre with x rising. y is down and the edge is pushed up, so that it rests
where seam minus edge is greatest.
"""

import math
from dataclasses import dataclass
from functools import cache

from jigs.geometry.segments import Cubic
from jigs.units import Mm

_SAMPLES = 96
#: Of those every so many is taken for the play, which is slower to find.
_SPARSE = 2
#: The place of the contact is found to within this; its height, being extreme there, far closer.
EXACT: Mm = 1e-3


@dataclass(frozen=True, slots=True)
class Contact:
    """How an edge rests on a seam."""

    shift: Mm
    """How far the edge lies below its place in the drawing when it rests (may be negative)."""
    at: Mm
    """x of the first contact on the right half; 0 is the centre, and it touches at -x too."""
    tilt: float
    """Degrees the edge can turn about its seat before it backs off by more than `feel`."""
    play: Mm
    """How far it can slide to one side before it does: no farther than it is engaged."""


def rest(edge: Cubic, seam: Cubic, half_width: Mm, feel: Mm, inner: Mm = 0.0) -> Contact:
    """Return how an edge, engaged over inner <= |x| <= half_width, rests on a seam.

    Turned by θ the edge rests at max over x of seam(x) − edge(x) − θ·x, a little lower than
    untilted. With d(x) = seam(x) − edge(x) and D its greatest value, the lift stays within
    `feel` while θ <= min over x > 0 of (feel + D − d(x)) / x. Slid by s towards one side it backs
    off no farther while s <= min over x > 0 of x − u(x), with seam(u(x)) = edge(x) + D + feel: the
    other half of the edge meets the seam nearer to the centre, where it is lower. The tilt is
    found at `_SAMPLES` places, the play at half of them and to 0.01 mm.

    Raises:
        ValueError: the half width is no more than `inner`, or longer than one of the curves.
    """
    if not 0 <= inner < half_width <= min(edge.b.x, seam.b.x) + 1e-9:
        raise ValueError(f"the curves do not reach {half_width} from the centre")

    def gap(x: Mm) -> Mm:
        return height_at(seam, x) - height_at(edge, x)

    xs = _across(half_width, inner)
    heights = list(zip(_heights(seam, xs), _heights(edge, xs), strict=True))
    gaps = [c - j for c, j in heights]
    best = max(range(len(xs)), key=lambda k: (gaps[k], -k))
    low, high = xs[max(0, best - 1)], xs[min(_SAMPLES, best + 1)]
    while high - low > EXACT:
        third = (high - low) / 3
        if gap(low + third) >= gap(high - third):
            high -= third
        else:
            low += third
    at, shift = (low + high) / 2, gap((low + high) / 2)
    if gaps[best] >= shift:
        at, shift = xs[best], gaps[best]
    free = min((feel + shift - d) / x for x, d in zip(xs, gaps, strict=True) if x > 0)
    # Where the seam is nowhere so low, the edge slides past its centre.
    slides = [
        x - across_at(seam, j + shift + feel)
        for x, (_, j) in zip(xs[::_SPARSE], heights[::_SPARSE], strict=True)
        if x > 0 and j + shift + feel < seam.a.y
    ]
    # A seam's point lies between those places, and is met where the edge is as low.
    if seam.p.y < seam.a.y and inner < (met := across_at(edge, seam.a.y - shift - feel)):
        slides.append(met)
    play = min((half_width, *slides))
    return Contact(shift, at, math.degrees(math.atan(free)), play)


def across_at(curve: Cubic, y: Mm) -> Mm:
    """Return the x at which a cubic, whose y falls all along, is at a height; its end's if above.

    Found by halving, to within 1e-9 of the curve.
    """
    low, high = 0.0, 1.0
    if y <= curve.b.y:
        return curve.b.x
    while high - low > 1e-9:
        middle = (low + high) / 2
        low, high = (middle, high) if curve.at(middle).y > y else (low, middle)
    return curve.at((low + high) / 2).x


def height_at(curve: Cubic, x: Mm) -> Mm:
    """Return a curve's y at an x, for a cubic whose x rises all along.

    Raises:
        ValueError: the curve does not reach that x.
    """
    return curve.at(parameter_at(curve, x)).y


@cache
def _across(half_width: Mm, inner: Mm) -> tuple[Mm, ...]:
    """Return even steps of x over what is engaged."""
    return tuple(inner + (half_width - inner) * k / _SAMPLES for k in range(_SAMPLES + 1))


@cache
def _heights(curve: Cubic, xs: tuple[Mm, ...]) -> tuple[Mm, ...]:
    """Return the curve's y at some x; one curve is laid against many others."""
    return tuple(height_at(curve, x) for x in xs)


def parameter_at(curve: Cubic, x: Mm) -> float:
    """Return the t at which a cubic, whose x rises all along, has an x (safeguarded Newton).

    Raises:
        ValueError: the curve does not reach that x.
    """
    if not curve.a.x - 1e-9 <= x <= curve.b.x + 1e-9:
        raise ValueError(f"the curve spans {curve.a.x} to {curve.b.x}, not {x}")
    # x(t) = ((c3 t + c2) t + c1) t + c0, in plain numbers: this is the innermost loop of a plan.
    c0, c1 = curve.a.x, 3 * (curve.p.x - curve.a.x)
    c2 = 3 * (curve.a.x - 2 * curve.p.x + curve.q.x)
    c3 = curve.b.x - curve.a.x + 3 * (curve.p.x - curve.q.x)
    low, high = 0.0, 1.0
    t = (x - curve.a.x) / (curve.b.x - curve.a.x)
    for _ in range(60):
        off = ((c3 * t + c2) * t + c1) * t + c0 - x
        if abs(off) < 1e-11:
            return t
        low, high = (low, t) if off > 0 else (t, high)
        slope = (3 * c3 * t + 2 * c2) * t + c1
        step = t - off / slope if slope > 0 else -1.0
        t = step if low < step < high else (low + high) / 2
    return t
