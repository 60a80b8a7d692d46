"""Work on parts of a map at the same time: NumPy and OpenCV let other threads run meanwhile."""

import os
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

_What = TypeVar("_What")
_Found = TypeVar("_Found")

#: More are of little use: memory is then what is waited for.
_MOST = 4


def at_once(work: Callable[[_What], _Found], each: Iterable[_What]) -> list[_Found]:
    """Return what is found for each, in their order."""
    with ThreadPoolExecutor(min(os.cpu_count() or 1, _MOST)) as threads:
        return list(threads.map(work, each))
