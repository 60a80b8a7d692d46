"""DXF, release 2000, in millimetres: lines, arcs, circles and polylines with bulges, no splines.

y points up in DXF, so a page's (0, 0) is the lower left corner of the drawing there and the page
reaches up to its height, which the drawing limits say too. Colour and pattern belong to the
layers, which are named after the four kinds of line; what a shape says of its own colour, width
and dashes is for paper.
"""

import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from io import StringIO
from itertools import pairwise
from textwrap import wrap
from typing import Any, BinaryIO, TypeAlias

from jigs.drawing.drawing import Layer, Page
from jigs.geometry import Arc, Box, Line, Path, Point, Segment
from jigs.geometry.point import distance
from jigs.units import Mm
from jigs.writers._writer import Writer, plain

#: AutoCAD colour index of each layer (7 is black or white, whichever shows) and its line type.
_LAYERS = {
    Layer.CUT: (7, "CONTINUOUS"),
    Layer.SCORE: (5, "DASHED"),
    Layer.ENGRAVE: (1, "CONTINUOUS"),
    Layer.NOTE: (3, "CONTINUOUS"),
}
_DIGITS = 6
#: How a file ends.
_END = "  0\nEOF\n"
#: Two arcs are of one circle if middle and radius agree to this.
_SAME: Mm = 1e-6

#: A corner as DXF stores it: x, y and the bulge of what follows it.
Corner: TypeAlias = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class _Outline:
    """A path as DXF stores it, rounded, y up."""

    path: Path
    corners: tuple[Corner, ...]
    closed: bool
    circle: tuple[tuple[float, float], float] | None
    """Middle and radius, if it is one full circle."""

    def sides(self) -> tuple[tuple[Corner, Corner], ...]:
        """Return the sides with their ends in order, for comparing whichever way they run."""
        ends = [*self.corners, self.corners[0]] if self.closed else list(self.corners)
        found = []
        for (ax, ay, bulge), (bx, by, _) in pairwise(ends):
            a, b = (ax, ay, bulge), (bx, by, bulge)
            back = (bx, by, _zero(-bulge)), (ax, ay, _zero(-bulge))
            found.append(min((a, b), back))
        return tuple(sorted(found))


def _write(pages: Sequence[Page], out: BinaryIO) -> None:
    from ezdxf.filemanagement import new

    page = pages[0]
    with _fixed_metadata():
        document: Any = new("R2000", units=4)
        document.header["$MEASUREMENT"] = 1
        document.linetypes.add("DASHED", [4.5, 3.0, -1.5], description="Dashed __ __ __")
        for layer, (colour, pattern) in _LAYERS.items():
            document.layers.add(layer.value.upper(), color=colour, linetype=pattern)
        space = document.modelspace()
        drawn = list(_unlike(page))
        for layer, outline in drawn:
            _draw(space, outline, page.height, {"layer": layer.value.upper()})
        space.reset_limits((0.0, 0.0), (_rounded(page.width), _rounded(page.height)))
        _set_extents(document, [outline.path for _, outline in drawn], page.height)
        text = StringIO()
        document.write(text)
    # Programs know a DXF by its first kilobyte, so what is long to say stands before its end.
    written = text.getvalue().removesuffix(_END)
    whole = _comments(page.title) + written + _comments(page.says) + _END
    out.write(whole.encode(document.encoding, errors="dxfreplace"))


def _comments(said: str) -> str:
    """Return comments, which people read and programs skip; long lines upset some of them."""
    return "".join(f"999\n{line}\n" for line in wrap(plain(said), 200))


WRITER = Writer(".dxf", frozenset({Line, Arc}), _write)


def _set_extents(document: Any, paths: Sequence[Path], height: Mm) -> None:
    """Say how far the drawing reaches; ezdxf's own estimate takes in an arc's whole circle."""
    if paths:
        box = _reach(paths)
        least = (*_at(Point(box.left, box.bottom), height), 0.0)
        most = (*_at(Point(box.right, box.top), height), 0.0)
        document.header["$EXTMIN"], document.header["$EXTMAX"] = least, most
        document.modelspace().reset_extents(least, most)


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Have ezdxf write a fixed date and fixed identifiers, so that equal drawings are equal files.

    There is only this global switch for it; it is put back.
    """
    import ezdxf

    # ezdxf does not export its options for type checkers.
    options: Any = vars(ezdxf)["options"]
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _reach(paths: Sequence[Path]) -> Box:
    """Return the box of some paths; those in the box of the others are only looked at roughly."""
    longest = max(paths, key=lambda path: len(path.segments))
    found = longest.bounds()
    for path in paths:
        if not found.holds(_around(path)):
            found = Box.of_all((found, path.bounds()))
    return found


def _around(path: Path) -> Box:
    """Return a box that holds a path of lines and arcs: no arc goes farther than its circle."""
    arcs = [s for s in path.segments if isinstance(s, Arc)]
    farthest = max((2 * arc.radius for arc in arcs), default=0.0)
    return Box.around([path.start, *(s.b for s in path.segments)]).grown(farthest)


def _unlike(page: Page) -> Iterator[tuple[Layer, _Outline]]:
    """Yield each layer's outlines once, however often and whichever way round they are drawn."""
    seen = set()
    for shape in page.drawing.shapes():
        outline = _outline(shape.path, page.height)
        key = (shape.layer, outline.circle or outline.sides())
        if len(outline.corners) > 1 and key not in seen:
            seen.add(key)
            yield shape.layer, outline


