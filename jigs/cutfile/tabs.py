"""Tabs taken out again: lines whose ends face one another across a small gap made one."""

from collections.abc import Sequence

from jigs.cutfile.cutfile import joined
from jigs.drawing.drawing import Drawing, Layer, Shape
from jigs.geometry import Line, Path, Point
from jigs.geometry.point import distance
from jigs.units import Mm

#: What the decimals of a file may add to a gap.
_SLACK: Mm = 0.02


def rejoined(drawing: Drawing, gap: Mm) -> Drawing:
    """Return the drawing with gaps of up to a length closed in its cut lines, straight across.

    Only ends that are each nearest to the other are joined.
    """
    paths = [shape.path for shape in drawing.shapes(Layer.CUT)]
    bridges = _bridges([path for path in paths if not path.closed], gap + _SLACK)
    cut = joined([*paths, *bridges], chains=True)
    others = drawing.on(Layer.NOTE, Layer.ENGRAVE, Layer.SCORE)
    return Drawing((*others, *(Shape(Layer.CUT, path) for path in cut)))


def _bridges(paths: Sequence[Path], gap: Mm) -> list[Path]:
    ends = sorted(end for path in paths for end in (path.start, path.end))
    nearest: dict[int, tuple[Mm, int]] = {}
    for k, one in enumerate(ends):
        for other in range(k + 1, len(ends)):
            if ends[other].x - one.x > gap:
                break
            apart = distance(one, ends[other])
            for here, there in ((k, other), (other, k)):
                if apart <= gap and (apart, there) < nearest.get(here, (gap + 1, 0)):
                    nearest[here] = apart, there
    return [
        Path((Line(Point(*ends[k]), Point(*ends[other])),))
        for k, (apart, other) in sorted(nearest.items())
        if k < other and nearest[other][1] == k and apart > 0
    ]
