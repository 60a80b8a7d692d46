"""What is said of artwork at its widths and on its garments."""

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import GAP, LINE, Detail, Ink, Remark
from jigs.artwork.turned import turned
from jigs.geometry import Box, Point
from jigs.order.order import Transfer
from jigs.plan.held import (
    held_at,
    judged,
    least_width,
    main_inks,
    passes,
    place_name,
    thicken_by,
    thinnest,
    told,
)
from jigs.plan.held_words import at_least, at_most, centre_text, ppi_text, tiny
from jigs.plan.holding import Use, holding
from jigs.plan.plan import Holding
from jigs.units import INCH, POINT
from tests.artwork import looked
from tests.artwork.looked import CORAL, CREAM, NAVY, detail, names, thin

NAVY_SHIRT, WHITE_SHIRT = ("navy", "#1f2a44"), ("white", "#ffffff")
LENGTHS = st.floats(0.05, 3.0)


def use(*widths: float, **more: Any) -> Use:
    """Return a use at some widths, each for one size, on no garment unless more is said."""
    usual: dict[str, Any] = {
        "widths": tuple((width, (f"tee/{k}",)) for k, width in enumerate(widths)),
        "grounds": (),
        "transfer": Transfer(),
        "unit": "mm",
    }
    return Use(**{**usual, **more})


def held(art: Artwork, how: Use) -> Holding:
    """Return how artwork that was looked at holds."""
    found = holding(art, how)
    assert found is not None
    return found


def said(found: Detail, *widths: float, density: float = 0.0, **more: Any) -> list[str]:
    """Return the findings on artwork in which this was found."""
    return names(held(looked.looked(found, density), use(*widths, **more)).findings)


def test_what_was_not_looked_at_is_not_judged() -> None:
    """Without a close look there is nothing to say."""
    assert holding(looked.plain(), use(50.0)) is None


def test_lengths_at_a_width() -> None:
    """100 mm of ink at 50 mm: a line of 0.4 mm is 0.2, a gap of 0.6 is 0.3, by hand."""
    (row,) = held(looked.looked(), use(50.0)).rows

    assert (row.width, row.height) == (50.0, 30.0)
    assert row.line == pytest.approx(0.2)
    assert row.gap == pytest.approx(0.3)
    assert row.ppi is None
    assert not row.holds


def test_the_least_width_by_hand() -> None:
    """A line of 0.4 mm in 100 mm is 1 pt (0.3528 mm) at 88.19 mm; a gap of 0.6 1.5 pt likewise."""
    found = held(looked.looked(), use(88.2, 88.1))

    assert found.least == pytest.approx(127 / 360 / 0.4 * 100)
    assert [row.holds for row in found.rows] == [True, False]


@given(LENGTHS, st.floats(10, 500), st.sampled_from((LINE, GAP)))
def test_everything_doubles_with_the_width(length: float, width: float, kind: str) -> None:
    """Twice as wide, every length is twice as long; the pixels are half as dense."""
    art = looked.looked(detail(thin(kind, length, 20, 20), thin(kind, length, 20, 20, None)), 12.0)
    one, two = (held_at(art, (), w, Transfer()) for w in (width, 2 * width))

    for part in ("line", "gap"):
        before, after = getattr(one, part), getattr(two, part)
        assert (after is None) == (before is None)
        assert before is None or after == pytest.approx(2 * before)
    assert one.ppi is not None
    assert two.ppi == pytest.approx(one.ppi / 2)


@given(LENGTHS, st.sampled_from((LINE, GAP)), st.floats(0.1, 2.0), st.floats(0.1, 2.0))
def test_the_least_width_passes_and_a_hair_less_fails(
    length: float, kind: str, line: float, gap: float
) -> None:
    """So does the width that is said for people, which is never less."""
    transfer = Transfer(line=line, gap=gap)
    place = thin(kind, length, 20, 20, None)
    art = looked.looked(detail(place))
    least = least_width(art, place, transfer)

    assert passes(art, place, least, transfer)
    assert not passes(art, place, least * (1 - 1e-6), transfer)
    assert thicken_by(art, place, least, transfer) == pytest.approx(0.0, abs=1e-9)
    for unit, step in (("in", 0.01 * INCH), ("mm", 0.1)):
        number = (
            float(at_least(least, unit).split()[0]) if "/" not in at_least(least, unit) else None
        )
        if number is not None:
            length_said = number * (INCH if unit == "in" else 1.0)
            assert least * (1 - 1e-6) - 1e-6 <= length_said <= least + step + 1e-6


