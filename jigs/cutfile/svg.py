"""SVG read back: paths and plain shapes with their transforms, on layers that are groups."""

import re
from collections.abc import Callable, Iterator
from xml.etree.ElementTree import Element

from jigs.artwork.svg_parse import SVG, parse
from jigs.artwork.svg_size import PX, page_size
from jigs.cutfile.cutfile import CutFile, Gathering
from jigs.cutfile.svg_path import ellipse, polyline, rectangle, subpaths
from jigs.drawing.drawing import Layer
from jigs.errors import BadInput, Place
from jigs.geometry import Affine, Arc, Segment

_LAYERS = {layer.value for layer in Layer}
_LABEL = "{http://www.inkscape.org/namespaces/inkscape}label"
#: What is drawn elsewhere, or never.
_UNDRAWN = {"defs", "symbol", "clipPath", "mask", "pattern", "marker", "metadata", "title", "desc",
            "style", "script", "filter", "linearGradient", "radialGradient"}  # fmt: skip
_UNREAD = {"text": "text in a font", "image": "picture", "use": "reference (use)",
           "foreignObject": "foreign object"}  # fmt: skip
_TRANSFORM = re.compile(r"\s*,?\s*([a-zA-Z]{5,10})\s*\(([^()]{0,200})\)\s*")
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?")
#: Half the places of a Bézier that stands for an arc: closer than the rules look.
_FIT = 0.001


def read_svg(data: bytes, place: Place) -> CutFile:
    """Return the lines of an SVG file.

    Raises:
        BadInput: it is broken, too large, without a size, or has numbers that are none.
    """
    root = parse(data, place)
    page = page_size(root, place)
    gathering = Gathering(place)
    left, top, width, height = page.view or (0.0, 0.0, page.width, page.height)
    x, y = page.width / width, page.height / height
    if root.get("preserveAspectRatio", "").strip() != "none":
        x = y = min(x, y)
    by = Affine.move(-left, -top).then(Affine.scale(x * PX, y * PX))
    try:
        for layer, element, to in _drawn(root, by):
            _take(layer, element, to, gathering)
    except (ValueError, OverflowError, ZeroDivisionError) as problem:
        found = f"the SVG has a shape that cannot be read: {str(problem)[:120]}"
        raise BadInput(place, found, "save it as plain SVG") from None
    notes = []
    if not re.search(r"(mm|cm|in|pt|pc)\s*$", root.get("width", "")):
        notes.append("the file names no length unit: px are taken at 96 to the inch")
    words = " ".join("".join(one.itertext()) for one in root.findall(f"{SVG}desc"))
    return gathering.done("svg", words, notes)


def _drawn(root: Element, by: Affine) -> Iterator[tuple[str, Element, Affine]]:
    """Yield shapes with the layer they are on and where they are drawn, in their order."""
    stack: list[tuple[Element, str, Affine]] = [(root, "", by)]
    while stack:
        element, layer, to = stack.pop()
        tag = element.tag.removeprefix(SVG) if isinstance(element.tag, str) else ""
        hidden = re.search(r"display\s*:\s*none", element.get("style", ""))
        if tag in _UNDRAWN or element.get("display") == "none" or hidden:
            continue
        if element is not root:
            to = transform(element.get("transform", "")).then(to)
        if tag in {"g", "a", "svg", "switch"}:
            stack += [(child, _layer(element, layer), to) for child in reversed(element)]
        elif element.tag != tag:
            yield layer, element, to


def _layer(group: Element, outside: str) -> str:
    """Return the layer of what is in a group: its id's or label's, else that outside it."""
    for name in (group.get(_LABEL, ""), group.get("id", "")):
        own = name.rpartition("-")[2].strip().lower()
        if own in _LAYERS:
            return own
    return outside or group.get(_LABEL, "") or ("" if group.tag == f"{SVG}svg" else "no layer")


def _take(layer: str, element: Element, to: Affine, gathering: Gathering) -> None:
    tag = element.tag.removeprefix(SVG)
    layer = layer or "no layer"
    if tag in _UNREAD:
        gathering.skip(_UNREAD[tag], layer)
        return
    shape = _SHAPES.get(tag)
    if shape is None:
        gathering.skip(tag[:30], layer)
        return
    for segments in shape(element):
        gathering.add(layer, _moved(segments, to))


def _path(element: Element) -> list[list[Segment]]:
    return subpaths(element.get("d", ""))


def _number(element: Element, name: str, default: float = 0.0) -> float:
    text = element.get(name)
    return default if text is None else float(text.removesuffix("px"))


def _rect(element: Element) -> list[list[Segment]]:
    x, y, width, height = (_number(element, name) for name in ("x", "y", "width", "height"))
    rx = _number(element, "rx", _number(element, "ry"))
    return [rectangle(x, y, width, height, rx, _number(element, "ry", rx))]


def _circle(element: Element) -> list[list[Segment]]:
    x, y, r = (_number(element, name) for name in ("cx", "cy", "r"))
    return [ellipse(x, y, r, r)]


def _ellipse(element: Element) -> list[list[Segment]]:
    return [ellipse(*(_number(element, name) for name in ("cx", "cy", "rx", "ry")))]


def _line(element: Element) -> list[list[Segment]]:
    return [polyline([_number(element, name) for name in ("x1", "y1", "x2", "y2")], closed=False)]


def _points(element: Element) -> list[list[Segment]]:
    numbers = [float(one) for one in _NUMBER.findall(element.get("points", ""))]
    return [polyline(numbers, closed=element.tag == f"{SVG}polygon")]


_SHAPES: dict[str, Callable[[Element], list[list[Segment]]]] = {
    "path": _path, "rect": _rect, "circle": _circle, "ellipse": _ellipse, "line": _line,
    "polyline": _points, "polygon": _points,
}  # fmt: skip


def _moved(segments: list[Segment], to: Affine) -> list[Segment]:
    found: list[Segment] = []
    for one in segments:
        parts = one.cubics(_FIT) if isinstance(one, Arc) and not to.is_similarity else [one]
        found += [part.moved(to) for part in parts]
    return found


def transform(text: str) -> Affine:
    """Return the map that a `transform` attribute describes (SVG 1.1, 7.6).

    Raises:
        ValueError: it describes none.
    """
    found, at = Affine(), 0
    while at < len(text.rstrip()):
        match = _TRANSFORM.match(text, at)
        if match is None:
            raise ValueError(f"transform {text[:60]!r}")
        numbers = [float(one) for one in _NUMBER.findall(match[2])]
        # What is written last is done first.
        found = _one(match[1], numbers, text).then(found)
        at = match.end()
    return found


def _one(name: str, n: list[float], text: str) -> Affine:
    from math import radians, tan

    if name == "matrix" and len(n) == 6:
        return Affine(*n)
    if name == "translate" and len(n) in {1, 2}:
        return Affine.move(n[0], n[1] if len(n) == 2 else 0.0)
    if name == "scale" and len(n) in {1, 2}:
        return Affine.scale(*n)
    if name == "rotate" and len(n) == 1:
        return Affine.turn(n[0])
    if name == "rotate" and len(n) == 3:
        there, back = Affine.move(n[1], n[2]), Affine.move(-n[1], -n[2])
        return back.then(Affine.turn(n[0])).then(there)
    if name == "skewX" and len(n) == 1:
        return Affine(c=tan(radians(n[0])))
    if name == "skewY" and len(n) == 1:
        return Affine(b=tan(radians(n[0])))
    raise ValueError(f"transform {text[:60]!r}")
