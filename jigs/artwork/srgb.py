"""The colours of a picture as 8-bit sRGB with straight alpha, by libvips and its LittleCMS.

Profiles are followed by relative colorimetric intent with black-point compensation: paper white
becomes white, full black becomes black, and what sRGB can show keeps the colour it measures,
which perceptual tables would change, each maker's in its own way.
"""

import itertools
from collections.abc import Sequence
from typing import Any

from jigs.errors import BadInput, Place

_PROFILE = "icc-profile-data"
#: Colour channels by libvips' name of what they mean, and what a profile calls that
#: (ICC.1:2022, table 19).
_CHANNELS = {
    "b-w": (1, b"GRAY"),
    "grey16": (1, b"GRAY"),
    "srgb": (3, b"RGB "),
    "rgb": (3, b"RGB "),
    "rgb16": (3, b"RGB "),
    "cmyk": (4, b"CMYK"),
}
#: A profile that changes no colour by more than this is sRGB, whatever it is called.
_SAME = 2
#: What an extra channel of a TIFF must be to be transparency (TIFF 6.0, section 18).
_ALPHA = {1, 2}


def in_srgb(image: Any, extras: Sequence[float] | None) -> tuple[Any, tuple[str, ...]]:
    """Return a libvips image as RGBA, and what was done to its colours.

    `extras` says what the channels beyond the colours are, where the format does.

    Raises:
        BadInput: pixels that are neither grey, RGB nor CMYK of up to 16 bits.
    """
    channels, space = _CHANNELS.get(image.interpretation, (0, b""))
    if not 0 < channels <= image.bands or image.format not in {"uchar", "ushort"}:
        found = f"pixels of a kind that is not read ({image.interpretation}, {image.format})"
        raise BadInput(Place(""), found, "save it as RGB, CMYK or grey, 8 or 16 bits per channel")
    says: list[str] = []
    alpha = _alpha(image, channels, extras, says)
    colour = image if image.bands == channels else image.extract_band(0, n=channels)
    if image.format == "ushort":
        says.append("16 bits per channel, read as 8")
    colour = _by_profile(colour, space, says)
    if colour.bands == 1:
        colour = colour.bandjoin([colour, colour])
    return colour.bandjoin(255 if alpha is None else alpha), tuple(says)


def _alpha(
    image: Any, channels: int, extras: Sequence[float] | None, says: list[str]
) -> Any | None:
    left = image.bands - channels
    if not left:
        return None
    which = 0
    if extras is not None:
        which = next((i for i, kind in enumerate(extras[:left]) if kind in _ALPHA), -1)
    dropped = left if which < 0 else left - 1
    if dropped:
        says.append(f"{dropped} extra channel{'s' * (dropped > 1)}, no colour, left out")
    return None if which < 0 else _bytes(image.extract_band(channels + which))


def _by_profile(colour: Any, space: bytes, says: list[str]) -> Any:
    """Return colours in sRGB or grey, by the profile that the file holds."""
    import pyvips

    profile = _profile(colour)
    if profile is not None:
        try:
            if profile[16:20] == space and profile[36:40] == b"acsp":
                if _is_srgb(profile, space):
                    return _bytes(colour)
                changed = _transform(colour, embedded=True)
                says.append(
                    "CMYK, shown by its own profile"
                    if space == b"CMYK"
                    else "colours of another profile than sRGB, converted to sRGB"
                )
                return changed
        except pyvips.Error:
            pass
        says.append("a broken or unfit colour profile, ignored")
        colour = colour.copy()
        colour.remove(_PROFILE)
    if space == b"CMYK":
        says.append("CMYK without a profile, shown by a usual one")
        return _transform(colour, input_profile="cmyk")
    return _bytes(colour)


def _profile(image: Any) -> bytes | None:
    if image.get_typeof(_PROFILE) == 0:
        return None
    return bytes(image.get(_PROFILE))


def _transform(image: Any, **profile: Any) -> Any:
    return image.icc_transform(
        "srgb", intent="relative", black_point_compensation=True, depth=8, **profile
    )


def _is_srgb(profile: bytes, space: bytes) -> bool:
    """Return whether a profile leaves RGB or grey as it is, tried on colours all over."""
    import numpy as np
    import pyvips

    if space == b"CMYK":
        return False
    grey = space == b"GRAY"
    tried = list(itertools.product(range(0, 256, 1 if grey else 51), repeat=1 if grey else 3))
    data = np.array(tried, np.uint8).tobytes()
    sample = pyvips.Image.new_from_memory(data, len(tried), 1, len(tried[0]), "uchar")
    sample = sample.copy(interpretation="b-w" if grey else "srgb")
    sample.set_type(pyvips.GValue.blob_type, _PROFILE, profile)
    shown = _transform(sample, embedded=True).numpy().reshape(len(tried), -1)
    return int(np.abs(shown.astype(int) - np.array(tried)).max()) <= _SAME


def _bytes(image: Any) -> Any:
    # The high byte of each; libvips would otherwise cut off at 255.
    return image.msb() if image.format == "ushort" else image
