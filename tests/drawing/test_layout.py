"""Tiles: the fewest pages, no slivers, joins where they harm least."""

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.drawing.drawing import Anchor, Drawing, Layer, Shape, Text
from jigs.drawing.ground import ground
from jigs.drawing.layout import LEAST, Layout, Reach, layout
from jigs.drawing.lower import text_box
from jigs.geometry import Box, Path, Point

#: A small page, so that a small drawing takes several and every grid can be tried.
ACROSS, DOWN = Reach(70.0, 8.0), Reach(56.0, 8.0)


def ring(width: float, height: float, side: float, top: float = 0.0) -> Drawing:
    """Return a frame whose sides are `side` wide, its upper one `top` wider, a word on it."""
    outer, inner = Box(0, 0, width, height), Box(side, side + top, width - side, height - side)
    return Drawing((
        Shape(Layer.CUT, Path.box(outer)),
        Shape(Layer.CUT, Path.box(inner)),
        Text(Layer.ENGRAVE, "XS-L", Point(width / 2, side - 1), 3.0, Anchor.MIDDLE),
    ))  # fmt: skip


def laid(drawing: Drawing, x: float = 1.0, y: float = 1.0) -> tuple[Layout, Box]:
    """Return the tiles of a drawing on the small page, and the box they are measured from."""
    box = Box.of_all(s.path.bounds() for s in drawing.shapes())
    box = Box(box.left * x, box.top * y, box.right * x, box.bottom * y).grown(1.0)
    return layout(ground(drawing, x, y, box), ACROSS, DOWN), box


def matter(drawing: Drawing) -> Any:
    """Return all that a page must show, by shapely: the plate, its lines, its words."""
    from shapely import box as area
    from shapely import unary_union
    from shapely.geometry import LineString, Polygon

    plate: Any = Polygon()
    for shape in drawing.shapes(Layer.CUT):
        if shape.path.closed:
            plate = plate.symmetric_difference(Polygon(shape.path.points(0.01)))
    lines = [LineString(s.path.points(0.01)) for s in drawing.shapes()]
    boxes = [text_box(e) for e in drawing.entities if isinstance(e, Text)]
    words = [area(b.left, b.top, b.right, b.bottom) for b in boxes]
    return unary_union([plate, *lines, *words])


def cell(found: Layout, box: Box, row: int, column: int) -> Any:
    """Return a tile's true part, by shapely."""
    from shapely import box as area

    return area(
        box.left + found.across[column], box.top + found.down[row],
        box.left + found.across[column + 1], box.top + found.down[row + 1],
    )  # fmt: skip


def joined(pages: set[tuple[int, int]]) -> bool:
    """Return whether pages that share edges are all of them."""
    if not pages:
        return False
    group = {min(pages)}
    for _ in pages:
        group |= {(r, c) for r, c in pages for a, b in group if abs(r - a) + abs(c - b) == 1}
    return group == pages


def fewest_by_trying(drawing: Drawing, box: Box, step: float) -> int:
    """Return the fewest pages of all grids of full pitch, tried one by one with shapely.

    A tile is left out if nothing is within 2.5 mm of it, squares of 1 mm and their neighbours
    being what the program looks at.
    """
    from shapely import box as area

    whole = matter(drawing)

    def grids(size: float, reach: Reach) -> list[list[float]]:
        if size <= reach.whole:
            return [[0.0, size]]
        found = []
        start = reach.least
        while start <= reach.outer:
            edges = [0.0, start]
            while size - edges[-1] > reach.outer:
                edges.append(edges[-1] + reach.inner)
            if size - edges[-1] >= reach.least:
                found.append([*edges, size])
            start += step
        return found

    fewest = ACROSS.count(box.width) * DOWN.count(box.height)
    for xs in grids(box.width, ACROSS):
        for ys in grids(box.height, DOWN):
            pages = {
                (row, column)
                for row, (top, bottom) in enumerate(pairwise(ys))
                for column, (left, right) in enumerate(pairwise(xs))
                if area(box.left + left - 2.5, box.top + top - 2.5,
                        box.left + right + 2.5, box.top + bottom + 2.5).intersects(whole)
            }  # fmt: skip
            if len(pages) < fewest and joined(pages):
                fewest = len(pages)
    return fewest


frames = st.builds(ring, st.floats(60, 240), st.floats(60, 200), st.floats(6, 25), st.floats(0, 20))


