"""The plate under every style: its outline, rulers, marks and words.

Heights on a plate are counted from its seat edge, as `away`, so that a jig that hangs from a
collar and one that stands on a hem are drawn by the same lines.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jigs.drawing.drawing import Anchor, Layer, Shape, Text
from jigs.geometry import Arc, Box, Line, Path, Point, Segment
from jigs.geometry.path import rounded
from jigs.geometry.point import distance
from jigs.geometry.strokes import width_of
from jigs.locations import Seen
from jigs.template import Seat, Template
from jigs.template.template import drop_text, size_names
from jigs.units import INCH, Mm, say

#: Radius of the plate's outer corners.
OUTER: Mm = 5.0
#: The edge goes on this far beyond the collar it lies against.
WING: Mm = 30.0
#: Depth of a ruler's longest tick with its figure.
RULER: Mm = 9.0
#: Radius of the hole a jig hangs by, and of the half-round centre notches.
HOLE: Mm = 3.0
NOTCH: Mm = 1.5
#: The caution every jig carries.
CAUTION = "Take the jig off before the press closes"


@dataclass(frozen=True, slots=True)
class Frame:
    """The template's seat edge as the origin of a plate: `away` from it is positive."""

    level: Mm
    """y of the edge on the centre line."""
    sign: int
    """1 where the plate lies below its edge, -1 where it lies above."""

    @classmethod
    def of(cls, template: Template) -> "Frame":
        """Return the frame of a template."""
        return cls(template.level, 1 if template.hangs else -1)

    def y(self, away: Mm) -> Mm:
        """Return the y at a distance from the edge."""
        return self.level + self.sign * away

    def away(self, y: Mm) -> Mm:
        """Return the distance from the edge of a y."""
        return (y - self.level) * self.sign

    def box(self, left: Mm, near: Mm, right: Mm, far: Mm) -> Box:
        """Return the box between two distances from the edge."""
        one, two = self.y(near), self.y(far)
        return Box(left, min(one, two), right, max(one, two))


def outline(template: Template, left: Mm, right: Mm, far: Sequence[Point]) -> Path:
    """Return the closed outline of a plate: its seat edge, then its corners round the far side.

    `far` runs from the plate's right side to its left; the shoulders beside a collar's edge are
    level with the edge's ends. Far corners are rounded; the ends of the edge stay sharp, since
    a rounding would take from the edge that seats.
    """
    edge = template.edge
    if not template.curved:
        level = edge.start.y
        corners = [Point(left, level), Point(right, level), *far]
        triples = zip(corners[-1:] + corners, corners, [*corners[1:], corners[0]], strict=False)
        return rounded(corners, [_radius(*three) for three in triples])
    corners = [edge.end, Point(right, edge.end.y), *far, Point(left, edge.start.y), edge.start]
    return edge.then(_rounded_chain(corners))


def _rounded_chain(corners: Sequence[Point]) -> Path:
    """Return the open path through points with square corners, its inner points rounded."""
    segments: list[Segment] = []
    at = corners[0]
    for before, here, after in zip(corners, corners[1:], corners[2:], strict=False):
        radius = _radius(before, here, after)
        into = here.plus(before.minus(here).unit().times(radius))
        out = here.plus(after.minus(here).unit().times(radius))
        segments.append(Line(at, into))
        segments.append(
            Arc(into, out, (2**0.5 - 1) * (1 if _turn(before, here, after) > 0 else -1))
        )
        at = out
    segments.append(Line(at, corners[-1]))
    return Path(tuple(segments))


def _radius(before: Point, here: Point, after: Point) -> Mm:
    """Return the radius of a plate's corner: never most of a side."""
    side = min(distance(before, here), distance(here, after))
    return min(OUTER, 0.4 * side)


def _turn(before: Point, here: Point, after: Point) -> float:
    return here.minus(before).cross(after.minus(here))


