"""What is said about a drawing, and what is found to break a rule."""

from dataclasses import dataclass
from typing import TypeAlias

from jigs.geometry import Box, Path, Point
from jigs.units import Mm

#: Lines are judged as chords that stray by no more than this, so distances are good to twice it.
CHORD: Mm = 0.01
#: A length that falls short by no more than this is not told: it may be the chords.
SLACK: Mm = 0.02

Where: TypeAlias = Point | Box


@dataclass(frozen=True, slots=True)
class Facts:
    """What a drawing has to keep; what is None is not asked of it."""

    least_web: Mm
    """No bridge of material is narrower."""
    least_inner: Mm
    """No inner corner of the finished part is sharper: its radius."""
    kerf: Mm = 0.0
    """Full width of the cut that the outlines already allow for; 0 for a nominal drawing."""
    plates: int = 1
    seat: Path | None = None
    """The edge that seats: the plate's outline runs along it."""
    engaged: tuple[Mm, Mm] | None = None
    """Between these x the edge must be whole; None is all of it."""
    windows: tuple[Box, ...] = ()
    """What is to be cut out for transfers: two that overlap are one opening."""
    grouped: bool = False
    """Whether lettering comes as bare strokes: then those that touch are one letter."""


@dataclass(frozen=True, slots=True)
class Violation:
    """A rule that is broken: which, a plain sentence with numbers in mm, and where."""

    rule: str
    says: str
    where: Where


def place_text(where: Where, plate: Box) -> str:
    """Return a place for people, counted from the left and the top of the plate."""
    at = where.centre if isinstance(where, Box) else where
    return (
        f"{at.x - plate.left:.1f} mm from the plate's left, {at.y - plate.top:.1f} mm from its top"
    )
