"""Shipped jigs on small beds: in pieces that make the jig whole, or said not to be."""

from dataclasses import replace

import pytest
import shapely

from jigs.documents.cutting import cut_drawing
from jigs.drawing.drawing import Drawing, Layer
from jigs.order.order import Cutter
from jigs.plan.jigs import drawn, facts_of, plate_cutting
from jigs.plan.pieces import Cutting
from jigs.rules import check
from jigs.styles import STYLES
from jigs.template import Template
from tests import shipped
from tests.drawing.plates import FINE, material, outline_gap

BEDS = ((300.0, 200.0), (400.0, 300.0), (600.0, 400.0))
SOME = ("adult-crew-tee", "tote-bag", "infant-crew-tee")


def _large(bed: tuple[float, float]) -> list[tuple[str, str]]:
    """Return the places whose window jigs may be larger than a bed."""
    return [
        (location, table)
        for location, table in shipped.places()
        if table in SOME and any(_beyond(t, bed) for t in shipped.jigs(location, table))
    ]


def _beyond(template: Template, bed: tuple[float, float]) -> bool:
    return max(template.window.width + 36, template.window.height + 36) > min(bed) - 10


def _cutting(style: str, template: Template, cutter: Cutter) -> Cutting:
    return plate_cutting(style, template, cutter)


@pytest.mark.parametrize("bed", BEDS)
def test_pieces_of_shipped_jigs(bed: tuple[float, float]) -> None:
    """Every piece fits its bed and keeps the rules; assembled they are the jig to 0.05 mm."""
    cutter = Cutter(bed_width=bed[0], bed_height=bed[1])
    cut = 0
    for location, table in _large(bed):
        for style in STYLES.names():
            template = shipped.drawn_in(style, location, table)[0]
            if STYLES.get(style).objection(template):
                continue
            found = _cutting(style, template, cutter)
            if len(found.pieces) < 2:
                assert (found.remark is None) == bool(found.pieces)
                continue
            cut += 1
            _is_whole(style, template, found, cutter)
    assert cut > 0 or bed == BEDS[-1]


def _is_whole(style: str, template: Template, found: Cutting, cutter: Cutter) -> None:
    drawing = drawn(style, template)
    whole, each = material(drawing), [material(piece) for piece in found.pieces]
    assert found.remark is not None
    assert f"in {len(each)} pieces" in found.remark
    for piece in found.pieces:
        box = Drawing(piece.shapes(Layer.CUT)).bounds()
        sides = sorted((box.width, box.height))
        bed = sorted((cutter.bed_width, cutter.bed_height))
        assert sides[0] <= bed[0] - 10 + 1e-6
        assert sides[1] <= bed[1] - 10 + 1e-6
    half = cutter.fit / 2 + 0.002
    closed = shapely.union_all([one.buffer(half) for one in each]).buffer(-half)
    assert outline_gap(closed, whole) < 0.05
    assert closed.symmetric_difference(whole).area < 0.05 * whole.length / 10
    plate = Drawing(drawing.shapes(Layer.CUT)).bounds()
    facts = facts_of(style, template, plate)
    # The seat edge is whole on one piece, and so is the window's side by it.
    seats = [
        not [v for v in check(piece, replace(facts, windows=())) if v.rule == "seat"]
        for piece in found.pieces
    ]
    assert seats.count(True) >= 1
    window = template.window
    y = window.top if template.hangs else window.bottom
    if STYLES.get(style).opening:
        side = shapely.LineString([(window.left + 2, y), (window.right - 2, y)])
        homes = [one.boundary.buffer(2 * FINE).covers(side) for one in each]
        assert homes.count(True) == 1


def test_no_tab_lies_on_a_joint() -> None:
    """Where two pieces butt, neither has a bridge that would have to be filed off."""
    template = shipped.jigs("full-back", "adult-crew-tee")[0]
    cutter = Cutter(kerf=0.0, bed_width=400.0, bed_height=300.0, tabs=1.0)
    whole = drawn("window", template)
    pieces = plate_cutting("window", template, cutter).pieces
    outlines = [Drawing(piece.shapes(Layer.CUT)) for piece in pieces]
    joint = material(outlines[0]).buffer(0.2).intersection(material(outlines[1]).buffer(0.2))
    tabbed = 0
    for piece in pieces:
        led = cut_drawing(piece, template, "window", cutter, whole)
        ends = [end for shape in led.shapes(Layer.CUT) if not shape.path.closed
                for end in (shape.path.start, shape.path.end)]  # fmt: skip
        tabbed += len(ends)
        assert all(joint.distance(shapely.Point(end)) > 4.0 for end in ends)
    assert tabbed >= 16


def test_a_bed_with_room_cuts_it_whole() -> None:
    """A plate that fits is one piece, the drawing itself, and nothing is said."""
    template = shipped.jigs("left-chest", "adult-crew-tee")[0]
    found = plate_cutting("window", template, Cutter())
    assert found == Cutting((drawn("window", template),))


def test_frame_wider_than_the_bed_is_said_not_to_be_splittable() -> None:
    """The window's side that the print is set by is never cut: a bed too short for it is said."""
    template = shipped.jigs("full-back", "adult-crew-tee")[0]
    found = plate_cutting("window", template, Cutter(bed_width=250.0, bed_height=150.0))
    assert found.pieces == ()
    assert found.remark is not None
    assert "cannot be split" in found.remark
    assert "with 0.2 in left all round" in found.remark


def test_bed_smaller_than_any_strip() -> None:
    """A bed of the least size that an order may have is refused for a large frame, in words."""
    template = shipped.jigs("full-back", "adult-crew-tee")[0]
    found = plate_cutting("window", template, Cutter(bed_width=50.0, bed_height=50.0))
    assert found.remark is not None
    assert found.pieces == ()


@pytest.mark.parametrize(
    ("stock", "sheet"),
    [
        (None, (600.0, 400.0)),
        ((304.8, 508.0), (508.0, 304.8)),
        ((2000.0, 2000.0), (600.0, 400.0)),
        ((300.0, 900.0), (600.0, 300.0)),
        ((100.0, 100.0), (100.0, 100.0)),
    ],
)
def test_sheet_is_what_stock_covers_of_the_bed(
    stock: tuple[float, float] | None, sheet: tuple[float, float]
) -> None:
    """Stock may be laid either way; what hangs over the bed does not count."""
    assert Cutter(stock=stock).sheet == sheet


def test_stock_smaller_than_the_bed_splits_a_jig() -> None:
    """A plate that the bed would take is split where the stock is too small for it."""
    template = shipped.jigs("full-back", "adult-crew-tee")[0]
    found = plate_cutting("window", template, Cutter(stock=(400.0, 300.0)))
    assert len(found.pieces) == 2
    assert found.remark is not None
    assert "bed and stock" in found.remark
