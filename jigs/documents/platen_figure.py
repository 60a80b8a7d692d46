r"""A platen with garments on it, to scale: outline, centre line, seams, ink, and their distances.

seam  ink   ruler
         |-  .............     cloth of the middle size, light
--+-   +-|1  +--\_____/--+     seam of each size, by pattern and label
  |    | |2  |  .-----.  |
 1 in  | |3  |  | ink |  |--- A 11 in x 9 in
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jigs.documents.label_columns import PITCH, Label, column
from jigs.documents.platen_shown import Ink, Shown
from jigs.drawing.drawing import Anchor, Area, Clip, Drawing, Entity, Layer, Shape, Text
from jigs.drawing.palette import BLACK, BLUE, VERMILION
from jigs.geometry import Affine, Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.locations._location import PLATEN_RIM
from jigs.plan.loading import from_edge
from jigs.units import INCH, Mm, say

LABEL: Mm = 2.0
#: Patterns that tell neighbouring sizes apart without colour.
PATTERNS: tuple[tuple[Mm, ...], ...] = ((), (2.4, 0.8), (0.5, 0.7), (2.4, 0.6, 0.5, 0.6))
_CENTRE = (5.0, 1.0, 0.8, 1.0)
GREY = "#8a8a8a"
_CLOTH, _HEM = "#edf0f2", "#b4bcc2"
#: Cloth shows this far round the platen and the seams.
_ROUND: Mm = 4.0
#: From the platen to the ruler's figures and on to the first distance; above and below it.
_RULER: Mm = 8.5
_BESIDE: Mm = 5.0
_ABOVE: Mm = 5.0
_BELOW: Mm = 11.0
_TICK: Mm = 1.2
#: Ticks of the ruler, and its figures, in units of their own.
_TICKS = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0)
_LEAST_TICK: Mm = 1.2
_LEAST_FIGURE: Mm = 4.0


@dataclass(frozen=True, slots=True)
class _Distance:
    """A distance from an edge of the platen, both in its own place, and what it is called."""

    start: Mm
    end: Mm
    foot: Mm
    """x of what it is the distance of."""
    says: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A load at a scale: how much room it takes, and how it is drawn there."""

    shown: Shown
    scale: float

    @property
    def around(self) -> Box:
        """The platen, seams and ink, in the platen's own place."""
        seams = [one.path.bounds() for one in self.shown.seams]
        return Box.of_all([self.shown.platen, *seams, *(one.box for one in self.shown.inks)])

    @property
    def left(self) -> Mm:
        """Room for distances and ruler."""
        distances = _distances(self.shown)
        return _RULER + sum(_room(one) for one in distances) + _ROUND

    @property
    def right(self) -> Mm:
        """Room for the labels of seams and ink."""
        return _BESIDE + _ROUND + max(width_of(one.words, LABEL) for one in _labels(self.shown))

    @property
    def width(self) -> Mm:
        """Of the whole figure."""
        return self.left + self.around.width / self.scale + self.right

    @property
    def height(self) -> Mm:
        """Of the whole figure."""
        return _ABOVE + self.around.height / self.scale + _BELOW

    def drawn(self, corner: Point) -> list[Entity]:
        """Return the figure with its top left corner at a place."""
        around, scale = self.around, self.scale
        to = Affine.move(-around.left, -around.top).then(Affine.scale(1 / scale))
        to = to.then(Affine.move(corner.x + self.left, corner.y + _ABOVE))
        top, bottom = corner.y + _ABOVE, corner.y + self.height - _BELOW
        x = to.on(Point(around.right, 0.0)).x + _ROUND + _BESIDE
        fitted = _fitted(_labels(self.shown), bottom - top)
        labels = [Label(one.words, to.on(one.at), one.colour) for one in fitted]
        return [
            *_cloth(self.shown, to, around),
            *_platen(self.shown, to, around),
            *_inks(self.shown, to),
            *_seams(self.shown, to),
            *_ruler(self.shown, to),
            *_measured(self.shown, to),
            *column(labels, x, LABEL, top, bottom),
            *_words(self.shown, to, bottom),
            _text(self.shown.top, Point(to.on(Point(0.0, 0.0)).x, corner.y + 2.2), Anchor.MIDDLE),
        ]


