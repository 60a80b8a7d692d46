"""Where a print hangs on a flat, and every seam, hem and platen that limits its width.

A location is data: panel, datum, drop by age, clearances. All its numbers are common practice
of the trade, no source, unless a line says otherwise.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from jigs.garments import Edge, Flat
from jigs.geometry import Affine, Box, Line, Path, Point
from jigs.geometry.inscribe import widest
from jigs.geometry.region import holds, without
from jigs.units import INCH, Mm

#: Clearances are given for adults; smaller garments are pressed closer to their seams.
_CLEARANCE_BY_AGE = {"adult": 1.0, "youth": 0.75, "toddler": 0.6, "infant": 0.5}
#: The press is weakest along the platen's rim: this much of it is not used, on every side.
PLATEN_RIM: Mm = 0.25 * INCH
#: On a deep neck a print hangs closer to the collar seam, but no closer than this, adults.
LEAST_DROP: Mm = 1.25 * INCH
#: A print that is hung lower to clear something is lowered by whole steps of this.
LOWERED_BY: Mm = 0.25 * INCH


class Seen(Enum):
    """Which side the operator looks at; decides where the wearer's left appears."""

    FRONT = "front"
    BACK = "back"
    INSIDE_BACK = "inside back"
    LEFT_SLEEVE = "left sleeve"
    RIGHT_SLEEVE = "right sleeve"
    LEFT_HOOD = "left side of the hood"
    RIGHT_HOOD = "right side of the hood"
    BAG = "bag"

    @property
    def mirrors(self) -> bool:
        """Whether the panel's x runs to the operator's left."""
        return self in {Seen.BACK, Seen.RIGHT_HOOD}

    @property
    def sides(self) -> tuple[str, str]:
        """What is on the operator's left and right."""
        sides = {
            Seen.LEFT_SLEEVE: ("garment front", "garment back"),
            Seen.RIGHT_SLEEVE: ("garment back", "garment front"),
            Seen.LEFT_HOOD: ("hood opening", "back of the hood"),
            Seen.RIGHT_HOOD: ("back of the hood", "hood opening"),
            Seen.BAG: ("left of the bag", "right of the bag"),
            Seen.BACK: ("wearer's left", "wearer's right"),
        }
        return sides.get(self, ("wearer's right", "wearer's left"))


@dataclass(frozen=True, slots=True)
class ByAge:
    """One length for each age group."""

    adult: Mm
    youth: Mm
    toddler: Mm
    infant: Mm

    def at(self, age: str) -> Mm:
        """Return the length for an age group.

        Raises:
            KeyError: there is no such age group.
        """
        lengths = {
            "adult": self.adult,
            "youth": self.youth,
            "toddler": self.toddler,
            "infant": self.infant,
        }
        return lengths[age]


def on_centre(_flat: Flat) -> Mm:
    """Return the centre line: where most artwork hangs."""
    return 0.0


@dataclass(frozen=True, slots=True)
class Location:
    """A print location."""

    title: str
    panel: str
    """Name of the panel it is on."""
    datum: str
    """Landmark the drop is measured from."""
    drop: ByAge
    """From the datum's level down to the top of the artwork; up to its bottom if `hangs` is off."""
    seen: Seen
    target: float
    """Usual width of the artwork as a share of the half chest, or of a bag's width."""
    usual: tuple[ByAge, ByAge]
    """The least and most that is usual, whatever the garment's size."""
    tallest: ByAge
    """Tall artwork is narrowed until it is no taller than this."""
    clear: Mapping[str, Mm]
    """Clearance from each edge of the panel, adults."""
    across: Callable[[Flat], Mm] = on_centre
    """x of the artwork's middle."""
    hangs: bool = True
    keeps_off_centre: Mm | None = None
    """Clearance from the centre line, for prints beside it."""
    plumb: str = ""
    """Landmark it hangs plumb below, whose place across is as unsure as its spread."""
    drop_from: str = "the collar seam"
    """How a drop from a collar is said to the operator; from a straight seam it is the seam's."""
    seat: str = "front collar"
    """The seam its jigs seat on, or the straight edge they lie flush with."""
    needs: frozenset[str] = frozenset()
    """Landmarks a garment must have for it, besides the datum."""
    lowered: Mm = 0.0
    """How far it may be hung lower, to clear what lies over its usual place: a placket, a hood."""
    engaged: float = 0.5
    """Share of the seam's half width that a jig's edge lies against.

    Less holds the tilt less; more reaches the steep sides of the neck, where a collar a little
    wider than drawn lets the jig sink. On the shipped adult tees half keeps the worst height error
    over the collar's tolerance to 4 mm, where 0.85 would give 10.
    """


