"""A size's seam as a line to lay on the garment by eye."""

from dataclasses import dataclass

from jigs.geometry import Path
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class SeamLine:
    """Where the seam of some sizes lies when the print is at their wanted place."""

    keys: tuple[str, ...]
    """`table/size` of the sizes that share the line."""
    name: str
    """The sizes, for people: `S–M`."""
    path: Path
    """From left to right, in the template's coordinates."""
    centre: Mm
    """x of the garment's centre line, or of what stands for it, of these sizes."""
    drop: Mm
    """Distance from the line, at the centre, to the print."""
