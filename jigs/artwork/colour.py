"""Colours as the eye sees them: how different two are, how much one stands out on the other.

A file's `#rrggbb` is taken for sRGB (IEC 61966-2-1), as every browser does. Two measures, since
neither says all: the contrast ratio of WCAG 2 is about light and dark alone, so that yellow on
white is poor though nobody takes one for the other; CIEDE2000 is about all that tells colours
apart, and 1 of it is about the least that is seen of two colours side by side.
"""

import math
from functools import cache
from typing import NamedTuple

from jigs.order.colours import colours

#: XYZ of linear sRGB (IEC 61966-2-1, D65); the rows' sums are the white point, 2-degree observer.
_XYZ = (
    (0.4124, 0.3576, 0.1805),
    (0.2126, 0.7152, 0.0722),
    (0.0193, 0.1192, 0.9505),
)
_WHITE = tuple(math.fsum(row) for row in _XYZ)
#: Where the cube root of CIELAB becomes a line (CIE 15: 6/29 cubed).
_DARK = (6 / 29) ** 3
#: Farther than this from every known name, a colour is called by its value (our own choice).
NEAR = 8.0


class Lab(NamedTuple):
    """A colour in CIELAB, D65 and 2-degree observer."""

    lightness: float
    a: float
    b: float


def luminance(colour: str) -> float:
    """Return the relative luminance of `#rrggbb`, 0 to 1 (WCAG 2.2, definition)."""
    red, green, blue = _linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, two: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21 (WCAG 2.2, definition)."""
    dark, light = sorted((luminance(one), luminance(two)))
    return (light + 0.05) / (dark + 0.05)


@cache
def lab(colour: str) -> Lab:
    """Return `#rrggbb` in CIELAB (CIE 15:2004, 8.2.1)."""
    parts = _linear(colour)
    x, y, z = (
        _cube_root(sum(a * b for a, b in zip(row, parts, strict=True)) / white)
        for row, white in zip(_XYZ, _WHITE, strict=True)
    )
    return Lab(116 * y - 16, 500 * (x - y), 200 * (y - z))


def ciede2000(one: Lab, two: Lab) -> float:
    """Return how different two colours look (Sharma, Wu & Dalal 2005, equations 2 to 22)."""
    mean = (math.hypot(one.a, one.b) + math.hypot(two.a, two.b)) / 2
    stretch = 1.5 - 0.5 * _towards_25(mean)
    a1, a2 = one.a * stretch, two.a * stretch
    c1, c2 = math.hypot(a1, one.b), math.hypot(a2, two.b)
    h1, h2 = _hue(a1, one.b), _hue(a2, two.b)
    lightness, chroma, hue = (one.lightness + two.lightness) / 2, (c1 + c2) / 2, h1 + h2
    turn = 0.0
    if c1 * c2:
        turn = h2 - h1
        # The shorter way round, and the middle of that way.
        if abs(turn) > 180:
            turn -= math.copysign(360, turn)
            hue += 360 if hue < 360 else -360
        hue /= 2
    t = (
        1
        - 0.17 * _cos(hue - 30)
        + 0.24 * _cos(2 * hue)
        + 0.32 * _cos(3 * hue + 6)
        - 0.20 * _cos(4 * hue - 63)
    )
    off = (lightness - 50) ** 2
    by_lightness = (two.lightness - one.lightness) / (1 + 0.015 * off / math.sqrt(20 + off))
    by_chroma = (c2 - c1) / (1 + 0.045 * chroma)
    by_hue = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn / 2)) / (1 + 0.015 * chroma * t)
    blue = 30 * math.exp(-(((hue - 275) / 25) ** 2))
    rotation = -2 * _towards_25(chroma) * math.sin(math.radians(2 * blue))
    squares = by_lightness**2 + by_chroma**2 + by_hue**2 + rotation * by_chroma * by_hue
    return math.sqrt(max(squares, 0.0))


def difference(one: str, two: str) -> float:
    """Return how different two `#rrggbb` look (CIEDE2000)."""
    return ciede2000(lab(one), lab(two))


@cache
def colour_name(colour: str) -> str | None:
    """Return the known garment colour name that a colour may be called by; None if none is near.

    >>> colour_name("#1b2a4a"), colour_name("#00ff00")
    ('navy', None)
    """
    far, name = min((difference(colour, value), name) for name, value in colours().items())
    return name if far < NEAR else None


def _linear(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return _decoded(red), _decoded(green), _decoded(blue)


def _decoded(share: float) -> float:
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def _cube_root(share: float) -> float:
    return math.cbrt(share) if share > _DARK else share / (3 * (6 / 29) ** 2) + 4 / 29


def _towards_25(chroma: float) -> float:
    """Return what rises from 0 to 1 with the chroma, around 25."""
    return math.sqrt(chroma**7 / (chroma**7 + 25.0**7))


def _hue(a: float, b: float) -> float:
    return math.degrees(math.atan2(b, a)) % 360 if a or b else 0.0


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))
