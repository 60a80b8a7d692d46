"""The platen map at 1:1, to be laid on the cold platen or cut as a card: only what matters."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from jigs.documents.captions import broken
from jigs.documents.label_columns import PITCH, Label, column
from jigs.documents.platen_figure import GREY, PATTERNS
from jigs.documents.platen_shown import Shown
from jigs.documents.platen_words import seam_text
from jigs.drawing.drawing import Anchor, Drawing, Entity, Layer, Shape, Text
from jigs.drawing.lower import text_box
from jigs.drawing.palette import BLACK, BLUE, VERMILION
from jigs.geometry import Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.units import Mm, say

_LABEL: Mm = 2.5
#: Arms of the corner marks.
_ARM: Mm = 25.0
_OUT: Mm = 8.0
#: How wide words are below a seam, and at the foot: narrow, so that few pages part them.
_BELOW: Mm = 45.0
_FOOT: Mm = 80.0
_STEP: Mm = PITCH * _LABEL
_COLD = "lay it on the cold platen only, and take it off before the press is heated"
_LINE: Mm = 0.2
_CENTRE = (12.0, 2.0, 2.0, 2.0)


def full_size(shown: Shown) -> Drawing:
    """Return the platen's corners, its centre line, the seams and the ink, with their names."""
    drawn = Drawing((*_platen(shown), *_seams(shown), *_inks(shown)))
    words = (_seam_words(shown), _seam_labels(shown), _ink_labels(shown), _foot(shown))
    bounds = drawn.bounds()
    return drawn.plus(*(part for one in words for part in (one, _held(one, bounds))))


def _line(*points: Point, colour: str, dashes: tuple[Mm, ...] = ()) -> Shape:
    return Shape(Layer.NOTE, Path.through(points), colour=colour, stroke=_LINE, dashes=dashes)


def _words(words: str, at: Point, anchor: Anchor = Anchor.START, colour: str = BLACK) -> Text:
    return Text(Layer.NOTE, words, at, _LABEL, anchor, colour=colour)


def _platen(shown: Shown) -> Iterator[Entity]:
    platen, aside = shown.platen, shown.load.aside
    arm = min(_ARM, 0.2 * platen.width, 0.2 * platen.height)
    for corner in platen.corners():
        x, y = (-arm if corner.x > 0 else arm), (-arm if corner.y > platen.centre.y else arm)
        ends = Point(corner.x + x, corner.y), corner, Point(corner.x, corner.y + y)
        yield _line(*ends, colour=BLACK)
    yield _line(Point(0.0, platen.top), Point(0.0, platen.bottom), colour=BLACK, dashes=_CENTRE)
    if aside:
        ends_of_it = (min(platen.top, shown.load.level), max(platen.bottom, shown.load.level))
        top, bottom = (Point(aside, y) for y in ends_of_it)
        yield _line(top, bottom, colour=BLUE, dashes=_CENTRE)


def _foot(shown: Shown) -> list[Text]:
    """Return what is on either side and what to mind: on the platen if there is room."""
    platen, unit, level = shown.platen, shown.unit, shown.load.level
    size = f"platen {say(platen.width, unit)} × {say(platen.height, unit)}"
    says = f"{size} · ↑ {shown.top} · {_COLD}"
    # A hem has its own words below it.
    busy = max(_ink(shown).bottom, 0.0 if shown.location.hangs else level + 5 * _STEP)
    x, room = platen.left + _OUT, platen.width / 2 - _OUT - 2.0
    lines = broken(says, _LABEL, _FOOT)
    y = platen.bottom - (len(lines) + 1.5) * _STEP - _OUT
    if room < _FOOT or busy > y:
        x, y = platen.left, max(platen.bottom, busy)
    y += _STEP
    left, right = shown.location.seen.sides
    foot = [_words(f"← {left}", Point(-2.0, y), Anchor.END), _words(f"{right} →", Point(2.0, y))]
    for k, line in enumerate(lines):
        foot.append(_words(line, Point(x, y + (k + 1.5) * _STEP)))
    return foot


def _held(texts: Sequence[Entity], inside: Box) -> list[Shape]:
    """Return a frame round words that reach beyond all lines: a page ends where the lines do."""
    boxes = [text_box(one) for one in texts if isinstance(one, Text)]
    if all(inside.holds(box) for box in boxes):
        return []
    frame = Path.box(Box.of_all(boxes).grown(1.0))
    return [Shape(Layer.NOTE, frame, colour=GREY, stroke=0.1)]


def _seams(shown: Shown) -> Iterator[Shape]:
    for k, one in enumerate(shown.seams):
        dashes = PATTERNS[k % len(PATTERNS)]
        yield Shape(Layer.NOTE, one.path, colour=BLUE, stroke=2 * _LINE, dashes=dashes)


def _seam_words(shown: Shown) -> list[Text]:
    """Return where the seam lies, below it and beside the centre line."""
    load = shown.load
    says = f"{load.seam} {seam_text(shown)}"
    lines = broken(f"{shown.middle}, {says}" if load.aside else says, _LABEL, _BELOW)
    x, y = load.aside - 2.0, load.level + 2.5 + _LABEL
    return [
        _words(words, Point(x, y + k * _STEP), Anchor.END, BLUE) for k, words in enumerate(lines)
    ]


def _seam_labels(shown: Shown) -> list[Entity]:
    if not shown.curved:
        return []
    labels = [Label(one.says, max(one.path.start, one.path.end), BLUE) for one in shown.seams]
    x, room = max(one.at.x for one in labels) + _OUT, _STEP * len(labels)
    top = min(one.at.y for one in labels) - room
    return column(labels, x, _LABEL, top, max(top + room, _ink(shown).top - 2))


def _inks(shown: Shown) -> Iterator[Shape]:
    for k, one in enumerate(shown.inks):
        dashes = PATTERNS[k % len(PATTERNS)]
        path = Path.box(one.box)
        yield Shape(Layer.NOTE, path, colour=VERMILION, stroke=2 * _LINE, dashes=dashes)


def _ink_labels(shown: Shown) -> list[Entity]:
    ink, hangs = _ink(shown), shown.location.hangs
    labels = [
        Label(f"{one.letter}: {one.sizes}",
              Point(one.box.right, one.box.bottom if hangs else one.box.top), VERMILION)
        for one in shown.inks
    ]  # fmt: skip
    x, room = ink.right + _OUT, max(ink.height, len(labels) * _STEP)
    if x + max(width_of(one.words, _LABEL) for one in labels) > shown.platen.right:
        # The small map has the sizes of each letter; here they would only ask for more paper.
        labels = [replace(one, words=one.words.partition(":")[0]) for one in labels]
    top = ink.top if hangs else ink.bottom - room
    return column(labels, x, _LABEL, top, top + room)


def _ink(shown: Shown) -> Box:
    return Box.of_all(one.box for one in shown.inks)
