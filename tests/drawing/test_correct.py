import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.drawing.correct import corrected
from jigs.drawing.drawing import Clip, Drawing, Shape, Text
from jigs.drawing.lower import strokes
from jigs.geometry import Affine, Arc, Box
from tests.writers.pages import painted, plate

factors = st.floats(0.98, 1.02)


def test_no_correction_is_the_same_drawing() -> None:
    """Factors of 1 give the very drawing back."""
    drawing = plate()

    assert corrected(drawing, 1.0, 1.0) is drawing


@given(factors, factors)
def test_every_line_is_stretched(x: float, y: float) -> None:
    """Each place of each line lies where the factors put it, within 0.001 mm."""
    from shapely import points as places
    from shapely.geometry import LineString

    by = Affine.scale(x, y)
    lines = plate().shapes()
    after = corrected(Drawing(lines), x, y).shapes()

    for one, two in zip(lines, after, strict=True):
        true = [by.on(p) for s in one.path.segments for p in (s.at(k / 7) for k in range(8))]
        drawn = LineString(two.path.points(0.0002))
        assert max(drawn.distance(places(true))) <= 0.0015
        assert two.path.closed == one.path.closed


def test_arcs_stay_arcs_if_both_ways_are_alike() -> None:
    """A printer that errs alike both ways leaves circles round."""
    after = corrected(plate(), 1.01, 1.01).shapes()

    assert any(isinstance(s, Arc) for shape in after for s in shape.path.segments)


def test_text_is_stretched_with_the_rest() -> None:
    """The strokes of a text lie where the factors put the strokes of the text as it was."""
    (before,) = (e for e in plate().entities if isinstance(e, Text) and e.angle == 0)
    for x, y in ((1.02, 1.02), (1.02, 0.99)):
        after = corrected(Drawing((before,)), x, y)
        shapes = [s for e in after.entities for s in (strokes(e) if isinstance(e, Text) else [e])]
        drawn = Box.of_all(s.path.bounds() for s in shapes if isinstance(s, Shape))
        true = Box.of_all(s.path.bounds() for s in strokes(before))
        assert (drawn.left, drawn.top, drawn.right, drawn.bottom) == pytest.approx(
            (true.left * x, true.top * y, true.right * x, true.bottom * y), abs=0.002
        )


def test_pictures_areas_and_clips_are_stretched() -> None:
    """Nothing on a drawing keeps its old size."""
    clip = Clip(Box(0, 0, 100, 100), painted(), x=10, y=20)
    (after,) = corrected(Drawing((clip,)), 2.0, 3.0).entities

    assert isinstance(after, Clip)
    assert (after.box, after.x, after.y) == (Box(0, 0, 200, 300), 20, 60)
    before, now = painted().bounds(), after.drawing.bounds()
    assert (now.right, now.bottom) == pytest.approx((2 * before.right, 3 * before.bottom))


def test_nothing_is_left_of_a_factor_of_nought() -> None:
    """A factor that is not positive is refused."""
    with pytest.raises(ValueError, match="nothing to print"):
        corrected(plate(), 0.0, 1.0)
