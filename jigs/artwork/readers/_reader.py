"""What a reader of one input format is."""

from collections.abc import Callable
from dataclasses import dataclass

from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.errors import Place


@dataclass(frozen=True, slots=True)
class Reader:
    """An input format: what it is called, how its files end and begin, and how it is read."""

    title: str
    suffixes: tuple[str, ...]
    """Usual endings of the name, lower case, with the dot."""
    recognises: Callable[[bytes], bool]
    """Whether a file's content is of this format, from its first bytes alone."""
    read: Callable[[str, bytes, Place, Asked], Artwork]
    """Name, content, place and what is asked to an `Artwork`; raises `BadInput`."""
