"""The map of a picture's inks: which ink each pixel is, and how much of it.

The picture is gone through in strips. One byte a pixel is kept: its ink, in four bits, and in four
the share of it that is that ink; the rest of it is what lies beside it. So a place can be
magnified, and a line is measured to a part of a pixel, without the picture.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from jigs.artwork.detail import Ink
from jigs.artwork.examine import fringe, nearest
from jigs.artwork.examine.at_once import in_turn
from jigs.artwork.examine.morphology import framed, looked_up, present_in, sampled
from jigs.artwork.examine.seen_colours import WHITE, SeenColours, Strips, seen_colours
from jigs.artwork.examine.shares import WHOLE, covered, shares
from jigs.artwork.examine.sheet import LABEL, Sheet
from jigs.geometry import Box, Point

if TYPE_CHECKING:
    from jigs.artwork.examine.fringe import Vectors
    from jigs.artwork.examine.morphology import Cover, Map
    from jigs.artwork.examine.seen_colours import Rgba

    _Part: TypeAlias = tuple[int, slice, Rgba]
    """The first own row of a strip, its own rows of what is given, and that."""

#: The bits of a kept pixel that are the share of its ink begin here; those before are the ink.
_SHARE = 4
#: Rows of its neighbours that a strip is given, so that its own are judged as if it had no ends.
_HALO = 2 * fringe.WIDE + 2
#: Rows that are gone through at a time.
_BAND = 512
#: In a window of more than so many pixels for each of its own, parts of pixels do not matter.
_COARSE = 3


@dataclass(frozen=True, slots=True)
class SeenMap:
    """A picture's map and its inks."""

    sheet: Sheet
    inks: tuple[Ink, ...]
    flat: bool


def seen_map(
    strips: Strips, width: int, height: int, ground: str, *, blurred: bool = False
) -> SeenMap | None:
    """Return the map of a picture on a ground that is `transparent`, `white` or `none`.

    `blurred` is what a file's compression has blurred. Lengths are in pixels. None if no ink can be
    told from the ground.
    """
    import numpy as np

    colours = seen_colours(strips, width * height, ground, blurred=blurred)
    if not colours.inks:
        return None
    mapper = _Mapper(colours, ground)
    # A pixel of ground all round, so that nothing ends at the map's border.
    packed = np.full((height + 2, width + 2), WHOLE << _SHARE, np.uint8)
    counts = np.zeros(LABEL + 1, np.int64)
    for top, labels, share in in_turn(mapper.mapped, _with_neighbours(strips)):
        packed[top + 1 : top + 1 + len(labels), 1:-1] = labels | share << _SHARE
        counts += np.bincount(labels.ravel(), minlength=len(counts))
    total = int(counts[1:].sum())
    if not total:
        return None
    order = sorted(range(1, len(colours.inks) + 1), key=lambda k: (-int(counts[k]), k))
    ranks = np.zeros(LABEL + 1, np.uint8)
    ranks[order] = range(1, len(order) + 1)
    every = np.arange(256)
    table = (every & ~LABEL).astype(np.uint8) | ranks[every & LABEL]
    for top in range(0, len(packed), _BAND):
        packed[top : top + _BAND] = looked_up(packed[top : top + _BAND], table)
    inks = [Ink(colours.inks[k - 1], int(counts[k]) / total) for k in order]
    look = _SeenLook(packed, len(inks))
    sheet = Sheet(packed, Point(-1, -1), 1.0, len(inks), look, grain=1.0)
    return SeenMap(sheet, tuple(inks), colours.flat)


class _Mapper:
    """Finds the ink of pixels."""

    def __init__(self, colours: SeenColours, ground: str) -> None:
        import numpy as np

        white = ground == "white"
        self.opaque, self.inks = colours.opaque, len(colours.inks)
        self.table = nearest.table([*colours.inks, *([WHITE] if white else [])])
        self.table[self.table > self.inks] = 0
        bare = (255.0,) * 4 if white else (0.0,) * 4
        each = [(*nearest.rgb(ink), 255) for ink in colours.inks]
        self.vectors: Vectors = np.array([bare, *each], np.float32)

    def mapped(self, part: "_Part") -> tuple[int, "Map", "Map"]:
        """Return the first row of a strip, and of each pixel its ink and the share of that."""
        import numpy as np

        top, own, strip = part
        red, green, blue = (np.ascontiguousarray(strip[..., k]) for k in range(3))
        labels = self.table[nearest.index(red, green, blue)]
        labels[strip[..., 3] < self.opaque] = 0
        if self.inks > 1:
            fringe.resolve(labels, strip, self.vectors)
        return top, labels[own], shares(labels, strip, self.vectors)[own]