def _text(words: str, at: Point, anchor: Anchor = Anchor.START, angle: float = 0.0) -> Text:
    return Text(Layer.NOTE, words, at, LABEL, anchor, angle, colour=BLACK)


def _thin(*points: Point, colour: str = BLACK) -> Shape:
    return Shape(Layer.NOTE, Path.through(points), colour=colour, stroke=0.12)


def _cloth(shown: Shown, to: Affine, around: Box) -> Iterator[Entity]:
    """Yield the garment as far as it shows; what lies on it is outlined."""
    first, *features = (path.moved(to) for path in shown.cloth)
    lines = [Shape(Layer.NOTE, path, colour=_HEM, stroke=0.15) for path in (first, *features)]
    box = Box.around([to.on(corner) for corner in around.corners()]).grown(_ROUND)
    yield Clip(box, Drawing((Area((first,), _CLOTH), *lines)))


def _platen(shown: Shown, to: Affine, around: Box) -> Iterator[Shape]:
    platen = shown.platen
    rim = Path.box(platen.grown(-PLATEN_RIM)).moved(to)
    yield Shape(Layer.NOTE, rim, colour=GREY, stroke=0.12, dashes=(0.4, 1.2))
    yield Shape(Layer.NOTE, Path.box(platen).moved(to), colour=BLACK, stroke=0.5)
    out = Point(0.0, 2.0)
    a, b = to.on(Point(0.0, platen.top)).minus(out), to.on(Point(0.0, platen.bottom)).plus(out)
    yield Shape(Layer.NOTE, Path.through([a, b]), colour=BLACK, stroke=0.15, dashes=_CENTRE)
    if shown.load.aside:
        ends = [to.on(Point(shown.load.aside, y)) for y in (around.top, around.bottom)]
        line = Path.through(ends)
        yield Shape(Layer.NOTE, line, colour=BLUE, stroke=0.15, dashes=_CENTRE)


def _inks(shown: Shown, to: Affine) -> Iterator[Entity]:
    for k, one in enumerate(shown.inks):
        path = Path.box(one.box).moved(to)
        if k == 0 or len(shown.inks) <= len(PATTERNS):
            yield Area((path,), VERMILION, 0.1)
        dashes = PATTERNS[k % len(PATTERNS)]
        yield Shape(Layer.NOTE, path, colour=VERMILION, stroke=0.3, dashes=dashes)


def _seams(shown: Shown, to: Affine) -> Iterator[Entity]:
    for k, one in enumerate(shown.seams):
        dashes = PATTERNS[k % len(PATTERNS)]
        yield Shape(Layer.NOTE, one.path.moved(to), colour=BLUE, stroke=0.3, dashes=dashes)


def _labels(shown: Shown) -> list[Label]:
    seams = [Label(one.says, _end(one.path), BLUE) for one in shown.seams]
    hangs = shown.location.hangs
    inks = [Label(ink_text(one, shown), _corner(one.box, hangs=hangs), VERMILION)
            for one in shown.inks]  # fmt: skip
    return [*seams, *inks]


def ink_text(ink: Ink, shown: Shown) -> str:
    """Return what a box of ink is labelled with: its letter, where there are more, and its size."""
    size = f"{say(ink.box.width, shown.unit)} × {say(ink.box.height, shown.unit)}"
    return f"{ink.letter}: {size}" if len(shown.inks) > 1 else f"ink {size}"


def _end(path: Path) -> Point:
    return max(path.start, path.end)


def _corner(box: Box, *, hangs: bool) -> Point:
    return Point(box.right, box.bottom if hangs else box.top)


