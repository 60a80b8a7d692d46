"""An order: garments with their sizes, prints with their wishes, and the shop's equipment."""

from dataclasses import dataclass, field

from jigs.order.team import Team
from jigs.units import INCH, POINT, Mm

#: Degrees by which artwork may be turned, clockwise.
TURNS = (0, 90, 180, 270)
#: No tool for sheets takes away more than this, and no bridge that is left by the way is wider.
MOST_KERF: Mm = 2.0
MOST_TAB: Mm = 5.0
#: A plate is laid out for bridges and inner corners up to these.
MOST_WEB: Mm = 12.0
MOST_CORNER: Mm = 5.0
#: Ticks and words beside an edge are laid out for as much.
_MARKS: Mm = 5.0
#: A tool leaves inner corners as round as half its kerf; to be led round them they are rounder.
_ROUNDER: Mm = 0.05


@dataclass(frozen=True, slots=True)
class GarmentLine:
    """One garment of the order: a size table, a colour, and how many of each size."""

    name: str
    table: str
    """Name of a size table, or the path of a table file beside the order."""
    colour: str
    """Colour name as the customer says it."""
    colour_hex: str
    """`#rrggbb` for pictures and contrast."""
    quantities: tuple[tuple[str, int], ...]
    """Size name and pieces, in the order's own sequence; every quantity is positive."""


@dataclass(frozen=True, slots=True)
class Print:
    """One location with its artwork and wishes."""

    name: str
    """Unique in the order; names the output files. Defaults to the location."""
    location: str
    artwork: str
    """Path of the artwork file, relative to the order."""
    garments: tuple[str, ...]
    """Names of the garment lines it goes on."""
    width: Mm | None = None
    """Wanted width of the ink; None is automatic."""
    widths: tuple[tuple[str, Mm], ...] = ()
    """A width per range of sizes, such as ("S-XL", 279.4), instead of one for all."""
    drop: Mm | None = None
    """Drop that overrides the location's own."""
    styles: tuple[str, ...] = ("window", "ledge")
    """Jig styles to make."""
    turn: int = 0
    """Degrees by which the artwork is turned clockwise: 0, 90, 180 or 270."""
    page: int = 1
    """Page of an artwork file that has several."""
    plate_with: str = ""
    """Name of another print that one plate is to serve as well, where one can."""
    ignore_specks: bool = False
    """Whether small things away from all else are left out of the artwork."""


@dataclass(frozen=True, slots=True)
class Paper:
    """The paper that jigs are printed on: its name, its size upright, what the printer leaves."""

    name: str = "letter"
    width: Mm = 8.5 * INCH
    height: Mm = 11 * INCH
    margin: Mm = 0.25 * INCH
    """Unprintable edge on all sides."""
    overlap: Mm = 10.0
    """How much neighbouring tiles share."""


@dataclass(frozen=True, slots=True)
class Printer:
    """Factors by which a drawing is stretched so that the printed page measures true."""

    x: float = 1.0
    y: float = 1.0


@dataclass(frozen=True, slots=True)
class Material:
    """What a jig is cut from; without anything said, the known `acrylic-3mm`."""

    title: str = "acrylic, 3 mm"
    """For people."""
    tool: str = "a laser"
    """What it is usually cut with; empty for a shop's own."""
    kerf: Mm = 0.2
    """Full width that the usual tool takes away."""
    web: Mm = 5.0
    """No bridge is left narrower."""
    corner: Mm = 1.5
    """Radius below which no inner corner is cut."""
    thickness: tuple[Mm, Mm] | None = (2.7, 3.3)
    """Least and most; None where it is not known."""
    cautions: tuple[str, ...] = (
        "Acrylic burns: it can flare up and go on burning. Never leave it unattended.",
        "Run the extraction: its fumes irritate and the vapour is flammable.",
        "Flames or drops on the underside mean too slow a pass: stop, and look before going on.",
    )
    """Sentences."""


@dataclass(frozen=True, slots=True)
class Cutter:
    """The laser or knife: what it removes, how far it reaches, what it cuts."""

    kerf: Mm = 0.2
    """Full width of the cut; outlines move by half of it. The material's, if nothing is said."""
    bed_width: Mm = 600.0
    bed_height: Mm = 400.0
    material: Material = field(default_factory=Material)
    tabs: Mm = 0.0
    """Length of the bridges left uncut, so that nothing falls out; 0 is none."""
    fit: Mm = 0.1
    """Gap across the key of a joint, half of it on either side (common practice, no source)."""
    stock: tuple[Mm, Mm] | None = None
    """Sheets that are cut; None where they are as large as the bed."""
    own: bool = False
    """Whether the order has a cutter of its own: then its plates also come on sheets to cut."""

    @property
    def web(self) -> Mm:
        """Narrowest bridge that is drawn: the material's, and no less than marks need."""
        return max(self.material.web, _MARKS)

    @property
    def inner(self) -> Mm:
        """Least radius of an inner corner: the material's, and no less than the tool leaves."""
        left = max(self.material.corner, self.kerf / 2)
        rounder = self.kerf / 2 + _ROUNDER
        return max(left, rounder) if left else 0.0

    @property
    def sheet(self) -> tuple[Mm, Mm]:
        """The most that can be cut at once: of the bed, what the stock covers."""
        bed = self.bed_width, self.bed_height
        if self.stock is None:
            return bed
        ways = [
            (min(bed[0], wide), min(bed[1], high)) for wide, high in (self.stock, self.stock[::-1])
        ]
        return max(ways, key=lambda way: way[0] * way[1])


@dataclass(frozen=True, slots=True)
class Press:
    """The heat press's platen."""

    platen_width: Mm = 16 * INCH
    platen_height: Mm = 20 * INCH


@dataclass(frozen=True, slots=True)
class Transfer:
    """How transfers are trimmed, in what steps widths are ordered, and what holds in print."""

    trim: Mm = 0.25 * INCH
    """Carrier left around the ink on every side when trimmed."""
    slip: Mm = 0.5
    """Room between the trimmed carrier and the window, on every side."""
    step: Mm = 0.25 * INCH
    """Widths are rounded to this."""
    line: Mm = 1 * POINT
    """Thinnest line of ink that holds (common practice, no source)."""
    gap: Mm = 1.5 * POINT
    """Narrowest gap in the ink that stays open (common practice, no source)."""
    least_ppi: float = 150.0
    """Fewest pixels per inch of print that do not show as steps (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Order:
    """A whole order."""

    reference: str
    """Names the output folder; letters, digits, dot, dash and underscore."""
    customer: str
    units: str
    """`in` or `mm`: how reports speak."""
    garments: tuple[GarmentLine, ...]
    prints: tuple[Print, ...]
    paper: Paper = field(default_factory=Paper)
    printer: Printer = field(default_factory=Printer)
    cutter: Cutter = field(default_factory=Cutter)
    press: Press = field(default_factory=Press)
    transfer: Transfer = field(default_factory=Transfer)
    team: Team | None = None
    profile: str = ""
    """Path of a printer's profile, relative to the order; its factors take the printer's place."""

    def garment(self, name: str) -> GarmentLine:
        """Return a garment line by its name.

        Raises:
            KeyError: there is none of that name.
        """
        for line in self.garments:
            if line.name == name:
                return line
        raise KeyError(name)
