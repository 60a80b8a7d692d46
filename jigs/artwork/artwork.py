"""Artwork as the rest of the program sees it: the box of its ink, and how it looks."""

from dataclasses import dataclass

from jigs.artwork.detail import Detail
from jigs.errors import Finding
from jigs.geometry import Box
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class Artwork:
    """A file of artwork, trimmed to its ink."""

    name: str
    """File name, for people."""
    kind: str
    """svg, pdf or png."""
    sha256: str
    page_width: Mm
    page_height: Mm
    """Size of the file's page or canvas; for a raster, at its own resolution or 300 ppi."""
    ink: Box
    """Box of the ink on that page."""
    accuracy: Mm
    """How far a side of the ink box may be off, at the size of the file's page."""
    ground: str
    """`transparent` or `white`: what the ink was told apart from; `none` if all is ink."""
    preview: bytes
    """PNG of the ink box alone, transparent ground, for pictures."""
    findings: tuple[Finding, ...] = ()
    turn: int = 0
    """Degrees by which the file is turned clockwise for printing; the rest is as turned."""
    detail: Detail | None = None
    """What a close look found; None if there was none."""
    density: float = 0.0
    """Pixels per mm of a raster, at the size of the file's page; 0 if there are none."""

    @property
    def aspect(self) -> float:
        """Width of the ink over its height."""
        return self.ink.width / self.ink.height

    def height_at(self, width: Mm) -> Mm:
        """Return the ink's height when it is printed at a width."""
        return width / self.aspect
