"""Cut files as a tool meets them, by readers that are not the writers': order, tabs, strokes."""

from collections.abc import Callable
from functools import cache
from itertools import pairwise
from math import dist
from xml.etree import ElementTree as ET

import pytest
import shapely

from jigs import cutfile
from jigs.cutfile.tabs import rejoined
from jigs.documents.jig_pages import jig_outputs
from jigs.drawing.drawing import Drawing, Layer
from jigs.errors import Place
from jigs.order.materials import materials
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.plan import Shop
from jigs.plan.jigs import cutter_of, drawn, facts_of
from jigs.rules import check
from jigs.styles import STYLES
from jigs.template import Template
from tests import shipped
from tests.readers import dxf, svg
from tests.readers.contour import XY, Contour

READERS: dict[str, Callable[[bytes], list[Contour]]] = {"svg": svg.contours, "dxf": dxf.contours}
PLACES = ("full-front", "left-chest", "left-sleeve", "neck-label", "pocket", "tote-centre")
CASES = [(style, place, suffix) for style in STYLES.names() for place in PLACES
         for suffix in READERS]  # fmt: skip
TABS = 1.0
LAYERS = ("note", "engrave", "score", "cut")


def jig(style: str, place: str) -> Template | None:
    """Return the largest jig of a style at a location, if the style takes one."""
    made = shipped.drawn_in(style, place, shipped.one_table(place))
    return made[-1] if STYLES.get(style).objection(made[-1]) is None else None


@cache
def files(style: str, place: str, tabs: float = 0.0, kerf: float = 0.2) -> dict[str, bytes]:
    """Return the cut files of a jig by their suffix; none if the style takes no such jig."""
    template = jig(style, place)
    if template is None:
        return {}
    shop = Shop(Paper(), Printer(), Cutter(kerf=kerf, tabs=tabs), Press(), Transfer())
    made = jig_outputs(template, style, "x", shop)
    return {one.name[2:]: one.data for one in made if one.name[2:] in READERS}


def contours(style: str, place: str, suffix: str, tabs: float = 0.0) -> list[Contour]:
    """Return a cut file's lines in the file's order."""
    made = files(style, place, tabs)
    if not made:
        pytest.skip("the style takes no jig here")
    return READERS[suffix](made[suffix])


def rings(cuts: list[Contour]) -> list[tuple[list[XY], list[float]]]:
    """Return outlines as points, in the file's order, and the lengths of the gaps in each.

    A piece is followed by the one that begins nearest to its end, which must be the next in the
    file or the first of its outline.
    """
    found: list[tuple[list[XY], list[float]]] = []
    begun: list[XY] = []
    gaps: list[float] = []
    for one in cuts:
        if one.closed:
            assert not begun, "an outline begins amid another"
            found.append((one.points, []))
            continue
        if begun:
            gaps.append(dist(begun[-1], one.points[0]))
            assert gaps[-1] < 10
        begun += one.points
        last = dist(begun[-1], begun[0])
        if last < 10:
            found.append((begun, [*gaps, last]))
            begun, gaps = [], []
    assert not begun
    return found


def shapes(style: str, place: str, suffix: str, tabs: float = 0.0) -> list[shapely.Polygon]:
    """Return a cut file's outlines as polygons, gaps closed."""
    cuts = [one for one in contours(style, place, suffix, tabs) if one.layer == "cut"]
    return [shapely.Polygon(points) for points, _ in rings(cuts)]


@pytest.mark.parametrize("tabs", [0.0, TABS])
@pytest.mark.parametrize(("style", "place", "suffix"), CASES)
def test_inside_is_cut_before_outside(style: str, place: str, suffix: str, tabs: float) -> None:
    """Every hole comes before the outline that holds it; the plate's own is the last."""
    made = shapes(style, place, suffix, tabs)

    assert len(made) >= 2
    for k, one in enumerate(made[:-1]):
        assert made[-1].contains_properly(one)
        assert not any(one.contains(later) for later in made[k + 1 :])


@pytest.mark.parametrize(("style", "place", "suffix"), CASES)
def test_marks_come_before_cuts(style: str, place: str, suffix: str) -> None:
    """In the file's order, no layer follows one that is done after it."""
    found = [LAYERS.index(one.layer or "") for one in contours(style, place, suffix)]

    assert found == sorted(found)
    assert {LAYERS.index("engrave"), LAYERS.index("cut")} <= set(found)


@pytest.mark.parametrize(("style", "place", "suffix"), CASES)
def test_tabs_are_gaps_of_their_length_and_the_kerf(style: str, place: str, suffix: str) -> None:
    """Each large outline has four to six gaps of 1 mm and the kerf; joined it is as without."""
    cuts = [one for one in contours(style, place, suffix, TABS) if one.layer == "cut"]
    found = rings(cuts)
    plain = shapes(style, place, suffix)

    assert len(found) == len(plain)
    for (points, gaps), without in zip(found, plain, strict=True):
        made = shapely.Polygon(points)
        assert made.exterior.hausdorff_distance(without.exterior) < 0.05
        assert made.area == pytest.approx(without.area, abs=0.05)
        left, top, right, bottom = without.bounds
        if max(right - left, bottom - top) <= 20:
            assert gaps == []
            continue
        # Film is cut by a blade, which takes nothing away.
        kerf = cutter_of(style, Cutter()).kerf
        assert all(gap == pytest.approx(TABS + kerf, abs=0.002) for gap in gaps)
        if min(right - left, bottom - top) > 45:
            assert 4 <= len(gaps) <= 6


