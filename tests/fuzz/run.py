"""Many broken files read by a few processes, each restarted when a file is its end."""

import multiprocessing
import time
from collections.abc import Iterator
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from multiprocessing.context import SpawnProcess
from pathlib import Path

from tests.fuzz.seeds import seeds
from tests.fuzz.worker import DRAWING, Outcome, work

_CONTEXT = multiprocessing.get_context("spawn")


@dataclass
class _Worker:
    process: SpawnProcess
    pipe: Connection
    index: int = -1
    since: float = 0.0
    draws: bool = False


def outcomes(indices: Iterator[int], seed: int, folder: Path, workers: int,
             limit: float) -> Iterator[Outcome]:  # fmt: skip
    """Yield what becomes of each file; `limit` is seconds that one may take."""
    busy = [_started(seed, folder) for _ in range(workers)]
    busy = [one for one in busy if _give(one, indices)]
    while busy:
        wait([one.pipe for one in busy], timeout=0.5)
        for one in list(busy):
            outcome = _of(one, limit)
            if outcome is None:
                continue
            yield outcome
            busy.remove(one)
            new = one
            if outcome.kind not in {"read", "refused", "failed"}:
                _end(one)
                new = _started(seed, folder)
            if _give(new, indices):
                busy.append(new)


def _started(seed: int, folder: Path) -> _Worker:
    ours, theirs = _CONTEXT.Pipe()
    process = _CONTEXT.Process(target=work, args=(theirs, seed, str(folder)), daemon=True)
    process.start()
    theirs.close()
    return _Worker(process, ours)


def _give(worker: _Worker, indices: Iterator[int]) -> bool:
    """Give a worker the next file; without one, end it."""
    worker.index, worker.since, worker.draws = next(indices, -1), time.monotonic(), False
    if worker.index < 0:
        _end(worker)
        return False
    worker.pipe.send(worker.index)
    return True


def _of(worker: _Worker, limit: float) -> Outcome | None:
    took = time.monotonic() - worker.since
    name = seeds()[worker.index % len(seeds())][0]
    while worker.pipe.poll():
        try:
            said = worker.pipe.recv()
        except (EOFError, ConnectionError):
            worker.process.join(5)
            kind = "gave up" if worker.draws else "died"
            code = f"exit code {worker.process.exitcode}"
            return Outcome(worker.index, name, kind, code, took)
        if isinstance(said, Outcome):
            return said
        worker.draws = said == DRAWING
    if took > limit:
        kind = "too long" if worker.draws else "hung"
        return Outcome(worker.index, name, kind, f"more than {limit:.0f} s", took)
    return None


def _end(worker: _Worker) -> None:
    worker.process.kill()
    worker.process.join()
    worker.pipe.close()
