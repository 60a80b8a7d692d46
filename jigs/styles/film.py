r"""Film: a clear sheet that is laid on by eye, with a seam line for every size of one width.

 ______________________
| \ \ --S         S-- / / |   seam lines, each with its name at both ends: that of the size lies
|  \ \ --M     M-- / /  |   on the seam, the centre line on the garment's centre
|   `.`.___ ___.'.'   |
|     `---.|.---'     |
|    words |          |
|   _______|_______   |
|  |  .    |    .  |  |   box: filled by the trimmed transfer, which is slid under the sheet
|  |       |       |  |   corners in it: the ink
|  |  '    |    '  |  |
|  |_______|_______|  |
|__________|__________|
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from jigs.drawing.drawing import Anchor, Drawing, Entity, Layer, Shape, Text
from jigs.drawing.lower import text_box
from jigs.geometry import Box, Path, Point
from jigs.geometry.strokes import width_of
from jigs.styles._film_words import LARGE, MARGIN, SMALL, Ground, room, words
from jigs.styles._labels import End, Label, above, inwards, meets, outwards, row
from jigs.styles._lettering import fitted, height_needed
from jigs.styles._plate import HOLE, OUTER, tick
from jigs.styles._seams import dashes, strokes
from jigs.styles._style import Style
from jigs.template import SeamLine, Template
from jigs.units import Mm

#: The sheet goes on this far beyond what is engraved.
_EDGE: Mm = 7.0
#: Beyond a straight seam: so much of the garment shows on its other side.
_OVER: Mm = 14.0
#: No sheet is narrower.
_LEAST: Mm = 100.0
#: Ticks at the middles of the transfer's sides; its name stands beyond them.
_TICK: Mm = 4.0
_NAME: Mm = 2.4
#: Arms of the ink's corners, and what they leave free at the corner itself.
_ARM: Mm = 8.0
_OFF: Mm = 0.4
#: Less carrier round the ink has no room for lines of its own.
_TRIM: Mm = 1.0
#: Centre lines of several sizes begin so far before their seam, and end so far past the transfer.
_BEFORE: Mm = 8.0
_PAST: Mm = 9.0
_ROW: Mm = 9.0
_CLEAR: Mm = 1.0
#: Names whose leaders are longer do not tell lines apart: then the other side's have to do.
_LONGEST: Mm = 50.0
#: No shorter stretch of a broken centre line is drawn.
_SHORT: Mm = 6.0


@dataclass(frozen=True, slots=True)
class _Seam:
    """A seam line that is drawn once, for one or more sizes."""

    path: Path
    name: str
    dashed: bool


@dataclass(frozen=True, slots=True)
class _Centre:
    """A centre line, and how far down its sizes' seams lie there."""

    x: Mm
    level: Mm
    name: str
    dashed: bool


def objection(_template: Template) -> str | None:
    """Return None: a film of any print can be drawn."""
    return None


def draw(template: Template) -> Drawing:
    """Return the sheet and its marks."""
    t = template
    seams, centres = _seams(t), _centres(t)
    curves = [seam.path.points() for seam in seams]
    ends = _end_labels(t, seams, curves)
    uprights = _centre_labels(t, centres)
    boxes = [*_transfer(t), *_ink(t)]
    labels = [*ends, *uprights]
    marks: list[Entity] = [
        *(stroke for one in _stroked(seams) for stroke in one),
        *boxes,
        *(part for label in labels for part in (label.leader, label.text)),
    ]
    plate = _around(t, marks, curves)
    taken = [t.carrier, *_boxes(marks)]
    ground = Ground(plate, curves, taken, (centres[0].x, centres[-1].x))
    said, plate = _words(t, ground)
    marks += said
    hole, plate = _hole(plate, HOLE + t.web, [t.carrier, *_boxes(marks)], curves)
    texts = [text_box(mark) for mark in marks if isinstance(mark, Text)]
    entities: list[Entity] = [
        Shape(Layer.CUT, Path.box(plate, OUTER)),
        Shape(Layer.CUT, Path.circle(hole, HOLE)),
        *_uprights(t, centres, plate, texts),
        *marks,
    ]
    return Drawing(tuple(entities))


def _ordered(template: Template) -> list[tuple[SeamLine, bool]]:
    """Return the lines from the narrowest, every other one dashed."""

    def key(line: SeamLine) -> tuple[float, float, float]:
        box = line.path.bounds()
        return round(box.width, 3), round(box.bottom, 3), line.centre

    return [(line, bool(k % 2)) for k, line in enumerate(sorted(template.seams, key=key))]


