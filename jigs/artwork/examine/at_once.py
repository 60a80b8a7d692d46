"""Work on parts of a map at the same time: NumPy and OpenCV let other threads run meanwhile."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import TypeVar

_What = TypeVar("_What")
_Found = TypeVar("_Found")

#: Threads: more are of little use, memory is then what is waited for, and more of it is needed.
_THREADS = 2


def in_turn(work: Callable[[_What], _Found], each: Iterable[_What]) -> Iterator[_Found]:
    """Yield what is found for each, in their order; few of them are taken before they are due."""
    with ThreadPoolExecutor(_THREADS) as threads:
        due: deque[Future[_Found]] = deque()
        for one in each:
            if len(due) > _THREADS:
                yield due.popleft().result()
            due.append(threads.submit(work, one))
        while due:
            yield due.popleft().result()
