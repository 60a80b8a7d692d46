"""The order of work: marks first, inside before outside, the nearest next."""

from itertools import pairwise

import shapely
from hypothesis import given
from hypothesis import strategies as st

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.sequence import depths, sequenced
from jigs.geometry import Box, Line, Path, Point


def square(x: float, y: float, half: float) -> Path:
    """Return a square about a place."""
    return Path.box(Box(x - half, y - half, x + half, y + half))


@st.composite
def nests(draw: st.DrawFn) -> list[Path]:
    """Draw plates side by side, each with squares one within another, in any order."""
    made = []
    for k in range(draw(st.integers(1, 4))):
        x, y = 100.0 * k, draw(st.sampled_from((0.0, 30.0, -45.0)))
        made += [square(x, y, 40.0 - 10 * n) for n in range(draw(st.integers(1, 4)))]
    return draw(st.permutations(made))


@given(nests())
def test_nothing_is_cut_after_what_goes_round_it(paths: list[Path]) -> None:
    """Held against shapely: whatever lies within an outline is cut before it; nothing is lost."""
    made = [one.path for one in sequenced(drawing(paths)).shapes(Layer.CUT)]
    polygons = [shapely.Polygon(path.points()) for path in made]

    assert sorted(map(repr, made)) == sorted(map(repr, paths))
    for k, first in enumerate(polygons):
        assert not any(first.contains_properly(later) for later in polygons[k + 1 :])
    around = [sum(two.contains_properly(one) for two in polygons) for one in polygons]
    assert depths(made) == around
    assert all(one >= two for one, two in pairwise(around))


@given(nests(), st.randoms(use_true_random=False))
def test_how_it_was_drawn_does_not_matter(paths: list[Path], random: object) -> None:
    """The same outlines drawn in another order are cut in the same one."""
    other = list(paths)
    random.shuffle(other)  # type: ignore[attr-defined]

    assert sequenced(drawing(paths)) == sequenced(drawing(other))


def drawing(paths: list[Path]) -> Drawing:
    """Return outlines to be cut."""
    return Drawing(tuple(Shape(Layer.CUT, path) for path in paths))


def test_holes_are_cut_the_nearest_next_from_the_lower_left() -> None:
    """A row of holes drawn at random is gone along; the plate's outline is last."""
    holes = [square(x, 0, 3) for x in (60, 20, 80, 40)]
    plate = Path.box(Box(0, -20, 100, 20))
    made = [one.path for one in sequenced(drawing([plate, *holes])).shapes()]

    assert made == [holes[1], holes[3], holes[0], holes[2], plate]


def test_marks_come_before_cuts() -> None:
    """Notes, engraving and scores come in this order, each as it was drawn, then the cuts."""
    line = Path((Line(Point(0, 0), Point(5, 0)),))
    plate = Shape(Layer.CUT, square(0, 0, 20))
    score, tick, note = (Shape(one, line) for one in (Layer.SCORE, Layer.ENGRAVE, Layer.NOTE))
    word = Text(Layer.ENGRAVE, "word", Point(0, 5), 3)

    made = sequenced(Drawing((plate, score, word, note, tick)))
    assert made.entities == (note, word, tick, score, plate)
    assert sequenced(made) == made


def test_without_cuts_it_is_the_drawing() -> None:
    """A drawing of marks alone has nothing to be sorted."""
    only = Drawing((Text(Layer.NOTE, "word", Point(0, 0), 3),))

    assert sequenced(only) == only
    assert sequenced(Drawing()) == Drawing()
