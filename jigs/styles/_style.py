"""What a jig style is, and what every style has to keep."""

from collections.abc import Callable
from dataclasses import dataclass

from jigs.drawing.drawing import Drawing
from jigs.template import Template


@dataclass(frozen=True, slots=True)
class Style:
    """A jig style: its title, what it is for, and how a template becomes a drawing."""

    title: str
    says: str
    draw: Callable[[Template], Drawing]
    """Drawing in the template's own coordinates; the outline of the plate is its first shape."""
    objection: Callable[[Template], str | None]
    """Why a template cannot be drawn in this style, or None."""
    opening: bool = False
    """Whether the template's window is cut."""
    touch: bool = True
    """Whether the plate seats by touch; one laid on by eye has a line for every size of a width."""
    material: str = ""
    """Name of the known material it is made of, whatever the cutter's; empty: of that."""
