"""What a renderer is asked, and what it answers."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from jigs.geometry import Box

#: What is to be drawn, and how: `kind` names the renderer, the rest is the renderer's own.
Task: TypeAlias = Mapping[str, str | float | bool]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What a renderer saw of a file: lengths in the file's own unit."""

    width: float = 0.0
    height: float = 0.0
    ink: Box | None = None
    preview: bytes = b""
    white_ground: bool = False
    """Whether a white rectangle fills the page of a drawing."""
    pages: int = 1
    fonts: tuple[str, ...] = ()
    """Fonts that the file uses and does not hold."""
    ground: str = "transparent"
    """What the ink of a picture was told apart from: see `Artwork.ground`."""
    accuracy: float = 0.0
    """How far a side of a picture's ink may be off, in pixels."""
    white_inside: float = 0.0
    """Part of a picture's ink box that is white and shut in by ink, on a white ground."""
    ppi: tuple[float, float] | None = None
    """A picture's own resolution, across and down."""
    says: tuple[str, ...] = ()
    """What was done to read it."""
    problem: str = ""
    """Why nothing could be drawn; empty if it could."""
    remedy: str = "save or export it again and check that it opens"
    """What helps against the problem."""
