import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jigs.geometry import Affine, Arc, Cubic, Line, Path, Point, Segment
from jigs.geometry.point import distance
from jigs.geometry.segments import quadratic_roots
from tests.strategies import arcs, cubics, fair_cubics, numbers, points, segments, similarities

TOLERANCES = st.sampled_from((0.1, 0.02, 1e-3, 1e-4))
places = st.floats(0.02, 0.98)


def sampled(segment: Segment, count: int = 1000) -> list[Point]:
    """Return points on a segment, at even steps of its parameter."""
    return [segment.at(k / count) for k in range(count + 1)]


@given(segments())
def test_run_backwards_twice_is_the_same(segment: Segment) -> None:
    """Backwards every place is the place from the other end, and twice is as before."""
    back = segment.reversed()

    assert back.reversed() == segment
    assert (back.a, back.b) == (segment.b, segment.a)
    assert back.at(0.25) == pytest.approx(segment.at(0.75), abs=1e-8)
    assert back.tangent(0.25) == pytest.approx(segment.tangent(0.75).times(-1), abs=1e-7)
    assert back.swept() == pytest.approx(-segment.swept(), abs=1e-6)


@given(segments(), places)
def test_a_split_leaves_the_same_curve(segment: Segment, t: float) -> None:
    """The parts join at the place, lie on the curve, and add up in area and bounds."""
    one, two = segment.split(t)

    assert one.a == segment.a
    assert two.b == segment.b
    assert one.b == two.a
    assert one.b == pytest.approx(segment.at(t), abs=1e-8)
    assert one.at(0.5) == pytest.approx(segment.at(t / 2), abs=1e-8)
    assert two.at(0.5) == pytest.approx(segment.at((1 + t) / 2), abs=1e-8)
    assert one.swept() + two.swept() == pytest.approx(segment.swept(), abs=1e-6)
    whole, left, right = segment.bounds(), one.bounds(), two.bounds()
    assert min(left.left, right.left) == pytest.approx(whole.left, abs=1e-8)
    assert min(left.top, right.top) == pytest.approx(whole.top, abs=1e-8)
    assert max(left.right, right.right) == pytest.approx(whole.right, abs=1e-8)
    assert max(left.bottom, right.bottom) == pytest.approx(whole.bottom, abs=1e-8)


@given(st.one_of(arcs(), fair_cubics()), places)
@settings(max_examples=30)
def test_lengths_add_up(segment: Segment, t: float) -> None:
    """The parts of a curve that goes forward are as long as it, and so is a fine polyline."""
    one, two = segment.split(t)
    chain = sampled(segment)
    chords = math.fsum(distance(a, b) for a, b in pairwise(chain))

    assert one.length() + two.length() == pytest.approx(segment.length(), rel=1e-5)
    assert segment.length() == pytest.approx(chords, rel=1e-4)


@given(cubics())
@settings(max_examples=30)
def test_length_of_any_cubic(cubic: Cubic) -> None:
    """Even with a cusp, where the quadrature is at its worst, length is right to 0.2 percent."""
    chain = sampled(cubic)
    chords = math.fsum(distance(a, b) for a, b in pairwise(chain))

    assert cubic.length() == pytest.approx(chords, rel=2e-3, abs=1e-6)


@given(segments())
@settings(max_examples=30)
def test_bounds_hold_the_curve_and_touch_it(segment: Segment) -> None:
    """No sampled point lies outside, and every side is reached by one."""
    box, found = segment.bounds(), sampled(segment)
    xs, ys = [p.x for p in found], [p.y for p in found]

    assert box.left <= min(xs) + 1e-9
    assert box.right >= max(xs) - 1e-9
    assert box.top <= min(ys) + 1e-9
    assert box.bottom >= max(ys) - 1e-9
    # Between two of 1000 samples a curve of such a size rises by less than this.
    assert box.left == pytest.approx(min(xs), abs=5e-3)
    assert box.right == pytest.approx(max(xs), abs=5e-3)
    assert box.top == pytest.approx(min(ys), abs=5e-3)
    assert box.bottom == pytest.approx(max(ys), abs=5e-3)


