from xml.etree import ElementTree as ET

import pytest

from jigs.drawing import palette
from jigs.drawing.drawing import Area, Clip, Drawing, Layer, Page, Shape
from jigs.geometry import Arc, Box, Path, Point
from jigs.writers import as_bytes
from jigs.writers.svg import number, path_data
from tests.readers import svg
from tests.writers import pages

_NS = "{http://www.w3.org/2000/svg}"


def root(drawing: Drawing, title: str = "Plate", says: str = "A plate.") -> ET.Element:
    """Return a drawing's SVG as an XML parser sees it."""
    return ET.fromstring(as_bytes("svg", [pages.page(drawing, title=title, says=says)]))


def test_a_user_unit_is_a_millimetre() -> None:
    """Width and height are in mm and the view box has the same numbers (SVG 1.1, 7.7)."""
    page = root(pages.plate())

    assert (page.get("width"), page.get("height")) == ("230mm", "130mm")
    assert page.get("viewBox") == "0 0 230 130"


def test_layers_are_named_groups() -> None:
    """Each layer that is used is a group whose id is its name, the cut line on top."""
    groups = [g.get("id") for g in root(pages.plate()).findall(f"{_NS}g")]

    assert groups == ["note", "engrave", "score", "cut"]


def test_lettering_is_ink_to_be_printed() -> None:
    """A drawing of nothing but filled outlines is no note: it goes to whoever prints it."""
    letter = Area((Path.box(Box(0, 0, 10, 20)),), "#000000")
    (group,) = root(Drawing((letter,))).findall(f"{_NS}g")

    assert group.get("id") == "ink"
    assert group.findtext(f"{_NS}title") == "Ink: to be printed"


def test_title_and_description_are_the_pages() -> None:
    """What the page is called and says is there for those who cannot see it, escaped."""
    page = root(pages.plate(), "<A> & B", "two\nlines")

    assert page.findtext(f"{_NS}title") == "<A> & B"
    assert page.findtext(f"{_NS}desc") == "two lines"


def test_nothing_outside_the_file_is_named() -> None:
    """There is no script, style sheet or event, and every reference is inside the file."""
    page = root(pages.painted())

    for element in page.iter():
        assert element.tag.removeprefix(_NS) in {
            "svg", "title", "desc", "defs", "g", "path", "image", "clipPath",
        }  # fmt: skip
        for name, value in element.attrib.items():
            assert not name.startswith("on")
            if name.endswith("href"):
                assert value.startswith("data:image/png;base64,")


@pytest.mark.parametrize(
    ("value", "text"),
    [(1.0, "1"), (-0.00001, "0"), (0.1 + 0.2, "0.3"), (1234.56789, "1234.5679"), (-2.5, "-2.5"),
     (100.0, "100"), (1e-9, "0"), (1e6, "1000000")],
)  # fmt: skip
def test_numbers_have_no_noise(value: float, text: str) -> None:
    """Four decimals, no trailing zeros, no exponent and no minus zero."""
    assert number(value) == text


def test_a_closed_path_ends_with_z() -> None:
    """The closing side is drawn once, by Z."""
    assert path_data([Path.box(Box(0, 0, 2, 1))]) == "M0 0 L2 0 L2 1 L0 1 Z"


def test_a_wide_arc_keeps_its_place() -> None:
    """The rounding of a radius does not move an arc of nearly half a circle by more than it.

    With one command of radius r for half a circle an error e of the radius moves the middle by
    the root of 2 r e: 0.07 mm for e = 0.00005 mm at r = 50 mm.
    """
    arc = Arc.round(Point(100.00003, 60.00004), 50.00004, 0.3, 3.1)
    (read,) = svg.contours(
        as_bytes("svg", [Page(200, 200, Drawing((Shape(Layer.CUT, Path((arc,))),)), "", "")])
    )

    away = [abs(((x - 100.00003) ** 2 + (y - 60.00004) ** 2) ** 0.5 - 50.00004)
            for x, y in read.points]  # fmt: skip
    assert max(away) < 0.0005


def test_a_clip_shows_its_part_only() -> None:
    """A clipped drawing stands shifted behind its window, its ids unlike the page's own."""
    clip = Clip(Box(10, 10, 60, 60), pages.plate(), x=-15.0, y=5.0)
    page = Drawing((clip, *pages.plate().entities))
    read = svg.contours(as_bytes("svg", [pages.page(page)]))
    ids = [e.get("id") for e in root(page).iter() if e.get("id")]

    assert len(ids) == len(set(ids))
    inside = [c for c in read if c.clip]
    assert {c.clip for c in inside} == {(10.0, 10.0, 60.0, 60.0)}
    assert len(inside) * 2 == len(read)
    assert inside[-1].box() == pytest.approx(
        tuple(a + b for a, b in zip(read[-1].box(), (-15, 5, -15, 5), strict=True)), abs=1e-3
    )


def test_colours_and_patterns_differ() -> None:
    """No two layers have the same colour, and none relies on colour alone to be cut or scored.

    The colours are of Okabe & Ito, "Color Universal Design" (2008).
    """
    okabe_ito = {"#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00",
                 "#cc79a7"}  # fmt: skip
    pens = palette.PENS

    assert len({pen.colour for pen in pens.values()}) == len(pens)
    assert {pen.colour for pen in pens.values()} <= okabe_ito
    looks = [(pens[layer].width, pens[layer].dashes) for layer in (Layer.CUT, Layer.SCORE)]
    assert looks[0] != looks[1]
    assert (pens[Layer.ENGRAVE].width, pens[Layer.ENGRAVE].dashes) not in looks


def test_a_pattern_of_a_lines_own_is_for_notes() -> None:
    """A note may have dashes of its own; a line that reaches a tool keeps its layer's."""
    path = Path.through([Point(0, 0), Point(9, 0)])
    drawn = root(Drawing(tuple(Shape(layer, path, dashes=(1.5, 0.5)) for layer in Layer)))
    found = {g.get("id"): g[-1].get("stroke-dasharray") for g in drawn.findall(f"{_NS}g")}

    assert found == {"cut": None, "score": None, "engrave": None, "note": "1.5 0.5"}
