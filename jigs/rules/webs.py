"""Bridges of material: the least distance between outlines, and between parts of one outline.

An outline's material is shrunk by half the least web and grown again (Serra, "Image Analysis and
Mathematical Morphology", 1982). Where that neither splits it nor takes away more than its corners,
no part of the outline is too near to another. Else pairs of sides are looked at: two that face one
another across the material, the outline between them being a long way round, leave a web. Towards
a convex corner the way round is short and the sides close in, so that it is none.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any, TypeAlias

from jigs.geometry import Point
from jigs.rules.outlines import Contour
from jigs.rules.violation import SLACK, Facts, Violation
from jigs.units import Mm

#: A width and the two points it lies between.
Web: TypeAlias = tuple[Mm, Point, Point]

#: Corners of a round part for a quarter circle: at 2.5 mm they stray by 0.003 mm.
_QUARTER = 16
#: What is lost no deeper than this share of the web is a corner: one of 60 degrees, or a stub.
_DEEP = 0.5
#: Round a tongue the way is so many times as long as the tongue is wide; a stub is shorter.
_ROUND = 3.0
#: Sides that close in by more than this, each, are those of a corner of 20 degrees or more.
_CLOSING = math.sin(math.radians(10))


def web_faults(contours: Sequence[Contour], facts: Facts) -> Iterator[Violation]:
    """Yield every place where less than the least web is left."""
    # The kerf still comes off both sides of what the outlines leave.
    least = facts.least_web + facts.kerf
    kept = f"less than {least:g} mm"
    for width, a, b in between(contours, least):
        if width < least - SLACK:
            says = f"a web of {width:.2f} mm between two cut lines, {kept}"
            yield Violation("web", says, _middle(a, b))
    for width, a, b in necks(contours, least):
        if width < least - SLACK:
            says = f"a web of {width:.2f} mm within one outline, {kept}"
            yield Violation("web", says, _middle(a, b))


def least_web(contours: Sequence[Contour], most: Mm) -> Web | None:
    """Return the narrowest bridge of all that are narrower than a width."""
    import shapely

    rings = [one.shape.exterior for one in contours]
    tree = shapely.STRtree(rings)
    near = tree.query_nearest(rings, max_distance=most, exclusive=True, all_matches=False)
    found = min((_web(rings[i], rings[j]) for i, j in near.T.tolist()), default=None)
    limit = found[0] if found else most
    return min([*necks(contours, limit), *([found] if found else [])], default=None)


def between(contours: Sequence[Contour], most: Mm) -> Iterator[Web]:
    """Yield how far outlines lie apart, those nearer than a distance."""
    import shapely

    rings = [one.shape.exterior for one in contours]
    tree = shapely.STRtree(rings)
    for k, ring in enumerate(rings):
        for other in sorted(tree.query(ring, predicate="dwithin", distance=most).tolist()):
            if other > k:
                yield _web(ring, rings[other])


def _web(one: Any, other: Any) -> Web:
    import shapely

    line = shapely.shortest_line(one, other)
    a, b = (Point(*xy) for xy in line.coords)
    return float(line.length), a, b


def necks(contours: Sequence[Contour], most: Mm) -> list[Web]:
    """Return the bridges and tongues within one outline that are narrower than a width."""
    import shapely

    found: list[Web] = []
    for one in contours:
        side: Any = one.shape
        if one.hole:
            if side.area > (1 - 1e-6) * side.convex_hull.area:
                continue
            side = shapely.box(*side.buffer(2 * most).bounds).difference(side)
        if _suspicious(side, most):
            found += _apart(_facing(one.shape.exterior, side, most), most)
    return found


def _suspicious(side: Any, most: Mm) -> bool:
    """Return whether shrinking splits the material, or loses more of it than corners."""
    import shapely

    core = side.buffer(-most / 2, quad_segs=_QUARTER)
    if core.geom_type != "Polygon" or core.is_empty:
        return True
    opened = core.buffer(most / 2, quad_segs=_QUARTER)
    points = shapely.points(shapely.get_coordinates(side))
    return bool(shapely.distance(points, opened).max() > _DEEP * most)


def _facing(ring: Any, side: Any, most: Mm) -> list[Web]:
    """Return the widths between the sides of one outline that face one another."""
    import shapely

    coords = shapely.segmentize(ring, most / 4).coords
    edges = shapely.linestrings([pair for pair in pairwise(coords) if pair[0] != pair[1]])
    ends = shapely.length(edges).cumsum()
    middles = ends - shapely.length(edges) / 2
    pairs = shapely.STRtree(edges).query(edges, predicate="dwithin", distance=most)
    one, other = pairs[:, pairs[0] < pairs[1]]
    along = abs(middles[one] - middles[other])
    gaps = shapely.distance(edges[one], edges[other])
    way = (along < ends[-1] / 2) * along + (along >= ends[-1] / 2) * (ends[-1] - along)
    far = (way > _ROUND * gaps) & (gaps > 0) & (gaps < most)
    shapely.prepare(side)
    found = []
    for i, j in zip(one[far].tolist(), other[far].tolist(), strict=True):
        line = shapely.shortest_line(edges[i], edges[j])
        a, b = (Point(*xy) for xy in line.coords)
        if (
            _holds(a, b.minus(a).unit(), edges, i)
            and _holds(b, a.minus(b).unit(), edges, j)
            and side.covers(shapely.LineString([_part(a, b, 0.01), _part(a, b, 0.99)]))
        ):
            found.append((line.length, a, b))
    return found


def _holds(at: Point, across: Point, edges: Any, k: int) -> bool:
    """Return whether the way across gets hardly shorter when its end moves along the outline."""
    for each in (edges[k - 1], edges[k], edges[(k + 1) % len(edges)]):
        for here, there in (each.coords, each.coords[::-1]):
            step = Point(*there).minus(at)
            if math.dist(here, at) < 1e-9 and step.unit().dot(across) > _CLOSING:
                return False
    return True


def _apart(webs: list[Web], most: Mm) -> list[Web]:
    """Return the narrowest of webs that lie beside one another."""
    import shapely

    places = [shapely.Point(_middle(a, b)) for _, a, b in webs]
    spread = shapely.union_all([place.buffer(most / 2, quad_segs=2) for place in places])
    found = []
    for patch in getattr(spread, "geoms", (spread,)):
        here = [web for web, place in zip(webs, places, strict=True) if patch.intersects(place)]
        found += [min(here)] if here else []
    return found


def _part(a: Point, b: Point, t: float) -> Point:
    return Point(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)


def _middle(a: Point, b: Point) -> Point:
    return Point((a.x + b.x) / 2, (a.y + b.y) / 2)
