"""Where the ink on a drawn page ends, by looking closer and closer.

The page is drawn whole to find where any ink is, and again closer if that is a small part of it.
Then each side is followed on its own: a window where the ink ends is magnified, across the side
most, until a row of pixels is 1/16 000 of the ink's longer side; how much of the outermost row is
covered tells how much of it the ink fills. Ink is what is opaque to more than `FAINT`; a fainter
haze is none, nor is a dot of less than 1/2000 of the ink.
"""

from collections.abc import Callable
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image

    Render: TypeAlias = Callable[[Box, int, int], Image.Image]
    """Part of the page and pixels across and down, to RGBA; the part fills the picture."""

#: Pixels along the longer side of the look at the page: a dot of a quarter pixel shows.
LOOK = 1200
#: Likewise of the look at a part. Kept small: magnified, resvg's layers for clips, masks and
#: opacity are 25 times as large as the picture.
CLOSER_LOOK = 600
#: Part of the page's longer side below which the ink is looked at again.
SMALL = 0.5
#: Fewest pixels of a short side, so that a thin page is still seen.
FEWEST = 64
#: A window on one side: pixels along it, and rows across it.
ALONG, ROWS = 500, 64
#: Pixels per longer side of the ink in the last window; above 32 000 pdfium clamps coordinates.
FINE = 16_000
#: Pixels per longer side of the page in the last window: more is lost in single precision.
FINE_PAGE = 1_000_000
#: Alpha of 255 up to which a pixel is no ink: a speck of 3 once widened a box (common practice).
FAINT = 16
#: Part of the ink's longer side, plus part of the page's, that a side may be off; the tests
#: hold it. Most of the first is that a renderer draws a quarter turn as one cubic, 2.7e-4 of the
#: radius too far out in places; the rest is 3e-5. The second is the renderers' single precision.
ACCURACY, PAGE_ACCURACY = 2e-4, 1e-6


def accuracy(width: float, height: float, ink: Box) -> float:
    """Return how far a side of an ink box found here may be off, in the page's unit."""
    return ACCURACY * max(ink.width, ink.height) + PAGE_ACCURACY * max(width, height)


def find_ink(render: "Render", width: float, height: float) -> Box | None:
    """Return the box of the ink on a page, in the page's unit; None if there is none."""
    page = Box(0, 0, width, height)
    first = render(page, *pixels(page, LOOK, FEWEST))
    part = _inked_part(first, page, page, 0)
    if part is None:
        return None
    slack = 3 * max(width, height) / LOOK
    if max(part.width, part.height) < SMALL * max(width, height):
        second = render(part, *pixels(part, CLOSER_LOOK, FEWEST))
        seen = _inked_part(second, part, page, FAINT)
        slack = 3 * max(part.width, part.height) / CLOSER_LOOK
    else:
        seen = _inked_part(first, page, page, FAINT)
    if seen is None:
        return None
    finest = max(max(seen.width, seen.height) / FINE, max(width, height) / FINE_PAGE)
    ends = [_follow(render, seen, slack, finest, side) for side in Side]
    box = Box(max(ends[0], 0), max(ends[1], 0), min(ends[2], width), min(ends[3], height))
    return box if box.width > 0 and box.height > 0 else None


def has_white_ground(render: "Render", width: float, height: float, ink: Box) -> bool:
    """Return whether white fills the page to its corners, as a ground left in a drawing does."""
    slack = 2e-3 * max(width, height)
    if not ink.holds(Box(0, 0, width, height), slack):
        return False
    picture = render(Box(0, 0, width, height), FEWEST, FEWEST)
    ends = (1, FEWEST - 2)
    corners = [picture.getpixel((x, y)) for x in ends for y in ends]
    return all(isinstance(c, tuple) and min(c) >= 255 - FAINT for c in corners)


def pixels(box: Box, longer: int, fewest: int = 1) -> tuple[int, int]:
    """Return a picture size of a box's shape: pixels of the longer side, and a least side."""
    scale = longer / max(box.width, box.height)
    return max(fewest, round(box.width * scale)), max(fewest, round(box.height * scale))


