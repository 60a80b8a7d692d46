"""Platen maps: to scale in every format, nothing on anything else, and one for every location."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from jigs.documents import plan_json
from jigs.documents.platen_files import all_shown, platen_files
from jigs.documents.platen_full_size import full_size
from jigs.documents.platen_map import full_size_pages, map_page
from jigs.documents.platen_shown import Shown, letter
from jigs.documents.platen_words import loaded, notes, rows
from jigs.drawing.drawing import Page, Text
from jigs.drawing.lower import text_box
from jigs.errors import BadInput, Place
from jigs.geometry import Box
from jigs.locations import LOCATIONS
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.pipeline import make, read
from jigs.plan import Plan, Shop
from jigs.plan.loading import loads
from jigs.plan.prints import Site, sites
from jigs.plan.sizes import Sized, facts
from jigs.tables import library
from jigs.units import INCH, Mm, say
from jigs.writers import as_bytes
from tests import demo, orders, shipped
from tests.documents.test_pictures import assert_readable
from tests.readers import pdf, svg
from tests.readers.contour import Contour
from tests.team.orders import planned

#: A sheet on which any platen of the tests is one page.
ROLL = Paper("roll", 1200.0, 1300.0, 5.0)
NEAR = 0.05
SMALL, TALL, LABEL = Press(150, 150), Press(2 * INCH, 40 * INCH), Press(6 * INCH, 4 * INCH)
KIDS = ("infant-crew-tee", "toddler-crew-tee", "youth-crew-tee")


def pressed(
    tables: Sequence[str],
    press: Press,
    units: str = "in",
    share: float = 0.5,
    sizes: Callable[[tuple[Sized, ...]], Sequence[Sized]] = lambda every: every[:: len(every) // 2],
) -> Plan:
    """Return the demo's plan with other garments, printed all over and laid on another press."""
    drawn = {table: tuple(sizes(shipped.sizes(table))) for table in tables}
    own = demo.plan()
    prints = []
    for name, location in LOCATIONS:
        on = [one for table in tables if shipped.has(name, table) for one in drawn[table]]
        if not on:
            continue
        found, _ = sites(location, on, press)
        inks = {site.key: ink(site, share * min(press.platen_width, press.platen_height))
                for site in found}  # fmt: skip
        made = loads(location, found, inks, press, units)
        prints.append(replace(own.prints[0], name=name, location=name, loads=made))
    return replace(
        own,
        units=units,
        shop=replace(own.shop, press=press),
        tables=facts([library.find(table, Place(table)) for table in tables]),
        sizes=tuple(one.plan for table in tables for one in drawn[table]),
        prints=tuple(prints),
    )


def ink(site: Site, most: Mm) -> Box:
    """Return where a print that looks usual lies, no wider and no higher than a platen takes."""
    width = min(most, 0.4 * site.sized.flat.measures.breadth, 300.0)
    height, hangs = 0.8 * width, site.placement.hangs
    x, y = site.placement.anchor
    top = y if hangs else y - height
    return Box(x - width / 2, top, x + width / 2, top + height)


@cache
def every(kind: str) -> dict[str, Shown]:
    """Return the maps of an order by title and load."""
    plans: dict[str, Callable[[], Plan]] = {
        "demo": demo.plan,
        "team": planned,
        "cuts": lambda: pressed(("adult-crew-tee", *shipped.OTHERS), Press()),
        "tees": lambda: pressed(shipped.TABLES, Press(), sizes=lambda every: every),
        "small": lambda: pressed(("adult-crew-tee", "adult-hoodie"), SMALL, "mm"),
        "tall": lambda: pressed(("adult-crew-tee", "tote-bag"), TALL),
        "label": lambda: pressed(KIDS, LABEL, share=0.9),
        "huge": lambda: pressed(("infant-bodysuit", "adult-polo"), Press(1000, 1000), "mm"),
    }
    return {f"{one.title} {one.count[0]}": one for one in all_shown(plans[kind]())}


KINDS = ("demo", "team", "cuts", "tees", "small", "tall", "label", "huge")


def scale_of(page: Page) -> float:
    """Return the scale that a map says."""
    return float(re.findall(r"scale 1:([\d.]*\d)", page.says)[0])


def closed_boxes(found: list[Contour]) -> list[tuple[float, ...]]:
    """Return the boxes of what a reader found closed."""
    return [one.box() for one in found if one.closed]


def is_there(wanted: tuple[float, ...], boxes: list[tuple[float, ...]]) -> bool:
    """Return whether a box is among some, to what a reader must agree to."""
    return any(max(abs(a - b) for a, b in zip(wanted, box, strict=True)) < NEAR for box in boxes)


