"""Values that tests of several subjects draw at random: places, segments, outlines, garments."""

import math

from hypothesis import assume
from hypothesis import strategies as st

from jigs.geometry import Affine, Arc, Cubic, Line, Path, Point, Segment
from jigs.geometry.point import distance
from jigs.tables.measure import Measure, Measures


def numbers(least: float, most: float, places: int = 3) -> st.SearchStrategy[float]:
    """Return numbers as a person types them: a few decimals."""
    return st.floats(least, most).map(lambda value: round(value, places))


def points(reach: float = 300.0) -> st.SearchStrategy[Point]:
    """Return points no farther from the axes than a reach."""
    return st.builds(Point, numbers(-reach, reach), numbers(-reach, reach))


@st.composite
def lines(draw: st.DrawFn) -> Line:
    """Draw a line of at least a millimetre."""
    a, b = draw(points()), draw(points())
    assume(distance(a, b) >= 1)
    return Line(a, b)


@st.composite
def arcs(draw: st.DrawFn) -> Arc:
    """Draw an arc, either way round, from nearly straight to nearly a full circle."""
    chord = draw(lines())
    angle = math.radians(draw(numbers(1, 350)))
    return Arc(chord.a, chord.b, draw(st.sampled_from((-1, 1))) * math.tan(angle / 4))


@st.composite
def cubics(draw: st.DrawFn) -> Cubic:
    """Draw any cubic, also with loops and cusps."""
    return Cubic(*(draw(points()) for _ in range(4)))


@st.composite
def fair_cubics(draw: st.DrawFn) -> Cubic:
    """Draw a cubic that goes forward all along, as seams do."""
    x = [draw(numbers(20, 100)) for _ in range(3)]
    y = [draw(numbers(-60, 60)) for _ in range(4)]
    return Cubic(
        Point(0.0, y[0]),
        Point(x[0], y[1]),
        Point(x[0] + x[1], y[2]),
        Point(x[0] + x[1] + x[2], y[3]),
    )


def segments() -> st.SearchStrategy[Segment]:
    """Return segments of all three kinds."""
    return st.one_of(lines(), arcs(), cubics())


@st.composite
def similarities(draw: st.DrawFn) -> tuple[Affine, float]:
    """Draw a map that keeps circles, and the factor by which it scales lengths."""
    factor = draw(numbers(0.1, 5))
    mirror = draw(st.sampled_from((-1, 1)))
    shift = draw(points())
    by = (
        Affine.scale(factor * mirror, factor)
        .then(Affine.turn(draw(numbers(0, 360, 1))))
        .then(Affine.move(shift.x, shift.y))
    )
    return by, factor


@st.composite
def outlines(draw: st.DrawFn) -> Path:
    """Draw a closed outline of lines and arcs that does not cross itself, either way round.

    Corners lie on all sides of the origin, 40 to 120 mm from it. The polyline of the outline is
    asked whether it crosses itself, and no corner is sharper than 30 degrees.
    """
    import shapely

    count = draw(st.integers(3, 8))
    corners = []
    for k in range(count):
        angle = (k + draw(numbers(0, 0.6))) * math.tau / count
        out = draw(numbers(40, 120))
        corners.append(Point(out * math.cos(angle), out * math.sin(angle)))
    made: list[Segment] = []
    for k, a in enumerate(corners):
        b = corners[(k + 1) % count]
        bulge = draw(st.sampled_from((0.0, 0.0, -0.3, -0.1, 0.1, 0.3)))
        made.append(Arc(a, b, bulge) if bulge else Line(a, b))
    path = Path(tuple(made))
    for k, after in enumerate(path.segments):
        before = path.segments[k - 1]
        into, out_of = before.tangent(1).unit(), after.tangent(0).unit()
        assume(into.dot(out_of) > -math.cos(math.radians(30)))
    assume(shapely.Polygon(path.points()).buffer(-1).geom_type == "Polygon")
    assume(shapely.Polygon(path.points()).is_valid)
    return draw(st.sampled_from((path, path.reversed())))


@st.composite
def crew_tees(draw: st.DrawFn) -> Measures:
    """Draw the measures of a crew tee, from a newborn's to a very large one, of odd proportions.

    The proportions reach somewhat beyond those of the package's own tables on both sides.
    """
    chest = draw(numbers(180, 900, 1))

    def part(of: float, least: float, most: float) -> float:
        return round(of * draw(numbers(least, most)), 1)

    neck = part(chest, 0.22, 0.55)
    across = round(neck + part(chest - neck, 0.45, 1.05), 1)
    shoulder = part((across - neck) / 2, math.tan(math.radians(8)), math.tan(math.radians(32)))
    front = part(neck, 0.35, 0.7)
    depth = round(max(shoulder, front) + part(chest, 0.22, 0.45), 1)
    bicep = part(depth, 0.5, 0.9)
    values = {
        "half_chest": chest,
        "body_length": round(depth + 30 + part(chest, 0.4, 1.3), 1),
        "neck_width": neck,
        "front_neck_drop": front,
        "back_neck_drop": part(neck, 0.05, 0.25),
        "across_shoulder": across,
        "shoulder_drop": max(1.0, shoulder),
        "armhole_depth": depth,
        "sleeve_length": part(chest, 0.25, 0.55),
        "sleeve_opening": part(bicep, 0.75, 1.0),
        "bicep": bicep,
        "rib_width": part(neck, 0.05, 0.2),
        "hem_width": part(chest, 0.88, 1.2),
    }
    slack = draw(numbers(0, 12, 1))
    age = draw(st.sampled_from(("infant", "toddler", "youth", "adult")))
    return Measures("drawn", "M", age, {k: Measure(v, slack) for k, v in values.items()})
