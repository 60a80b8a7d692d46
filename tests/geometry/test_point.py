import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.geometry import Affine, Box, Point
from jigs.geometry.point import distance
from tests.strategies import numbers, points, similarities

maps = st.builds(Affine, *[numbers(-5, 5)] * 4, numbers(-300, 300), numbers(-300, 300))


def matrix(by: Affine) -> "np.ndarray[tuple[int, int], np.dtype[np.float64]]":
    """Return a map's matrix, its letters in the places that SVG 1.1, section 7.4, gives them."""
    return np.array([[by.a, by.c, by.e], [by.b, by.d, by.f], [0, 0, 1]])


@given(maps, maps, points())
def test_maps_are_matrices(one: Affine, two: Affine, p: Point) -> None:
    """Applying, chaining and the determinant agree with numpy's matrices."""
    x, y, _ = matrix(two) @ matrix(one) @ np.array([p.x, p.y, 1])

    assert one.then(two).on(p) == pytest.approx((x, y), abs=1e-8)
    assert two.on(one.on(p)) == pytest.approx((x, y), abs=1e-8)
    assert one.determinant == pytest.approx(float(np.linalg.det(matrix(one))), abs=1e-9)


@given(similarities(), points(), points())
def test_similarities_scale_every_distance_alike(
    drawn: tuple[Affine, float], p: Point, q: Point
) -> None:
    """They are known as such, mirrored or not; a stretch is not one."""
    by, factor = drawn

    assert by.is_similarity
    assert distance(by.on(p), by.on(q)) == pytest.approx(factor * distance(p, q), abs=1e-9)
    assert not by.then(Affine.scale(1, 1.001)).is_similarity


def test_quarter_turns_are_exact_and_run_from_x_to_y() -> None:
    """A turn of 90 degrees takes +x to +y, without a trace of rounding; -90 goes back."""
    assert Affine.turn(90).on(Point(3, 0)) == Point(0, 3)
    assert Affine.turn(-90).on(Point(0, 3)) == Point(3, 0)
    assert Affine.turn(540).on(Point(3, 2)) == Point(-3, -2)
    assert Affine.turn(360) == Affine()
    assert Point(3, 0).quarter() == Point(0, 3)
    assert Affine.turn(30).on(Point(2, 0)) == pytest.approx((math.sqrt(3), 1))


@given(points(), points())
def test_vectors_are_complex_numbers(p: Point, q: Point) -> None:
    """Sum, difference, products and length agree with complex arithmetic."""
    u, v = complex(*p), complex(*q)
    product = u.conjugate() * v

    assert complex(*p.plus(q)) == u + v
    assert complex(*p.minus(q)) == u - v
    assert complex(*p.times(2.5)) == u * 2.5
    assert complex(*p.quarter()) == u * 1j
    assert p.dot(q) == pytest.approx(product.real, abs=1e-9)
    assert p.cross(q) == pytest.approx(product.imag, abs=1e-9)
    assert p.length() == pytest.approx(abs(u))
    assert distance(p, q) == pytest.approx(abs(u - v))


def test_a_unit_vector_needs_a_direction() -> None:
    """3-4-5 by hand; the zero vector is refused."""
    assert Point(-3, 4).unit() == pytest.approx((-0.6, 0.8))
    with pytest.raises(ValueError, match="direction"):
        Point(0, 0).unit()


@given(st.lists(points(), min_size=1, max_size=6), st.lists(points(), min_size=1, max_size=6))
def test_a_box_is_the_smallest_around(one: list[Point], two: list[Point]) -> None:
    """It holds its points, touches them on every side, and unites with other boxes."""
    box, other = Box.around(one), Box.around(two)
    both = Box.of_all((box, other))

    assert both == Box.around([*one, *two])
    assert both.holds(box)
    assert both.holds(other)
    assert {box.left, box.right} <= {p.x for p in one}
    assert {box.top, box.bottom} <= {p.y for p in one}
    assert Box.around(box.corners()) == box
    assert box.centre == pytest.approx((box.left + box.width / 2, box.top + box.height / 2))
    assert box.grown(2).grown(-2).holds(box, slack=1e-9)


def test_boxes_that_touch_do_not_overlap() -> None:
    """Sides in common are no common inside; holding allows a slack."""
    box = Box(0, 0, 10, 10)

    assert not box.overlaps(Box(10, 0, 20, 10))
    assert not box.overlaps(Box(0, 10, 10, 20))
    assert box.overlaps(Box(9.9, 9.9, 20, 20))
    assert box.overlaps(Box(4, 4, 5, 5))
    assert box.holds(Box(0, 0, 10, 10))
    assert not box.holds(Box(0, 0, 10.1, 10))
    assert box.holds(Box(-0.1, 0, 10.1, 10), slack=0.1001)
    assert box.corners()[1] == Point(10, 0)


def test_nothing_has_no_box() -> None:
    """A box around no points or no boxes is refused."""
    with pytest.raises(ValueError, match="no box"):
        Box.around([])
    with pytest.raises(ValueError, match="no box"):
        Box.of_all([])
