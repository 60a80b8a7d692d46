"""A line of text as single strokes, for a laser or a pen that knows no font.

The letters stand in `strokes.toml`, which says how they are written down. A letter with marks
is composed from its base and its marks by Unicode's canonical decomposition (UAX #15), so that
`ň` needs no form of its own. The file is read when the first line is written.
"""

import math
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from itertools import pairwise
from typing import Any

from jigs.geometry.path import Path, Segment
from jigs.geometry.point import Affine, Box, Point, distance
from jigs.geometry.segments import Arc, Line
from jigs.units import Mm

#: Shorter than this, in grid units, is no side at all.
_NOTHING = 1e-6


@dataclass(frozen=True, slots=True)
class Written:
    """A line of text: its strokes, baseline at y = 0 from x = 0; its width; what has no letter.

    A round letter's stroke ends where it started. Each character of `missing` stands there once
    and is drawn as a box wherever it occurs.
    """

    paths: tuple[Path, ...]
    width: Mm
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Form:
    """A letter in grid units, y down: its strokes, where its room starts and how wide that is."""

    paths: tuple[Path, ...]
    left: float
    right: float

    @property
    def box(self) -> Box:
        return Box.of_all(path.bounds() for path in self.paths)


@lru_cache(maxsize=4096)
def written(text: str, height: Mm) -> Written:
    """Return a line of text whose capitals are `height` high, in single strokes.

    Control characters and line ends are written as a space, invisible format characters not at
    all, and a character without a letter form as a box.

    Raises:
        ValueError: the height is not a positive length.
    """
    scale = _scale(height)
    paths: list[Path] = []
    missing: dict[str, None] = {}
    pen = 0.0
    for sign in _signs(text):
        form = _form(sign)
        if form is None:
            missing[sign] = None
            form = _box()
        place = Affine.move(pen - form.left, 0).then(Affine.scale(scale))
        paths += [path.moved(place) for path in form.paths]
        pen += form.right - form.left
    return Written(tuple(paths), pen * scale, tuple(missing))


def width_of(text: str, height: Mm) -> Mm:
    """Return the width that a line of text takes up; nothing is drawn for it.

    Raises:
        ValueError: the height is not a positive length.
    """
    return _advance(text) * _scale(height)


def ink_box(text: str, height: Mm) -> Box | None:
    """Return the box of a line of text's strokes, baseline at y = 0 from x = 0; None if of spaces.

    Nothing is drawn for it.

    Raises:
        ValueError: the height is not a positive length.
    """
    scale = _scale(height)
    box = _ink(text)
    if box is None:
        return None
    return Box(box.left * scale, box.top * scale, box.right * scale, box.bottom * scale)


@lru_cache(maxsize=4096)
def _ink(text: str) -> Box | None:
    boxes = []
    pen = 0.0
    for sign in _signs(text):
        form = _form(sign) or _box()
        box = _form_box(sign)
        if box is not None:
            across = pen - form.left
            boxes.append(Box(box.left + across, box.top, box.right + across, box.bottom))
        pen += form.right - form.left
    return Box.of_all(boxes) if boxes else None


@cache
def _form_box(sign: str) -> Box | None:
    form = _form(sign) or _box()
    return form.box if form.paths else None


@lru_cache(maxsize=4096)
def _advance(text: str) -> float:
    forms = ((_form(sign) or _box()) for sign in _signs(text))
    return sum(form.right - form.left for form in forms)


def _scale(height: Mm) -> float:
    if not (math.isfinite(height) and height > 0):
        raise ValueError(f"letters cannot be {height} high")
    return height / float(_sheet()["grid"]["capital"])


def _signs(text: str) -> Iterator[str]:
    """Return the text's characters, each with the combining marks that follow it."""
    sign = ""
    for char in unicodedata.normalize("NFC", text):
        kind = unicodedata.category(char)
        if kind == "Cf" or "\ufe00" <= char <= "\ufe0f":
            # Joiners, direction marks, soft hyphens and variation selectors have no shape.
            continue
        if kind in {"Mn", "Me", "Mc"} and sign not in {"", " "}:
            sign += char
            continue
        if sign:
            yield sign
        sign = " " if kind in {"Cc", "Zs", "Zl", "Zp"} else char
    if sign:
        yield sign


