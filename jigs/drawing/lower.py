"""A page rewritten into what a format can hold.

What is held stays the very same value. Text becomes single strokes; a cubic becomes arcs where
there are arcs, else lines; an arc becomes cubics where there are cubics, else lines. What
cannot be rewritten is refused by name, never dropped.
"""

from collections.abc import Set as AbstractSet
from dataclasses import replace
from functools import lru_cache

from jigs.drawing.biarc import biarcs
from jigs.drawing.drawing import Anchor, Area, Clip, Drawing, Entity, Page, Picture, Shape, Text
from jigs.geometry import Affine, Arc, Box, Cubic, Path, Segment
from jigs.geometry.strokes import ink_box, width_of, written
from jigs.units import Mm

TOLERANCE: Mm = 0.01
#: Cubics come so much closer to an arc at so little cost that they get a tenth of the tolerance.
_ARC_SHARE = 0.1
#: Width of a stroke letter's line over its height (ISO 3098-1, lettering type B: d = h / 10).
STROKE = 0.1


def lowered(page: Page, holds: AbstractSet[type], tolerance: Mm = TOLERANCE) -> Page:
    """Return the page in terms of the types a format holds; shapes and lines all formats hold.

    Raises:
        ValueError: an area, a picture or a clip stands on the page, and the format has none.
    """
    return replace(page, drawing=_drawing(page.drawing, holds, tolerance))


@lru_cache(maxsize=1024)
def strokes(text: Text) -> tuple[Shape, ...]:
    """Return a line of text as the lines a pen would draw; an unknown letter as a box."""
    letters = written(text.string, text.height)
    place = _place(text, letters.width)
    return tuple(
        Shape(text.layer, path.moved(place), colour=text.colour, stroke=text.height * STROKE)
        for path in letters.paths
    )


@lru_cache(maxsize=1024)
def text_box(text: Text) -> Box:
    """Return the box of a line of text's strokes; a point at its place if nothing is drawn."""
    box = ink_box(text.string, text.height)
    if box is None:
        return Box(text.at.x, text.at.y, text.at.x, text.at.y)
    if text.angle % 90:
        return Box.of_all(shape.path.bounds() for shape in strokes(text))
    # Turned by quarters, the box of the strokes is the turned box, at a tenth of the sums.
    place = _place(text, width_of(text.string, text.height))
    return Box.around(place.on(corner) for corner in box.corners())


def _place(text: Text, width: Mm) -> Affine:
    back = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[text.anchor]
    return (
        Affine.move(-back * width, 0.0)
        .then(Affine.turn(text.angle))
        .then(Affine.move(text.at.x, text.at.y))
    )


def _drawing(drawing: Drawing, holds: AbstractSet[type], tolerance: Mm) -> Drawing:
    return Drawing(tuple(e for one in drawing.entities for e in _entity(one, holds, tolerance)))


@lru_cache(maxsize=8)
def _shown(drawing: Drawing, holds: frozenset[type], tolerance: Mm) -> Drawing:
    """Return what a clip shows, lowered; the same drawing shows on many pages, so once for all."""
    return _drawing(drawing, holds, tolerance)


def _entity(entity: Entity, holds: AbstractSet[type], tolerance: Mm) -> tuple[Entity, ...]:
    if isinstance(entity, Shape):
        return (_shape(entity, holds, tolerance),)
    if isinstance(entity, Text):
        if Text in holds:
            return (entity,)
        return tuple(_shape(one, holds, tolerance) for one in strokes(entity))
    if type(entity) not in holds:
        raise ValueError(f"this format cannot hold {_named(entity)}")
    if isinstance(entity, Area):
        paths = tuple(_path(path, holds, tolerance) for path in entity.paths)
        return (replace(entity, paths=paths),)
    if isinstance(entity, Clip):
        return (replace(entity, drawing=_shown(entity.drawing, frozenset(holds), tolerance)),)
    return (entity,)


def _shape(shape: Shape, holds: AbstractSet[type], tolerance: Mm) -> Shape:
    path = _path(shape.path, holds, tolerance)
    if path is shape.path:
        return shape
    # Not by `replace`, which takes three times as long: lettering is thousands of shapes.
    return Shape(shape.layer, path, shape.dashed, shape.colour, shape.stroke, shape.dashes)


def _named(entity: Area | Picture | Clip) -> str:
    if isinstance(entity, Picture):
        return f"the picture {entity.says!r}"
    return f"an area of colour {entity.colour}" if isinstance(entity, Area) else "a clipped drawing"


def _path(path: Path, holds: AbstractSet[type], tolerance: Mm) -> Path:
    if set(map(type, path.segments)) <= holds:
        return path
    segments: list[Segment] = []
    for one in path.segments:
        segments += _segment(one, holds, tolerance)
    return Path(tuple(segments))


def _segment(
    segment: Segment, holds: AbstractSet[type], tolerance: Mm
) -> "list[Segment] | tuple[Segment, ...]":
    if type(segment) in holds:
        return (segment,)
    if isinstance(segment, Cubic) and Arc in holds:
        return [*biarcs(segment, tolerance)]
    if isinstance(segment, Arc) and Cubic in holds:
        return [*segment.cubics(tolerance * _ARC_SHARE)]
    return Path.through([segment.a, *segment.points(tolerance)]).segments
