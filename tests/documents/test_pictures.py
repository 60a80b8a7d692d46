"""Pictures that are read in three seconds: nothing overlaps, everything is to scale."""

import re
from functools import cache
from itertools import combinations
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from jigs.artwork.colour import luminance
from jigs.documents.contact_sheet import contact_page
from jigs.documents.garment_picture import garment_page
from jigs.documents.jig_pages import contact_entry
from jigs.documents.shades import darker, ink_on, lighter
from jigs.drawing.drawing import Page, Picture, Text
from jigs.drawing.lower import text_box
from jigs.geometry import Box
from jigs.locations import LOCATIONS, place
from jigs.order.order import Press
from jigs.pipeline import make, read
from jigs.plan import Plan
from tests import demo, orders, shipped

GARMENTS = [one.name for one in demo.plan().garments]
EVERY_CUT = ("adult-crew-tee", *shipped.OTHERS)


def picture(name: str) -> Page:
    """Return the picture of one garment line of the demo order."""
    (garment,) = (one for one in demo.plan().garments if one.name == name)
    return garment_page(demo.plan(), garment)


@cache
def every_cut() -> Plan:
    """Return the plan of an order over every cut, printed at every place there is."""
    with TemporaryDirectory() as folder:
        text = orders.every(EVERY_CUT)
        return make(read(orders.small(Path(folder), text)))


def of_cut(table: str) -> Page:
    """Return the picture of one table's garments, printed at every place they have."""
    (garment,) = (one for one in every_cut().garments if one.name == table)
    return garment_page(every_cut(), garment)


def contact() -> Page:
    """Return the demo order's contact sheet."""
    entries = [contact_entry(jig) for one in demo.plan().prints for jig in one.jigs]
    return contact_page("jigs", entries, "in")


def texts(page: Page) -> list[tuple[str, Box]]:
    """Return a page's lines of text with their boxes."""
    return [(e.string, text_box(e)) for e in page.drawing.entities if isinstance(e, Text)]


def pages() -> list[tuple[str, Page]]:
    """Return every picture."""
    return [*((name, picture(name)) for name in GARMENTS), ("contact", contact())]


@pytest.mark.parametrize(("name", "page"), pages())
def test_no_label_covers_another(name: str, page: Page) -> None:
    """Labels stand inside the page and off each other."""
    assert_readable(name, page)


def assert_readable(name: str, page: Page) -> None:
    """Check that labels stand inside the page and off each other."""
    sheet = Box(0, 0, page.width, page.height)
    found = texts(page)
    assert found
    for words, box in found:
        assert sheet.holds(box), (name, words)
    for (one, a), (two, b) in combinations(found, 2):
        assert not a.overlaps(b), (name, one, two)


@pytest.mark.parametrize(("name", "page"), pages())
def test_everything_is_on_the_page(name: str, page: Page) -> None:
    """Nothing sticks out of the page."""
    assert Box(0, 0, page.width, page.height).holds(page.drawing.bounds(), 1e-6), name


@pytest.mark.parametrize("name", GARMENTS)
def test_prints_are_to_scale(name: str) -> None:
    """Each print is drawn at its width, divided by the scale that the picture names."""
    page = picture(name)
    scale = int(re.findall(r"scale 1:(\d+)", page.says)[0])
    wanted = sorted(
        placed.width / scale
        for one in demo.plan().prints
        if name in one.garments
        for placed in one.placed
        if placed.key in dict(next(g for g in demo.plan().garments if g.name == name).quantities)
        # A neck label shows twice: inside the neck, and through the neck opening.
        for _ in range(2 if one.location == "neck-label" else 1)
    )
    drawn = sorted(e.box.width for e in page.drawing.entities if isinstance(e, Picture))

    assert drawn == pytest.approx(wanted)


