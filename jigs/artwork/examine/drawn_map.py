"""The map of a drawing's inks: drawn without smoothed edges, every pixel has an exact colour."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeAlias

from jigs.artwork.colour import difference
from jigs.artwork.detail import Ink
from jigs.artwork.examine import nearest
from jigs.artwork.examine.morphology import apart as differing
from jigs.artwork.examine.morphology import highest, pieces, square, sums
from jigs.artwork.examine.palette import SAME_DRAWN, palette
from jigs.artwork.examine.shares import covered, shares
from jigs.artwork.examine.sheet import Sheet
from jigs.artwork.ink import FAINT
from jigs.geometry import Box, Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from PIL import Image

    from jigs.artwork.examine.fringe import Vectors
    from jigs.artwork.examine.morphology import Cover, Map

    Packed: TypeAlias = NDArray[np.uint32]
    """A colour and its opacity as one number: red in the lowest byte, opacity in the highest."""


class Render(Protocol):
    """Draws a part of the page so that it fills a picture; crisp is without smoothed edges."""

    def __call__(self, part: Box, across: int, down: int, *, crisp: bool = False) -> "Image.Image":
        """Return the picture, RGBA."""


#: Pixels along the longer side of the ink's map. What is thinner than one is found as a hair.
LONGEST = 1500
#: Pixels of ground round the ink.
_MARGIN = 2
#: A hair is where the smoothed drawing differs from the crisp one by more than this of 255, in
#: three pixels beside each other: a tenth of a pixel is seen, however it lies.
_HAIR = 24
#: Hairs that are looked at, in all and of each colour.
_MOST_HAIRS, _OF_A_COLOUR = 24, 5
_HAIR_SIDE, _HAIR_WIDTHS = 96, 12
#: Colours that are told apart exactly; of what has more, the rest goes by the table.
_MOST_EXACT = 64


@dataclass(frozen=True, slots=True)
class DrawnMap:
    """A drawing's map, its inks, and where it has lines thinner than the map's pixels."""

    sheet: Sheet
    inks: tuple[Ink, ...]
    flat: bool
    hairs: tuple[tuple[float, Point], ...]
    """About how wide, and where."""


def drawn_map(render: Render, ink: Box) -> DrawnMap:
    """Return the map of what is drawn inside the box of the ink."""
    import numpy as np

    pixel = max(ink.width, ink.height) / LONGEST
    across = round(ink.width / pixel) + 2 * _MARGIN
    down = round(ink.height / pixel) + 2 * _MARGIN
    corner = Point(ink.left - _MARGIN * pixel, ink.top - _MARGIN * pixel)
    part = Box(corner.x, corner.y, corner.x + across * pixel, corner.y + down * pixel)
    crisp = _packed(render(part, across, down, crisp=True))
    starts, lengths = _runs(crisp)
    values, of_run = np.unique(crisp.ravel()[starts], return_inverse=True)
    counts = np.bincount(of_run, lengths)
    areas = {int(v): float(n) for v, n in zip(values, counts, strict=True)}
    hairs = []
    for width, x, y in _hairs(crisp, _packed(render(part, across, down))):
        hair = (width * pixel, Point(corner.x + x * pixel, corner.y + y * pixel))
        hairs.append(hair)
        for value, area in _seen_at(render, *hair, pixel).items():
            # What the map has missed altogether; what it has seen, it has measured better.
            if value not in areas:
                areas[value] = area
    colours = _Colours(areas)
    labels = np.repeat(colours.labels(values)[of_run], lengths).reshape(crisp.shape)
    sheet = Sheet(labels, corner, pixel, len(colours.inks), _DrawnLook(render, colours))
    return DrawnMap(sheet, colours.inks, colours.flat, tuple(hairs))


class _Colours:
    """The inks of a drawing, and which of them any of its colours is."""

    def __init__(self, areas: Mapping[int, float]) -> None:
        import numpy as np

        painted: dict[str, float] = {}
        ordered = sorted(areas, key=lambda value: (-areas[value], value))
        for value in ordered:
            if value >> 24 > FAINT:
                painted[_hex(value)] = painted.get(_hex(value), 0.0) + areas[value]
        found = palette(painted.items(), SAME_DRAWN)
        self.flat = found.flat
        self._table = nearest.table(found.colours)
        each = [(*nearest.rgb(ink), 255) for ink in found.colours]
        self.vectors: Vectors = np.array([(0, 0, 0, 0), *each], np.float32)
        exact = [value for value in ordered if value >> 24 > FAINT][:_MOST_EXACT]
        self.exact = {value: 1 + _nearest(_hex(value), found.colours) for value in exact}
        values = np.array(ordered, np.uint32)
        shares = np.bincount(
            self.labels(values), [areas[v] for v in ordered], len(found.colours) + 1
        )[1:]
        self.inks = tuple(
            Ink(colour, float(share / shares.sum()))
            for colour, share in zip(found.colours, shares, strict=True)
        )

    def labels(self, values: "Packed") -> "Map":
        """Return which ink each of some colours is."""
        import numpy as np

        red, green, blue = (((values >> shift) & 255).astype(np.uint8) for shift in (0, 8, 16))
        found = self._table[nearest.index(red, green, blue)]
        for value, label in self.exact.items():
            found[values == value] = label
        found[values >> 24 <= FAINT] = 0
        return found


@dataclass(frozen=True, slots=True)
class _DrawnLook:
    """A drawing, drawn as large as is asked for."""

    render: Render
    colours: _Colours

    def labels(self, part: Box, side: int) -> "Map":
        """Return the map of a part."""
        return self.colours.labels(_packed(self.render(part, side, side, crisp=True)))

    def cover(self, part: Box, side: int, inks: frozenset[int]) -> "Cover":
        """Return how much of each pixel some inks cover: the smoothed drawing tells on edges."""
        import numpy as np

        labels = self.labels(part, side)
        smooth = np.asarray(self.render(part, side, side))
        return covered(labels, shares(labels, smooth, self.colours.vectors), inks)


def _nearest(colour: str, inks: tuple[str, ...]) -> int:
    """Return which of some inks looks most like a colour."""
    return min(range(len(inks)), key=lambda k: difference(colour, inks[k]))


def _packed(picture: "Image.Image") -> "Packed":
    import numpy as np

    return np.ascontiguousarray(np.asarray(picture)).view("<u4")[..., 0]


def _hex(value: int) -> str:
    return nearest.hex_of(value & 255, value >> 8 & 255, value >> 16 & 255)


def _runs(values: "Packed") -> tuple["NDArray[np.intp]", "NDArray[np.intp]"]:
    """Return where runs of equal neighbours start, row after row, and how long they are."""
    import numpy as np

    flat = values.ravel()
    starts = np.concatenate([[0], np.flatnonzero(flat[1:] != flat[:-1]) + 1])
    return starts, np.diff(starts, append=flat.size)


def _hairs(crisp: "Packed", smooth: "Packed") -> list[tuple[float, float, float]]:
    """Return about how wide, in pixels, and where lines are that the crisp drawing has missed."""
    import numpy as np

    apart = differing(_premultiplied(crisp), _premultiplied(smooth)).max(axis=2)
    # Near an edge of the crisp drawing the smoothed one differs anyway.
    edges = np.zeros(crisp.shape, np.uint8)
    edges[:, 1:] |= crisp[:, 1:] != crisp[:, :-1]
    edges[1:] |= crisp[1:] != crisp[:-1]
    apart[highest(edges, square()) > 0] = 0
    across, along = sums(apart, 3, 1), sums(apart, 1, 3)
    # Across a hair the sum is how wide it is; along it, it is three times one pixel's.
    least = np.minimum(across, along)
    least[np.maximum(across, along) <= _HAIR] = 0
    parts = pieces((least > 0).view(np.uint8))
    order = sorted(range(1, parts.count), key=lambda k: (-int(parts.boxes[k, 4]), k))
    found = []
    colours: Counter[int] = Counter()
    for k in order:
        x, y, wide, high = (int(v) for v in parts.boxes[k, :4])
        # The pixel of the piece that is nearest to its middle: a curve's middle is beside it.
        rows, columns = np.nonzero(least[y : y + high, x : x + wide])
        near = np.hypot(columns + x - parts.middles[k, 0], rows + y - parts.middles[k, 1]).argmin()
        column, row = int(columns[near]) + x, int(rows[near]) + y
        # Nearly equal colours are one: a hair's pixels are mixed, but only with the ground.
        colour = int(smooth[row, column]) & 0xC0C0C0
        colours[colour] += 1
        if colours[colour] <= _OF_A_COLOUR:
            right, down = _off_middle(apart, row, column)
            width = float(least[row, column]) / 255
            found.append((width, column + 0.5 + right, row + 0.5 + down))
        if len(found) == _MOST_HAIRS:
            break
    return found


def _off_middle(apart: "NDArray[np.uint8]", row: int, column: int) -> tuple[float, float]:
    """Return how far right and down of a pixel's middle a hair runs, by how it covers the next."""
    import numpy as np

    around = apart[max(row - 1, 0) : row + 2, max(column - 1, 0) : column + 2].astype(float)
    if around.shape != (3, 3) or not around.sum():
        return 0.0, 0.0
    steps = np.array([-1.0, 0.0, 1.0])
    total = around.sum()
    return float((around.sum(axis=0) @ steps) / total), float((around.sum(axis=1) @ steps) / total)


def _seen_at(render: Render, width: float, at: Point, pixel: float) -> dict[int, float]:
    """Return the colours round a hair, each with its area there in pixels of the map."""
    import numpy as np

    side = _HAIR_WIDTHS * width
    part = Box(at.x - side / 2, at.y - side / 2, at.x + side / 2, at.y + side / 2)
    seen = _packed(render(part, _HAIR_SIDE, _HAIR_SIDE, crisp=True))
    scale = (side / _HAIR_SIDE / pixel) ** 2
    values, counts = np.unique(seen, return_counts=True)
    return {int(v): float(n) * scale for v, n in zip(values, counts, strict=True)}


def _premultiplied(values: "Packed") -> "NDArray[np.uint8]":
    import numpy as np

    parts = values.view(np.uint8).reshape(*values.shape, 4)
    opaque = parts[..., 3:].astype(np.uint16)
    found = (parts * opaque // 255).astype(np.uint8)
    found[..., 3] = parts[..., 3]
    return found
