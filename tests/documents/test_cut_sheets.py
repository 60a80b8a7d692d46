"""Sheets to cut: parts inside and apart, true to their jigs, never mirrored, and read back."""

from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
import shapely

from jigs.cutfile import read
from jigs.documents.cut_sheets import GAP, Nest, cut_sheets, nests, sheet_page
from jigs.drawing.bed import MARGIN
from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.errors import Place
from jigs.files import Output
from jigs.geometry import Box
from jigs.order.order import Cutter
from jigs.plan import JigPlan, Plan
from jigs.plan.jigs import named
from jigs.rules import Facts, check
from tests import demo, shipped
from tests.drawing.plates import material

CUTTERS = (
    Cutter(kerf=0.2, own=True),
    Cutter(kerf=0.2, bed_width=400.0, bed_height=300.0, own=True),
    Cutter(kerf=0.0, stock=(304.8, 508.0), own=True),
)

CHORD = 0.01


def _plan(cutter: Cutter) -> Plan:
    plan = demo.plan()
    return replace(plan, shop=replace(plan.shop, cutter=cutter))


@cache
def _outputs(index: int) -> tuple[Output, ...]:
    return tuple(cut_sheets(_plan(CUTTERS[index])))


@cache
def _nest(index: int) -> Nest:
    (found,) = nests(_plan(CUTTERS[index]))
    return found


@pytest.mark.parametrize("index", range(len(CUTTERS)))
def test_parts_lie_inside_and_apart(index: int) -> None:
    """Cut as drawn, parts keep the margin and the gap: measured on their polygons."""
    cutter, found = CUTTERS[index], _nest(index)
    wide, high = cutter.sheet
    names = []
    for number, places in enumerate(found.packing.sheets, start=1):
        page = sheet_page(_plan(cutter), found, number, kerf=True)
        assert (page.width, page.height) == (wide, high)
        whole = material(page.drawing, CHORD)
        parts = list(getattr(whole, "geoms", (whole,)))
        assert len(parts) == len(places)
        inside = shapely.box(0, 0, wide, high).buffer(-MARGIN + cutter.kerf / 2 + CHORD)
        assert all(inside.covers(part) for part in parts)
        for one, two in combinations(parts, 2):
            assert one.distance(two) >= GAP + cutter.kerf - 2 * CHORD
        names += [found.parts[place.index].name for place in places]
    assert sorted(names) == sorted(part.name for part in found.parts)


@pytest.mark.parametrize("index", range(len(CUTTERS)))
def test_parts_are_the_jigs(index: int) -> None:
    """Turned back, a part on a sheet is the part: its area and outline, and not mirrored."""
    cutter, found = CUTTERS[index], _nest(index)
    for number, places in enumerate(found.packing.sheets, start=1):
        page = sheet_page(_plan(cutter), found, number, kerf=False)
        whole = material(page.drawing, CHORD)
        parts = list(getattr(whole, "geoms", (whole,)))
        for place in places:
            part = found.parts[place.index]
            box = part.box
            own = shapely.affinity.translate(material(part.drawing, CHORD), -box.left, -box.top)
            if place.turned:
                own = shapely.affinity.rotate(own, 90, origin=(0, 0))
                own = shapely.affinity.translate(own, box.height, 0)
            own = shapely.affinity.translate(own, MARGIN + place.x, MARGIN + place.y)
            near = max(parts, key=lambda p, own=own: p.intersection(own).area)  # type: ignore[misc]
            assert near.symmetric_difference(own).area < 0.5


def test_words_turn_with_their_part() -> None:
    """Each part's words lie on it, whichever way it is turned."""
    found = _nest(0)
    assert any(place.turned for sheet in found.packing.sheets for place in sheet)
    for number in range(1, len(found.packing.sheets) + 1):
        page = sheet_page(_plan(CUTTERS[0]), found, number, kerf=False)
        count = len(found.packing.sheets[number - 1])
        facts = Facts(least_web=5.0, least_inner=1.5, plates=count)
        assert not check(page.drawing, facts)


