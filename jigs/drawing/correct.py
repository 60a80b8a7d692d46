"""The printer's own error, taken out before printing.

A printer that draws 100 mm as 99.4 mm is given a drawing 100 / 99.4 times as large.
"""

from dataclasses import replace

from jigs.drawing.drawing import Clip, Drawing, Entity, Picture, Shape, Text
from jigs.drawing.lower import strokes
from jigs.geometry import Affine, Arc, Box, Path, Segment
from jigs.units import Mm

#: What is left of an arc's roundness where it has to be stretched into cubics.
TOLERANCE: Mm = 0.001


def corrected(drawing: Drawing, x: float, y: float) -> Drawing:
    """Return the drawing stretched by a factor each way; line widths stay.

    Where the factors differ, arcs become cubics and text becomes strokes.

    Raises:
        ValueError: a factor is not positive.
    """
    if not (x > 0 and y > 0):
        raise ValueError(f"a correction of {x} by {y} leaves nothing to print")
    if x == y == 1:
        return drawing
    return Drawing(tuple(e for one in drawing.entities for e in _stretched(one, x, y)))


def _stretched(entity: Entity, x: float, y: float) -> tuple[Entity, ...]:
    by = Affine.scale(x, y)
    if isinstance(entity, Shape):
        return (replace(entity, path=_path(entity.path, by)),)
    if isinstance(entity, Text):
        if x == y:
            return (replace(entity, at=by.on(entity.at), height=entity.height * x),)
        return tuple(replace(s, path=_path(s.path, by)) for s in strokes(entity))
    if isinstance(entity, Picture):
        return (replace(entity, box=_box(entity.box, x, y)),)
    if isinstance(entity, Clip):
        drawing = corrected(entity.drawing, x, y)
        box = _box(entity.box, x, y)
        return (replace(entity, box=box, drawing=drawing, x=entity.x * x, y=entity.y * y),)
    return (replace(entity, paths=tuple(_path(path, by) for path in entity.paths)),)


def _box(box: Box, x: float, y: float) -> Box:
    return Box(box.left * x, box.top * y, box.right * x, box.bottom * y)


def _path(path: Path, by: Affine) -> Path:
    if by.is_similarity:
        return path.moved(by)
    segments: list[Segment] = []
    for one in path.segments:
        segments += one.cubics(TOLERANCE) if isinstance(one, Arc) else [one]
    return Path(tuple(segments)).moved(by)
