"""The pixels of a PNG, JPEG or TIFF, decoded by libvips; lives in the child process only.

A file is decoded strip by strip. Up to `KEPT` pixels the result is kept, so that nothing is
decoded twice; a larger picture is decoded anew for each pass over it. One that EXIF says is
turned or mirrored has its first row somewhere else, so it is kept at any size.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any, TypeAlias

from jigs.artwork import guard, raster_head
from jigs.artwork.srgb import in_srgb
from jigs.artwork.tiff_tags import EXTRA_SAMPLES, tags
from jigs.errors import BadInput, Place
from jigs.geometry import Box

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Rgba: TypeAlias = NDArray[np.uint8]
    """Height x width x 4: sRGB and straight alpha."""

#: Pixels up to which a picture is kept, at 4 bytes each.
KEPT = 40_000_000
#: Rows of a strip, if no other number is asked for.
ROWS = 128
#: Rows asked of libvips at a time: with more, its buffers outgrow the processor's cache.
_AT_A_TIME = 16
#: Left, top, right and bottom, in pixels; the last two just outside.
Window: TypeAlias = tuple[int, int, int, int]

TITLES = {"png": "PNG", "jpeg": "JPEG", "tiff": "TIFF"}


class Pixels:
    """A picture of a file, upright, in sRGB."""

    def __init__(self, data: bytes, form: str, page: int = 1) -> None:
        """Read the head of a file of a format (`png`, `jpeg` or `tiff`).

        Raises:
            BadInput: broken, no such page, too many pixels, or pixels of a kind not read.
        """
        import pyvips

        pyvips.cache_set_max(0)
        pyvips.concurrency_set(1)
        self.lossy = form == "jpeg"
        self._data, self._form, self._page = data, form, page
        self._kept: Rgba | None = None
        self._cleared: tuple[Window, ...] = ()
        self._value = 0
        self._check_head()
        image = self._open(1)
        self.pages = self._number(image, "n-pages", 1)
        if not 1 <= page <= self.pages:
            found = f"page {page} was asked for, but the {TITLES[form]} has {self.pages}"
            raise BadInput(Place(""), found, f"allowed: 1 to {self.pages}")
        if page > 1:
            image = self._open(page)
        guard.check_pixels(image.width, image.height, Place(""))
        self._orientation = self._number(image, "orientation", 1)
        if not 1 <= self._orientation <= 8:
            self._orientation = 1
        _, self.says = self._convert(image)
        self.width, self.height = image.width, image.height
        self.ppi = self._ppi(image)
        if self._orientation > 4:
            self.width, self.height = self.height, self.width
            self.ppi = self.ppi and (self.ppi[1], self.ppi[0])
        if self._orientation > 1:
            self.says = (*self.says, "turned upright as its EXIF says")

    def strips(
        self, rows: int = ROWS, top: int = 0, bottom: int | None = None
    ) -> "Iterator[tuple[int, Rgba]]":
        """Yield rows of the picture downwards: the first row of each strip, and its pixels.

        Raises:
            BadInput: the file is broken further on.
        """
        bottom = self.height if bottom is None else bottom
        if self._is_kept():
            whole = self._whole()
            for first in range(top, bottom, rows):
                yield first, whole[first : min(first + rows, bottom)]
        else:
            yield from self._decode(rows, top, bottom)

    def clear(self, boxes: Sequence[Box], value: int) -> None:
        """Leave some parts out of all that follows: every channel has a value there."""
        self._value = value
        self._cleared = tuple(
            (max(int(box.left), 0), max(int(box.top), 0), int(box.right), int(box.bottom))
            for box in boxes
        )
        if self._kept is not None:
            self._blank(0, self._kept)

    def _blank(self, first: int, strip: "Rgba") -> None:
        for left, top, right, bottom in self._cleared:
            strip[max(top - first, 0) : max(bottom - first, 0), left:right] = self._value

    def window(self, left: int, top: int, right: int, bottom: int) -> "Rgba":
        """Return a part of the picture, which must lie within it.

        Raises:
            BadInput: the file is broken further on.
        """
        return next(iter(self.windows([(left, top, right, bottom)])))

    def windows(self, boxes: Sequence[Window]) -> "Iterator[Rgba]":
        """Yield several parts of the picture, all from one pass over it.

        Raises:
            BadInput: the file is broken further on.
        """
        if self._is_kept():
            whole = self._whole()
            yield from (whole[top:bottom, left:right] for left, top, right, bottom in boxes)
        else:
            yield from self._collect(boxes)

    def _collect(self, boxes: Sequence[Window]) -> "list[Rgba]":
        import numpy as np

        found = [np.empty((b - t, r - x, 4), np.uint8) for x, t, r, b in boxes]
        highest = min((top for _, top, *_ in boxes), default=0)
        lowest = max((bottom for *_, bottom in boxes), default=0)
        for first, strip in self._decode(ROWS, highest, lowest):
            for (left, top, right, bottom), part in zip(boxes, found, strict=True):
                begin, end = max(top, first), min(bottom, first + len(strip))
                if begin < end:
                    part[begin - top : end - top] = strip[begin - first : end - first, left:right]
        return found

    def _is_kept(self) -> bool:
        return self._orientation > 1 or self.width * self.height <= KEPT

    def _whole(self) -> "Rgba":
        import numpy as np

        if self._kept is None:
            whole = np.empty((self.height, self.width, 4), np.uint8)
            stored = _as_stored(whole, self._orientation)
            for top, strip in self._decode(ROWS, 0, len(stored)):
                stored[top : top + len(strip)] = strip
            self._kept = whole
        return self._kept

    def _decode(self, rows: int, top: int, bottom: int) -> "Iterator[tuple[int, Rgba]]":
        """Yield rows of the picture as the file stores it."""
        import numpy as np
        import pyvips

        image, _ = self._convert(self._open(self._page))
        # One region throughout: between two of its own, libvips would forget rows it needs again.
        region = pyvips.Region.new(image)
        for first in range(top, bottom, rows):
            strip = np.empty((min(rows, bottom - first), image.width, 4), np.uint8)
            for row in range(0, len(strip), _AT_A_TIME):
                part = strip[row : row + _AT_A_TIME]
                try:
                    held = region.fetch(0, first + row, image.width, len(part))
                except pyvips.Error as problem:
                    raise self._broken(problem) from None
                part[:] = np.frombuffer(held, np.uint8).reshape(part.shape)
            self._blank(first, strip)
            yield first, strip

    def _open(self, page: int) -> Any:
        import pyvips

        # Named loaders, and no guessing: libvips could be made to load much else.
        image = pyvips.Image
        how: dict[str, Any] = {"access": "sequential", "fail_on": "error"}
        try:
            if self._form == "png":
                return image.pngload_buffer(self._data, **how)
            if self._form == "jpeg":
                return image.jpegload_buffer(self._data, **how)
            return image.tiffload_buffer(self._data, page=page - 1, **how)
        except pyvips.Error as problem:
            raise self._broken(problem) from None

    def _check_head(self) -> None:
        # libvips' PNG library would call a size of 0 or of too much broken.
        if self._form == "png":
            size = raster_head.png_size(self._data)
            if size is None:
                raise self._broken(None)
            guard.check_pixels(*size, Place(""))

    def _convert(self, image: Any) -> tuple[Any, tuple[str, ...]]:
        extras = None
        if self._form == "tiff":
            extras = tags(self._data, self._page).get(EXTRA_SAMPLES)
        return in_srgb(image, extras)

    def _ppi(self, image: Any) -> tuple[float, float] | None:
        if self._form == "png":
            return raster_head.png_ppi(self._data)
        if self._form == "tiff":
            return raster_head.tiff_ppi(self._data, self._page)
        exif = bytes(image.get("exif-data")) if image.get_typeof("exif-data") else b""
        return raster_head.jpeg_ppi(self._data, exif)

    def _number(self, image: Any, name: str, usual: int) -> int:
        return int(image.get(name)) if image.get_typeof(name) else usual

    def _broken(self, problem: Exception | None) -> BadInput:
        why = (str(problem).strip().splitlines() if problem else []) or [""]
        detail = f": {why[-1].strip()[:80]}" if why[-1] else ""
        found = f"the {TITLES[self._form]} is broken or cut short{detail}"
        return BadInput(Place(""), found, "save or copy it again")


def _as_stored(upright: "Rgba", orientation: int) -> "Rgba":
    """Return a view of an upright picture as the file stores it (EXIF 2.32, 4.6.4 A)."""
    import numpy as np

    if orientation == 6:
        return np.rot90(upright)
    if orientation == 8:
        return np.rot90(upright, -1)
    if orientation in {2, 3, 7}:
        upright = upright[:, ::-1]
    if orientation in {3, 4, 7}:
        upright = upright[::-1]
    return upright.swapaxes(0, 1) if orientation in {5, 7} else upright
