"""Taking the soft rims off a picture drawn without antialiasing.

pdfium smooths the edge of a clip and of a picture even where it is asked not to. What is left is
a rim one or two pixels wide whose colours are mixed of those on its two sides; each of its pixels
is given to the side it is nearer to. A line is no mixture of its sides, and stays.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from PIL import Image

#: Steps of 255 that a mixed colour may be off the straight line between the two it is made of.
_OFF = 6
#: Pixels at the edge of a picture whose sides are not both in it.
MARGIN = 2
#: Part of the picture that rims can be; above it these are shades, and stay.
_MOST = 0.2
_WAYS = ((0, 1), (1, 0), (1, 1), (1, -1))


def without_rims(picture: "Image.Image") -> "Image.Image":
    """Return an RGBA picture with each pixel of a soft rim in the colour of one of its sides.

    Its outermost pixels stay.
    """
    import numpy as np
    from PIL import Image

    pixels = np.array(picture)
    # What is clear has no colour.
    pixels[pixels[..., 3] == 0] = 0
    soft = _unlike_both_sides(pixels.view(np.uint32)[..., 0])
    soft[:MARGIN] = soft[-MARGIN:] = soft[:, :MARGIN] = soft[:, -MARGIN:] = False
    rows, columns = np.nonzero(soft)
    if not 0 < len(rows) <= _MOST * soft.size:
        return Image.fromarray(pixels)
    done = _give_to_a_side(pixels, soft, rows, columns)
    _give_to_neighbours(pixels, soft, rows, columns, done)
    return Image.fromarray(pixels)


def _unlike_both_sides(codes: Any) -> Any:
    """Return which pixels differ from both neighbours in a row, or from both in a column."""
    import numpy as np

    soft = np.zeros(codes.shape, bool)
    beside, below = codes[:, 1:] != codes[:, :-1], codes[1:] != codes[:-1]
    soft[:, 1:-1] = beside[:, 1:] & beside[:, :-1]
    soft[1:-1] |= below[1:] & below[:-1]
    return soft


def _give_to_a_side(pixels: Any, soft: Any, rows: Any, columns: Any) -> Any:
    """Give soft pixels that are mixed of two opposite ones to the nearer; return which were."""
    import numpy as np

    given = np.zeros(len(rows), bool)
    own = _weighted(pixels[rows, columns])
    values = np.zeros((len(rows), 4), np.uint8)
    for far in (MARGIN, 1):
        for down, right in _WAYS:
            one = rows - down * far, columns - right * far
            other = rows + down * far, columns + right * far
            a, b = _weighted(pixels[one]), _weighted(pixels[other])
            span = b - a
            length = (span**2).sum(axis=1)
            part = ((own - a) * span).sum(axis=1) / np.maximum(length, 1)
            off = np.abs(own - a - part[:, None] * span).max(axis=1)
            mixed = ~given & ~soft[one] & ~soft[other] & (length > 0)
            mixed &= (off <= _OFF) & (part >= 0) & (part <= 1)
            nearer = np.where((part < 0.5)[:, None], pixels[one], pixels[other])
            values[mixed] = nearer[mixed]
            given |= mixed
    pixels[rows[given], columns[given]] = values[given]
    return given


def _give_to_neighbours(pixels: Any, soft: Any, rows: Any, columns: Any, done: Any) -> None:
    """Give soft pixels beside a rim, where three colours meet, to the likest neighbour."""
    import numpy as np

    clean = ~soft
    clean[rows[done], columns[done]] = True
    given = np.zeros(soft.shape, bool)
    given[rows[done], columns[done]] = True
    rows, columns = rows[~done], columns[~done]
    own = _weighted(pixels[rows, columns])
    best = np.full(len(rows), np.inf)
    values = pixels[rows, columns]
    at_rim = np.zeros(len(rows), bool)
    for down in (-1, 0, 1):
        for right in (-1, 0, 1):
            there = rows + down, columns + right
            at_rim |= given[there]
            away = ((_weighted(pixels[there]) - own) ** 2).sum(axis=1)
            better = clean[there] & (away < best)
            best[better] = away[better]
            values[better] = pixels[there][better]
    pixels[rows[at_rim], columns[at_rim]] = values[at_rim]


def _weighted(colours: Any) -> Any:
    """Return colours multiplied by their alpha, as they are mixed."""
    import numpy as np

    wide = colours.astype(np.float32)
    wide[:, :3] *= wide[:, 3:] / 255
    return wide
