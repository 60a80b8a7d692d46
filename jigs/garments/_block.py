"""What every garment block hands out: flat panels with named edges and landmarks."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from jigs.geometry import Cubic, Path, Point
from jigs.tables.measure import Measures
from jigs.units import INCH, Mm


@dataclass(frozen=True, slots=True)
class Edge:
    """A named edge or feature of a panel and how far it may lie from where it is drawn.

    The garment's tolerance, or the uncertainty of an estimate, is a distance square to the edge.
    """

    name: str
    path: Path
    plus_minus: Mm
    level: float = 1.0
    """How level it runs: the share of a shift up or down that counts square to it.

    1 for a hem, 0 for a side seam.
    """
    clear: Mm = 1 * INCH
    """Clearance of a print from it, adults, where the location has none of its own for it."""
    beside: Mm | None = None
    """For an upright area: its plus-minus to either side; `plus_minus` is then that of its length.

    None where one plus-minus holds all round.
    """
    stands: bool = False
    """Whether an area's lower side is the sure one."""
    rests_on: tuple[str, ...] = ()
    """The points of measure that say how far from a print it lies, besides those of the datum."""


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel laid flat; x to the wearer's left, y down.

    Body panels have their origin on the centre line level with the HPS; a pocket lies on the
    front and shares its origin. A sleeve's origin is at the shoulder point on the fold, and it is
    drawn unfolded, symmetric about the fold. A hood's is at the top of its opening edge, and x
    runs to the back of the hood.
    """

    name: str
    outline: Path
    """Closed, without self-crossings."""
    edges: tuple[Edge, ...]
    """The outline again, by name; together they cover it."""
    features: tuple[Edge, ...] = ()
    """What lies on the panel and must not be printed over: a pocket, a placket, a rib.

    An area is a closed path, a seam an open one.
    """

    def edge(self, name: str) -> Edge:
        """Return an edge or feature by its name.

        Raises:
            KeyError: the panel has none of that name.
        """
        for edge in (*self.edges, *self.features):
            if edge.name == name:
                return edge
        raise KeyError(name)


@dataclass(frozen=True, slots=True)
class Seam:
    """What a jig seats on, and how far it may be from where it is drawn."""

    title: str
    """For people: `front collar seam`, `cuff seam`."""
    edges: frozenset[str]
    """The edges and features of its panel that it is, which move along with it."""
    half: Cubic | None = None
    """A collar's half on x >= 0, outwards from the centre; None where it is straight and level."""
    drop: Mm = 0.0
    """Plus-minus of a collar's depth at the centre."""
    width: Mm = 0.0
    """Plus-minus of a collar's half width."""
    engaged: float = 1.0
    """Share of the half width that a jig's edge may lie against at most."""
    how: str = ""
    """What the operator does first so that the jig can reach it."""
    estimated: bool = False
    """Whether its shape, and so its plus-minus, is an estimate."""


@dataclass(frozen=True, slots=True)
class Flat:
    """One size of a garment laid flat."""

    measures: Measures
    panels: Mapping[str, Panel]
    landmarks: Mapping[str, Point]
    spread: Mapping[str, Mm]
    """How far a landmark that prints are measured from may lie from where it is drawn."""
    seams: Mapping[str, Seam]
    """What jigs seat on, by the names that locations know: `front collar`, `sleeve hem`."""
    deeper: Mapping[str, Mm] = field(default_factory=dict)
    """How much deeper than a round neck a collar landmark lies: prints hang that much closer."""
    cautions: Mapping[str, str] = field(default_factory=dict)
    """What to mind at the press when a panel is printed, by the panel's name."""


@dataclass(frozen=True, slots=True)
class Block:
    """A garment: its title, the points of measure it needs, and how it is drawn."""

    title: str
    needs: frozenset[str]
    draw: Callable[[Measures], Flat]
    """Raises ValueError, saying which measurements contradict each other."""
    may: frozenset[str] = frozenset()
    """Points of measure that it draws where a table gives them."""