@pytest.mark.parametrize("name", GARMENTS)
def test_every_size_says_how_many(name: str) -> None:
    """Each size of the garment line is there with its pieces."""
    (garment,) = (one for one in demo.plan().garments if one.name == name)
    said = {words for words, _ in texts(picture(name))}

    for key, quantity in garment.quantities:
        assert f"{demo.plan().size(key).title} × {quantity}" in said


@pytest.mark.parametrize("table", EVERY_CUT)
def test_every_cut_is_drawn_with_all_its_prints(table: str) -> None:
    """Readable, inside the page, each print once (a neck label twice), to the scale it says."""
    page = of_cut(table)
    assert_readable(table, page)
    assert Box(0, 0, page.width, page.height).holds(page.drawing.bounds(), 1e-6)
    scale = int(re.findall(r"scale 1:(\d+)", page.says)[0])
    wanted = sorted(
        placed.width / scale
        for one in every_cut().prints
        for placed in one.placed
        if placed.key.startswith(f"{table}/")
        for _ in range(2 if one.location == "neck-label" else 1)
    )
    drawn = sorted(e.box.width for e in page.drawing.entities if isinstance(e, Picture))
    assert wanted
    assert drawn == pytest.approx(wanted)
    assert of_cut(table) == page


@pytest.mark.parametrize("table", EVERY_CUT)
def test_every_view_of_a_garment_has_its_row(table: str) -> None:
    """Hoods, sleeves and bags are seen from where they are printed."""
    said = {words for words, _ in texts(of_cut(table))}
    titles = {LOCATIONS.get(location).title for location, on in shipped.places() if on == table}
    for title, row in (
        ("left hood", "left side of the hood"),
        ("right hood", "right side of the hood"),
        ("right sleeve", "right sleeve"),
        ("tote centre", "bag"),
        ("full back", "back"),
        ("full front", "front"),
    ):
        if title in titles:
            assert row in said
    assert any(words.startswith(f"{title} ") for title in titles for words in said)


@pytest.mark.parametrize("table", EVERY_CUT)
def test_prints_lie_in_their_zones(table: str) -> None:
    """The ink of every print lies in the printable zone of its place, on every size."""
    import shapely

    press = Press()
    flats = {one.key: one.flat for one in shipped.sizes(table)}
    for one in every_cut().prints:
        location = LOCATIONS.get(one.location)
        for placed in one.placed:
            if placed.key in flats:
                room = (press.platen_width, press.platen_height)
                zone = place(location, flats[placed.key], room).zone()
                assert zone is not None, (one.name, placed.key)
                box = placed.box(hangs=location.hangs)
                ink = shapely.box(box.left, box.top, box.right, box.bottom)
                # The zone's round parts stray by a hundredth of a millimetre.
                around = shapely.Polygon(zone.points()).buffer(0.02)
                assert around.covers(ink), (one.name, placed.key)


def test_the_contact_sheet_has_every_jig() -> None:
    """Each jig's title and sizes stand on the contact sheet."""
    said = [words for words, _ in texts(contact())]

    for one in demo.plan().prints:
        for jig in one.jigs:
            assert f"{jig.template.title}, {jig.style}" in said
            assert jig.template.sizes in said


def test_luminance_is_wcags() -> None:
    """Relative luminance of the primaries (WCAG 2.2, definition of relative luminance)."""
    assert luminance("#ffffff") == pytest.approx(1.0)
    assert luminance("#000000") == 0.0
    assert luminance("#ff0000") == pytest.approx(0.2126)
    assert luminance("#00ff00") == pytest.approx(0.7152)
    # The contrast of #777777 on white is 4.4781 (the formula's own value).
    assert 1.05 / (luminance("#777777") + 0.05) == pytest.approx(4.4781, abs=1e-4)


def test_shades_go_the_right_way() -> None:
    """Outlines show on any garment: darker on light ones, lighter on dark ones."""
    assert ink_on("#1f2a44") == "#ffffff"
    assert ink_on("#f4f1e6") == "#000000"
    assert luminance(darker("#888888")) < luminance("#888888") < luminance(lighter("#888888"))
