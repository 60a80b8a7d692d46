"""A process that reads broken files, one after the other, and may die of one."""

import os
import subprocess
import sys
import time
import traceback
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from random import Random

from jigs.artwork import child, guard, ink, read, stray, svg_where
from jigs.artwork.asked import Asked
from jigs.artwork.examine import drawn_map, thin
from jigs.errors import BadInput, Place
from tests.fuzz.mutate import mutated
from tests.fuzz.seeds import seeds

#: How coarsely drawings are looked at: the same steps as usual, ten times as quick.
COARSE = (
    (ink, "LOOK", 300),
    (ink, "CLOSER_LOOK", 150),
    (stray, "_LOOK", 375),
    (drawn_map, "LONGEST", 250),
    (thin, "CLOSE_SIDE", 80),
    (thin, "_MOST_PLACES", 2),
    (thin, "_MOST_LOOKS", 2),
    (svg_where, "_LOOK", 100),
)
#: Sent when a file has come through what is done in the program's own process.
DRAWING = "drawing"


@dataclass(frozen=True)
class Outcome:
    """What became of a file."""

    index: int
    name: str
    kind: str
    """`read`, `refused`, `failed` (another error), `died`, `hung`; `gave up` or `too long` if that
    was while drawing, which a child of its own would have done."""
    says: str = ""
    seconds: float = 0.0
    megabytes: float = 0.0
    """Most memory of the process so far."""


def broken(seed: int, index: int) -> tuple[str, bytes]:
    """Return the name and the content of one of the broken files."""
    random = Random(f"{seed}:{index}")  # noqa: S311 - the same files each time are the point
    name, data = seeds()[index % len(seeds())]
    return name, mutated(random, name, data)


def work(pipe: Connection, seed: int, folder: str) -> None:
    """Read the files whose numbers come through the pipe; nothing may appear in the folder."""
    os.chdir(folder)
    with open(os.devnull, "wb") as nothing:  # noqa: PTH123 - a device
        # What renderers print of broken files.
        os.dup2(nothing.fileno(), 2)
    _limit_memory()
    for module, name, number in COARSE:
        setattr(module, name, number)

    def run(sent: bytes) -> "subprocess.CompletedProcess[bytes]":
        pipe.send(DRAWING)
        return _in_here(sent)

    child._run = run
    while True:
        index = pipe.recv()
        name, data = broken(seed, index)
        start = time.perf_counter()
        kind, says = _outcome(name, data, ignore_specks=index % 3 == 0)
        pipe.send(Outcome(index, name, kind, says, time.perf_counter() - start, _most_memory()))


def _outcome(name: str, data: bytes, *, ignore_specks: bool) -> tuple[str, str]:
    try:
        read(name, data, Place(name), Asked(ignore_specks=ignore_specks))
    except BadInput as bad:
        return ("refused", bad.found) if "\n" not in str(bad) else ("failed", f"lines: {bad}")
    except Exception:  # noqa: BLE001 - this is what is looked for
        return "failed", traceback.format_exc()
    return "read", ""


def _in_here(sent: bytes) -> "subprocess.CompletedProcess[bytes]":
    """Do the child's work in this process, so that its exceptions are seen."""
    head, _, data = sent.partition(b"\n")
    kind = "svg" if b'"svg"' in head else "pdf" if b'"pdf"' in head else "raster"
    return subprocess.CompletedProcess(
        [], 0, child.answered(child.renderer(kind), head + b"\n", data), b""
    )


def _limit_memory() -> None:
    with suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (guard.MOST_MEMORY, guard.MOST_MEMORY))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _most_memory() -> float:
    if sys.platform == "win32":
        return 0.0
    import resource

    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / 1e6 if sys.platform == "darwin" else most / 1e3
