"""SVG in real millimetres: a user unit is one, so every number is what a ruler shows.

Each layer is a group with its name as id. There are no scripts, no fonts and no references to
other files; pictures are inside.
"""

import math
from base64 import b64encode
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any, BinaryIO

from jigs.drawing import palette
from jigs.drawing.drawing import Area, Clip, Drawing, Entity, Layer, Page, Picture, Shape
from jigs.geometry import Arc, Box, Cubic, Line, Path, Segment
from jigs.units import Mm
from jigs.writers._writer import Writer, plain

#: A radius is rounded too, and the nearer an arc is to a half circle the more its middle moves
#: with it; up to this angle by no more than twice the rounding.
_WIDEST = 2 * math.pi / 3


def _write(pages: Sequence[Page], out: BinaryIO) -> None:
    from xml.etree import ElementTree as ET

    from svgwrite import Drawing as Document

    page = pages[0]
    width, height = number(page.width), number(page.height)
    document = Document(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    document.set_desc(plain(page.title), plain(page.says))
    _fill(document, document, page.drawing, "")
    root = document.get_xml()
    # svgwrite declares name spaces it may need; a file that does not use them is plainer.
    del root.attrib["xmlns:ev"]
    if not any("xlink:href" in e.attrib for e in root.iter()):
        del root.attrib["xmlns:xlink"]
    ET.indent(root, " ")
    out.write(b'<?xml version="1.0" encoding="UTF-8"?>\n')
    out.write(ET.tostring(root, encoding="utf-8") + b"\n")


WRITER = Writer(".svg", frozenset({Line, Arc, Cubic, Area, Picture, Clip}), _write)


def _fill(document: Any, into: Any, drawing: Drawing, prefix: str) -> None:
    """Draw a group for each layer, and the clipped drawings beneath them all."""
    clips = [e for e in drawing.entities if isinstance(e, Clip)]
    for k, clip in enumerate(clips, 1):
        into.add(_clip(document, clip, f"{prefix}part{k}-"))
    for layer in palette.ORDER:
        own = palette.PENS[layer]
        shown = [e for e in drawing.on(layer) if not isinstance(e, Clip)]
        # Lettering is nothing but areas: it is there to be printed, not to be read.
        ink = bool(shown) and all(isinstance(e, Area) for e in shown)
        group = document.g(
            id=f"{prefix}{'ink' if ink else layer.value}",
            fill="none",
            stroke=own.colour,
            stroke_width=number(own.width),
            stroke_linecap="round",
            stroke_linejoin="round",
        )
        if own.dashes:
            group["stroke-dasharray"] = _dashes(own)
        group.set_desc("Ink: to be printed" if ink else palette.SAYS[layer])
        for element in _elements(document, shown):
            group.add(element)
        if shown:
            into.add(group)


def _clip(document: Any, clip: Clip, prefix: str) -> Any:
    window = document.clipPath(id=f"{prefix}window")
    window.add(document.path(d=path_data([Path.box(clip.box)])))
    outer = document.g(clip_path=f"url(#{prefix}window)")
    inner = document.g(transform=f"translate({number(clip.x)} {number(clip.y)})")
    _fill(document, inner, clip.drawing, prefix)
    document.defs.add(window)
    outer.add(inner)
    return outer


def _elements(document: Any, entities: Iterable[Entity]) -> Iterator[Any]:
    """Yield the elements of a layer; neighbours drawn alike, such as letters, share one path.

    Cut lines stay apart, since each is an outline that a tool follows by itself.
    """
    for style, run in groupby(entities, key=_style):
        if isinstance(style, _Together):
            yield _path(document, [e.path for e in run if isinstance(e, Shape)], style)
        else:
            for entity in run:
                yield _entity(document, entity)


@dataclass(frozen=True, slots=True)
class _Together:
    """How lines are drawn that may share a path."""

    layer: Layer
    pen: palette.Pen


def _style(entity: Entity) -> _Together | None:
    if isinstance(entity, Shape) and entity.layer is not Layer.CUT:
        return _Together(entity.layer, _pen(entity))
    return None


def _pen(shape: Shape) -> palette.Pen:
    return palette.pen(
        shape.layer,
        dashed=shape.dashed,
        colour=shape.colour,
        stroke=shape.stroke,
        dashes=shape.dashes,
    )


def _entity(document: Any, entity: Entity) -> Any:
    if isinstance(entity, Shape):
        return _path(document, [entity.path], _Together(entity.layer, _pen(entity)))
    if isinstance(entity, Area):
        made = document.path(
            d=path_data(entity.paths), fill=entity.colour, fill_rule="evenodd", stroke="none"
        )
        if entity.opacity < 1:
            made["fill-opacity"] = number(entity.opacity)
        return made
    if isinstance(entity, Picture):
        return _picture(document, entity)
    raise TypeError(f"not lowered: {entity}")


def _path(document: Any, paths: Iterable[Path], style: _Together) -> Any:
    made = document.path(d=path_data(paths))
    own, pen = palette.PENS[style.layer], style.pen
    if pen.colour != own.colour:
        made["stroke"] = pen.colour
    if pen.width != own.width:
        made["stroke-width"] = number(pen.width)
    if pen.dashes != own.dashes:
        made["stroke-dasharray"] = _dashes(pen)
    return made


def _picture(document: Any, picture: Picture) -> Any:
    box: Box = picture.box
    made = document.image(
        f"data:image/png;base64,{b64encode(picture.png).decode('ascii')}",
        insert=(number(box.left), number(box.top)),
        size=(number(box.width), number(box.height)),
        preserveAspectRatio="none",
    )
    made.set_desc(plain(picture.says))
    return made


def _dashes(pen: palette.Pen) -> str:
    return " ".join(number(length) for length in pen.dashes)


def number(value: float) -> str:
    """Return a number to four decimals, without trailing zeros, and never a minus zero.

    >>> number(12.50004), number(-0.00001), number(3)
    ('12.5', '0', '3')
    """
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def path_data(paths: Iterable[Path]) -> str:
    """Return paths as SVG path data; a closed path ends with Z, not with its first point."""
    return " ".join(word for path in paths for word in _words(path))


def _words(path: Path) -> list[str]:
    words = [f"M{_at(path.start)}"]
    for segment in path.segments:
        words += _command(segment)
    if path.closed:
        # Z draws the last side where that is straight.
        if isinstance(path.segments[-1], Line) and len(path.segments) > 1:
            words.pop()
        words.append("Z")
    return words


def _command(segment: Segment) -> list[str]:
    if isinstance(segment, Line):
        return [f"L{_at(segment.b)}"]
    if isinstance(segment, Cubic):
        return [f"C{_at(segment.p)} {_at(segment.q)} {_at(segment.b)}"]
    words: list[str] = []
    rest, parts = segment, math.ceil(abs(segment.angle) / _WIDEST - 1e-9)
    radius: Mm = segment.radius
    for left in range(parts, 0, -1):
        first, rest = rest.split(1 / left) if left > 1 else (rest, rest)
        sweep = 1 if segment.bulge > 0 else 0
        words.append(f"A{number(radius)} {number(radius)} 0 0 {sweep} {_at(first.b)}")
    return words


def _at(point: tuple[Mm, Mm]) -> str:
    return f"{number(point[0])} {number(point[1])}"
