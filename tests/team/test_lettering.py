"""Outlines are those of the font, at the height asked for, as other libraries see them."""

import math
import unicodedata
from csv import writer
from io import StringIO
from itertools import combinations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import JigsError
from jigs.geometry import Path
from jigs.team.lettering import (
    FIGURES,
    WEIGHTS,
    Lettered,
    is_number,
    lettered,
    overshoot,
    version,
)
from jigs.team.roster import Line, read
from tests.team.fonts import covered, ink, kern, tables

CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MARKED = "ŁŽÑÖÅÇĐØÞĞŐÆŒİŠÉÀÊÎŹŻŚĄĘĮČŘŮŢȘÐß"
#: Pixels to the em in FreeType's pictures; 100 mm of a capital are then some 2000 pixels.
_EM = 3000


def polygons(line: Lettered) -> list[list[shapely.Polygon]]:
    """Return the contours of each letter as polygons."""
    return [[shapely.Polygon(path.points(0.005)) for path in glyph] for glyph in line.glyphs]


def filled(line: Lettered) -> float:
    """Return the area of a line's ink, contours filled even-odd."""
    total = 0.0
    for glyph in polygons(line):
        shape = shapely.Polygon()
        for contour in glyph:
            shape = shape.symmetric_difference(contour)
        total += shape.area
    return total


@pytest.mark.parametrize("weight", WEIGHTS)
@pytest.mark.parametrize("letter", [*"HOSW48", *"ŁŽÑÖİß"])
def test_ink_is_what_freetype_draws(letter: str, weight: str) -> None:
    """At 100 mm high a letter's ink box agrees with FreeType's picture to 0.1 mm."""
    line = lettered(letter, weight, 100.0)
    flat = "1" if letter in FIGURES else "H"
    left, top, right, bottom = ink(letter, weight, _EM)
    high = ink(flat, weight, _EM)
    scale = 100.0 / (high[3] - high[1])
    # FreeType draws the tabular figures, whose shapes are the same and whose sides are wider.
    assert line.box.width == pytest.approx((right - left) * scale, abs=0.1)
    assert line.box.height == pytest.approx((bottom - top) * scale, abs=0.1)


@pytest.mark.parametrize("letter", ["B", "8", "Å", "Q", "Ą", "Į"])
def test_area_is_what_freetype_covers(letter: str) -> None:
    """The area of the ink, holes left out, is that of FreeType's picture to a thousandth."""
    line = lettered(letter, "Bold", 100.0)
    flat = ink("1" if letter in FIGURES else "H", "Bold", _EM)
    scale = 100.0 / (flat[3] - flat[1])
    assert filled(line) == pytest.approx(covered(letter, "Bold", _EM) * scale**2, rel=2e-3)


@pytest.mark.parametrize(("one", "two"), ["AV", "TO", "LY", "HH", "PA", "ŁT"])
def test_kerning_is_that_of_the_fonts_table(one: str, two: str) -> None:
    """Two letters stand as far apart as advance and pair table say, read by fontTools."""
    font = tables("Bold")
    advance = font["hmtx"][font.getBestCmap()[ord(one)]][0] + kern(one, two, "Bold")
    height = 700.0  # of H in Bold, in the font's units, so that nothing is scaled
    alone, first, pair = (lettered(text, "Bold", height) for text in (two, one, one + two))
    assert len(pair.glyphs) == 2
    offset = pair.glyphs[1][0].start.x - alone.glyphs[0][0].start.x
    assert pair.glyphs[0] == first.glyphs[0]
    assert offset == pytest.approx(advance, abs=1e-6)


def test_kerning_is_at_work() -> None:
    """A and V move together, H and H do not."""
    assert kern("A", "V", "Bold") < -10
    assert kern("H", "H", "Bold") == 0


def test_figures_have_their_own_widths() -> None:
    """Two ones stand as near as two eights do, not with the gap that columns need."""
    ones, eights = lettered("11", "Bold", 100.0), lettered("88", "Bold", 100.0)

    def gap(line: Lettered) -> float:
        (left, *_), (right, *_) = (sorted(g, key=lambda p: -p.bounds().width) for g in line.glyphs)
        return right.bounds().left - left.bounds().right

    assert gap(ones) == pytest.approx(gap(eights), abs=6.0)


@pytest.mark.parametrize("weight", WEIGHTS)
def test_height_is_that_of_flat_letters(weight: str) -> None:
    """H is exactly as high as asked for, and so is the lowest figure; none is lower."""
    assert lettered("H", weight, 75.0).box.height == pytest.approx(75.0)
    heights = [lettered(figure, weight, 250.0).box.height for figure in FIGURES]
    assert min(heights) == pytest.approx(250.0)
    assert max(heights) == pytest.approx(250.0 * overshoot(weight, figures=True))


