"""What every jig of every style at every location must keep, on every shipped table."""

from collections.abc import Iterator
from itertools import combinations

import pytest
import shapely

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.kerf import is_hole
from jigs.drawing.lower import text_box
from jigs.geometry import Arc, Cubic, Line
from jigs.locations import LOCATIONS
from jigs.order.order import Material
from jigs.styles import STYLES
from jigs.styles._plate import CAUTION
from jigs.template import Template
from tests import shipped

PLACES = [(style, *place) for style in STYLES.names() for place in shipped.places()]
TOUCH = [name for name, style in STYLES if style.touch]
V_NECK = ("full-front", "adult-v-neck-tee")
CASES = [(*case, "in") for case in PLACES] + [
    (*case, "mm") for case in PLACES if case[2] in {"infant-crew-tee", "adult-crew-tee"}
]


def drawn(
    style: str, location: str, table: str, unit: str = "in"
) -> Iterator[tuple[Template, Drawing]]:
    """Yield each template that the style takes, with its drawing."""
    for template in shipped.drawn_in(style, location, table, unit=unit):
        if STYLES.get(style).objection(template) is None:
            yield template, STYLES.get(style).draw(template)


def polygon(shape: Shape) -> shapely.Polygon:
    """Return an outline as a polygon."""
    return shapely.Polygon(shape.path.points(0.005))


@pytest.mark.parametrize(("style", "location", "table", "unit"), CASES)
def test_a_jig_can_be_cut_and_read(style: str, location: str, table: str, unit: str) -> None:
    """Outlines are closed and simple, bridges wide enough, and words clear of lines and words."""
    made = list(drawn(style, location, table, unit))
    assert made, "the style takes no template at all here"
    for template, drawing in made:
        cuts = drawing.shapes(Layer.CUT)
        plates = [polygon(s) for s in cuts]
        assert all(s.path.closed for s in cuts)
        assert all(p.is_valid for p in plates)
        outer = plates[0]
        holes = plates[1:]
        assert all(outer.contains(hole) for hole in holes)
        assert all(not a.intersects(b) for a, b in combinations(holes, 2))
        part = outer.difference(shapely.union_all(holes))
        assert outer.area > part.area
        # What is left when the part is shrunk and grown again by half a web has no thin bridge;
        # corners sharper than that are round there, which is why a little may be missing.
        web = Material().web - 0.05
        opened = part.buffer(-web / 2).buffer(web / 2, join_style="mitre")
        thin = part.difference(opened.buffer(0.3))
        # Slivers of a tenth of a millimetre are the arithmetic of the two buffers, not webs.
        assert thin.buffer(-0.05).is_empty, (style, location, table, thin.bounds)
        words_are_clear(drawing, part)
        says = " ".join(e.string for e in drawing.entities if isinstance(e, Text))
        assert all(word in says for word in CAUTION.split())
        assert template.title.upper() in says


def words_are_clear(drawing: Drawing, part: shapely.Geometry) -> None:
    """Check that each word lies inside the part, off its edges and off other words and ticks."""
    boxes = {
        e: shapely.box(b.left, b.top, b.right, b.bottom)
        for e in drawing.entities
        if isinstance(e, Text)
        for b in (text_box(e),)
    }
    ticks = [shapely.LineString(s.path.points()) for s in drawing.shapes(Layer.ENGRAVE)]
    for text, box in boxes.items():
        assert part.contains(box.buffer(0.5)), text
        assert not any(box.intersects(tick) for tick in ticks), text
    for (one, a), (two, b) in combinations(boxes.items(), 2):
        assert not a.intersects(b), (one, two)
    for tick in ticks:
        assert part.buffer(1e-6).covers(tick), list(tick.coords)


