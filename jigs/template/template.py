"""A jig's geometry as the operator sees it: x to the right, y down, the centre line at x = 0."""

from dataclasses import dataclass

from jigs.garments._parts import both_sides
from jigs.geometry import Box, Cubic, Line, Path, Point
from jigs.geometry.contact import parameter_at
from jigs.locations import Location, Seen
from jigs.template.ranges import Run
from jigs.template.seat import Seat
from jigs.units import Mm, say


@dataclass(frozen=True, slots=True)
class Template:
    """A jig without a style: an edge that seats on the garment and the print's place by it."""

    title: str
    """The location's title."""
    seen: Seen
    seat: str
    """What the edge seats on: `front collar`, `back collar`, `sleeve hem`."""
    edge: Path
    """From left to right; a collar's is concave, a hem's straight."""
    hangs: bool
    """Whether the plate lies below its edge (collar) or above it (hem)."""
    ink: Box
    carrier: Box
    """The trimmed transfer."""
    window: Box
    """The carrier and its slip."""
    drop: Mm
    drop_from: str
    sizes: str
    """The sizes, for people: `adult crew tee S–XL`."""
    seats: tuple[Seat, ...]
    reference: str
    """Order reference and print name, or what else tells the jig from others."""
    unit: str
    """`in` or `mm`: how the jig speaks."""
    prints: str = ""
    """What the jig is for where its prints differ in width, such as `numbers, 10 in high`.

    `ink` is then that of the widest.
    """

    @property
    def middle(self) -> Point:
        """Point of the edge on the centre line."""
        half = len(self.edge.segments) // 2
        return self.edge.segments[half].a if half else self.edge.segments[0].at(0.5)

    @property
    def print_text(self) -> str:
        """What the jig says of the prints it is for."""
        if self.prints:
            return self.prints
        return f"print {say(self.ink.width, self.unit)} × {say(self.ink.height, self.unit)}"

    @property
    def reach(self) -> Mm:
        """Half the width of the edge."""
        return self.edge.end.x

    @property
    def room(self) -> Mm:
        """Distance from the edge, on the centre line, to the window."""
        if self.hangs:
            return self.window.top - self.middle.y
        return self.middle.y - self.window.bottom


def template(
    run: Run,
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
    """Return the template of a run of sizes for a print of a width and height of ink.

    `trim` is the carrier left on each side of the ink, `slip` the window's room on each side.
    """
    lead = run.lead
    across = -lead.across if location.seen.mirrors else lead.across
    if lead.seam is None:
        # The lower end of a sleeve drawn from its hem: the edge itself is y = 0.
        reach = width / 2 + trim + slip
        edge = Path((Line(Point(-reach, 0.0), Point(reach, 0.0)),))
        ink = Box(across - width / 2, -lead.drop - height, across + width / 2, -lead.drop)
    else:
        edge = both_sides(Path((cut_at(lead.seam.half, run.engaged),)))
        top = lead.seam.half.a.y + lead.drop
        ink = Box(across - width / 2, top, across + width / 2, top + height)
    return Template(
        title=location.title,
        seen=location.seen,
        seat=location.seat,
        edge=edge,
        hangs=location.hangs,
        ink=ink,
        carrier=ink.grown(trim),
        window=ink.grown(trim + slip),
        drop=lead.drop,
        drop_from=location.drop_from,
        sizes=sizes,
        seats=run.seats,
        reference=reference,
        unit=unit,
    )


def cut_at(half: Cubic, x: Mm) -> Cubic:
    """Return the part of half a collar from the centre out to an x."""
    return half.split(parameter_at(half, x))[0]


def drop_text(drop: Mm, drop_from: str, unit: str, *, hangs: bool) -> str:
    """Return the drop as it is said to the operator, with its datum."""
    side = "below" if hangs else "above"
    return f"drop {say(drop, unit)} {side} {drop_from}"
