"""Cut outlines moved by half the kerf, so that the finished part has the drawn size."""

from dataclasses import replace

from jigs.drawing.biarc import biarcs
from jigs.drawing.drawing import Drawing, Entity, Layer, Shape
from jigs.geometry import Cubic, Path, Segment
from jigs.geometry.offset import parallel
from jigs.geometry.region import holds
from jigs.units import Mm

#: Arcs that stand in for a cubic stray by at most this.
_FIT: Mm = 0.005


def compensated(drawing: Drawing, kerf: Mm) -> Drawing:
    """Return the drawing as the tool must follow it: outsides moved out, holes moved in.

    `kerf` is the full width of the cut. An outline inside an odd number of others is a hole.
    Only closed outlines on the cut layer move.

    Raises:
        ValueError: the kerf is negative or too large for an outline.
    """
    if kerf < 0:
        raise ValueError("a kerf is not negative")
    if kerf == 0:
        return drawing
    outlines = [s.path for s in drawing.shapes(Layer.CUT) if s.path.closed]
    moved: list[Entity] = []
    for entity in drawing.entities:
        if isinstance(entity, Shape) and entity.layer is Layer.CUT and entity.path.closed:
            out = -kerf / 2 if is_hole(entity.path, outlines) else kerf / 2
            moved.append(replace(entity, path=parallel(_in_arcs(entity.path), out)))
        else:
            moved.append(entity)
    return Drawing(tuple(moved))


def is_hole(path: Path, outlines: list[Path]) -> bool:
    """Return whether an outline lies inside an odd number of the others."""
    return sum(other is not path and holds(other, path.start) for other in outlines) % 2 == 1


def _in_arcs(path: Path) -> Path:
    segments: list[Segment] = []
    for segment in path.segments:
        segments += biarcs(segment, _FIT) if isinstance(segment, Cubic) else [segment]
    return Path(tuple(segments))