@given(segments(), places)
def test_the_tangent_is_the_derivative(segment: Segment, t: float) -> None:
    """It is what a small step of the parameter makes, divided by the step."""
    step = 1e-5
    slope = segment.at(t + step).minus(segment.at(t - step)).times(1 / (2 * step))

    assert segment.tangent(t) == pytest.approx(slope, abs=1e-2)


@given(segments(), similarities())
def test_similar_images_keep_their_shape(segment: Segment, drawn: tuple[Affine, float]) -> None:
    """Every place moves with the map, lengths scale by its factor."""
    by, factor = drawn
    image = segment.moved(by)

    assert image.at(0.3) == pytest.approx(by.on(segment.at(0.3)), abs=1e-7)
    assert image.length() == pytest.approx(factor * segment.length(), rel=1e-9)


def test_an_arc_is_not_stretched() -> None:
    """A map that would make an ellipse of it is refused; lines and cubics take any map."""
    stretch, a, b = Affine.scale(2, 1), Point(0, 0), Point(3, 4)

    with pytest.raises(ValueError, match="stretched"):
        Arc(a, b, 0.5).moved(stretch)
    assert Line(a, b).moved(stretch) == Line(a, Point(6, 4))
    assert Cubic(a, b, a, b).moved(stretch).at(0.5) == stretch.on(Cubic(a, b, a, b).at(0.5))


@given(points(100), numbers(1, 200), numbers(0, 6), numbers(0.02, 6.2), st.sampled_from((-1, 1)))
def test_an_arc_is_its_circle(
    centre: Point, radius: float, start: float, angle: float, way: int
) -> None:
    """Made from its circle, an arc gives back the circle, the angle and the length r·θ."""
    arc = Arc.round(centre, radius, start, way * angle)

    assert arc.centre == pytest.approx(centre, abs=1e-6)
    assert arc.radius == pytest.approx(radius, rel=1e-9)
    assert arc.angle == pytest.approx(way * angle, rel=1e-9)
    assert arc.length() == pytest.approx(radius * angle, rel=1e-8)
    for t in (0.1, 0.5, 0.9):
        turned = start + way * angle * t
        on = (centre.x + radius * math.cos(turned), centre.y + radius * math.sin(turned))
        assert arc.at(t) == pytest.approx(on, abs=1e-6)


def test_a_bulge_is_that_of_dxf() -> None:
    """1 is a half circle (DXF Reference, LWPOLYLINE group code 42); positive turns from x to y."""
    half = Arc(Point(-5, 0), Point(5, 0), 1.0)
    quarter = Arc(Point(5, 0), Point(0, 5), math.tan(math.pi / 8))

    assert half.at(0.5) == pytest.approx((0, -5), abs=1e-12)
    assert quarter.centre == pytest.approx((0, 0), abs=1e-12)
    assert quarter.at(0.5) == pytest.approx((5 / math.sqrt(2), 5 / math.sqrt(2)))
    assert quarter.radius == pytest.approx(5)


@given(arcs(), TOLERANCES)
def test_cubics_stay_within_the_tolerance_of_an_arc(arc: Arc, tolerance: float) -> None:
    """Sampled densely, no place of them is farther from the circle; ends and sweep are the arc's.

    Up to 350 degrees and a radius of some tens of metres, for 0.1 to 0.0001 mm.
    """
    made = arc.cubics(tolerance)
    centre, radius = arc.centre, arc.radius

    assert (made[0].a, made[-1].b) == (arc.a, arc.b)
    assert all(one.b == two.a for one, two in pairwise(made))
    noise = 1e-12 * radius
    for cubic in made:
        strays = max(abs(distance(p, centre) - radius) for p in sampled(cubic, 100))
        assert strays <= tolerance + noise + 1e-9
    share = math.fsum(cubic.swept() for cubic in made)
    assert share == pytest.approx(arc.swept(), abs=(tolerance + 1e-6) * (arc.length() + 1))


