"""The artwork report and picture: what they say, and that they can be read."""

import json
from dataclasses import replace
from functools import cache
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import GAP, LINE, Ink
from jigs.artwork.turned import turned
from jigs.documents import plan_json
from jigs.documents.artwork_picture import artwork_page
from jigs.documents.artwork_report import artwork_data, artwork_text, held_data, held_text
from jigs.documents.artwork_verdict import verdict
from jigs.documents.pointers import RADIUS, spots
from jigs.drawing.drawing import Page, Picture, Text
from jigs.errors import BadInput, Place
from jigs.geometry import Box, Point
from jigs.geometry.point import distance
from jigs.order.order import Transfer
from jigs.pipeline import make, read, render
from jigs.plan import Plan
from jigs.plan.holding import Use, holding
from jigs.writers import as_bytes
from tests import demo, orders
from tests.artwork import looked
from tests.artwork.looked import CREAM, detail, thin
from tests.documents.test_pictures import assert_readable

NAVY = ("navy", "#1f2a44")
GROUNDS = (NAVY, ("white", "#ffffff"), ("heather grey", "#a9abae"))
MANY = tuple(
    thin(kind, 0.2 + k / 50, 15 + 13 * k, 20 + 6 * k, ink)
    for k in range(7)
    for kind, ink in ((LINE, k % 2), (GAP, None))
)


@cache
def planned() -> Plan:
    """Return the demo order's plan, its first two prints with what a close look might find."""
    plan = demo.plan()
    first, second, *rest = plan.prints
    made = []
    for one, places in ((first, looked.PLACES), (second, (thin(LINE, 2.0, 40, 40),))):
        found = detail(*places, centroid=one.artwork.ink.centre)
        art = replace(one.artwork, detail=found)
        use = Use(
            widths=tuple((each.width, each.sizes) for each in one.widths.ranges),
            grounds=(NAVY, ("harbour blue", "#27496d")),
            transfer=plan.shop.transfer,
            unit="in",
        )
        made.append(replace(one, artwork=art, held=holding(art, use)))
    plain = [
        replace(one, artwork=replace(one.artwork, detail=None, density=0.0), held=None)
        for one in rest
    ]
    return replace(plan, prints=(*made, *plain))


def page(art: Artwork, width: float, unit: str = "in", **more: Any) -> Page:
    """Return the picture of artwork at a width."""
    use = Use(widths=((width, ()),), grounds=GROUNDS, transfer=Transfer(), unit=unit, **more)
    return artwork_page(art, holding(art, use), Transfer(), unit, art.name)


def shaped(width: float, height: float, art: Artwork | None = None) -> Artwork:
    """Return artwork of another shape with places all over it."""
    found = art or looked.looked(detail(*MANY, specks=(Box(109, 10, 110, 11),)))
    assert found.detail is not None
    x, y = width / 100, height / 60
    moved = [
        replace(one, at=Point(10 + (one.at.x - 10) * x, 10 + (one.at.y - 10) * y))
        for one in found.detail.thin
    ]
    speck = Box(10 + width - 1, 10, 10 + width, 11)
    middle = Point(10 + width / 2, 10 + height / 2)
    looks = replace(found.detail, thin=tuple(moved), specks=(speck,), centroid=middle)
    return replace(found, ink=Box(10, 10, 10 + width, 10 + height), detail=looks)


PAGES = {
    "bad": lambda: page(shaped(100, 60), 88.9),
    "good": lambda: page(looked.looked(detail(thin(LINE, 2.0, 40, 40))), 300.0),
    "tall": lambda: page(shaped(20, 300), 60.0),
    "wide": lambda: page(shaped(300, 10), 280.0, "mm"),
    "tiny": lambda: page(shaped(100, 60), 12.0, "mm"),
    "turned": lambda: page(turned(shaped(100, 60), 90), 60.0),
    "huge": lambda: page(shaped(100, 60), 900.0),
    "many inks": lambda: page(
        looked.looked(
            detail(inks=tuple(Ink(f"#{k}0{k}0{k}0", 0.2, f"Deep ink {k}") for k in range(5)))
        ),
        50.0,
    ),
    "not looked at": lambda: page(looked.plain(), 50.0),
}  # fmt: skip