@dataclass(frozen=True, slots=True)
class Limit:
    """A line the artwork keeps clear of: what it is, and by how much."""

    name: str
    path: Path
    """Open, or closed round an area that must not be printed on."""
    clearance: Mm
    estimated: bool = False
    """Whether it rests on an estimate."""

    def covers(self, point: Point) -> bool:
        """Return whether it is an area, and a point lies in it."""
        return self.path.closed and holds(self.path, point)


@dataclass(frozen=True, slots=True)
class Room:
    """The greatest width that fits, and what stops a wider one."""

    mm: Mm
    limited_by: str
    covered: bool = False
    """Whether what stops it lies where the print would begin."""
    estimated: bool = False
    """Whether what stops it rests on an estimate."""


@dataclass(frozen=True, slots=True)
class Placement:
    """A location on one size of a garment."""

    outline: Path
    """The panel's outline."""
    anchor: Point
    """Middle of the artwork's top side, or of its bottom side if `hangs` is off."""
    hangs: bool
    drop: Mm
    limits: tuple[Limit, ...]
    platen: tuple[Mm, Mm]
    """Width and height the platen takes at once."""
    cleared: str = ""
    """What it is hung lower than usual to clear; empty if it is not."""

    def room(self, aspect: float) -> Room:
        """Return the largest width at which artwork of an aspect (width / height) fits.

        It is 0 if the anchor is not on the panel at all.
        """
        if not holds(self.outline, self.anchor):
            return Room(0.0, "edge of the panel")
        width, height = self.platen
        best = Room(min(width, height * aspect), "platen")
        for limit in self.limits:
            if limit.covers(self.anchor):
                return Room(0.0, limit.name, covered=True, estimated=limit.estimated)
            reach = widest(
                self.anchor,
                aspect,
                hangs=self.hangs,
                line=limit.path.points(),
                clearance=limit.clearance,
            )
            if reach < best.mm:
                best = Room(reach, limit.name, estimated=limit.estimated)
        return best

    def zone(self) -> Path | None:
        """Return the printable zone as a polygon; None if the anchor itself is too close.

        It is the panel less the clearance from every limit, as far as the platen reaches.
        """
        width, height = self.platen
        x, y = self.anchor
        frame = Box(x - width / 2, y - height, x + width / 2, y + height)
        lines = [(limit.path, limit.clearance) for limit in self.limits]
        return without(self.outline, lines, frame, self.anchor)


def place(
    location: Location, flat: Flat, platen: tuple[Mm, Mm], drop: Mm | None = None
) -> Placement:
    """Return where a location is on one size; a `drop` of the order's own takes precedence.

    The clearance from an edge or feature grows by its plus-minus and that of the datum, added as
    squares since they are independent: the artwork keeps clear on nearly every garment that the
    tolerance allows.

    Raises:
        KeyError: the garment has no such panel, landmark or seam.
    """
    panel, datum = flat.panels[location.panel], flat.landmarks[location.datum]
    factor = _CLEARANCE_BY_AGE[flat.measures.age]
    limits = _limits(location, flat, factor)
    x, down = location.across(flat), 1 if location.hangs else -1
    fallen = _usual_drop(location, flat, factor) if drop is None else drop
    cleared = ""
    if drop is None and location.lowered:
        lowered, over = _lowered(Point(x, datum.y + fallen), limits)
        # What takes more, a zip that runs on to the hem, is said instead of dodged.
        if lowered <= location.lowered:
            fallen, cleared = fallen + lowered, over
    anchor = Point(x, datum.y + down * fallen)
    return Placement(
        outline=panel.outline,
        anchor=anchor,
        hangs=location.hangs,
        drop=fallen,
        limits=tuple(limits),
        platen=(platen[0] - 2 * PLATEN_RIM, platen[1] - 2 * PLATEN_RIM),
        cleared=cleared,
    )