@cache
def _sheet() -> dict[str, Any]:
    """Return what stands in `strokes.toml`, the letters still as text."""
    import tomllib

    text = resources.files("jigs.geometry").joinpath("strokes.toml").read_text(encoding="utf-8")
    sheet = tomllib.loads(text)
    sheet["same"] = {twin: letter for row in sheet["same"].values() for twin, letter in row.split()}
    return sheet


@cache
def _form(sign: str) -> _Form | None:
    """Return a character's form: drawn, borrowed, or composed; None if there is none."""
    sheet = _sheet()
    if sign == " ":
        return _Form((), 0.0, sheet["grid"]["space"])
    if sign in sheet["letters"]:
        return _drawn(sheet["letters"][sign])
    if sign in sheet["same"]:
        return _form(sheet["same"][sign])
    base, *marks = tuple(sheet["spelled"].get(sign) or unicodedata.normalize("NFD", sign))
    if not marks or any(mark not in sheet["marks"] for mark in marks):
        return None
    return _composed(sheet["same"].get(base, base), marks)


@cache
def _box() -> _Form:
    return _drawn(_sheet()["grid"]["unknown"])


def _drawn(spec: str) -> _Form:
    """Return the form that a line of [letters] describes."""
    bearings, _, strokes = spec.partition(" ")
    before, after = (_sheet()["bearings"][side] for side in bearings)
    form = _Form(tuple(_strokes(strokes)), 0.0, 0.0)
    return _Form(form.paths, form.box.left - before, form.box.right + after)


def _composed(base: str, marks: Sequence[str]) -> _Form | None:
    """Return a letter with its marks, each placed by the kind of mark it is."""
    sheet = _sheet()
    kinds = [sheet["marks"][mark].partition(" ")[0] for mark in marks]
    if "above" in kinds:
        base = sheet["dotless"].get(base, base)
    bare = _form(base)
    if bare is None or not bare.paths:
        return None
    whole, left, right = bare, bare.left, bare.right
    for mark, kind in zip(marks, kinds, strict=True):
        strokes = tuple(_strokes(sheet["marks"][mark].partition(" ")[2]))
        at = Affine.move(*_anchor(base, bare, whole, kind))
        placed = _Form(tuple(path.moved(at) for path in strokes), 0.0, 0.0)
        clear = sheet["grid"]["clear"]
        left = min(left, placed.box.left - clear)
        right = max(right, placed.box.right + clear)
        whole = _Form(whole.paths + placed.paths, left, right)
    return whole


def _anchor(base: str, bare: _Form, whole: _Form, kind: str) -> Point:
    """Return where a mark's origin comes to lie on a letter, which may carry marks already."""
    box = bare.box
    given = _sheet()["anchors"].get(base, {})
    if kind == "above":
        return Point(given.get("above", box.centre.x), whole.box.top - _sheet()["grid"]["gap"])
    if kind == "below":
        return Point(given.get("below", box.centre.x), box.bottom)
    if kind == "foot":
        return Point(given.get("foot", box.right), 0.0)
    if kind == "after":
        return Point(box.right, box.top)
    return Point(box.left, box.top)


def _strokes(text: str) -> Iterator[Path]:
    """Return the strokes of a letter's description."""
    for stroke in text.split("|"):
        words = stroke.split()
        if words[0].startswith("="):
            yield from _borrowed(*words)
        elif "@" in stroke:
            centre, _, radius = words[0].partition("@")
            yield Path.circle(_point(centre), float(radius))
        else:
            yield _path(words)


def _borrowed(what: str, where: str) -> Iterable[Path]:
    """Return the strokes of another letter, scaled and put to a place."""
    letter, _, factor = what[1:].rpartition("*")
    form = _form(letter)
    if form is None:
        raise ValueError(f"no letter {letter!r} to borrow from")
    place = Affine.scale(float(factor)).then(Affine.move(*_point(where)))
    return [path.moved(place) for path in form.paths]


