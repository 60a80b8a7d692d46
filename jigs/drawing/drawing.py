"""The neutral drawing: shapes, texts, areas and pictures, on layers.

A drawing knows no garment and no format. Values are frozen: a step that changes a drawing
(kerf, tiling, printer correction) returns another one.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum
from typing import TypeAlias

from jigs.geometry import Affine, Box, Path, Point
from jigs.units import Mm


class Layer(Enum):
    """The four kinds of line."""

    CUT = "cut"
    """Cut through."""
    SCORE = "score"
    """Fold or half cut."""
    ENGRAVE = "engrave"
    """Marked on the surface."""
    NOTE = "note"
    """Information that never reaches the tool."""


class Anchor(Enum):
    """Which point of a line of text stands at its place; the baseline is always the height."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Shape:
    """A path drawn as a line on a layer; `dashed` is for drawings on paper only."""

    layer: Layer
    path: Path
    dashed: bool = False
    colour: str | None = None
    """Colour as `#rrggbb` instead of the layer's own; only on the note layer."""
    stroke: Mm | None = None
    """Width of the line where a format shows one; None is the layer's own."""
    dashes: tuple[Mm, ...] = ()
    """Lengths of dash and gap, to tell lines of a picture apart; only on the note layer."""


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text in single strokes: capital height, place of its baseline, turn in degrees."""

    layer: Layer
    string: str
    at: Point
    height: Mm
    anchor: Anchor = Anchor.START
    angle: float = 0.0
    colour: str | None = None


@dataclass(frozen=True, slots=True)
class Area:
    """A filled outline with holes (even-odd), `#rrggbb`; on the note layer by its nature."""

    paths: tuple[Path, ...]
    colour: str
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Picture:
    """A PNG image in a box; on the note layer by its nature."""

    box: Box
    png: bytes
    says: str


@dataclass(frozen=True, slots=True)
class Clip:
    """Another drawing, shifted, as far as it shows in a box: a tile's part of a large drawing.

    The drawing itself is the same value in every tile, so that a format can store it once.
    """

    box: Box
    drawing: "Drawing"
    x: Mm = 0.0
    y: Mm = 0.0


Entity: TypeAlias = Shape | Text | Area | Picture | Clip


@dataclass(frozen=True, slots=True)
class Drawing:
    """Entities in the order they are drawn."""

    entities: tuple[Entity, ...] = ()

    def plus(self, *more: "Drawing | Entity | Iterable[Entity]") -> "Drawing":
        """Return the drawing with more drawn on top."""
        entities = list(self.entities)
        for one in more:
            if isinstance(one, Drawing):
                entities += one.entities
            elif isinstance(one, (Shape, Text, Area, Picture, Clip)):
                entities.append(one)
            else:
                entities += one
        return Drawing(tuple(entities))

    def on(self, *layers: Layer) -> tuple[Entity, ...]:
        """Return the entities on some layers."""
        return tuple(e for e in self.entities if layer_of(e) in layers)

    def shapes(self, *layers: Layer) -> tuple[Shape, ...]:
        """Return the lines on some layers, or on all of them."""
        wanted = layers or tuple(Layer)
        return tuple(e for e in self.entities if isinstance(e, Shape) and e.layer in wanted)

    def moved(self, x: Mm, y: Mm) -> "Drawing":
        """Return the drawing shifted."""
        by = Affine.move(x, y)
        return Drawing(tuple(_moved(entity, by) for entity in self.entities))

    def bounds(self) -> Box:
        """Return the box of the lines, areas, pictures and clips; text must stand inside them.

        Raises:
            ValueError: nothing but text is drawn.
        """
        boxes = []
        for entity in self.entities:
            if isinstance(entity, Shape):
                boxes.append(entity.path.bounds())
            elif isinstance(entity, Area):
                boxes += [path.bounds() for path in entity.paths]
            elif isinstance(entity, (Picture, Clip)):
                boxes.append(entity.box)
        return Box.of_all(boxes)


@dataclass(frozen=True, slots=True)
class Page:
    """A drawing on a sheet of a size; (0, 0) is the sheet's top left corner."""

    width: Mm
    height: Mm
    drawing: Drawing
    title: str
    says: str
    label: str = ""
    """Page label, such as A1, in a document of several pages."""


def layer_of(entity: Entity) -> Layer:
    """Return the layer an entity is drawn on; a clip, which shows several, counts as a note."""
    return entity.layer if isinstance(entity, (Shape, Text)) else Layer.NOTE


def _moved(entity: Entity, by: Affine) -> Entity:
    if isinstance(entity, Shape):
        return replace(entity, path=entity.path.moved(by))
    if isinstance(entity, Text):
        return replace(entity, at=by.on(entity.at))
    if isinstance(entity, Area):
        return replace(entity, paths=tuple(path.moved(by) for path in entity.paths))
    box = entity.box
    a, b = by.on(Point(box.left, box.top)), by.on(Point(box.right, box.bottom))
    moved = Box(a.x, a.y, b.x, b.y)
    if isinstance(entity, Clip):
        shift = by.on(Point(entity.x, entity.y))
        return replace(entity, box=moved, x=shift.x, y=shift.y)
    return replace(entity, box=moved)
