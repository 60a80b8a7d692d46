"""Outputs as they were looked at and found good: golden files, compared as geometry.

They change only by `pytest --update-golden`; a missing one fails.
"""

import json
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from jigs.documents import plan_json
from jigs.documents.block_picture import block_page
from jigs.documents.jig_pages import own_page
from jigs.drawing.drawing import Drawing, Layer, Shape
from jigs.errors import Place
from jigs.pipeline import make, read
from jigs.plan.jigs import drawn
from jigs.tables import library
from jigs.writers import as_bytes
from tests import orders, shipped
from tests.same import assert_same

FOLDER = Path(__file__).parent / "golden"


def flat(table: str, size: str) -> Drawing:
    """Return a size's panels side by side, with its landmarks as crosses."""
    (one,) = (s for s in shipped.sizes(table) if s.plan.measures.size == size)
    drawing = Drawing()
    x = 0.0
    for panel in one.flat.panels.values():
        box = panel.outline.bounds()
        edges = [Shape(Layer.CUT, edge.path) for edge in panel.edges]
        drawing = drawing.plus(Drawing(tuple(edges)).moved(x - box.left, -box.top))
        x += box.width + 20
    return drawing


def jig(style: str, location: str, table: str = "adult-crew-tee") -> Drawing:
    """Return the first jig of a style at a location."""
    return drawn(style, shipped.jigs(location, table)[0])


def block(table: str) -> Drawing:
    """Return the lines of the picture of a table's middle size; its words are tested elsewhere."""
    sizes = shipped.sizes(table)
    found = library.find(table, Place(table))
    page = block_page(found, sizes[(len(sizes) - 1) // 2], "in")
    kept = tuple(one for one in page.drawing.entities if isinstance(one, Shape))
    return Drawing(kept)


DRAWINGS: dict[str, Callable[[], Drawing]] = {
    "flat-adult-M": lambda: flat("adult-crew-tee", "M"),
    "flat-infant-NB": lambda: flat("infant-crew-tee", "NB"),
    "window-full-front": lambda: jig("window", "full-front"),
    "window-left-chest": lambda: jig("window", "left-chest"),
    "window-left-sleeve": lambda: jig("window", "left-sleeve"),
    "window-neck-label": lambda: jig("window", "neck-label", "infant-crew-tee"),
    "ledge-full-back": lambda: jig("ledge", "full-back"),
    "ledge-neck-label": lambda: jig("ledge", "neck-label"),
    **{
        f"blocks/{table}": partial(block, table)
        for table in ("adult-crew-tee", *shipped.OTHERS)
        if table != "toddler-hoodie"
    },
}


@pytest.mark.parametrize("name", DRAWINGS)
def test_drawings_are_as_they_were(name: str, tmp_path: Path, *, update_golden: bool) -> None:
    """Each drawing has the lines it had, on the layers it had, within 0.01 mm."""
    file = FOLDER / f"{name}.svg"
    fresh = as_bytes("svg", [own_page(DRAWINGS[name](), name, "golden drawing")])
    if update_golden:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(fresh)

    assert_same(file.read_bytes(), fresh, tmp_path / "apart.svg")


def test_the_comparison_can_fail(tmp_path: Path) -> None:
    """A line moved by 0.05 mm, or missing, is found, and a picture of it is written."""
    kept = (FOLDER / "window-left-chest.svg").read_bytes()
    drawing = DRAWINGS["window-left-chest"]()
    box = drawing.bounds()
    moved = Drawing((*drawing.moved(0.05, 0).entities[:1], *drawing.entities[1:]))
    less = Drawing(tuple(e for e in drawing.entities if not (
        isinstance(e, Shape) and e.layer is Layer.NOTE)))  # fmt: skip
    for changed in (moved, less):
        fresh = as_bytes("svg", [own_page(changed, "x", "x", box)])
        with pytest.raises(AssertionError, match="strays by"):
            assert_same(kept, fresh, tmp_path / "apart.svg")
        assert (tmp_path / "apart.svg").exists()


def test_a_plan_is_as_it_was(tmp_path: Path, *, update_golden: bool) -> None:
    """The small order's plan has the numbers it had, within a ten-thousandth of a millimetre."""
    data = json.loads(plan_json.dumped(make(read(orders.small(tmp_path)))))
    for one in data["plan"]["prints"]:
        # The preview's bytes depend on the image library, its look is tested elsewhere.
        one["artwork"]["preview"] = ""
    file = FOLDER / "plan.json"
    if update_golden:
        file.write_text(json.dumps(data, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")

    alike(json.loads(file.read_text(encoding="utf-8")), data, "plan")


def alike(kept: Any, fresh: Any, where: str) -> None:
    """Check that two pieces of JSON have the same keys and words, and nearly the same numbers."""
    if isinstance(kept, float) or isinstance(fresh, float):
        assert fresh == pytest.approx(kept, abs=1e-4), where
    elif isinstance(kept, dict):
        assert kept.keys() == fresh.keys(), where
        for key, value in kept.items():
            alike(value, fresh[key], f"{where}.{key}")
    elif isinstance(kept, list):
        assert len(kept) == len(fresh), where
        for k, (a, b) in enumerate(zip(kept, fresh, strict=True)):
            alike(a, b, f"{where}[{k}]")
    else:
        assert kept == fresh, where