@pytest.mark.parametrize("name", PAGES)
def test_a_picture_can_be_read(name: str) -> None:
    """No label on another, nothing off the page, whatever the artwork's shape and size."""
    found = PAGES[name]()

    assert_readable(name, found)
    assert Box(0, 0, found.width, found.height).holds(found.drawing.bounds(), 1e-6)


@pytest.mark.parametrize(("name", "width"), [("bad", 88.9), ("turned", 60.0), ("huge", 450.0)])
def test_artwork_is_at_its_printed_size(name: str, width: float) -> None:
    """The first picture on the page is the artwork as wide as it is printed; a huge one half."""
    first = next(e for e in PAGES[name]().drawing.entities if isinstance(e, Picture))

    assert first.box.width == pytest.approx(width)


def words(found: Page) -> list[str]:
    """Return what a page says."""
    return [e.string for e in found.drawing.entities if isinstance(e, Text)]


def test_the_title_says_whether_it_holds() -> None:
    """File, width and verdict, with the reason; what is pointed at is numbered and named."""
    bad = words(page(looked.looked(), 50.8))

    assert bad[:2] == ["mark.svg at 2 in", "STOP: lines too thin, gaps too narrow"]
    assert bad[3:7] == ["1", "2", "4 in", "1"] or "line 0.2 mm (0.57 pt)" in bad
    assert "coral, upper left" in bad
    assert "under 1 pt: widen 0.15 mm" in bad
    good = words(page(looked.looked(detail(thin(LINE, 2.0, 40, 40))), 50.8))
    assert good[:2] == ["mark.svg at 2 in", "holds"]
    assert "the thinnest; 1 pt will do" in good


def test_other_reasons_to_stop_are_named() -> None:
    """Pixels, an ink like the garment, and what only the report explains."""
    lost = looked.looked(detail(inks=(Ink(CREAM, 1.0),)), density=1.0)

    assert words(page(lost, 50.8))[1] == ("STOP: too few pixels, off white hardly visible on white")
    speck = looked.looked(detail(specks=(looked.SPECK,), body=Box(10, 10, 80, 70)))
    assert words(page(speck, 50.8))[1] == "STOP: stray specks"


def test_a_picture_is_the_same_bytes_again() -> None:
    """In both formats; the SVG holds every inset."""
    for suffix in ("svg", "png"):
        assert as_bytes(suffix, [PAGES["bad"]()]) == as_bytes(suffix, [PAGES["bad"]()])
    assert as_bytes("svg", [PAGES["bad"]()]).count(b"<image") == 1 + 6 + 1


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=8),
    st.floats(10, 300),
    st.floats(10, 300),
)
def test_numbers_stand_free(shares: list[tuple[float, float]], wide: float, high: float) -> None:
    """Wherever the places are, circles are inside the room, off each other and off all places."""
    art = Box(20, 20, 20 + wide, 20 + high)
    room = Box.of_all((art.grown(16), Box(20 - 16, 20 - 16, 100, 76)))
    targets = [Point(art.left + x * wide, art.top + y * high) for x, y in shares]
    found = spots(targets, room, art)

    assert len(found) == len(targets)
    for spot in found:
        assert room.holds(Box(*spot, *spot).grown(RADIUS))
    for one, two in combinations(found, 2):
        assert distance(one, two) > 2 * RADIUS
    for k, spot in enumerate(found):
        assert all(distance(spot, one) > RADIUS for j, one in enumerate(targets) if j != k)


def test_the_report_has_a_section_for_each_print() -> None:
    """File, ground, size, inks, a row for each width, what is asked, contrast, findings."""
    text = artwork_text(planned())
    plan = planned()

    for one in plan.prints:
        assert f"{one.name}: {one.artwork.name}, SVG, transparent ground, ink " in text
    first = text.split("\n\n")[2:]
    assert "coral (#ff7a59)" in first[0]
    assert "80%" in first[0]
    assert "at least" in first[1]
    assert "0.35 mm (1 pt)" in first[1]
    assert "NO" in first[1]
    assert "  lines, gaps and pixels hold from " in first[1]
    assert "to mend at " in first[2]
    assert "harbour blue (#27496d)" in first[3]
    assert any(line.startswith("  STOP  ") for line in text.splitlines())
    assert text.count("not looked at closely") == 2 * (len(plan.prints) - 2)
    assert all(len(line) == len(line.rstrip()) for line in text.splitlines())