def _with_neighbours(strips: Strips) -> Iterator["_Part"]:
    """Yield strips with rows of their neighbours: the first own row, and which rows are own."""
    import numpy as np

    above: Rgba | None = None
    held: tuple[int, Rgba] | None = None
    for top, strip in strips():
        if held is not None:
            yield _joined(held, above, strip[:_HALO])
            above = held[1][-_HALO:]
        # A copy: the strip may be gone when the next is decoded.
        held = (top, np.array(strip))
    if held is not None:
        yield _joined(held, above, None)


def _joined(held: tuple[int, "Rgba"], above: "Rgba | None", below: "Rgba | None") -> "_Part":
    import numpy as np

    top, strip = held
    parts = [part for part in (above, strip, below) if part is not None]
    first = len(above) if above is not None else 0
    return top, slice(first, first + len(strip)), np.concatenate(parts)


@dataclass(frozen=True, slots=True)
class _SeenLook:
    """A picture's map, magnified by how much of each pixel is its ink."""

    packed: "Map"
    inks: int

    def labels(self, part: Box, side: int) -> "Map":
        """Return the map of a part: each pixel is the ink that covers most of it."""
        import numpy as np

        crop, share, corner = self._crop(part)
        if part.width > _COARSE * side:
            return _sampled(crop, part, corner, side)
        best, most = np.zeros((side, side), np.uint8), np.full((side, side), -1, np.float32)
        for label in present_in(crop):
            cover = _magnified(covered(crop, share, frozenset({label})), part, corner, side)
            more = cover > most
            best[more], most[more] = label, cover[more]
        return best

    def cover(self, part: Box, side: int, inks: frozenset[int]) -> "Cover":
        """Return how much of each pixel some inks cover together."""
        crop, share, corner = self._crop(part)
        return _magnified(covered(crop, share, inks), part, corner, side)

    def _crop(self, part: Box) -> tuple["Map", "Map", tuple[int, int]]:
        """Return the map and the shares of a part, and where they begin; ground beyond the map."""
        import numpy as np

        # The map's first row and column are before the picture's.
        left, top = int(part.left // 1) - 2, int(part.top // 1) - 2
        right, bottom = int(part.right // 1) + 4, int(part.bottom // 1) + 4
        height, width = self.packed.shape
        rows = slice(min(max(top + 1, 0), height), max(min(bottom + 1, height), 0))
        columns = slice(min(max(left + 1, 0), width), max(min(right + 1, width), 0))
        beyond = (
            max(-1 - top, 0), max(bottom + 1 - height, 0),
            max(-1 - left, 0), max(right + 1 - width, 0),
        )  # fmt: skip
        crop = framed(self.packed[rows, columns], *beyond, WHOLE << _SHARE)
        label = np.uint8(LABEL)
        return crop & label, crop >> np.uint8(_SHARE), (left, top)


def _sampled(labels: "Map", part: Box, corner: tuple[int, int], side: int) -> "Map":
    """Return a part of a map by the pixel at the middle of each of the new ones."""
    import numpy as np

    steps = (np.arange(side) + 0.5) / side
    columns = np.floor(part.left - corner[0] + steps * part.width).astype(np.intp)
    rows = np.floor(part.top - corner[1] + steps * part.height).astype(np.intp)
    return labels[np.ix_(rows, columns)]


def _magnified(cover: "Cover", part: Box, corner: tuple[int, int], side: int) -> "Cover":
    import numpy as np

    steps = (np.arange(side, dtype=np.float32) + 0.5) / side
    xs = part.left - corner[0] - 0.5 + steps * part.width
    ys = part.top - corner[1] - 0.5 + steps * part.height
    return sampled(
        cover,
        np.tile(xs.astype(np.float32), (side, 1)),
        np.tile(ys.astype(np.float32)[:, None], (1, side)),
    )