def _point(text: str) -> Point:
    x, y = text.split(",")
    return Point(float(x), -float(y))


def _path(words: Sequence[str]) -> Path:
    """Return the path through corners, each rounded as its word says."""
    corners = [_point(word.partition("~")[0]) for word in words]
    cuts = _cuts(words, corners)
    chain: list[tuple[Point, float]] = []
    for k, corner in enumerate(corners):
        before, after = cuts[k]
        if before <= 0:
            chain.append((corner, 0.0))
            continue
        start = corner.plus(corners[k - 1].minus(corner).unit().times(before))
        end = corner.plus(corners[k + 1].minus(corner).unit().times(after))
        chain += [*_rounding(start, corner, end), (end, 0.0)]
    kept = chain[:1]
    for point, bulge in chain[1:]:
        if distance(kept[-1][0], point) > _NOTHING:
            kept.append((point, bulge))
        else:
            kept[-1] = (kept[-1][0], bulge)
    # The last corner itself, not a computed neighbour, so that a round letter closes exactly.
    kept[-1] = (corners[-1], 0.0)
    segments: list[Segment] = [
        Arc(a, b, bulge) if bulge else Line(a, b) for (a, bulge), (b, _) in pairwise(kept)
    ]
    return Path(tuple(segments))


def _cuts(words: Sequence[str], corners: Sequence[Point]) -> list[tuple[float, float]]:
    """Return how far before and after each corner its rounding reaches, as the words ask."""
    asked = [_asked(word) for word in words]
    found = [[0.0, 0.0] for _ in words]
    for k, (a, b) in enumerate(pairwise(corners)):
        length, out, into = distance(a, b), asked[k][1], asked[k + 1][0]
        if out is None:
            out = length / 2 if into is None else length - into
        into = length - out if into is None else into
        if out + into > length + _NOTHING or min(out, into) < 0:
            raise ValueError(f"no room to round between {words[k]} and {words[k + 1]}")
        found[k][1], found[k + 1][0] = out, into
    return [(before, after) for before, after in found]


def _asked(word: str) -> tuple[float | None, float | None]:
    """Return the cuts that a corner's word asks for; None is as far as there is room."""
    _, tilde, sizes = word.partition("~")
    if not tilde:
        return 0.0, 0.0
    before, colon, after = sizes.partition(":")
    if not colon:
        after = before
    return (float(before) if before else None, float(after) if after else None)


def _rounding(start: Point, corner: Point, end: Point) -> list[tuple[Point, float]]:
    """Return the arcs around a corner as points, each with the bulge of the arc from it.

    Unequal cuts ask for a piece of an ellipse; it is drawn by two arcs, which no eye tells from
    it: more would make every file that carries text larger and no letter rounder.
    """
    before, after = distance(start, corner), distance(corner, end)
    into, out = corner.minus(start).unit(), end.minus(corner).unit()
    if abs(before - after) < _NOTHING:
        return [(start, _bulge(into, out))]
    return _biarc(start, corner, end)


def _biarc(start: Point, corner: Point, end: Point) -> list[tuple[Point, float]]:
    """Return the two arcs around a corner that meet smoothly, as `_rounding` does.

    Of the many pairs this is the one whose four tangents are equally long, d: they meet in the
    middle of the side of 2d between the points d from either end.
    """
    before, after = distance(start, corner), distance(corner, end)
    into, out = corner.minus(start).unit(), end.minus(corner).unit()
    # |two - one| = 2d, with one = start + d into and two = end - d out, is a quadratic in d.
    c = into.dot(out)
    p, q = (before + after) * (1 + c), 2 * (1 - c)
    chord = before**2 + after**2 + 2 * before * after * c
    d = (math.sqrt(p * p + q * chord) - p) / q
    one, two = start.plus(into.times(d)), end.minus(out.times(d))
    side = two.minus(one).unit()
    return [(start, _bulge(into, side)), (one.plus(two).times(0.5), _bulge(side, out))]


def _bulge(into: Point, out: Point) -> float:
    """Return the bulge of the arc that turns from one direction into another."""
    return math.tan(math.atan2(into.cross(out), into.dot(out)) / 4)