def notched(path: Path, at: Point, radius: Mm = NOTCH) -> Path:
    """Return an outline with a half-round notch, inwards, where a straight side passes a point.

    Raises:
        ValueError: no straight side passes there with room for the notch.
    """
    turn = 1.0 if path.area() > 0 else -1.0
    made: list[Segment] = []
    done = False
    for segment in path.segments:
        if isinstance(segment, Line) and not done and _passes(segment, at, radius):
            along = segment.b.minus(segment.a).unit().times(radius)
            one, two = at.minus(along), at.plus(along)
            made += [Line(segment.a, one), Arc(one, two, -turn), Line(two, segment.b)]
            done = True
        else:
            made.append(segment)
    if not done:
        raise ValueError(f"no side of the plate passes {at}")
    return Path(tuple(made))


def _passes(line: Line, at: Point, radius: Mm) -> bool:
    along, to = line.b.minus(line.a), at.minus(line.a)
    length = along.length()
    where = to.dot(along) / length
    return abs(along.cross(to)) < 1e-9 * length and radius * 2 < where < length - radius * 2


def ruler(
    *,
    start: Mm,
    end: Mm,
    y: Mm,
    inwards: int,
    unit: str,
    room: Mm = RULER,
    notch: Mm = 0.0,
) -> list[Shape | Text]:
    """Return a ruler along a level side, counted from the centre line both ways.

    `inwards` is 1 where the plate lies below the side, -1 where it lies above. Inches are
    divided into quarters, centimetres into halves. In less room than a ruler needs the figures
    are left out and the ticks are shorter; the centre's tick begins beyond its notch.
    """
    whole, parts, each = (INCH, 4, 1) if unit == "in" else (10.0, 2, 2)
    marks: list[Shape | Text] = []
    # A tick at the very start of a corner's rounding would end on the plate's edge.
    first = math.ceil((start + 0.2) / whole * parts)
    last = math.floor((end - 0.2) / whole * parts)
    for k in range(first, last + 1):
        x = k * whole / parts
        depth = 5.0 if k % parts == 0 else 3.2 if k % 2 == 0 and parts == 4 else 2.2
        depth *= min(1.0, room / RULER)
        begin = notch if k == 0 else 0.0
        marks.append(tick(Point(x, y + inwards * begin), Point(x, y + inwards * depth)))
        figure = k // parts
        if room >= RULER and k % parts == 0 and figure % each == 0 and k:
            height = 2.2
            low = y + inwards * (5.6 + height / 2) + height / 2
            label = str(abs(figure))
            half = width_of(label, height) / 2
            if start + half < x < end - half:
                marks.append(Text(Layer.ENGRAVE, label, Point(x, low), height, Anchor.MIDDLE))
    return marks


def web(template: Template, box: Box) -> Mm:
    """Return the least distance between the seat edge and a box on its far side."""
    sign = 1 if template.hangs else -1
    side = box.top if template.hangs else box.bottom

    def gap(p: Point) -> Mm:
        beside = max(box.left - p.x, p.x - box.right, 0.0)
        beyond = (side - p.y) * sign
        # Below the near side of the box only the distance to its upright sides is left.
        return math.hypot(beside, beyond) if beyond > 0 else beside

    return min(gap(p) for p in template.edge.points(0.1))


def wing_rulers(
    template: Template, left: Mm, right: Mm, *, gap: Mm, room: Mm
) -> list[Shape | Text]:
    """Return rulers on both wings of a collar's plate: the seam leaves it at the same figure.

    They begin a gap beyond the edge's ends and have some room below them.
    """
    y, reach = template.edge.end.y, template.reach
    marks: list[Shape | Text] = []
    for start, end in ((left + OUTER, -reach - gap), (reach + gap, right - OUTER)):
        marks += ruler(start=start, end=end, y=y, inwards=1, unit=template.unit, room=room)
    return marks


def tick(a: Point, b: Point) -> Shape:
    """Return an engraved straight mark."""
    return Shape(Layer.ENGRAVE, Path((Line(a, b),)))


def words(template: Template) -> list[str]:
    """Return what a jig says, most important first."""
    t = template
    return [
        f"{t.full_title.upper()} · {t.sizes}",
        edge_name(template),
        *([f"first: {t.how}"] if t.how else []),
        *_prints(template),
        t.reference,
        CAUTION,
        *_seats(template),
        *([play_line(template)] if template.curved else []),
    ]


