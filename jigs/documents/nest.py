"""The graded nest of a size table: all its sizes drawn over one another, to one scale.

The front's half and the back's stand side by side, aligned at the HPS level and the centre line;
a sleeve, pocket or hood lies beside them, each aligned at its own top and centre line.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.documents.label_columns import Label, column, wrapped
from jigs.documents.panel_lines import Rests, lines, origin, rests_on, right_half
from jigs.drawing import palette
from jigs.drawing.drawing import Anchor, Drawing, Entity, Layer, Page, Shape, Text
from jigs.geometry import Affine, Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.plan.sizes import Sized
from jigs.tables.measure import Origin
from jigs.tables.table import SizeTable
from jigs.units import INCH, Mm

#: A landscape A3 sheet (ISO 216).
_WIDTH: Mm = 420.0
_HEIGHT: Mm = 297.0
_EDGE: Mm = 10.0
_SCALES = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10)
_TITLE: Mm = 5.0
_NOTE: Mm = 2.6
_SIZE: Mm = 2.4
#: Room between panels, for the column of sizes beside each.
_ROOM: Mm = 8.0
_GAP: Mm = 8.0
_HEAD: Mm = 38.0
_FOOT: Mm = 25.0
_INK = "#222222"
_FAINT = "#9a9a9a"
_MIRROR = Affine.scale(-1, 1)
#: Sizes next to each other differ in both; a pattern shows where a line rests on an estimate.
_COLOURS = (palette.BLACK, palette.VERMILION, palette.BLUE, palette.GREEN)
_PATTERNS = ((2.4, 0.9), (1.0, 0.8), (3.0, 0.8, 0.6, 0.8))
_WEIGHTS = {Origin.MEASURED: 0.5, Origin.GIVEN: 0.25, Origin.ESTIMATED: 0.2}
_ORIGINS = (Origin.MEASURED, Origin.GIVEN, Origin.ESTIMATED)


@dataclass(frozen=True, slots=True)
class _Look:
    colour: str
    dashes: tuple[Mm, ...]


@dataclass(frozen=True, slots=True)
class _Panel:
    """One panel's right half in every size, at the page's scale, its own top centre at (0, 0)."""

    title: str
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...]
    box: Box


def nest_page(table: SizeTable, sizes: Sequence[Sized]) -> Page:
    """Return the nest of a table's sizes, each completed and drawn."""
    rests = rests_on(table.cut, sizes[len(sizes) // 2].plan.measures)
    names = [one.plan.measures.size for one in sizes]
    room = _ROOM + max(width_of(name, _SIZE) for name in names)
    beside = [name for name in sizes[0].flat.panels if name not in {"front", "back"}]
    tall = _HEIGHT - _HEAD - _FOOT - _GAP
    for scale in _SCALES:
        front, back, *others = (
            _panel(name, sizes, rests, scale) for name in ("front", "back", *beside)
        )
        columns = _stacked(others, tall)
        wide = front.box.width + back.box.width + 2 * room
        wide += sum(_GAP + room + max(one.box.width for one in column) for column in columns)
        if wide <= _WIDTH - 2 * _EDGE and max(front.box.height, back.box.height) <= tall:
            break
    free = (_WIDTH - 2 * _EDGE - wide) / (1 + len(columns))
    x = _EDGE + free / 2 + room + front.box.width
    drawing = Drawing(tuple(_head(table, names, scale))).plus(
        _body(front, back, Point(x, _HEAD), sizes[0]), _foot(sizes, scale)
    )
    x += back.box.width + room + _GAP + free
    for one in columns:
        y = _HEAD
        for panel in one:
            drawing = drawing.plus(_beside(panel, Point(x, y)))
            y += panel.box.height + 2 * _GAP
        x += max(panel.box.width for panel in one) + room + _GAP + free
    says = f"{table.title}: {len(sizes)} sizes over one another, scale 1:{scale:g}"
    return Page(_WIDTH, _HEIGHT, drawing, f"{table.title}: graded nest", says)


def _stacked(panels: Sequence[_Panel], tall: Mm) -> list[list[_Panel]]:
    """Return panels in columns, one below another as long as there is height."""
    columns: list[list[_Panel]] = []
    for panel in panels:
        used = sum(one.box.height + 2 * _GAP for one in columns[-1]) if columns else tall
        if used + panel.box.height <= tall:
            columns[-1].append(panel)
        else:
            columns.append([panel])
    return columns


def _looks(count: int) -> list[_Look]:
    return [_Look(_COLOURS[k % len(_COLOURS)], _PATTERNS[k % len(_PATTERNS)]) for k in range(count)]


def _panel(name: str, sizes: Sequence[Sized], rests: Rests, scale: float) -> _Panel:
    shapes: list[Shape] = []
    ends: list[list[Point]] = []
    for one, look in zip(sizes, _looks(len(sizes)), strict=True):
        panel = one.flat.panels[name]
        # A pocket lies low on the front: it is aligned at its own top, as a sleeve is.
        top = 0.0 if name in {"front", "back"} else panel.outline.bounds().top
        to_page = Affine.move(0.0, -top).then(Affine.scale(1 / scale))
        reach: list[Point] = []
        for k, (edge, points) in enumerate(zip(lines(panel), rests[name], strict=True)):
            known = origin(points, one.plan.measures)
            weight = _WEIGHTS[known] * (1.0 if k < len(panel.edges) else 0.6)
            dashes = look.dashes if known is Origin.ESTIMATED else ()
            for part in right_half(edge.path):
                path = part.moved(to_page)
                shapes.append(
                    Shape(Layer.NOTE, path, colour=look.colour, stroke=weight, dashes=dashes)
                )
                reach += [path.start, path.end]
        ends.append(reach)
    # The corner farthest out and down, the same in every size: there the sizes lie apart.
    far = [sum(_far(p) for p in corners) for corners in zip(*ends, strict=True)]
    labels = tuple(
        Label(one.plan.measures.size, reach[far.index(max(far))], look.colour)
        for one, reach, look in zip(sizes, ends, _looks(len(sizes)), strict=True)
    )
    box = Box.of_all(shape.path.bounds() for shape in shapes)
    whole = sizes[0].flat.panels[name].outline.bounds().left >= 0
    title = name if whole else f"half the {name}"
    return _Panel(title, tuple(shapes), labels, Box(0.0, 0.0, box.right, box.bottom))


def _far(p: Point) -> float:
    return p.x + 0.7 * p.y


def _body(front: _Panel, back: _Panel, at: Point, one: Sized) -> Iterator[Entity]:
    """Yield the front's half on the left and the back's on the right of their centre line."""
    low = max(front.box.bottom, back.box.bottom)
    left, right = at.x - front.box.right, at.x + back.box.right
    level = next((name for name, p in one.flat.landmarks.items() if p.y == 0), "")
    for a, b in (
        (Point(left - 2, at.y), Point(right + 2, at.y)),
        (Point(at.x, at.y - 4), Point(at.x, at.y + low + 4)),
    ):
        yield Shape(Layer.NOTE, Path.through([a, b]), colour=_FAINT, stroke=0.1)
    yield Text(
        Layer.NOTE, f"{level} level" if level == "HPS" else level, Point(right + 3, at.y + 0.8),
        2.0, colour=_INK,
    )  # fmt: skip
    yield Text(Layer.NOTE, "centre line", Point(at.x, at.y + low + 7.5), 2.0, Anchor.MIDDLE,
               colour=_INK)  # fmt: skip
    for panel, mirrored in ((front, True), (back, False)):
        to_page = (_MIRROR if mirrored else Affine()).then(Affine.move(at.x, at.y))
        yield from _drawn(panel, to_page, left=mirrored)
        middle = to_page.on(Point(panel.box.right / 2, 0.0))
        yield _titled(panel.title, Point(middle.x, at.y - 5))


def _beside(panel: _Panel, at: Point) -> Iterator[Entity]:
    yield from _drawn(panel, Affine.move(at.x, at.y), left=False)
    fold = Path.through([Point(at.x, at.y - 2), Point(at.x, at.y + panel.box.bottom + 2)])
    yield Shape(Layer.NOTE, fold, colour=_FAINT, stroke=0.1)
    yield _titled(panel.title, Point(at.x + panel.box.right / 2, at.y - 5))


def _drawn(panel: _Panel, to_page: Affine, *, left: bool) -> Iterator[Entity]:
    for shape in panel.shapes:
        yield Shape(
            shape.layer, shape.path.moved(to_page), colour=shape.colour, stroke=shape.stroke,
            dashes=shape.dashes,
        )  # fmt: skip
    edge = to_page.on(Point(panel.box.right + _ROOM - 2, 0.0))
    labels = [Label(one.words, to_page.on(one.at), one.colour) for one in panel.labels]
    yield from column(
        labels, edge.x, _SIZE, edge.y, edge.y + panel.box.bottom + _GAP, left=left
    )  # fmt: skip


def _titled(words: str, at: Point) -> Text:
    return Text(Layer.NOTE, words, at, 3.2, Anchor.MIDDLE, colour=_INK)


def _head(table: SizeTable, names: Sequence[str], scale: float) -> Iterator[Entity]:
    """Yield the title, and a sample of each size's lines."""
    says = f"{table.title}: graded nest · scale 1:{scale:g}"
    yield Text(Layer.NOTE, says, Point(_EDGE, _EDGE + _TITLE), _TITLE, colour=_INK)
    step = (_WIDTH - 2 * _EDGE) / len(names)
    y = _EDGE + 2 * _TITLE + 2
    for k, (name, look) in enumerate(zip(names, _looks(len(names)), strict=True)):
        x = _EDGE + k * step
        for start, weight, dashes in (
            (x, _WEIGHTS[Origin.GIVEN], ()),
            (x + 8, _WEIGHTS[Origin.ESTIMATED], look.dashes),
        ):
            sample = Path.through([Point(start, y), Point(start + 7.5, y)])
            yield Shape(Layer.NOTE, sample, colour=look.colour, stroke=weight, dashes=dashes)
        yield Text(Layer.NOTE, name, Point(x + 17, y + 1.3), _NOTE, colour=look.colour)


def _foot(sizes: Sequence[Sized], scale: float) -> Iterator[Entity]:
    """Yield what the lines mean, which lengths are known how, and the bar."""
    known = _origins(sizes)
    says = "rests on lengths that are given (heavy: all measured) · broken line: rests on an"
    lines = [f"solid line: {says} estimate too"]
    for one in _ORIGINS:
        points = [f"{point.replace('_', ' ')}," for point, found in known.items() if one in found]
        if points:
            lines += wrapped([f"{one.value}:", *points[:-1], points[-1].rstrip(",")], 150)
    y = _HEIGHT - _EDGE - (len(lines) - 1) * _NOTE * 1.6
    for line in lines:
        yield Text(Layer.NOTE, line, Point(_EDGE, y), _NOTE * 0.9, colour=_INK)
        y += _NOTE * 1.6
    yield from _bar(scale, _HEIGHT - _EDGE)


def _origins(sizes: Sequence[Sized]) -> dict[str, set[Origin]]:
    found: dict[str, set[Origin]] = {}
    for one in sizes:
        for point, measure in one.plan.measures.values.items():
            found.setdefault(point, set()).add(measure.origin)
    return found


def _bar(scale: float, y: Mm) -> Iterator[Entity]:
    """Yield a bar as long as 100 mm of the garment above one as long as 4 in."""
    for words, length, up in (("100 mm", 100.0, 6.0), ("4 in", 4 * INCH, 0.0)):
        right = _WIDTH - _EDGE - 16
        a, b = Point(right - length / scale, y - up), Point(right, y - up)
        ends = [Path.through([Point(p.x, p.y - 1), Point(p.x, p.y + 1)]) for p in (a, b)]
        for path in (Path.through([a, b]), *ends):
            yield Shape(Layer.NOTE, path, colour=_INK, stroke=0.25)
        yield Text(Layer.NOTE, words, Point(right + 2, y - up + 1), _NOTE * 0.9, colour=_INK)
