import pytest
from hypothesis import given, settings

from jigs.drawing.drawing import Area, Clip, Drawing, Entity, Layer, Picture, Shape, Text, layer_of
from jigs.drawing.scaled import LEGIBLE, scaled
from jigs.geometry import Box, Line, Path, Point
from tests.strategies import numbers, outlines

LINE = Shape(Layer.CUT, Path((Line(Point(0, 0), Point(10, 4)),)))
SCORE = Shape(Layer.SCORE, Path.box(Box(1, 1, 3, 3)))
TEXT = Text(Layer.ENGRAVE, "XL", Point(50, 50), 4, angle=90)
AREA = Area((Path.box(Box(-5, 0, 0, 2)), Path.box(Box(-4, 0.5, -1, 1))), "#0072b2")
PICTURE = Picture(Box(0, 0, 30, 20), b"", "a crest")
CLIP = Clip(Box(0, 0, 8, 8), Drawing((LINE,)), x=-2, y=3)
EVERYTHING = Drawing((LINE, SCORE, TEXT, AREA, PICTURE, CLIP))


def test_more_is_drawn_on_top() -> None:
    """Entities, lists of them and drawings come after what is there, which stays as it was."""
    made = Drawing((LINE,)).plus(TEXT, [SCORE, AREA], Drawing((PICTURE,)), ())

    assert made.entities == (LINE, TEXT, SCORE, AREA, PICTURE)
    assert Drawing().plus() == Drawing()


def test_layers_are_told_apart() -> None:
    """Areas, pictures and clips are notes; lines are found by layer, or all of them."""
    assert EVERYTHING.on(Layer.CUT, Layer.ENGRAVE) == (LINE, TEXT)
    assert EVERYTHING.on(Layer.NOTE) == (AREA, PICTURE, CLIP)
    assert EVERYTHING.on() == ()
    assert EVERYTHING.shapes() == (LINE, SCORE)
    assert EVERYTHING.shapes(Layer.SCORE) == (SCORE,)
    assert [layer_of(entity) for entity in EVERYTHING.entities[:2]] == [Layer.CUT, Layer.SCORE]


def test_bounds_are_of_everything_but_text() -> None:
    """Lines, areas, pictures and clips count; text alone has no bounds."""
    assert EVERYTHING.bounds() == Box(-5, 0, 30, 20)
    assert Drawing((LINE, TEXT)).bounds() == Box(0, 0, 10, 4)
    with pytest.raises(ValueError, match="no box"):
        Drawing((TEXT,)).bounds()


@given(outlines(), numbers(-500, 500), numbers(-500, 500))
@settings(max_examples=20)
def test_moving_moves_every_kind(path: Path, x: float, y: float) -> None:
    """Every entity is shifted by the same, and nothing else of it changes; back is as before."""
    drawing = EVERYTHING.plus(Shape(Layer.ENGRAVE, path, dashed=True))
    moved = drawing.moved(x, y)
    there, here = moved.bounds(), drawing.bounds()

    assert (there.left, there.bottom) == pytest.approx((here.left + x, here.bottom + y))
    for before, after in zip(drawing.entities, moved.entities, strict=True):
        assert type(before) is type(after)
        assert layer_of(before) is layer_of(after)
        assert place(after) == pytest.approx((place(before)[0] + x, place(before)[1] + y), abs=1e-9)
    clip = moved.entities[5]
    assert isinstance(clip, Clip)
    # The drawing in the clip is the same value; its shift within the page moves along.
    assert clip.drawing is CLIP.drawing
    assert (clip.x, clip.y) == pytest.approx((CLIP.x + x, CLIP.y + y))


def place(entity: Entity) -> Point:
    """Return a point that moves with an entity."""
    if isinstance(entity, Shape):
        return entity.path.start
    if isinstance(entity, Text):
        return entity.at
    if isinstance(entity, Area):
        return entity.paths[-1].start
    return Point(entity.box.left, entity.box.bottom)


def test_a_scaled_drawing_is_scaled_throughout() -> None:
    """Places and text shrink alike; text too small to read is left out; a clip is refused."""
    small = scaled(Drawing((LINE, TEXT, AREA, PICTURE)), 0.75)

    assert small.shapes()[0].path.end == Point(7.5, 3)
    text = small.entities[1]
    assert isinstance(text, Text)
    assert (text.at, text.height, text.angle) == (Point(37.5, 37.5), 3, 90)
    assert small.bounds() == Box(-3.75, 0, 22.5, 15)
    assert TEXT.height * 0.25 < LEGIBLE
    assert len(scaled(Drawing((LINE, TEXT)), 0.25).entities) == 1
    with pytest.raises(TypeError, match="clip"):
        scaled(EVERYTHING, 0.5)