def _seams(template: Template) -> list[_Seam]:
    """Return the seam lines to draw: those that are the same are one."""
    found: dict[Path, list[tuple[SeamLine, bool]]] = {}
    for line, dashed in _ordered(template):
        found.setdefault(line.path, []).append((line, dashed))
    if len(found) == 1:
        return [_Seam(path, _all(template), dashed=False) for path in found]
    return [
        _Seam(path, ", ".join(line.name for line, _ in lines), lines[0][1])
        for path, lines in found.items()
    ]


def _all(template: Template) -> str:
    """Return what a line of all sizes is called."""
    one = template.seams[0]
    return one.name if len(template.seams) == len(one.keys) == 1 else "every size"


def _centres(template: Template) -> list[_Centre]:
    """Return the centre lines to draw, from left to right: those that are the same are one."""
    found: dict[float, list[tuple[SeamLine, bool]]] = {}
    for line, dashed in _ordered(template):
        found.setdefault(round(line.centre, 2), []).append((line, dashed))
    t = template
    made = []
    for lines in found.values():
        levels = [t.ink.top - one.drop if t.hangs else t.ink.bottom + one.drop for one, _ in lines]
        level = min(levels) if t.hangs else max(levels)
        name = ", ".join(one.name for one, _ in lines)
        made.append(_Centre(lines[0][0].centre, level, name, lines[0][1] and len(found) > 1))
    return sorted(made, key=lambda one: one.x)


def _stroked(seams: Sequence[_Seam]) -> list[list[Shape]]:
    return strokes([seam.path for seam in seams], [seam.dashed for seam in seams])


def _end_labels(
    template: Template, seams: Sequence[_Seam], curves: Sequence[Sequence[Point]]
) -> list[Label]:
    """Return the names at both ends of the seam lines, or at one, where the other has no room."""
    made: list[Label] = []
    for side in (1, -1):
        ends = [End(s.path.end if side > 0 else s.path.start, s.name) for s in seams]
        tried = [outwards(ends, side, curves)]
        if template.curved:
            tried += [inwards(ends, side, curves, made), above(ends, curves, made)]
        able = [one for one in tried if one and _longest(one) <= _LONGEST]
        if able:
            made += min(able, key=_longest)
    if not made:
        ends = [End(seam.path.end, seam.name) for seam in seams]
        made += outwards(ends, 1, curves, anyhow=True) or []
    return made


def _longest(labels: Iterable[Label]) -> Mm:
    """Return the length of the longest leader."""
    return max(label.leader.path.length() for label in labels)


def _centre_labels(template: Template, centres: Sequence[_Centre]) -> list[Label]:
    """Return the names of several centre lines, in a row past the transfer."""
    if len(centres) == 1:
        return []
    far, sign = _far(template)
    ends = [End(Point(one.x, far + sign * _PAST), one.name) for one in centres]
    return row(ends, far + sign * (_PAST + _ROW))


def _far(template: Template) -> tuple[Mm, int]:
    """Return the y of the transfer's side away from the seam, and which way is on from it."""
    if template.hangs:
        return template.carrier.bottom, 1
    return template.carrier.top, -1


def _transfer(template: Template) -> Iterator[Entity]:
    """Yield the box that the trimmed transfer fills, its middles and its name."""
    box = template.carrier
    x, y = box.centre
    yield Shape(Layer.ENGRAVE, Path.box(box))
    yield tick(Point(x, box.top - _TICK), Point(x, box.top))
    yield tick(Point(x, box.bottom), Point(x, box.bottom + _TICK))
    yield tick(Point(box.left - _TICK, y), Point(box.left, y))
    yield tick(Point(box.right, y), Point(box.right + _TICK, y))
    far, sign = _far(template)
    # The letters' middle is beyond the ticks, whichever way that is.
    baseline = far + sign * (_TICK + 1.0 + _NAME / 2) + _NAME / 2
    yield Text(Layer.ENGRAVE, "trimmed transfer", Point(box.left, baseline), _NAME)


def _ink(template: Template) -> Iterator[Entity]:
    """Yield the corners of the ink, and its name where it has room between them."""
    box = template.ink
    if box.left - template.carrier.left < _TRIM:
        return
    along, down = (min(_ARM, 0.3 * side) for side in (box.width, box.height))
    for corner in box.corners():
        x, y = corner
        right, below = (1 if x == box.left else -1), (1 if y == box.top else -1)
        yield tick(Point(x + right * _OFF, y), Point(x + right * along, y))
        yield tick(Point(x, y + below * _OFF), Point(x, y + below * down))
    wide = width_of("ink", _NAME)
    if box.width > 2 * (_ARM + wide + 2 * _CLEAR) and box.height > 4 * _NAME:
        at = Point(box.left + _ARM + _CLEAR, box.top + _NAME / 2)
        yield Text(Layer.ENGRAVE, "ink", at, _NAME, Anchor.START)


