r"""Ledge: a small plate whose far side is the line the trimmed transfer's edge is laid against.

 __         __
|  `-.___.-'  |           edge against the collar seam
|    words    |
|______|______|.....      ledge: the transfer's top edge butts here, its middle at the notch
   transfer    |    |     where there is no room for words, they go on a leg beside it
               |____|
"""

from jigs.drawing.drawing import Drawing, Entity, Layer, Shape
from jigs.geometry import Box, Line, Path, Point
from jigs.styles._lettering import along, fits, fitted, height_needed
from jigs.styles._plate import (
    HOLE,
    OUTER,
    RULER,
    WING,
    Frame,
    outline,
    sides,
    tick,
    wing_rulers,
    words,
    zero,
)
from jigs.styles._style import Style
from jigs.template import Template
from jigs.units import Mm, say

_MARGIN: Mm = 4.0
#: The ledge reaches this far to either side of the artwork's middle, less for small artwork.
_HALF: Mm = 40.0
_LEAST: Mm = 15.0
#: The leg stands off the transfer by this, more than its inner corner is round, and is so wide.
_GAP: Mm = OUTER + 1.0
_LEG: Mm = 46.0
_SMALL: Mm = 2.2
#: Words above the ledge keep this far from the plate's sides, where the hole and the wings are.
_BESIDE: Mm = 14.0


def objection(template: Template) -> str | None:
    """Return why the ledge cannot be cut: it would be too thin on the centre line."""
    depth = _depth(template) - template.relief
    unit = template.unit
    if depth <= 0:
        return f"the print begins too near the level of the {template.seat} for a ledge above it"
    if depth < template.web:
        return (
            f"the drop of {say(template.drop, unit)} leaves a ledge of {say(depth, unit)}, less "
            f"than {say(template.web, unit)}: trim the transfer closer, or use a window"
        )
    return None


def _depth(template: Template) -> Mm:
    """Return the distance from the seat edge, on the centre line, to the transfer."""
    carrier = template.carrier
    frame = Frame.of(template)
    return frame.away(carrier.top if template.hangs else carrier.bottom)


def draw(template: Template) -> Drawing:
    """Return the plate and its marks."""
    frame, depth, middle = Frame.of(template), _depth(template), template.ink.centre.x
    half = max(_LEAST, min(_HALF, template.carrier.width / 2))
    reach = template.reach + WING if template.curved else _LEAST
    left, right = min(-reach, middle - half), max(reach, middle + half)
    beside = max(_BESIDE, template.web + 2 * HOLE + 3.0)
    plain = frame.box(left + beside, 6.0, right - beside, depth - 7.0)
    side, where = ("top", "↓") if template.hangs else ("bottom", "↑")
    lines = words(template)
    lines.insert(2, f"{where} ledge: transfer's {side} edge against it, its middle at the mark")
    if not template.curved:
        lines.insert(1, "← {} · {} →".format(*sides(template)))
    # The hanging hole needs a web on either side of it, from the wing's top to the ledge.
    high = abs(frame.y(depth) - template.edge.end.y) >= 2 * (HOLE + template.web)
    roomy = high and plain.height > 0 and fits(lines, plain, _SMALL)
    far, room = (_straight(frame, left, right, depth), plain)
    if not roomy:
        far, room, right = _with_leg(template, frame, left, right, depth, lines)
    plate = outline(template, left, right, far)
    # The hanging hole is in the corner farthest from the edge: of the plate, or of its leg.
    corner = far[1] if roomy else far[0]
    inwards = HOLE + _round(template)
    hole = Point(corner.x + (inwards if roomy else -inwards), corner.y - frame.sign * inwards)
    start = template.relief
    length = min(5.0, (depth - start) / 3)
    on_left, on_right = sides(template)
    entities: list[Entity] = [
        Shape(Layer.CUT, plate),
        Shape(Layer.CUT, Path.circle(hole, HOLE)),
        tick(Point(0.0, frame.y(start)), Point(0.0, frame.y(start + length))),
        tick(Point(middle, frame.y(depth - length)), Point(middle, frame.y(depth))),
        *fitted(lines, room, 4.0),
        *zero(template, frame),
        *_ends(template, left, right if roomy else reach, on_left, on_right),
        *_transfer(template, frame, depth),
    ]
    if template.curved:
        entities += wing_rulers(template, left, right, gap=1.0, room=RULER - 1.0)
    return Drawing(tuple(entities))


def _round(template: Template) -> Mm:
    """Return the web round the hole in a corner: the corner's rounding keeps as far off."""
    return max(template.web, OUTER - HOLE)


def _straight(frame: Frame, left: Mm, right: Mm, depth: Mm) -> list[Point]:
    return [Point(right, frame.y(depth)), Point(left, frame.y(depth))]


def _with_leg(
    template: Template, frame: Frame, left: Mm, right: Mm, depth: Mm, lines: list[str]
) -> tuple[list[Point], Box, Mm]:
    """Return the far corners with a leg beside the transfer, the leg's room for words, its side."""
    inner = template.carrier.right + _GAP
    outer = max(right, inner + _LEG)
    needed = height_needed(lines, outer - inner - 2 * _MARGIN, _SMALL)
    end = depth + needed + _MARGIN + 2 * (HOLE + _round(template))
    far = [
        Point(outer, frame.y(end)),
        Point(inner, frame.y(end)),
        Point(inner, frame.y(depth)),
        Point(left, frame.y(depth)),
    ]
    return (
        far,
        frame.box(
            inner + _MARGIN, depth + _MARGIN / 2, outer - _MARGIN, end - 2 * HOLE - _round(template)
        ),
        outer,
    )


def _ends(template: Template, left: Mm, right: Mm, on_left: str, on_right: str) -> list[Entity]:
    """Return which side is which, in the wings, where they are high enough to hold it."""
    if not template.curved:
        return []
    top, bottom = template.edge.end.y + 8.0, Frame.of(template).y(_depth(template)) - 4.0
    if bottom - top < 34.0:
        return []
    middle = (top + bottom) / 2
    return [
        along(on_left, Point(left + 5.0, middle), 2.4, 270.0),
        along(on_right, Point(right - 5.0, middle), 2.4, 90.0),
    ]


def _transfer(template: Template, frame: Frame, depth: Mm) -> list[Shape]:
    """Return where the transfer's sides begin, as a note that no tool follows.

    None where it is wider than the ledge, or its width differs: a mark elsewhere would pass for its
    side.
    """
    carrier = template.carrier
    half = carrier.width / 2
    if half > _HALF or template.prints:
        return []
    middle, y = carrier.centre.x, frame.y(depth)
    stub = frame.sign * 4.0
    sides = [Path((Line(Point(x, y), Point(x, y + stub)),)) for x in (middle - half, middle + half)]
    return [Shape(Layer.NOTE, path, dashed=True) for path in sides]


STYLE = Style(
    title="ledge",
    says="a small plate, as a rule on one sheet; gives the transfer's edge and the centre line",
    draw=draw,
    objection=objection,
)
