"""Tabs: as long as asked, on straight sides, far from corners and from what is to stay whole."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from jigs.cutfile.tabs import rejoined
from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.tabs import CLEAR, CORNER, tabbed
from jigs.geometry import Box, Line, Path, Point
from jigs.geometry.point import distance
from tests.strategies import numbers, outlines


def cut(*paths: Path) -> Drawing:
    """Return outlines to be cut."""
    return Drawing(tuple(Shape(Layer.CUT, path) for path in paths))


def level(y: float, left: float, right: float) -> Path:
    """Return a level line."""
    return Path((Line(Point(left, y), Point(right, y)),))


def gaps(drawing: Drawing) -> list[tuple[Point, float]]:
    """Return the middle and length of each gap: from the end of a piece to the next one's start."""
    open_ones = [one.path for one in drawing.shapes(Layer.CUT) if not one.path.closed]
    found = []
    for piece in open_ones:
        following = min(open_ones, key=lambda other: distance(piece.end, other.start))
        a, b = piece.end, following.start
        found.append((Point((a.x + b.x) / 2, (a.y + b.y) / 2), distance(a, b)))
    return found


@given(numbers(45, 600), numbers(45, 600), numbers(0, 8), numbers(0.2, 6))
def test_a_plate_hangs_by_tabs_all_round(w: float, h: float, r: float, gap: float) -> None:
    """Gaps have the length asked for, lie 10 mm from corners, and what they hold is amid them."""
    plate = Path.box(Box(0, 0, w, h), r)
    found = gaps(tabbed(cut(plate), gap))

    assert 4 <= len(found) <= 6
    for at, length in found:
        assert length == pytest.approx(gap)
        along, side = (at.x, w) if min(at.y, h - at.y) < 1e-9 else (at.y, h)
        assert r + CORNER + gap / 2 - 1e-9 <= along <= side - r - CORNER - gap / 2 + 1e-9
    held = shapely.MultiPoint([at for at, _ in found]).convex_hull
    assert held.contains(shapely.Point(w / 2, h / 2))


@given(outlines(), numbers(0.2, 3))
def test_joined_again_it_is_what_it_was(path: Path, gap: float) -> None:
    """Pieces and gaps are the outline: its length, and closed again, its area."""
    made = tabbed(cut(path), gap)
    found = gaps(made)
    length = sum(one.path.length() for one in made.shapes())
    (again,) = (one.path for one in rejoined(made, gap).shapes(Layer.CUT))

    assert length + gap * len(found) == pytest.approx(path.length())
    assert abs(again.area()) == pytest.approx(abs(path.area()))
    ring = shapely.Polygon(path.points()).exterior
    assert all(ring.distance(shapely.Point(at)) < 1e-6 for at, _ in found)
    assert len(found) != 1


@given(numbers(0.2, 3), numbers(-30, 30))
def test_what_has_to_stay_whole_is_whole(gap: float, reach: float) -> None:
    """No gap comes near the seat edge; beside it there may be one."""
    plate = Path.box(Box(0, 0, 200, 150), 5)
    seat = level(0, 80 - reach, 120 + reach)
    found = gaps(tabbed(cut(plate), gap, whole=[seat]))

    assert len(found) >= 3
    line = shapely.LineString([seat.start, seat.end])
    assert all(line.distance(shapely.Point(at)) >= CLEAR + gap / 2 for at, _ in found)


def test_a_side_is_spared_while_there_is_room_elsewhere() -> None:
    """A window's near side has none; where it is all there is beside its far side, it has."""
    near = level(0, 0, 100)
    roomy = gaps(tabbed(cut(Path.box(Box(0, 0, 100, 60))), 1, spared=[near]))
    assert len(roomy) >= 3
    assert all(at.y > 1 for at, _ in roomy)

    far = level(18, 0, 40)
    low = gaps(tabbed(cut(Path.box(Box(0, 0, 40, 18))), 1, whole=[far], spared=[near]))
    assert len(low) == 2
    assert all(at.y == 0 for at, _ in low)


@pytest.mark.parametrize(
    "path",
    [
        Path.circle(Point(0, 0), 30),
        Path.circle(Point(0, 0), 3),
        Path.box(Box(0, 0, 20, 20)),
        Path.box(Box(0, 0, 20.5, 20)),
        Path.box(Box(0, 0, 30, 30), 12),
        level(0, 0, 100),
    ],
)
def test_where_there_is_no_room_nothing_changes(path: Path) -> None:
    """A hanging hole, a round one, one whose sides are all corner: closed as they were."""
    assert tabbed(cut(path), 1) == cut(path)


def test_only_cuts_are_parted_and_their_order_stays() -> None:
    """Marks stay as they are; the pieces of a hole come before those of its plate."""
    hole, plate = Path.box(Box(40, 40, 140, 90)), Path.box(Box(0, 0, 200, 150))
    word = Text(Layer.ENGRAVE, "word", Point(20, 20), 3)
    mark = Shape(Layer.ENGRAVE, Path.box(Box(0, 0, 80, 80)))
    made = tabbed(Drawing((word, mark, *cut(hole, plate).entities)), 1)
    first, second, *pieces = made.entities

    assert (first, second) == (word, mark)
    inside = [Box(39, 39, 141, 91).holds(one.path.bounds()) for one in pieces
              if isinstance(one, Shape)]  # fmt: skip
    assert inside == sorted(inside, reverse=True)
    assert 3 <= inside.count(True) < len(inside) - 2


def test_no_gap_is_no_change_and_a_negative_one_is_refused() -> None:
    """0 gives the drawing itself."""
    plate = cut(Path.box(Box(0, 0, 100, 100)))

    assert tabbed(plate, 0) is plate
    with pytest.raises(ValueError, match="negative"):
        tabbed(plate, -1)


@given(st.lists(st.tuples(numbers(0, 40), numbers(0, 40)), min_size=2, max_size=12), numbers(0, 5))
def test_only_ends_that_near_are_joined(ends: list[tuple[float, float]], gap: float) -> None:
    """Whatever open lines a file holds, none is lost, and what is added is no longer than a gap."""
    paths = [
        Path((Line(Point(x, y), Point(x + 50, y + 60 + 7 * k)),)) for k, (x, y) in enumerate(ends)
    ]
    made = rejoined(cut(*paths), gap).shapes(Layer.CUT)
    whole = math.fsum(path.length() for path in paths)
    added = math.fsum(one.path.length() for one in made) - whole

    assert -0.01 * len(paths) <= added <= (len(paths) - len(made) + 1) * (gap + 0.02) + 0.01
