"""Which ink any colour is, by a table: quick, and exact enough where a colour is a mixture."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from jigs.artwork.examine.morphology import in_lab

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: Bits of each of red, green and blue that the table goes by.
_BITS = 5


def table(colours: Sequence[str]) -> "NDArray[np.uint8]":
    """Return the label, 1 for the first ink, of every colour: the nearest one in CIELAB."""
    import numpy as np

    step = 1 << 8 - _BITS
    levels = np.arange(0, 256, step, dtype=np.float32) + (step - 1) / 2
    red, green, blue = np.meshgrid(levels, levels, levels, indexing="ij")
    every = np.stack([red.ravel(), green.ravel(), blue.ravel()], axis=1)
    own = np.array([rgb(one) for one in colours], np.float32)
    every, own = in_lab(every), in_lab(own)
    far = [np.sum((every - one) ** 2, axis=1) for one in own]
    return np.asarray(np.argmin(far, axis=0) + 1, np.uint8)


def index(
    red: "NDArray[np.uint8]", green: "NDArray[np.uint8]", blue: "NDArray[np.uint8]"
) -> "NDArray[np.uint16]":
    """Return where colours stand in the table."""
    import numpy as np

    drop = 8 - _BITS
    found = (red >> drop).astype(np.uint16)
    found <<= _BITS
    found |= green >> drop
    found <<= _BITS
    found |= blue >> drop
    return found


def rgb(colour: str) -> tuple[int, int, int]:
    """Return the numbers of `#rrggbb`."""
    red, green, blue = (int(colour[k : k + 2], 16) for k in (1, 3, 5))
    return red, green, blue


def hex_of(red: int, green: int, blue: int) -> str:
    """Return `#rrggbb`."""
    return f"#{red:02x}{green:02x}{blue:02x}"
