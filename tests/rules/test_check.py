"""Known answers: each rule broken by a known amount is told with it, and just kept is not told."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.geometry import Affine, Arc, Box, Line, Path, Point
from jigs.geometry.path import rounded
from jigs.rules import Violation, measured
from tests.rules.plates import (
    BARE,
    EDGE,
    FACTS,
    PLATE,
    WINDOW,
    cut,
    mark,
    plate,
    solid,
    told,
    word,
)


def one(found: tuple[Violation, ...], rule: str) -> Violation:
    """Return the only thing found, which is of a rule."""
    assert [fault.rule for fault in found] == [rule], found
    return found[0]


def near(fault: Violation, x: float, y: float, by: float = 0.5) -> bool:
    """Return whether a fault is told at a place."""
    at = fault.where.centre if isinstance(fault.where, Box) else fault.where
    return math.dist(at, (x, y)) <= by


def test_a_sound_plate_is_clean() -> None:
    """A plate with its window, a hole, words and ticks breaks no rule."""
    drawing = plate(
        cut(Path.circle(Point(110, 40), 3.0)),
        word("front", 10, 20),
        mark((60, 0), (60, 5)),
        mark((30, 45), (26, 45)),
    )

    assert told(drawing) == ()


@pytest.mark.parametrize("gap", [0.4, 3.0])
def test_an_open_outline(gap: float) -> None:
    """An outline whose ends are apart is open, by so much, at its end."""
    path = Path.through([Point(40, 12), Point(60, 12), Point(60, 20), Point(40, 12 + gap)])
    fault = one(told(plate(cut(path))), "closed")

    assert f"{gap:.2f} mm" in fault.says
    assert fault.where == Point(40, 12)


def test_an_outline_that_crosses_itself() -> None:
    """A figure of eight is told where its lines cross."""
    eight = Path.through([Point(40, 10), Point(60, 20), Point(60, 10), Point(40, 20)], closed=True)
    fault = one(told(plate(cut(eight))), "simple")

    assert near(fault, 50, 15, 0.01)


def test_a_side_without_length() -> None:
    """A side of less than a thousandth is none; one of two thousandths is one."""
    for length, count in ((0.0005, 1), (0.002, 0)):
        corners = [Point(0, 0), Point(60, 0), Point(60 + length, 0), Point(120, 0), Point(120, 80)]
        path = Path.through([*corners, Point(0, 80)], closed=True)
        found = told(plate(outline=path), replace(BARE, least_inner=0.0))

        assert [fault.rule for fault in found] == ["simple"] * count


@pytest.mark.parametrize("back", [False, True])
def test_an_outline_drawn_twice(back: bool) -> None:
    """The same hole twice is told, whichever way round, and once only."""
    hole = Path.circle(Point(110, 40), 3.0)
    fault = one(told(plate(cut(hole), cut(hole.reversed() if back else hole))), "twice")

    assert near(fault, 110, 40)


def test_outlines_that_cross_or_touch() -> None:
    """A hole over the window's side, and one that touches it, are told where they meet."""
    for x in (92.0, 93.0):
        fault = one(told(plate(cut(Path.circle(Point(x, 45), 3.0)))), "apart")
        assert near(fault, 90, 45, 3)


def test_a_hole_beside_the_plate() -> None:
    """A hole that lies off the plate is a second outer outline."""
    fault = one(told(plate(cut(Path.circle(Point(140, 40), 3.0)))), "plate")

    assert "2 outer outlines" in fault.says
    assert near(fault, 140, 40)
    both = replace(FACTS, plates=2)
    assert told(plate(cut(Path.circle(Point(140, 40), 3.0))), both) == ()


def test_a_loose_piece() -> None:
    """An outline inside the window is a loose piece."""
    fault = one(told(plate(cut(Path.box(Box(50, 40, 60, 50), 1.5)))), "plate")

    assert "loose" in fault.says


