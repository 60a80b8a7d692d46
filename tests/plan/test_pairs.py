"""Plates that serve two prints: what is cut, where both prints come to lie, what is refused."""

import json
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
import shapely

from jigs.documents import plan_json
from jigs.documents.cutting import cut_drawing
from jigs.documents.jig_pages import jig_outputs
from jigs.documents.report import report_text
from jigs.drawing.drawing import Layer, Text
from jigs.errors import Place
from jigs.geometry import Box
from jigs.locations import LOCATIONS
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.pipeline import make, read
from jigs.plan import Plan, Shop
from jigs.plan.jigs import broken, drawn
from jigs.plan.pairs import alike
from jigs.styles import STYLES
from jigs.template import STEP, Template
from tests import orders, shipped
from tests.readers import dxf

SLIP = Transfer().slip
#: Prints are also tried narrower and wider than usual.
SCALES = (0.8, 1.15)


def places() -> list[tuple[str, str, str]]:
    """Return every two locations whose jigs seat on one edge, with the tables that have both."""
    found = []
    for one, two in combinations(LOCATIONS.names(), 2):
        if alike(LOCATIONS.get(one), LOCATIONS.get(two)):
            tables = [table for name, table in shipped.places() if name == one]
            found += [(one, two, table) for table in tables if (two, table) in shipped.places()]
    return found


def box(one: Box) -> shapely.Polygon:
    """Return a box as a polygon."""
    return shapely.box(one.left, one.top, one.right, one.bottom)


def test_the_usual_pairs_are_among_those_tried() -> None:
    """Left chest and full front share an edge; neck label and upper back do."""
    pairs = {(one, two) for one, two, _ in places()}

    assert {("full-front", "left-chest"), ("neck-label", "upper-back")} <= pairs
    assert not {("full-back", "full-front"), ("left-sleeve", "right-sleeve")} & pairs


def cases() -> list[tuple[str, str, str, float]]:
    """Return every pair on every table, its prints usual, and on one table larger and smaller."""
    usual = [(one, two, table, 1.0) for one, two, table in places()]
    first = {(one, two): table for one, two, table in reversed(places())}
    other = [(*pair, table, scale) for pair, table in first.items() for scale in SCALES]
    return [*usual, *other]


@pytest.mark.parametrize(("one", "two", "table", "scale"), cases())
def test_every_pair_is_drawn_by_the_rules_or_objected_to(
    one: str, two: str, table: str, scale: float
) -> None:
    """A plate for two breaks no rule; what cannot be is said in words that name a print."""
    for each in shipped.plates(one, two, table, scale):
        says = STYLES.get("window").objection(each)
        if says is None:
            assert broken("window", each) == ()
        else:
            assert "window" in says or "drop" in says or "inside" in says


@pytest.mark.parametrize(
    ("one", "two", "table"),
    [
        ("full-front", "left-chest", "adult-crew-tee"),
        ("full-front", "left-chest", "infant-crew-tee"),
        ("neck-label", "upper-back", "adult-crew-tee"),
        ("neck-label", "full-back", "youth-crew-tee"),
        ("left-chest", "right-chest", "adult-polo"),
        ("full-back", "nape", "adult-v-neck-tee"),
        ("left-hem", "right-hem", "adult-crew-tee"),
    ],
)
def test_both_transfers_lie_at_their_drops(one: str, two: str, table: str) -> None:
    """Read by another reader: both trimmed transfers go into what is cut, at their own drops."""
    for each in shipped.plates(one, two, table):
        assert STYLES.get("window").objection(each) is None
        assert each.beside is not None
        polygons = [shapely.Polygon(c) for c in _cut(each)]
        plate, *holes = sorted(polygons, key=lambda p: -p.area)
        cut = shapely.union_all(holes)
        for ink, carrier in ((each.ink, each.carrier), (each.beside.ink, each.beside.carrier)):
            assert cut.buffer(0.01).contains(box(carrier))
            # Not to be laid lower or higher: beyond the side it is laid against is the plate.
            step = SLIP + 0.05 if each.hangs else -SLIP - 0.05
            nearer = shapely.affinity.translate(box(carrier), 0, -step)
            outside = nearer.difference(cut)
            assert outside.bounds[2] - outside.bounds[0] > 0.5 * carrier.width
            x = ink.centre.x
            near = ink.top if each.hangs else ink.bottom
            edge = each.edge.bounds().bottom if each.curved else each.level
            assert abs(near - edge) == pytest.approx(abs(near - each.level), abs=0.01)
            assert plate.contains(shapely.Point(x, (edge + near) / 2)) or cut.contains(
                shapely.Point(x, (edge + near) / 2)
            )


def _cut(each: Template) -> list[list[tuple[float, float]]]:
    """Return the cut outlines of a plate's DXF, in the template's own coordinates."""
    shop = Shop(Paper(), Printer(), Cutter(kerf=0.0), Press(), Transfer())
    files = {one.name: one.data for one in jig_outputs(each, "window", "x", shop)}
    box = drawn("window", each).bounds().grown(5.0)
    found = [c for c in dxf.contours(files["x.dxf"]) if c.layer == "cut"]
    return [[(x + box.left, y + box.top) for x, y in c.points] for c in found]


