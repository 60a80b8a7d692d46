"""Every entity of a jig's DXF, read by two readers that share nothing, beside what was drawn."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import islice
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
import shapely

from jigs.documents.jig_pages import jig_outputs, own_page
from jigs.drawing.drawing import Page, Shape, Text
from jigs.drawing.kerf import compensated
from jigs.drawing.lower import strokes
from jigs.locations import LOCATIONS
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.plan import Shop
from jigs.plan.jigs import cutter_of, drawn
from jigs.styles import STYLES
from jigs.template import Template
from tests import shipped
from tests.readers import dxf, gdal
from tests.readers.contour import XY, Contour

#: What is asked of every format.
AGREE = 0.05
#: What DXF keeps: curves become arcs within 0.01 mm, and readers' chords stray by 0.004 mm.
CURVES = 0.015
#: How near two readers of one file come to one another: their chords.
READERS = 0.006
KERFS = (0.0, 0.2)
CASES = [
    (style, location, shipped.one_table(location), kerf)
    for style in STYLES.names()
    for location in LOCATIONS.names()
    for kerf in KERFS
] + [(style, "full-front", "adult-v-neck-tee", kerf) for style in STYLES.names() for kerf in KERFS]


@cache
def template(style: str, location: str, table: str) -> Template:
    """Return the first template of a location that a style takes."""
    made = shipped.drawn_in(style, location, table)
    return next(one for one in made if STYLES.get(style).objection(one) is None)


def file(style: str, one: Template, kerf: float) -> bytes:
    """Return a jig's DXF, as an order writes it."""
    shop = Shop(Paper(), Printer(), Cutter(kerf=kerf), Press(), Transfer())
    _, found = islice(jig_outputs(one, style, "x", shop), 2)
    assert found.name == "x.dxf"
    return found.data


def page(style: str, one: Template, kerf: float) -> Page:
    """Return the neutral drawing on the page of the cut files: nothing of it is lowered."""
    drawing = drawn(style, one)
    own = cutter_of(style, Cutter(kerf=kerf)).kerf
    return own_page(compensated(drawing, own), "", "", drawing.bounds())


def true_contours(sheet: Page) -> list[Contour]:
    """Return the drawing's own lines and its letters' strokes, as fine chords."""
    shapes: list[Shape] = []
    for entity in sheet.drawing.entities:
        if isinstance(entity, Text):
            shapes += strokes(entity)
        else:
            assert isinstance(entity, Shape)
            shapes.append(entity)
    return [Contour(s.layer.value, _points(s), s.path.closed) for s in shapes]


def _points(shape: Shape) -> list[XY]:
    return [(p.x, p.y) for p in shape.path.points(0.002)]


@dataclass(frozen=True)
class Lines:
    """Contours as shapely's lines, with the closing sides of those that are closed."""

    kinds: tuple[tuple[str | None, bool], ...]
    """Layer, and whether it is closed."""
    lines: npt.NDArray[Any]

    @classmethod
    def of(cls, ones: Sequence[Contour]) -> "Lines":
        """Return contours as lines."""
        rings = [[*c.points, c.points[0]] if c.closed else c.points for c in ones]
        kinds = tuple((c.layer, c.closed) for c in ones)
        return cls(kinds, np.array([shapely.linestrings(np.array(ring)) for ring in rings]))


def farthest(ones: Lines, others: Lines) -> float:
    """Return the greatest Hausdorff distance of lines and their partners, one to one.

    A partner lies on the same layer, is closed if its fellow is, and is no one else's.
    """
    assert len(ones.lines) == len(others.lines)
    apart = abs(shapely.bounds(ones.lines)[:, None] - shapely.bounds(others.lines)[None])
    near = [
        (i, j)
        for i, j in np.argwhere(apart.max(axis=2) <= AGREE).tolist()
        if ones.kinds[i] == others.kinds[j]
    ]
    one, other = np.array(near).T
    partners: dict[int, tuple[float, int]] = {}
    away = shapely.hausdorff_distance(ones.lines[one], others.lines[other]).tolist()
    for (i, j), distance in zip(near, away, strict=True):
        partners[i] = min((distance, j), partners.get(i, (distance, j)))
    lone = set(range(len(ones.lines))) - set(partners)
    assert not lone, [(ones.kinds[k], ones.lines[k].bounds) for k in lone]
    assert len({j for _, j in partners.values()}) == len(partners)
    return max(distance for distance, _ in partners.values())


@pytest.mark.parametrize(("style", "location", "table", "kerf"), CASES)
def test_two_readers_find_every_contour_and_no_other(
    style: str, location: str, table: str, kerf: float
) -> None:
    """Each line that was drawn is in the file once, and nothing else, as both readers see it."""
    one = template(style, location, table)
    data = file(style, one, kerf)
    true = Lines.of(true_contours(page(style, one, kerf)))
    first, second = Lines.of(dxf.contours(data)), Lines.of(gdal.contours(data))

    assert len(true.lines) > 100
    assert farthest(true, first) < CURVES < AGREE
    assert farthest(true, second) < CURVES
    assert farthest(first, second) < READERS


def test_a_contour_moved_left_out_or_added_is_seen() -> None:
    """The comparison is no wave-through: each kind of difference fails it."""
    one = template("window", "left-chest", "adult-crew-tee")
    found = gdal.contours(file("window", one, 0.0))
    last = found[-1]
    moved = Contour(last.layer, [(x + 0.06, y) for x, y in last.points], last.closed)
    other_layer = Contour("score", last.points, last.closed)
    opened = Contour(found[0].layer, found[0].points, closed=False)

    assert farthest(Lines.of(found), Lines.of(found)) == 0.0
    for spoilt in (
        [*found[:-1], moved],
        [*found[:-1], other_layer],
        [opened, *found[1:]],
        [*found[:-1], found[0]],
        found[:-1],
        [*found, found[0]],
    ):
        with pytest.raises(AssertionError):
            farthest(Lines.of(found), Lines.of(spoilt))
