"""The page of an SVG, in CSS pixels."""

import math
import re
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from jigs.errors import BadInput, Place
from jigs.units import INCH, Mm

#: 1 in is 96 px, 72 pt, 6 pc and 2.54 cm (CSS Values and Units Module Level 4, 6.2).
PX: Mm = INCH / 96
_UNITS = {
    "": 1.0,
    "px": 1.0,
    "pt": 96 / 72,
    "pc": 96 / 6,
    "in": 96.0,
    "cm": 96 / 2.54,
    "mm": 96 / 25.4,
}
#: Renderers reckon in single precision, and pass over a view box of larger numbers.
_LARGEST = 1e9
_NUMBER = r"[+-]?(?:\d{1,20}\.?\d{0,20}|\.\d{1,20})(?:[eE][+-]?\d{1,3})?"
_LENGTH = re.compile(rf"\s*({_NUMBER})\s*([a-zA-Z%]*)\s*")
_VIEW = re.compile(rf"\s*({_NUMBER})" + rf"(?:\s*,\s*|\s+)({_NUMBER})" * 3 + r"\s*")


@dataclass(frozen=True, slots=True)
class Page:
    """The page of an SVG: its size in px and, if it has one, its view box."""

    width: float
    height: float
    view: tuple[float, float, float, float] | None


def page_size(root: Element, place: Place) -> Page:
    """Return the page an SVG's root describes: width and height, else its viewBox as px.

    Raises:
        BadInput: neither is given, or they are no numbers, not positive, or of unknown unit.
    """
    view = _view(root.get("viewBox"), place)
    width = _length(root.get("width"), "width", place)
    height = _length(root.get("height"), "height", place)
    if view is not None:
        # CSS: a side left open follows the other by the view box's aspect.
        if width is None and height is None:
            width, height = view[2], view[3]
        elif width is None and height is not None:
            width = height * view[2] / view[3]
        elif height is None and width is not None:
            height = width * view[3] / view[2]
    if width is None or height is None:
        found = "the SVG has no size"
        raise BadInput(place, found, "give the svg element width and height in mm, or a viewBox")
    return Page(width, height, view)


def _length(text: str | None, name: str, place: Place) -> float | None:
    if text is None or text.strip() in {"", "auto"} or text.strip().endswith("%"):
        return None
    match = _LENGTH.fullmatch(text)
    unit = match[2].lower() if match else "?"
    length = float(match[1]) * _UNITS[unit] if match and unit in _UNITS else math.nan
    if not (math.isfinite(length) and length > 0):
        found = f"the svg element's {name} is {text[:40]!r}"
        raise BadInput(
            place, found, "allowed: a positive number with mm, cm, in, pt, pc, px or none"
        )
    return length


def _view(text: str | None, place: Place) -> tuple[float, float, float, float] | None:
    if text is None or not text.strip():
        return None
    match = _VIEW.fullmatch(text)
    numbers = [float(part) for part in match.groups()] if match else []
    if not match or max(map(abs, numbers)) > _LARGEST or min(numbers[2:]) < 1 / _LARGEST:
        found = f"the svg element's viewBox is {text[:60]!r}"
        allowed = f"left, top, width and height, up to {_LARGEST:.0e}; the last two positive"
        raise BadInput(place, found, f"allowed: {allowed}")
    left, top, width, height = numbers
    return left, top, width, height
