"""The order in which a tool does its work: marks first, and what is inside before what holds it.

Once an outline is cut, what it goes round is loose and may have moved. Files keep this order,
but a machine's own program may sort anew.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from jigs.drawing.drawing import Drawing, Entity, Layer, Shape, layer_of
from jigs.geometry import Path, Point
from jigs.geometry.point import distance
from jigs.geometry.region import holds
from jigs.units import Mm

_LAYERS = (Layer.NOTE, Layer.ENGRAVE, Layer.SCORE)


def sequenced(drawing: Drawing) -> Drawing:
    """Return the drawing with its entities as they are to be done.

    Notes and engraving come first, as they are drawn, then scores, then what is cut: the deepest
    first, outlines that nothing goes round last. Among those equally deep the one that begins
    nearest is next, from the lower left of all that is cut.
    """
    entities: list[Entity] = [
        entity for layer in _LAYERS for entity in drawing.entities if layer_of(entity) is layer
    ]
    cuts = drawing.shapes(Layer.CUT)
    if cuts:
        entities += _travelled(cuts, depths([shape.path for shape in cuts]))
    return Drawing(tuple(entities))


def depths(paths: Sequence[Path]) -> list[int]:
    """Return how many closed outlines go round the beginning of each line."""
    outlines = [(path, path.bounds()) for path in paths if path.closed]

    def around(path: Path) -> int:
        at = path.start
        return sum(
            other is not path
            and box.left < at.x < box.right
            and box.top < at.y < box.bottom
            and holds(other, at)
            for other, box in outlines
        )

    return [around(path) for path in paths]


def _travelled(cuts: Sequence[Shape], deep: Sequence[int]) -> Iterator[Shape]:
    box = Drawing(tuple(cuts)).bounds()
    at = Point(box.left, box.bottom)
    left = dict(enumerate(cuts))
    while left:
        shape = left.pop(min(left, key=partial(_rank, at, left, deep)))
        yield shape
        at = shape.path.end


def _rank(
    at: Point, left: Mapping[int, Shape], deep: Sequence[int], k: int
) -> tuple[int, Mm, Point, int]:
    """Return what decides which is next; of those equally far, the leftmost, whatever the order."""
    start = left[k].path.start
    return -deep[k], round(distance(at, start), 6), start, k