def test_every_location_has_a_map() -> None:
    """All shipped locations, on every cut that has them; a team's names and numbers too."""
    assert {one.location.title for one in every("cuts").values()} == {
        location.title for _, location in LOCATIONS
    }
    assert {one.title for one in every("team").values()} >= {
        "back-name", "back-number", "front-number",
    }  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_maps_are_read_in_three_seconds(kind: str) -> None:
    """No label on another or off the page, and nothing drawn beyond it."""
    for name, one in every(kind).items():
        page = map_page(one, "a reference", Paper())

        assert (page.width, page.height) == (Paper().width, Paper().height)
        assert_readable(f"{kind} {name}", page)
        assert Box(0, 0, page.width, page.height).holds(page.drawing.bounds(), 1e-6), name


@pytest.mark.parametrize("kind", KINDS)
def test_full_size_maps_have_their_words_clear_and_within_the_lines(kind: str) -> None:
    """Pages are laid out by the lines, so words must stand within them, and off each other."""
    for name, one in every(kind).items():
        drawing = full_size(one)
        boxes = [(e.string, text_box(e)) for e in drawing.entities if isinstance(e, Text)]
        bounds = drawing.bounds()

        assert all(bounds.holds(box, 0.5) for _, box in boxes), name
        for (a, here), (b, there) in combinations(boxes, 2):
            assert not here.overlaps(there), (kind, name, a, b)


@pytest.mark.parametrize(
    ("kind", "suffix"), [("cuts", "svg"), ("small", "svg"), ("demo", "svg"), ("demo", "pdf")]
)
def test_a_map_is_to_scale(kind: str, suffix: str) -> None:
    """Read back: the platen, each box of ink and the seam's level, all where the load has them."""
    for name, one in every(kind).items():
        page = map_page(one, "a reference", Paper())
        data = as_bytes(suffix, [page])
        found = svg.contours(data) if suffix == "svg" else pdf.contours(data)
        scale, platen = scale_of(page), one.platen
        boxes = closed_boxes(found)
        wide, high = platen.width / scale, platen.height / scale
        corners = [
            box[:2] for box in boxes
            if abs(box[2] - box[0] - wide) < NEAR and abs(box[3] - box[1] - high) < NEAR
        ]  # fmt: skip
        assert corners, name
        x, y = corners[0][0] + wide / 2, corners[0][1]
        for lying in one.load.lying:
            ink = lying.ink
            wanted = (ink.left, ink.top, ink.right, ink.bottom)
            moved = tuple(side / scale + (x, y)[k % 2] for k, side in enumerate(wanted))

            assert is_there(moved, boxes), (name, lying.key)
        crossing = [px for each in found for px, py in each.points
                    if abs(py - (y + one.load.level / scale)) < NEAR]  # fmt: skip
        assert any(abs(px - (x + one.load.aside / scale)) < 1.0 for px in crossing), name


@pytest.mark.parametrize("kind", ["demo", "small"])
def test_the_full_size_map_is_full_size(kind: str) -> None:
    """On one large page, through a printer that errs both ways, to 0.05 mm when printed."""
    shop = Shop(ROLL, Printer(1.01, 0.98), Cutter(), Press(), Transfer())
    for name, one in every(kind).items():
        (page,) = full_size_pages(one, "a reference", shop)
        found = pdf.contours(as_bytes("pdf", [page]))
        printed = [
            [(px / 1.01, py / 0.98) for px, py in each.points]
            if page.width == ROLL.width
            else [(px / 0.98, py / 1.01) for px, py in each.points]
            for each in found
        ]
        long = [p for p in printed if abs(p[0][0] - p[-1][0]) < NEAR and len(p) == 2
                and abs(abs(p[0][1] - p[-1][1]) - one.platen.height) < NEAR]  # fmt: skip
        assert long, name
        # Of two lines as high as the platen, the garment's and the platen's, one fits all.
        origins = [(p[0][0], min(p[0][1], p[-1][1])) for p in long]
        boxes = [
            (min(x for x, _ in p), min(y for _, y in p), max(x for x, _ in p), max(y for _, y in p))
            for p, each in zip(printed, found, strict=True) if each.closed
        ]  # fmt: skip
        assert any(
            all(
                is_there(
                    (x + ink.left, y + ink.top, x + ink.right, y + ink.bottom),
                    [tuple(box) for box in boxes],
                )
                for ink in (lying.ink for lying in one.load.lying)
            )
            for x, y in origins
        ), name


def test_the_demo_says_how_its_garments_are_laid() -> None:
    """By hand: ink from 3 in below the seam to 14.97 in, its middle in that of 20 in: 1.015 in."""
    back, chest = every("demo")["full-back 1"], every("demo")["left-chest 1"]

    assert loaded(back).replace("\u00a0", " ") == (
        "Lay the garment's centre line on the platen's centre line, and the back collar seam, in "
        "its middle, 1 in below the platen's top edge, on all sizes alike."
    )
    assert [row[3] for row in rows(back)[1:]] == ["4 to 13.02 in", "5 to 15.97 in"]
    assert rows(chest)[-1][4].endswith("right")
    assert back.location.seen.sides == ("wearer's left", "wearer's right")


