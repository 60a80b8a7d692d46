"""Plates cut in pieces: nothing lost, nothing overlaps, joints lock, and the whole comes back."""

import math
from functools import cache
from itertools import combinations, pairwise

import pytest
import shapely
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from jigs.drawing.bed import Room, Split, Whole, _one_way, split
from jigs.drawing.cuts import Plate
from jigs.drawing.drawing import Anchor, Drawing, Entity, Layer, Shape, Text
from jigs.drawing.kerf import compensated
from jigs.geometry import Arc, Box, Cubic, Line, Path, Point
from jigs.rules import Facts, check
from tests.drawing.plates import length, lines, material, outline_gap

RULES = Facts(least_web=5.0, least_inner=1.5)


def _cut(drawing: Drawing, room: Room, fit: float = 0.1, **more: object) -> Split:
    return split(drawing, room, web=5.0, inner=1.5, fit=fit, **more)  # type: ignore[arg-type]


def _plain(width: float, height: float, *entities: Entity) -> Drawing:
    outline = Shape(Layer.CUT, Path.box(Box(0, 0, width, height), 5.0))
    return Drawing((outline, *entities))


@st.composite
def plates(draw: st.DrawFn) -> Drawing:
    """Return a plate with round holes, a curved side, a window, words and lines."""
    wide, tall = draw(st.integers(120, 420)), draw(st.integers(120, 420))
    dip = draw(st.integers(0, 40))
    top = Cubic(Point(0, 0), Point(wide * 0.3, dip), Point(wide * 0.7, dip), Point(wide, 0))
    side = Path(
        (
            top, Line(Point(wide, 0), Point(wide, tall)), Line(Point(wide, tall), Point(0, tall)),
            Line(Point(0, tall), Point(0, 0)),
        )
    )  # fmt: skip
    entities: list[Entity] = [Shape(Layer.CUT, side)]
    if draw(st.booleans()):
        left, low = draw(st.integers(18, wide // 3)), draw(st.integers(dip + 25, tall // 2 + 20))
        right, high = draw(st.integers(wide // 2, wide - 18)), tall - draw(st.integers(18, 40))
        if high - low > 20:
            entities.append(Shape(Layer.CUT, Path.box(Box(left, low, right, high), 1.5)))
    else:
        for _ in range(draw(st.integers(0, 3))):
            at = Point(draw(st.integers(20, wide - 20)), draw(st.integers(60, tall - 20)))
            entities.append(Shape(Layer.CUT, Path.circle(at, 3.0)))
    for _ in range(draw(st.integers(0, 6))):
        a = Point(draw(st.floats(10, wide - 10)), draw(st.floats(45, tall - 10)))
        b = Point(draw(st.floats(10, wide - 10)), draw(st.floats(45, tall - 10)))
        if a != b:
            bulge = draw(st.sampled_from([0.0, 0.4, -1.2]))
            line: Line | Arc = Arc(a, b, bulge) if bulge else Line(a, b)
            entities.append(Shape(Layer.ENGRAVE, Path((line,))))
    entities.append(
        Text(Layer.ENGRAVE, "words & 34", Point(wide / 2, tall * 0.55), 5.0, Anchor.MIDDLE)
    )
    return Drawing(tuple(entities))


def is_whole(drawing: Drawing, found: Split, fit: float) -> None:
    """Assert that pieces are what they are cut from: outline, area, lines; apart, and locked."""
    whole = material(drawing)
    each = [material(piece) for piece in found.pieces]
    assert all(one.geom_type == "Polygon" for one in each)
    # Closed over the gap, which is half the fit at most, the pieces are the plate.
    together = shapely.union_all([one.buffer(fit / 2 + 0.002) for one in each])
    closed = together.buffer(-fit / 2 - 0.002)
    assert outline_gap(closed, whole) < 0.05
    gap = whole.difference(shapely.union_all(each))
    assert gap.buffer(-fit / 2 - 0.002).is_empty
    assert math.isclose(sum(one.area for one in each) + gap.area, whole.area, rel_tol=1e-6)
    for one, two in combinations(each, 2):
        assert one.intersection(two).area < 1e-3
    marks = [line for piece in found.pieces for line in lines(piece, Layer.ENGRAVE)]
    added = sum(
        length(lines(Drawing((text,)), Layer.ENGRAVE))
        for piece in found.pieces
        for text in piece.on(Layer.ENGRAVE)
        if isinstance(text, Text) and text not in drawing.entities
    )
    lost = length(lines(drawing, Layer.ENGRAVE)) + added - length(marks)
    # Only what lies in the gap of a key is left out: none of it without one.
    assert -1e-6 < lost < (40 * fit if fit else 1e-4)


@settings(
    max_examples=20,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)
@given(plates(), st.sampled_from([0.0, 0.1, 0.4]), st.sampled_from([(200, 150), (300, 200)]))
def test_pieces_are_the_plate(drawing: Drawing, fit: float, bed: tuple[int, int]) -> None:
    """Whatever a plate is like, its pieces fit the bed and make it whole again."""
    room = Room(*map(float, bed))
    try:
        found = _cut(drawing, room, fit)
    except Whole:
        return
    for piece in found.pieces:
        box = Drawing(piece.shapes(Layer.CUT)).bounds()
        assert room.takes(box.width, box.height)
    is_whole(drawing, found, fit)


@pytest.mark.parametrize("fit", [0.0, 0.1, 0.5])
def test_pieces_lock_in_the_plane(fit: float) -> None:
    """Pulled apart by a millimetre, pieces meet; pulled straight up they would come away."""
    found = _cut(_plain(300, 180), Room(200.0, 170.0), fit)
    one, two = (material(piece) for piece in found.pieces)
    box = shapely.union(one, two).bounds
    upright = two.bounds[0] > box[0]
    for way in (1.0, 1.5):
        for turn in (-0.5, 0.0, 0.5):
            pull = (way, turn) if upright else (turn, way)
            moved = shapely.affinity.translate(two, *pull)
            assert moved.intersection(one).area > 0.05


def test_shoulders_meet_and_only_the_key_has_a_gap() -> None:
    """Beside its keys a joint is one line for both pieces, so that they lie as drawn."""
    found = _cut(_plain(300, 180), Room(200.0, 170.0), 0.4)
    one, two = (material(piece) for piece in found.pieces)
    shared = one.boundary.buffer(1e-3).intersection(two.boundary).length
    assert shared > 100
    ends = one.boundary.intersection(material(_plain(300, 180)).boundary.buffer(1e-6))
    assert not ends.is_empty


def test_arcs_stay_arcs_and_curves_curves() -> None:
    """No side of a piece is a chord: what is cut from a cubic is a cubic."""
    top = Cubic(Point(0, 0), Point(100, 40), Point(220, 40), Point(320, 0))
    corners = [Point(320, 0), Point(320, 150), Point(0, 150), Point(0, 0)]
    side = Path((top, *(Line(a, b) for a, b in pairwise(corners))))
    found = _cut(Drawing((Shape(Layer.CUT, side),)), Room(200.0, 160.0))
    kinds = [type(s) for piece in found.pieces for sh in piece.shapes(Layer.CUT)
             for s in sh.path.segments]  # fmt: skip
    assert kinds.count(Cubic) == 2
    assert kinds.count(Line) < 20


def test_keeps_off_what_must_stay_whole() -> None:
    """No joint and no key comes into a box that is to stay whole."""
    kept = Box(60.0, 0.0, 200.0, 60.0)
    found = _cut(_plain(320, 120), Room(220.0, 130.0), keep=[kept])
    solid = shapely.box(kept.left, 0.5, kept.right, kept.bottom)
    assert any(material(piece).buffer(1e-6).covers(solid) for piece in found.pieces)


def test_a_box_too_large_to_stay_whole_is_refused() -> None:
    """Where every joint would come into a box to keep, nothing is cut."""
    with pytest.raises(Whole):
        _cut(_plain(320, 120), Room(220.0, 130.0), keep=[Box(10.0, 0.0, 310.0, 60.0)])


def test_room_smaller_than_any_key_is_refused() -> None:
    """A bed on which no piece with a key could lie is said to be none, whatever it is."""
    for side in (1.0, 12.0, 30.0):
        with pytest.raises(Whole):
            _cut(_plain(300, 180), Room(side, side))


@pytest.mark.parametrize(("count", "room"), [(2, (200, 170)), (3, (130, 190)), (4, (170, 110))])
def test_fewest_pieces(count: int, room: tuple[int, int]) -> None:
    """As few pieces as the areas and sides allow: counted by hand for plain plates."""
    assert len(_cut(_plain(300, 180), Room(*map(float, room))).pieces) == count


def test_cuts_both_ways_where_one_way_does_not_do() -> None:
    """A plate too wide and too high for strips is cut in quarters, its keys clear of crossings."""
    drawing = _plain(360, 340)
    found = _cut(drawing, Room(220.0, 200.0))
    assert len(found.pieces) == 4
    is_whole(drawing, found, 0.1)
    for piece in found.pieces:
        assert not check(piece, RULES)


def test_frame_smaller_than_bed_allows_is_cut_through_its_sides() -> None:
    """A frame whose window is larger than the bed is cut square through its sides."""
    window = Box(18.0, 40.0, 222.0, 300.0)
    drawing = _plain(240, 330, Shape(Layer.CUT, Path.box(window, 1.5)))
    found = _cut(drawing, Room(250.0, 190.0), window=window)
    assert found.frame
    assert found.joints == 2
    is_whole(drawing, found, 0.1)
    for piece in found.pieces:
        assert not check(piece, RULES)


def test_narrow_frame_is_not_cut() -> None:
    """A strip too narrow for a key with a web on either side is not cut."""
    window = Box(14.0, 30.0, 226.0, 300.0)
    drawing = _plain(240, 330, Shape(Layer.CUT, Path.box(window, 1.5)))
    with pytest.raises(Whole):
        _cut(drawing, Room(250.0, 190.0), window=window)


@pytest.mark.parametrize("kerf", [0.1, 0.3, 1.0])
def test_cut_with_its_kerf_a_piece_is_as_drawn(kerf: float) -> None:
    """The tool takes half its kerf from the moved outline on all sides: what is left is nominal."""
    found = _cut(_plain(300, 180), Room(200.0, 170.0))
    for piece in found.pieces:
        moved = material(compensated(piece, kerf))
        left = moved.buffer(-kerf / 2, quad_segs=64)
        nominal = material(piece)
        assert outline_gap(left, nominal) < 0.01
        assert left.area == pytest.approx(nominal.area, rel=1e-4)


def test_pieces_are_marked_alike_on_both_sides() -> None:
    """Both sides of a joint bear its letter, near one another, and each piece its number."""
    found = _cut(_plain(300, 180), Room(200.0, 170.0))
    words = [
        {e.string: e.at for e in piece.entities if isinstance(e, Text)} for piece in found.pieces
    ]
    assert all("A" in one for one in words)
    assert math.dist(words[0]["A"], words[1]["A"]) < 20
    assert [next(w for w in one if "piece" in w) for one in words] == [
        "piece 1 of 2", "piece 2 of 2",
    ]  # fmt: skip


def test_same_plate_same_pieces() -> None:
    """Cut again, a plate gives the same pieces to the last digit."""
    assert _again() == _cut(_marked(), Room(200.0, 170.0))


def _marked() -> Drawing:
    text = Text(Layer.ENGRAVE, "a line of words", Point(64, 90), 6.0, Anchor.MIDDLE)
    return _plain(300, 180, text)


@cache
def _again() -> Split:
    return _cut(_marked(), Room(200.0, 170.0))


def test_spares_words_where_it_can() -> None:
    """A joint goes beside a line of words, not through it."""
    assert not _again().words
    long = Text(Layer.ENGRAVE, "a very long line of words all the way", Point(150, 90), 8.0,
                Anchor.MIDDLE)  # fmt: skip
    drawing = _plain(300, 180, long)
    found = _cut(drawing, Room(200.0, 170.0))
    assert found.words in {(long.string,), ()}
    is_whole(drawing, found, 0.1)


@pytest.mark.parametrize(("wide", "bed"), [(230, 120), (290, 130), (310, 160)])
def test_no_other_cuts_are_better(wide: int, bed: int) -> None:
    """Of all sets of one or two cuts of a plate, those found are the fewest and harm least."""
    words = (
        Text(Layer.ENGRAVE, "some words", Point(wide * 0.5, 60), 6.0, Anchor.MIDDLE),
        Text(Layer.ENGRAVE, "more", Point(wide * 0.28, 30), 8.0, Anchor.MIDDLE),
    )
    drawing = _plain(wide, 100, *words)
    plate = Plate.of(drawing, (), None, 5.0, 1.5)
    room = Room(float(bed), 110.0)
    found = _one_way(plate, 0, plate.box, room)
    assert found is not None
    cuts = plate.cuts(0, plate.box)
    best = (9, math.inf)
    for count in (1, 2):
        for some in combinations(cuts, count):
            ends = [0.0, *(cut.place for cut in some), float(wide)]
            reach = [0.0, *(cut.before for cut in some)], [*(cut.beyond for cut in some), 0.0]
            sides = [b - a + u + v for (a, b), u, v in zip(pairwise(ends), *reach, strict=True)]
            if all(room.takes(side, 100.0) for side in sides):
                uneven = sum(20.0 * ((b - a) / wide) ** 2 for a, b in pairwise(ends))
                harm = uneven + sum(cut.harm for cut in some)
                best = min(best, (count + 1, round(harm, 6)))
    assert found.cost == pytest.approx(best)
