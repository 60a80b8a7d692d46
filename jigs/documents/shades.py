"""Shades of a garment colour for its outlines and folds, and whether black shows on it."""

from collections.abc import Iterable

from jigs.artwork.colour import contrast


def ink_on(colour: str) -> str:
    """Return black or white, whichever stands out more on a colour (WCAG 2 contrast ratio)."""
    black, white = "#000000", "#ffffff"
    return black if contrast(black, colour) >= contrast(white, colour) else white


def darker(colour: str, by: float = 0.45) -> str:
    """Return a colour mixed with black."""
    return _hex(round(part * (1 - by)) for part in _parts(colour))


def lighter(colour: str, by: float = 0.45) -> str:
    """Return a colour mixed with white."""
    return _hex(round(part + (255 - part) * by) for part in _parts(colour))


def _parts(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _hex(parts: Iterable[int]) -> str:
    return "#" + "".join(f"{part:02x}" for part in parts)