def _outline(path: Path, height: Mm) -> _Outline:
    """Return a path's corners without the sides that have no length once rounded."""
    corners: list[Corner] = []
    for segment in _halved(path.segments):
        x, y = _at(segment.a, height)
        # Turned over, what turned from +x towards +y turns the other way.
        corner = (x, y, _rounded(-segment.bulge) if isinstance(segment, Arc) else 0.0)
        if corners and corners[-1][:2] == (x, y):
            corners.pop()
        corners.append(corner)
    end = _at(path.end, height)
    if path.closed:
        while len(corners) > 1 and corners[-1][:2] == end:
            corners.pop()
    elif corners[-1][:2] == end:
        corners[-1] = (*end, 0.0)
    else:
        corners.append((*end, 0.0))
    # There and back along one line is one line, cut once.
    flat = len(corners) == 2 and not any(bulge for _, _, bulge in corners)
    circle = _circle(path)
    middle = (_at(circle[0], height), _rounded(circle[1])) if circle else None
    return _Outline(path, tuple(corners), path.closed and not flat, middle)


def _halved(segments: Sequence[Segment]) -> Sequence[Segment]:
    """Return a polyline's sides with no arc of more than half a circle: some readers miss them.

    GDAL 3.12, for one, draws a bulge of more than 1 on the wrong side of its chord. An arc alone
    is an entity of its own, with a middle and angles.
    """
    if len(segments) == 1 or not any(_wide(segment) for segment in segments):
        return segments
    return [s for one in segments for s in (one.split(0.5) if _wide(one) else (one,))]


def _wide(segment: Segment) -> bool:
    return isinstance(segment, Arc) and _rounded(abs(segment.bulge)) > 1


def _draw(space: Any, outline: _Outline, height: Mm, attributes: dict[str, str]) -> None:
    if outline.circle:
        space.add_circle(*outline.circle, dxfattribs=attributes)
        return
    if len(outline.corners) == 2 and not outline.closed:
        _draw_one(space, outline, height, attributes)
        return
    space.add_lwpolyline(outline.corners, format="xyb", close=outline.closed, dxfattribs=attributes)


def _draw_one(space: Any, outline: _Outline, height: Mm, attributes: dict[str, str]) -> None:
    """Draw an open path of one side as the line or arc it is."""
    (ax, ay, bulge), (bx, by, _) = outline.corners
    arc = next((s for s in outline.path.segments if isinstance(s, Arc)), None)
    if arc is None or bulge == 0:
        space.add_line((ax, ay), (bx, by), dxfattribs=attributes)
        return
    centre = arc.centre

    def angle(point: Point) -> float:
        return _rounded(math.degrees(math.atan2(centre.y - point.y, point.x - centre.x)) % 360)

    # DXF arcs turn counter-clockwise seen with y up, which is where a negative bulge turns here.
    first, last = (arc.a, arc.b) if arc.bulge < 0 else (arc.b, arc.a)
    space.add_arc(
        _at(centre, height), _rounded(arc.radius), angle(first), angle(last), dxfattribs=attributes
    )


def _circle(path: Path) -> tuple[Point, Mm] | None:
    """Return middle and radius if the path is one full circle."""
    if not path.closed:
        return None
    arcs = [s for s in path.segments if isinstance(s, Arc)]
    if len(arcs) != len(path.segments):
        return None
    turned = math.fsum(arc.angle for arc in arcs)
    if abs(abs(turned) - math.tau) > 1e-9:
        return None
    centre, radius = arcs[0].centre, arcs[0].radius
    for arc in arcs[1:]:
        if distance(arc.centre, centre) > _SAME or abs(arc.radius - radius) > _SAME:
            return None
    return centre, radius


def _at(point: Point, height: Mm) -> tuple[float, float]:
    return _rounded(point.x), _rounded(height - point.y)


def _rounded(value: float) -> float:
    return _zero(round(value, _DIGITS))


def _zero(value: float) -> float:
    """Return the value, and 0 for minus 0, which would be another text in the file."""
    return value + 0.0