@pytest.mark.parametrize("location", LOCATIONS.names())
def test_a_window_takes_the_trimmed_transfer(location: str) -> None:
    """The opening is the carrier and its slip all round, where the drop wants it."""
    for template, drawing in drawn("window", location, shipped.one_table(location)):
        cuts = drawing.shapes(Layer.CUT)
        window = cuts[1].path.bounds()
        ink, carrier = template.ink, template.carrier

        assert window == template.window
        assert window.width == pytest.approx(ink.width + 2 * 6.35 + 2 * 0.5)
        assert carrier.width == pytest.approx(ink.width + 2 * 6.35)
        # On a shared jig the errors of its sizes are balanced, so it is off by no more than they.
        off = max(abs(seat.height) for seat in template.seats) + 1e-6
        away = ink.top - template.level if template.hangs else template.level - ink.bottom
        assert away == pytest.approx(template.drop, abs=off)
        # A square corner of the carrier, slipped into the corner, clears its rounding.
        corner = shapely.Point(carrier.left, carrier.top)
        assert polygon(cuts[1]).buffer(1e-6).covers(corner)


@pytest.mark.parametrize("style", TOUCH)
@pytest.mark.parametrize("location", [*LOCATIONS.names(), "V-neck"])
def test_the_plate_has_the_templates_edge(style: str, location: str) -> None:
    """The plate's outline runs along the template's seat edge, untouched by notch or rounding."""
    place = (location, shipped.one_table(location)) if location in LOCATIONS.names() else V_NECK
    for template, drawing in drawn(style, *place):
        outline = shapely.LineString(drawing.shapes(Layer.CUT)[0].path.points(0.002))
        edge = shapely.LineString(template.edge.points(0.002))
        ends = 0.0 if template.curved else 6.0
        box = drawing.shapes(Layer.CUT)[0].path.bounds()
        # A straight edge is as long as the plate.
        x0, x1 = max(edge.bounds[0], box.left) + ends, min(edge.bounds[2], box.right) - ends
        engaged = edge.intersection(shapely.box(x0, -1000, x1, 1000))

        assert outline.buffer(0.005).covers(engaged)


@pytest.mark.parametrize("location", LOCATIONS.names())
def test_the_ledge_is_where_the_transfer_ends(location: str) -> None:
    """A ledge's far side lies on the carrier's near side, under its middle."""
    for template, drawing in drawn("ledge", location, shipped.one_table(location)):
        outline = shapely.Polygon(drawing.shapes(Layer.CUT)[0].path.points(0.002))
        y = template.carrier.top if template.hangs else template.carrier.bottom
        away = 1 if template.hangs else -1
        x = template.carrier.centre.x

        assert outline.contains(shapely.Point(x, y - 0.01 * away))
        assert not outline.contains(shapely.Point(x, y + 0.01 * away))
        # The transfer lies beside the plate, not under it.
        box = template.carrier
        lies = shapely.box(box.left, box.top, box.right, box.bottom)
        assert outline.intersection(lies).area < 1e-6 * lies.area


@pytest.mark.parametrize("style", STYLES.names())
@pytest.mark.parametrize("table", ["adult-crew-tee", "adult-v-neck-tee"])
def test_inner_corners_are_round(style: str, table: str) -> None:
    """No corner that points into the plate is sharp: cracks in acrylic start there."""
    for _, drawing in drawn(style, "left-chest", table):
        cuts = [s.path for s in drawing.shapes(Layer.CUT)]
        for path in cuts:
            turn = (1 if path.area() > 0 else -1) * (-1 if is_hole(path, cuts) else 1)
            for one, two in zip(path.segments, (*path.segments[1:], path.segments[0]), strict=True):
                bend = one.tangent(1).unit().cross(two.tangent(0).unit()) * turn
                # The half-round notch in the far side meets it at a corner, outwards.
                assert bend > -0.02 or is_notch(one, two), (style, one, two)


def is_notch(one: Line | Arc | Cubic, two: Line | Arc | Cubic) -> bool:
    """Return whether one of two segments is the small half circle of a notch."""
    return any(isinstance(s, Arc) and abs(abs(s.bulge) - 1) < 1e-9 for s in (one, two))


@pytest.mark.parametrize("table", shipped.TABLES)
def test_a_drop_too_short_is_refused(table: str) -> None:
    """A drop that leaves too little between seam and window is objected to, in words."""
    from dataclasses import replace

    template = shipped.jigs("full-front", table)[0]
    up = template.room - 3.0
    window = template.window
    near = replace(template, window=replace(window, top=window.top - up))

    says = STYLES.get("window").objection(near)
    assert says is not None
    assert "trim the transfer closer" in says
