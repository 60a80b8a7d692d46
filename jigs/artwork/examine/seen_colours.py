"""The inks of a picture, read off where it is flat.

On an edge pixels are mixtures of what lies on both sides, and no inks; a pixel all of whose eight
neighbours are like it is none. A fine line has no such pixel: so what is not flat, and is no
mixture of two inks that are there anyway, is an ink too. Where a file's compression blurs colours
(JPEG) that cannot be told, and the flat parts alone count.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from jigs.artwork.colour import difference
from jigs.artwork.examine import nearest
from jigs.artwork.examine.morphology import highest, lowest, square
from jigs.artwork.examine.palette import MOST_INKS, SAME_SEEN, palette
from jigs.artwork.ink import FAINT

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Rgba: TypeAlias = NDArray[np.uint8]
    """Rows by columns by 4, not premultiplied."""

#: Goes through a picture: the first row of each strip, and its pixels.
Strips: TypeAlias = Callable[[], Iterable[tuple[int, "Rgba"]]]

WHITE = "#ffffff"
#: Beside the ink of a JPEG white ripples to colours this far from it (CIEDE2000; from trials).
_PALE = 12.0
#: Neighbours are alike if they differ by less than 16 of 255 in each channel: none of these bits
#: of a pixel's four bytes is set in the difference.
_TELLING = 0xF0F0F0F0
#: Pixels whose colours are looked at, of each sort.
_MOST_SAMPLES = 400_000
#: An ink has at least this part of the samples, and so many of them.
_LEAST_SHARE, _LEAST_SAMPLES = 3e-5, 6
#: Likewise of what is not flat; a line's few fully covered pixels show its colour.
_LEAST_LINE = 1e-3
#: Opacity from which a pixel is ink: half, unless so large a part of the flat ink is fainter.
_HALF, _FAINT_SHARE = 128, 0.005
#: A colour this near to the straight way between two, of 255 in each channel, may be their mixture.
_BESIDE = 32.0
#: Part of the ink that must be flat for it to have no shades: in line work most of it is edge.
_MOSTLY_FLAT = 0.2


@dataclass(frozen=True, slots=True)
class SeenColours:
    """The inks of a picture, and what is ink in it."""

    inks: tuple[str, ...]
    flat: bool
    opaque: int
    """Opacity from which a pixel is ink."""


class _Samples:
    """Some of the pixels that a picture has of one sort, evenly spread."""

    def __init__(self, every: int) -> None:
        self.every, self.count = every, 0
        self.values: list[NDArray[np.uint32]] = []

    def add(self, pixels: "NDArray[np.uint32]") -> None:
        first = -self.count % self.every
        self.values.append(pixels[first :: self.every].copy())
        self.count += len(pixels)

    def all(self) -> "NDArray[np.uint32]":
        import numpy as np

        return np.concatenate(self.values) if self.values else np.zeros(0, np.uint32)


def seen_colours(strips: Strips, pixels: int, ground: str, *, blurred: bool) -> SeenColours:
    """Return the inks of a picture on a ground that is `transparent`, `white` or `none`."""
    import numpy as np

    every = max(1, pixels // _MOST_SAMPLES)
    flat, edges, ink = _Samples(every), _Samples(max(1, every // 4)), 0
    for _, strip in strips():
        values = np.ascontiguousarray(strip).view("<u4")[..., 0]
        alike = _alike(lowest(strip, square()), highest(strip, square()))
        shown = strip[..., 3] > FAINT
        ink += int(np.count_nonzero(shown))
        flat.add(values[alike & shown])
        if not blurred:
            edges.add(values[~alike & shown])
    return _inks(flat, edges, ink, ground, pale=_PALE if blurred else 0.0)


def _alike(low: "Rgba", high: "Rgba") -> "NDArray[np.bool_]":
    import numpy as np

    apart: NDArray[np.uint32] = np.subtract(high, low).view("<u4")[..., 0]
    return np.asarray(apart & _TELLING == 0)


def _inks(flat: _Samples, edges: _Samples, ink: int, ground: str, *, pale: float) -> SeenColours:
    import numpy as np

    samples = flat.all()
    opacity = samples >> 24
    faint = np.count_nonzero(opacity < _HALF) > _FAINT_SHARE * max(len(samples), 1)
    opaque = FAINT + 1 if faint else _HALF
    found = _grouped(samples[opacity >= opaque])
    total = sum(weight for _, weight in found)
    least = max(_LEAST_SAMPLES, _LEAST_SHARE * total)
    chosen = palette([one for one in found if one[1] >= least], SAME_SEEN)
    known = list(chosen.colours)
    if ground == "white" and not any(_is_white(one, pale) for one in known):
        known.append(WHITE)
    along = edges.all()
    known += list(_unmixed(_grouped(along[along >> 24 >= opaque // 2]), known))
    inks = [one for one in known if ground != "white" or not _is_white(one, pale)]
    # A photograph has hardly two neighbours that are alike.
    enough = flat.count >= _MOSTLY_FLAT * ink or len(inks) <= 2
    return SeenColours(tuple(inks[:MOST_INKS]), chosen.flat and enough, opaque)


def _is_white(colour: str, pale: float) -> bool:
    """Return whether a colour is a white ground's: nearly white, or no farther from it."""
    return min(nearest.rgb(colour)) >= 255 - FAINT or difference(colour, WHITE) <= pale


