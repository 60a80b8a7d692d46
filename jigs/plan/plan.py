"""What an order comes to: values only, so that a plan can be kept and rendered again.

Entries of registries (garments, locations, styles) stand in it by name, never as functions.
"""

from dataclasses import dataclass

from jigs.artwork.artwork import Artwork
from jigs.errors import Finding
from jigs.geometry import Box, Point
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.tables.measure import Measures
from jigs.team.fit import Setting
from jigs.team.rules import RuleSet
from jigs.template import Template
from jigs.units import Mm
from jigs.widths import WidthPlan


@dataclass(frozen=True, slots=True)
class Shop:
    """The equipment and habits an order is made with."""

    paper: Paper
    printer: Printer
    cutter: Cutter
    press: Press
    transfer: Transfer


@dataclass(frozen=True, slots=True)
class TableFacts:
    """A size table as far as documents name it."""

    name: str
    title: str
    short: str
    """What tells it from the others in few words: `adult`, or its name where that is not enough."""
    cut: str
    age: str
    source: str
    sizes: tuple[str, ...]
    """All its sizes, in order."""
    whole: str
    """What widths of prints are a share of: `chest`, or `bag`."""


@dataclass(frozen=True, slots=True)
class SizePlan:
    """One size that the order has, with all its measurements and where each comes from."""

    key: str
    """`table/size`."""
    title: str
    """For people: `adult M`."""
    cut: str
    measures: Measures


@dataclass(frozen=True, slots=True)
class Garment:
    """A garment line of the order."""

    name: str
    table: str
    colour: str
    colour_hex: str
    quantities: tuple[tuple[str, int], ...]
    """`table/size` and pieces."""


@dataclass(frozen=True, slots=True)
class Placed:
    """Where one size's print hangs on its panel, and how large it is."""

    key: str
    anchor: Point
    """Middle of the ink's top side, or of its bottom side if it does not hang."""
    width: Mm
    height: Mm

    def box(self, *, hangs: bool) -> Box:
        """Return where the ink lies on the panel."""
        x, y = self.anchor
        top = y if hangs else y - self.height
        return Box(x - self.width / 2, top, x + self.width / 2, top + self.height)


@dataclass(frozen=True, slots=True)
class JigPlan:
    """One jig: its style, its template, the files' common name."""

    style: str
    stem: str
    template: Template


@dataclass(frozen=True, slots=True)
class HeldAt:
    """How artwork holds at one width."""

    sizes: tuple[str, ...]
    """`table/size`; none outside an order."""
    width: Mm
    height: Mm
    line: Mm | None
    """Thinnest line at this width; None if there is none."""
    gap: Mm | None
    """Narrowest gap, likewise."""
    ppi: float | None
    """Pixels per inch of print; None if there are no pixels."""
    holds: bool
    """Whether lines, gaps and pixels are all within the limits."""


@dataclass(frozen=True, slots=True)
class Contrast:
    """How one ink stands out on one garment colour."""

    ink: int
    """Which of the inks that a close look found."""
    garment: str
    """The garment's colour as the order calls it."""
    garment_hex: str
    ratio: float
    """Of WCAG 2: 1 is none, 21 is black on white."""
    difference: float
    """CIEDE2000."""


