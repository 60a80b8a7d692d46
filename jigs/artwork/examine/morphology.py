"""What OpenCV does for the close look, with types; the only module that knows it."""

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Map: TypeAlias = NDArray[np.uint8]
    """Which ink a pixel has: 0 is the ground, k the k-th ink."""
    Mask: TypeAlias = NDArray[np.uint8]
    """1 where a shape is, else 0."""
    Distances: TypeAlias = NDArray[np.float32]
    Cover: TypeAlias = NDArray[np.float32]
    """How much of a pixel a shape covers, 0 to 1."""
    Bytes: TypeAlias = NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Pieces:
    """The connected parts of a mask; number 0 is what is no part."""

    count: int
    numbers: "NDArray[np.int32]"
    """Which part each pixel belongs to."""
    boxes: "NDArray[np.int32]"
    """Left, top, width, height and area of each."""
    middles: "NDArray[np.float64]"


@cache
def square() -> "Mask":
    """Return a square of 3 x 3 pixels."""
    import numpy as np

    return np.ones((3, 3), np.uint8)


def lowest(values: "Bytes", kernel: "Mask") -> "Bytes":
    """Return the least value round each pixel; what is beyond the picture does not count."""
    import cv2

    return _bytes(cv2.erode(values, kernel))


def highest(values: "Bytes", kernel: "Mask") -> "Bytes":
    """Return the greatest value round each pixel; what is beyond the picture does not count."""
    import cv2

    return _bytes(cv2.dilate(values, kernel))


def same(labels: "Map", kernel: "Mask") -> "Mask":
    """Return where all round a pixel has the pixel's own label."""
    import numpy as np

    return np.asarray(lowest(labels, kernel) == highest(labels, kernel), np.uint8)


def looked_up(labels: "Map", table: "Map") -> "Map":
    """Return what a table of 256 has for each number; NumPy would need eight bytes for each."""
    import cv2

    return _bytes(cv2.LUT(labels, table))


def beside(labels: "Map") -> "Map":
    """Return what lies beside each pixel: another label of its neighbours, or its own."""
    import numpy as np

    most = highest(labels, square())
    return np.where(most != labels, most, lowest(labels, square()))


def distances(mask: "Mask") -> "Distances":
    """Return how far each pixel's middle is from that of the nearest pixel outside a mask."""
    import cv2
    import numpy as np

    if mask.all():
        return np.full(mask.shape, np.inf, np.float32)
    return _floats(cv2.distanceTransform(mask, cv2.DIST_L2, cv2.DIST_MASK_PRECISE))


def distances_in_parts(mask: "Mask", parts: int) -> "Bytes":
    """Return the same to a few parts in a hundred, and quickly, in so many parts of a pixel.

    What is farther than fits into a byte is 255.
    """
    import cv2
    import numpy as np

    if mask.all():
        return np.full(mask.shape, 255, np.uint8)
    found = cv2.distanceTransform(mask, cv2.DIST_L2, cv2.DIST_MASK_5)
    return _bytes(cv2.convertScaleAbs(found, alpha=parts))


def steepness(values: "Bytes") -> "Bytes":
    """Return how steep values are at each: the square of the gradient, times 4.

    What does not fit into a byte, and on the border all, is 255.
    """
    import cv2
    import numpy as np

    found = np.full(values.shape, 255, np.uint8)
    if min(values.shape) > 2:
        across = cv2.absdiff(values[1:-1, 2:], values[1:-1, :-2])
        down = cv2.absdiff(values[2:, 1:-1], values[:-2, 1:-1])
        found[1:-1, 1:-1] = cv2.add(cv2.multiply(across, across), cv2.multiply(down, down))
    return found


def pieces(mask: "Mask") -> Pieces:
    """Return the connected parts of a mask; corners connect."""
    import cv2
    import numpy as np

    count, numbers, boxes, middles = cv2.connectedComponentsWithStats(
        mask, connectivity=8, ltype=cv2.CV_32S
    )
    return Pieces(
        count, np.asarray(numbers, np.int32), np.asarray(boxes, np.int32), np.asarray(middles)
    )


def present_in(numbers: "NDArray[np.int32] | Map") -> list[int]:
    """Return which numbers there are."""
    import numpy as np

    return [int(k) for k in np.flatnonzero(np.bincount(numbers.ravel()))]


def nearest_pieces(mask: "Mask") -> "NDArray[np.int32]":
    """Return for each pixel the number of the connected part of a mask that is nearest to it."""
    import cv2
    import numpy as np

    return np.asarray(
        cv2.distanceTransformWithLabels(
            1 - mask, cv2.DIST_L2, cv2.DIST_MASK_5, labelType=cv2.DIST_LABEL_CCOMP
        )[1],
        np.int32,
    )


def per_block(mask: "Mask", side: int) -> "Bytes":
    """Return how many pixels of a mask each block of `side` x `side` pixels, up to 15, has.

    The last blocks of a row or column may reach beyond the picture.
    """
    height, width = mask.shape
    mask = framed(mask, 0, -height % side, 0, -width % side, 0)
    rows = mask[::side].copy()
    for k in range(1, side):
        rows += mask[k::side]
    found = rows[:, ::side].copy()
    for k in range(1, side):
        found += rows[:, k::side]
    return found


def framed(
    values: "Bytes", above: int, below: int, left: int, right: int, value: int | None
) -> "Bytes":
    """Return a picture with rows and columns of a value round it; of None, like its border."""
    import cv2

    how = cv2.BORDER_REPLICATE if value is None else cv2.BORDER_CONSTANT
    return _bytes(cv2.copyMakeBorder(values, above, below, left, right, how, value=value or 0))


def sampled(cover: "Cover", xs: "Cover", ys: "Cover") -> "Cover":
    """Return a picture's values between its pixels; beyond it, those of its border."""
    import cv2

    return _floats(cv2.remap(cover, xs, ys, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE))


def sums(values: "Bytes", across: int, down: int) -> "NDArray[np.uint16]":
    """Return the sum of the values round each pixel."""
    import cv2
    import numpy as np

    return np.asarray(cv2.boxFilter(values, cv2.CV_16U, (across, down), normalize=False), np.uint16)


def apart(one: "Bytes", two: "Bytes") -> "Bytes":
    """Return by how much values differ."""
    import cv2

    return _bytes(cv2.absdiff(one, two))


def in_lab(colours: "NDArray[np.float32]") -> "NDArray[np.float32]":
    """Return sRGB colours, a row of three from 0 to 255 each, in CIELAB (D65)."""
    import cv2

    return _floats(cv2.cvtColor(colours[None] / 255, cv2.COLOR_RGB2Lab)[0])


def _bytes(found: object) -> "Bytes":
    import numpy as np

    return np.asarray(found, np.uint8)


def _floats(found: object) -> "NDArray[np.float32]":
    import numpy as np

    return np.asarray(found, np.float32)