def _unmixed(found: list[tuple[str, float]], known: list[str]) -> Iterator[str]:
    """Yield colours that are no mixtures of two inks, known or yielded, the farthest first."""
    import numpy as np

    if not found:
        return
    weights = np.array([weight for _, weight in found])
    points = np.array([nearest.rgb(colour) for colour, _ in found], float)
    least = max(_LEAST_SAMPLES, _LEAST_LINE * float(weights.sum()))
    inks = [np.array(nearest.rgb(one), float) for one in known]
    # Without any ink all is far.
    away = np.full(len(found), np.inf)
    for k, one in enumerate(inks):
        for two in inks[k:]:
            away = np.minimum(away, _beside(points, one, two))
    while len(inks) <= MOST_INKS and float(weights[away > _BESIDE].sum()) >= least:
        heavy = weights >= min(least, float(weights[away > _BESIDE].max()))
        far = int(np.where(heavy, np.minimum(away, 1e9), -1).argmax())
        yield found[far][0]
        new = points[far]
        for one in [*inks, new]:
            away = np.minimum(away, _beside(points, one, new))
        inks.append(new)


def _beside(
    points: "NDArray[np.float64]", one: "NDArray[np.float64]", two: "NDArray[np.float64]"
) -> "NDArray[np.float64]":
    """Return how far points are from the straight way between two others."""
    import numpy as np

    way = two - one
    length = float(way @ way)
    part = np.clip((points - one) @ way / length, 0, 1)[:, None] if length else 0.0
    found: NDArray[np.float64] = np.linalg.norm(points - one - part * way, axis=1)
    return found


def _grouped(values: "NDArray[np.uint32]") -> list[tuple[str, float]]:
    """Return the commonest colour of each cell of the table, with the cell's weight."""
    import numpy as np

    if not len(values):
        return []
    exact, counts = np.unique(values & 0xFFFFFF, return_counts=True)
    red, green, blue = ((exact >> shift & 255).astype(np.uint8) for shift in (0, 8, 16))
    cells = nearest.index(red, green, blue)
    # Stable, so that of equally common colours the least is taken on every machine.
    order = np.lexsort((exact, -counts, cells))
    firsts = order[np.unique(cells[order], return_index=True)[1]]
    weights = np.bincount(cells, counts, 1 << 15)
    return [
        (nearest.hex_of(int(red[k]), int(green[k]), int(blue[k])), float(weights[cells[k]]))
        for k in firsts
    ]