@dataclass(frozen=True, slots=True)
class Holding:
    """Whether artwork holds at the widths it is printed at, on the colours it is printed on."""

    rows: tuple[HeldAt, ...]
    """One for each width."""
    least: Mm | None
    """Least width at which lines and gaps are wide enough; None if there are neither."""
    most: Mm | None
    """Greatest width at which there are pixels enough; None if there are no pixels."""
    contrasts: tuple[Contrast, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Lying:
    """One size as it lies on the platen, as the operator sees it.

    x runs to the operator's right from the platen's middle, y down from its top edge, which is
    the one that the garment's top, or a sleeve's shoulder, is laid towards.
    """

    key: str
    """`table/size`."""
    ink: Box
    """For names and numbers, round all that are pressed on the size."""
    thick: tuple[str, ...]
    """The seams and features of the printed side that lie on the platen."""


@dataclass(frozen=True, slots=True)
class Load:
    """How garments of some sizes are laid on the platen, all alike."""

    seam: str
    """The seam that is laid at one level: `front collar seam`."""
    edge: str
    """Which edge of the platen the seam's distance is taken from: `top` or `bottom`."""
    level: Mm
    """Of the seam, on the garment's centre line, below the platen's top edge."""
    aside: Mm
    """How far right of the platen's middle the garment's centre line is laid, 0 if on it.

    On a sleeve it is the fold, on a hood the edge of its opening.
    """
    fits: bool
    """Whether all the ink lies on the platen, off its rim."""
    lying: tuple[Lying, ...]


@dataclass(frozen=True, slots=True)
class PrintPlan:
    """One print of the order: its widths, its places, its jigs."""

    name: str
    location: str
    garments: tuple[str, ...]
    artwork: Artwork
    widths: WidthPlan
    placed: tuple[Placed, ...]
    jigs: tuple[JigPlan, ...]
    held: Holding | None = None
    """None if its artwork was not looked at closely."""
    loads: tuple[Load, ...] = ()
    """How its garments are laid on the platen; one for all sizes, unless they need more."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is to be said of its artwork and its widths, and of the one at the other."""
        held = self.held.findings if self.held else ()
        return (*self.artwork.findings, *self.widths.findings, *held)


@dataclass(frozen=True, slots=True)
class TeamMark:
    """One text on one garment: which, where, how large, and what stops a larger one."""

    kind: str
    """`back-name`, `back-number` or `front-number`."""
    text: str
    anchor: Point
    """Where it hangs: the middle of the top of a name's flat capitals, or of a number's ink."""
    drop: Mm
    height: Mm
    """Of the flat figures or capitals."""
    width: Mm
    """Of the ink."""
    ink_height: Mm
    """With what rises above flat letters: round ones, and marks."""
    rise: Mm
    """How far a name's ink rises above the anchor."""
    most: Mm
    """The greatest height at which it fits."""
    stops: str
    """What stops a greater one: an edge's name or `platen`."""

    @property
    def box(self) -> Box:
        """Where the ink lies on the panel."""
        x, top = self.anchor.x, self.anchor.y - self.rise
        return Box(x - self.width / 2, top, x + self.width / 2, top + self.ink_height)


@dataclass(frozen=True, slots=True)
class TeamEntry:
    """One entry of the list with its texts."""

    row: int
    """Its line in the list."""
    garment: str
    key: str
    """`table/size`."""
    name: str
    number: str
    quantity: int
    marks: tuple[TeamMark, ...]
    """From the top down: a name before the number below it."""


@dataclass(frozen=True, slots=True)
class TeamPrint:
    """One kind of print: how it is set for the whole team, and its jigs."""

    setting: Setting
    trim_above: Mm
    """Carrier left above a name's flat capitals, or a number's ink: the ledge is made for it."""
    jigs: tuple[JigPlan, ...]
    loads: tuple[Load, ...] = ()


@dataclass(frozen=True, slots=True)
class TeamPlan:
    """A team's names and numbers, set and placed."""

    list: str
    """The list's file."""
    rules: RuleSet
    font: str
    """Which font, with its version: another may have other outlines."""
    prints: tuple[TeamPrint, ...]
    entries: tuple[TeamEntry, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole order, computed."""

    reference: str
    customer: str
    units: str
    shop: Shop
    tables: tuple[TableFacts, ...]
    sizes: tuple[SizePlan, ...]
    garments: tuple[Garment, ...]
    prints: tuple[PrintPlan, ...]
    findings: tuple[Finding, ...]
    """What is to be said about the order beyond its prints' own findings."""
    team: TeamPlan | None = None

    def size(self, key: str) -> SizePlan:
        """Return a size by its key.

        Raises:
            KeyError: the plan has none of that key.
        """
        for one in self.sizes:
            if one.key == key:
                return one
        raise KeyError(key)

    def all_findings(self) -> tuple[Finding, ...]:
        """Return the order's findings, those of every print, named by it, and those of the team."""
        named = [
            Finding(one.blocks, f"{each.name}, {one.about}", one.says)
            for each in self.prints
            for one in each.findings
        ]
        team = self.team.findings if self.team else ()
        return (*self.findings, *dict.fromkeys(named), *team)

    @property
    def jigs(self) -> tuple[JigPlan, ...]:
        """Every jig of the order, those of the team last."""
        own = [jig for one in self.prints for jig in one.jigs]
        team = [jig for one in (self.team.prints if self.team else ()) for jig in one.jigs]
        return (*own, *team)

    @property
    def blocked(self) -> bool:
        """Whether a finding says not to order or press like this."""
        return any(one.blocks for one in self.all_findings())
