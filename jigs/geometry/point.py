"""Points, boxes and affine maps of the plane."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

from jigs.units import Mm


class Point(NamedTuple):
    """A point, or the vector to it."""

    x: Mm
    y: Mm

    def plus(self, other: "Point") -> "Point":
        """Return the sum of the two vectors."""
        return Point(self.x + other.x, self.y + other.y)

    def minus(self, other: "Point") -> "Point":
        """Return the vector from the other point to this one."""
        return Point(self.x - other.x, self.y - other.y)

    def times(self, factor: float) -> "Point":
        """Return the vector scaled."""
        return Point(self.x * factor, self.y * factor)

    def dot(self, other: "Point") -> float:
        """Return the scalar product."""
        return self.x * other.x + self.y * other.y

    def cross(self, other: "Point") -> float:
        """Return the z of the vector product: positive when `other` lies towards +y from +x."""
        return self.x * other.y - self.y * other.x

    def length(self) -> Mm:
        """Return the vector's length."""
        return math.hypot(self.x, self.y)

    def unit(self) -> "Point":
        """Return the vector scaled to length 1.

        Raises:
            ValueError: the vector is zero and has no direction.
        """
        length = self.length()
        if length == 0:
            raise ValueError("a zero vector has no direction")
        return Point(self.x / length, self.y / length)

    def quarter(self) -> "Point":
        """Return the vector turned a quarter from +x towards +y."""
        return Point(-self.y, self.x)


#: A point from its two numbers, in half the time: for the innermost steps of all that is drawn.
quick: Callable[[tuple[Mm, Mm]], Point] = partial(tuple.__new__, Point)


def distance(a: Point, b: Point) -> Mm:
    """Return the distance of two points."""
    return math.hypot(a.x - b.x, a.y - b.y)


def from_chord(point: Point, a: Point, b: Point) -> Mm:
    """Return how far a point lies from the straight line between two others."""
    along, to = b.minus(a), point.minus(a)
    square = along.dot(along)
    share = max(0.0, min(1.0, to.dot(along) / square)) if square else 0.0
    return math.hypot(to.x - along.x * share, to.y - along.y * share)


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle: left, top, right, bottom."""

    left: Mm
    top: Mm
    right: Mm
    bottom: Mm

    @classmethod
    def around(cls, points: Iterable[Point]) -> "Box":
        """Return the smallest box that holds the points.

        Raises:
            ValueError: there are none.
        """
        found = tuple(points)
        if not found:
            raise ValueError("no points, no box")
        xs, ys = [p[0] for p in found], [p[1] for p in found]
        return cls(min(xs), min(ys), max(xs), max(ys))

    @classmethod
    def of_all(cls, boxes: Iterable["Box"]) -> "Box":
        """Return the smallest box that holds the boxes.

        Raises:
            ValueError: there are none.
        """
        found = tuple(boxes)
        if not found:
            raise ValueError("no boxes, no box")
        return cls(
            min(b.left for b in found),
            min(b.top for b in found),
            max(b.right for b in found),
            max(b.bottom for b in found),
        )

    @property
    def width(self) -> Mm:
        """Width of the box."""
        return self.right - self.left

    @property
    def height(self) -> Mm:
        """Height of the box."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """Middle of the box."""
        return Point((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    def grown(self, by: Mm) -> "Box":
        """Return the box with every side moved out."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, x: Mm, y: Mm) -> "Box":
        """Return the box shifted."""
        return Box(self.left + x, self.top + y, self.right + x, self.bottom + y)

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Return the corners from the top left, turning from +x towards +y."""
        return (
            Point(self.left, self.top),
            Point(self.right, self.top),
            Point(self.right, self.bottom),
            Point(self.left, self.bottom),
        )

    def overlaps(self, other: "Box") -> bool:
        """Return whether the insides share a point."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: "Box", slack: Mm = 0.0) -> bool:
        """Return whether the other box lies inside this one, to a slack."""
        return (
            self.left - slack <= other.left
            and self.top - slack <= other.top
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )


@dataclass(frozen=True, slots=True)
class Affine:
    """The map x' = a x + c y + e, y' = b x + d y + f (the letters of SVG's matrix())."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: Mm = 0.0
    f: Mm = 0.0

    @classmethod
    def move(cls, x: Mm, y: Mm) -> "Affine":
        """Return the shift by (x, y)."""
        return cls(e=x, f=y)

    @classmethod
    def scale(cls, x: float, y: float | None = None) -> "Affine":
        """Return the scaling about the origin, one factor or two."""
        return cls(a=x, d=x if y is None else y)

    @classmethod
    def turn(cls, degrees: float) -> "Affine":
        """Return the turn about the origin, from +x towards +y."""
        # A quarter turn is exact, so that a turned drawing keeps its upright lines upright.
        quarter: dict[float, tuple[float, float]] = {
            0: (1.0, 0.0),
            90: (0.0, 1.0),
            180: (-1.0, 0.0),
            270: (0.0, -1.0),
        }
        r = math.radians(degrees)
        cos, sin = quarter.get(degrees % 360, (math.cos(r), math.sin(r)))
        return cls(a=cos, b=sin, c=-sin, d=cos)

    def then(self, after: "Affine") -> "Affine":
        """Return the map that does this one first and the other one after it."""
        return Affine(
            after.a * self.a + after.c * self.b,
            after.b * self.a + after.d * self.b,
            after.a * self.c + after.c * self.d,
            after.b * self.c + after.d * self.d,
            after.a * self.e + after.c * self.f + after.e,
            after.b * self.e + after.d * self.f + after.f,
        )

    def on(self, p: Point) -> Point:
        """Return the image of a point."""
        x, y = p
        return quick((self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f))

    @property
    def determinant(self) -> float:
        """Factor by which areas grow; negative if the map mirrors."""
        return self.a * self.d - self.b * self.c

    @property
    def is_similarity(self) -> bool:
        """Whether circles stay circles."""
        size = abs(self.a) + abs(self.b)
        straight = abs(self.a - self.d) + abs(self.b + self.c)
        mirrored = abs(self.a + self.d) + abs(self.b - self.c)
        return min(straight, mirrored) <= 1e-12 * size
