"""What an SVG's property paints: a colour and how much of it, a gradient, a pattern."""

import re
from xml.etree.ElementTree import Element

from jigs.artwork.svg_parse import SVG
from jigs.artwork.svg_style import Style

_HREF = "{http://www.w3.org/1999/xlink}href"
_URL = re.compile(r"\s*url\(([^)]*)\)")
_SHORT = re.compile(r"#[0-9a-fA-F]{3}([0-9a-fA-F])")
_LONG = re.compile(r"#[0-9a-fA-F]{6}([0-9a-fA-F]{2})")
_ALPHA = re.compile(r"(?:rgb|hsl)a?\([^)]*?(?:/|(?:,[^,)]*){2},)\s*([\d.]+%?)\s*\)", re.IGNORECASE)
_SERVERS = {"linearGradient": "gradient", "radialGradient": "gradient", "pattern": "pattern"}
#: Characters of a colour.
_LONGEST = 100
#: Gradients that take their stops from another, one after the other.
_MOST_HREFS = 20


def reference(value: str) -> str | None:
    """Return the id that a property's `url(#...)` names."""
    match = _URL.match(value)
    link = match[1].strip(" \t\r\n\f'\"") if match else ""
    return link[1:] if link.startswith("#") else None


def target(element: Element) -> str | None:
    """Return the id that an element's `href` names."""
    link = element.get("href", element.get(_HREF, "")).strip()
    return link[1:] if link.startswith("#") else None


def share(text: str) -> float:
    """Return an opacity from 0 to 1; 1 for what is none."""
    text = text.strip()
    try:
        value = float(text[:-1]) / 100 if text.endswith("%") else float(text)
    except ValueError:
        return 1.0
    return min(max(value, 0.0), 1.0) if value == value else 1.0  # noqa: PLR0124 - not a number


def alpha(colour: str) -> float:
    """Return how opaque a colour is by itself."""
    colour = colour[:_LONGEST].strip()
    if colour.lower() == "transparent":
        return 0.0
    match = _LONG.fullmatch(colour) or _SHORT.fullmatch(colour)
    if match:
        return int(match[1], 16) / int("f" * len(match[1]), 16)
    match = _ALPHA.fullmatch(colour)
    return share(match[1]) if match else 1.0


def painted(style: Style, name: str) -> tuple[str, float]:
    """Return what `fill` or `stroke` is, and how opaque; ("none", 0) if it does not show."""
    value = style.get(name, "#000" if name == "fill" else "none") or "none"
    if value.lower() == "currentcolor":
        value = style.get("color", "#000")
    opaque = share(style.get(f"{name}-opacity", "1")) * alpha(value)
    unseen = name == "stroke" and re.fullmatch(r"0*\.?0*(?:px)?", style.get("stroke-width", "1"))
    if value == "none" or opaque == 0 or unseen:
        return "none", 0.0
    return value, opaque


def server(value: str, named: dict[str, Element]) -> str | None:
    """Return whether a paint is a `gradient` or a `pattern`; None for a flat colour."""
    name = reference(value)
    element = named.get(name) if name else None
    kind = _SERVERS.get(element.tag.removeprefix(SVG)) if element is not None else None
    # Drawing programs keep a flat swatch as a gradient of one stop.
    if element is not None and kind == "gradient" and _stops(element, named) < 2:
        return None
    return kind


def _stops(gradient: Element, named: dict[str, Element]) -> int:
    for _ in range(_MOST_HREFS):
        stops = len(gradient.findall(f"{SVG}stop"))
        name = target(gradient)
        if stops or name not in named:
            return stops
        gradient = named[name]
    return 0
