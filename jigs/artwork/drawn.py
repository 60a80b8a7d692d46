"""What a renderer is asked, and what it answers."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeAlias

from jigs.artwork.detail import Detail, Remark
from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image

#: What is to be drawn, and how: `kind` names the renderer, the rest is the renderer's own.
Task: TypeAlias = Mapping[str, str | float | bool]


class Page(Protocol):
    """A page that can be drawn, any part of it at any magnification."""

    @property
    def width(self) -> float:
        """Width, in the file's own unit."""

    @property
    def height(self) -> float:
        """Height, in the same unit."""

    def render(self, part: Box, across: int, down: int, *, crisp: bool = False) -> "Image.Image":
        """Return a part of the page, filling so many pixels, as RGBA.

        `crisp` is without antialiasing: a pixel has the one colour that is painted there.
        """


@dataclass(frozen=True, slots=True)
class PageOver:
    """A page of the size of another one, which it draws otherwise."""

    page: Page

    @property
    def width(self) -> float:
        """Width, in the file's own unit."""
        return self.page.width

    @property
    def height(self) -> float:
        """Height, in the same unit."""
        return self.page.height


@dataclass(frozen=True, slots=True)
class Drawn:
    """What a renderer saw of a file: lengths in the file's own unit."""

    width: float = 0.0
    height: float = 0.0
    ink: Box | None = None
    preview: bytes = b""
    pages: int = 1
    page: int = 1
    """Which of the pages it is."""
    fonts: tuple[str, ...] = ()
    """Fonts that the file uses and does not hold."""
    ground: str = "transparent"
    """What the ink was told apart from: see `Artwork.ground`."""
    accuracy: float = 0.0
    """How far a side of a picture's ink may be off, in pixels."""
    white_inside: float = 0.0
    """Part of a picture's ink box that is white and shut in by ink, on a white ground."""
    ppi: tuple[float, float] | None = None
    """A picture's own resolution, across and down."""
    says: tuple[str, ...] = ()
    """What was done to read it."""
    remarks: tuple[Remark, ...] = ()
    """What is no flat, outlined spot colour; its boxes are in mm."""
    separations: tuple[tuple[str, str], ...] = ()
    """Name and colour (`#rrggbb`) of each ink that the file names."""
    detail: Detail | None = None
    """What a close look found, in the file's own unit; its remarks are those above."""
    problem: str = ""
    """Why nothing could be drawn; empty if it could."""
    remedy: str = ""
    """What to do about the problem, if it is more than to save the file again."""