def test_cubics_are_not_more_than_needed() -> None:
    """A quarter of a circle of 150 mm takes two cubics at 0.02 mm: one strays 0.041 mm."""
    quarter = Arc.round(Point(0, 0), 150, 0, math.pi / 2)

    assert len(quarter.cubics(0.02)) == 2
    assert len(quarter.cubics(0.1)) == 1


@given(st.one_of(arcs(), cubics()), TOLERANCES)
@settings(max_examples=40)
def test_chords_stay_within_the_tolerance(segment: Segment, tolerance: float) -> None:
    """The polyline's points are on the curve and the curve is no farther from it than promised."""
    import shapely

    assume(not (isinstance(segment, Arc) and segment.radius > 5000))
    chain = [segment.a, *segment.points(tolerance)]
    curve = sampled(segment, 3 * len(chain) if len(chain) < 700 else len(chain) // 2)

    assert chain[-1] == segment.b
    strays = shapely.distance(shapely.LineString(chain), shapely.points(curve))
    assert max(strays) <= tolerance + 1e-7
    if isinstance(segment, Arc):
        centre, radius = segment.centre, segment.radius
        assert all(distance(p, centre) == pytest.approx(radius, abs=1e-6) for p in chain)


@given(points(), points(), points(), st.one_of(arcs(), cubics()))
@settings(max_examples=30)
def test_shares_add_up_to_the_area(a: Point, b: Point, c: Point, segment: Segment) -> None:
    """The shares of a closed chain are the signed area of its fine polyline (shoelace)."""
    closed = Path((segment, Line(segment.b, a), Line(a, b), Line(b, c), Line(c, segment.a)))
    chain = [*sampled(segment, 4000), a, b, c]
    xs, ys = np.array([p.x for p in chain]), np.array([p.y for p in chain])
    shoelace = float(np.sum(xs * np.roll(ys, -1) - np.roll(xs, -1) * ys)) / 2

    bend = segment.length() ** 2 + 1
    assert closed.area() == pytest.approx(shoelace, abs=1e-5 * bend)


def test_area_is_positive_from_x_to_y() -> None:
    """A quarter disc of radius 2 by hand: π, and its negative the other way round."""
    origin, east, south = Point(0, 0), Point(2, 0), Point(0, 2)
    quarter = Path(
        (Line(origin, east), Arc(east, south, math.tan(math.pi / 8)), Line(south, origin))
    )

    assert quarter.area() == pytest.approx(math.pi)
    assert quarter.reversed().area() == pytest.approx(-math.pi)


@given(numbers(-9, 9), numbers(-9, 9), numbers(-9, 9))
def test_roots_are_numpys(a: float, b: float, c: float) -> None:
    """Real, rising, and the roots that numpy's eigenvalues give."""
    assume(a != 0 and abs(b * b - 4 * a * c) > 1e-4)
    roots = quadratic_roots(a, b, c)
    theirs = sorted(root.real for root in np.roots([a, b, c]) if abs(root.imag) < 1e-12)

    assert list(roots) == pytest.approx(theirs, rel=1e-7, abs=1e-7)


def test_roots_in_special_cases() -> None:
    """Lines have one, constants none, double roots one, and nothing is lost to cancellation."""
    assert quadratic_roots(0, 0, 0) == ()
    assert quadratic_roots(0, 0, 5) == ()
    assert quadratic_roots(0, 2, -5) == (2.5,)
    assert quadratic_roots(1, 0, 0) == (0.0,)
    assert quadratic_roots(1, -2, 1) == (1.0,)
    assert quadratic_roots(1, 0, 1) == ()
    # From memory of numerical analysis courses: the small root of t² - 10⁸ t + 1 is 10⁻⁸.
    assert quadratic_roots(1, -1e8, 1) == pytest.approx((1e-8, 1e8), rel=1e-12)