def test_the_data_says_what_the_report_says() -> None:
    """Lengths in mm at the printed widths, limits, contrasts; findings as everywhere."""
    plan = planned()
    first = artwork_data(plan)["prints"][0]
    held = plan.prints[0].held
    assert held is not None

    assert [one["holds"] for one in first["widths"]] == [row.holds for row in held.rows]
    assert first["least_width_mm"] == held.least
    assert first["limits"]["line_mm"] == pytest.approx(25.4 / 72)
    assert {one["garment"] for one in first["contrast"]} == {"navy", "harbour blue"}
    assert len(first["findings"]) == len(held.findings)
    assert json.loads(json.dumps(first)) == first


def test_what_blocks_on_artwork_blocks_the_order() -> None:
    """Findings on artwork stand with the others, named by their print."""
    plan = planned()

    assert plan.blocked
    assert any(
        one.about.startswith("left-chest, ") and "thinnest line" in one.says
        for one in plan.all_findings()
    )


def test_a_judged_plan_is_kept_whole() -> None:
    """plan.json gives back what was found and what was judged, and the same files from it."""
    plan = planned()
    kept = plan_json.loaded(plan_json.dumped(plan).decode(), Place("plan.json"))

    assert kept == plan
    files = {one.name: one.data for one in render(kept)}
    assert {"artwork.txt", "artwork.json"} <= files.keys()
    for one in plan.prints:
        for suffix in ("svg", "png"):
            assert (f"artwork-{one.name}.{suffix}" in files) == (one.held is not None)
    assert files["artwork.txt"] == artwork_text(plan).encode()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('"kind": "line"', '"kind": "lime"'),
        ('"colour": "#ff7a59"', '"colour": "coral"'),
        ('"garment_hex": "#27496d"', '"garment_hex": "blue"'),
        ('"ink": 1,\n       "garment"', '"ink": 9,\n       "garment"'),
        ('"width": 0.4', '"width": 0.0'),
    ],
)
def test_a_close_look_that_cannot_be_is_refused(old: str, new: str) -> None:
    """A kept plan that somebody changed is refused in one line, not half rendered."""
    text = plan_json.dumped(planned()).decode()

    assert old in text
    with pytest.raises(BadInput):
        plan_json.loaded(text.replace(old, new), Place("plan.json"))


