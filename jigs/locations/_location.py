"""Where a print hangs on a flat, and every seam, hem and platen that limits its width.

A location is data: panel, datum, drop by age, clearances. All its numbers are common practice
of the trade, no source, unless a line says otherwise.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum

from jigs.garments import Edge, Flat
from jigs.geometry import Box, Line, Path, Point
from jigs.geometry.inscribe import widest
from jigs.geometry.region import holds, without
from jigs.units import FINGER, INCH, Mm

#: Clearances are given for adults; smaller garments are pressed closer to their seams.
_CLEARANCE_BY_AGE = {"adult": 1.0, "youth": 0.75, "toddler": 0.6, "infant": 0.5}
#: The press is weakest along the platen's rim: this much of it is not used, on every side.
PLATEN_RIM: Mm = 0.25 * INCH


class Seen(Enum):
    """Which side the operator looks at; decides where the wearer's left appears."""

    FRONT = "front"
    BACK = "back"
    INSIDE_BACK = "inside back"
    LEFT_SLEEVE = "left sleeve"
    RIGHT_SLEEVE = "right sleeve"

    @property
    def mirrors(self) -> bool:
        """Whether the wearer's left is on the operator's left."""
        return self is Seen.BACK


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


def under_hps(flat: Flat) -> Mm:
    """Return the x of the HPS on the wearer's left: a chest print hangs plumb below it."""
    return flat.landmarks["HPS"].x


def under_right_hps(flat: Flat) -> Mm:
    """Return the x of the HPS on the wearer's right."""
    return -flat.landmarks["HPS"].x


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
    """Usual width of the artwork as a share of the half chest."""
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
    drop_from: str = "the collar seam"
    """How the drop is said to the operator."""
    seat: str = "front collar"
    """The seam its jigs seat on, or the straight edge they lie flush with."""
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
    clearance: Mm


@dataclass(frozen=True, slots=True)
class Room:
    """The greatest width that fits, and what stops a wider one."""

    mm: Mm
    limited_by: str


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

    def room(self, aspect: float) -> Room:
        """Return the largest width at which artwork of an aspect (width / height) fits.

        It is 0 if the anchor is not on the panel at all.
        """
        if not holds(self.outline, self.anchor):
            return Room(0.0, "edge of the panel")
        width, height = self.platen
        best = Room(min(width, height * aspect), "platen")
        for limit in self.limits:
            reach = widest(
                self.anchor,
                aspect,
                hangs=self.hangs,
                line=limit.path.points(),
                clearance=limit.clearance,
            )
            if reach < best.mm:
                best = Room(reach, limit.name)
        return best

    def zone(self) -> Path | None:
        """Return the printable zone as a polygon; None if the anchor itself is too close.

        It is the panel less the clearance from every limit, as far as the platen reaches.
        """
        width, height = self.platen
        x, y = self.anchor
        frame = Box(x - width / 2, y - height, x + width / 2, y + height)
        lines = [(limit.path.points(), limit.clearance) for limit in self.limits]
        return without(self.outline, lines, frame, self.anchor)


def place(
    location: Location, flat: Flat, platen: tuple[Mm, Mm], drop: Mm | None = None
) -> Placement:
    """Return where a location is on one size; a `drop` of the order's own takes precedence.

    The clearance from an edge grows by that edge's plus-minus and that of the datum, added as
    squares since they are independent: the artwork keeps clear on nearly every garment that the
    tolerance allows.

    Raises:
        KeyError: the garment has no such panel or landmark.
    """
    age = flat.measures.age
    panel, datum = flat.panels[location.panel], flat.landmarks[location.datum]
    fallen = location.drop.at(age) if drop is None else drop
    anchor = Point(location.across(flat), datum.y + (fallen if location.hangs else -fallen))
    factor = _CLEARANCE_BY_AGE[age]
    beside = location.keeps_off_centre is not None
    down = flat.spread.get(location.datum, 0.0)
    aside = flat.spread["HPS"] if beside else 0.0
    limits = [
        Limit(
            edge.name,
            edge.path,
            location.clear[edge.name] * factor + _uncertain(edge, down, aside),
        )
        for edge in panel.edges
        if edge.name in location.clear
    ]
    if location.keeps_off_centre is not None:
        box = panel.outline.bounds()
        centre = Path((Line(Point(0.0, box.top), Point(0.0, box.bottom)),))
        limits.append(Limit("centre line", centre, location.keeps_off_centre * factor + aside))
    return Placement(
        outline=panel.outline,
        anchor=anchor,
        hangs=location.hangs,
        drop=fallen,
        limits=tuple(limits),
        platen=(platen[0] - 2 * PLATEN_RIM, platen[1] - 2 * PLATEN_RIM),
    )


def _uncertain(edge: Edge, down: Mm, aside: Mm) -> Mm:
    """Return how much nearer an edge may be to a print than drawn.

    Its own plus-minus, and those of the print's place down and across as far as they count square
    to the edge; independent, so added as squares. The collar is the datum itself: it moves along.
    """
    if edge.name == "collar seam":
        return edge.plus_minus
    return math.hypot(edge.plus_minus, down * edge.level, aside * (1 - edge.level))


def usual_width(location: Location, age: str, half_chest: Mm, aspect: float) -> Mm:
    """Return the usual width of artwork of an aspect on a garment of a half chest."""
    least, most = location.usual[0].at(age), location.usual[1].at(age)
    width = min(max(location.target * half_chest, least), most)
    return min(width, location.tallest.at(age) * aspect)


def body_clearances(collar: Mm) -> dict[str, Mm]:
    """Return the clearances of a print on the body; only the collar's differs by location."""
    return {
        "collar seam": collar,
        "shoulder seam": 0.75 * INCH,
        "armhole seam": 1 * INCH,
        "side seam": 1 * INCH,
        "hem": 2 * INCH,
    }


def chest(title: str, across: Callable[[Flat], Mm]) -> Location:
    """Return a print beside the centre line, plumb below an HPS, four fingers below the collar."""
    return Location(
        title=title,
        panel="front",
        datum="front collar",
        drop=ByAge(adult=4 * FINGER, youth=2.25 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
        seen=Seen.FRONT,
        target=0.175,
        usual=(
            ByAge(adult=3 * INCH, youth=2.5 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
            ByAge(adult=4 * INCH, youth=3.25 * INCH, toddler=2.5 * INCH, infant=2 * INCH),
        ),
        tallest=ByAge(adult=4 * INCH, youth=3.25 * INCH, toddler=2.5 * INCH, infant=2 * INCH),
        clear=body_clearances(collar=0.75 * INCH),
        across=across,
        keeps_off_centre=0.5 * INCH,
    )


def sleeve(title: str, seen: Seen) -> Location:
    """Return a print centred on a short sleeve's fold, above its hem."""
    return Location(
        title=title,
        panel="sleeve",
        datum="sleeve hem",
        drop=ByAge(adult=1 * INCH, youth=0.75 * INCH, toddler=0.625 * INCH, infant=0.5 * INCH),
        seen=seen,
        target=0.15,
        usual=(
            ByAge(adult=2.5 * INCH, youth=2 * INCH, toddler=1.5 * INCH, infant=1 * INCH),
            ByAge(adult=3.5 * INCH, youth=2.75 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        ),
        tallest=ByAge(adult=4 * INCH, youth=3 * INCH, toddler=2 * INCH, infant=1.5 * INCH),
        clear={"armhole seam": 0.75 * INCH, "underarm seam": 1 * INCH, "sleeve hem": 0.5 * INCH},
        hangs=False,
        drop_from="the sleeve hem",
        seat="sleeve hem",
    )
