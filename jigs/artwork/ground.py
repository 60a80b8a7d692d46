"""Telling the ink of a picture from its ground: a transparent one, or a white one.

The picture is gone through in strips: once for its ground and the rows and columns that hold
ink, once for the sides of the ink's box, once for its preview.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from jigs.artwork.examine.morphology import pieces
from jigs.artwork.ink import FAINT
from jigs.artwork.pixels import ROWS, Pixels, Window
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.errors import BadInput, Place

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from PIL import Image

    Cover: TypeAlias = NDArray[np.uint8]
    """How much of each pixel is ink, 0 to 255."""

#: A pixel is white when every channel is within this of 255; the same step as for alpha
#: (common practice, no source).
NEAR_WHITE = FAINT
#: Part of the border that must be white for the ground to be white: ink may bleed off a side.
_WHITE_BORDER = 0.5
#: Rows of a side that are looked at to tell how much of the outermost one is covered.
_DEEP = 3
#: JPEG's ripples reach as far as its blocks of 8 x 8 do, and two of those with coarse colour.
_BLOCK = 16
#: There, what has less than the first part of the ink behind it is ink only if it goes on for
#: some rows at more than the second part, as ripples do not (from memory; the tests hold it).
_CLEAR, _PALE, _LASTING = 0.5, 0.15, 4
#: Pixels in the outermost row from which it is the side of something, not its tip.
_SIDE = 4
#: Part of a pixel, beyond what is too faint to be seen, that a side or a tip may be off.
_OFF_SIDE, _OFF_TIP, _OFF_LOSSY = 0.1, 1.0, 1.5


@dataclass(frozen=True, slots=True)
class Told:
    """The ink of a picture: its ground, its box in pixels, and how it looks on no ground."""

    ground: str
    """`transparent`, `white` or `none`."""
    box: tuple[float, float, float, float]
    """Left, top, right and bottom of the ink, to a part of a pixel where its edge is smooth."""
    accuracy: float
    """Pixels that a side of the box may be off."""
    preview: bytes
    white_inside: float = 0.0
    """Part of the box that is white and shut in by ink, on a white ground."""


def tell(pixels: Pixels) -> Told:
    """Return the ink of a picture.

    Raises:
        BadInput: there is none, or the file is broken.
    """
    seen = _look(pixels)
    if seen.opaque is None:
        found = "no ink: every pixel is transparent"
        raise BadInput(Place(""), found, "export it with its artwork visible")
    if seen.transparent:
        box, off = _refined(pixels, seen.opaque, "transparent")
        return Told("transparent", box, off, _preview(pixels, seen.opaque))
    if seen.white_border < _WHITE_BORDER:
        whole = (0, 0, pixels.width, pixels.height)
        return Told("none", whole, 0.0, _preview(pixels, whole))
    if seen.marked is None:
        found = "no ink: every pixel is white or nearly white"
        raise BadInput(Place(""), found, "white artwork needs a transparent ground")
    box, off = _refined(pixels, seen.marked, "white")
    small = _sized(_reduced(pixels, seen.marked, marked=True))
    return Told("white", box, off, png_bytes(small), _shut_in(small))


def cover(rgba: "NDArray[np.uint8]", ground: str) -> "Cover":
    """Return how much of each pixel is ink: its alpha, or on a white ground its darkness.

    Darkness is that of the darkest channel, laid on white.
    """
    import numpy as np

    alpha = rgba[..., 3]
    if ground == "transparent":
        return alpha
    dark = 255 - np.minimum(np.minimum(rgba[..., 0], rgba[..., 1]), rgba[..., 2])
    if alpha.min() == 255:
        return dark
    laid = (dark.astype(np.uint16) * alpha + 127) // 255
    return laid.astype(np.uint8)


@dataclass(frozen=True, slots=True)
class _Seen:
    transparent: bool
    opaque: Window | None
    """Box of what is not transparent."""
    marked: Window | None
    """Box of what is not white; only known if nothing is transparent."""
    white_border: float
    """Part of the border that is white."""


def _look(pixels: Pixels) -> _Seen:
    opaque, marked = _Spread(pixels), _Spread(pixels)
    transparent, white = False, 0
    for top, strip in pixels.strips():
        alpha = strip[..., 3]
        opaque.add(top, alpha)
        transparent = transparent or int(alpha.min()) <= FAINT
        if not transparent:
            dark = cover(strip, "white")
            marked.add(top, dark)
            blank = dark <= NEAR_WHITE
            white += int(blank[:, 0].sum()) + int(blank[:, -1].sum())
            white += int(blank[0].sum()) if top == 0 else 0
            white += int(blank[-1].sum()) if top + len(strip) == pixels.height else 0
    border = 2 * (pixels.width + pixels.height)
    return _Seen(transparent, opaque.box(), marked.box(), white / border)


class _Spread:
    """The most cover in each row and each column, gathered strip by strip."""

    def __init__(self, pixels: Pixels) -> None:
        import numpy as np

        self._rows = np.zeros(pixels.height, np.uint8)
        self._columns = np.zeros(pixels.width, np.uint8)

    def add(self, top: int, part: "Cover") -> None:
        import numpy as np

        self._rows[top : top + len(part)] = part.max(axis=1)
        np.maximum(self._columns, part.max(axis=0), out=self._columns)

    def box(self) -> Window | None:
        rows, columns = ((spread > FAINT).nonzero()[0] for spread in (self._rows, self._columns))
        if not len(rows):
            return None
        return int(columns[0]), int(rows[0]), int(columns[-1]) + 1, int(rows[-1]) + 1


def _refined(
    pixels: Pixels, box: Window, ground: str
) -> tuple[tuple[float, float, float, float], float]:
    """Return a box of whole pixels with each side where its outermost ink begins.

    And how far a side may be off.
    """
    left, top, right, bottom = box
    deep = 2 * _BLOCK if pixels.lossy else _DEEP
    sides = (
        (left, top, min(left + deep, right), bottom),
        (left, top, right, min(top + deep, bottom)),
        (max(right - deep, left), top, right, bottom),
        (left, max(bottom - deep, top), right, bottom),
    )
    west, north, east, south = (cover(part, ground) for part in pixels.windows(sides))
    inwards = (west.T, north, east.T[::-1], south[::-1])
    begins = _begins_lossy if pixels.lossy else _begins
    (x, x_off), (y, y_off), (right_in, right_off), (bottom_in, bottom_off) = map(begins, inwards)
    off = max(x_off, y_off, right_off, bottom_off)
    return (left + x, top + y, right - right_in, bottom - bottom_in), off


def _begins(part: "Cover") -> tuple[float, float]:
    """Return the row at which the ink begins, by how the outermost one is covered.

    And how far that may be off.
    """
    inked = part[0] > FAINT
    near = part[:_DEEP, inked].astype(float)
    full = near.max(axis=0)
    covered = near[0] / full
    off = _OFF_SIDE if len(covered) >= _SIDE else _OFF_TIP
    # Of those equally far out, at a corner too, the strongest tells best what is too faint.
    strongest = full[covered >= covered.max() - _OFF_SIDE].max()
    return float(1 - covered.max()), off + FAINT / float(strongest)


def _begins_lossy(part: "Cover") -> tuple[float, float]:
    """Return the same of a JPEG, past the ripples beside its ink."""
    import numpy as np

    for row in range(min(_BLOCK, len(part))):
        # The ink behind, or to the side: a block's ripples run out of it both ways.
        behind = np.pad(part[row : row + _BLOCK].max(axis=0), _BLOCK)
        full = np.lib.stride_tricks.sliding_window_view(behind, 2 * _BLOCK + 1).max(axis=1)
        lasting = part[row : row + _LASTING].min(axis=0)
        clear = part[row] > np.maximum(_CLEAR * full, FAINT)
        inked = clear | (lasting > np.maximum(_PALE * full, FAINT))
        if inked.any():
            begin, off = _begins(part[row : row + _DEEP, inked])
            return row + begin, off + _OFF_LOSSY
    return 0.0, _OFF_TIP + _BLOCK


def _preview(pixels: Pixels, box: Window) -> bytes:
    return png_bytes(_sized(_reduced(pixels, box, marked=False)))


def _shut_in(small: "Image.Image") -> float:
    """Return the part of a preview that is clear and that nothing clear joins to its outside."""
    import numpy as np

    clear = np.asarray(small.getchannel("A")) < 128
    # With a rim all round, what is outside is one piece, and it is the first pixel's.
    numbers = pieces(np.pad(clear, 1, constant_values=True).view(np.uint8)).numbers
    shut = (numbers > 0) & (numbers != numbers[0, 0])
    return float(shut.sum()) / clear.size


def _reduced(pixels: Pixels, box: Window, *, marked: bool) -> "Image.Image":
    """Return a part of the picture at twice a preview's size; if `marked`, what is white is clear.

    All white, that too which is shut in by ink: it is not printed.
    """
    from PIL import Image

    left, top, right, bottom = box
    factor = max(1, max(right - left, bottom - top) // (2 * PREVIEW))
    whole = Image.new("RGBA", (-(-(right - left) // factor), -(-(bottom - top) // factor)))
    for first, strip in pixels.strips(-(-ROWS // factor) * factor, top, bottom):
        part = strip[:, left:right].copy()
        if marked:
            part[..., 3] = 255 * (cover(part, "white") > NEAR_WHITE)
        # Pillow premultiplies RGBA itself here, so the ground's colour does not bleed in.
        whole.paste(Image.fromarray(part).reduce(factor), (0, (first - top) // factor))
    return whole


def _sized(picture: "Image.Image") -> "Image.Image":
    from PIL import Image

    scale = PREVIEW / max(picture.size)
    size = (max(1, round(picture.width * scale)), max(1, round(picture.height * scale)))
    # Here too it premultiplies.
    return picture.resize(size, Image.Resampling.BOX if scale < 1 else Image.Resampling.BICUBIC)
