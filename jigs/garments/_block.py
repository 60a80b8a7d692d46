"""What every garment block hands out: flat panels with named edges and landmarks."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from jigs.geometry import Cubic, Path, Point
from jigs.tables.measure import Measures
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class Edge:
    """A named edge of a panel and how far it may lie from where it is drawn.

    The garment's tolerance, or the uncertainty of an estimate, is a distance square to the edge.
    """

    name: str
    path: Path
    plus_minus: Mm
    level: float = 1.0
    """How level it runs: the share of a shift up or down that counts square to it.

    1 for a hem, 0 for a side seam.
    """


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel laid flat; x to the wearer's left, y down.

    Body panels have their origin on the centre line level with the HPS; a sleeve's is at the
    shoulder point on the fold, and it is drawn unfolded, symmetric about the fold.
    """

    name: str
    outline: Path
    """Closed, without self-crossings."""
    edges: tuple[Edge, ...]
    """The outline again, by name; together they cover it."""

    def edge(self, name: str) -> Edge:
        """Return an edge by its name.

        Raises:
            KeyError: the panel has none of that name.
        """
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(name)


@dataclass(frozen=True, slots=True)
class Seam:
    """The seam a jig seats on: the half on x >= 0, outwards from the centre, and its plus-minus.

    `drop` and `width` are the plus-minus of its depth at the centre and of its half width.
    """

    half: Cubic
    drop: Mm
    width: Mm


@dataclass(frozen=True, slots=True)
class Flat:
    """One size of a garment laid flat."""

    measures: Measures
    panels: Mapping[str, Panel]
    landmarks: Mapping[str, Point]
    spread: Mapping[str, Mm]
    """How far a landmark that prints are measured from may lie from where it is drawn."""
    seams: Mapping[str, Seam]
    """Seams that jigs seat on: `front collar`, `back collar`."""


@dataclass(frozen=True, slots=True)
class Block:
    """A garment: its title, the points of measure it needs, and how it is drawn."""

    title: str
    needs: frozenset[str]
    draw: Callable[[Measures], Flat]
    """Raises ValueError, saying which measurements contradict each other."""
