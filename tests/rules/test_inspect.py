"""`jigs inspect`: our own files are clean, edited ones are told, broken ones are a line."""

import io
import json
from functools import cache
from pathlib import Path as File
from typing import Any

import pytest

from jigs import cutfile
from jigs.cutfile.svg import transform
from jigs.documents.jig_pages import own_page
from jigs.drawing.drawing import Drawing, Layer
from jigs.drawing.kerf import compensated
from jigs.errors import BadInput, Place
from jigs.geometry import Box, Path, Point
from jigs.locations import LOCATIONS
from jigs.order.order import Material
from jigs.plan.jigs import drawn
from jigs.rules import Facts, check, measured
from jigs.styles import STYLES
from jigs.writers import as_bytes
from tests import shipped
from tests.cli.test_commands import data, run
from tests.rules.plates import WINDOW, cut, plate, word

FACTS = Facts(Material().web, Material().corner, grouped=True)
#: One table for each location, each in one format by turns: all of them take minutes.
PLACES = [
    (style, location, ("dxf", "svg")[(k + j) % 2])
    for k, style in enumerate(STYLES.names())
    for j, location in enumerate(LOCATIONS.names())
]


def written(drawing: Drawing, suffix: str, kerf: float = 0.0) -> bytes:
    """Return a drawing as a cut file of ours."""
    says = f"A jig. Kerf {kerf:g} mm: outlines are moved." if kerf else "A jig."
    page = own_page(compensated(drawing, kerf), "jig", says)
    return as_bytes(suffix, [page])


def read(content: bytes, name: str) -> cutfile.CutFile:
    """Return what is read from a file's bytes."""
    return cutfile.read(name, content, Place(name))


@cache
def sample(suffix: str) -> bytes:
    """Return a small plate with a window, a hole and words."""
    return written(plate(cut(Path.circle(Point(109, 45), 3.0)), word("front 100", 10, 20)), suffix)


@pytest.mark.parametrize(("style", "location", "suffix"), PLACES)
def test_our_own_files_are_clean(style: str, location: str, suffix: str) -> None:
    """A jig written with a kerf is read back with its size, and breaks no rule."""
    from dataclasses import replace

    template = shipped.drawn_in(style, location, shipped.one_table(location))[0]
    if STYLES.get(style).objection(template) is not None:
        return
    drawing = drawn(style, template)
    file = read(written(drawing, suffix, 0.2), f"jig.{suffix}")
    box = Drawing(drawing.shapes(Layer.CUT)).bounds()
    found = measured(file.drawing)

    assert file.kerf == 0.2
    assert file.notes == ()
    assert check(file.drawing, replace(FACTS, kerf=0.2)) == ()
    assert found.plate.width == pytest.approx(box.width + 0.2, abs=0.01)
    assert found.plate.height == pytest.approx(box.height + 0.2, abs=0.01)


def edited(change: Any) -> bytes:
    """Return the small plate's DXF as somebody's drawing program saves it after a change."""
    import ezdxf

    document = ezdxf.read(io.StringIO(sample("dxf").decode("cp1252")))  # type: ignore[attr-defined]
    change(document)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode()


def window_of(document: Any) -> Any:
    """Return the window: the cut polyline with corners of 1.5 mm."""
    lines = document.modelspace().query('LWPOLYLINE[layer=="CUT"]')
    return min(lines, key=lambda one: max(x for x, *_ in one.get_points()))


def test_an_edited_web(tmp_path: File) -> None:
    """A hole moved by hand towards the side leaves a thin web, told with width and place."""

    def move(document: Any) -> None:
        (hole,) = document.modelspace().query("CIRCLE")
        hole.dxf.center = (hole.dxf.center.x + 4.5, hole.dxf.center.y)

    file = tmp_path / "edited.dxf"
    file.write_bytes(edited(move))
    found = data("inspect", file)
    code, out, _ = run("inspect", file)

    assert code == 1
    assert [one["rule"] for one in found["broken"]] == ["web"]
    assert "a web of 3.50 mm" in found["broken"][0]["says"]
    assert found["broken"][0]["x_mm"] == pytest.approx(118.25, abs=0.01)
    assert found["least_web"]["width_mm"] == pytest.approx(3.5, abs=0.02)
    assert "STOP  web: a web of 3.50 mm" in out


def test_a_vertex_moved() -> None:
    """One vertex of the window moved towards the plate's side leaves so much less."""

    def move(document: Any) -> None:
        one = window_of(document)
        points = one.get_points("xyb")
        k = min(range(len(points)), key=lambda i: points[i][0])
        low = min(x for x, *_ in points)
        x, y, bulge = points[k]
        one.set_points(
            [*points[:k], (x - low + 5.0 + 3.0, y, bulge), *points[k + 1 :]], format="xyb"
        )

    broken = check(read(edited(move), "a.dxf").drawing, FACTS)

    assert any("a web of 3.00 mm" in one.says for one in broken), broken


