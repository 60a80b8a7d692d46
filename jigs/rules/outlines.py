"""Cut outlines: closed, simple, apart, and one plate with its holes."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from jigs.drawing.drawing import Drawing, Layer
from jigs.geometry import Box, Path, Point
from jigs.geometry.point import distance
from jigs.rules.violation import CHORD, Facts, Violation

#: A side shorter than this is none: a tool would dwell there.
NO_LENGTH = 1e-3
#: Outlines nearer to one another than this touch.
TOUCHING = 1e-3
#: Two outlines that stray from one another by no more than this are the same, drawn twice.
SAME = 0.01


@dataclass(frozen=True, slots=True)
class Contour:
    """A closed, simple cut outline: its path, and what it goes round as a polygon."""

    path: Path
    shape: Any
    depth: int
    """How many others go round it: 0 is a plate, 1 a hole."""

    @property
    def hole(self) -> bool:
        """Whether the material is on its outside."""
        return self.depth % 2 == 1


def cut_paths(drawing: Drawing) -> tuple[Path, ...]:
    """Return the lines on the cut layer."""
    return tuple(shape.path for shape in drawing.shapes(Layer.CUT))


def flat(path: Path) -> list[Point]:
    """Return a line as the chords that it is judged by."""
    return path.points(CHORD)


def lone_faults(path: Path) -> Iterator[Violation]:
    """Yield what is wrong with one cut line by itself."""
    for segment in path.segments:
        length = segment.length()
        if length < NO_LENGTH:
            says = f"a cut line has a side of {length:.4f} mm, which is none"
            yield Violation("simple", says, segment.a)
    if not path.closed:
        gap = distance(path.start, path.end)
        says = f"a cut line is open: its ends are {gap:.2f} mm apart"
        yield Violation("closed", says, path.start)
        return
    points = flat(path)
    crossing = _crossing(points)
    if crossing is not None:
        yield Violation("simple", "a cut outline crosses or touches itself", crossing)


def _crossing(points: Sequence[Point]) -> Point | None:
    """Return where an outline meets itself; a point of it where it encloses nothing."""
    import shapely

    if len(set(points)) < 3:
        return points[0]
    said = shapely.is_valid_reason(shapely.Polygon(points))
    if said == "Valid Geometry":
        return None
    found = re.search(r"\[(\S+) (\S+)\]", said)
    return Point(float(found[1]), float(found[2])) if found else points[0]


def once(paths: Sequence[Path]) -> tuple[list[Path], list[Violation]]:
    """Return each outline once, and what is drawn more than once."""
    import shapely

    rings = [shapely.LineString(flat(path)) for path in paths]
    kept: list[int] = []
    found: list[Violation] = []
    tree = shapely.STRtree(rings)
    again = set()
    for k, path in enumerate(paths):
        if k in again:
            continue
        kept.append(k)
        for other in sorted(tree.query(rings[k])):
            if (
                other > k
                and other not in again
                and _same(rings[k], rings[other], path, paths[other])
            ):
                again.add(int(other))
                found.append(Violation("twice", "a cut line is drawn twice", path.bounds()))
    return [paths[k] for k in kept], found


def _same(one: Any, other: Any, a: Path, b: Path) -> bool:
    import shapely

    grown, box = a.bounds().grown(SAME), b.bounds()
    if not (grown.holds(box) and b.bounds().grown(SAME).holds(a.bounds())):
        return False
    return float(shapely.hausdorff_distance(one, other)) <= SAME + 2 * CHORD


def crossings(paths: Sequence[Path]) -> Iterator[Violation]:
    """Yield where two cut lines cross or touch."""
    import shapely

    rings = [shapely.LineString(flat(path)) for path in paths]
    tree = shapely.STRtree(rings)
    for one, ring in enumerate(rings):
        for other in sorted(tree.query(ring, predicate="dwithin", distance=TOUCHING).tolist()):
            if one < other:
                x, y = shapely.shortest_line(ring, rings[other]).coords[0]
                yield Violation("apart", "two cut lines cross or touch", Point(x, y))


def nested(paths: Sequence[Path]) -> tuple[Contour, ...]:
    """Return sound outlines with how deep each lies inside others."""
    import shapely

    shapes = [shapely.Polygon(flat(path)) for path in paths]
    tree = shapely.STRtree(shapes)
    starts = shapely.points([path.start for path in paths])
    depths = [0] * len(paths)
    inside, around = tree.query(starts, predicate="within").tolist()
    for one, other in zip(inside, around, strict=True):
        depths[one] += one != other
    return tuple(Contour(*each) for each in zip(paths, shapes, depths, strict=True))


def plate_faults(contours: Iterable[Contour], facts: Facts) -> Iterator[Violation]:
    """Yield where there are not as many plates as there should be, or a loose piece in a hole."""
    outer = [one for one in contours if one.depth == 0]
    if len(outer) != facts.plates:
        said = "plate" if facts.plates == 1 else "plates"
        says = (
            f"there are {len(outer)} outer outlines, not {facts.plates}, for {facts.plates} {said}"
        )
        small = min(outer, key=lambda one: one.shape.area)
        yield Violation("plate", says, small.path.bounds())
    for one in contours:
        if one.depth > 1:
            box = one.path.bounds()
            says = f"a piece of {size(box)} lies loose inside a hole"
            yield Violation("plate", says, box)


def size(box: Box) -> str:
    """Return a box's size for people."""
    return f"{box.width:.2f} × {box.height:.2f} mm"


def material(contours: Iterable[Contour]) -> Any:
    """Return what is left of the plates when everything is cut."""
    import shapely

    solid = [one.shape for one in contours if not one.hole]
    holes = [one.shape for one in contours if one.hole]
    whole = shapely.union_all(solid)
    return whole.difference(shapely.union_all(holes)) if holes else whole
