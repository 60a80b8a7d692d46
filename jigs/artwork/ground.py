"""Telling the ink of a picture from its ground: a transparent one, or a white one."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.artwork.ink import FAINT
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.errors import BadInput, Place

if TYPE_CHECKING:
    from PIL import Image

#: A pixel is white when every channel is within this of 255; the same step as for alpha
#: (common practice, no source).
NEAR_WHITE = FAINT
#: Part of the border that must be white for the ground to be white: ink may bleed off a side.
_WHITE_BORDER = 0.5


@dataclass(frozen=True, slots=True)
class Told:
    """The ink of a picture: its ground, its box in pixels, and how it looks on no ground."""

    ground: str
    box: tuple[int, int, int, int]
    preview: bytes


def tell(picture: "Image.Image", place: Place) -> Told:
    """Return the ink of an RGBA picture.

    Raises:
        BadInput: there is none.
    """
    alpha = picture.getchannel("A")
    opaque = alpha.point([0] * (FAINT + 1) + [255] * (255 - FAINT))
    box = opaque.getbbox()
    if box is None:
        found = "no ink: every pixel is transparent"
        raise BadInput(place, found, "export it with its artwork visible")
    if alpha.getextrema()[0] <= FAINT:  # type: ignore[operator]  # one band: ints
        return Told("transparent", box, _shrunk(picture.crop(box)))
    marks = _not_white(picture)
    if not _white_at_border(marks):
        return Told("none", (0, 0, *picture.size), _shrunk(picture))
    found_box = marks.getbbox()
    if found_box is None:
        found = "no ink: every pixel is white or nearly white"
        raise BadInput(place, found, "white artwork needs a transparent ground")
    return Told("white", found_box, _without_ground(picture, marks, found_box))


def _not_white(picture: "Image.Image") -> "Image.Image":
    """Return where a picture, laid on white, is not white: 255 there, else 0."""
    from PIL import Image, ImageChops

    laid = picture
    if picture.getchannel("A").getextrema() != (255, 255):
        laid = Image.new("RGBA", picture.size, (255, 255, 255, 255))
        laid.alpha_composite(picture)
    darkest = ImageChops.darker(laid.getchannel("R"), laid.getchannel("G"))
    darkest = ImageChops.darker(darkest, laid.getchannel("B"))
    return darkest.point([255] * (255 - NEAR_WHITE) + [0] * (NEAR_WHITE + 1))


def _white_at_border(marks: "Image.Image") -> bool:
    width, height = marks.size
    sides = ((0, 0, width, 1), (0, height - 1, width, height), (0, 0, 1, height))
    borders = [marks.crop(side) for side in (*sides, (width - 1, 0, width, height))]
    white = sum(border.histogram()[0] for border in borders)
    return white >= _WHITE_BORDER * 2 * (width + height)


def _without_ground(
    picture: "Image.Image", marks: "Image.Image", box: tuple[int, int, int, int]
) -> bytes:
    """Return the preview with the white that reaches in from outside made transparent."""
    from PIL import Image, ImageDraw, ImageFilter

    whole = picture.crop(box)
    cut = whole.copy()
    cut.putalpha(marks.crop(box))
    small = _sized(whole)
    inked = _sized(cut)
    # Flooded at the preview's size: at the picture's own it would take minutes.
    alpha = inked.getchannel("A").point([0] * 128 + [255] * 128)
    sea = Image.new("L", (small.width + 2, small.height + 2), 0)
    sea.paste(alpha, (1, 1))
    ImageDraw.floodfill(sea, (0, 0), 128)
    outside = sea.point([255 if v == 128 else 0 for v in range(256)])
    # One pixel further in, so that the shore takes its own half cover instead of a white rim.
    shore = outside.filter(ImageFilter.MaxFilter(3))
    small.paste(inked, mask=shore.crop((1, 1, small.width + 1, small.height + 1)))
    return png_bytes(small)


def _shrunk(picture: "Image.Image") -> bytes:
    return png_bytes(_sized(picture))


def _sized(picture: "Image.Image") -> "Image.Image":
    from PIL import Image

    scale = PREVIEW / max(picture.size)
    size = (max(1, round(picture.width * scale)), max(1, round(picture.height * scale)))
    # Pillow premultiplies RGBA itself here, so the ground's colour does not bleed in.
    return picture.resize(size, Image.Resampling.BOX if scale < 1 else Image.Resampling.BICUBIC)
