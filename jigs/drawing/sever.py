"""A drawing cut in two along a joint: outlines closed again, marks and words shared out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from jigs.drawing.drawing import Drawing, Entity, Layer, Shape, Text
from jigs.drawing.joint import Joint
from jigs.drawing.lower import strokes
from jigs.drawing.sequence import depths
from jigs.geometry import Path, Point
from jigs.geometry.crossing import Straight, parted
from jigs.geometry.region import holds
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class Halves:
    """What lies before and beyond a joint, the words that it cuts, and its ends on the outlines."""

    before: Drawing
    beyond: Drawing
    words: tuple[str, ...]
    spans: tuple[tuple[Mm, Mm], ...]
    """The stretches of the line that run through material."""


def severed(drawing: Drawing, joint: Joint) -> Halves:
    """Return the two sides of a drawing that is cut along a joint.

    Closed cut outlines are closed again along the joint. All else is parted where the joint runs;
    what would lie in the gap round a key is left out.

    Raises:
        ValueError: an outline touches the line without crossing it.
    """
    outlines = [s for s in drawing.shapes(Layer.CUT) if s.path.closed]
    turned = oriented([s.path for s in outlines])
    ways = [parted(path, [Straight(joint.axis, joint.place)]) for path in turned]
    ends = sorted(
        part.end[1 - joint.axis] for parts in ways if not parts[0].closed for part in parts
    )
    if len(ends) % 2:
        raise ValueError("an outline touches a joint")
    spans = tuple(zip(ends[::2], ends[1::2], strict=True))
    before, beyond, words = _shared(drawing, joint)
    made = [
        Drawing((*(Shape(Layer.CUT, path) for path in _closed(ways, joint, side)), *marks))
        for side, marks in ((-1, before), (1, beyond))
    ]
    return Halves(made[0], made[1], tuple(words), spans)


def _shared(drawing: Drawing, joint: Joint) -> tuple[list[Entity], list[Entity], list[str]]:
    """Return what is marked before and beyond a joint, and the texts that it cuts."""
    halves: tuple[list[Entity], list[Entity]] = ([], [])
    cut: list[str] = []
    for entity in drawing.entities:
        lines: Sequence[Shape] = ()
        if isinstance(entity, Shape) and not (entity.layer is Layer.CUT and entity.path.closed):
            lines = (entity,)
        elif isinstance(entity, Text):
            whole = _whole(entity, joint)
            if whole:
                halves[whole > 0].append(entity)
                continue
            cut.append(entity.string)
            lines = strokes(entity)
        for half, side in zip(halves, (-1, 1), strict=True):
            half.extend(part for line in lines for part in _parts(line, joint, side))
    return *halves, cut


def oriented(paths: Sequence[Path]) -> list[Path]:
    """Return outlines with the material always on the same hand: outer ones turn positively."""
    return [
        path if (path.area() > 0) == (depth % 2 == 0) else path.reversed()
        for path, depth in zip(paths, depths(paths), strict=True)
    ]


def _closed(ways: Sequence[Sequence[Path]], joint: Joint, side: int) -> Iterator[Path]:
    """Yield the outlines on a side: whole ones, and chains linked along the joint."""
    chains: dict[Point, Path] = {}
    for parts in ways:
        for part in parts:
            middle = part.segments[0].at(0.5)[joint.axis] - joint.place
            if (middle >= 0) != (side > 0):
                continue
            if part.closed and len(parts) == 1:
                yield part
            else:
                chains[part.start] = part
    along = 1 - joint.axis
    ends = sorted({p for part in chains.values() for p in (part.start, part.end)},
                  key=lambda p: p[along])  # fmt: skip
    partner = dict(zip(ends, (ends[k ^ 1] for k in range(len(ends))), strict=True))
    while chains:
        first, chain = chains.popitem()
        while partner[chain.end] != first:
            start = partner[chain.end]
            chain = chain.then(joint.path(chain.end, start, side), chains.pop(start))
        yield chain.then(joint.path(chain.end, first, side))


def _parts(shape: Shape, joint: Joint, side: int) -> Iterator[Shape]:
    """Yield what of a line lies on a side, parts that follow one another as one."""
    if not _near(shape, joint):
        if joint.side(shape.path.start, side) == side:
            yield shape
        return
    chain: list[Path] = []
    for part in parted(shape.path, joint.carriers(side)):
        if joint.side(part.segments[0].at(0.5), side) == side:
            if chain and chain[-1].end == part.start:
                chain[-1] = chain[-1].then(part)
            else:
                chain.append(part)
    for path in chain:
        yield replace(shape, path=path)


def _near(shape: Shape, joint: Joint) -> bool:
    """Return whether a line comes so near to a key that one point of it does not tell its side."""
    box = shape.path.bounds()
    low, high = (box.left, box.right) if joint.axis == 0 else (box.top, box.bottom)
    reach = max((key.knob.depth for key in joint.keys), default=0.0)
    return low - reach <= joint.place <= high + reach


def _whole(text: Text, joint: Joint) -> int:
    """Return the side on which all strokes of a text lie, 0 if they lie on both."""
    sides = {_side(stroke, joint) for stroke in strokes(text)}
    if not sides:
        return joint.side(text.at, -1)
    return sides.pop() if len(sides) == 1 else 0


def _side(stroke: Shape, joint: Joint) -> int:
    """Return the side of a stroke, 0 if it lies on both or in the gap round a key."""
    if not _near(stroke, joint):
        return joint.side(stroke.path.start, -1)
    for side in (-1, 1):
        parts = list(_parts(stroke, joint, side))
        if len(parts) == 1 and abs(parts[0].path.length() - stroke.path.length()) < 1e-9:
            return side
    return 0


def components(drawing: Drawing) -> list[Drawing]:
    """Return a drawing's plates, each with its holes and with what is marked on it."""
    outlines = [s.path for s in drawing.shapes(Layer.CUT) if s.path.closed]
    outer = [p for p, depth in zip(outlines, depths(outlines), strict=True) if depth == 0]
    if len(outer) == 1:
        return [drawing]
    found: list[list[Entity]] = [[] for _ in outer]
    for entity in drawing.entities:
        at = entity.path.segments[0].at(0.5) if isinstance(entity, Shape) else _middle(entity)
        own = entity.path if isinstance(entity, Shape) else None
        for home, path in zip(found, outer, strict=True):
            if own is path or holds(path, at):
                home.append(entity)
                break
    return [Drawing(tuple(entities)) for entities in found]


def _middle(entity: Entity) -> Point:
    if isinstance(entity, Text):
        boxes = [stroke.path.bounds() for stroke in strokes(entity)]
        return boxes[0].centre if boxes else entity.at
    raise TypeError("a plate holds lines and words")