@pytest.mark.parametrize("web", [1.0, 3.0, 4.9])
@pytest.mark.parametrize("where", ["side", "window"])
def test_a_hole_too_near(web: float, where: str) -> None:
    """A hole too near to the plate's side or to the window is told with what is left."""
    x = 120 - web - 3.0 if where == "side" else 90 + web + 3.0
    fault = one(told(plate(cut(Path.circle(Point(x, 45), 3.0)))), "web")

    assert f"{web:.2f} mm" in fault.says
    assert near(fault, x + (3 + web / 2) * (1 if where == "side" else -1), 45)


def test_a_hole_just_far_enough() -> None:
    """A web of 5 mm is kept on every side."""
    assert told(plate(cut(Path.circle(Point(112, 45), 3.0)))) == ()
    assert told(plate(cut(Path.circle(Point(98, 45), 3.0)))) == ()


def hourglass(web: float) -> Drawing:
    """Return a plate with two wedges that point at one another, a web between their points."""
    y = 40 - web / 2
    upper, lower = (60.0, y), (60.0, 80 - y)
    return solid((0, 0), (40, 0), upper, (80, 0), (120, 0), (120, 80), (80, 80), lower, (40, 80),
                 (0, 80))  # fmt: skip


def tongue(width: float, length: float = 20.0) -> Drawing:
    """Return a plate with a tongue on its lower side."""
    a, b = 60 - width / 2, 60 + width / 2
    return solid((0, 0), (120, 0), (120, 80), (b, 80), (b, 80 + length), (a, 80 + length), (a, 80),
                 (0, 80))  # fmt: skip


SHARP = replace(BARE, least_inner=0.0)


@pytest.mark.parametrize("web", [0.5, 2.0, 4.9])
def test_a_neck_of_one_outline(web: float) -> None:
    """Two wedges of one outline leave a neck, told with its width and in its middle."""
    fault = one(told(hourglass(web), SHARP), "web")

    assert f"{web:.2f} mm" in fault.says
    assert near(fault, 60, 40, 0.05)
    assert told(hourglass(5.0), SHARP) == ()


@pytest.mark.parametrize("width", [1.0, 3.0, 4.9])
def test_a_tongue(width: float) -> None:
    """A long tongue narrower than the least web is told with its width; a wider one is kept."""
    fault = one(told(tongue(width), SHARP), "web")

    assert f"{width:.2f} mm" in fault.says
    assert told(tongue(5.0), SHARP) == ()


@pytest.mark.parametrize("angle", [35, 60, 90, 130])
def test_a_convex_corner_is_no_web(angle: float) -> None:
    """A point of a plate runs out to nothing, and that is no thin bridge."""
    high = 60 * math.tan(math.radians(angle / 2))
    assert told(solid((0, 0), (60, -high), (60, high)), SHARP) == ()


@given(st.floats(0, 360), st.floats(0.5, 4.9), st.booleans())
def test_a_web_is_as_wide_however_the_plate_lies(turn: float, web: float, bridge: bool) -> None:
    """The width told does not depend on how the plate is turned."""
    drawing = hourglass(web) if bridge else tongue(web)
    by = Affine.turn(turn)
    turned = Drawing(tuple(replace(s, path=s.path.moved(by)) for s in drawing.shapes()))
    fault = one(told(turned, SHARP), "web")

    assert float(fault.says.split("web of ")[1].split()[0]) == pytest.approx(web, abs=0.03)


def test_the_kerf_comes_off_a_web_and_onto_a_corner() -> None:
    """Outlines that allow for a kerf of 0.4 mm leave that much more and are that much sharper."""
    kerf = replace(SHARP, kerf=0.4)
    assert one(told(hourglass(5.2), kerf), "web")
    assert told(hourglass(5.4), kerf) == ()
    round_one = plate(window=Path.box(WINDOW, 1.3))
    assert told(round_one, replace(FACTS, kerf=0.4)) == ()
    assert len(told(round_one)) == 4