def test_no_tab_is_where_a_transfer_is_laid() -> None:
    """Of both windows the side that a transfer is laid against is cut whole."""
    for pair in (("full-back", "neck-label"), ("left-chest", "right-chest")):
        each = shipped.plates(*pair, "adult-crew-tee")[0]
        led = cut_drawing(drawn("window", each), each, "window", Cutter(kerf=0.0, tabs=1.0))
        ends = [end for s in led.shapes(Layer.CUT) for end in (s.path.start, s.path.end)
                if not s.path.closed]  # fmt: skip
        assert len(ends) > 16
        for window in each.windows:
            near = shapely.LineString([(window.left, window.top), (window.right, window.top)])
            assert min(near.distance(shapely.Point(end)) for end in ends) > 1


def test_windows_side_by_side_are_two_and_over_one_another_one() -> None:
    """Two chests are two openings; a chest in a full front's is one, with the hanging hole."""
    chests = shipped.plates("left-chest", "right-chest", "adult-crew-tee")[0]
    front = shipped.plates("full-front", "left-chest", "adult-crew-tee")[0]

    assert [len(drawn("window", one).shapes(Layer.CUT)) for one in (chests, front)] == [4, 3]


def test_a_step_has_room_for_its_corners() -> None:
    """Where sides of two windows nearly meet they are made to meet, or to part by a step."""
    for one, two, table in places():
        for scale in SCALES:
            for each in shipped.plates(one, two, table, scale):
                assert each.beside is not None
                first, other = each.window, each.beside.window
                if not first.overlaps(other):
                    continue
                assert other.holds(each.beside.carrier.grown(SLIP), 1e-9)
                for a, b in ((first.left, other.left), (first.right, other.right)):
                    assert abs(a - b) < 0.01 or abs(a - b) > STEP - 1e-9


def test_marks_name_both_prints() -> None:
    """Beside each window its print is named; the caution stands on the plate."""
    for one, two, table in [place for place in places() if place[2].startswith("adult")]:
        each = shipped.plates(one, two, table)[0]
        if STYLES.get("window").objection(each) is None:
            said = [e.string for e in drawn("window", each).entities if isinstance(e, Text)]
            assert each.title in said
            assert each.beside is not None
            assert each.beside.title in said
            assert any("before the press closes" in line for line in said)


def test_a_hidden_side_is_objected_to() -> None:
    """A full front hung above a left chest takes the side that the chest's transfer needs."""
    each = shipped.plates("full-front", "left-chest", "adult-crew-tee")[0]
    assert each.beside is not None
    lower = each.beside.window.grown(0.0)
    down = Box(lower.left, lower.top + 30, lower.right, lower.bottom + 30)
    says = STYLES.get("window").objection(replace(each, beside=replace(each.beside, window=down)))

    assert says is not None
    assert "takes the side that the transfer of the left chest is laid against" in says


def test_nearly_alike_drops_are_objected_to() -> None:
    """Near sides 1 mm apart leave no room for the step between them."""
    each = shipped.plates("full-front", "left-chest", "adult-crew-tee")[0]
    assert each.beside is not None
    w = each.beside.window
    up = Box(w.left, w.top - 1, w.right, w.bottom)
    says = STYLES.get("window").objection(replace(each, beside=replace(each.beside, window=up)))

    assert says is not None
    assert "give both the same drop" in says


def planned(folder: Path) -> Plan:
    """Return the plan of an order whose neck label shares a plate with its full back."""
    text = orders.ORDER.replace("left-chest", "full-back").replace(
        'styles = ["ledge"]', 'plate_with = "full-back"'
    )
    return make(read(orders.small(folder, text)))


def test_a_plate_takes_the_place_of_both_windows(tmp_path: Path) -> None:
    """The print that asks has the plate and its ledge; the other has no window of its own."""
    back, label = planned(tmp_path).prints

    assert [(jig.style, jig.stem) for jig in back.jigs] == []
    assert [jig.style for jig in label.jigs] == ["window", "ledge"]
    assert label.jigs[0].stem.startswith("full-back-with-neck-label-window-")
    assert label.jigs[0].template.full_title == "full back + neck label"


def test_the_report_tells_of_both_prints(tmp_path: Path) -> None:
    """The plate has a line for each of its prints, with its own drop."""
    text = report_text(planned(tmp_path))

    assert "window: full back" in text
    assert "and neck label" in text


def test_a_kept_plan_has_its_plates(tmp_path: Path) -> None:
    """A plan with a plate for two is the same when it is read again."""
    plan = planned(tmp_path)
    text = plan_json.dumped(plan).decode()

    assert plan_json.loaded(text, Place("plan.json")) == plan
    assert "beside" in json.loads(text)["plan"]["prints"][1]["jigs"][0]["template"]


def test_where_no_plate_can_serve_both_each_has_its_own(tmp_path: Path) -> None:
    """Drops that differ by 1 mm are told, do not stop the order, and both windows are made."""
    text = orders.ORDER.replace("neck-label", "right-chest").replace(
        'styles = ["ledge"]', 'plate_with = "left-chest"\ndrop = "1 in"'
    )
    text = text.replace("right-chest", "full-front")
    plan = make(read(orders.small(tmp_path, text)))
    said = [one.says for one in plan.findings if "no plate for both" in one.says]

    assert said
    assert [[jig.style for jig in one.jigs] for one in plan.prints] == [
        ["window"], ["window", "ledge"],
    ]  # fmt: skip
