"""Line, arc and cubic Bézier: the three kinds of segment an outline is made of.

Each stores its two ends, so that an outline closes exactly. A segment runs from `a` (t = 0) to
`b` (t = 1); `swept` is its share of Green's integral ½∮(x dy − y dx), so that the sum over a
closed outline is its area, positive when it turns from +x towards +y.
"""

import math
from dataclasses import dataclass

from jigs.geometry.point import Affine, Box, Point, distance, quick
from jigs.units import Mm

#: Nodes and weights of 8-point Gauss-Legendre quadrature on [-1, 1] (Abramowitz & Stegun, 25.4).
_GAUSS = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight segment."""

    a: Point
    b: Point

    def at(self, t: float) -> Point:
        """Return the point at t in 0..1."""
        if t == 1:
            return self.b
        return Point(self.a.x + (self.b.x - self.a.x) * t, self.a.y + (self.b.y - self.a.y) * t)

    def tangent(self, _t: float) -> Point:
        """Return the derivative by t."""
        return self.b.minus(self.a)

    def length(self) -> Mm:
        """Return the length."""
        return distance(self.a, self.b)

    def bounds(self) -> Box:
        """Return the bounding box."""
        return Box.around((self.a, self.b))

    def split(self, t: float) -> "tuple[Line, Line]":
        """Return the parts before and after t."""
        middle = self.at(t)
        return Line(self.a, middle), Line(middle, self.b)

    def reversed(self) -> "Line":
        """Return the segment run backwards."""
        return Line(self.b, self.a)

    def moved(self, by: Affine) -> "Line":
        """Return the image under an affine map."""
        return Line(by.on(self.a), by.on(self.b))

    def moved_between(self, a: Point, b: Point, _by: Affine) -> "Line":
        """Return the image under a map whose images of the ends are known."""
        return Line(a, b)

    def swept(self) -> float:
        """Return this segment's share of the area integral."""
        return self.a.cross(self.b) / 2

    def points(self, _tolerance: Mm) -> list[Point]:
        """Return the points of the polyline after `a`."""
        return [self.b]


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc given by its ends and its bulge, the tangent of a quarter of its angle.

    The bulge is positive when the arc turns from +x towards +y. This is the number DXF stores
    for a polyline's arc (DXF Reference, LWPOLYLINE group code 42), there with y up.
    """

    a: Point
    b: Point
    bulge: float

    @property
    def angle(self) -> float:
        """Signed angle the arc turns through, radians."""
        return 4 * math.atan(self.bulge)

    @property
    def radius(self) -> Mm:
        """Radius of the circle."""
        return distance(self.a, self.b) * (1 + self.bulge**2) / (4 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Centre of the circle."""
        # In plain numbers, not vectors: lettering asks for it a hundred thousand times an order.
        (ax, ay), (bx, by) = self.a, self.b
        rise = (1 - self.bulge**2) / (4 * self.bulge)
        return quick(((ax + bx) / 2 - (by - ay) * rise, (ay + by) / 2 + (bx - ax) * rise))

    @classmethod
    def round(cls, centre: Point, radius: Mm, start: float, sweep: float) -> "Arc":
        """Return the arc from a start angle through a signed sweep, both in radians."""

        def on(angle: float) -> Point:
            return Point(centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle))

        return cls(on(start), on(start + sweep), math.tan(sweep / 4))

    def at(self, t: float) -> Point:
        """Return the point at t in 0..1, at an even pace."""
        if t in (0, 1):
            return self.b if t else self.a
        centre, turn = self.centre, self.angle * t
        out = self.a.minus(centre)
        cos, sin = math.cos(turn), math.sin(turn)
        return Point(centre.x + out.x * cos - out.y * sin, centre.y + out.x * sin + out.y * cos)

    def tangent(self, t: float) -> Point:
        """Return the derivative by t."""
        return self.at(t).minus(self.centre).quarter().times(self.angle)

    def length(self) -> Mm:
        """Return the length along the arc."""
        return self.radius * abs(self.angle)

    def bounds(self) -> Box:
        """Return the exact bounding box."""
        centre, radius = self.centre, self.radius
        start = math.atan2(self.a.y - centre.y, self.a.x - centre.x)
        points = [self.a, self.b]
        for k in range(4):
            axis = k * math.pi / 2
            ahead = (axis - start) if self.bulge > 0 else (start - axis)
            if ahead % math.tau < abs(self.angle):
                cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[k]
                points.append(Point(centre.x + radius * cos, centre.y + radius * sin))
        return Box.around(points)

    def split(self, t: float) -> "tuple[Arc, Arc]":
        """Return the parts before and after t."""
        middle = self.at(t)
        return (
            Arc(self.a, middle, math.tan(self.angle * t / 4)),
            Arc(middle, self.b, math.tan(self.angle * (1 - t) / 4)),
        )

    def reversed(self) -> "Arc":
        """Return the arc run backwards."""
        return Arc(self.b, self.a, -self.bulge)

    def moved(self, by: Affine) -> "Arc":
        """Return the image under a map that keeps circles.

        Raises:
            ValueError: the map would make an ellipse of the arc.
        """
        return self.moved_between(by.on(self.a), by.on(self.b), by)

    def moved_between(self, a: Point, b: Point, by: Affine) -> "Arc":
        """Return the image, as `moved`, under a map whose images of the ends are known.

        Raises:
            ValueError: the map would make an ellipse of the arc.
        """
        # The first test alone decides for every turn, shift and even scaling, at once.
        if not (by.a == by.d and by.b == -by.c) and not by.is_similarity:
            raise ValueError("an arc cannot be stretched: turn it into cubics first")
        return Arc(a, b, self.bulge if by.determinant > 0 else -self.bulge)

    def swept(self) -> float:
        """Return this segment's share of the area integral."""
        segment = self.radius**2 * (abs(self.angle) - math.sin(abs(self.angle))) / 2
        return self.a.cross(self.b) / 2 + math.copysign(segment, self.bulge)

    def points(self, tolerance: Mm) -> list[Point]:
        """Return the polyline after `a`, on the arc, its chords within the tolerance."""
        step = 2 * math.acos(max(-1.0, 1 - tolerance / self.radius))
        count = max(1, math.ceil(abs(self.angle) / step)) if step > 0 else 1
        return [self.at(k / count) for k in range(1, count)] + [self.b]

    def cubics(self, tolerance: Mm) -> "list[Cubic]":
        """Return cubics within the tolerance of the arc.

        One cubic of angle θ strays by about r·(θ/2)^6·2/27/32 at most; the count is chosen by
        it (Goldapp, "Approximation of circular arcs by cubic polynomials", 1991).
        """
        # What each property works out is asked for once: a page of letters has thousands of arcs.
        angle = self.angle
        strays = self.radius * 2 / 27 / 32 * (abs(angle) / 2) ** 6
        count = math.ceil(abs(angle) / 1.6)
        if strays > tolerance:
            count = max(count, math.ceil((strays / tolerance) ** (1 / 6)))
        reach = 4 / 3 * math.tan(angle / count / 4)
        (cx, cy), made = self.centre, []
        here = self.a
        for k in range(1, count + 1):
            there = self.b if k == count else self.at(k / count)
            (hx, hy), (tx, ty) = here, there
            p = quick((hx - (hy - cy) * reach, hy + (hx - cx) * reach))
            q = quick((tx + (ty - cy) * reach, ty - (tx - cx) * reach))
            made.append(Cubic(here, p, q, there))
            here = there
        return made


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bézier: its ends `a` and `b`, its handles `p` and `q`."""

    a: Point
    p: Point
    q: Point
    b: Point

    def at(self, t: float) -> Point:
        """Return the point at t in 0..1."""
        if t in (0, 1):
            return self.b if t else self.a
        u = 1 - t
        f, g, h, i = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        return Point(
            f * self.a.x + g * self.p.x + h * self.q.x + i * self.b.x,
            f * self.a.y + g * self.p.y + h * self.q.y + i * self.b.y,
        )

    def tangent(self, t: float) -> Point:
        """Return the derivative by t."""
        u = 1 - t
        first, second, third = (
            self.p.minus(self.a),
            self.q.minus(self.p),
            self.b.minus(self.q),
        )
        return first.times(3 * u * u).plus(second.times(6 * u * t)).plus(third.times(3 * t * t))

    def length(self) -> Mm:
        """Return the length along the curve, by Gauss-Legendre quadrature on 8 parts."""
        total = 0.0
        for k in range(8):
            for node, weight in _GAUSS:
                for signed in (-node, node):
                    total += weight * self.tangent((k + (signed + 1) / 2) / 8).length()
        return total / 16

    def bounds(self) -> Box:
        """Return the exact bounding box, from the roots of the derivative."""
        ends = [self.a, self.b]
        for axis in (0, 1):
            a, p, q, b = self.a[axis], self.p[axis], self.q[axis], self.b[axis]
            ends += [
                self.at(t)
                for t in quadratic_roots(-a + 3 * p - 3 * q + b, 2 * (a - 2 * p + q), p - a)
                if 0 < t < 1
            ]
        return Box.around(ends)

    def split(self, t: float) -> "tuple[Cubic, Cubic]":
        """Return the parts before and after t (de Casteljau)."""

        def mix(a: Point, b: Point) -> Point:
            return Point(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)

        ap, pq, qb = mix(self.a, self.p), mix(self.p, self.q), mix(self.q, self.b)
        left, right = mix(ap, pq), mix(pq, qb)
        middle = mix(left, right)
        return Cubic(self.a, ap, left, middle), Cubic(middle, right, qb, self.b)

    def reversed(self) -> "Cubic":
        """Return the curve run backwards."""
        return Cubic(self.b, self.q, self.p, self.a)

    def moved(self, by: Affine) -> "Cubic":
        """Return the image under an affine map."""
        return Cubic(by.on(self.a), by.on(self.p), by.on(self.q), by.on(self.b))

    def moved_between(self, a: Point, b: Point, by: Affine) -> "Cubic":
        """Return the image under a map whose images of the ends are known."""
        return Cubic(a, by.on(self.p), by.on(self.q), b)

    def swept(self) -> float:
        """Return this segment's share of the area integral, in closed form."""
        a, p, q, b = self.a, self.p, self.q, self.b
        return (
            6 * a.cross(p) + 3 * a.cross(q) + a.cross(b) + 3 * p.cross(q) + 3 * p.cross(b)
            + 6 * q.cross(b)
        ) / 20  # fmt: skip

    def points(self, tolerance: Mm) -> list[Point]:
        """Return the polyline after `a`, on the curve, its chords within the tolerance.

        The even count follows from the second difference (Wang's formula, after Sederberg,
        "Computer Aided Geometric Design", section 10.6).
        """
        bend = max(
            self.a.minus(self.p.times(2)).plus(self.q).length(),
            self.p.minus(self.q.times(2)).plus(self.b).length(),
        )
        count = max(1, math.ceil(math.sqrt(0.75 * bend / tolerance)))
        return [self.at(k / count) for k in range(1, count)] + [self.b]


def quadratic_roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Return the real roots of a t² + b t + c, rising; none of a constant."""
    scale = max(abs(a), abs(b), abs(c))
    if scale == 0:
        return ()
    if abs(a) < 1e-14 * scale:
        return (-c / b,) if abs(b) >= 1e-14 * scale else ()
    inside = b * b - 4 * a * c
    if inside < 0:
        return ()
    # The root far from cancellation first (Numerical Recipes, section 5.6).
    q = -(b + math.copysign(math.sqrt(inside), b)) / 2
    roots = {q / a, c / q if q else 0.0}
    return tuple(sorted(roots))