def _prints(template: Template) -> list[str]:
    """Return what is printed and where: two lines, or one for each of two prints."""
    t, other, unit = template, template.beside, template.unit
    drop = drop_text(t.drop, t.drop_from, unit, hangs=t.hangs)
    if other is None:
        return [t.print_text, drop]
    also = drop_text(other.drop, other.drop_from, unit, hangs=t.hangs)
    named = ((t.title, t.ink, drop), (other.title, other.ink, also))
    return [
        f"{title}: print {say(ink.width, unit)} × {say(ink.height, unit)}, {said}"
        for title, ink, said in named
    ]


def _seats(template: Template) -> list[str]:
    """Return the errors of the seats: a line, or one for each of two prints if they differ."""
    other, said = template.beside, seat_line(template.seats, template.estimated)
    also = seat_line(other.seats, template.estimated) if other else said
    if other is None or also == said:
        return [said]
    return [f"{template.title}: {said}", f"{other.title}: {also}"]


def seat_line(seats: Sequence[Seat], estimated: bool) -> str:  # noqa: FBT001
    """Return the errors of the seats, for people: how much too low each size prints."""
    worst = max((one.worst for one in seats), key=abs)
    over = ""
    if abs(worst) >= 0.05:
        side = "low" if worst > 0 else "high"
        within = "the collar's estimate" if estimated else "the collar's tolerance"
        over = f"; within {within} up to {abs(worst):.1f} mm too {side}"
    if all(abs(one.height) < 0.05 for one in seats):
        return f"seats true on {'every size' if len(seats) > 1 else 'this size'}{over}"
    names = size_names([one.key for one in seats])
    said = [f"{name} {_signed(one.height)}" for name, one in zip(names, seats, strict=True)]
    return f"too low by, mm: {', '.join(said)}{over}"


def play_line(template: Template) -> str:
    """Return how far a curved edge can turn and slide before a hand feels it, on any size."""
    turn = max(seat.tilt for seat in template.seats)
    slide = max(seat.play for seat in template.seats)
    return f"felt when turned by {turn:.1f}° or slid by {slide:.1f} mm"


def _signed(value: Mm) -> str:
    rounded = round(value, 1)
    return f"{rounded:+.1f}" if rounded else "0"


def zero(template: Template, frame: Frame) -> list[Text]:
    """Return the 0 beside the seat edge's mark, where the plate speaks of one: not on sleeves."""
    if template.curved or template.seen in {Seen.LEFT_SLEEVE, Seen.RIGHT_SLEEVE}:
        return []
    size = 2.2
    baseline = frame.y(2.4) + size / 2
    return [Text(Layer.ENGRAVE, "0", Point(2.2, baseline), size, Anchor.MIDDLE)]


def turned_over(template: Template) -> bool:
    """Return whether one plate serves the inside and the outside, where left and right change."""
    beside = template.beside
    return beside is not None and beside.seen.mirrors != template.seen.mirrors


def sides(template: Template) -> tuple[str, str]:
    """Return what is on the operator's left and right."""
    return template.seen.sides


def edge_name(template: Template) -> str:
    """Return the instruction at the seat edge."""
    if template.curved:
        return f"↑ {'V' if template.relief else 'curved'} edge up against the {template.seat}"
    arrow = "↑" if template.hangs else "↓"
    return f"{arrow} this edge level with the {template.seat}, {_marks(template)}"


def _marks(template: Template) -> str:
    """Return what the mark at the zero of the rulers is laid on."""
    if template.seen in {Seen.LEFT_HOOD, Seen.RIGHT_HOOD}:
        return "0 at the edge of the hood's opening"
    if template.seen in {Seen.LEFT_SLEEVE, Seen.RIGHT_SLEEVE}:
        return "centre marks on the fold"
    return "0 on the centre line"


def printed_place(template: Template) -> list[Shape]:
    """Return where the ink and its middle come to lie, as notes that no tool follows."""
    notes = []
    for ink in template.inks:
        middle = ink.centre.x
        upright = Path((Line(Point(middle, ink.top), Point(middle, ink.bottom)),))
        notes += [Shape(Layer.NOTE, path, dashed=True) for path in (Path.box(ink), upright)]
    return notes
