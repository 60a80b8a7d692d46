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
    pages: int = 1
    fonts: tuple[str, ...] = ()
    """Fonts that the file uses and does not hold."""
    problem: str = ""
    """Why nothing could be drawn; empty if it could."""
