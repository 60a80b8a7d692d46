"""Size tables as pictures: nests and blocks that are quickly read, and say what is sure."""

from itertools import combinations, pairwise

import pytest

from jigs.documents.block_picture import block_page
from jigs.documents.label_columns import spread
from jigs.documents.nest import nest_page
from jigs.documents.panel_lines import lines, origin, rests_on, right_half
from jigs.drawing.drawing import Page, Shape, Text
from jigs.drawing.lower import text_box
from jigs.errors import Place
from jigs.geometry import Box, Path, Point
from jigs.locations import LOCATIONS, lacks
from jigs.plan.sizes import Sized
from jigs.tables import library
from jigs.tables.measure import Origin
from tests import shipped

TABLES = library.names()


def nest(table: str) -> Page:
    """Return the nest of a shipped table."""
    return nest_page(library.find(table, Place(table)), shipped.sizes(table))


def middle(table: str) -> Sized:
    """Return the middle size of a shipped table."""
    sizes = shipped.sizes(table)
    return sizes[(len(sizes) - 1) // 2]


def block(table: str, unit: str = "in") -> Page:
    """Return the picture of the middle size of a shipped table."""
    return block_page(library.find(table, Place(table)), middle(table), unit)


def texts(page: Page) -> list[Text]:
    """Return a page's lines of text."""
    return [one for one in page.drawing.entities if isinstance(one, Text)]


def assert_readable(page: Page) -> None:
    """Check that everything is on the page and no line of text on another."""
    sheet = Box(0, 0, page.width, page.height)
    assert sheet.holds(page.drawing.bounds(), 1e-6)
    boxes = [(one.string, text_box(one)) for one in texts(page)]
    for words, box in boxes:
        assert sheet.holds(box), words
    for (one, a), (two, b) in combinations(boxes, 2):
        assert not a.overlaps(b), (one, two)


@pytest.mark.parametrize("table", TABLES)
def test_a_nest_is_readable_and_names_each_size_at_each_panel(table: str) -> None:
    """Every size in the legend, at the front, the back, and every other panel."""
    page = nest(table)
    assert_readable(page)
    said = [one.string for one in texts(page)]
    for size in shipped.sizes(table):
        assert said.count(size.plan.measures.size) == 1 + len(size.flat.panels)


@pytest.mark.parametrize("table", TABLES)
def test_a_nest_says_where_each_length_is_from(table: str) -> None:
    """Every point of measure stands behind each origin it has in some size."""
    said = " ".join(one.string for one in texts(nest(table)))
    for size in shipped.sizes(table):
        for point, measure in size.plan.measures.values.items():
            assert f"{measure.origin.value}: " in said
            after = said.partition(f"{measure.origin.value}: ")[2]
            assert point.replace("_", " ") in after


def test_neighbours_in_a_nest_look_different_without_colour() -> None:
    """Each size's broken lines have another pattern than the next one's."""
    page = nest("womens-v-neck-tee")
    patterns: dict[str | None, set[tuple[float, ...]]] = {}
    order: list[tuple[float, ...]] = []
    for one in page.drawing.entities:
        if isinstance(one, Shape) and one.dashes:
            patterns.setdefault(one.colour, set()).add(one.dashes)
            if one.path.start.y == one.path.end.y and one.path.start.y < 25:
                order.append(one.dashes)
    assert len(order) == len(shipped.sizes("womens-v-neck-tee"))
    assert all(a != b for a, b in pairwise(order))


@pytest.mark.parametrize("table", TABLES)
def test_a_block_is_readable_and_names_everything(table: str) -> None:
    """Every landmark, every edge and feature, every location that the garment has."""
    one = middle(table)
    for unit in ("in", "mm"):
        page = block(table, unit)
        assert_readable(page)
        said = {text.string.partition(" ± ")[0] for text in texts(page)}
        assert one.flat.landmarks.keys() <= said
        for panel in one.flat.panels.values():
            assert {panel.name} | {edge.name for edge in lines(panel)} <= said
        for _, location in LOCATIONS:
            assert (location.title in said) is not lacks(location, one.flat)


def test_a_zone_is_said_to_be_missing_where_it_is() -> None:
    """A zip leaves no room on the centre of a front."""
    said = [one.string for one in texts(block("adult-zip-hoodie"))]
    assert "no room: zip" in said


@pytest.mark.parametrize("table", ["adult-zip-hoodie", "infant-bodysuit", "tote-bag"])
def test_pictures_of_a_table_are_the_same_every_time(table: str) -> None:
    """The same pages for the same table."""
    assert nest(table) == nest(table)
    assert block(table) == block(table)


def test_what_a_line_rests_on_is_what_moves_it() -> None:
    """A tee's hem on its length alone; its armhole not on the body's length or the sleeve's."""
    one = middle("adult-crew-tee")
    known = rests_on(one.plan.cut, one.plan.measures)
    named = {
        (panel.name, edge.name): points
        for panel in one.flat.panels.values()
        for edge, points in zip(lines(panel), known[panel.name], strict=True)
    }
    assert named["front", "hem"] == {"body_length"}
    assert named["front", "side seam"] == {"half_chest", "hem_width"}
    assert named["sleeve", "sleeve hem"] == {"sleeve_length"}
    assert "armhole_depth" in named["back", "armhole seam"]
    assert not {"body_length", "sleeve_length"} & named["front", "armhole seam"]
    assert all(named.values())


def test_every_line_of_every_table_rests_on_something() -> None:
    """But for those that lengths are measured from; and one estimate makes it an estimate."""
    for table in shipped.OTHERS:
        one = middle(table)
        known = rests_on(one.plan.cut, one.plan.measures)
        for panel in one.flat.panels.values():
            for edge, points in zip(lines(panel), known[panel.name], strict=True):
                assert points or edge.name in {"hood opening", "top edge"}, (table, edge.name)
                origins = {one.plan.measures[point].origin for point in points}
                found = origin(points, one.plan.measures) is Origin.ESTIMATED
                assert found is (Origin.ESTIMATED in origins)


def test_half_a_path_lies_on_one_side() -> None:
    """A box across the centre line loses its left half; a path beside it goes as a whole."""
    (half,) = right_half(Path.box(Box(-3, 0, 5, 2)))
    assert half.bounds() == Box(0, 0, 5, 2)
    assert half.length() == pytest.approx(12)
    assert right_half(Path.through([Point(-3, 0), Point(-1, 4)])) == []


@pytest.mark.parametrize(
    ("wanted", "expected"),
    [
        ([10, 20], [10, 20]),
        ([10, 10, 10], [8, 10, 12]),
        ([1, 1], [1, 3]),
        ([30, 30], [28, 30]),
        ([10, 11, 20], [9.5, 11.5, 20]),
    ],
)
def test_labels_are_spread_evenly_about_what_they_name(
    wanted: list[float], expected: list[float]
) -> None:
    """At least a step apart, inside their column, no farther off than they must."""
    assert spread(wanted, 2, 1, 30) == pytest.approx(expected)
