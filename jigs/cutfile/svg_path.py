"""The shapes of SVG as segments; path data is taken apart by fontTools."""

import math
from collections.abc import Sequence
from itertools import pairwise

from jigs.geometry import Affine, Arc, Box, Cubic, Line, Path, Point, Segment
from jigs.geometry.path import rounded
from jigs.geometry.point import distance

#: How closely Béziers stand in for the arc of an ellipse.
_FIT = 0.001


class _Pen:
    """Takes what fontTools reads, subpath by subpath."""

    def __init__(self) -> None:
        self.found: list[list[Segment]] = []
        self.at = Point(0.0, 0.0)

    def moveTo(self, at: tuple[float, float]) -> None:  # noqa: N802 - fontTools' name
        """Begin a subpath."""
        self.at = Point(*at)
        self.found.append([])

    def lineTo(self, to: tuple[float, float]) -> None:  # noqa: N802
        """Draw a line; one without length is what closes a path that is closed already."""
        self._add(Line(self.at, Point(*to)))

    def curveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        """Draw a cubic."""
        p, q, b = (Point(*one) for one in points)
        self._add(Cubic(self.at, p, q, b))

    def qCurveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        """Draw a quadratic, as the cubic that it is."""
        p, b, a = Point(*points[0]), Point(*points[1]), self.at
        one = a.plus(p.minus(a).times(2 / 3))
        self._add(Cubic(a, one, b.plus(p.minus(b).times(2 / 3)), b))

    def arcTo(  # noqa: N802
        self,
        rx: float,
        ry: float,
        rotation: float,
        large: int | bool,  # noqa: FBT001 - what fontTools hands over
        sweep: int | bool,  # noqa: FBT001
        to: tuple[float, float],
    ) -> None:
        """Draw an elliptical arc."""
        found = arc(
            self.at, Point(*to), abs(rx), abs(ry), rotation, large=bool(large), sweep=bool(sweep)
        )
        for segment in found:
            self._add(segment)

    def closePath(self) -> None:  # noqa: N802
        """End a subpath where it began, to the last bit."""
        sides = self.found[-1]
        if len(sides) > 1 and distance(sides[-1].a, sides[-1].b) < 1e-9:
            sides.pop()
        if sides and sides[-1].b != sides[0].a:
            sides.append(Line(sides[-1].b, sides[0].a))

    def endPath(self) -> None:  # noqa: N802
        """End a subpath where it is."""

    def _add(self, segment: Segment) -> None:
        self.found[-1].append(segment)
        self.at = segment.b


def subpaths(data: str) -> list[list[Segment]]:
    """Return the subpaths of path data.

    Raises:
        ValueError: it is malformed.
    """
    from fontTools.svgLib.path import parse_path

    pen = _Pen()
    parse_path(data, pen)
    return [sides for sides in pen.found if sides]


def arc(
    a: Point,
    b: Point,
    rx: float,
    ry: float,
    turned: float,
    *,
    large: bool,
    sweep: bool,
) -> list[Segment]:
    """Return the arc of a circle or an ellipse between two points (SVG 1.1, appendix F.6)."""
    if a == b:
        return []
    if not rx or not ry:
        return [Line(a, b)]
    if abs(rx - ry) <= 1e-9 * max(rx, ry):
        return [_round(a, b, rx, large=large, sweep=sweep)]
    # The ellipse is a stretched circle of radius 1.
    flat = Affine.turn(-turned).then(Affine.scale(1 / rx, 1 / ry))
    back = Affine.scale(rx, ry).then(Affine.turn(turned))
    one = _round(flat.on(a), flat.on(b), 1.0, large=large, sweep=sweep)
    cubics = one.cubics(_FIT / max(rx, ry, 1.0))
    moved: list[Segment] = [part.moved(back) for part in cubics]
    first, last = moved[0], moved[-1]
    assert isinstance(first, Cubic)  # noqa: S101 - what `cubics` gives
    moved[0] = Cubic(a, first.p, first.q, first.b)
    last = moved[-1]
    assert isinstance(last, Cubic)  # noqa: S101
    moved[-1] = Cubic(last.a, last.p, last.q, b)
    return moved


def _round(a: Point, b: Point, radius: float, *, large: bool, sweep: bool) -> Arc:
    half = min(1.0, distance(a, b) / 2 / radius)
    angle = 2 * math.asin(half)
    angle = math.tau - angle if large else angle
    return Arc(a, b, math.tan(angle / 4) * (1 if sweep else -1))


def rectangle(
    x: float, y: float, width: float, height: float, rx: float, ry: float
) -> list[Segment]:
    """Return a rectangle, its corners rounded; those of an ellipse by Béziers."""
    if width <= 0 or height <= 0:
        return []
    rx, ry = min(abs(rx), width / 2), min(abs(ry), height / 2)
    corners = Box(x, y, x + width, y + height).corners()
    if not rx or not ry:
        return list(rounded(corners, (0.0,) * 4).segments)
    squeezed = Affine.scale(1.0, rx / ry)
    made = rounded([squeezed.on(corner) for corner in corners], (rx,) * 4).segments
    back = Affine.scale(1.0, ry / rx)
    if rx == ry:
        return list(made)
    parts = [p for s in made for p in (s.cubics(_FIT) if isinstance(s, Arc) else [s])]
    return [part.moved(back) for part in parts]


def ellipse(x: float, y: float, rx: float, ry: float) -> list[Segment]:
    """Return a circle, or an ellipse by Béziers."""
    if rx <= 0 or ry <= 0:
        return []
    circle = Path.circle(Point(x, y), rx).segments
    if rx == ry:
        return list(circle)
    by = Affine.move(-x, -y).then(Affine.scale(1.0, ry / rx)).then(Affine.move(x, y))
    return [p.moved(by) for s in circle if isinstance(s, Arc) for p in s.cubics(_FIT)]


def polyline(numbers: Sequence[float], *, closed: bool) -> list[Segment]:
    """Return straight sides through points given as x y x y."""
    points = [Point(*pair) for pair in zip(numbers[::2], numbers[1::2], strict=False)]
    if closed and points and points[0] != points[-1]:
        points.append(points[0])
    return [Line(a, b) for a, b in pairwise(points)]
