"""Where one element of an SVG is drawn: the renderer is shown it alone."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from jigs.artwork.svg_page import SvgPage
from jigs.artwork.svg_parse import SVG
from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image

#: Pixels along the longer side of a look; the second look is at what the first has found.
_LOOK = 400
#: Elements that are not drawn where they stand, but may be needed by those that are.
KEPT = frozenset(
    {"defs", "style", "clipPath", "mask", "linearGradient", "radialGradient", "pattern", "marker",
     "filter", "symbol"}
)  # fmt: skip
#: Shows a picture alone and whole.
_ONLY_PICTURES = (
    "path,rect,circle,ellipse,line,polyline,polygon,text{display:none!important}"
    "*{clip-path:none!important;mask:none!important;filter:none!important;opacity:1!important}"
)


def alone(page: SvgPage, chain: Sequence[Element]) -> SvgPage:
    """Return the page with one element alone; `chain` leads from the root to it.

    What is beside the chain is kept where it is not drawn, for what refers to it.
    """
    from xml.etree.ElementTree import tostring

    fonts = page.fonts and any(True for _ in chain[-1].iter(f"{SVG}text"))
    return replace(page, inner=tostring(_pruned(chain), encoding="unicode"), fonts=fonts)


def _pruned(chain: Sequence[Element]) -> Element:
    element, *rest = chain
    if not rest:
        return element
    pruned = Element(element.tag, element.attrib)
    for child in element:
        if child is rest[0]:
            pruned.append(_pruned(rest))
        elif child.tag.removeprefix(SVG) in KEPT:
            pruned.append(child)
        else:
            aside = Element(f"{SVG}defs")
            aside.append(child)
            pruned.append(aside)
    return pruned


def box_of(page: SvgPage) -> Box | None:
    """Return the box in px of all that is drawn on a page, however faint; None if nothing is.

    Raises:
        ValueError: it cannot be drawn.
    """
    found = _looked(page, "", Box(0, 0, page.width, page.height))
    return found[0] if found else None


def picture_area(page: SvgPage) -> float:
    """Return the area in px² that the pictures of a page take, unclipped, beside it too.

    Raises:
        ValueError: it cannot be drawn.
    """
    wide, high = page.width, page.height
    found = _looked(page, _ONLY_PICTURES, Box(-wide, -high, 2 * wide, 2 * high))
    return found[1] if found else 0.0


def _looked(page: SvgPage, sheet: str, part: Box) -> tuple[Box, float] | None:
    """Return the box and the area of what is drawn in a part of a page."""
    for _ in range(2):
        scale = _LOOK / max(part.width, part.height)
        across = max(1, round(part.width * scale))
        down = max(1, round(part.height * scale))
        picture = page.render_with(sheet, part, across, down)
        inked = picture.getbbox()
        if inked is None:
            return None
        x, y = part.width / across, part.height / down
        left, top = part.left + inked[0] * x, part.top + inked[1] * y
        box = Box(left, top, part.left + inked[2] * x, part.top + inked[3] * y)
        area = _cover(picture) * x * y
        part = Box(
            max(box.left - x, part.left),
            max(box.top - y, part.top),
            min(box.right + x, part.right),
            min(box.bottom + y, part.bottom),
        )
    return box, area


def _cover(picture: "Image.Image") -> float:
    levels = picture.getchannel("A").histogram()
    return sum(level * count for level, count in enumerate(levels)) / 255
