import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.kerf import compensated, is_hole
from jigs.geometry import Affine, Arc, Box, Cubic, Line, Path, Point
from tests.strategies import numbers, outlines

KERF = 0.2


def cut(*paths: Path) -> Drawing:
    """Return outlines to be cut."""
    return Drawing(tuple(Shape(Layer.CUT, path) for path in paths))


def areas(drawing: Drawing) -> list[float]:
    """Return the areas of a drawing's cut outlines, whichever way round they run."""
    return [abs(shape.path.area()) for shape in drawing.shapes(Layer.CUT)]


def square(centre: float, half: float) -> Path:
    """Return a square about a place on the diagonal."""
    return Path.box(Box(centre - half, centre - half, centre + half, centre + half))


def grown(side: float, kerf: float = KERF) -> float:
    """Return the area of a square moved out by half a kerf, its corners round (Steiner)."""
    return side**2 + 4 * side * kerf / 2 + math.pi * (kerf / 2) ** 2


def test_outsides_go_out_and_holes_go_in() -> None:
    """A plate with a hole, and in the hole a part with a hole of its own; each by half a kerf."""
    nested = cut(*(square(0, half) for half in (50, 40, 20, 10)))

    assert areas(compensated(nested, KERF)) == pytest.approx(
        [grown(100), (80 - KERF) ** 2, grown(40), (20 - KERF) ** 2]
    )


def test_order_and_direction_do_not_matter() -> None:
    """A hole may be drawn before its plate, and either may run backwards."""
    plate, hole = square(0, 50), square(10, 5)
    for outer in (plate, plate.reversed()):
        for inner in (hole, hole.reversed()):
            made = areas(compensated(cut(inner, outer), KERF))
            assert made == pytest.approx([(10 - KERF) ** 2, grown(100)])


def test_neighbours_do_not_make_holes_of_each_other() -> None:
    """Two parts side by side both grow, and so do parts with a hole each."""
    one, two = square(0, 10), square(30, 10)
    made = compensated(cut(one, two, square(0, 4), square(30, 4)), KERF)

    assert areas(made) == pytest.approx([grown(20)] * 2 + [(8 - KERF) ** 2] * 2)
    assert not is_hole(one, [one, two])
    assert is_hole(square(0, 4), [one, two])


@given(numbers(0.01, 1.0))
def test_round_holes_and_rounded_plates_keep_their_arcs(kerf: float) -> None:
    """Radii change by half the kerf: exactly, with no corner added."""
    plate, hole = Path.box(Box(0, 0, 60, 40), 5), Path.circle(Point(20, 20), 8)
    outside, inside = compensated(cut(plate, hole), kerf).shapes(Layer.CUT)

    larger = Path.box(Box(0, 0, 60, 40).grown(kerf / 2), 5 + kerf / 2)
    assert len(outside.path.segments) == 8
    assert outside.path.area() == pytest.approx(larger.area())
    assert len(inside.path.segments) == 2
    assert inside.path.area() == pytest.approx(math.pi * (8 - kerf / 2) ** 2)


@given(outlines(), numbers(0.02, 0.5))
@settings(max_examples=20)
def test_the_cut_part_has_the_drawn_size(path: Path, kerf: float) -> None:
    """What a tool of the kerf's width, led round the outline, leaves standing is the drawing."""
    import shapely

    led = compensated(cut(path), kerf).shapes(Layer.CUT)[0].path
    drawn = shapely.Polygon(path.points(0.002))
    route = shapely.Polygon(led.points(0.002))

    left = route.buffer(-kerf / 2, quad_segs=32)
    # An inner corner stays rounded by the tool; an outer one comes out sharp.
    assert left.difference(drawn.buffer(0.01)).area < kerf**2 * len(path.segments)
    assert drawn.buffer(-0.01).difference(left).is_empty


def test_a_collar_of_cubics_is_moved_as_arcs() -> None:
    """A plate with a seat edge: its area grows by half a kerf times its length, and a corner."""
    edge = Cubic(Point(-90, 0), Point(-70, 80), Point(70, 80), Point(90, 0))
    plate = Path((edge, *Path.through(
        [Point(90, 0), Point(120, 0), Point(120, 150), Point(-120, 150), Point(-120, 0), edge.a]
    ).segments))  # fmt: skip
    made = compensated(cut(plate), KERF).shapes(Layer.CUT)[0].path

    more = abs(made.area()) - abs(plate.area())
    # The whole turn is one circle; inner corners and the fit of the arcs are below a tenth.
    assert more == pytest.approx(plate.length() * KERF / 2 + math.pi * (KERF / 2) ** 2, abs=1.0)
    assert not any(isinstance(segment, Cubic) for segment in made.segments)
    assert any(isinstance(segment, Arc) for segment in made.segments)


@given(
    st.floats(0.7, 1.4), st.floats(-0.3, 0.3), st.floats(20, 120), st.sampled_from((1, -1))
)  # fmt: skip
@settings(max_examples=20)
def test_smooth_outlines_of_cubics_are_moved(
    tall: float, lean: float, size: float, way: int
) -> None:
    """A leaning oval of four cubics: area A + P k/2 + π k²/4, to the fit of its arcs."""
    circle = Path.circle(Point(0, 0), size)
    halves = [segment.cubics(1) for segment in circle.segments if isinstance(segment, Arc)]
    oval = Path(tuple(cubic for half in halves for cubic in half)).moved(Affine(1, lean, 0, tall))
    path = oval if way > 0 else oval.reversed()
    made = compensated(cut(path), KERF).shapes(Layer.CUT)[0].path

    expected = abs(path.area()) + path.length() * KERF / 2 + math.pi * KERF**2 / 4
    assert abs(made.area()) == pytest.approx(expected, abs=0.011 * path.length())
    assert (made.area() > 0) == (path.area() > 0)


def test_everything_else_stays() -> None:
    """Open cuts, other layers and texts are the same entities, in the same order."""
    line = Path((Line(Point(0, 0), Point(9, 9)),))
    others = (
        Shape(Layer.CUT, line),
        Shape(Layer.SCORE, square(0, 3)),
        Shape(Layer.ENGRAVE, square(0, 3)),
        Shape(Layer.NOTE, square(0, 3), dashed=True),
        Text(Layer.ENGRAVE, "M", Point(0, 0), 5),
    )
    drawing = Drawing((others[0], Shape(Layer.CUT, square(0, 5)), *others[1:]))
    made = compensated(drawing, KERF)

    assert (made.entities[0], *made.entities[2:]) == others
    assert made.entities[1] != drawing.entities[1]
    assert isinstance(made.entities[1], Shape)
    assert made.entities[1].layer is Layer.CUT


def test_no_kerf_is_no_change_and_a_negative_one_is_refused() -> None:
    """0 gives the drawing itself; a kerf wider than a hole is refused, not turned inside out."""
    drawing = cut(square(0, 50), square(0, 1))

    assert compensated(drawing, 0) is drawing
    with pytest.raises(ValueError, match="not negative"):
        compensated(drawing, -0.1)
    with pytest.raises(ValueError, match="too short"):
        compensated(drawing, 2.5)
