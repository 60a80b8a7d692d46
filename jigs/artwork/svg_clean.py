"""An SVG without anything that acts, or reaches outside the file."""

import base64
import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from jigs.artwork import guard
from jigs.artwork.svg_parse import SVG
from jigs.artwork.svg_size import Page
from jigs.errors import BadInput, Place

#: Elements that draw nothing on paper, or that no renderer of pictures draws.
_SILENT = frozenset({"script", "title", "desc", "metadata", "handler", "view", "cursor"})
_LOUD = {
    "foreignObject": "foreign content (foreignObject)",
    "animate": "an animation",
    "animateMotion": "an animation",
    "animateTransform": "an animation",
    "set": "an animation",
}
#: Elements that draw what they link to.
_DRAWN = frozenset({f"{SVG}image", f"{SVG}feImage", f"{SVG}use"})
_PICTURE = re.compile(r"\s*data:image/(?:png|jpe?g|gif|webp)\s*;\s*base64\s*,(.*)", re.DOTALL)
_URL = re.compile(r"(url\()", re.IGNORECASE)
#: What may stand before and after a link.
_AROUND = " \t\r\n\f'\""
_IMPORT = re.compile(r"@import\b[^;]*;?", re.IGNORECASE)
_SHOWN = 5


@dataclass(frozen=True, slots=True)
class Cleaned:
    """A cleaned SVG, ready to be set into a frame, and what was found on the way."""

    xml: bytes
    texts: tuple[str, ...]
    """Live text, one entry per text element."""
    says: tuple[str, ...]
    """What was left out."""
    missing: tuple[str, ...] = ()
    """Links of pictures and drawings that were left out: without them it is not complete."""


def clean(root: Element, page: Page, place: Place) -> Cleaned:
    """Return a parsed SVG cleaned; the tree itself is changed.

    Raises:
        BadInput: the pictures inside have too many pixels.
    """
    from xml.etree.ElementTree import tostring

    left_out = list(dict.fromkeys(_strip(root)))
    missing: list[str] = []
    left_out += [
        out for out in dict.fromkeys(_cut_links(root, place, missing)) if out not in left_out
    ]
    says = [f"{out} was left out" for out in left_out[:_SHOWN]]
    if len(left_out) > _SHOWN:
        says.append(f"{len(left_out) - _SHOWN} more were left out")
    _fit_into_frame(root, page)
    texts = tuple(words(text) for text in root.iter(f"{SVG}text"))
    return Cleaned(
        tostring(root, encoding="unicode").encode(),
        tuple(filter(None, texts)),
        tuple(says),
        tuple(dict.fromkeys(missing)),
    )


def _strip(root: Element) -> Iterator[str]:
    """Take out foreign and acting elements, and yield what may be missed."""
    for parent in root.iter():
        # A switch has the drawing's own stand-in for what is taken out.
        switch = parent.tag == f"{SVG}switch"
        kept, texts = list[Element](), [[parent.text or ""]]
        for element in parent:
            name = element.tag.removeprefix(SVG)
            if element.tag.startswith(SVG) and name not in _SILENT and name not in _LOUD:
                kept.append(element)
                texts.append([element.tail or ""])
                continue
            if not switch:
                texts[-1].append(element.tail or "")
                if name in _LOUD:
                    yield _LOUD[name]
        if len(kept) < len(parent):
            parent.text, *tails = map("".join, texts)
            parent[:] = kept
            for element, tail in zip(kept, tails, strict=True):
                element.tail = tail


def _cut_links(root: Element, place: Place, missing: list[str]) -> Iterator[str]:
    """Take out every reference that leaves the file, and yield what it was.

    Those that something was to be drawn from are `missing` instead.
    """
    pixels = 0
    for element in root.iter():
        for key, value in list(element.attrib.items()):
            if key.rpartition("}")[2] == "href":
                found = _picture(element, value)
                pixels += found or 0
                if value.strip().startswith("#") or found is not None:
                    continue
                del element.attrib[key]
                if element.tag in _DRAWN:
                    missing.append(_short(value))
                elif element.tag != f"{SVG}a":
                    yield f"a link to {_short(value)}"
            elif key.lower().startswith("on") or key.endswith("}base"):
                del element.attrib[key]
            else:
                element.attrib[key], links = _unlinked(value)
                yield from (f"a link to {_short(link)}" for link in links)
        if element.tag == f"{SVG}style" and element.text:
            yield from (f"a link to {_short(link)}" for link in _unlinked(element.text)[1])
            element.text, _ = _unlinked(_IMPORT.sub("", element.text))
    if pixels > guard.MOST_EMBEDDED_PIXELS:
        many = f"the pictures in the SVG have {pixels / 1e6:.0f} million pixels"
        allowed = f"allowed: up to {guard.MOST_EMBEDDED_PIXELS // 10**6} million"
        raise BadInput(place, many, allowed)


def _unlinked(text: str) -> tuple[str, list[str]]:
    """Return a text with `none` for every `url(...)` that leaves the file, and where they lead.

    One that is never closed goes on to the next or to the end.
    """
    first, *others = _URL.split(text)
    kept, links = [first], list[str]()
    for opened, rest in zip(others[::2], others[1::2], strict=True):
        link, _, after = rest.partition(")")
        if link.lstrip(_AROUND).startswith("#"):
            kept += opened, rest
        else:
            kept += "none", after
            links.append(link.strip(_AROUND))
    return "".join(kept), links


def _picture(element: Element, link: str) -> int | None:
    """Return the pixels of a picture that the file itself holds; None if the link is none."""
    held = held_picture(link) if element.tag in {f"{SVG}image", f"{SVG}feImage"} else None
    return None if held is None else guard.picture_pixels(held)


def held_picture(link: str) -> bytes | None:
    """Return the picture that a link itself holds; None if it holds none."""
    match = _PICTURE.fullmatch(link)
    try:
        return base64.b64decode(match[1]) if match else None
    except ValueError:
        return None


def _fit_into_frame(root: Element, page: Page) -> None:
    """Make the root a part of a larger drawing: at its origin, of its size.

    It is not clipped to that: resvg would draw the whole through a layer. What lies beside the
    page is cut off where the ink is looked for.
    """
    for name in ("x", "y"):
        root.attrib.pop(name, None)
    root.set("overflow", "visible")
    root.set("width", repr(page.width))
    root.set("height", repr(page.height))


def words(text: Element) -> str:
    """Return what a text element says, cut short."""
    says = " ".join("".join(text.itertext()).split())
    return says if len(says) <= 40 else f"{says[:37]}..."


def _short(link: str) -> str:
    link = " ".join(link.split())
    return repr(link if len(link) <= 60 else f"{link[:57]}...")
