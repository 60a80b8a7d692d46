"""One size of a garment as it is drawn: its panels and landmarks, and where prints may go.

Above, every panel large, with the names of its landmarks on the left and of its lines on the
right; round each line a band as wide as its plus-minus. Below, one small panel for each location,
its printable zone shaded.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.documents.label_columns import PITCH, Label, column
from jigs.documents.panel_lines import lines, origin, rests_on
from jigs.documents.zones import zones
from jigs.drawing import palette
from jigs.drawing.drawing import Anchor, Drawing, Entity, Layer, Page, Shape, Text
from jigs.garments import Edge, Flat, Panel
from jigs.geometry import Affine, Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.locations import LOCATIONS, lacks
from jigs.order.order import Press
from jigs.plan.sizes import Sized
from jigs.tables.measure import Origin
from jigs.tables.table import SizeTable
from jigs.units import Mm, say

#: A landscape A3 sheet (ISO 216).
_WIDTH: Mm = 420.0
_HEIGHT: Mm = 297.0
_EDGE: Mm = 10.0
_SCALES = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20)
_TITLE: Mm = 5.0
_NAME: Mm = 3.0
_LABEL: Mm = 1.9
_HEAD: Mm = 27.0
#: Above each panel: its name, and labels that stand a little higher than it.
_ABOVE: Mm = 9.0
_ROOM: Mm = 5.0
_GAP: Mm = 4.0
#: The panels take up to this much of the height, the locations the rest.
_PANELS: Mm = 150.0
_INK = "#222222"
_BANDS = {True: "#f6dcc6", False: "#e3e3e3"}
_WORDS = {"in": "inches", "mm": "millimetres"}
_BROKEN = (1.6, 0.9)
_CROSS: Mm = 1.1


@dataclass(frozen=True, slots=True)
class _Line:
    edge: Edge
    feature: bool
    estimated: bool


@dataclass(frozen=True, slots=True)
class _Shown:
    """A panel with what is marked and named on it, full size."""

    name: str
    lines: tuple[_Line, ...]
    box: Box
    marks: tuple[Point, ...]
    landmarks: tuple[Label, ...]
    """Named on the left."""
    names: tuple[Label, ...]
    """Named on the right."""

    @property
    def left(self) -> Mm:
        """Width of the labels on the left, with their leaders."""
        return _labels_width(self.landmarks)

    @property
    def right(self) -> Mm:
        """Width of the labels on the right, with their leaders."""
        return _labels_width(self.names)

    def high(self, scale: float) -> Mm:
        """Return the height that the panel takes at a scale."""
        most = max(len(self.landmarks), len(self.names))
        return _ABOVE + max(self.box.height / scale + 4, _LABEL * PITCH * most)


def _labels_width(labels: Sequence[Label]) -> Mm:
    return _ROOM + max(width_of(one.words, _LABEL) for one in labels) if labels else 0.0


def block_page(table: SizeTable, one: Sized, unit: str) -> Page:
    """Return the picture of one size of a table."""
    known = rests_on(one.plan.cut, one.plan.measures)
    panels = {
        name: [
            _Line(
                edge,
                k >= len(panel.edges),
                origin(points, one.plan.measures) is Origin.ESTIMATED,
            )
            for k, (edge, points) in enumerate(zip(lines(panel), known[name], strict=True))
        ]
        for name, panel in one.flat.panels.items()
    }
    large, drawing, y = _panels(one, panels, unit)
    room = Box(_EDGE, y, _WIDTH - _EDGE, _HEIGHT - _EDGE - 4)
    small_zones, small = zones(one.flat, room, unit)
    title = f"{table.title}, size {one.plan.measures.size}"
    drawing = drawing.plus(_head(title, large, unit), small_zones, _foot(unit))
    says = f"Panels with landmarks, scale 1:{large:g}; printable zones, scale 1:{small:g}"
    return Page(_WIDTH, _HEIGHT, drawing, f"{title}: block and printable zones", says)


def _head(title: str, scale: float, unit: str) -> Iterator[Entity]:
    says = f"{title}: block and printable zones"
    yield Text(Layer.NOTE, says, Point(_EDGE, _EDGE + _TITLE), _TITLE, colour=_INK)
    y = _EDGE + 2 * _TITLE + 1.5
    says = f"panels, scale 1:{scale:g}; ± in {_WORDS[unit]}"
    yield Text(Layer.NOTE, says, Point(_EDGE, y), _NAME, colour=_INK)


def _foot(unit: str) -> Iterator[Entity]:
    platen = " by ".join(say(mm, unit) for mm in (Press().platen_width, Press().platen_height))
    says = (
        "solid line: rests on lengths that are given or measured · broken line, ochre band: rests "
        "on an estimate too · a band is as wide as the ± on either side · shaded: where a print "
        f"may lie, on a platen of {platen}; square to: largest square print, and what "
        "stops it"
    )
    at = Point(_EDGE, _HEIGHT - _EDGE + 2)
    yield Text(Layer.NOTE, says, at, _LABEL, colour=_INK)


def _panels(one: Sized, panels: dict[str, list[_Line]], unit: str) -> tuple[float, Drawing, Mm]:
    """Return the scale of the panels, their drawing, and where it ends."""
    named: set[tuple[str, Point]] = set()
    every = [_shown(one.flat, name, found, unit, named) for name, found in panels.items()]
    for scale in _SCALES:
        columns = _stacked(every, scale)
        wide = sum(_breadth(each, scale) for each in columns)
        tall = max(_depth(each, scale) for each in columns)
        if wide + _GAP * len(columns) <= _WIDTH - 2 * _EDGE and tall <= _PANELS - _HEAD:
            break
    gap = (_WIDTH - 2 * _EDGE - wide) / len(columns)
    drawing, x = Drawing(), _EDGE + gap / 2
    for each in columns:
        y, x = _HEAD, x + max(shown.left for shown in each)
        for shown in each:
            drawing = drawing.plus(_large(shown, scale, Point(x, y + _ABOVE)))
            y += shown.high(scale)
        x += max(shown.box.width / scale + shown.right for shown in each) + gap
    return scale, drawing, _HEAD + tall + 6


def _shown(
    flat: Flat, name: str, found: Sequence[_Line], unit: str, named: set[tuple[str, Point]]
) -> _Shown:
    """Return a panel with the labels that no panel before it has, and note them as named."""
    marks, words = _landmarks(flat, name, unit), _line_labels(found, unit)
    fresh_marks, fresh = (
        [one for one in labels if (one.words, one.at) not in named] for labels in (marks, words)
    )
    named |= {(one.words, one.at) for one in (*marks, *words)}
    body = name in {"front", "back"}
    if not body:
        # A seam that is a landmark too is named once.
        named_marks = {one.words for one in fresh_marks}
        fresh = [one for one in fresh if one.words not in named_marks]
    return _Shown(
        name, tuple(found), flat.panels[name].outline.bounds(), tuple(one.at for one in marks),
        tuple(fresh_marks) if body else (), tuple(fresh if body else [*fresh_marks, *fresh]),
    )  # fmt: skip


def _stacked(shown: Sequence[_Shown], scale: float) -> list[list[_Shown]]:
    """Return panels in columns: front, back, then the others below one another where they fit."""
    columns: list[list[_Shown]] = []
    for one in shown:
        beside = len(columns) > 2
        if beside and _depth(columns[-1], scale) + one.high(scale) <= _PANELS - _HEAD:
            columns[-1].append(one)
        else:
            columns.append([one])
    return columns


def _breadth(panels: Sequence[_Shown], scale: float) -> Mm:
    widest = max(one.box.width / scale + one.right for one in panels)
    return max(one.left for one in panels) + widest


def _depth(panels: Sequence[_Shown], scale: float) -> Mm:
    return sum(one.high(scale) for one in panels)


def _large(one: _Shown, scale: float, at: Point) -> Iterator[Entity]:
    """Yield a panel, its top left corner at a point of the page, with its labels."""
    to_page = (
        Affine.move(-one.box.left, -one.box.top)
        .then(Affine.scale(1 / scale))
        .then(Affine.move(at.x, at.y))
    )
    for line in one.lines:
        if line.edge.plus_minus:
            yield Shape(
                Layer.NOTE, line.edge.path.moved(to_page), colour=_BANDS[line.estimated],
                stroke=2 * line.edge.plus_minus / scale,
            )  # fmt: skip
    for line in one.lines:
        yield Shape(
            Layer.NOTE, line.edge.path.moved(to_page), colour=palette.BLACK,
            stroke=0.18 if line.feature else 0.3, dashes=_BROKEN if line.estimated else (),
        )  # fmt: skip
    for p in one.marks:
        yield from _cross(to_page.on(p))
    end = at.x + one.box.width / scale
    low = at.y + one.high(scale) - _ABOVE
    yield from column(
        _moved(one.landmarks, to_page), at.x - _ROOM, _LABEL, at.y - 3, low, left=True
    )
    yield from column(_moved(one.names, to_page), end + _ROOM, _LABEL, at.y - 3, low)
    yield Text(Layer.NOTE, one.name, Point((at.x + end) / 2, at.y - 4.5), _NAME, Anchor.MIDDLE,
               colour=_INK)  # fmt: skip


def _cross(p: Point) -> Iterator[Shape]:
    for dy in (_CROSS, -_CROSS):
        path = Path.through([Point(p.x - _CROSS, p.y - dy), Point(p.x + _CROSS, p.y + dy)])
        yield Shape(Layer.NOTE, path, colour=palette.VERMILION, stroke=0.3)


def _landmarks(flat: Flat, panel: str, unit: str) -> list[Label]:
    """Return the landmarks of a panel: those on its lines, and those a location on it names."""
    named = {
        name
        for _, one in LOCATIONS
        if one.panel == panel and not lacks(one, flat)
        for name in (one.datum, *one.needs)
    }
    symmetric = flat.panels[panel].outline.bounds().left < 0
    return [
        # On the right half a panel's lines are named, so a landmark is marked on the other side.
        Label(_with_spread(name, flat.spread.get(name, 0.0), unit),
              Point(-p.x, p.y) if symmetric else p)
        for name, p in flat.landmarks.items()
        if name in named or _lies_on(p, flat.panels[panel])
    ]  # fmt: skip


def _lies_on(p: Point, panel: Panel) -> bool:
    return any(
        p in {segment.a, segment.b, segment.at(0.5)}
        for edge in lines(panel)
        for segment in edge.path.segments
    )


def _line_labels(found: Sequence[_Line], unit: str) -> list[Label]:
    """Return the names of a panel's lines, each at a point of its right half."""
    labels: dict[str, Label] = {}
    for one in found:
        at = max(_points(one.edge.path), key=lambda p: p.x) if one.feature else _middle(one.edge)
        if one.edge.name not in labels or at.x > labels[one.edge.name].at.x:
            words = _with_spread(one.edge.name, one.edge.plus_minus, unit)
            labels[one.edge.name] = Label(words, at)
    return list(labels.values())


def _points(path: Path) -> list[Point]:
    return [segment.at(t) for segment in path.segments for t in (0.25, 0.5, 0.75)]


def _middle(edge: Edge) -> Point:
    """Return the middle of an edge's right half."""
    right = [p for p in _points(edge.path) if p.x >= 0] or _points(edge.path)
    return right[len(right) // 2]


def _with_spread(name: str, plus_minus: Mm, unit: str) -> str:
    """Return a name with its plus-minus, without the unit, which stands above."""
    return f"{name} ± {say(plus_minus, unit).removesuffix(f' {unit}')}" if plus_minus else name


def _moved(labels: Sequence[Label], to_page: Affine) -> list[Label]:
    return [Label(one.words, to_page.on(one.at), one.colour) for one in labels]
