"""Inner corners: those that point into the material, where a crack begins.

Only concave turns are looked at. The ends of a seat edge stay sharp on purpose, but they are
convex, as are the mouths of a notch and of the relief of a V, so that nothing is exempt by name.
A round hole has no corner, however small.
"""

import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from jigs.geometry import Arc, Cubic, Line, Path, Point, Segment
from jigs.geometry.point import distance
from jigs.rules.outlines import Contour, flat
from jigs.rules.violation import Facts, Violation
from jigs.units import Mm

#: A radius and where it is.
Corner: TypeAlias = tuple[Mm, Point]

#: What a file's decimals may take from a radius.
_SLACK: Mm = 0.005
#: A bend of more than this, in degrees, between two sides is a corner, not a facet of a curve.
_SHARP = 20.0
#: A bend of less than this is the decimals of a file.
_STRAIGHT = 0.5
#: Places at which a Bézier's curvature is looked at.
_CHECKS = 16
#: All points of a round outline are as far from its middle, to this.
_ROUND: Mm = 0.02


def corner_faults(contours: Sequence[Contour], facts: Facts) -> Iterator[Violation]:
    """Yield the inner corners that are sharper than the least radius."""
    # The tool takes half its kerf from an inner corner's radius and gives it to the part's.
    least = facts.least_inner - facts.kerf / 2
    for radius, at in inner_corners(contours):
        if radius < least - _SLACK:
            how = f"of radius {radius:.2f} mm" if radius else "that is sharp"
            says = f"an inner corner {how}, under {least:g} mm"
            yield Violation("inner corner", says, at)


def inner_corners(contours: Sequence[Contour]) -> Iterator[Corner]:
    """Yield every inner corner's radius, 0 for a sharp one; curves' where they are tightest."""
    for one in contours:
        if round_hole(one.path) is None:
            turn = (1 if one.path.area() > 0 else -1) * (-1 if one.hole else 1)
            yield from _concave(one.path.segments, turn)


def round_hole(path: Path) -> tuple[Point, Mm] | None:
    """Return middle and radius of an outline that is a circle, by whatever it is drawn."""
    box, points = path.bounds(), flat(path)
    middle, radius = box.centre, (box.width + box.height) / 4
    if len(points) < 13 and not all(isinstance(s, Arc) for s in path.segments):
        return None
    if all(abs(distance(middle, point) - radius) <= _ROUND for point in points):
        return middle, radius
    return None


def _concave(segments: Sequence[Segment], turn: int) -> Iterator[Corner]:
    for before, here in zip((segments[-1], *segments[:-1]), segments, strict=True):
        radius = _joint(before, here, turn)
        if radius is not None:
            yield radius, here.a
        if isinstance(here, Arc) and here.bulge * turn < 0:
            yield here.radius, here.at(0.5)
        elif isinstance(here, Cubic):
            tight = min(_tight(here, turn), default=None)
            if tight is not None:
                yield tight


def _joint(before: Segment, here: Segment, turn: int) -> Mm | None:
    """Return the radius at which two sides meet, if they meet in an inner corner.

    Many short sides may stand for a curve: each then turns a little, over its own length.
    """
    one, two = before.tangent(1), here.tangent(0)
    if not one.length() or not two.length():
        return None
    bend = math.degrees(math.atan2(one.cross(two), one.dot(two))) * turn
    if bend > -_STRAIGHT:
        return None
    if bend < -_SHARP:
        return 0.0
    if isinstance(before, Line) and isinstance(here, Line):
        return min(before.length(), here.length()) / math.radians(-bend)
    return None


def _tight(cubic: Cubic, turn: int) -> Iterator[Corner]:
    """Yield radii along a Bézier where it turns into the material."""
    step = 1 / _CHECKS
    for k in range(_CHECKS):
        one, two = cubic.tangent(k * step), cubic.tangent((k + 1) * step)
        angle = math.atan2(one.cross(two), one.dot(two)) * turn
        if angle < -1e-6:
            a, b = cubic.at(k * step), cubic.at((k + 1) * step)
            yield distance(a, b) / 2 / math.sin(-angle / 2), cubic.at((k + 0.5) * step)