def _fitted(labels: Sequence[Label], room: Mm) -> list[Label]:
    """Return as many labels as there is room for, evenly taken from each colour's."""
    most = max(2, int(room / (LABEL * PITCH)))
    if len(labels) <= most:
        return list(labels)
    kept = []
    for colour in (BLUE, VERMILION):
        own = [one for one in labels if one.colour == colour]
        count = max(2, most * len(own) // len(labels))
        step = max(1.0, (len(own) - 1) / (count - 1))
        kept += [own[round(k * step)] for k in range(count) if round(k * step) < len(own)]
    return kept


def _ruler(shown: Shown, to: Affine) -> Iterator[Entity]:
    """Yield a ruler down the platen's left side, from the edge that distances are taken from."""
    unit = INCH if shown.unit == "in" else 10.0
    platen, scale = shown.platen, to.d
    small = next((n for n in _TICKS if n * unit * scale >= _LEAST_TICK), _TICKS[-1]) * unit
    large = next((n for n in (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
                  if n * unit * scale >= _LEAST_FIGURE), 100.0) * unit  # fmt: skip
    from_top = shown.load.edge == "top"

    def at(distance: Mm, out: Mm) -> Point:
        y = distance if from_top else platen.bottom - distance
        return to.on(Point(platen.left, y)).minus(Point(out, 0.0))

    for k in range(int(platen.height / small + 1e-6) + 1):
        yield _thin(at(k * small, 0.0), at(k * small, _TICK))
    for k in range(int(platen.height / large + 1e-6) + 1):
        figure = f"{k * large / (INCH if shown.unit == 'in' else 1.0):g}"
        yield _thin(at(k * large, 0.0), at(k * large, 1.7 * _TICK))
        yield _text(figure, at(k * large, 2.6).plus(Point(0.0, LABEL / 2)), Anchor.END)


def _distances(shown: Shown) -> list[_Distance]:
    """Return the distances from the platen's edge to the seam and to the ink's near side."""
    from_top = shown.load.edge == "top"
    edge = 0.0 if from_top else shown.press.platen_height
    seam = from_edge(shown.load, shown.press)
    ends: dict[Mm, Mm] = {}
    for ink in shown.inks:
        y = round(ink.box.top if from_top else ink.box.bottom, 3)
        ends[y] = min(ink.box.left, ends.get(y, ink.box.left))
    most = sorted(ends)
    found = [_Distance(edge, shown.load.level, shown.load.aside,
                       f"seam {say(abs(seam), shown.unit)}")]  # fmt: skip
    found += [
        _Distance(edge, y, ends[y], f"ink {say(abs(y - edge), shown.unit)}")
        for y in dict.fromkeys((most[0], most[-1]))
    ]
    return [one for one in found if abs(one.end - one.start) > 1e-6]


def _room(one: _Distance) -> Mm:
    return width_of(one.says, LABEL) + 3.5


def _measured(shown: Shown, to: Affine) -> Iterator[Entity]:
    """Yield the distances left of the ruler, one beside the other, led to what they measure."""
    x = to.on(Point(shown.platen.left, 0.0)).x - _RULER
    for one in _distances(shown):
        start, end = (to.on(Point(0.0, y)).y for y in (one.start, one.end))
        foot = to.on(Point(one.foot, 0.0)).x
        yield _thin(Point(x - _TICK, end), Point(foot, end), colour=GREY)
        yield _thin(Point(x - _TICK, start), Point(x + _TICK, start))
        yield _thin(Point(x - _TICK, end), Point(x + _TICK, end))
        yield _thin(Point(x, start), Point(x, end))
        level = (start + end) / 2 + LABEL / 2
        yield _text(one.says, Point(x - 1.2, level), Anchor.END)
        x -= _room(one)


def _words(shown: Shown, to: Affine, bottom: Mm) -> Iterator[Entity]:
    """Yield below the platen what is on either side, and what the line in its middle is."""
    x = to.on(Point(0.0, 0.0)).x
    left, right = shown.location.seen.sides
    yield _text(f"← {left}", Point(x - 2.0, bottom + _ROUND + 2.4), Anchor.END)
    yield _text(f"{right} →", Point(x + 2.0, bottom + _ROUND + 2.4))
    both = "platen's centre line" if shown.load.aside else f"{shown.middle} on the platen's"
    yield _text(both, Point(x, bottom + _ROUND + 6.2), Anchor.MIDDLE)
