"""A garment as it lies on a table, in its colour: body, sleeves, neck, hood, handles, features.

What a garment has is read off its flat: a hood is drawn where there is a hood's panel, a collar
that folds where the back has one. Only what the flat does not say, such as how a hood falls when it
is drawn up, is drawn by eye. Nothing here is measured on a picture.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from jigs.documents.shades import darker, ink_on, lighter
from jigs.drawing.drawing import Area, Entity, Layer, Shape
from jigs.garments import Edge, Flat, Panel
from jigs.geometry import Affine, Box, Cubic, Line, Path, Point
from jigs.geometry.path import rounded
from jigs.units import Mm

_MIRROR = Affine.scale(-1, 1)
#: The angle at which a sleeve lies beside the body, below the level: short, and past the elbow.
_SHORT, _LONG = math.radians(42), math.radians(74)
#: Width of a collar whose table gives none, and at most a fifth of half the neck.
_RIB: Mm = 18.0
#: Distance of the lines that mark a rib.
_RIB_LINES: Mm = 16.0
_RIBS = frozenset({"hem rib", "cuff"})
#: How far up a hood reaches that is drawn up, as a share of its height, and where it meets the
#: shoulder; how far its opening's edge shows.
_HOOD_UP, _HOOD_OUT, _HOOD_EDGE = 0.75, 0.2, 30.0
#: A bag's handles rise so much above its top edge, as a share of their spread.
_HANDLE_UP = 1.3
_SNAP: Mm = 5.0


@dataclass(frozen=True, slots=True)
class Cloth:
    """The colours a garment is drawn in."""

    main: str
    line: str
    rib: str
    inside: str

    @classmethod
    def of(cls, colour: str) -> "Cloth":
        """Return the colours for a garment's colour: lines show on it, light or dark."""
        light = ink_on(colour) == "#000000"
        return cls(
            main=colour,
            line=darker(colour) if light else lighter(colour, 0.45),
            rib=lighter(colour, 0.08),
            inside=darker(colour, 0.25) if light else lighter(colour, 0.16),
        )


def filled(path: Path, colour: str, line: str) -> list[Entity]:
    """Return an outline filled with a colour."""
    return [Area((path,), colour), Shape(Layer.NOTE, path, colour=line, stroke=0.2)]


def body(flat: Flat, name: str, cloth: Cloth) -> list[Entity]:
    """Return the front or back with its sleeves, its collar and what lies on it."""
    panel = flat.panels[name]
    entities: list[Entity] = []
    for path in _handles(panel):
        entities += _ring_of(path, cloth)
    if "sleeve" in flat.panels:
        for side in (Affine(), _MIRROR):
            entities += _hanging_sleeve(flat, side, cloth)
    if name == "back" and "hood" in flat.panels:
        entities += filled(_hood_up(flat, name), cloth.rib, cloth.line)
    entities += filled(panel.outline, cloth.main, cloth.line)
    for feature in panel.features:
        entities += _feature(feature, cloth)
    for edge in panel.edges:
        if edge.name == "snaps":
            entities += _snaps(edge.path, cloth)
    return [*entities, *_collar(flat, name, cloth)]


def inside_neck(flat: Flat, cloth: Cloth) -> list[Entity]:
    """Return the inside of the back that shows in the neck opening, and the rib behind it."""
    if not _has_neck(flat):
        return []
    seam = flat.panels["back"].edge("collar seam").path
    behind = _hood_opening(flat) if "hood" in flat.panels else None
    opening = behind or _ring(_inner(flat, "front"), _inner(flat, "back"))
    return [
        *filled(opening, cloth.inside, cloth.line),
        Shape(Layer.NOTE, seam, colour=cloth.line),
    ]


def neck_patch(flat: Flat, low: Mm, cloth: Cloth) -> list[Entity]:
    """Return the top of the back's inside, as it lies open for a neck label, down to a level."""
    seam = flat.panels["back"].edge("collar seam").path
    side = seam.end.x + 40.0
    corners = [seam.end, Point(side, 12.0), Point(side, low), Point(-side, low), Point(-side, 12.0)]
    patch = seam.then(Path.through([*corners, seam.start]))
    return [
        *filled(patch, cloth.main, cloth.line),
        *filled(_rib(flat, "back"), cloth.rib, cloth.line),
    ]