@given(LENGTHS, st.floats(10, 500), st.sampled_from((LINE, GAP)))
def test_thickened_by_what_is_said_it_passes(length: float, width: float, kind: str) -> None:
    """A line thickened by what it lacks, in the file, is as wide as its limit at that width."""
    art, transfer = looked.plain(), Transfer()
    place = thin(kind, length, 20, 20, None)
    by = thicken_by(art, place, width, transfer)
    thicker = replace(place, width=length + by * art.ink.width / width)

    assert passes(art, thicker, width, transfer)
    assert (by == 0) == passes(art, place, width, transfer) or by < 1e-9


def test_a_thin_line_is_one_line_of_news() -> None:
    """Which sizes, how wide, which ink, what to do: once, whatever the number of sizes."""
    found = said(detail(thin(LINE, 0.4, 20, 15)), 50.0, 60.0, 120.0)

    assert found == [
        (
            "STOP tee/0, tee/1: 50 mm wide (and up to 60 mm): the thinnest line in coral "
            "(#ff7a59), upper left, is 0.2 mm (0.56 pt), under 1 pt: it will break up; "
            "order at least 88.2 mm wide or thicken it by 0.16 mm (half on each side)"
        )
    ]


def test_a_narrow_gap_is_news_of_its_own() -> None:
    """A gap closes up; it is opened, not thickened; on all sizes it is said so."""
    gap = thin(GAP, 0.6, 100, 60, None)
    found = said(detail(gap), 50.0, 60.0)

    assert found == [
        (
            "STOP all sizes: 50 mm wide (and up to 60 mm): the narrowest gap, lower right, is "
            "0.3 mm (0.85 pt), under 1.5 pt: it will close up; order at least "
            "88.2 mm wide or open it by 0.23 mm (half on each side)"
        )
    ]


def test_a_width_that_does_not_fit_is_not_recommended() -> None:
    """Where the least width has no room, only thickening is left."""
    (found,) = said(detail(thin(LINE, 0.4, 20, 15)), 50.0, room=lambda _: 70.0)

    assert "it takes 88.2 mm, and no more than 70 mm fits: thicken it by" in found
    assert "order at least" not in found
    line = detail(thin(LINE, 0.4, 20, 15))
    (found,) = said(line, 50.0, 60.0, room=lambda keys: 70.0 if keys == ("tee/0",) else 90.0)
    assert "order at least 88.2 mm wide where that fits or thicken it by" in found


def test_what_passes_is_not_mentioned() -> None:
    """Wide enough lines and gaps make no news."""
    assert said(detail(*looked.PLACES), 90.0, 300.0) == []


def test_a_gap_that_another_ink_fills_does_not_block() -> None:
    """A gap in one ink that is none in all ink is remarked, not refused."""
    (found,) = said(detail(thin(GAP, 0.6, 50, 40, ink=1)), 50.0)

    assert found.startswith("note all sizes: 50 mm wide: the narrowest gap in navy (#1b2a4a) that")
    assert "let the inks overlap there" in found


def test_one_place_counts_once() -> None:
    """A line found in its ink and in all ink is one place, named by its ink."""
    found = judged(detail(*looked.PLACES))

    assert [(one.kind, one.width, one.ink) for one in found] == [
        (LINE, 0.4, 0),
        (GAP, 0.6, 0),
        (LINE, 0.9, 1),
    ]
    assert thinnest(found, LINE) == looked.PLACES[0]


def test_shades_are_judged_as_one() -> None:
    """In shades of colour the lines of one of them mean nothing; that they are shades is said."""
    places = (thin(LINE, 0.1, 20, 20, 0), thin(LINE, 0.9, 50, 50, None))
    (found,) = said(detail(*places, flat=False), 50.0)

    assert found.startswith("note mark.svg: shades of colour, not flat inks")