def _inked_part(picture: "Image.Image", part: Box, page: Box, faint: int) -> Box | None:
    """Return the box of the ink in a drawn part of the page, two pixels larger all round."""
    found = _inked(picture, faint).getbbox()
    if found is None:
        return None
    x, y = part.width / picture.width, part.height / picture.height
    return Box(
        max(part.left + (found[0] - 2) * x, page.left),
        max(part.top + (found[1] - 2) * y, page.top),
        min(part.left + (found[2] + 2) * x, page.right),
        min(part.top + (found[3] + 2) * y, page.bottom),
    )


class Side(Enum):
    """A side of a box: how a picture is turned so that the side lies on top."""

    LEFT = 0
    TOP = 1
    RIGHT = 2
    BOTTOM = 3

    @property
    def upright(self) -> bool:
        """Whether the side runs up and down."""
        return self in {Side.LEFT, Side.RIGHT}

    @property
    def sign(self) -> int:
        """Whether inwards is towards larger (1) or smaller (-1) coordinates."""
        return 1 if self in {Side.LEFT, Side.TOP} else -1


def _follow(render: "Render", box: Box, slack: float, finest: float, side: Side) -> float:
    """Return where the ink ends at one side of a box that is right to a slack."""
    if side.upright:
        edge, along = (box.left if side is Side.LEFT else box.right), (box.top, box.bottom)
    else:
        edge, along = (box.top if side is Side.TOP else box.bottom), (box.left, box.right)
    outer, depth = edge - side.sign * slack, max(3 * slack, finest * ROWS)
    while True:
        picture = _window(render, side, outer, depth, along)
        found = _inked(picture, FAINT).getbbox()
        if found is None:
            return edge
        row = depth / ROWS
        if row <= finest:
            return outer + side.sign * row * _covered_from(picture, found[1])
        along = _narrowed(picture, found[1], along, finest * ALONG)
        outer += side.sign * row * (found[1] - 3)
        depth = max(6 * row, finest * ROWS)


def _window(
    render: "Render", side: Side, outer: float, depth: float, along: tuple[float, float]
) -> "Image.Image":
    """Return the picture of a window on one side, turned so that its outer edge is on top."""
    from PIL import Image

    low, high = sorted((outer, outer + side.sign * depth))
    if side.upright:
        picture = render(Box(low, along[0], high, along[1]), ROWS, ALONG)
        picture = picture.transpose(Image.Transpose.TRANSPOSE)
    else:
        picture = render(Box(along[0], low, along[1], high), ALONG, ROWS)
    return picture if side.sign > 0 else picture.transpose(Image.Transpose.FLIP_TOP_BOTTOM)


def _narrowed(
    picture: "Image.Image", top: int, along: tuple[float, float], least: float
) -> tuple[float, float]:
    """Return the range along a side that holds all the ink of the three outermost rows."""
    rows = picture.crop((0, top, picture.width, min(top + 3, picture.height)))
    found = _inked(rows, 0).getbbox() or (0, 0, picture.width, 0)
    pixel = (along[1] - along[0]) / picture.width
    low, high = along[0] + (found[0] - 3) * pixel, along[0] + (found[2] + 3) * pixel
    low, high = max(low, along[0]), min(high, along[1])
    short = max(least - (high - low), 0) / 2
    return low - short, high + short


def _covered_from(picture: "Image.Image", top: int) -> float:
    """Return the row at which the ink begins, by the cover of the outermost inked row."""
    alpha = picture.getchannel("A")

    def cover(row: int) -> int:
        line = alpha.crop((0, row, alpha.width, row + 1))
        return int(line.getextrema()[1])  # type: ignore[arg-type]  # one band: ints

    full = max(cover(row) for row in range(top, min(top + 3, alpha.height)))
    return top + 1 - cover(top) / full


def _inked(picture: "Image.Image", faint: int) -> "Image.Image":
    return picture.getchannel("A").point([0] * (faint + 1) + [255] * (255 - faint))
