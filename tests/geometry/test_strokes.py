import math
import subprocess
import sys
import unicodedata
from collections.abc import Iterator
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.geometry import Arc, Box, Line, Path, Point, Segment
from jigs.geometry.point import distance
from jigs.geometry.segments import quadratic_roots
from jigs.geometry.strokes import _form, _sheet, width_of, written

CAPITAL = 14.0
ASCII = "".join(chr(code) for code in range(0x21, 0x7F))
# The soft hyphen, U+00AD, is a format character and has no shape of its own.
LATIN_1 = "".join(chr(code) for code in range(0xA1, 0x100) if code != 0xAD)
LATIN_EXTENDED_A = "".join(chr(code) for code in range(0x100, 0x180))
SIGNS = "½¼¾⅛⅜⅝⅞±×°–—‘’“”„…•µ€£¢§¶©®™«»¡¿·←→↑↓↔↕≤≥≈∅⌀"
GREEK = "".join(chr(c) for c in range(0x386, 0x3CF) if unicodedata.category(chr(c)) in {"Lu", "Ll"})
RUSSIAN = "".join(chr(code) for code in range(0x410, 0x450)) + "Ёё"
UKRAINIAN = "ҐґЄєІіЇї"
COVERED = {
    "ASCII": ASCII,
    "Latin-1": LATIN_1,
    "Latin Extended-A": LATIN_EXTENDED_A,
    "signs": SIGNS,
    "Greek": GREEK,
    "Russian": RUSSIAN,
    "Ukrainian": UKRAINIAN,
}
EVERY = sorted({*"".join(COVERED.values()), *_sheet()["letters"], *_sheet()["same"]})
#: Marks that hang from their letter; all others stand clear of it.
JOINED = {"\u0327", "\u0328"}


def strokes_of(sign: str) -> tuple[Path, ...]:
    """Return a character's strokes on the grid of capitals 14 high."""
    return written(sign, CAPITAL).paths


def segments_of(sign: str) -> list[Segment]:
    """Return all segments of a character."""
    return [segment for path in strokes_of(sign) for segment in path.segments]


def bounds_of(sign: str) -> Box:
    """Return the box around a character's strokes."""
    return Box.of_all(path.bounds() for path in strokes_of(sign))


def on_arc(arc: Arc, p: Point) -> bool:
    """Return whether a point of the arc's circle lies inside the arc."""
    a, b = arc.a.minus(arc.centre), p.minus(arc.centre)
    turn = math.atan2(a.cross(b), a.dot(b)) * math.copysign(1, arc.bulge) % math.tau
    return 1e-3 < turn < abs(arc.angle) - 1e-3


def overlap(one: Segment, two: Segment) -> bool:
    """Return whether two segments run along each other."""
    if isinstance(one, Line) and isinstance(two, Line):
        along = two.tangent(0).unit()
        if max(abs(along.cross(p.minus(two.a))) for p in (one.a, one.b)) > 1e-3:
            return False
        ends = sorted(along.dot(p.minus(two.a)) for p in (one.a, one.b))
        return min(ends[1], two.length()) - max(ends[0], 0.0) > 1e-3
    if isinstance(one, Arc) and isinstance(two, Arc):
        same = distance(one.centre, two.centre) + abs(one.radius - two.radius) < 1e-3
        return same and any(on_arc(two, one.at(k / 64)) for k in range(1, 64))
    return False


def marked() -> Iterator[tuple[str, list[str], int]]:
    """Return the composed characters, each with its marks and the number of its base's strokes."""
    sheet = _sheet()
    for sign in EVERY:
        if sign in sheet["letters"] or sign in sheet["same"]:
            continue
        base, *marks = tuple(sheet["spelled"].get(sign) or unicodedata.normalize("NFD", sign))
        base = sheet["same"].get(base, base)
        if any(sheet["marks"][mark].startswith("above") for mark in marks):
            base = sheet["dotless"].get(base, base)
        form = _form(base)
        assert form is not None
        yield sign, marks, len(form.paths)


@pytest.mark.parametrize("name", COVERED)
def test_coverage(name: str) -> None:
    """Every character of the promised sets has a letter form with ink."""
    assert not written(COVERED[name], CAPITAL).missing
    assert [sign for sign in COVERED[name] if not strokes_of(sign)] == []