def test_an_opened_contour() -> None:
    """An outline that lost its last side is open by that side's length."""

    def open_it(document: Any) -> None:
        window_of(document).closed = False

    broken = check(read(edited(open_it), "a.dxf").drawing, FACTS)

    assert {one.rule for one in broken} == {"closed"}


def test_exploded_outlines_are_put_together_again() -> None:
    """Lines and arcs that meet end to end are the outline they were taken from."""

    def explode(document: Any) -> None:
        for one in list(document.modelspace().query('LWPOLYLINE[layer=="CUT"]')):
            one.explode()

    file = read(edited(explode), "a.dxf")

    assert check(file.drawing, FACTS) == ()
    assert measured(file.drawing).openings[0].width == pytest.approx(WINDOW.width)


@pytest.mark.parametrize("mirror", [1, -1])
def test_blocks_units_and_curves(mirror: int) -> None:
    """A block in inches, mirrored or not, with a spline and an ellipse, is as large as it is."""
    import ezdxf

    document: Any = ezdxf.new("R2010", units=1)  # type: ignore[attr-defined]
    document.layers.add("CUT")
    block = document.blocks.new("PLATE")
    block.add_lwpolyline([(0, 0, 0), (4, 0, 1), (4, 3, 0), (0, 3, 0)], format="xyb", close=True)
    block.add_ellipse((2, 1.5), (0.5, 0), 0.5)
    block.add_spline([(3, 1), (3.4, 1.5), (3, 2), (2.8, 1.5), (3, 1)])
    block.add_circle((1, 1), 0.25)
    document.modelspace().add_blockref("PLATE", (9, 9), {"xscale": mirror, "layer": "CUT"})
    document.modelspace().add_text("made by hand", dxfattribs={"layer": "CUT"})
    out = io.StringIO()
    document.write(out)
    file = read(out.getvalue().encode(), "a.dxf")
    found = measured(file.drawing)

    assert found.plate.width == pytest.approx(5.5 * 25.4)
    assert found.plate.height == pytest.approx(3 * 25.4)
    assert len(found.openings) == 2
    assert any(box.width == pytest.approx(25.4, abs=0.02) for box in found.openings)
    ((_, diameter),) = found.holes
    assert diameter == pytest.approx(12.7)
    assert file.notes == ("1 TEXT not read",)


def svg(body: str, size: str = 'width="120mm" height="80mm" viewBox="0 0 120 80"') -> bytes:
    """Return an SVG with one cut layer."""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" {size}><g id="cut">{body}</g></svg>').encode()


def test_the_shapes_of_svg() -> None:
    """Rectangles, circles, ellipses, quadratics and turned groups measure what they are."""
    body = (
        '<g transform="translate(60 40) rotate(180) translate(-60,-40)">'
        '<rect width="120" height="80" rx="5"/>'
        '<circle cx="100" cy="20" r="3"/><ellipse cx="20" cy="20" rx="8" ry="5"/>'
        '<path d="M60 30 q 10 0 10 10 t -10 10 A 10 10 0 0 1 60 30 z"/></g>'
    )
    found = measured(read(svg(body), "a.svg").drawing)

    assert (found.plate.width, found.plate.height) == pytest.approx((120, 80))
    ((middle, diameter),) = found.holes
    assert middle == pytest.approx((20, 60))
    assert diameter == pytest.approx(6)
    sizes = sorted((round(box.width, 2), round(box.height, 2)) for box in found.openings)
    assert sizes == [(16, 10), (20, 20)]


def test_px_and_a_view_box() -> None:
    """User units are scaled by the view box; without a unit of length, that is said."""
    inches = svg('<rect width="40" height="20"/>', 'width="4in" height="2in" viewBox="0 0 40 20"')
    pixels = svg('<rect width="96" height="96"/>', 'width="96" height="96"')

    assert measured(read(inches, "a.svg").drawing).plate.width == pytest.approx(101.6)
    file = read(pixels, "a.svg")
    assert measured(file.drawing).plate.width == pytest.approx(25.4)
    assert "96 to the inch" in file.notes[0]


@pytest.mark.parametrize(
    ("text", "x", "y"),
    [("matrix(1 0 0 1 5 6)", 6, 6), ("scale(2)", 2, 0), ("rotate(90)", 0, 1),
     ("translate(3) scale(2,1)", 5, 0), ("skewY(45)", 1, 1), ("rotate(90, 1, 1)", 2, 1)],
)  # fmt: skip
def test_transforms(text: str, x: float, y: float) -> None:
    """Transforms move the point (1, 0) as SVG 1.1, 7.6, says."""
    assert transform(text).on(Point(1.0, 0.0)) == pytest.approx((x, y))


