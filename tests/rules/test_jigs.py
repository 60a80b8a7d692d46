"""Jigs of the program's own styles keep every rule, and one that does not is never written."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from jigs.drawing.drawing import Drawing, Layer, Shape
from jigs.errors import Place, Refused
from jigs.geometry import Path, Point
from jigs.order.order import Cutter, Press, Printer, Transfer
from jigs.order.papers import paper_named
from jigs.plan import Shop, jigs
from jigs.plan.jigs import broken
from jigs.styles import STYLES
from jigs.template import Template
from tests import shipped
from tests.cli.test_commands import data, run

CASES = [(style, *place) for style in STYLES.names() for place in shipped.places()]
TEMPLATE = (
    "template", "adult-crew-tee", "--location", "left-chest", "--width", "3 in", "--height", "3 in",
    "--sizes", "M",
)  # fmt: skip


@pytest.mark.parametrize(("style", "location", "table"), CASES)
def test_every_jig_keeps_the_rules(style: str, location: str, table: str) -> None:
    """One range of sizes of every table at every location breaks no rule, in both units."""
    for unit in ("in", "mm"):
        for template in shipped.drawn_in(style, location, table, unit=unit)[:1]:
            if STYLES.get(style).objection(template) is None:
                assert broken(style, template) == ()


@pytest.fixture
def spoilt(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Have every jig drawn with a hole 2 mm from its left side."""
    drawn = jigs.drawn.__wrapped__

    def with_hole(style: str, one: Template) -> Drawing:
        made: Drawing = drawn(style, one)
        box = made.bounds()
        hole = Path.circle(Point(box.left + 5.0, box.centre.y), 3.0)
        return made.plus(Shape(Layer.CUT, hole))

    monkeypatch.setattr(jigs, "drawn", with_hole)
    jigs.broken.cache_clear()
    yield
    jigs.broken.cache_clear()


@pytest.mark.usefixtures("spoilt")
def test_a_jig_that_breaks_a_rule_is_not_made(tmp_path: object) -> None:
    """`jigs template` says which rule, by how much and where; it exits with 1 and writes none."""
    found = data(*TEMPLATE, "--out", f"{tmp_path}/jigs")
    code, out, _ = run(*TEMPLATE, "--out", f"{tmp_path}/jigs")

    assert found["jigs"] == []
    (one,) = [finding for finding in found["findings"] if "breaks a rule" in finding["says"]]
    assert one["blocks"]
    assert "(web): a web of 2.00 mm" in one["says"]
    assert "1.0 mm from the plate's left" in one["says"]
    assert code == 1
    assert "STOP" in out


@pytest.mark.usefixtures("spoilt")
def test_a_kept_plan_does_not_get_round_the_rules() -> None:
    """A jig that stands in a plan already is refused when its files would be made."""
    from jigs.documents.jig_pages import jig_outputs

    template = replace(shipped.jigs("left-chest", "adult-crew-tee")[0], reference="kept")
    shop = Shop(paper_named("a4", Place("x")), Printer(), Cutter(), Press(), Transfer())
    with pytest.raises(Refused, match=r"a web of 2\.00 mm"):
        next(jig_outputs(template, "window", "jigs/one", shop))
