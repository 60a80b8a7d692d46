from io import StringIO
from types import ModuleType
from typing import Any

import pytest

from jigs.drawing.drawing import Drawing, Layer, Page, Shape
from jigs.geometry import Affine, Arc, Box, Cubic, Line, Path, Point
from jigs.writers import as_bytes
from tests.readers import dxf, gdal
from tests.writers import pages
from tests.writers.test_dxf_contours import READERS, Lines, farthest


def written(*paths: Path, layer: Layer = Layer.CUT) -> bytes:
    """Return paths as a DXF file, on a page of 200 by 100 mm."""
    drawing = Drawing(tuple(Shape(layer, path) for path in paths))
    return as_bytes("dxf", [Page(200, 100, drawing, "", "")])


def kinds(data: bytes) -> list[str]:
    """Return the types of the entities in a file."""
    return [entity.dxftype for entity in dxf.document(data).entities]


def test_the_unit_is_the_millimetre() -> None:
    """$INSUNITS is 4, $MEASUREMENT is 1 and the release is 2000 (DXF Reference, HEADER)."""
    document = dxf.document(as_bytes("dxf", [pages.page()]))

    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    assert document.dxfversion == "AC1015"


def test_extents_are_those_of_the_drawing() -> None:
    """The header says how far the lines reach, with y up, and how large the page is."""
    header = dxf.document(written(Path.circle(Point(50, 30), 20))).header

    assert header["$EXTMIN"] == pytest.approx((30, 50, 0))
    assert header["$EXTMAX"] == pytest.approx((70, 90, 0))
    assert header["$LIMMAX"] == (200, 100)


def test_the_audit_is_clean() -> None:
    """The audit of ezdxf finds nothing to report and nothing to mend."""
    import ezdxf.filemanagement

    text = as_bytes("dxf", [pages.page()]).decode("cp1252")
    audit: Any = ezdxf.filemanagement.read(StringIO(text)).audit()

    assert audit.errors == []
    assert audit.fixes == []


def test_each_shape_is_the_simplest_entity() -> None:
    """A circle is a CIRCLE, a side a LINE, an arc an ARC, the rest polylines; no splines."""
    assert kinds(written(Path.circle(Point(50, 50), 20))) == ["CIRCLE"]
    assert kinds(written(Path((Line(Point(0, 0), Point(5, 5)),)))) == ["LINE"]
    assert kinds(written(Path((Arc(Point(0, 0), Point(5, 5), 0.5),)))) == ["ARC"]
    wave = Cubic(Point(0, 0), Point(30, 50), Point(60, -50), Point(90, 0))
    assert kinds(written(Path((wave,)))) == ["LWPOLYLINE"]
    assert kinds(written(Path.box(Box(0, 0, 9, 9)))) == ["LWPOLYLINE"]


@pytest.mark.parametrize("bulge", [0.1, -0.1, 0.5, -0.5, 1.0, -1.0, 2.0, -2.0])
@pytest.mark.parametrize("alone", [True, False])
@pytest.mark.parametrize("reader", [dxf, gdal])
def test_arcs_bend_to_the_right_side(bulge: float, alone: bool, reader: ModuleType) -> None:
    """An arc's middle is where it was drawn, whichever way it turns, as ARC and as a bulge."""
    arc = Arc(Point(60, 50), Point(90, 40), bulge)
    path = Path((arc,)) if alone else Path((arc, Line(arc.b, Point(100, 90))))
    (read,) = reader.contours(written(path))

    middle = arc.at(0.5)
    assert min((x - middle.x) ** 2 + (y - middle.y) ** 2 for x, y in read.points) < 0.5**2
    box = path.bounds()
    assert read.box() == pytest.approx((box.left, box.top, box.right, box.bottom), abs=0.02)


def test_no_bulge_is_of_more_than_half_a_circle() -> None:
    """A wide arc in a polyline is halved, for GDAL misreads it whole; a half circle is not."""
    for bulge, sides in ((4.0, 3), (1.5, 3), (1.0, 2), (-1.0, 2), (-4.0, 3)):
        arc = Arc(Point(60, 50), Point(62, 50), bulge)
        data = written(Path((arc, Line(arc.b, Point(100, 90)))))
        (entity,) = dxf.document(data).entities

        assert len(entity.points) == sides + 1
        assert max(abs(one) for one in entity.bulge) <= 1
        read = [Lines.of(reader.contours(data)) for reader in (dxf, gdal)]
        assert farthest(*read) < READERS


def test_a_line_drawn_twice_is_cut_once() -> None:
    """A shape drawn again, backwards or from another corner, is in the file once; per layer."""
    box = Path.box(Box(10, 10, 50, 40), 5)
    turned = Path((*box.segments[3:], *box.segments[:3]))
    ring = Path.circle(Point(80, 50), 10)
    moved = ring.moved(Affine.move(-80, -50).then(Affine.turn(90)).then(Affine.move(80, 50)))

    assert len(kinds(written(box, turned, box.reversed(), turned.reversed()))) == 1
    assert len(kinds(written(ring, moved, ring.reversed()))) == 1
    there_and_back = Path((Line(Point(0, 0), Point(9, 0)), Line(Point(9, 0), Point(0, 0))))
    assert kinds(written(there_and_back)) == ["LINE"]
    both = Drawing((Shape(Layer.CUT, box), Shape(Layer.ENGRAVE, box)))
    assert len(kinds(as_bytes("dxf", [pages.page(both)]))) == 2


def test_what_has_no_length_is_left_out() -> None:
    """A side that vanishes in the sixth decimal is no corner, and a point no entity."""
    a, b = Point(10, 10), Point(10 + 1e-8, 10)
    assert kinds(written(Path((Line(a, b),)))) == []
    (entity,) = dxf.document(written(Path.through([a, b, Point(20, 20), Point(30, 10)]))).entities
    assert len(entity.points) == 3


def test_layers_and_line_ends() -> None:
    """Layers bear the names of the four kinds of line, and lines end in a single line feed."""
    data = as_bytes("dxf", [pages.page()])
    names = {layer.name for layer in dxf.document(data).layers}

    assert {"CUT", "SCORE", "ENGRAVE", "NOTE"} <= names
    assert b"\r" not in data
    assert data.startswith(b"999\nPlate\n")


def test_what_dxf_cannot_hold_is_refused_by_name() -> None:
    """An area is not dropped in silence."""
    with pytest.raises(ValueError, match="area of colour #e69f00"):
        as_bytes("dxf", [pages.page(pages.painted())])
