import math
import re
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.drawing import marks
from jigs.drawing.drawing import Area, Clip, Drawing, Layer, Page, Shape, Text
from jigs.drawing.tile import tiles, true_tile
from jigs.geometry import Arc, Box, Cubic, Line, Path, Point
from jigs.geometry.point import distance
from jigs.writers import as_bytes
from tests.readers import pdf, svg

LETTER, A4 = (215.9, 279.4), (210.0, 297.0)


def frame(width: float = 420, height: float = 480) -> Drawing:
    """Return an invented frame with a collar edge, a window and a centre line."""
    collar = Cubic(
        Point(0.3 * width, 0), Point(0.4 * width, 80), Point(0.6 * width, 80), Point(0.7 * width, 0)
    )
    right, low = Point(width, 60), Point(width, height)
    outline = Path((
        Arc(Point(0, 60), Point(60, 0), 0.3), Line(Point(60, 0), collar.a), collar,
        Line(collar.b, Point(width - 60, 0)), Arc(Point(width - 60, 0), right, 0.3),
        Line(right, low), Line(low, Point(0, height)), Line(Point(0, height), Point(0, 60)),
    ))  # fmt: skip
    window = Path.box(Box(0.2 * width, 0.3 * height, 0.8 * width, 0.9 * height), 5)
    middle = Path.through([Point(width / 2, 70), Point(width / 2, 0.28 * height)])
    return Drawing((
        Shape(Layer.CUT, outline), Shape(Layer.CUT, window), Shape(Layer.ENGRAVE, middle),
    ))  # fmt: skip


def tiled(
    drawing: Drawing, paper: tuple[float, float] = LETTER, x: float = 1.0, y: float = 1.0
) -> tuple[Page, ...]:
    """Return a drawing on pages with a margin of 6 mm and an overlap of 12 mm."""
    return tiles(
        drawing, title="Frame", says="A frame.", width=paper[0], height=paper[1],
        margin=6, overlap=12, x=x, y=y, reference="DEMO-1",
    )  # fmt: skip


def clips(pages: tuple[Page, ...]) -> list[Clip]:
    """Return each page's part of the drawing."""
    return [next(e for e in page.drawing.entities if isinstance(e, Clip)) for page in pages]


def texts(page: Page) -> list[str]:
    """Return what is written on a page, the scale bars included."""
    inside = [e.drawing for e in page.drawing.entities if isinstance(e, Clip)]
    return [e.string for d in (page.drawing, *inside) for e in d.entities if isinstance(e, Text)]


def kept(page: Page, pages: tuple[Page, ...]) -> Box:
    """Return what is left of a page's window when the edges with a neighbour are cut."""
    labels = {p.label for p in pages}
    row, column = page.label[0], int(page.label[1:])
    (clip,) = clips((page,))
    window, cut = clip.box, true_tile(page, 12)
    return Box(
        cut.left if f"{row}{column - 1}" in labels else window.left,
        cut.top if f"{chr(ord(row) - 1)}{column}" in labels else window.top,
        cut.right if f"{row}{column + 1}" in labels else window.right,
        cut.bottom if f"{chr(ord(row) + 1)}{column}" in labels else window.bottom,
    )


@pytest.mark.parametrize("paper", [LETTER, A4, (297, 420)])
def test_pages_put_together_are_the_drawing(paper: tuple[float, float]) -> None:
    """What the PDF's pages show, each moved back to its place, is the drawing within 0.05 mm."""
    from shapely import points as places
    from shapely.geometry import MultiLineString

    drawing = frame()
    pages = tiled(drawing, paper)
    data = as_bytes("pdf", pages)
    true = MultiLineString([s.path.points(0.002) for s in drawing.shapes()])
    for k, clip in enumerate(clips(pages)):
        window = (clip.box.left, clip.box.top, clip.box.right, clip.box.bottom)
        shown = [
            c for c in pdf.contours(data, k) if c.clip and c.clip == pytest.approx(window, abs=1e-3)
        ]
        assert len(shown) == len(drawing.shapes())
        for contour in shown:
            back = [(px - clip.x, py - clip.y) for px, py in contour.points]
            assert max(true.distance(places(back))) < 0.05


@settings(max_examples=15)
@given(st.floats(150, 900), st.floats(200, 900), st.floats(0.98, 1.02))
def test_every_place_is_on_one_tile(width: float, height: float, x: float) -> None:
    """Each place of the drawing is inside the true edges of one tile, on an edge of two."""
    drawing = frame(width, height)
    pages = tiled(drawing, x=x)
    if len(pages) == 1:
        return
    parts = [(clip, kept(page, pages)) for clip, page in zip(clips(pages), pages, strict=True)]
    for shape in parts[0][0].drawing.shapes():
        for p in shape.path.points(1.0):
            homes = 0
            for clip, box in parts:
                at = Box.around([Point(p.x + clip.x, p.y + clip.y)])
                homes += box.holds(at, 1e-9)
            assert 1 <= homes <= 4
            edge = min(
                abs(v) for clip, box in parts for v in
                (p.x + clip.x - box.left, p.x + clip.x - box.right,
                 p.y + clip.y - box.top, p.y + clip.y - box.bottom)
            )  # fmt: skip
            assert homes == 1 or edge < 1e-6


