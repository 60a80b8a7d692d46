"""What an SVG holds besides flat outlined colour, and where."""

import io
import math
from base64 import b64encode
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from jigs.artwork import guard
from jigs.artwork.remarks import LIVE, SAYS, SHOWN, Remarks, faint
from jigs.artwork.svg_clean import held_picture, words
from jigs.artwork.svg_page import SvgPage
from jigs.artwork.svg_paint import painted, reference, server, share, target
from jigs.artwork.svg_parse import SVG
from jigs.artwork.svg_size import PX
from jigs.artwork.svg_style import Style, Styles
from jigs.artwork.svg_where import KEPT, alone, box_of, picture_area
from jigs.geometry import Box
from jigs.units import INCH

#: Elements that are looked at, clones counted each time.
MOST_LOOKED = 200_000
#: Elements whose place is looked for; and elements and characters drawn for that in all, with
#: what is beside them.
MOST_PLACES = 12
MOST_DRAWN = 100_000
MOST_CHARACTERS = 20_000_000
#: What is said when not all of it was looked at.
TOO_MUCH = "there is too much in the drawing to look into all of it"
#: Pixels of the longer side of what stands in for a picture; only its shape counts.
_STAND_IN = 2000

_SHAPES = frozenset(
    {"path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan",
     "textPath"}
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Seen:
    """Something remarkable, and the elements from the root to where it is drawn."""

    kind: str
    says: str
    chain: tuple[Element, ...]
    picture: Element | None = None


def note_contents(root: Element, page: SvgPage, found: Remarks) -> tuple[str, ...]:
    """Note what is remarkable in a cleaned SVG; return the font families that its text names."""
    looker = _Looker(root)
    seen: dict[str, list[_Seen]] = {}
    for one in looker.look():
        alike = seen.setdefault(one.kind, [])
        # Some may lie beside the page.
        if len(alike) < SHOWN + MOST_PLACES:
            alike.append(one)
        else:
            found.count(one.kind)
    places = _Places(page, MOST_LOOKED - looker.left)
    for kind, alike in seen.items():
        shown = 0
        for one in alike:
            if shown == SHOWN:
                found.count(kind)
            else:
                shown += places.note(one, found)
    if looker.left < 0:
        found.add("unread", TOO_MUCH)
    return tuple(dict.fromkeys(looker.families))


class _Looker:
    """A walk through all that an SVG draws."""

    def __init__(self, root: Element) -> None:
        self.left = MOST_LOOKED
        self.families: list[str] = []
        self._root = root
        self._styles = Styles(root)
        self._named: dict[str, Element] = {}
        for element in root.iter():
            if element.get("id"):
                self._named.setdefault(element.get("id", ""), element)
        self._told: set[tuple[str, str, Element]] = set()

    def look(self) -> Iterator[_Seen]:
        """Yield what is remarkable, each thing once for each element drawn on its own."""
        for one in self._visit(self._root, {}, (), cloned=False):
            key = (one.kind, one.says, one.chain[-1])
            if key not in self._told:
                self._told.add(key)
                yield one

    def _visit(
        self, element: Element, inherited: Style, above: tuple[Element, ...], *, cloned: bool
    ) -> Iterator[_Seen]:
        """Yield what is remarkable in an element; a clone's content is drawn where its `use` is."""
        self.left -= 1
        name = element.tag.removeprefix(SVG)
        if self.left < 0 or (name in KEPT and not (cloned and name == "symbol")):
            return
        style = self._styles.of(element, inherited)
        if style.get("display") == "none" or share(style.get("opacity", "1")) == 0:
            return
        chain = above if cloned or name in {"tspan", "textPath"} else (*above, element)
        picture = element if name == "image" else None
        for kind, says in self._kinds(element, name, style):
            yield _Seen(kind, says, chain, picture if kind == "image" else None)
        if name == "use":
            clone = self._named.get(target(element) or "")
            if clone is not None:
                yield from self._visit(clone, style, chain, cloned=True)
            return
        for child in element:
            yield from self._visit(child, style, chain, cloned=cloned)

    def _kinds(self, element: Element, name: str, style: Style) -> Iterator[tuple[str, str]]:
        """Yield the kind of each remarkable thing about an element, and what is to be said."""
        shown = name in _SHAPES and style.get("visibility", "visible") == "visible"
        paints = [painted(style, side) for side in ("fill", "stroke")] if shown else []
        kinds = (server(value, self._named) for value, _ in paints)
        yield from ((kind, SAYS[kind]) for kind in kinds if kind)
        opaque = [share(style.get("opacity", "1")), *(one for _, one in paints if one > 0)]
        if min(opaque) < 1:
            yield "opacity", faint(min(opaque))
        blend = style.get("mix-blend-mode", "normal")
        if blend != "normal":
            yield "blend", f"blend mode {blend[:40]}: it mixes with what is below"
        if reference(style.get("mask", "")) in self._named:
            yield "mask", SAYS["mask"]
        if style.get("filter", "none") not in {"none", ""}:
            yield "filter", SAYS["filter"]
        if name == "image":
            yield "image", "an image"
        if name == "text" and words(element):
            yield LIVE, self._text(element, style)

    def _text(self, element: Element, style: Style) -> str:
        family = style.get("font-family", "")
        self.families += [one for one in map(_bare, family.split(",")[:1]) if one]
        font = f" in {_bare(family.split(',')[0])[:60]}" if family else ""
        return f"live text {words(element)!r}{font}; convert it to outlines"


class _Places:
    """Where things are drawn, as long as that may be asked."""

    def __init__(self, page: SvgPage, elements: int) -> None:
        self._page = page
        affordable = (MOST_DRAWN // elements, MOST_CHARACTERS // len(page.inner))
        self._left = min(MOST_PLACES, *affordable)
        self._known: dict[Element, Box | None] = {}

    def note(self, seen: _Seen, found: Remarks) -> bool:
        """Note something with its place; return whether there is anything of it on the page."""
        key = seen.chain[-1]
        if key not in self._known and self._left == 0:
            found.add(seen.kind, seen.says)
            return True
        if key not in self._known:
            self._left -= 1
            self._known[key] = self._box(seen)
        where = self._known[key]
        if where is None and seen.kind != LIVE:
            return False
        if seen.picture is not None and where is not None:
            return self._note_picture(seen, seen.picture, where, found)
        found.add(seen.kind, seen.says, where)
        return True

    def _box(self, seen: _Seen) -> Box | None:
        try:
            box = box_of(alone(self._page, seen.chain))
        except ValueError:
            return None
        return box and Box(box.left * PX, box.top * PX, box.right * PX, box.bottom * PX)

    def _note_picture(self, seen: _Seen, picture: Element, where: Box, found: Remarks) -> bool:
        """Note a picture with its resolution: its pixels over the area that it takes."""
        key = next((key for key in picture.attrib if key.rpartition("}")[2] == "href"), None)
        held = held_picture(picture.get(key, "")) if key else None
        size = guard.picture_size(held) if held else None
        if key is None or size is None:
            return False
        before = dict(picture.attrib)
        picture.set(key, _stand_in(size))
        for side, pixels in zip(("width", "height"), size, strict=True):
            if picture.get(side, "auto") == "auto":
                picture.set(side, str(pixels))
        try:
            area = picture_area(alone(self._page, seen.chain)) * PX**2
        except ValueError:
            area = 0.0
        picture.attrib.clear()
        picture.attrib.update(before)
        if area > 0:
            found.image(size, where, math.sqrt(size[0] * size[1] / area) * INCH)
        else:
            found.add("image", f"an image of {size[0]} x {size[1]} pixels", where)
        return True


def _stand_in(size: tuple[int, int]) -> str:
    """Return an opaque picture of another's shape, so that its area can be seen."""
    from PIL import Image

    scale = min(_STAND_IN / max(size), 1)
    shape = (max(1, round(size[0] * scale)), max(1, round(size[1] * scale)))
    out = io.BytesIO()
    Image.new("1", shape).save(out, "PNG")
    return f"data:image/png;base64,{b64encode(out.getvalue()).decode()}"


def _bare(family: str) -> str:
    return family.strip().strip("'\"").strip()