@pytest.mark.parametrize("radius", [0.0, 0.5, 1.4])
def test_a_sharp_window(radius: float) -> None:
    """The corners of a window that are too sharp are told, each with its radius."""
    found = told(plate(window=Path.box(WINDOW, radius)))

    assert [fault.rule for fault in found] == ["inner corner"] * 4
    assert all((f"{radius:.2f} mm" if radius else "is sharp") in fault.says for fault in found)
    assert {(round(f.where[0] / 30), round(f.where[1] / 30)) for f in found
            if isinstance(f.where, Point)} == {(1, 1), (3, 1), (1, 2), (3, 2)}  # fmt: skip


def step(radius: float) -> Path:
    """Return a plate with a step, whose inner corner has a radius."""
    corners = [(0, 0), (120, 0), (120, 80), (100, 80), (100, 70), (0, 70)]
    radii = (0, 0, 0, 0, radius, 0)
    return rounded([Point(*corner) for corner in corners], radii)


def test_an_inner_corner_of_the_plate() -> None:
    """The plate's own concave corner is told; its sharp convex ones are not."""
    assert told(plate(outline=step(1.5)), BARE) == ()
    fault = one(told(plate(outline=step(1.0)), BARE), "inner corner")
    assert "1.00 mm" in fault.says
    assert near(fault, 100, 70)
    # A facetted corner is as round as the curve its short sides stand for.
    for radius, count in ((3.0, 0), (1.0, 6)):
        facets = Path.through(step(radius).points(radius / 500))
        found = told(plate(outline=facets), BARE)
        assert bool(found) == bool(count), found
        assert {fault.rule for fault in found} <= {"inner corner"}


def test_a_small_round_hole_has_no_corner() -> None:
    """A hole of 2 mm is no inner corner, whether of arcs or of facets."""
    hole = Path.circle(Point(110, 40), 1.0)
    assert told(plate(cut(hole))) == ()
    assert told(plate(cut(Path.through(hole.points(0.005))))) == ()


def test_marks_beyond_the_plate() -> None:
    """A tick may run up to an edge; a line over it, and any in the window, is told."""
    assert told(plate(mark((60, 0), (60, 30)))) == ()
    assert near(one(told(plate(mark((60, -1), (60, 5)))), "mark on the plate"), 60, -0.5)
    assert one(told(plate(mark((40, 40), (50, 45)))), "mark on the plate")
    assert one(told(plate(mark((2000, 40), (2001, 40)))), "mark on the plate")


def left_of(text: Text, x: float) -> Text:
    """Return a text whose strokes begin at an x."""
    from jigs.drawing.lower import text_box

    return replace(text, at=Point(text.at.x + x - text_box(text).left, text.at.y))


@pytest.mark.parametrize("gap", [0.1, 0.4])
def test_words_at_an_edge(gap: float) -> None:
    """Words nearer than half a millimetre to a cut edge are told with how near they are."""
    fault = one(told(plate(left_of(word("hem", 0, 40), gap))), "mark on the plate")

    assert f"{gap:.2f} mm" in fault.says
    assert "'hem'" in fault.says
    assert told(plate(left_of(word("hem", 0, 40), 0.5))) == ()


def test_words_over_an_edge() -> None:
    """Words over the window, over a hole or beyond the plate are told."""
    hole = cut(Path.circle(Point(110, 40), 3.0))
    for text in (word("hem", 28, 40), word("hem", 107, 41), word("hem", 118, 40)):
        assert one(told(plate(hole, text)), "mark on the plate")


def test_marks_over_one_another() -> None:
    """Words under words, and words under a line, are told with what they share."""
    first = left_of(word("hem", 0, 20), 10)
    fault = one(told(plate(first, left_of(word("seam", 0, 19), 12))), "marks apart")
    assert "'hem'" in fault.says
    assert "'seam'" in fault.says
    assert one(told(plate(first, mark((5, 18.5), (40, 18.5)))), "marks apart")
    assert told(plate(first, mark((5, 21), (40, 21)))) == ()
    assert told(plate(first, left_of(word("seam", 0, 25), 12))) == ()


