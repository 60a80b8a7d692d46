"""DXF read back: lines, arcs, circles, polylines with bulges, ellipses and splines, in blocks too.

y points up in DXF; only where a file is turned over is a bulge's sense its own.
"""

import io
import math
import re
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Any

from jigs.artwork.guard import MOST_XML_BYTES
from jigs.cutfile.cutfile import MOST_LINES, CutFile, Gathering
from jigs.errors import BadInput, Place
from jigs.geometry import Arc, Cubic, Line, Path, Point, Segment
from jigs.geometry.point import distance
from jigs.units import INCH

#: $INSUNITS (DXF Reference, HEADER): the code and its unit in mm.
_UNITS = {0: 1.0, 1: INCH, 2: 12 * INCH, 4: 1.0, 5: 10.0, 6: 1000.0, 9: INCH / 1000, 13: 0.001,
          14: 100.0}  # fmt: skip
#: Blocks inside blocks.
_DEEPEST = 16
_COMMENT = re.compile(rb"^\s*999\s*?\r?\n(.*?)\r?$", re.MULTILINE)


def read_dxf(data: bytes, place: Place) -> CutFile:
    """Return the lines of a DXF file.

    Raises:
        BadInput: it is broken, too large, binary, in an unknown unit, or not flat.
    """
    from ezdxf import recover
    from ezdxf.lldxf.const import DXFError

    if len(data) > MOST_XML_BYTES:
        found = f"the DXF has {len(data) / 1e6:.0f} MB"
        raise BadInput(place, found, f"allowed: up to {MOST_XML_BYTES / 1e6:.0f} MB")
    if data.startswith(b"AutoCAD Binary DXF"):
        raise BadInput(place, "this is a binary DXF", "save it as a DXF of text")
    if b"SECTION" not in data:
        raise BadInput(place, "this is no DXF: it has no sections", "save it as a DXF of text")
    gathering = Gathering(place)
    try:
        document, _ = recover.read(io.BytesIO(data))
        code = int(document.header.get("$INSUNITS", 0))
        unit = _unit(code, place)
        for layer, entity in _flat(document.modelspace(), None, gathering, 0):
            _take(layer, entity, unit, gathering)
    except BadInput:
        raise
    # A file that is broken in the middle may show in any of these inside the library.
    except (DXFError, ValueError, TypeError, LookupError, AttributeError, ArithmeticError,
            RecursionError, OSError, AssertionError, UnicodeError) as problem:  # fmt: skip
        said = str(problem)[:120] or type(problem).__name__
        found = f"the DXF is broken or cut short: {said}"
        raise BadInput(place, found, "save it again as a DXF of text") from None
    notes = ["the file names no unit: taken for mm"] if code == 0 else []
    # A writer may speak where the file begins or before it ends.
    comments = _COMMENT.findall(data[:20_000] + b"\n" + data[-20_000:])
    words = b" ".join(comments).decode("utf-8", "replace")
    return gathering.done("dxf", words, notes)


def _unit(code: int, place: Place) -> float:
    unit = _UNITS.get(code)
    if unit is None:
        raise BadInput(place, f"$INSUNITS is {code}", "save it in mm (4) or inches (1)")
    return unit


def _flat(
    entities: Iterable[Any], layer: str | None, gathering: Gathering, depth: int
) -> Iterator[tuple[str, Any]]:
    """Yield what is drawn, blocks taken apart; what a block has on layer 0 is on its own layer."""
    for entity in entities:
        own = str(entity.dxf.get("layer", "0"))
        here = layer if layer is not None and own == "0" else own
        if entity.dxftype() != "INSERT":
            yield here, entity
            continue
        # An empty block costs nothing to draw but may stand a million times.
        gathering.see()
        if depth >= _DEEPEST or entity.mcount > MOST_LINES:
            found = f"blocks are nested more than {_DEEPEST} deep, or too many"
            raise BadInput(gathering.place, found, "explode the blocks")
        for one in entity.multi_insert() if entity.mcount > 1 else (entity,):
            yield from _flat(one.virtual_entities(), here, gathering, depth + 1)


