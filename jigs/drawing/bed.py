"""A plate larger than a bed, cut into the fewest pieces that fit and lock into one another.

Cuts one way come first: of all sets of level, or of upright, lines that leave no piece too large,
the fewest pieces, then the least harm, by dynamic programming over the millimetres. Only where that
gives four pieces or more, or none, are cuts of one way themselves cut the other way.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from jigs.drawing.cuts import Cut, Plate, rows
from jigs.drawing.drawing import Drawing, Layer
from jigs.drawing.joint import Joint, Key
from jigs.drawing.keys import ends
from jigs.drawing.matched import Seam, matched
from jigs.drawing.sever import components, severed
from jigs.geometry import Box
from jigs.units import Mm

#: Left round a piece on its bed: clamps and the edge of a sheet (common practice, no source).
MARGIN: Mm = 5.0
#: How much it harms if pieces differ in size, in parts of what a cut word harms.
_UNEVEN = 20.0
#: Of cuts both ways, so many one way are looked at for each place, so far from one another.
_LOOKED_AT = 8
_COARSE: Mm = 4.0
#: No more parts one way are tried when they are cut the other way too.
_MOST_BANDS = 5
_END: list[Cut | None] = [None]
_HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Room:
    """The largest box that a piece may have, whichever way it is turned."""

    width: Mm
    height: Mm

    def takes(self, width: Mm, height: Mm) -> bool:
        """Return whether a box fits, upright or turned."""
        short, long = sorted((width, height))
        least, most = sorted((self.width, self.height))
        return short <= least + _HAIR and long <= most + _HAIR


@dataclass(frozen=True, slots=True)
class Split:
    """A plate in pieces, in the plate's own coordinates."""

    pieces: tuple[Drawing, ...]
    joints: int
    words: tuple[str, ...]
    """Texts that a joint runs through."""
    frame: bool
    """Whether a joint runs through the frame beside the window."""


class Whole(Exception):
    """Why a plate cannot be cut; its message is for people."""


@dataclass(frozen=True, slots=True)
class _Way:
    """Cuts one way, and those of each part between them the other way."""

    pieces: int
    harm: float
    cuts: tuple[Cut, ...]
    inner: tuple[tuple[Cut, ...], ...] = ()

    @property
    def cost(self) -> tuple[int, float]:
        return self.pieces, round(self.harm, 6)


def split(
    drawing: Drawing, room: Room, *, web: Mm, inner: Mm, keep: Sequence[Box] = (),
    window: Box | None = None, fit: Mm = 0.0,
) -> Split:  # fmt: skip
    """Return a drawing's plate in pieces that fit a room; no cut comes into a box to keep.

    `web` and `inner` are the least bridge and inner radius of the material, `fit` the gap across
    a key.

    Raises:
        Whole: it cannot be cut like that.
    """
    plate = Plate.of(drawing, keep, window, web, inner)
    ways = [way for axis in (1, 0) if (way := _one_way(plate, axis, plate.box, room))]
    best = min(ways, key=lambda way: way.cost, default=None)
    if best is None or best.pieces > 3:
        ways += [way for axis in (1, 0) if (way := _two_ways(plate, axis, room))]
        best = min(ways, key=lambda way: way.cost, default=None)
    if best is None:
        raise Whole(_why(plate))
    return _made(drawing, plate, best, room, fit)


def _one_way(
    plate: Plate, axis: int, part: Box, room: Room, keys: Sequence[Key] = (), over: Mm = 0.0
) -> _Way | None:
    """Return the fewest pieces by cuts one way, then those that harm least.

    Of a part between cuts the other way, `keys` are those of these cuts, and `over` what they add
    to the pieces across; then every other millimetre is looked at.
    """
    first, last = ends(part, axis)
    cuts = [
        cut
        for cut in plate.cuts(axis, part, 1 if part == plate.box else 2)
        if all(abs(cut.place - key.at) >= key.knob.head + plate.web for key in keys)
    ]
    places = [*(cut.place for cut in cuts), last]
    lines = list(rows(plate, axis, part))
    # By the number of cuts passed: the best way to the last of them.
    known: dict[int, _Way] = {0: _Way(0, 0.0, ())}
    for k in range(len(places)):
        if k not in known:
            continue
        way, start = known[k], cuts[k - 1] if k else None
        begin = start.place if start else first
        for index, parts in _grown(lines, begin, places[k:], max(room.width, room.height)):
            stop = cuts[k + index] if k + index < len(cuts) else None
            if not _fit(room, parts, (begin, places[k + index]), (start, stop), over):
                continue
            share = (places[k + index] - begin) / (last - first)
            harm = way.harm + _UNEVEN * share**2 + (stop.harm if stop else 0.0)
            found = _Way(way.pieces + len(parts), harm, (*way.cuts, stop) if stop else way.cuts)
            here = known.get(k + index + 1)
            if here is None or found.cost < here.cost:
                known[k + index + 1] = found
    return known.get(len(places))