def test_bare_strokes_are_letters() -> None:
    """Strokes that touch are one letter: over an edge or another letter, it is told."""
    facts = replace(FACTS, grouped=True)

    def ell(x: float, y: float) -> tuple[Shape, Shape]:
        return mark((x, y), (x, y + 3)), mark((x, y + 3), (x + 2, y + 3))

    assert told(plate(*ell(10, 20), *ell(14, 20)), facts) == ()
    assert one(told(plate(*ell(10, 20), *ell(11, 19)), facts), "marks apart")
    assert one(told(plate(*ell(0.2, 20)), facts), "mark on the plate")


def test_a_window_that_is_not_cut() -> None:
    """A window of another size or place is told; the right one is kept to a hundredth."""
    for box in (Box(30, 30, 90, 60.1), Box(30.1, 30, 90.1, 60)):
        fault = one(told(plate(window=Path.box(box, 1.5))), "window")
        assert "60.00 × 30.00 mm" in fault.says
    assert told(plate(window=Path.box(Box(30, 30, 90, 60.009), 1.5))) == ()


def notched(depth: float) -> Path:
    """Return the plate with a shallow notch in its seat edge."""
    arc_in = Arc(Point(50, 0), Point(60, 0), -2 * depth / 10)
    sides = list(PLATE.segments)
    (at,) = [k for k, s in enumerate(sides) if isinstance(s, Line) and s.a.y == s.b.y == 0]
    first = sides[at]
    sides[at : at + 1] = [Line(first.a, arc_in.a), arc_in, Line(arc_in.b, first.b)]
    return Path(tuple(sides))


@pytest.mark.parametrize("depth", [0.05, 1.0])
def test_a_notch_in_the_seat_edge(depth: float) -> None:
    """The outline strays from the edge by a notch's depth; a hundredth is nothing."""
    fault = one(told(plate(outline=notched(depth))), "seat")

    assert f"{depth:.2f} mm" in fault.says
    assert near(fault, 55, 0, 0.6)
    assert told(plate(outline=notched(0.009))) == ()
    # Outside the engaged span it does not count.
    assert told(plate(outline=notched(depth)), replace(FACTS, engaged=(62.0, 110.0))) == ()


def test_a_line_near_the_seat_edge() -> None:
    """A hole or a score nearer than 2 mm to the edge is told by how near it is."""
    loose = replace(FACTS, least_web=0.5)
    fault = one(told(plate(cut(Path.circle(Point(60, 4.0), 3.0))), loose), "seat")
    assert "1.00 mm" in fault.says
    score = Shape(Layer.SCORE, Path.through([Point(40, 1.5), Point(50, 1.5)]))
    assert "1.50 mm" in one(told(plate(score)), "seat").says
    assert told(plate(cut(Path.circle(Point(60, 5.0), 3.0))), loose) == ()


def test_an_edge_the_plate_does_not_reach() -> None:
    """Where the engaged span has no edge, that is told."""
    assert one(told(plate(), replace(FACTS, seat=EDGE, engaged=(300.0, 310.0))), "seat")


def test_nothing_cut() -> None:
    """A drawing without a cut line is no plate."""
    assert "nothing is cut" in one(told(Drawing((mark((0, 0), (1, 0)),)), BARE), "plate").says


def test_what_a_plate_measures() -> None:
    """Plate, opening, hole, least web, smallest radius and length are those drawn."""
    drawing = plate(cut(Path.circle(Point(109, 45), 3.0)))
    found = measured(drawing)

    assert (found.plate.width, found.plate.height) == (120, 80)
    assert found.openings == (WINDOW,)
    ((middle, diameter),) = found.holes
    assert (middle, diameter) == (Point(109, 45), 6)
    assert found.web is not None
    assert found.web[0] == pytest.approx(8.0, abs=0.02)
    assert found.inner is not None
    assert found.inner[0] == pytest.approx(1.5)
    assert found.length == pytest.approx(
        2 * (120 + 80) - 40 + 10 * math.pi + 2 * 90 - 12 + 3 * math.pi + 6 * math.pi
    )
    assert found.contours == 3
    tight = measured(tongue(3.0)).web
    assert tight is not None
    assert tight[0] == pytest.approx(3.0)