def test_every_form_can_be_drawn() -> None:
    """Every line of the data file gives a letter, a mark in use or a box."""
    sheet = _sheet()
    assert [sign for sign in EVERY if _form(sign) is None] == []
    assert set(sheet["same"].values()) <= set(sheet["letters"])
    assert not set(sheet["same"]) & set(sheet["letters"])
    used = {mark for sign in EVERY for mark in sheet["spelled"].get(sign, "")[1:]}
    used |= {mark for sign in EVERY for mark in unicodedata.normalize("NFD", sign)[1:]}
    assert set(sheet["marks"]) - used <= {"\u0323", "\u0331"}, "a mark no letter carries"


@pytest.mark.parametrize("height", [1.0, 3.0, CAPITAL])
def test_capitals_are_as_high_as_asked(height: float) -> None:
    """A capital stands on the baseline and reaches the height, to the float."""
    for letter in "ABDEFHIKLMNPRTXZ":
        box = Box.of_all(path.bounds() for path in written(letter, height).paths)
        assert (box.bottom, box.top) == pytest.approx((0, -height)), letter


def test_letters_stay_in_the_line() -> None:
    """No letter reaches above 1.4 or below 0.4 capital heights, so lines 1.8 apart never meet."""
    for sign in EVERY:
        box = bounds_of(sign)
        assert -1.4 * CAPITAL < box.top <= box.bottom < 0.4 * CAPITAL, sign


def test_neighbours_never_touch() -> None:
    """Every letter keeps half a unit clear on either side, so a line's letters stay apart."""
    for sign in EVERY:
        box, room = bounds_of(sign), width_of(sign, CAPITAL)
        assert box.left >= 0.5 - 1e-9, sign
        assert box.right <= room - 0.5 + 1e-9, sign


def test_nothing_is_burnt_twice() -> None:
    """No stroke of a letter runs along another or back along itself."""
    for sign in EVERY:
        for one, two in combinations(segments_of(sign), 2):
            assert not overlap(one, two), (sign, one, two)


def test_overlap_is_noticed() -> None:
    """The check of the test above finds shared pieces of lines and of arcs, and only those."""
    line = Line(Point(0, 0), Point(4, 0))
    assert overlap(line, Line(Point(6, 0), Point(3, 0)))
    assert not overlap(line, Line(Point(4, 0), Point(6, 0)))
    half = Arc.round(Point(0, 0), 5, 0.0, math.pi)
    assert overlap(half, Arc.round(Point(0, 0), 5, 2.0, 2.0))
    assert not overlap(half, Arc.round(Point(0, 0), 5, math.pi, 2.0))


def test_no_slivers() -> None:
    """No segment is shorter than a hundredth of the capital height, so none is a mere point."""
    for sign in EVERY:
        shortest = min(segment.length() for segment in segments_of(sign))
        assert shortest > CAPITAL / 100, (sign, shortest)


def test_strokes_end_on_strokes_or_clear_of_them() -> None:
    """A stroke's end lies on another stroke to 1/3000 of the height, or well away from it."""
    shapely = pytest.importorskip("shapely")
    for sign in EVERY:
        paths = strokes_of(sign)
        lines = [shapely.LineString(path.points(0.001)) for path in paths]
        for k, path in enumerate(paths):
            for end in () if path.closed else (path.start, path.end):
                for other in (*lines[:k], *lines[k + 1 :]):
                    gap = other.distance(shapely.Point(end))
                    assert not 0.005 < gap < 0.39, (sign, end, gap)


def test_round_strokes_close_exactly() -> None:
    """A stroke that comes back to its start ends there to the bit."""
    for sign in EVERY:
        for path in strokes_of(sign):
            assert path.closed or distance(path.start, path.end) > 0.2, sign


def test_curves_join_smoothly() -> None:
    """Where an arc begins or ends inside a stroke there is no bend, or a corner of over 20°."""
    for sign in EVERY:
        for path in strokes_of(sign):
            for one, two in pairwise(path.segments):
                if isinstance(one, Line) and isinstance(two, Line):
                    continue
                u, v = one.tangent(1), two.tangent(0)
                bend = abs(math.degrees(math.atan2(u.cross(v), u.dot(v))))
                assert bend < 0.01 or bend > 20, (sign, bend)


def test_round_letters_are_round() -> None:
    """The letter O is its ellipse, 11 wide and 14 high, to an eightieth of its height."""
    (outline,) = strokes_of("O")
    assert all(isinstance(segment, Arc) for segment in outline.segments)
    centre = outline.bounds().centre
    for p in outline.points(0.01):
        x, y = (p.x - centre.x) / 5.5, (p.y - centre.y) / 7
        # On the ray through p, the ellipse lies at the positive root of t²(x² + y²) = 1.
        t = quadratic_roots(x * x + y * y, 0, -1)[1]
        assert distance(p, centre) * abs(1 - t) < CAPITAL / 80