def _fit(
    room: Room,
    parts: Sequence[tuple[Mm, Mm, Mm]],
    span: tuple[Mm, Mm],
    stops: tuple[Cut | None, Cut | None],
    over: Mm,
) -> bool:
    """Return whether the parts between two cuts fit, with the keys that reach out of them."""
    before = stops[0].before if stops[0] else 0.0
    beyond = stops[1].beyond if stops[1] else 0.0
    return all(
        room.takes(
            wide + over,
            long + before * (low <= span[0] + 1) + beyond * (low + long >= span[1] - 1),
        )
        for wide, low, long in parts
    )


def _grown(
    lines: Sequence[tuple[Mm, list[tuple[Mm, Mm]]]], begin: Mm, places: Sequence[Mm], most: Mm
) -> Iterator[tuple[int, list[tuple[Mm, Mm, Mm]]]]:
    """Yield, for each place up to the most, the parts that lie between a beginning and it.

    A part is how wide it is across, where it begins along, and how long it is.
    """
    # Boxes of the parts so far, and which part each stretch of the last line belongs to.
    boxes: list[list[Mm]] = []
    edge: list[tuple[Mm, Mm, int]] = []
    index = 0
    for at, spans in lines:
        if at < begin:
            continue
        while index < len(places) and places[index] <= at:
            parts = [box for box in boxes if box]
            yield index, [(b - a, low, min(high, places[index]) - low) for a, b, low, high in parts]
            index += 1
        if index == len(places) or places[index] - begin > most + _HAIR:
            return
        edge = _joined(boxes, edge, spans, at, begin)
    while index < len(places):
        parts = [box for box in boxes if box]
        yield index, [(b - a, low, min(high, places[index]) - low) for a, b, low, high in parts]
        index += 1


def _joined(
    boxes: list[list[Mm]], edge: list[tuple[Mm, Mm, int]], spans: Sequence[tuple[Mm, Mm]],
    at: Mm, begin: Mm,
) -> list[tuple[Mm, Mm, int]]:  # fmt: skip
    """Take a line's stretches into the parts they touch; return the line as the new edge."""
    made: list[tuple[Mm, Mm, int]] = []
    low, high = max(at - 0.5, begin), at + 0.5
    for a, b in spans:
        touched = sorted({home for c, d, home in edge if c < b and a < d})
        if not touched:
            boxes.append([a, b, low, high])
            made.append((a, b, len(boxes) - 1))
            continue
        home = touched[0]
        for other in (*touched[1:], -1):
            box = boxes[other] if other >= 0 else [a, b, low, high]
            mine = boxes[home]
            boxes[home] = [
                min(mine[0], box[0]), max(mine[1], box[1]),
                min(mine[2], box[2]), max(mine[3], box[3]),
            ]  # fmt: skip
            if other >= 0:
                boxes[other] = []
                edge = [(c, d, home if k == other else k) for c, d, k in edge]
                made = [(c, d, home if k == other else k) for c, d, k in made]
        made.append((a, b, home))
    return made


def _two_ways(plate: Plate, axis: int, room: Room) -> _Way | None:
    """Return few pieces by as few cuts one way as do, the parts between them cut the other way.

    Of the cuts at about the same place, and of all those, the ones that harm least are looked at.
    """
    first, last = ends(plate.box, axis)
    most = max(room.width, room.height)
    if any(_stays_large(plate, axis, box, room) for box in plate.keep):
        return None
    cuts = plate.cuts(axis, plate.box)
    known: dict[tuple[Mm, Mm], _Way | None] = {}
    for count in range(math.ceil((last - first) / most - _HAIR), _MOST_BANDS + 1):
        stops: list[list[Cut | None]] = [[None]]
        for k in range(1, count):
            low, high = last - (count - k) * most, first + k * most
            stops.append(_few([cut for cut in cuts if low <= cut.place <= high]))
        best: dict[Cut | None, _Way] = {None: _Way(0, 0.0, ())}
        for here in [*stops[1:], _END]:
            best = _next(plate, axis, room, best, here, known)
        if None in best:
            return best[None]
    return None


