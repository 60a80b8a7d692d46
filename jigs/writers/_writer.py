"""What a file of `writers/` defines: one output format."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import BinaryIO

from jigs.drawing.drawing import Page


@dataclass(frozen=True, slots=True)
class Writer:
    """One format: its file suffix, what it can hold besides shapes and lines, and how to write.

    A writer has no options: what is drawn is decided before it. It is given pages that hold
    nothing else than `holds`, and writes the same bytes for the same pages on every machine.
    """

    suffix: str
    holds: frozenset[type]
    """Of Arc, Cubic, Text, Area, Picture and Clip."""
    write: Callable[[Sequence[Page], BinaryIO], None]
    pages: bool = False
    """Whether one file takes more than one page."""


def plain(text: str) -> str:
    r"""Return a text as one line without control characters, which XML and DXF cannot hold.

    >>> plain("Left chest\n\x00 3 in")
    'Left chest  3 in'
    """
    kept = (" " if c in "\t\n\r" else c for c in text if c.isprintable() or c in " \t\n\r\u00a0")
    return "".join(kept)
