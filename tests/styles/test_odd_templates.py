"""Prints and habits nobody expects: a jig is drawn right, or the style says why not."""

from dataclasses import replace

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.drawing.drawing import Layer, Shape
from jigs.drawing.kerf import compensated
from jigs.errors import Place
from jigs.locations import LOCATIONS
from jigs.order.order import Transfer
from jigs.plan.jigs import named
from jigs.plan.prints import film_template, templates
from jigs.plan.sizes import facts
from jigs.styles import STYLES
from jigs.tables import library
from jigs.template import Template
from jigs.widths import WidthRange
from tests import shipped
from tests.styles.test_every_style import words_are_clear


@st.composite
def odd(draw: st.DrawFn) -> tuple[str, Template]:
    """Return a style and a template for a print of an odd size, drop, trim and reference."""
    style = draw(st.sampled_from(STYLES.names()))
    name, table = draw(st.sampled_from(shipped.places()))
    where = shipped.at(name, table, draw(st.none() | st.floats(5, 250)))
    size = draw(st.integers(0, len(where) - 1))
    width, aspect = draw(st.floats(5, 400)), draw(st.floats(0.05, 20))
    keys = tuple(site.key for site in where)
    transfer = Transfer(trim=draw(st.floats(0, 25)), slip=draw(st.floats(0, 3)))
    reference = draw(st.sampled_from(["a", "harbour-relay · left-chest", "x" * 60, "青い港"]))
    unit = draw(st.sampled_from(["in", "mm"]))
    if STYLES.get(style).touch:
        one = WidthRange((keys[size],), width, width / aspect, 1)
        (found,) = templates(LOCATIONS.get(name), where, one, transfer, reference, unit)
    else:
        last = draw(st.integers(size, len(where) - 1))
        one = WidthRange(keys[size : last + 1], width, width / aspect, 1)
        found = film_template(LOCATIONS.get(name), where, one, transfer, reference, unit)
        known = facts([library.find(table, Place(table))])
        found = named(found, known)
    return style, replace(
        found, sizes=draw(st.sampled_from(["adult M", "youth XS–XL; adult S–3XL"]))
    )


def fine(shape: Shape) -> shapely.Polygon:
    """Return an outline as a polygon that hardly strays from it."""
    return shapely.Polygon(shape.path.points(5e-4))


@settings(max_examples=200)
@given(odd(), st.floats(0, 0.5))
def test_any_print_has_a_jig_or_a_reason(print_: tuple[str, Template], kerf: float) -> None:
    """Whatever the print, the jig can be cut and read, with its kerf, or the style objects."""
    style, template = print_
    if STYLES.get(style).objection(template) is not None:
        return
    drawing = STYLES.get(style).draw(template)
    outer, *holes = (fine(shape) for shape in drawing.shapes(Layer.CUT))

    assert outer.is_valid
    assert all(outer.contains(hole) for hole in holes)
    words_are_clear(drawing, outer.difference(shapely.union_all(holes)))
    moved = [fine(shape) for shape in compensated(drawing, kerf).shapes(Layer.CUT)]
    # Arcs that stand in for a collar stray by 0.005 mm.
    assert moved[0].buffer(6e-3).contains(outer)
    assert all(hole.buffer(1e-3).contains(new) for hole, new in zip(holes, moved[1:], strict=True))