def _take(layer: str, entity: Any, unit: float, gathering: Gathering) -> None:
    kind = entity.dxftype()
    if kind == "LINE":
        segments: list[Segment] = _through([entity.dxf.start, entity.dxf.end], unit)
    elif kind == "ARC":
        segments = _arc(entity, unit)
    elif kind == "CIRCLE":
        ocs = entity.ocs()
        centre = _at(ocs.to_wcs(entity.dxf.center), unit)
        segments = list(Path.circle(centre, abs(entity.dxf.radius) * unit).segments)
    elif kind == "LWPOLYLINE":
        rows = [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
        segments = _polyline(rows, entity, unit, closed=entity.closed)
    elif kind == "POLYLINE" and entity.is_2d_polyline:
        rows = [(*v.dxf.location.vec2, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
        segments = _polyline(rows, entity, unit, closed=entity.is_closed)
    elif kind == "POLYLINE" and entity.is_3d_polyline:
        points = [v.dxf.location for v in entity.vertices]
        segments = _through([*points, *points[: entity.is_closed]], unit)
    elif kind in {"ELLIPSE", "SPLINE"}:
        segments = _curve(entity, unit)
    else:
        gathering.skip(kind, layer)
        return
    gathering.add(layer, segments)


def _at(point: Any, unit: float) -> Point:
    return Point(float(point[0]) * unit, -float(point[1]) * unit)


def _through(points: Iterable[Any], unit: float) -> list[Segment]:
    places = [_at(point, unit) for point in points]
    return [Line(a, b) for a, b in pairwise(places)]


def _arc(entity: Any, unit: float) -> list[Segment]:
    ocs, centre, radius = entity.ocs(), entity.dxf.center, entity.dxf.radius
    start = math.radians(entity.dxf.start_angle)
    sweep = math.radians(entity.dxf.end_angle - entity.dxf.start_angle) % math.tau or math.tau

    def on(share: float) -> Point:
        angle = start + sweep * share
        x, y = centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)
        return _at(ocs.to_wcs((x, y, centre[2])), unit)

    # Seen from above with y down the arc turns the other way, unless its plane is turned over.
    bulge = -math.copysign(math.tan(sweep / 8), entity.dxf.extrusion[2])
    return [Arc(on(0), on(0.5), bulge), Arc(on(0.5), on(1), bulge)]


def _polyline(
    rows: list[tuple[float, float, float]],
    entity: Any,
    unit: float,
    *,
    closed: bool,
) -> list[Segment]:
    ocs = entity.ocs()
    over = math.copysign(1.0, entity.dxf.extrusion[2])
    places = [_at(ocs.to_wcs((x, y, 0.0)), unit) for x, y, _ in rows]
    segments: list[Segment] = []
    for k in range(len(rows) if closed else len(rows) - 1):
        a, b, bulge = places[k], places[(k + 1) % len(places)], -rows[k][2] * over
        # A polyline that is closed though its last corner is its first has no side there.
        if closed and k == len(rows) - 1 and distance(a, b) < 1e-6:
            break
        segments.append(Arc(a, b, bulge) if bulge and distance(a, b) > 0 else Line(a, b))
    if closed and segments and segments[-1].b != segments[0].a:
        segments[-1:] = [_end(segments[-1], segments[0].a)]
    return segments


def _end(segment: Segment, at: Point) -> Segment:
    return Arc(segment.a, at, segment.bulge) if isinstance(segment, Arc) else Line(segment.a, at)


def _curve(entity: Any, unit: float) -> list[Segment]:
    """Return an ellipse or a spline as the Béziers that ezdxf makes of it."""
    from ezdxf.path import Command, make_path

    path: Any = make_path(entity)
    here = _at(path.start, unit)
    segments: list[Segment] = []
    for command in path.commands():
        end = _at(command.end, unit)
        if command.type == Command.CURVE4_TO:
            segments.append(Cubic(here, _at(command.ctrl1, unit), _at(command.ctrl2, unit), end))
        elif command.type == Command.CURVE3_TO:
            p = _at(command.ctrl, unit)
            one = Point(here.x + (p.x - here.x) * 2 / 3, here.y + (p.y - here.y) * 2 / 3)
            two = Point(end.x + (p.x - end.x) * 2 / 3, end.y + (p.y - end.y) * 2 / 3)
            segments.append(Cubic(here, one, two, end))
        else:
            segments.append(Line(here, end))
        here = end
    return segments
