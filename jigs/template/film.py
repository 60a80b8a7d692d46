"""The template of a sheet that is laid on by eye: a seam line for every size of one width."""

from collections.abc import Sequence
from dataclasses import replace

from jigs.garments._parts import both_sides
from jigs.geometry import Affine, Box, Cubic, Line, Path, Point
from jigs.geometry.point import distance
from jigs.locations import Location
from jigs.template.seam_line import SeamLine
from jigs.template.seat import Seat, Stand
from jigs.template.template import Template, how_of, seat_of
from jigs.units import Mm

#: Sizes whose lines are nowhere farther apart share one; the eye lays a line no closer.
ALIKE: Mm = 0.5
#: Sizes share a line only if their prints hang alike to within this.
_LEVEL: Mm = 0.01
#: A straight seam's line goes on this far beyond the transfer, and beyond the centre line.
_BEYOND: Mm = 12.0


def film(
    stands: Sequence[Stand],
    location: Location,
    *,
    width: Mm,
    height: Mm,
    trim: Mm,
    slip: Mm,
    sizes: str,
    reference: str,
    unit: str = "in",
) -> Template:
    """Return the template with a seam line for every size, all for a print of one width.

    Every size has its line at its own drop and centre, so that none has an error by the drawing.

    Raises:
        ValueError: there are no sizes, or some have a collar there and some a straight seam.
    """
    if not stands:
        raise ValueError("no sizes, no film")
    first = stands[0]
    half = first.seam.half
    if any((one.seam.half is None) != (half is None) for one in stands):
        raise ValueError("a collar and a straight seam do not share a film")
    across = [one.across for one in stands]
    middle = (min(across) + max(across)) / 2 * _sign(location)
    level = half.a.y if half else 0.0
    top = level + first.drop if location.hangs else level - first.drop - height
    ink = Box(middle - width / 2, top, middle + width / 2, top + height)
    lines = seam_lines(stands, ink, location, trim)
    drops = [one.drop for one in stands]
    seat = seat_of(stands)
    return Template(
        title=location.title,
        seen=location.seen,
        seat=seat,
        how=how_of(stands),
        level=level,
        edge=lines[0].path,
        curved=half is not None,
        hangs=location.hangs,
        ink=ink,
        carrier=ink.grown(trim),
        window=ink.grown(trim + slip),
        drop=(min(drops) + max(drops)) / 2,
        drop_from=location.drop_from if half else f"the {seat}",
        sizes=sizes,
        seats=tuple(Seat(one.key, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0) for one in stands),
        estimated=any(one.seam.estimated for one in stands),
        reference=reference,
        unit=unit,
        seams=lines,
    )


def _sign(location: Location) -> int:
    """Return -1 where the operator sees the panel's x run to the left."""
    return -1 if location.seen.mirrors else 1


def seam_lines(
    stands: Sequence[Stand], ink: Box, location: Location, trim: Mm
) -> tuple[SeamLine, ...]:
    """Return each size's line by the ink at its wanted place; sizes that are alike share one.

    Curves of third degree are nowhere farther apart than the farthest two of their control
    points (a Bezier curve lies in the hull of its control points, and so does the difference of
    two). A shared line is that of its first size. `name` is left empty: only the caller knows the
    tables' titles.
    """
    centres = [ink.centre.x - one.across * _sign(location) for one in stands]
    ends = min(ink.left - trim, *centres) - _BEYOND, max(ink.right + trim, *centres) + _BEYOND
    found: list[tuple[SeamLine, tuple[Point, ...]]] = []
    for one, centre in zip(stands, centres, strict=True):
        level = ink.top - one.drop if location.hangs else ink.bottom + one.drop
        path = _path(one.seam.half, centre, level, ends)
        marks = (Point(centre, level), *_controls(path))
        for k, (line, others) in enumerate(found):
            near = all(distance(a, b) < ALIKE for a, b in zip(marks, others, strict=True))
            if near and abs(one.drop - line.drop) < _LEVEL:
                found[k] = replace(line, keys=(*line.keys, one.key)), others
                break
        else:
            found.append((SeamLine((one.key,), "", path, centre, one.drop), marks))
    return tuple(line for line, _ in found)


def _path(half: Cubic | None, centre: Mm, level: Mm, ends: tuple[Mm, Mm]) -> Path:
    """Return a seam from left to right, its middle at a place; a straight one between its ends."""
    if half is None:
        return Path((Line(Point(ends[0], level), Point(ends[1], level)),))
    whole = both_sides(Path((half,)))
    return whole.moved(Affine.move(centre, level - half.a.y))


def _controls(path: Path) -> tuple[Point, ...]:
    last = path.segments[-1]
    return (last.a, last.p, last.q, last.b) if isinstance(last, Cubic) else (last.a, last.b)