def test_names_stand_beside_their_parts_and_no_tool_follows_them() -> None:
    """Every part's name is on the note layer, inside the sheet and on no part."""
    found = _nest(0)
    for number, places in enumerate(found.packing.sheets, start=1):
        page = sheet_page(_plan(CUTTERS[0]), found, number, kerf=True)
        notes = [e for e in page.drawing.on(Layer.NOTE) if isinstance(e, Text)]
        names = {found.parts[place.index].name for place in places}
        assert names < {note.string for note in notes}
        whole = material(page.drawing, CHORD)
        for note in notes:
            assert not whole.intersects(shapely.Point(note.at))


@pytest.mark.parametrize("suffix", ["dxf", "svg"])
def test_a_sheet_is_read_back(suffix: str) -> None:
    """A sheet inspected as so many plates breaks no rule, and says its kerf."""
    output = next(o for o in _outputs(0) if o.name == f"cut-sheets/sheet-1.{suffix}")
    back = read(output.name, output.data, Place("sheet"))
    count = len(_nest(0).packing.sheets[0])
    facts = Facts(5.0, 1.5, kerf=back.kerf, plates=count, grouped=True)
    assert back.kerf == 0.2
    assert not check(back.drawing, facts)


def test_sheets_are_few_and_told() -> None:
    """The demo order's 21 jigs come on as few sheets as their areas allow, and the list says so."""
    found = _nest(0)
    assert len(found.packing.sheets) == found.packing.bound == 4
    text = _outputs(0)[0].data.decode()
    assert "4 sheets" in text
    assert "no fewer than 4" in text
    assert all(part.name in text for part in found.parts)
    assert "never PVC" in text


def test_pieces_of_a_large_jig_are_nested() -> None:
    """On a small bed the pieces of a jig lie on sheets by their own names."""
    names = [part.name for part in _nest(1).parts]
    assert any(name.endswith("-piece-2") for name in names)
    assert "same letter" in next(iter(cut_sheets(_plan(CUTTERS[1])))).data.decode()


def test_what_cannot_be_cut_is_told() -> None:
    """Jigs too large for a sheet, and not to be split, are named."""
    cutter = Cutter(bed_width=150.0, bed_height=150.0, own=True)
    text = next(iter(cut_sheets(_plan(cutter)))).data.decode()
    assert "Too large for a sheet" in text
    assert "full-back-window-adult" in text


def test_an_order_without_a_cutter_has_no_sheets() -> None:
    """Who says nothing of a cutter gets no sheets to cut."""
    assert not list(cut_sheets(_plan(Cutter())))


def test_one_part_needs_no_sheet() -> None:
    """A single plate is its own file."""
    plan = _plan(CUTTERS[0])
    first = replace(plan.prints[0], jigs=plan.prints[0].jigs[:1])
    assert not list(cut_sheets(replace(plan, prints=(first,))))


def test_same_order_same_sheets() -> None:
    """Made again, the sheets are the same to the byte."""
    assert tuple(cut_sheets(_plan(CUTTERS[0]))) == _outputs(0)


def test_only_cuts_scores_and_engravings_are_on_a_sheet() -> None:
    """What is a note on a jig does not come on a sheet: a part beside it would lie on it."""
    page = sheet_page(_plan(CUTTERS[0]), _nest(0), 1, kerf=True)
    notes = [e for e in page.drawing.on(Layer.NOTE) if isinstance(e, Shape)]
    assert [shape.path.bounds() for shape in notes] == [Box(0.0, 0.0, 600.0, 400.0)]
    assert isinstance(page.drawing, Drawing)


def test_films_lie_on_sheets_of_their_own() -> None:
    """Clear film is another stock than the plates': its sheets, kerf and cautions are its own."""
    plan = _plan(CUTTERS[0])
    (_, jig, *_), known = plan.prints[0].jigs, plan.tables
    film = named(shipped.by_eye("left-chest", "adult-crew-tee"), known)
    first = replace(plan.prints[0], jigs=(jig, JigPlan("film", "chest-film", film)))
    both = replace(plan, prints=(first,))
    plates, films = nests(both)
    names = [output.name for output in cut_sheets(both)]

    assert [part.name for part in films.parts] == ["chest-film"]
    assert (plates.name, films.name) == ("sheet", "film")
    assert (plates.cutter.kerf, films.cutter.kerf) == (0.2, 0.0)
    assert {"cut-sheets/sheet-1.dxf", "cut-sheets/film-1.dxf"} <= set(names)
    text = next(iter(cut_sheets(both))).data.decode()
    assert "polyester film" in text
    assert "Never cut a film of unknown plastic" in text