def opened(panel: Panel, cloth: Cloth, *, mirrored: bool) -> list[Entity]:
    """Return a sleeve opened flat, or a side of a hood, with what lies on it."""
    side = _MIRROR if mirrored else Affine()
    entities = filled(panel.outline.moved(side), cloth.main, cloth.line)
    for feature in panel.features:
        entities += _feature(replace(feature, path=feature.path.moved(side)), cloth)
    return entities


def _has_neck(flat: Flat) -> bool:
    return any(edge.name == "collar seam" for edge in flat.panels["back"].edges)


def _feature(feature: Edge, cloth: Cloth) -> list[Entity]:
    """Return what lies on a panel; a hood at rest only as where it would hang."""
    path = feature.path
    if feature.name == "hood at rest":
        return [Shape(Layer.NOTE, path, dashed=True, colour=cloth.line, stroke=0.25)]
    if not path.closed:
        return [Shape(Layer.NOTE, path, colour=cloth.line, stroke=0.2)]
    if feature.name in _RIBS:
        return _ribbed(cloth, *path.points()[:4])
    entities = filled(path, cloth.rib, cloth.line)
    if feature.name == "zip":
        box = path.bounds()
        middle = [Point(box.centre.x, box.top), Point(box.centre.x, box.bottom)]
        teeth = Path.through(middle)
        entities.append(Shape(Layer.NOTE, teeth, dashed=True, colour=cloth.line, stroke=0.4))
    return entities


def _ribbed(cloth: Cloth, a: Point, b: Point, c: Point, d: Point) -> list[Entity]:
    """Return the band between the sides a-b and d-c, with the lines of its rib across."""
    entities = filled(Path.through([a, b, c, d], closed=True), cloth.rib, cloth.line)
    count = max(2, round(Line(a, b).length() / _RIB_LINES))
    for k in range(1, count):
        across = Path.through([Line(a, b).at(k / count), Line(d, c).at(k / count)])
        entities.append(Shape(Layer.NOTE, across, colour=cloth.line, stroke=0.08))
    return entities


def _hanging_sleeve(flat: Flat, side: Affine, cloth: Cloth) -> Iterator[Entity]:
    """Yield a sleeve as it lies beside the body, folded, with its cuff."""
    panel = flat.panels["sleeve"]
    end = panel.edge("underarm seam").path.end
    length, opening = flat.measures.mm("sleeve_length"), flat.measures.mm("sleeve_opening")
    shoulder, underarm = flat.landmarks["shoulder point"], flat.landmarks["underarm"]
    angle = _LONG if "elbow" in flat.landmarks else _SHORT
    along = Point(math.cos(angle), math.sin(angle))

    def lies(across: Mm, down: Mm) -> Point:
        return shoulder.plus(along.times(down)).plus(along.quarter().times(across))

    outer, inner, gathered = lies(0.0, length), lies(opening, length), lies(end.x, end.y)
    # It goes on under the body, whose armhole seam then shows as its end.
    inside = 0.6 * shoulder.x
    under = (Point(inside, underarm.y), Point(inside, shoulder.y))
    bend = () if end.y == length else (gathered,)
    path = Path.through([shoulder, outer, inner, *bend, underarm, *under], closed=True)
    yield from filled(path.moved(side), cloth.main, cloth.line)
    if bend:
        corners = (lies(0.0, end.y), gathered, inner, outer)
        yield from _ribbed(cloth, *(side.on(p) for p in corners))


def _collar(flat: Flat, name: str, cloth: Cloth) -> Iterator[Entity]:
    """Yield a collar's band; a hood drawn up, or the leaves of a collar that folds, instead."""
    if not _has_neck(flat):
        return
    if "hood" in flat.panels:
        if name == "front":
            hood, opening = _hood_up(flat, name), _hood_opening(flat)
            yield Area((hood, opening), cloth.rib)
            for path in (hood, opening):
                yield Shape(Layer.NOTE, path, colour=cloth.line, stroke=0.2)
        return
    folds = any(one.name == "folded collar" for one in flat.panels["back"].features)
    # Where a collar folds, this is its stand, which shows between the leaves.
    yield from filled(_rib(flat, name), cloth.rib, cloth.line)
    if folds and name == "front":
        leaf = _leaf(flat)
        for side in (Affine(), _MIRROR):
            yield from filled(leaf.moved(side), cloth.rib, cloth.line)


