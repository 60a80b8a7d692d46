from itertools import product

import pytest

from jigs.drawing.drawing import Anchor, Area, Clip, Drawing, Layer, Page, Picture, Text
from jigs.drawing.lower import lowered
from jigs.geometry import Arc, Box, Cubic, Line, Path, Point
from jigs.geometry.strokes import written
from tests.writers.pages import painted, plate

HOLDS = [
    frozenset({Line, *more, Area, Picture, Clip}) for more in product([Arc, Cubic], repeat=2)
] + [frozenset({Line, Area, Picture, Clip})]


def page(drawing: Drawing) -> Page:
    """Return a drawing on a sheet."""
    return Page(230, 130, drawing, "Plate", "A plate.", "A1")


def kinds(drawing: Drawing) -> set[type]:
    """Return the types of segments in a drawing."""
    return {type(segment) for shape in drawing.shapes() for segment in shape.path.segments}


@pytest.mark.parametrize("holds", HOLDS)
def test_only_what_is_held_is_left(holds: frozenset[type]) -> None:
    """Whatever a format holds, the lowered page has nothing else, and no line is lost."""
    low = lowered(page(painted()), holds).drawing

    assert kinds(low) <= holds
    assert not any(isinstance(e, Text) for e in low.entities)
    lines = len(plate().shapes())
    strokes = sum(len(written(t.string, t.height).paths) for t in plate().entities
                  if isinstance(t, Text))  # fmt: skip
    assert len(low.shapes()) == lines + strokes


def test_what_is_held_is_the_same_value() -> None:
    """A page of which all is held comes back equal, its paths the very same."""
    before = page(painted())
    low = lowered(before, frozenset({Line, Arc, Cubic, Text, Area, Picture, Clip}))

    assert low == before
    assert all(
        a.path is b.path for a, b in zip(low.drawing.shapes(), before.drawing.shapes(), strict=True)
    )


@pytest.mark.parametrize("holds", [frozenset({Line}), frozenset({Line, Arc}), frozenset({Cubic})])
def test_lowered_lines_stay_where_they_were(holds: frozenset[type]) -> None:
    """A lowered path strays by no more than the tolerance, and still closes exactly."""
    from shapely.geometry import LineString

    shapes = plate().shapes()
    low = lowered(page(Drawing(shapes)), holds | {Line}, 0.01).drawing.shapes()

    for before, after in zip(shapes, low, strict=True):
        one = LineString(before.path.points(0.0005))
        two = LineString(after.path.points(0.0005))
        assert one.hausdorff_distance(two) <= 0.3
        assert max(one.distance(LineString([p, p])) for p in after.path.points(0.001)) <= 0.011
        assert max(two.distance(LineString([p, p])) for p in before.path.points(0.001)) <= 0.011
        assert before.path.closed == after.path.closed


@pytest.mark.parametrize(
    ("anchor", "left", "right"),
    [(Anchor.START, 50, 90), (Anchor.MIDDLE, 30, 70), (Anchor.END, 10, 50)],
)
def test_text_stands_at_its_anchor(anchor: Anchor, left: float, right: float) -> None:
    """A line of text of 40 mm starts, is centred or ends at its place; turned, it turns there."""
    string = "HIH"
    height = 40 / written(string, 1.0).width
    low = lowered(page(Drawing((Text(Layer.NOTE, string, Point(50, 60), height, anchor),))),
                  frozenset({Line}))  # fmt: skip
    box = low.drawing.bounds()
    slack = 0.2 * height

    assert (box.left, box.right) == pytest.approx((left, right), abs=slack)
    assert (box.top, box.bottom) == pytest.approx((60 - height, 60), abs=1e-9)

    down = Text(Layer.NOTE, string, Point(50, 60), height, anchor, angle=90)
    turned = lowered(page(Drawing((down,))), frozenset({Line})).drawing.bounds()
    assert (turned.top, turned.bottom) == pytest.approx(
        (box.left - 50 + 60, box.right - 50 + 60), abs=1e-9
    )


def test_an_unknown_letter_is_drawn() -> None:
    """A character without a letter form is a box, not a gap."""
    text = Text(Layer.NOTE, "\U0001f996", Point(0, 10), 5)

    assert len(lowered(page(Drawing((text,))), frozenset({Line})).drawing.shapes()) >= 1


def test_what_cannot_be_rewritten_is_refused_by_name() -> None:
    """Areas, pictures and clips are never dropped in silence."""
    area = Area((Path.box(Box(0, 0, 1, 1)),), "#123456")
    picture = Picture(Box(0, 0, 1, 1), b"", "a front view")
    clip = Clip(Box(0, 0, 1, 1), plate())
    for entity, name in ((area, "#123456"), (picture, "a front view"), (clip, "clipped")):
        with pytest.raises(ValueError, match=name):
            lowered(page(Drawing((entity,))), frozenset({Line}))