def test_marks_stand_clear_of_their_letter() -> None:
    """An accent keeps a unit clear of its letter; a cedilla or an ogonek hangs from it."""
    shapely = pytest.importorskip("shapely")
    for sign, marks, count in marked():
        lines = [shapely.LineString(path.points(0.01)) for path in strokes_of(sign)]
        base, mark = (shapely.union_all(part) for part in (lines[:count], lines[count:]))
        if JOINED & {*marks}:
            assert base.distance(mark) < 0.06, sign
        else:
            assert base.distance(mark) > 0.99, (sign, base.distance(mark))


def test_marks_are_composed() -> None:
    """A letter followed by its combining mark is written as the one character for both."""
    assert written("n\u030c", 5) == written("ň", 5)
    assert len(strokes_of("í")) == len(strokes_of("ı")) + 1, "i keeps its dot under an accent"
    assert not written("x\u0304", 5).missing, "a pair Unicode has no single character for"


def test_easily_confused_characters_differ() -> None:
    """Zero and O, one, I, l and the bar, and other pairs read for one another, look different."""
    for group in ("0OoQD", "1Il|!i", "5S", "2Z", "8B", "6b", "9gq", "uv", "'`´", "-–—_"):
        for one, two in combinations(group, 2):
            assert strokes_of(one) != strokes_of(two), (one, two)
    assert len(strokes_of("0")) == 2, "zero has a stroke inside"
    assert len(strokes_of("I")) == 3, "I has serifs"
    assert width_of("l", CAPITAL) != width_of("1", CAPITAL)


def test_figures_line_up() -> None:
    """The round figures are equally wide, 12 on the grid, so columns of sizes stay even."""
    assert {round(width_of(figure, CAPITAL), 1) for figure in "0235689"} == {12.0}


@given(st.text(st.sampled_from([*EVERY, " "])), st.text(st.sampled_from([*EVERY, " "])))
def test_width_is_additive(one: str, two: str) -> None:
    """A line is as wide as its parts, and holds their strokes."""
    assert width_of(one + two, 3) == pytest.approx(width_of(one, 3) + width_of(two, 3))
    assert len(written(one + two, 3).paths) == len(written(one, 3).paths + written(two, 3).paths)


@given(st.text(), st.floats(0.5, 50))
def test_any_text_scales(text: str, height: float) -> None:
    """Any text is written at any height without complaint, and only its size changes."""
    small, large = written(text, 1), written(text, height)
    assert large.width == pytest.approx(small.width * height)
    assert large.missing == small.missing
    for one, two in zip(small.paths, large.paths, strict=True):
        assert two.length() == pytest.approx(one.length() * height)
        assert two.start == pytest.approx(one.start.times(height), abs=1e-9)


def test_missing_characters_are_boxes() -> None:
    """A character without a letter form is drawn as a box each time and reported once."""
    line = written("A漢B漢語", 5)
    assert line.missing == ("漢", "語")
    assert len(line.paths) == len(written("AB", 5).paths) + 3
    assert all(path.closed for path in written("漢", 5).paths)
    assert written("\u0301", 5).missing == ("\u0301",), "a mark without a letter"


def test_control_characters_are_spaces() -> None:
    """Control characters, line ends and every kind of space take a space's room, undrawn."""
    for char in "\n\r\t\x00\x1b\x7f\x85\u00a0\u2028\u2009":
        assert written(f"A{char}B", 5) == written("A B", 5), repr(char)


def test_invisible_characters_take_no_room() -> None:
    """Soft hyphens, joiners, direction marks and variation selectors leave no trace."""
    assert written("™\ufe0fA\u00ad\u200d\u200fB\ufeff", 5) == written("™AB", 5)


def test_empty_text() -> None:
    """An empty line has no strokes and no width."""
    assert written("", 5) == written("\u200b", 5)
    assert (written("", 5).paths, written("", 5).width) == ((), 0)


@pytest.mark.parametrize("height", [0.0, -3.0, math.nan, math.inf])
def test_height_must_be_a_length(height: float) -> None:
    """A height that is no positive length is refused."""
    with pytest.raises(ValueError, match="high"):
        written("A", height)


def test_letters_are_read_when_needed() -> None:
    """Importing the lettering reads no file: the letters come with the first line written."""
    code = (
        "from jigs.geometry import strokes\n"
        "assert strokes._sheet.cache_info().currsize == 0\n"
        "strokes.written('A', 3)\n"
        "assert strokes._sheet.cache_info().currsize == 1\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
