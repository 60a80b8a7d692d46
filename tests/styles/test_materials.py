"""What the material asks reaches every jig; a square transfer fits a window with round corners."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from jigs.drawing.drawing import Layer
from jigs.order.materials import materials
from jigs.order.order import Cutter
from jigs.plan.jigs import broken, drawn
from jigs.rules import Facts, check
from jigs.rules.measured import measured
from jigs.styles import STYLES
from jigs.styles._openings import openings, relieved
from jigs.template import Template
from jigs.template.seat import RELIEF
from tests import shipped
from tests.styles.test_odd_templates import odd


def of(template: Template, name: str) -> Template:
    """Return a template for a material."""
    cutter = Cutter(material=materials()[name], kerf=materials()[name].kerf)
    return replace(template, web=cutter.web, inner=cutter.inner)


def test_a_template_keeps_acrylic_unless_said() -> None:
    """The template's own least web and corner are those of the usual material."""
    template = shipped.jigs("left-chest", "adult-crew-tee")[0]

    assert of(template, "acrylic-3mm") == template


@pytest.mark.parametrize("name", materials())
@pytest.mark.parametrize("style", STYLES.names())
def test_every_material_has_jigs_that_keep_its_rules(style: str, name: str) -> None:
    """At every location a jig of each material can be drawn, or the style says why not."""
    made = 0
    for location, table in shipped.places():
        if table not in {"adult-crew-tee", "infant-crew-tee", "adult-hoodie", "tote-bag"}:
            continue
        for bare in shipped.drawn_in(style, location, table):
            template = of(bare, name)
            if STYLES.get(style).objection(template) is None:
                made += 1
                assert broken(style, template) == (), (location, table)
    assert made > 20


def test_the_measured_web_and_corner_are_the_materials() -> None:
    """A plate of card, which asks for 6 mm, has no bridge of 5 mm; its window is less round."""
    template = of(shipped.jigs("full-front", "adult-crew-tee")[0], "card")
    drawing = drawn("window", template)
    found = measured(drawing)

    assert found.web is not None
    assert found.web[0] >= 6.0 - 0.02
    assert found.inner is not None
    assert found.inner[0] == pytest.approx(0.5)
    assert check(drawing, Facts(6.0, 0.5)) == ()


@settings(max_examples=100)
@given(odd(), st.floats(5, 12), st.just(0.0) | st.floats(0.05, 5))
def test_any_material_has_a_jig_or_a_reason(
    print_: tuple[str, Template], web: float, inner: float
) -> None:
    """Whatever a material asks within what an order allows, no rule is broken.

    Round the point of a V an edge is cut away by `RELIEF`: rounder corners are left to the rules.
    """
    style, template = print_
    if template.relief and inner > RELIEF:
        return
    one = replace(template, web=web, inner=inner)
    if STYLES.get(style).objection(one) is None:
        assert broken(style, one) == ()


def square(template: Template, by: float = 0.0) -> shapely.Polygon:
    """Return the carrier, trimmed larger all round."""
    box = template.carrier.grown(by)
    return shapely.box(box.left, box.top, box.right, box.bottom)


def hole(template: Template) -> shapely.Polygon:
    """Return the window as it is cut, its chords within a thousandth."""
    return shapely.Polygon(openings(template)[0].points(0.001)).buffer(0.002)


def slipped(template: Template, slip: float, inner: float) -> Template:
    """Return a template with another slip and radius."""
    return replace(template, window=template.carrier.grown(slip), inner=inner)


LARGE = shipped.jigs("full-front", "adult-crew-tee")[0]


@given(st.floats(0, 3), st.floats(0, 5))
def test_the_square_carrier_lies_flat_in_the_window(slip: float, inner: float) -> None:
    """In the middle of the window no corner of the carrier lies on the plate."""
    template = slipped(LARGE, slip, inner)

    assert hole(template).covers(square(template))


@given(st.floats(0, 3), st.floats(0.1, 5))
def test_a_relieved_window_is_open_from_corner_to_corner(slip: float, inner: float) -> None:
    """With reliefs the carrier reaches every side and corner, by all of its slip."""
    template = slipped(LARGE, slip, inner)
    if not relieved(template):
        return
    for x in (-slip, 0, slip):
        for y in (-slip, 0, slip):
            assert hole(template).covers(affinity.translate(square(template), x, y))
    box = openings(template)[0].bounds()
    assert box.top == pytest.approx(template.window.top)
    assert box.bottom == pytest.approx(template.window.bottom)


def test_round_corners_take_from_the_slip() -> None:
    """Of 0.5 mm of slip, corners of 1.5 mm leave a true carrier 0.12 mm each way, still flat.

    The corner, 0.5 mm from one side, is stopped by the rounding where that is as far from the
    other: at 1.5 - √(1.5² - 1²) = 0.382 mm.
    """
    template = slipped(LARGE, 0.5, 1.5)
    assert not relieved(template)
    for far, fits in ((0.11, True), (0.13, False)):
        moved = affinity.translate(square(template), 0, -far)
        assert hole(template).covers(moved) == fits
    assert hole(template).covers(square(template, 0.05))
    assert not hole(template).covers(square(template, 0.08))


@pytest.mark.parametrize("where", ["full-front", "left-sleeve", "left-chest", "neck-label"])
def test_relieved_windows_keep_the_rules(where: str) -> None:
    """Reliefs are no sharp corners, leave their webs, and the window is still found."""
    for bare in shipped.jigs(where, shipped.one_table(where)):
        template = slipped(bare, 0.1, 2.0)
        if STYLES.get("window").objection(template) is None:
            assert relieved(template)
            assert broken("window", template) == ()
            paths = [shape.path for shape in drawn("window", template).shapes(Layer.CUT)]
            assert paths[1] == openings(template)[0]