@pytest.mark.parametrize(
    ("ppi", "expected"),
    [
        (300, []),
        (299, [("note tee/0: 100 mm wide: the picture has 299 ppi, where 300 is usual: its edges "
               "may look soft")]),
        (150, ["note"]),
        (149, [("STOP tee/0: 100 mm wide: the picture has 149 ppi, under 150: its edges will show "
               "as steps; get it larger, or order at most 99.3 mm wide")]),
    ],
)  # fmt: skip
def test_pixels(ppi: float, expected: list[str]) -> None:
    """300 pixels per inch are usual, under 150 it blocks; as dense as wide, by hand."""
    # Ink of 100 mm at 100 mm: the density of the file is that of the print.
    found = said(detail(), 100.0, density=ppi / INCH)

    assert len(found) == len(expected)
    for one, words in zip(found, expected, strict=True):
        assert one.replace("all sizes", "tee/0").startswith(words)


def test_the_shop_says_how_few_pixels_do() -> None:
    """`least_ppi` is the shop's own; above 300 that is also what is wanted."""
    shop = Transfer(least_ppi=72)
    assert [one[:4] for one in said(detail(), 100.0, density=80 / INCH, transfer=shop)] == ["note"]
    shop = Transfer(least_ppi=400)
    assert [one[:4] for one in said(detail(), 100.0, density=390 / INCH, transfer=shop)] == ["STOP"]


def test_a_picture_inside_a_drawing_has_its_own_pixels() -> None:
    """200 pixels across 20 mm are 254 ppi at the file's size, 127 at twice that; turned as well."""
    inside = Remark("image", "a picture inside", Box(90, 10, 110, 20), pixels=200)
    for turn in (0, 90, 180, 270):
        art = turned(looked.looked(detail(remarks=(inside,))), turn)
        scale = art.ink.width / 100
        found = held(art, use(100.0 * scale, 200.0 * scale))

        assert [row.ppi for row in found.rows] == pytest.approx([254, 127])
        assert [row.holds for row in found.rows] == [True, False]
        assert found.most == pytest.approx(200 * scale * 127 / 150)


def test_an_ink_like_the_garment_blocks() -> None:
    """Navy ink as a main ink on a navy shirt is not to be seen, with what may be meant."""
    inks = (Ink(NAVY, 0.6), Ink(CORAL, 0.4))
    (found,) = said(detail(inks=inks), 50.0, grounds=(NAVY_SHIRT,))

    assert found.startswith("STOP navy (#1b2a4a) on navy: contrast 1.0, hardly visible")
    assert "leave it out where the garment is meant to show" in found


def test_an_outline_like_the_garment_is_remarked() -> None:
    """An ink of little area may be an outline, or lie on another."""
    (found,) = said(detail(), 50.0, grounds=(NAVY_SHIRT,))

    assert found.startswith("note navy (#1b2a4a) on navy: contrast 1.0, hardly visible where it")


def test_weak_contrast_names_every_garment_once() -> None:
    """Below 3 an ink is weak; yellow on white is that, but not taken for white."""
    grounds = (WHITE_SHIRT, ("off white", "#f4f0e4"), NAVY_SHIRT)
    (found,) = said(detail(inks=(Ink("#f7d417", 1.0),)), 50.0, grounds=grounds)

    assert found == (
        "note yellow (#f7d417) on white and off white: contrast 1.2 to 1.4, weak: 3 is asked of "
        "graphics (WCAG 2, 1.4.11)"
    )


def test_an_ink_goes_by_the_name_in_the_file() -> None:
    """What the file calls its separation is what people know; else a near name, else the value."""
    inks = (Ink(CREAM, 0.5, "Chalk"), Ink("#00ff00", 0.5))
    found = said(detail(inks=inks), 50.0, grounds=(WHITE_SHIRT,))

    assert [one.partition(" on ")[0] for one in found] == ["STOP Chalk (#f4f1e6)", "note #00ff00"]


def test_every_ink_on_every_garment() -> None:
    """Contrasts are a table: inks times colours, the same colour once."""
    grounds = (NAVY_SHIRT, WHITE_SHIRT, NAVY_SHIRT)
    found = held(looked.looked(), use(90.0, grounds=grounds)).contrasts

    assert [(one.ink, one.garment) for one in found] == [
        (0, "navy"), (0, "white"), (1, "navy"), (1, "white"),
    ]  # fmt: skip
    assert all(1 <= one.ratio <= 21 for one in found)