def _leaf(flat: Flat) -> Path:
    """Return the wearer's left leaf of a collar that folds over its stand."""
    fold = _inner(flat, "front")
    middle = next(s.a for s in fold.segments if s.a.x == 0)
    half = Path(fold.segments[[s.a for s in fold.segments].index(middle) :])
    hps, shoulder = flat.landmarks["HPS"], flat.landmarks["shoulder point"]
    out = hps.plus(shoulder.minus(hps).unit().times(0.35 * hps.x))
    tip = Point(0.7 * hps.x, middle.y + 0.55 * hps.x)
    return half.then(Path.through([half.end, out, tip, middle]))


def _rib(flat: Flat, panel: str) -> Path:
    """Return the collar's band, from its seam to its inner edge."""
    return _ring(flat.panels[panel].edge("collar seam").path, _inner(flat, panel))


def _ring(one: Path, two: Path) -> Path:
    """Return the outline between two curves that run the same way, joined where they end apart."""
    back = two.reversed()
    parts = [one, _across(one.end, back.start), back, _across(back.end, one.start)]
    return Path(tuple(s for part in parts if part is not None for s in part.segments))


def _inner(flat: Flat, panel: str) -> Path:
    """Return the collar's inner edge: the seam drawn in and raised by the width of the rib."""
    seam = flat.panels[panel].edge("collar seam").path
    half = seam.end.x
    known = "rib_width" in flat.measures
    rib = min(flat.measures.mm("rib_width"), half / 3) if known else min(_RIB, half / 5)
    return seam.moved(Affine.scale((half - rib) / half, 1.0).then(Affine.move(0.0, -rib)))


def _across(a: Point, b: Point) -> Path | None:
    return None if a == b else Path((Line(a, b),))


def _hood_up(flat: Flat, name: str) -> Path:
    """Return a hood drawn up, from the collar seam over the top."""
    seam = flat.panels[name].edge("collar seam").path
    box = flat.panels["hood"].outline.bounds()
    hps, shoulder = flat.landmarks["HPS"], flat.landmarks["shoulder point"]
    out = hps.plus(shoulder.minus(hps).times(_HOOD_OUT))
    top = -_HOOD_UP * box.height
    side = Cubic(out, Point(1.15 * out.x, 0.75 * top), Point(0.75 * out.x, top), Point(0.0, top))
    right = Path((Line(seam.end, out), side))
    return seam.then(right, right.moved(_MIRROR).reversed())


def _hood_opening(flat: Flat) -> Path:
    """Return the opening of a hood drawn up: from the collar seam's middle to under its top."""
    low = flat.landmarks["front collar"].y
    wide = flat.landmarks["HPS"].x
    top = -_HOOD_UP * flat.panels["hood"].outline.bounds().height + _HOOD_EDGE
    bottom, peak = Point(0.0, low), Point(0.0, top)
    lower = Cubic(
        bottom, Point(0.7 * wide, 0.75 * low), Point(wide, 0.3 * low), Point(wide, top / 3)
    )
    upper = Cubic(lower.b, Point(wide, 0.75 * top), Point(0.6 * wide, top), peak)
    right = Path((lower, upper))
    return right.then(right.moved(_MIRROR).reversed())


def _handles(panel: Panel) -> Iterator[tuple[Path, Path]]:
    """Yield the outer and inner edge of a bag's handle, a loop above the top edge."""
    boxes = [one.path.bounds() for one in panel.features if one.name == "handle"]
    if not boxes:
        return
    left, right = min(b.left for b in boxes), max(b.right for b in boxes)
    strap = boxes[0].width
    rise = _HANDLE_UP * (right - left)
    yield (
        _loop(Box(left, -rise, right, 0.0)),
        _loop(Box(left + strap, strap - rise, right - strap, 0.0)),
    )


def _loop(box: Box) -> Path:
    return rounded(box.corners(), (0.5 * box.width - 1.0, 0.5 * box.width - 1.0, 0.0, 0.0))


def _ring_of(paths: Sequence[Path], cloth: Cloth) -> Iterator[Entity]:
    yield Area(tuple(paths), cloth.rib)
    for path in paths:
        yield Shape(Layer.NOTE, path, colour=cloth.line, stroke=0.2)


def _snaps(edge: Path, cloth: Cloth) -> Iterator[Entity]:
    """Yield three snaps just above an edge."""
    box = edge.bounds()
    for share in (0.2, 0.5, 0.8):
        centre = Point(box.left + share * box.width, box.bottom - 2 * _SNAP)
        yield from filled(Path.circle(centre, _SNAP), cloth.rib, cloth.line)
