"""Garment colours: a name the trade uses, or a hex value of the order's own."""

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

_HEX = re.compile(r"#[0-9A-Fa-f]{6}")


@cache
def colours() -> Mapping[str, str]:
    """Return the known colour names and their `#rrggbb`, invented but typical."""
    text = files("jigs.order").joinpath("colours.toml").read_text(encoding="utf-8")
    return {name: str(value) for name, value in tomllib.loads(text).items()}


def colour_key(name: str) -> str:
    """Return a colour name as it stands in the list of names.

    >>> colour_key("Heather-Gray")
    'heather grey'
    """
    words = name.casefold().replace("-", " ").replace("_", " ").split()
    return " ".join("grey" if word == "gray" else word for word in words)


def hex_colour(text: str) -> str | None:
    """Return a `#rrggbb` in small letters; None if the text is no such colour.

    >>> hex_colour("#1F2A44")
    '#1f2a44'
    """
    return text.lower() if _HEX.fullmatch(text) else None