@pytest.mark.parametrize("suffix", READERS)
@pytest.mark.parametrize(("style", "place"), [(s, p) for s in STYLES.names() for p in PLACES])
def test_tabs_leave_the_seat_and_the_near_side_whole(style: str, place: str, suffix: str) -> None:
    """No gap is near the edge that seats, nor on the side that the transfer is laid against."""
    template = jig(style, place)
    if template is None:
        pytest.skip("the style takes no jig here")
    made = files(style, place, TABS, 0.0)[suffix]
    read = cutfile.read(f"x.{suffix}", made, Place("x"))
    # Read back, a DXF stands elsewhere on the page; the plate is where it is.
    plate = Drawing(drawn(style, template).shapes(Layer.CUT)).bounds()
    found = Drawing(read.drawing.shapes(Layer.CUT)).bounds()
    placed = read.drawing.moved(plate.left - found.left, plate.top - found.top)
    joined = rejoined(placed, read.tabs)
    facts = facts_of(style, template, plate)
    broken = [one for one in check(joined, facts) if one.rule in {"seat", "window", "closed"}]
    assert broken == []

    ends = [p for one in placed.shapes(Layer.CUT) if not one.path.closed
            for p in (one.path.start, one.path.end)]  # fmt: skip
    assert ends
    edge = shapely.LineString(template.edge.points(0.01))
    side = template.window if STYLES.get(style).opening else template.carrier
    y = side.top if template.hangs else side.bottom
    near = shapely.LineString([(side.left + 1, y), (side.right - 1, y)])
    for end in ends:
        at = shapely.Point(end)
        assert edge.distance(at) >= 4.99
        assert near.distance(at) > 1


@pytest.mark.parametrize("tabs", [0.0, TABS])
@pytest.mark.parametrize("suffix", READERS)
@pytest.mark.parametrize("style", STYLES.names())
def test_a_file_with_tabs_can_be_inspected(style: str, suffix: str, tabs: float) -> None:
    """The file says its kerf, tabs, web and corner, which inspecting takes from its words."""
    read = cutfile.read(f"x.{suffix}", files(style, "full-front", tabs)[suffix], Place("x"))

    kerf, corner = (0.0, 1.0) if style == "film" else (0.2, 1.5)
    assert (read.kerf, read.tabs, read.least) == (kerf, tabs, (5.0, corner))


@pytest.mark.parametrize(("style", "place"), [(s, p) for s in STYLES.names() for p in PLACES])
def test_engraving_is_strokes(style: str, place: str) -> None:
    """An SVG holds groups of paths that nothing fills; no text, no font, no picture, no style."""
    made = files(style, place)
    if not made:
        pytest.skip("the style takes no jig here")
    root = ET.fromstring(made["svg"])
    tags = {one.tag.rpartition("}")[2] for one in root.iter()}
    assert tags == {"svg", "title", "desc", "defs", "g", "path"}
    for group in (one for one in root if one.tag.endswith("}g")):
        assert group.get("id") in LAYERS
        assert group.get("fill") == "none"
        for path in group:
            assert path.tag.rpartition("}")[2] in {"path", "title", "desc"}
            assert not {"fill", "style", "class", "transform"} & path.attrib.keys()


@pytest.mark.parametrize(("style", "place"), [(s, p) for s in STYLES.names() for p in PLACES])
def test_a_dxf_holds_lines_and_arcs_alone(style: str, place: str) -> None:
    """No TEXT, MTEXT, HATCH or SOLID, neither among the entities nor in a block."""
    made = files(style, place)
    if not made:
        pytest.skip("the style takes no jig here")
    document = dxf.document(made["dxf"])
    kinds = {one.dxftype for one in document.entities}
    kinds |= {one.dxftype for block in document.blocks for one in block}

    assert kinds <= {"LINE", "ARC", "CIRCLE", "LWPOLYLINE"}


def test_holes_are_gone_along() -> None:
    """The holes of a jig follow one another without crossing the plate to and fro."""
    made = shapes("window", "full-front", "dxf")
    middles = [one.centroid.coords[0] for one in made[:-1]]

    assert sum(dist(a, b) for a, b in pairwise(middles)) < 500


@pytest.mark.parametrize("name", materials())
def test_each_material_warns_in_its_files(name: str) -> None:
    """Its cautions stand in the SVG's description and in the DXF's comments, with the general."""
    stuff = materials()[name]
    template = jig("window", "full-front")
    assert template is not None
    cutter = Cutter(stuff.kerf, material=stuff)
    shop = Shop(Paper(), Printer(), cutter, Press(), Transfer())
    made = {one.name[2:]: one.data for one in jig_outputs(template, "window", "x", shop)}
    svg_text = "".join(ET.fromstring(made["svg"]).itertext())
    dxf_text = made["dxf"].decode("cp1252").replace("\n999\n", " ")

    for text in (svg_text, dxf_text):
        for said in (*stuff.cautions, stuff.title, "never PVC", "may sort them anew"):
            assert said in text