def test_a_speck_that_sets_the_size_blocks() -> None:
    """Where it stands, how far away, what the artwork is without it, how to be rid of it."""
    speck = detail(specks=(looked.SPECK,), body=Box(10, 20, 80, 70))
    (found,) = said(speck, 50.0)

    # From (80, 20) to (108, 11): 28 across and 9 up are 29.4.
    assert found == (
        "STOP mark.svg: a speck (upper right, 29.4 mm from the rest in the file) counts as "
        "artwork and would set its size: the rest is 70 mm × 50 mm, not 100 mm × 60 mm; delete "
        "it, or set ignore_specks = true"
    )


def test_specks_that_change_nothing_or_are_left_out_are_remarked() -> None:
    """Inside the artwork a speck only prints; ignored ones are named as left out."""
    inside = detail(specks=(Box(50, 40, 51, 41),) * 2, body=looked.plain().ink)
    (found,) = said(inside, 50.0, ignoring="give --ignore-specks")

    assert found.startswith("note mark.svg: 2 specks (middle, ")
    assert found.endswith("will be printed: if not meant, delete them, or give --ignore-specks")
    outside = detail(specks=(Box(115, 5, 116, 6),))
    (found,) = said(outside, 50.0, specks_ignored=True)
    assert found == "note mark.svg: a speck left out, as asked (upper right)"


def test_remarks_say_where_and_how_large_in_print() -> None:
    """A gradient of 20 x 10 mm in the file is half that at half the width; two are one line."""
    remarks = (looked.GRADIENT, looked.GRADIENT, Remark("text", "live text"))
    found = said(detail(remarks=remarks), 50.0)

    assert found == [
        (
            "note mark.svg: a gradient has no flat colour (upper right, 10 mm × 5 mm at 50 mm and "
            "1 more)"
        ),
        "note mark.svg: live text",
    ]


@pytest.mark.parametrize(
    ("x", "y", "words"),
    [
        (0, 0, "upper left"), (50, 0, "top"), (99, 1, "upper right"), (0, 50, "left"),
        (50, 50, "middle"), (100, 50, "right"), (0, 100, "lower left"), (50, 100, "bottom"),
        (100, 100, "lower right"), (-5, 120, "lower left"),
    ],
)  # fmt: skip
def test_places_have_names(x: float, y: float, words: str) -> None:
    """Nine places; what lies outside belongs to the nearest."""
    assert place_name(Box(0, 0, 100, 100), Point(x, y)) == words


@given(st.floats(0.001, 5.0))
def test_a_tiny_length_is_never_said_wider_than_it_is(length: float) -> None:
    """So that what fails is not said to be what is asked."""
    mm, points = tiny(length).split(" mm (")

    assert float(mm) <= length + 1e-6
    assert float(points.removesuffix(" pt)")) <= length / POINT + 1e-5
    assert length - float(mm) < 0.01 + 1e-6


@given(st.floats(1, 900))
def test_at_most_is_never_more(length: float) -> None:
    """In millimetres, to a tenth."""
    found = float(at_most(length, "mm").split()[0])

    assert found <= length + 1e-6
    assert length - found < 0.1 + 1e-6


def test_artwork_without_thin_places_or_pixels_holds_at_any_width() -> None:
    """There is no least and no greatest width."""
    found = held(looked.looked(detail()), use(1.0, 1000.0))

    assert (found.least, found.most) == (None, None)
    assert all(row.holds and row.line is None for row in found.rows)
    assert found.findings == ()


def test_turning_changes_no_width_of_a_line() -> None:
    """Turned by a quarter, lines are as wide as before at the same size of print."""
    art = looked.looked()
    one, two = held_at(art, (), 50.0, Transfer()), held_at(turned(art, 90), (), 30.0, Transfer())

    assert (one.line, one.gap) == pytest.approx((two.line, two.gap))
    assert math.isclose(two.height, 50.0)


def test_a_speck_is_no_line() -> None:
    """A thin place inside a speck's box is the speck's; beside it, it counts."""
    inside, beside = thin(LINE, 0.1, 109, 10.5), thin(LINE, 0.2, 100, 10.5)

    assert judged(detail(inside, beside, specks=(looked.SPECK,))) == (beside,)
    assert judged(detail(inside, beside)) == (inside, beside)
    hole = thin(GAP, 0.1, 109, 10.5, ink=1)
    found = said(detail(inside, hole, specks=(looked.SPECK,)), 50.0)
    assert [one for one in found if "thinnest" in one or "narrowest" in one] == []


