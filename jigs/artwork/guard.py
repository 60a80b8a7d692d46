"""Every limit that artwork is read under, with its reason.

What is covered: size of the file, of its page and of its pictures; depth, number and fan-out of
XML elements; documents that reach outside themselves; renderers that crash, hang or eat memory
(they run in `child`, which writes no file). What is not: on Windows the child has no limit but
the clock's, on macOS none of memory; and a child may use the processor for as long as it may run.
"""

import io
import math
import warnings

from jigs.errors import BadInput, Place
from jigs.units import LONGEST, Mm

#: A full-back picture of 6000 x 6000 px is 20 to 40 MB; nothing larger is artwork for a garment.
MOST_BYTES = 64_000_000
#: XML unpacks to about ten times its size in memory; drawings with this much path data are scans.
MOST_XML_BYTES = 32_000_000
#: A square of 500 mm at 600 ppi is 12 000 x 12 000, or 144 million; such a picture is gone
#: through in strips.
MOST_PIXELS = 160_000_000
#: A strip of 128 rows, or of one column, must stay small, whatever the other side.
LONGEST_SIDE = 60_000
#: Pictures inside a drawing are unpacked by the renderer, several copies at a time.
MOST_EMBEDDED_PIXELS = 50_000_000
#: Drawing programs nest groups 20 or 30 deep; references count as depth too.
DEEPEST = 256
#: A traced photograph has some 100 000 paths.
MOST_ELEMENTS = 400_000
#: What is drawn once every `use`, pattern, mask and marker is followed.
MOST_DRAWN = 1_000_000
#: A page shorter than this is a slip of the unit.
SHORTEST: Mm = 0.1
#: Seconds of the processor for one file in the child; 12 000 x 12 000 pixels in four inks take
#: about 40. The processor's, so that a machine busy with other things does not refuse a sound file.
MOST_SECONDS = 60
#: Seconds by the clock, for a child that waits or is kept waiting: a quarter of a processor will
#: do. Where the system does not limit the processor's time, this is the only limit.
MOST_WAITING = 240.0
#: Address space of the child, in bytes; an honest drawing stays under 500 MB.
MOST_MEMORY = 3_000_000_000


def check_bytes(data: bytes, place: Place) -> None:
    """Refuse an empty file and one that is too large.

    Raises:
        BadInput: it is.
    """
    if not data:
        raise BadInput(place, "the file is empty (0 bytes)", "save or copy it again")
    if len(data) > MOST_BYTES:
        found = f"the file has {len(data) / 1e6:.0f} MB"
        raise BadInput(place, found, f"allowed: up to {MOST_BYTES / 1e6:.0f} MB")


def check_page(width: Mm, height: Mm, place: Place) -> None:
    """Refuse a page that no artwork has.

    Raises:
        BadInput: a side is not a number, or outside `SHORTEST`..`LONGEST`.
    """
    for side in (width, height):
        if not math.isfinite(side) or not SHORTEST <= side <= LONGEST:
            found = f"the page is {width:.6g} x {height:.6g} mm"
            allowed = f"allowed: sides from {SHORTEST:g} to {LONGEST:g} mm"
            raise BadInput(place, found, allowed)


def check_pixels(width: int, height: int, place: Place) -> None:
    """Refuse a picture with no pixels, too many, or too many in a row.

    Raises:
        BadInput: it has.
    """
    if not (0 < width * height <= MOST_PIXELS and max(width, height) <= LONGEST_SIDE):
        found = f"the picture is {width} x {height} pixels"
        allowed = f"{MOST_PIXELS // 10**6} million pixels, {LONGEST_SIDE} along a side"
        raise BadInput(place, found, f"allowed: up to {allowed}")


def picture_pixels(data: bytes) -> int | None:
    """Return how many pixels an embedded picture's head promises; None if it is no picture."""
    size = picture_size(data)
    return size[0] * size[1] if size else None


def picture_size(data: bytes) -> tuple[int, int] | None:
    """Return the pixels across and down that an embedded picture's head promises."""
    from PIL import Image

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        try:
            with Image.open(io.BytesIO(data), formats=("PNG", "JPEG", "GIF", "WEBP")) as picture:
                return picture.size
        except Image.DecompressionBombError:
            return MOST_PIXELS + 1, 1
        except (OSError, ValueError, SyntaxError):
            return None