Stroke: TypeAlias = tuple[Point, Point]


def halves(page: Page) -> list[Stroke]:
    """Return the strokes of a page's matching marks, at their place on the drawing."""
    (clip,) = clips((page,))
    found = []
    for shape in page.drawing.shapes(Layer.NOTE):
        a, b = (Point(p.x - clip.x, p.y - clip.y) for p in (shape.path.start, shape.path.end))
        inside = clip.box.grown(-0.1).holds(shape.path.bounds())
        if shape.colour is None and inside:
            found.append((a, b))
    return found


def neighbours(pages: tuple[Page, ...]) -> list[tuple[Page, Page, Point]]:
    """Return pages that are joined, the lower one first, and which way the upper one lies."""
    by_label = {page.label: page for page in pages}
    found = []
    for page in pages:
        row, column = page.label[0], int(page.label[1:])
        for name, way in ((f"{row}{column + 1}", Point(1, 0)),
                          (f"{chr(ord(row) + 1)}{column}", Point(0, 1))):  # fmt: skip
            if name in by_label:
                found.append((page, by_label[name], way))
    return found


def met(under: Page, over: Page, way: Point) -> list[tuple[Stroke, Stroke]]:
    """Return the strokes of two pages that go on in one another at the true edge, straight."""
    pairs = []
    for a, b in halves(under):
        for c, d in halves(over):
            along, on = b.minus(a), d.minus(c)
            straight = abs(along.unit().cross(on.unit())) < 1e-9
            # Strokes begin on the edge and run away from it, one to each side.
            if distance(a, c) < 1e-6 and straight and along.dot(way) < 0 < on.dot(way):
                pairs.append(((a, b), (c, d)))
    return pairs


@pytest.mark.parametrize("paper", [LETTER, A4])
def test_marks_of_two_pages_meet(paper: tuple[float, float]) -> None:
    """Each join has marks, half on either page, whose strokes meet on the true edge."""
    pages = tiled(frame(), paper)
    for under, over, way in neighbours(pages):
        (clip,) = clips((under,))
        cut = true_tile(under, 12)
        edge = (cut.right - clip.x) if way.x else (cut.bottom - clip.y)
        pairs = met(under, over, way)
        assert len(pairs) >= 3
        assert len(pairs) % 3 == 0
        for (a, b), (_, d) in pairs:
            assert (a.x if way.x else a.y) == pytest.approx(edge, abs=1e-9)
            # No page draws on the other one's side: the halves come from two pages.
            assert b.minus(a).dot(way) < 0 < d.minus(a).dot(way)


def test_half_a_millimetre_shows() -> None:
    """Half a millimetre any way parts strokes that met by more than a line of white between.

    What is measured is how far apart the lines along two strokes then lie; their own width, half
    from each, is printed between.
    """
    pages = tiled(frame())
    joins = [met(under, over, way) for under, over, way in neighbours(pages)]
    for degrees in range(360):
        turn = math.radians(degrees)
        by = Point(0.5 * math.cos(turn), 0.5 * math.sin(turn))
        for pairs in joins:
            apart = [abs(by.cross(d.minus(c).unit())) for _, (c, d) in pairs]
            assert max(apart) > 2 * marks.FINE
            # The others of a mark show it too: at least two of the three strokes break.
            assert sum(one > marks.FINE for one in apart) >= 2 / 3 * len(apart)


def test_a_small_drawing_takes_one_page() -> None:
    """What fits beside the footer is one page, upright if it can be, and has no tile's marks."""
    (upright,) = tiled(frame(160, 200))
    (turned,) = tiled(frame(230, 150))

    assert (upright.width, upright.height) == LETTER
    assert (turned.width, turned.height) == LETTER[::-1]
    assert upright.label == ""
    assert not any(isinstance(e, Clip) for e in upright.drawing.entities)
    assert not any("goes on top" in text for text in texts(upright))


def test_fewer_pages_decide_how_the_sheet_lies() -> None:
    """A low wide frame takes 2 turned sheets of Letter and would take 3 upright ones."""
    pages = tiled(frame(480, 140))

    assert {(p.width, p.height) for p in pages} == {LETTER[::-1]}
    assert [p.label for p in pages] == ["A1", "A2"]


