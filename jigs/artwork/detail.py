"""What a close look at artwork finds; all lengths at the size of the file's page.

Everything here grows with the print: at a printed width of w, a length is w / (width of the ink)
times as long. So a file is looked at once, whatever the widths it is printed at.
"""

from dataclasses import dataclass

from jigs.geometry import Box, Point
from jigs.units import Mm

#: Kinds of thin places: ink between what is none, and what is none between ink.
LINE, GAP = "line", "gap"


@dataclass(frozen=True, slots=True)
class Ink:
    """One colour, printed on its own."""

    colour: str
    """`#rrggbb` as the file shows it."""
    share: float
    """Part of all inked area, 0 to 1."""
    name: str = ""
    """What the file calls it, if it names its separations."""


@dataclass(frozen=True, slots=True)
class Thin:
    """A place where a line or a gap is thinner than round about."""

    kind: str
    """`line` or `gap`."""
    ink: int | None
    """Which of the inks; None for all of them taken together."""
    width: Mm
    at: Point
    """Its middle, on the page."""
    across: Point
    """Unit vector from one of its sides to the other."""


@dataclass(frozen=True, slots=True)
class Remark:
    """Something in a file that is no flat, outlined spot colour."""

    kind: str
    """What it is: `gradient`, `opacity`, `blend`, `image`, `pattern`, `filter`, `text`, ..."""
    says: str
    """What to know of it, for people."""
    where: Box | None = None
    """Its box on the page."""
    pixels: int = 0
    """Pixels across `where`, for an embedded image."""


@dataclass(frozen=True, slots=True)
class Detail:
    """What a close look found."""

    centroid: Point
    """Middle of the inked area's weight, on the page: the optical centre."""
    inks: tuple[Ink, ...]
    """Largest share first."""
    flat: bool
    """Whether these inks are all; else there are shades, and these are the main ones."""
    thin: tuple[Thin, ...]
    """The thinnest places of each ink, and of all together; thinnest first."""
    specks: tuple[Box, ...] = ()
    """Small things away from all else, on the page: left out if that was asked for."""
    remarks: tuple[Remark, ...] = ()
    body: Box | None = None
    """Box of all ink but the specks; None if there are none."""
    separations: tuple[tuple[str, str], ...] = ()
    """Name and colour (`#rrggbb`) of each ink that the file names, laid down in full or not."""
