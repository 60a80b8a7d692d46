"""A drawing made smaller or larger as a whole: for pictures to scale, never for a jig."""

from dataclasses import replace

from jigs.drawing.drawing import Area, Drawing, Entity, Picture, Shape, Text
from jigs.geometry import Affine, Box, Point

#: Text smaller than this on a picture is a grey line to the eye, so it is left out.
LEGIBLE = 2.0


def scaled(drawing: Drawing, factor: float) -> Drawing:
    """Return the drawing scaled about the origin; lines keep their width.

    Raises:
        TypeError: the drawing holds a clip.
    """
    by = Affine.scale(factor)
    return Drawing(tuple(one for e in drawing.entities if (one := _scaled(e, by)) is not None))


def _scaled(entity: Entity, by: Affine) -> Entity | None:
    if isinstance(entity, Shape):
        return replace(entity, path=entity.path.moved(by))
    if isinstance(entity, Text):
        height = entity.height * by.a
        return replace(entity, at=by.on(entity.at), height=height) if height >= LEGIBLE else None
    if isinstance(entity, Area):
        return replace(entity, paths=tuple(path.moved(by) for path in entity.paths))
    if isinstance(entity, Picture):
        one, two = (by.on(Point(entity.box.left, entity.box.top)),
                    by.on(Point(entity.box.right, entity.box.bottom)))  # fmt: skip
        return replace(entity, box=Box(one.x, one.y, two.x, two.y))
    raise TypeError("a clip is for tiles, not for pictures")