def test_the_map_shows_the_pages_that_exist() -> None:
    """Nothing is in the middle of a large frame: the map, the numbers and the marks say so."""
    pages = tiled(frame(560, 640), A4)
    labels = [page.label for page in pages]
    rows, columns = sorted({one[0] for one in labels}), sorted({one[1:] for one in labels})
    assert len(pages) < len(rows) * len(columns)
    for k, page in enumerate(pages, start=1):
        assert any(f"page {k} of {len(pages)}" in text for text in texts(page))
        (filled,) = [e for e in page.drawing.entities if isinstance(e, Area)]
        here = filled.paths[0].bounds()
        cells = [
            s.path.bounds().centre for s in page.drawing.shapes()
            if s.path.closed and abs(s.path.bounds().width - here.width) < 1e-9
        ]  # fmt: skip
        row, column = rows.index(page.label[0]), columns.index(page.label[1:])
        shown = {
            f"{rows[row + round((c.y - here.centre.y) / here.height)]}"
            f"{columns[column + round((c.x - here.centre.x) / here.width)]}"
            for c in cells
        }
        assert shown == set(labels)
        # Nobody is told to lay a page on one that there is not.
        told = [text.split()[-1] for text in texts(page) if text.startswith("cut at the marks")]
        assert set(told) <= set(labels)


@pytest.mark.parametrize(("width", "height"), [(160, 200), (420, 480)])
def test_every_page_says_how_to_print_it(width: float, height: float) -> None:
    """Each page bears the scale bar's rule, the title, the reference, and the paper's size."""
    for page in tiled(frame(width, height)):
        said = texts(page)
        assert (
            "Print at 100 % (actual size). This bar must measure 100 mm. "
            "If it does not, nothing on it is right: turn off 'fit to page'." in said
        )
        assert "Frame" in said
        assert any(re.search(r"DEMO-1.*paper 215.9 x 279.4 mm", text) for text in said)
        assert not page.label or page.label in said


@pytest.mark.parametrize(("x", "y"), [(1.0, 1.0), (1.01, 0.99)])
@pytest.mark.parametrize(("width", "height"), [(160, 200), (230, 150)])
def test_scale_bars_and_drawing_are_corrected_alike(
    x: float, y: float, width: float, height: float
) -> None:
    """The bars, read from the SVG, and the drawing are stretched by the printer's correction.

    `x` runs along the sheet's width as it is fed, so on a turned sheet it is the page's y.
    """
    (page,) = tiled(frame(width, height), x=x, y=y)
    across, down = (x, y) if page.width < page.height else (y, x)
    read = svg.contours(as_bytes("svg", [page]))
    straight = {
        (round(c.box()[2] - c.box()[0], 3), round(c.box()[3] - c.box()[1], 3))
        for c in read if len(c.points) == 2
    }  # fmt: skip

    # The lying bar is 4 in = 101.6 mm long, the upright one 100 mm (50 mm on a turned Letter).
    long = 100 if page.width < page.height else 50
    assert (round(101.6 * across, 3), 0) in straight
    assert (0, round(long * down, 3)) in straight or (0, round(100 * down, 3)) in straight
    cut = [c.box() for c in read if c.layer == "cut"]
    assert max(b[2] for b in cut) - min(b[0] for b in cut) == pytest.approx(
        width * across, abs=0.01
    )
    assert max(b[3] for b in cut) - min(b[1] for b in cut) == pytest.approx(height * down, abs=0.01)


@pytest.mark.parametrize("paper", [LETTER, A4, (297, 420), (148, 210)])
def test_nothing_is_printed_in_the_margin_or_over_the_drawing(paper: tuple[float, float]) -> None:
    """All lines keep to the margins, and the footer and gutters keep off the drawing."""
    for page in tiled(frame(), paper):
        (clip,) = clips((page,))
        sheet = Box(5.9, 5.9, page.width - 5.9, page.height - 5.9)
        # Matching marks, which have to be in the overlap, are in the notes' own colour.
        for contour in svg.contours(as_bytes("svg", [page])):
            box = Box(*contour.box())
            drawn = contour.clip and contour.clip[0] > 0
            if not drawn:
                assert sheet.holds(box), box
        for shape in page.drawing.shapes():
            if shape.colour:
                assert not clip.box.grown(-0.1).overlaps(shape.path.bounds())


@pytest.mark.parametrize("title", ["x" * 400, "</svg>\x00\n%", ""])
def test_any_title_fits(title: str) -> None:
    """A long title is written smaller, then cut short on the paper; the document keeps it whole."""
    pages = tiles(frame(), title=title, says="", width=210, height=297, margin=6, overlap=12)
    box = marks.Sheet(pages[0].width, pages[0].height, 6).footer()

    assert pages[0].title == title
    for contour in svg.contours(as_bytes("svg", [pages[0]])):
        if not contour.clip:
            assert contour.box()[2] <= box.right + 0.1


def test_a_sheet_without_room_is_refused() -> None:
    """A sheet smaller than its own furniture is an error, not an endless pile of pages."""
    with pytest.raises(ValueError, match="leaves no room"):
        tiled(frame(), (60, 60))
