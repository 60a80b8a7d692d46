"""The tags of a TIFF, or of EXIF, which is a small TIFF (TIFF 6.0, section 2; BigTIFF)."""

import struct
from collections.abc import Mapping
from dataclasses import dataclass

#: Type of a value, as `struct` writes it: SHORT, LONG, RATIONAL as two, LONG8.
_TYPES = {3: "H", 4: "I", 5: "II", 16: "Q"}
#: More values than this are a table of a long picture's strips, which nobody asks for here.
_MOST_VALUES = 32

EXTRA_SAMPLES = 338
X_RESOLUTION, Y_RESOLUTION, RESOLUTION_UNIT = 282, 283, 296


@dataclass(frozen=True, slots=True)
class _Layout:
    """How numbers are laid out: `first` says where the first directory's offset stands."""

    order: str
    offset: str
    count: str
    first: int

    def read(self, data: bytes, at: int, types: str) -> tuple[int, ...]:
        return struct.unpack_from(self.order + types, data, at)


def tags(data: bytes, page: int = 1) -> Mapping[int, tuple[float, ...]]:
    """Return the short whole-number and rational tags of a page; none if it cannot be read."""
    try:
        layout = _layout(data)
        (at,) = layout.read(data, layout.first, layout.offset)
        for _ in range(page - 1):
            at = _next(data, layout, at)
        return dict(_entries(data, layout, at))
    except (struct.error, KeyError, OverflowError):
        return {}


def _layout(data: bytes) -> _Layout:
    order = {b"II": "<", b"MM": ">"}[data[:2]]
    (version,) = struct.unpack_from(order + "H", data, 2)
    return {42: _Layout(order, "I", "H", 4), 43: _Layout(order, "Q", "Q", 8)}[version]


def _next(data: bytes, layout: _Layout, at: int) -> int:
    (count,) = layout.read(data, at, layout.count)
    size = 12 if layout.offset == "I" else 20
    end = at + struct.calcsize("<" + layout.count) + count * size
    (after,) = layout.read(data, end, layout.offset)
    return after


def _entries(data: bytes, layout: _Layout, at: int) -> list[tuple[int, tuple[float, ...]]]:
    (count,) = layout.read(data, at, layout.count)
    head = struct.calcsize("<" + layout.count)
    room = struct.calcsize("<" + layout.offset)
    found: list[tuple[int, tuple[float, ...]]] = []
    for index in range(min(count, 1000)):
        entry = at + head + index * (4 + 2 * room)
        tag, kind = layout.read(data, entry, "HH")
        (values,) = layout.read(data, entry + 4, layout.offset)
        if kind not in _TYPES or not 0 < values <= _MOST_VALUES:
            continue
        types = _TYPES[kind] * values
        where = entry + 4 + room
        if struct.calcsize("<" + types) > room:
            (where,) = layout.read(data, where, layout.offset)
        numbers = layout.read(data, where, types)
        found.append((tag, _fractions(numbers) if kind == 5 else numbers))
    return found


def _fractions(numbers: tuple[int, ...]) -> tuple[float, ...]:
    over, under = numbers[::2], numbers[1::2]
    return tuple(a / b if b else 0.0 for a, b in zip(over, under, strict=True))
