"""Which fonts an SVG's live text asks for that this machine has not."""

from dataclasses import replace
from xml.sax.saxutils import quoteattr

from jigs.artwork.svg_page import SvgPage
from jigs.geometry import Box

#: Families that are looked for.
_MOST = 8
#: Families that each machine has its own font for (CSS Fonts Module Level 4, 2.1.1).
_GENERIC = {"serif", "sans-serif", "monospace", "cursive", "fantasy", "system-ui"}
_NO_FONT = "no font has this name"
_SAMPLE = "Hamburg 0123456789"


def missing(families: tuple[str, ...]) -> tuple[str, ...]:
    """Return those of some font families that this machine does not have.

    A text is drawn in each, with no other to stand in for it: what shows is there.
    """
    asked = [family for family in families if family.lower() not in _GENERIC]
    return tuple(sorted(family for family in asked[:_MOST] if not _has(family)))


def _has(family: str) -> bool:
    quoted = quoteattr("'" + family.replace("'", "") + "'")
    text = f'<text y="50" font-size="40" font-family={quoted}>{_SAMPLE}</text>'
    page = replace(_PAGE, inner=f'<svg xmlns="http://www.w3.org/2000/svg">{text}</svg>')
    try:
        picture = page.render_with("", Box(0, 0, 200, 100), 200, 100, serif=_NO_FONT)
    except ValueError:
        return False
    return picture.getbbox() is not None


_PAGE = SvgPage("", 200, 100, fonts=True)
