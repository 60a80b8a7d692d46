"""Shades of a garment colour for its outlines and folds, and whether black shows on it."""

from collections.abc import Iterable


def ink_on(colour: str) -> str:
    """Return black or white, whichever stands out more on a colour (WCAG 2 contrast ratio)."""
    light = luminance(colour)
    return "#000000" if (light + 0.05) / 0.05 >= 1.05 / (light + 0.05) else "#ffffff"


def luminance(colour: str) -> float:
    """Return the relative luminance of `#rrggbb`, 0 to 1 (WCAG 2.2, definition)."""

    def linear(part: int) -> float:
        share = part / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(part) for part in _parts(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


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