def _boxes(marks: Sequence[Entity]) -> list[Box]:
    """Return the room of marks; a seam's own is not a box, and is minded by its curve."""
    found = []
    for mark in marks:
        if isinstance(mark, Text):
            found.append(text_box(mark))
        elif isinstance(mark, Shape) and len(mark.path.segments) == 1 and _straight(mark):
            found.append(mark.path.bounds())
    return found


def _straight(mark: Shape) -> bool:
    return mark.path.points() == [mark.path.start, mark.path.end]


def _around(template: Template, marks: Sequence[Entity], curves: Sequence[Sequence[Point]]) -> Box:
    """Return the sheet round all marks, as far as they are known before the words."""
    boxes = [text_box(mark) for mark in marks if isinstance(mark, Text)]
    boxes += [mark.path.bounds() for mark in marks if isinstance(mark, Shape)]
    box = Box.of_all([*boxes, *(Box.around(curve) for curve in curves)]).grown(_EDGE)
    if not template.curved:
        levels = [curve[0].y for curve in curves]
        if template.hangs:
            box = replace(box, top=min(box.top, min(levels) - _OVER))
        else:
            box = replace(box, bottom=max(box.bottom, max(levels) + _OVER))
    more = max(0.0, _LEAST - box.width) / 2
    return replace(box, left=box.left - more, right=box.right + more)


def _words(template: Template, ground: Ground) -> tuple[list[Text], Box]:
    """Return what the film says, and the sheet, longer where there is no room for it."""
    lines, plate = words(template), ground.plate
    found = room(template, lines, ground)
    if found:
        return fitted(lines, *found), plate
    left, right = plate.left + MARGIN, plate.right - MARGIN
    size = (SMALL + LARGE) / 2
    high = height_needed(lines, right - left, size)
    if template.hangs:
        # The sheet's own edge is room too.
        box = Box(left, plate.bottom - _EDGE / 2, right, plate.bottom - _EDGE / 2 + high)
        longer = replace(plate, bottom=box.bottom + MARGIN)
    else:
        box = Box(left, plate.top + _EDGE / 2 - high, right, plate.top + _EDGE / 2)
        longer = replace(plate, top=box.top - MARGIN)
    return fitted(lines, box, size), longer


def _hole(
    plate: Box, inset: Mm, taken: Sequence[Box], curves: Sequence[Sequence[Point]]
) -> tuple[Point, Box]:
    """Return where the hanging hole is: in a corner; the sheet is higher if all are taken."""
    corners = plate.grown(-inset).corners()
    for at in (corners[1], corners[0], corners[2], corners[3]):
        box = Box.around((at,)).grown(HOLE + 2 * _CLEAR)
        lines = any(meets(box, c, d) for curve in curves for c, d in pairwise(curve))
        if not lines and not any(one.overlaps(box) for one in taken):
            return at, plate
    higher = replace(plate, top=plate.top - inset - HOLE)
    return Point(higher.right - inset, higher.top + inset), higher


def _uprights(
    template: Template, centres: Sequence[_Centre], plate: Box, texts: Sequence[Box]
) -> Iterator[Shape]:
    """Yield the centre lines, broken where words are; those of several sizes are shorter."""
    far, sign = _far(template)
    for one in centres:
        ends = plate.top, plate.bottom
        if len(centres) > 1:
            near, past = one.level - sign * _BEFORE, far + sign * _PAST
            ends = min(near, past), max(near, past)
        for start, end in _broken(one.x, ends, texts):
            for a, b in dashes(start, end) if one.dashed else [(start, end)]:
                yield tick(Point(one.x, a), Point(one.x, b))


def _broken(x: Mm, ends: tuple[Mm, Mm], texts: Sequence[Box]) -> Iterator[tuple[Mm, Mm]]:
    """Yield the stretches of an upright line that no words stand on."""
    start = ends[0]
    on = sorted(
        (box.top - _CLEAR, box.bottom + _CLEAR)
        for box in texts
        if box.left - _CLEAR < x < box.right + _CLEAR
    )
    for top, bottom in [*on, (ends[1], ends[1])]:
        end = min(top, ends[1])
        if end - start >= _SHORT:
            yield start, end
        start = max(start, bottom)


STYLE = Style(
    title="film",
    says="a clear sheet laid on by eye, with a seam line for every size; marks and no opening",
    draw=draw,
    objection=objection,
    touch=False,
    material="polyester-film",
)