def test_an_order_carries_what_was_looked_at(
    tmp_path: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """From the file to the plan: judged at each range, on the garment's colour, by the shop."""
    art = looked.looked()
    monkeypatch.setattr("jigs.artwork.read", lambda *_: art)
    text = f'{orders.ORDER}\n[transfer]\nline = "0.1 mm"\ngap = "2 pt"\n'
    plan = make(read(orders.small(tmp_path, text)))

    for one in plan.prints:
        assert one.held is not None
        assert [row.width for row in one.held.rows] == [r.width for r in one.widths.ranges]
        assert {row.garment for row in one.held.contrasts} == {"navy"}
        said = [each.says for each in one.held.findings if each.blocks]
        assert any("under 2 pt" in each for each in said)
        assert not any("thinnest line" in each for each in said)


def test_a_speck_at_the_edge_is_marked() -> None:
    """Specks are boxes a pixel larger than they are, so that one may stick out of the ink."""
    speck = looked.SPECK.grown(0.5)
    art = looked.looked(detail(specks=(speck,), body=Box(10, 10, 80, 70)))

    assert any(one.startswith("speck ") for one in words(page(art, 50.8)))
    off = looked.looked(detail(specks=(Box(112, 5, 114, 6),)))
    assert not any(one.startswith("speck ") for one in words(page(off, 50.8)))


def test_the_verdict_is_about_the_width_that_is_drawn() -> None:
    """Too few pixels on the widest print do not stop the narrowest, which is drawn."""
    art = looked.looked(detail(), density=200 / 25.4)
    use = Use(widths=((100.0, ()), (200.0, ())), grounds=(), transfer=Transfer())
    held = holding(art, use)
    assert held is not None
    assert any(one.blocks for one in held.findings)

    assert words(artwork_page(art, held, Transfer(), "in", "a"))[1] == "holds"


def test_wide_places_are_not_magnified() -> None:
    """No inset shows both sides of 30 mm of ink: its number and its words are enough."""
    found = page(looked.looked(detail(thin(LINE, 30.0, 40, 40))), 100.0)

    assert "line over 3.5 mm" in words(found)
    assert sum(isinstance(e, Picture) for e in found.drawing.entities) == 1


def test_one_look_says_what_to_print() -> None:
    """A line for each print: what stops it, on which sizes what is too thin, or that it holds."""
    plan = planned()
    first, second, third, *_ = artwork_text(plan).splitlines()[3:]

    assert artwork_text(plan).splitlines()[2] == "one look says"
    assert first.startswith("  left-chest ")
    assert "youth XS–XL; adult S: NO, line 0.3" in first
    assert ", under 1 pt" in first
    assert second.endswith("holds on all sizes")
    assert third.endswith("not looked at closely")
    art = looked.looked(
        detail(inks=(Ink(CREAM, 1.0),), specks=(looked.SPECK,), body=Box(10, 10, 80, 70))
    )
    held = holding(art, Use(((50.8, ("tee/m",)),), GROUNDS, Transfer()))
    assert held is not None
    assert verdict(art, held, Transfer(), ", ".join) == (
        "STOP: stray specks, off white hardly visible on white; holds on all sizes"
    )


def test_contrast_is_never_cut_short() -> None:
    """Long names take more lines."""
    inks = tuple(Ink(f"#{k}0{k}0{k}0", 0.2, f"A very long name of an ink {k}") for k in range(4))
    said = " ".join(words(page(looked.looked(detail(inks=inks)), 50.8)))

    assert "..." not in said
    assert all(said.count(ink.name) == len(GROUNDS) for ink in inks)


def test_the_inks_of_a_photo_are_few_and_have_no_lines() -> None:
    """Four shades stand for all, and how thin one of them gets is not said."""
    inks = tuple(Ink(f"#{k}0{k}0{k}0", 0.1) for k in range(9))
    art = looked.looked(detail(thin(LINE, 0.2, 20, 20, 0), inks=inks, flat=False))
    held = holding(art, Use(((50.8, ()),), GROUNDS, Transfer()))
    assert held is not None
    text = "\n".join(held_text(art, held, Transfer(), "in", ", ".join))

    assert sum(line.count("10%") for line in text.splitlines()) == 4
    assert "0.1 mm" not in text


def test_a_single_ink_has_the_lines_of_all_ink() -> None:
    """What was measured on all ink together is what its only ink has."""
    found = detail(thin(LINE, 0.4, 20, 20, None), inks=(Ink(CREAM, 1.0),))
    art = looked.looked(found)
    held = holding(art, Use(((100.0, ()),), (), Transfer()))
    assert held is not None
    _, row, *_ = held_text(art, held, Transfer(), "mm", ", ".join)

    assert row.split("100%")[1].split() == ["0.4", "mm", "(1.13", "pt)", "–"]


def test_separations_and_the_places_of_remarks_are_told() -> None:
    """Each ink that the file names, in the text and as data; where a remark is, as data."""
    found = detail(remarks=(looked.GRADIENT,), separations=(("Team Red", "#cc2222"),))
    art = looked.looked(found)
    held = holding(art, Use(((100.0, ()),), (), Transfer()))
    assert held is not None
    data = held_data(art, held, Transfer())

    assert "  separations in the file: Team Red (#cc2222)" in list(
        held_text(art, held, Transfer(), "mm", ", ".join)
    )
    assert data["separations"] == [{"name": "Team Red", "colour": "#cc2222"}]
    assert data["remarks"][0]["where_mm"] == [90.0, 10.0, 110.0, 20.0]
    assert data["remarks"][0]["pixels"] is None
