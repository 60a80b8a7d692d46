"""Marks on the surface: on the material, words off its edges, and nothing under words."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.lower import strokes, text_box
from jigs.geometry import Box
from jigs.rules.outlines import flat
from jigs.rules.violation import SLACK, Facts, Violation
from jigs.units import Mm

#: Words keep this far from every cut edge; a tick may run up to one (common practice, no source).
CLEAR: Mm = 0.5
#: Strokes nearer to one another than this are one letter.
_TOUCH: Mm = 0.02
#: A stroke that reaches farther than this, corner to corner, is a line: no letter of a jig is so
#: large, and lines that cross one another would pass for one huge letter.
_LETTER: Mm = 13.0
#: Boxes of letters that share no more than this across are side by side.
_SHARE: Mm = 0.05
_MARKED = (Layer.ENGRAVE, Layer.SCORE)


@dataclass(frozen=True, slots=True)
class _Mark:
    """A word or a line: what it is called, what it covers, whether it is lettering."""

    name: str
    shape: Any
    lettering: bool


def mark_faults(drawing: Drawing, material: Any, facts: Facts) -> Iterator[Violation]:
    """Yield marks beyond the material or over its edge, and words under words or lines."""
    import shapely

    marks = _grouped(drawing) if facts.grouped else _marks(drawing)
    if not marks:
        return
    edges = material.boundary
    shapely.prepare(material)
    grown = material.buffer(SLACK, quad_segs=2)
    shapely.prepare(grown)
    for mark in marks:
        if not grown.covers(mark.shape):
            outside = mark.shape.difference(grown)
            says = f"{mark.name} runs over a cut edge or beyond the plate"
            yield Violation("mark on the plate", says, _box(outside))
        elif mark.lettering:
            gap = float(edges.distance(mark.shape))
            if gap < CLEAR - SLACK:
                says = f"{mark.name} is {gap:.2f} mm from a cut edge, less than {CLEAR:g} mm"
                yield Violation("mark on the plate", says, _box(mark.shape))
    yield from _overlaps(marks, within=facts.grouped)


def _overlaps(marks: Sequence[_Mark], *, within: bool) -> Iterator[Violation]:
    """Yield what lies under lettering; `within`: a stroke inside a letter is its own, as in 0."""
    import shapely

    shapes = [mark.shape for mark in marks]
    tree = shapely.STRtree(shapes)
    words = [k for k, mark in enumerate(marks) if mark.lettering]
    pairs = (
        (one, other)
        for one in words
        for other in sorted(tree.query(shapes[one], predicate="intersects").tolist())
    )
    for one, other in pairs:
        # Two words are found twice, a word and a line once.
        if one == other or (marks[other].lettering and other < one):
            continue
        if within and marks[other].lettering and _in_either(shapes[one], shapes[other]):
            continue
        shared = shapes[one].intersection(shapes[other])
        box = _box(shared)
        thin = min(box.width, box.height) if marks[other].lettering else max(box.width, box.height)
        if thin > _SHARE:
            says = f"{marks[one].name} and {marks[other].name} share {_shared(box)}"
            yield Violation("marks apart", says, box)


def _in_either(one: Any, other: Any) -> bool:
    return bool(one.covers(other) or other.covers(one))


def _shared(box: Box) -> str:
    return f"{box.width:.2f} × {box.height:.2f} mm"


def _marks(drawing: Drawing) -> list[_Mark]:
    """Return texts by the boxes of their strokes, and lines as they are."""
    found = []
    for entity in drawing.on(*_MARKED):
        if isinstance(entity, Text):
            if entity.string.strip():
                found.append(_Mark(f"the text {entity.string!r}", _covered(entity), lettering=True))
        elif isinstance(entity, Shape):
            found.append(_line(entity))
    return found


def _covered(text: Text) -> Any:
    """Return the box of a text's strokes; that of one turned askew is turned with it."""
    import shapely

    if text.angle % 90 == 0:
        box = text_box(text)
        return shapely.box(box.left, box.top, box.right, box.bottom)
    points = [p for stroke in strokes(text) for p in flat(stroke.path)]
    return shapely.MultiPoint(points).minimum_rotated_rectangle


def _line(shape: Shape) -> _Mark:
    import shapely

    name = "a score line" if shape.layer is Layer.SCORE else "an engraved line"
    return _Mark(name, shapely.LineString(flat(shape.path)), lettering=False)


def _grouped(drawing: Drawing) -> list[_Mark]:
    """Return letters, each of the strokes that touch, and the lines that touch no others.

    Long strokes are lines, whatever they touch. Strokes that all lie along one upright or level
    line are a line, such as ticks end to end.
    """
    import shapely

    lines = [_line(shape) for shape in drawing.shapes(*_MARKED)]
    if not lines:
        return []
    shapes = [line.shape for line in lines]
    tree = shapely.STRtree(shapes)
    long = [k for k, one in enumerate(shapes) if _reach(one) > _LETTER]
    left = set(range(len(lines))) - set(long)
    groups: list[list[int]] = []
    while left:
        group = [min(left)]
        left.discard(group[0])
        for one in group:
            if not left:
                break
            near = tree.query(shapes[one], predicate="dwithin", distance=_TOUCH).tolist()
            fresh = sorted(left.intersection(near))
            left.difference_update(fresh)
            group += fresh
        groups.append(group)
    found = [lines[k] for k in long]
    for group in groups:
        together = shapely.union_all([shapes[k] for k in group])
        box = _box(together)
        if min(box.width, box.height) < _SHARE:
            found += [lines[k] for k in group]
        else:
            # The boxes of a slanting stroke and its neighbours may overlap; their hulls do not.
            found.append(_Mark("an engraved mark", together.convex_hull, lettering=True))
    return found


def _reach(shape: Any) -> Mm:
    box = _box(shape)
    return math.hypot(box.width, box.height)


def _box(shape: Any) -> Box:
    return Box(*shape.bounds)
