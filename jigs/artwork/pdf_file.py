"""The dictionaries of a PDF as pypdf reads them; what cannot be read is as if it were not there."""

import io
import struct
import zlib
from dataclasses import dataclass
from functools import cache
from typing import Any

#: Parents of a page that are asked for what it inherits.
_MOST_PARENTS = 50


@dataclass(frozen=True, slots=True)
class PdfFile:
    """A page's dictionary, and the layers that are not shown."""

    page: Any
    hidden: frozenset[int]
    """Object numbers of the optional content groups that are off."""

    @property
    def unit(self) -> float:
        """Points per unit of the page (ISO 32000-1, table 30)."""
        said = get(self.page, "/UserUnit")
        return float(said) if isinstance(said, int | float) and 0 < said < 1e6 else 1.0

    @property
    def resources(self) -> Any:
        """What the page's content refers to by name; it may be inherited."""
        holder = self.page
        for _ in range(_MOST_PARENTS):
            found = get(holder, "/Resources")
            if found is not None:
                return found
            holder = get(holder, "/Parent")
        return None

    @property
    def content(self) -> bytes | None:
        """The page's operators; None if they cannot be read."""
        found = get(self.page, "/Contents")
        if found is None:
            return b""
        parts = [content(resolved(part)) for part in found] if is_array(found) else [content(found)]
        read = [part for part in parts if part is not None]
        return b"\n".join(read) if read or not parts else None

    def hides(self, raw: Any) -> bool:
        """Return whether a reference is to a layer that is off, or to such layers alone."""
        if getattr(raw, "idnum", None) in self.hidden:
            return True
        groups = raw_get(resolved(raw), "/OCGs")
        many = resolved(groups)
        if is_array(many):
            return bool(many) and all(getattr(o, "idnum", None) in self.hidden for o in items(many))
        return getattr(groups, "idnum", None) in self.hidden


def open_file(data: bytes, number: int) -> PdfFile | None:
    """Return a page's dictionary, the first page being 1; None if pypdf cannot read it."""
    from pypdf import PdfReader

    try:
        reader = PdfReader(io.BytesIO(data))
        page = reader.pages[number - 1]
        root = reader.trailer["/Root"]
    except troubles():
        return None
    off = get(root, "/OCProperties", "/D", "/OFF")
    hidden = {getattr(one, "idnum", None) for one in items(off)}
    return PdfFile(page, frozenset(one for one in hidden if isinstance(one, int)))


def get(holder: Any, *keys: str) -> Any:
    """Return what is found under keys, one inside the other; None if there is nothing."""
    for key in keys:
        holder = resolved(raw_get(resolved(holder), key))
    return holder


def raw_get(holder: Any, key: str) -> Any:
    """Return an entry of a dictionary as it stands: a reference, perhaps."""
    return dict.get(holder, key) if isinstance(holder, dict) else None


def resolved(value: Any) -> Any:
    """Return what a reference refers to; any other value as it is."""
    if not hasattr(value, "get_object"):
        return value
    try:
        return value.get_object()
    except troubles():
        return None


def content(stream: Any) -> bytes | None:
    """Return a stream's bytes, unpacked; None if they cannot be."""
    try:
        found = stream.get_data()
    except troubles():
        return None
    return found if isinstance(found, bytes) else None


def items(value: Any) -> list[Any]:
    """Return an array's entries as they stand: references, perhaps; none of anything else."""
    return list(list.__iter__(value)) if isinstance(value, list) else []


def is_array(value: Any) -> bool:
    """Return whether a value is a PDF's array."""
    return isinstance(value, list)


def numbers(value: Any, count: int) -> tuple[float, ...] | None:
    """Return an array of so many numbers; None if it is none."""
    if not is_array(value) or len(value) != count:
        return None
    found = tuple(resolved(one) for one in value)
    sound = all(isinstance(one, int | float) and abs(one) < 1e9 for one in found)
    return tuple(map(float, found)) if sound else None


@cache
def troubles() -> tuple[type[Exception], ...]:
    """Return what pypdf raises when a file is not what it says."""
    from pypdf.errors import DependencyError, PyPdfError

    return (
        PyPdfError,
        DependencyError,
        ArithmeticError,
        AssertionError,
        AttributeError,
        EOFError,
        LookupError,
        NotImplementedError,
        OSError,
        RecursionError,
        TypeError,
        ValueError,
        struct.error,
        zlib.error,
    )