@given(
    st.lists(st.tuples(st.floats(0.1, 0.3), st.integers(10, 110), st.integers(0, 1)), max_size=9)
)
def test_one_stroke_is_told_of_twice_at_most(drawn: list[tuple[float, int, int]]) -> None:
    """Of places with one width in one ink two are told, the second as far away as there is one."""
    places = judged(detail(*(thin(LINE, width, x, 20, ink) for width, x, ink in drawn)))
    found = told(places)

    assert set(found) <= set(places)
    assert len(set(found)) == len(found)
    for place in places:
        alike = [one for one in found if one.ink == place.ink and one.width == place.width]
        assert len(alike) <= 2
    # The thinnest of each ink is there, whatever else is.
    for ink in {one.ink for one in places}:
        first = next(one for one in places if one.ink == ink)
        assert first in found


def test_other_strokes_come_before_a_strokes_second_place() -> None:
    """Four places along one stroke do not keep another from being told of."""
    stroke = [thin(LINE, 0.2, x, 20) for x in (20, 40, 60, 100)]
    other = thin(LINE, 0.3, 30, 50)

    assert told((*stroke, other)) == (stroke[0], other, stroke[3])


@pytest.mark.parametrize(("ppi", "blocks"), [(149.9, False), (149.8, True)])
def test_pixels_within_a_thousandth_do(ppi: float, *, blocks: bool) -> None:
    """PNG keeps whole pixels per metre (specification, 11.3.4.3), so 150 ppi read as 149.987."""
    art = looked.looked(detail(), ppi / INCH)
    found = held(art, use(100.0))

    assert any(one.blocks for one in found.findings) == blocks
    assert found.rows[0].holds == (not blocks)
    assert ppi_text(ppi) == ("149" if blocks else "150")


def test_a_gap_filled_by_a_line_that_is_too_thin_is_not_to_overlap() -> None:
    """What is said of the line is all there is to say: no ink overlaps a line of no width."""
    line = thin(LINE, 0.3, 50, 40, ink=0)
    (found,) = said(detail(line, thin(GAP, 0.3, 80, 60, ink=1)), 50.0)

    assert "the thinnest line in coral" in found
    assert len(said(detail(thin(GAP, 0.3, 80, 60, ink=1)), 50.0)) == 1


def test_no_width_beyond_every_press_is_recommended() -> None:
    """A hairline would need 35 m: that is no advice."""
    (found,) = said(detail(thin(LINE, 0.001, 20, 15)), 50.0)

    assert found.endswith("it will break up; no width up to 2 m holds it: redraw it")


def test_of_many_shades_the_main_ones_are_told() -> None:
    """What the fifth shade of a photo does on a garment is nobody's business."""
    inks = tuple(Ink(CREAM, 0.2) for _ in range(6))
    found = said(detail(inks=inks, flat=False), 50.0, grounds=(WHITE_SHIRT,))
    shades = [one for one in found if "on white" in one]

    assert main_inks(detail(inks=inks, flat=False)) == inks[:4]
    assert main_inks(detail(inks=inks)) == inks
    assert all(one.count("off white") <= 4 for one in shades)


def test_text_in_another_machines_font_is_said_once() -> None:
    """The file's own finding says it, and blocks; the remark has its place, for the data."""
    text = Remark("font", "live text in Harbour Sans", Box(20, 20, 40, 30))

    assert said(detail(remarks=(text,)), 50.0) == []


def test_a_wide_place_is_not_measured() -> None:
    """More than ten times its limit, a line is no line."""
    assert tiny(3.6, 0.3528) == "over 3.5 mm"
    assert tiny(3.5, 0.3528).startswith("3.5 mm (")


def test_the_optical_centre_is_said_in_print() -> None:
    """2 mm left and 2 mm below in the file are half that at half the width."""
    art = looked.looked()

    assert centre_text(art, 50.0, "mm") == "1.0 mm left, 1.0 mm below"
    assert centre_text(art, 50.0, "in") == "0.04 in left, 0.04 in below"
    middle = looked.looked(detail(centroid=art.ink.centre))
    assert centre_text(middle, 50.0, "in") == "the same to 0.01 in"