def _stays_large(plate: Plate, axis: int, kept: Box, room: Room) -> bool:
    """Return whether the piece with a box to keep is too large, however the plate is cut.

    Both ways it goes on to the nearest lines beside the box that may be cut: one way those through
    the whole plate, the other way those between two cuts beside the box.
    """
    box = plate.box
    held = Box(
        max(kept.left, box.left), max(kept.top, box.top),
        min(kept.right, box.right), min(kept.bottom, box.bottom),
    )  # fmt: skip
    if held.width <= 0 or held.height <= 0:
        return False
    sides = []
    for way, part in ((axis, box), (1 - axis, _part(box, axis, *ends(held, axis)))):
        (first, last), (low, high) = ends(box, way), ends(held, way)
        free = plate.free(way, part)
        before = max((place for place in free if place <= low), default=first)
        sides.append(min((place for place in free if place >= high), default=last) - before)
    return not room.takes(*sides)


def _few(cuts: Sequence[Cut]) -> list[Cut | None]:
    """Return the least harmful cuts, no two of them near to one another."""
    found: list[Cut | None] = []
    for cut in sorted(cuts, key=lambda cut: (cut.harm, cut.place)):
        if all(abs(cut.place - one.place) >= _COARSE for one in found if one):
            found.append(cut)
        if len(found) == _LOOKED_AT:
            break
    return found


def _next(
    plate: Plate, axis: int, room: Room, ways: Mapping[Cut | None, _Way],
    stops: Sequence[Cut | None], known: dict[tuple[Mm, Mm], _Way | None],
) -> dict[Cut | None, _Way]:  # fmt: skip
    """Return the best way to each of the next stops, from ways to those before."""
    first, last = ends(plate.box, axis)
    found: dict[Cut | None, _Way] = {}
    for stop in stops:
        for start, way in ways.items():
            begin, end = start.place if start else first, stop.place if stop else last
            if end <= begin:
                continue
            if (begin, end) not in known:
                more = (start.before if start else 0.0) + (stop.beyond if stop else 0.0)
                part = _part(plate.box, axis, begin, end)
                keys = (*(start.keys if start else ()), *(stop.keys if stop else ()))
                known[begin, end] = _one_way(plate, 1 - axis, part, room, keys, more)
            inner = known[begin, end]
            if inner is None:
                continue
            harm = way.harm + inner.harm + (stop.harm if stop else 0.0)
            harm += _UNEVEN * ((end - begin) / (last - first)) ** 2
            cuts = (*way.cuts, stop) if stop else way.cuts
            one = _Way(way.pieces + inner.pieces, harm, cuts, (*way.inner, inner.cuts))
            if stop not in found or one.cost < found[stop].cost:
                found[stop] = one
    return found


def _part(box: Box, axis: int, begin: Mm, end: Mm) -> Box:
    if axis == 0:
        return Box(begin, box.top, end, box.bottom)
    return Box(box.left, begin, box.right, end)


def _made(drawing: Drawing, plate: Plate, way: _Way, room: Room, fit: Mm) -> Split:
    """Return the pieces of a way to cut.

    Raises:
        Whole: a piece is too large after all.
    """
    inner = way.inner or ((),) * (len(way.cuts) + 1)
    rest, pieces = drawing, list[Drawing]()
    seams: list[Seam] = []
    words: list[str] = []
    for index, others in enumerate(inner):
        band = rest
        if index < len(way.cuts):
            band, rest = _severed(rest, way.cuts[index], fit, seams, words)
        for other in others:
            one, band = _severed(band, other, fit, seams, words)
            pieces += components(one)
        pieces += components(band)
    for piece in pieces:
        box = Drawing(piece.shapes(Layer.CUT)).bounds()
        if not room.takes(box.width, box.height):
            raise Whole("its joints would reach beyond the bed")
    cut_words = tuple(dict.fromkeys(words))
    window = plate.window
    frame = window is not None and any(_through(window, seam) for seam in seams)
    return Split(matched(pieces, seams), len(seams), cut_words, frame)


def _severed(
    drawing: Drawing, cut: Cut, fit: Mm, seams: list[Seam], words: list[str]
) -> tuple[Drawing, Drawing]:
    """Return both sides of a cut, and note where it runs and what it runs through."""
    joint = Joint(cut.axis, cut.place, cut.keys, fit)
    halves = severed(drawing, joint)
    seams += [Seam(cut.axis, cut.place, span) for span in halves.spans]
    words += halves.words
    return halves.before, halves.beyond


def _through(window: Box, seam: Seam) -> bool:
    one, two = (window.left, window.right) if seam.axis == 0 else (window.top, window.bottom)
    return one < seam.place < two


def _why(plate: Plate) -> str:
    """Return why a plate has no cut that leaves pieces which fit."""
    if not any(plate.cuts(axis, plate.box) for axis in (0, 1)):
        return "nowhere is there room for a joint clear of its edge, its window and its holes"
    return "no joints clear of the edge that seats and of the window's side by it leave such pieces"