@settings(max_examples=60)
@given(frames, st.floats(0.97, 1.03), st.floats(0.97, 1.03))
def test_pages_show_all_and_no_strip_is_a_sliver(drawing: Drawing, x: float, y: float) -> None:
    """Tiles lie side by side from end to end, none larger than a page shows, none a sliver."""
    found, box = laid(drawing, x, y)
    count = ACROSS.count(box.width) * DOWN.count(box.height)

    assert len(found.pages) <= count
    for edges, reach, size in ((found.across, ACROSS, box.width), (found.down, DOWN, box.height)):
        assert (edges[0], edges[-1]) == (0.0, size)
        parts = [end - start for start, end in pairwise(edges)]
        for k, part in enumerate(parts):
            joins = (k > 0) + (k < len(parts) - 1)
            assert part <= reach.whole - joins * reach.overlap / 2 + 1e-5
            if len(parts) > 1:
                assert part >= LEAST + reach.overlap / 2 - 1e-5


@settings(max_examples=40)
@given(frames)
def test_what_is_left_out_is_empty(drawing: Drawing) -> None:
    """Nothing of a line, a word or the plate is on a tile that is no page; pages hang together."""
    found, box = laid(drawing)
    whole = matter(drawing)
    cells = {(r, c) for r in range(len(found.down) - 1) for c in range(len(found.across) - 1)}

    assert joined(set(found.pages))
    for one in cells - set(found.pages):
        assert not cell(found, box, *one).intersects(whole)
    # All of the matter lies on the pages' parts, which overlap nowhere.
    parts = [cell(found, box, *one).intersection(whole).area for one in found.pages]
    assert math.fsum(parts) == pytest.approx(whole.area, rel=1e-9)


@settings(max_examples=8)
@given(frames)
def test_no_grid_has_fewer_pages(drawing: Drawing) -> None:
    """Trying offsets of the grid one by one finds none with fewer pages, nor does the area."""
    found, box = laid(drawing)

    assert len(found.pages) <= fewest_by_trying(drawing, box, 3.7)
    assert len(found.pages) * ACROSS.whole * DOWN.whole >= matter(drawing).area


def test_a_page_in_the_window_is_left_out() -> None:
    """A frame of three by three tiles takes eight pages: nothing is on the middle one."""
    found, _ = laid(ring(180, 140, 12))

    assert len(found.across) == len(found.down) == 4
    assert (1, 1) not in found.pages
    assert len(found.pages) == 8


def test_a_plate_without_lines_is_still_a_page() -> None:
    """The middle of a solid plate bears no line, but paper is needed there."""
    found, _ = laid(Drawing((Shape(Layer.CUT, Path.box(Box(0, 0, 180, 140))),)))

    assert len(found.pages) == 9


def test_parts_that_nothing_joins_keep_the_pages_between() -> None:
    """Two shapes far apart could not be laid right without the empty pages between them."""
    apart = Drawing(tuple(
        Shape(Layer.CUT, Path.box(Box(x, 0, x + 20, 20))) for x in (0, 220)
    ))  # fmt: skip
    found, _ = laid(apart)

    assert len(found.pages) == len(found.across) - 1


def test_joins_keep_off_words_lines_and_the_centre() -> None:
    """A join moves off a word, off a long line along it, and off the centre line x = 0."""
    outline = Shape(Layer.CUT, Path.box(Box(-55, 0, 55, 50)))
    plain, box = laid(Drawing((outline,)))
    # Even tiles would be joined on the centre line; 4 mm beside it is the nearest harmless place.
    assert abs(plain.across[1] + box.left) == pytest.approx(4.0, abs=1.0)

    word = Text(Layer.ENGRAVE, "FRONT", Point(0, 20), 4.0, Anchor.MIDDLE)
    worded, box = laid(Drawing((outline, word)))
    wide = text_box(word)
    assert not wide.left - 0.9 < worded.across[1] + box.left < wide.right + 0.9

    lines = [
        Shape(Layer.ENGRAVE, Path.through([Point(x, 5), Point(x, 45)])) for x in (-6, -4, 4, 6)
    ]
    ruled, box = laid(Drawing((outline, *lines)))
    assert min(abs(ruled.across[1] + box.left - x) for x in (-6, -4, 0, 4, 6)) >= 3.5


def test_even_tiles_where_nothing_is_in_the_way() -> None:
    """A drawing a little wider than a page is cut about the middle, not into a page and a strip."""
    found, _ = laid(Drawing((Shape(Layer.CUT, Path.box(Box(5, 0, 77, 40))),)))

    left, right = found.across[1], found.across[2] - found.across[1]
    assert len(found.pages) == 2
    assert abs(left - right) < 3


def test_the_same_drawing_gives_the_same_tiles() -> None:
    """Nothing of the choice hangs on chance."""
    drawing = ring(200, 150, 15, 10)

    assert laid(drawing) == laid(drawing)