def test_the_report(tmp_path: File) -> None:
    """The report of a sound file has its sizes, and exit code 0."""
    for suffix in ("dxf", "svg"):
        file = tmp_path / f"jig.{suffix}"
        file.write_bytes(sample(suffix))
        code, out, err = run("inspect", file, "--units", "mm")

        assert (code, err) == (0, "")
        assert "plate         120 mm × 80 mm" in out
        assert "opening       60 mm × 30 mm" in out
        assert "hole          6 mm across" in out
        assert "least web     8.00 mm (at least 5 mm)" in out
        assert "inner corner  1.50 mm radius" in out
        assert data("inspect", file)["broken"] == []
    assert run("inspect", file, "--web", "9 mm")[0] == 1


MANY = "<g>" * 300 + "</g>" * 300
BAD: dict[str, tuple[str, bytes, str]] = {
    "another kind": ("a.pdf", b"%PDF", ".dxf or .svg"),
    "empty": ("a.dxf", b"", "empty"),
    "text": ("a.dxf", b"hello", "no sections"),
    "binary": ("a.dxf", b"AutoCAD Binary DXF\r\n\x1a\x00", "binary"),
    "half": ("a.dxf", b"0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\nCUT\n90\nx\n", "a.dxf: "),
    "broken XML": ("a.svg", b"<svg", "broken"),
    "entities": ("a.svg", b"<!DOCTYPE x [<!ENTITY a 'b'>]><svg/>", "entities"),
    "deep": ("a.svg", svg(MANY), "deep"),
    "bad path": ("a.svg", svg('<path d="L10"/>'), "cannot be read"),
    "bad number": ("a.svg", svg('<circle r="wide"/>'), "cannot be read"),
    "bad transform": ("a.svg", svg('<path transform="warp(2)" d="M0 0L1 1"/>'), "warp"),
    "infinite": ("a.svg", svg('<path d="M0 0L1e999 1"/>'), "none"),
    "huge": ("a.svg", svg('<path d="M0 0L99999 1"/>'), "reach over"),
    "no cut layer": ("a.svg", svg("").replace(b'"cut"', b'"lines"'), "no line on the layer 'cut'"),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_files_are_one_line(case: str, tmp_path: File) -> None:
    """What cannot be read is one line with the file's name, exit code 2."""
    name, content, says = BAD[case]
    (tmp_path / name).write_bytes(content)
    code, out, err = run("inspect", tmp_path / name)

    assert (code, out) == (2, "")
    assert says in err
    assert name in err
    assert len(err.splitlines()) == 1


def test_a_missing_file(tmp_path: File) -> None:
    """A file that is not there is one line."""
    code, _, err = run("inspect", tmp_path / "none.dxf")

    assert code == 2
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize("seed", range(60))
def test_a_spoilt_dxf_is_read_or_refused(seed: int) -> None:
    """Whatever is changed or cut off in a DXF, it is read or refused, never a traceback."""
    from random import Random

    chance = Random(seed)  # noqa: S311 - repeats exactly, by its seed
    lines = sample("dxf").split(b"\n")
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(lines))
        kind = chance.randrange(4)
        if kind == 0:
            lines[at] = chance.choice([b"", b"-1", b"1e400", b"LINE", b"330", b"\xff", b"nan"])
        elif kind == 1:
            del lines[at : at + chance.randint(1, 9)]
        elif kind == 2:
            lines[at:at] = lines[chance.randrange(len(lines)) :][:5]
        elif chance.random() < 0.3:
            del lines[at + 1 :]
    try:
        file = read(b"\n".join(lines), "a.dxf")
        json.dumps([one.says for one in check(file.drawing, FACTS)])
        measured(file.drawing)
    except BadInput:
        return


def test_blocks_that_hold_each_other_many_times() -> None:
    """Blocks of blocks of blocks are given up after so many lines."""
    import ezdxf

    document: Any = ezdxf.new("R2010", units=4)  # type: ignore[attr-defined]
    inner = "B0"
    document.blocks.new(inner)
    for depth in range(1, 9):
        block = document.blocks.new(f"B{depth}")
        for _ in range(30):
            block.add_blockref(inner, (0, 0), {"layer": "CUT"})
        inner = f"B{depth}"
    document.modelspace().add_blockref(inner, (0, 0), {"layer": "CUT"})
    out = io.StringIO()
    document.write(out)
    with pytest.raises(BadInput, match="more than"):
        read(out.getvalue().encode(), "a.dxf")


def test_the_plate_is_where_the_box_says() -> None:
    """A place is counted from the plate's top left corner, whichever way y points."""
    for suffix in ("dxf", "svg"):
        found = measured(read(sample(suffix), f"a.{suffix}").drawing)
        ((middle, _),) = found.holes
        box: Box = found.plate
        assert (middle.x - box.left, middle.y - box.top) == pytest.approx((109, 45), abs=1e-3)