@pytest.mark.parametrize("weight", WEIGHTS)
def test_overshoot_of_capitals(weight: str) -> None:
    """No capital but J and Q is higher than the overshoot says, and it is a few percent."""
    plain = [lettered(letter, weight, 1.0).box.height for letter in set(CAPITALS) - set("JQ")]
    assert max(plain) == pytest.approx(overshoot(weight, figures=False))
    assert 1.0 < overshoot(weight, figures=False) < 1.05


@pytest.mark.parametrize("weight", WEIGHTS)
def test_no_contours_overlap(weight: str) -> None:
    """Contours of a letter lie beside or inside one another, so that filling them is safe."""
    codes = [*range(0x21, 0x250), *range(0x386, 0x3CF), *range(0x400, 0x460)]
    for letter in (chr(c) for c in codes if unicodedata.category(chr(c))[0] in "LN"):
        if lettered(letter, weight, 100.0).missing:
            continue
        for contours in polygons(lettered(letter, weight, 100.0)):
            for one, two in combinations(contours, 2):
                apart = one.disjoint(two) or one.contains(two) or two.contains(one)
                assert apart, letter


def test_contours_are_closed() -> None:
    """Every contour ends where it starts."""
    line = lettered(CAPITALS + MARKED, "Bold", 60.0)
    paths: list[Path] = [path for glyph in line.glyphs for path in glyph]
    assert all(path.closed and path.area() != 0 for path in paths)


def test_letters_with_marks_are_there() -> None:
    """Letters of the Latin alphabets of Europe all have a form."""
    assert lettered(MARKED, "Bold", 60.0).missing == ()
    assert len(lettered("ŁÓDŹ", "Bold", 60.0).glyphs) == 4


def test_a_letter_that_is_missing_is_named() -> None:
    """A letter without a form is named once and leaves a box, never a hole."""
    line = lettered("A中B中", "Bold", 60.0)
    assert line.missing == ("中",)
    assert len(line.glyphs) == 4
    assert filled(line) > filled(lettered("AB", "Bold", 60.0))


def test_text_without_ink() -> None:
    """A text of spaces cannot be lettered."""
    with pytest.raises(ValueError, match="no ink"):
        lettered(" ", "Bold", 60.0)
    with pytest.raises(ValueError, match="high"):
        lettered("A", "Bold", 0.0)


def test_what_a_number_is() -> None:
    """Figures alone are a number; anything else goes by its capitals."""
    assert is_number("07")
    assert not is_number("7A")
    assert not is_number("")


def test_version_names_every_weight() -> None:
    """The version is that of the font's own name table, for each weight."""
    for weight in WEIGHTS:
        number = tables(weight)["name"].getDebugName(5).split(";")[0].removeprefix("Version ")
        assert f"{weight} {number}" in version()


def test_letters_without_a_shape_do_not_vanish() -> None:
    """A filler letter, which fonts show as nothing, is named as missing."""
    assert lettered("A\u3164B", "Bold", 60.0).missing == ("\u3164",)


@given(st.text(min_size=1, max_size=8))
def test_any_name_of_a_list_can_be_set(name: str) -> None:
    """Whatever a list's name holds, it has ink, or the list was refused."""
    out = StringIO()
    writer(out).writerows([["size", "name"], ["M", name]])
    try:
        (player,), _ = read(
            out.getvalue().encode("utf-8", "replace"),
            "squad.csv",
            (Line("adult", "#000000", ("M",)),),
            ("back-name",),
        )
    except JigsError:
        return
    for text in {player.name, player.name.upper()} - {""}:
        line = lettered(text, "Bold", 60.0)
        assert line.box.width > 0
        assert set(line.missing) <= set(text)


_TEXT = st.text(alphabet=CAPITALS + MARKED + FIGURES + "'- ", min_size=1, max_size=12)


@given(_TEXT.filter(lambda text: text.strip()), st.floats(10, 400), st.floats(0.1, 10))
def test_size_is_linear_in_height(text: str, height: float, factor: float) -> None:
    """Twice the height is twice the width."""
    one, two = lettered(text, "Bold", height), lettered(text, "Bold", height * factor)
    assert math.isclose(two.box.width, one.box.width * factor, rel_tol=1e-9)
    assert math.isclose(two.box.height, one.box.height * factor, rel_tol=1e-9)


@given(_TEXT.filter(lambda text: text.strip()), st.floats(-300, 300), st.floats(-300, 300))
def test_moved_to_a_point(text: str, x: float, y: float) -> None:
    """A moved line has the top left corner of its ink at the point, and its box around its ink."""
    line = lettered(text, "SemiBold", 60.0).moved(x, y)
    bounds = [path.bounds() for glyph in line.glyphs for path in glyph]
    assert min(box.left for box in bounds) == pytest.approx(x, abs=1e-9)
    assert min(box.top for box in bounds) == pytest.approx(y, abs=1e-9)
    assert max(box.right for box in bounds) == pytest.approx(line.box.right, abs=1e-9)
    assert max(box.bottom for box in bounds) == pytest.approx(line.box.bottom, abs=1e-9)