def test_every_size_has_its_figures_and_each_place_of_ink_a_letter() -> None:
    """No size is left out of the table; the letters are those of the figure."""
    for one in every("cuts").values():
        assert sorted(key for ink in one.inks for key in ink.keys) == sorted(
            lying.key for lying in one.load.lying
        )
        assert [row[0] for row in rows(one)[1:]] == [letter(k) for k in range(len(one.inks))]
        for row, ink in zip(rows(one)[1:], one.inks, strict=True):
            assert row[5] == f"{say(ink.box.width)} × {say(ink.box.height)}"


def test_what_to_mind_is_said() -> None:
    """Always that the platen is hot; on a sleeve its seam below, in the neck which side is up."""
    cuts = every("cuts")
    for one in cuts.values():
        assert any("platen is hot" in note for note in notes(one))
    assert any("underarm seam" in note for note in notes(cuts["left-sleeve 1"]))
    assert any("inside out" in note for note in notes(cuts["neck-label 1"]))
    assert any("placket" in note for note in notes(cuts["full-front 1"]))


def test_a_seam_beyond_the_platen_is_said() -> None:
    """A small platen has the collar off it; a shifted garment's side is told."""
    front, chest = every("small")["full-front 1"], every("small")["left-chest 1"]

    assert "beyond the platen's top edge" in loaded(front)
    assert "left of the platen's centre line" in loaded(chest)


def test_sizes_that_do_not_go_together_have_pages_and_files_of_their_own() -> None:
    """One page of the PDF and one picture for each load, and it says why."""
    plan = pressed(KIDS, LABEL, share=0.9)
    plan = replace(plan, prints=tuple(one for one in plan.prints if "full" in one.name))
    files = {one.name: one.data for one in platen_files(plan)}
    count = max(one.count[1] for one in all_shown(plan) if one.title == "full-front")

    assert count > 1
    assert len(pdf.document(files["platen/full-front.pdf"]).pages) == count
    assert "platen/load-2/full-front.svg" in files
    assert f"load 2 of {count}" in files["platen.txt"].decode()
    assert "Load 2" in files["platen.txt"].decode()
    assert len(files) == len({name.casefold() for name in files})


def test_a_print_too_large_for_the_platen_is_mapped_and_stopped(tmp_path: Path) -> None:
    """The map says so as the widths do."""
    order = orders.ORDER.replace('styles = ["window"]', 'width = "9 in"\nstyles = ["ledge"]')
    order += '\n[press]\nplaten = ["8 in", "8 in"]\n'
    plan = make(read(orders.small(tmp_path, order)))
    chest = next(all_shown(plan))

    assert plan.blocked
    assert not chest.load.fits
    assert next(iter(notes(chest))).startswith("STOP")
    assert_readable("too large", map_page(chest, "x", Paper()))


@pytest.mark.parametrize("paper", [Paper("card", 100.0, 150.0), Paper("a3", 297.0, 420.0), ROLL])
def test_a_map_fits_other_papers(paper: Paper) -> None:
    """A paper smaller than a map can be is passed over; a roll gives no wall-sized one."""
    page = map_page(every("demo")["left-chest 1"], "x", paper)

    assert 190.0 <= page.width <= 297.0
    assert 254.0 <= page.height <= 420.0
    assert_readable(paper.name, page)


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ('"edge": "top"', '"edge": "side"'),
        ('"lying": [', '"lying": [], "thick": ['),
        ('"level": 139.7', '"level": 1e9'),
    ],
)
def test_a_kept_load_that_none_could_be_is_refused(was: str, now: str) -> None:
    """In one line, as the rest of a damaged plan is."""
    text = demo.output("plan.json").decode()
    begin = text.index('"loads"')
    damaged = text[:begin] + text[begin:].replace(was, now, 1)

    assert damaged != text
    with pytest.raises(BadInput):
        plan_json.loaded(damaged, Place("plan.json"))


def test_a_load_of_a_size_without_that_place_is_refused() -> None:
    """A bag has no front collar to lay."""
    plan = pressed(("adult-crew-tee", "tote-bag"), TALL)
    text = plan_json.dumped(plan).decode()
    begin = text.index('"loads"')
    damaged = text[:begin] + re.sub(r"adult-crew-tee/\w+", "tote-bag/small", text[begin:], count=1)

    with pytest.raises(BadInput, match="place for a"):
        plan_json.loaded(damaged, Place("plan.json"))


def test_the_press_of_a_kept_plan_is_one_that_an_order_could_have() -> None:
    """No map is drawn of a platen without a size."""
    text = demo.output("plan.json").decode()
    wide = f'"platen_width": {16 * INCH}'

    assert wide in text
    with pytest.raises(BadInput, match="platen"):
        plan_json.loaded(text.replace(wide, '"platen_width": 0'), Place("plan.json"))
