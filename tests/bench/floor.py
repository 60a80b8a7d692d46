"""The floor of the bench of jigs: the same entities, written by the bare libraries.

What our writers hand to svgwrite, ezdxf, reportlab and cairosvg is taken down once, outside the
clock, as plain tuples. A floor hands it to them again and does nothing else: no layers to sort, no
curves to lower, no letters to draw, no rules to check.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from io import BytesIO, StringIO
from typing import Any
from unittest.mock import patch
from xml.etree import ElementTree as ET

from jigs.drawing.drawing import Page
from jigs.registry import Registry
from jigs.writers import WRITERS, Writer, dxf, pdf, png, svg

_NS = "{http://www.w3.org/2000/svg}"
_WORD = re.compile(r"[A-Za-z]|-?[\d.]+")

#: Writes a file once more.
Floor = Callable[[], bytes]


@dataclass(frozen=True)
class Written:
    """A file as our writer was given it: its format, and its pages in terms of that format."""

    format: str
    pages: Sequence[Page]

    def floor(self) -> Floor:
        """Return what writes the same by the bare libraries."""
        return _FLOORS[self.format](self.pages)


@contextmanager
def noting(found: list[Written]) -> Iterator[None]:
    """Note every file that is written meanwhile."""

    def get(registry: Any, name: str, *place: Any) -> Any:
        entry = original(registry, name, *place)
        if registry is not WRITERS:
            return entry

        def write(pages: Sequence[Page], out: Any) -> None:
            found.append(Written(name, pages))
            entry.write(pages, out)

        return replace(entry, write=write)

    original = Registry.get
    assert isinstance(WRITERS.get("svg"), Writer)
    with patch.object(Registry, "get", get):
        yield


class _Taken:
    """Stands for a library's object, and takes down what is asked of it."""

    def __init__(self) -> None:
        self.calls: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = []

    def __getattr__(self, name: str) -> Any:
        def call(*args: Any, **named: Any) -> "_Taken | None":
            made = _Taken() if name == "beginPath" else None
            self.calls.append((name, args, named))
            if made is not None:
                self.calls.append(("path", (made,), {}))
            return made

        return call


def _svg(pages: Sequence[Page]) -> Floor:
    out = BytesIO()
    svg.WRITER.write(pages, out)
    return _svg_again(out.getvalue())


def _svg_again(data: bytes) -> Floor:
    root = ET.fromstring(data)
    size = root.attrib["width"], root.attrib["height"]
    kept = [_element(one) for one in root]
    box = root.attrib["viewBox"]

    def write() -> bytes:
        from svgwrite import Drawing

        document = Drawing(size=size, viewBox=box, debug=False)
        for one in kept:
            if one[0] == "defs":
                for each in one[3]:
                    document.defs.add(_made(document, each))
            elif one[0] not in {"title", "desc"}:
                document.add(_made(document, one))
        return str(document.tostring()).encode()

    return write


#: Tag, attributes, the numbers and commands of a path, what is inside.
_Element = tuple[str, dict[str, str], list[str | float], list[Any]]


def _element(one: ET.Element) -> _Element:
    attributes = {k.rpartition("}")[2]: v for k, v in one.attrib.items()}
    words = _WORD.findall(attributes.pop("d", ""))
    numbers = [w if w.isalpha() else float(w) if "." in w else int(w) for w in words]
    return one.tag.removeprefix(_NS), attributes, numbers, [_element(each) for each in one]


def _made(document: Any, one: _Element) -> Any:
    tag, attributes, numbers, inside = one
    if tag == "path":
        return document.path(d=" ".join(map(str, numbers)), **attributes)
    if tag == "image":
        return document.image(**attributes)
    made = (document.clipPath if tag == "clipPath" else document.g)(**attributes)
    for each in inside:
        if each[0] not in {"title", "desc"}:
            made.add(_made(document, each))
    return made


def _png(pages: Sequence[Page]) -> Floor:
    from PIL import Image

    taken = []

    def note(**named: Any) -> bytes:
        taken.append(named)
        blank = BytesIO()
        Image.new("RGB", (1, 1)).save(blank, "PNG")
        return blank.getvalue()

    with patch("cairosvg.svg2png", note):
        png.WRITER.write(pages, BytesIO())
    (named,) = taken
    text, per_mm = _svg_again(named["bytestring"]), png.scale(pages[0])

    def write() -> bytes:
        import cairosvg

        picture = cairosvg.svg2png(**{**named, "bytestring": text()})
        out = BytesIO()
        image = Image.open(BytesIO(picture)).convert("RGB")
        image.save(out, "PNG", dpi=(per_mm * 25.4, per_mm * 25.4))
        return out.getvalue()

    return write


def _dxf(pages: Sequence[Page]) -> Floor:
    (page,) = pages
    taken = _Taken()
    for layer, outline in dxf._unlike(page):
        dxf._draw(taken, outline, page.height, {"layer": layer.value.upper()})

    def write() -> bytes:
        from ezdxf.filemanagement import new

        document: Any = new("R2000", units=4)
        for layer in ("CUT", "SCORE", "ENGRAVE", "NOTE"):
            document.layers.add(layer)
        _again(document.modelspace(), taken)
        text = StringIO()
        document.write(text)
        return text.getvalue().encode("cp1252")

    return write


def _pdf(pages: Sequence[Page]) -> Floor:
    taken = _Taken()
    with patch("reportlab.pdfgen.canvas.Canvas", lambda *_, **__: taken):
        pdf.WRITER.write(pages, BytesIO())

    def write() -> bytes:
        from reportlab.pdfgen.canvas import Canvas

        out = BytesIO()
        canvas = Canvas(out, invariant=1, pageCompression=1, pdfVersion=(1, 7), lang="en")
        with pdf._plain_bytes():
            _again(canvas, taken)
        return out.getvalue()

    return write


def _again(on: Any, taken: _Taken) -> None:
    """Ask the same of a library's object; a path that it makes is drawn, and handed back to it."""
    path: Any = None
    for name, args, named in taken.calls:
        if name == "path":
            _again(path, args[0])
        elif name == "beginPath":
            path = on.beginPath()
        elif name == "setCatalogEntry":
            # Of values that serve once only.
            pdf._tell_viewers(on)
        elif name in {"drawPath", "clipPath"}:
            getattr(on, name)(path, **named)
        else:
            getattr(on, name)(*args, **named)


_FLOORS: dict[str, Callable[[Sequence[Page]], Floor]] = {
    "svg": _svg,
    "dxf": _dxf,
    "pdf": _pdf,
    "png": _png,
}