def _limits(location: Location, flat: Flat, factor: float) -> list[Limit]:
    """Return what a print keeps clear of; `factor` is for the garment's age."""
    panel, seat = flat.panels[location.panel], flat.seams[location.seat]
    beside = location.keeps_off_centre is not None
    down = flat.spread.get(location.datum, 0.0)
    aside = flat.spread.get(location.plumb, 0.0)
    # A neck label is inside: what lies on the outside does not matter.
    inside = location.seen is Seen.INSIDE_BACK
    limits = []
    for edge in (*panel.edges, *(() if inside else panel.features)):
        clear = location.clear.get(edge.name, edge.clear)
        path, own = (edge.path, edge.plus_minus) if edge.beside is None else (_grown(edge), 0.0)
        if edge.name == "collar seam" and edge.name in seat.edges:
            # The print hangs from its middle; only beside it counts how wide it is.
            spread = seat.width if beside else 0.0
        elif edge.name in seat.edges:
            # It moves along with the datum; a straight one, or a rib's seam, lies exactly there.
            spread = 0.0 if seat.half is None else own
        else:
            spread = _uncertain(own, edge.level, down, aside)
        guessed = flat.measures.guessed(edge.rests_on)
        limits.append(Limit(edge.name, path, clear * factor + spread, guessed))
    if location.keeps_off_centre is not None:
        box = panel.outline.bounds()
        centre = Path((Line(Point(0.0, box.top), Point(0.0, box.bottom)),))
        limits.append(Limit("centre line", centre, location.keeps_off_centre * factor + aside))
    return limits


def _usual_drop(location: Location, flat: Flat, factor: float) -> Mm:
    """Return the drop from the collar seam, less where the collar is deeper than a round neck's.

    A print on the centre line still keeps off the seam; one beside it may hang from its level.
    """
    usual = location.drop.at(flat.measures.age)
    least = min(usual, LEAST_DROP * factor) if location.keeps_off_centre is None else 0.0
    return max(usual - flat.deeper.get(location.datum, 0.0), least)


def _lowered(anchor: Point, limits: Sequence[Limit]) -> tuple[Mm, str]:
    """Return how much lower an anchor clears all areas that cover it, and the lowest of them."""
    over = [
        (limit.path.bounds().bottom + limit.clearance, limit.name)
        for limit in limits
        if _crowds(limit, anchor)
    ]
    if not over:
        return 0.0, ""
    lowest, name = max(over)
    # In quarter inches, as it is measured; a hair more for the clearance's own arithmetic.
    return math.ceil((lowest - anchor.y) / LOWERED_BY + 1e-6) * LOWERED_BY, name


def _crowds(limit: Limit, anchor: Point) -> bool:
    """Return whether an area covers a point, or lies closer to it from above than it may."""
    if not limit.path.closed:
        return False
    box = limit.path.bounds()
    over = box.left < anchor.x < box.right and box.top <= anchor.y < box.bottom + limit.clearance
    return limit.covers(anchor) or over


def _grown(edge: Edge) -> Path:
    """Return an area at the worst of its plus-minus: wider on both sides, and longer."""
    box, beside = edge.path.bounds(), edge.beside or 0.0
    x, y = (box.width + 2 * beside) / box.width, (box.height + edge.plus_minus) / box.height
    # What hangs grows downwards, what stands on a hem upwards.
    fixed = box.bottom if edge.stands else box.top
    to = Affine.move(-box.centre.x, -fixed)
    return edge.path.moved(to.then(Affine.scale(x, y)).then(Affine.move(box.centre.x, fixed)))


def _uncertain(own: Mm, level: float, down: Mm, aside: Mm) -> Mm:
    """Return how much nearer an edge may be to a print than drawn.

    Its own plus-minus, and those of the print's place down and across as far as they count square
    to the edge; independent, so added as squares.
    """
    return math.hypot(own, down * level, aside * (1 - level))


def lacks(location: Location, flat: Flat) -> bool:
    """Return whether a garment has no place for a location."""
    return not (
        location.panel in flat.panels
        and location.seat in flat.seams
        and {location.datum, *location.needs} <= flat.landmarks.keys()
    )


def usual_width(location: Location, age: str, breadth: Mm, aspect: float) -> Mm:
    """Return the usual width of artwork of an aspect on a garment so wide laid flat."""
    least, most = location.usual[0].at(age), location.usual[1].at(age)
    width = min(max(location.target * breadth, least), most)
    return min(width, location.tallest.at(age) * aspect)
