"""PNG: the ink is what is opaque, or on an opaque ground what is not white."""

import io
import struct
import warnings
from hashlib import sha256
from typing import TYPE_CHECKING

from jigs.artwork import guard
from jigs.artwork.artwork import Artwork
from jigs.artwork.ground import Told, tell
from jigs.artwork.readers._reader import Reader
from jigs.errors import BadInput, Finding, Place
from jigs.geometry import Box
from jigs.units import INCH

if TYPE_CHECKING:
    from PIL import Image

_MAGIC = b"\x89PNG\r\n\x1a\n"
#: A picture that does not say its resolution is taken at this (common practice, no source).
USUAL_PPI = 300.0
#: Resolutions outside this are a mistake of the program that wrote them.
_PPI = (10.0, 10_000.0)


def recognises(data: bytes) -> bool:
    """Return whether the file has PNG's signature (PNG specification, 5.2)."""
    return data.startswith(_MAGIC)


def read(name: str, data: bytes, place: Place) -> Artwork:
    """Return the artwork in a PNG.

    Raises:
        BadInput: broken, too many pixels, an impossible page, or no ink.
    """
    _check_head(data, place)
    picture, ppi = _decode(data, place)
    says: list[str] = []
    x, y = _resolution(ppi, says)
    width, height = picture.width / x * INCH, picture.height / y * INCH
    guard.check_page(width, height, place)
    told = tell(picture, place)
    if told.ground == "none":
        says.append(
            "the picture has neither a transparent nor a white ground: all of it counts as ink",
        )
    return Artwork(
        name=name,
        kind="png",
        sha256=sha256(data).hexdigest(),
        page_width=width,
        page_height=height,
        ink=_ink(told, x, y),
        accuracy=INCH / min(x, y),
        ground=told.ground,
        preview=told.preview,
        findings=tuple(Finding(blocks=False, about=name, says=text) for text in says),
    )


def _check_head(data: bytes, place: Place) -> None:
    # The head is read by hand, so that the size is judged before any library allocates.
    if len(data) < 33 or data[12:16] != b"IHDR":
        raise BadInput(place, "the PNG is broken or cut short", "save or copy it again")
    width, height = struct.unpack(">II", data[16:24])
    guard.check_pixels(width, height, place)


def _decode(data: bytes, place: Place) -> tuple["Image.Image", tuple[float, float] | None]:
    from PIL import Image, ImageOps

    with warnings.catch_warnings():
        # Pixels are limited by guard; Pillow's own warning starts at fewer.
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        try:
            with Image.open(io.BytesIO(data), formats=("PNG",)) as picture:
                picture.load()
                ppi = picture.info.get("dpi")
                return _rgba(ImageOps.exif_transpose(picture)), ppi
        except (OSError, SyntaxError, ValueError, EOFError, struct.error) as problem:
            found = f"the PNG is broken or cut short: {str(problem)[:80]}"
            raise BadInput(place, found, "save or copy it again") from None
        except MemoryError:
            raise BadInput(place, "the PNG needs too much memory", "send a smaller one") from None


def _rgba(picture: "Image.Image") -> "Image.Image":
    from PIL import Image

    if not picture.mode.startswith("I"):
        return picture.convert("RGBA")
    # Pillow cuts 16-bit grey off at 255 instead of scaling it: take the high bytes.
    wide = picture if picture.mode == "I;16" else picture.convert("I;16")
    grey = Image.frombytes("L", wide.size, wide.tobytes()[1::2])
    out = grey.convert("RGBA")
    clear = picture.info.get("transparency")
    if isinstance(clear, int):
        out.putalpha(grey.point([0 if v == clear >> 8 else 255 for v in range(256)]))
    return out


def _resolution(ppi: tuple[float, float] | None, says: list[str]) -> tuple[float, float]:
    if ppi is None:
        return USUAL_PPI, USUAL_PPI
    x, y = float(ppi[0]), float(ppi[1])
    if not (_PPI[0] <= x <= _PPI[1] and _PPI[0] <= y <= _PPI[1]):
        says.append(f"the PNG says {x:g} x {y:g} ppi, which cannot be; {USUAL_PPI:g} was taken")
        return USUAL_PPI, USUAL_PPI
    if abs(x - y) > 0.01 * x:
        says.append(f"the PNG's pixels are not square: {x:g} x {y:g} ppi")
    return x, y


def _ink(told: Told, x: float, y: float) -> Box:
    left, top, right, bottom = told.box
    return Box(left / x * INCH, top / y * INCH, right / x * INCH, bottom / y * INCH)


READER = Reader("PNG", (".png",), recognises, read)
