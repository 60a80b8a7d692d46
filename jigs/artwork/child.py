"""Drawing in a process of its own, with limits of time, memory and what it may write.

A renderer that aborts on a hostile file takes its process with it; here that is the child's.
The child gets one line of JSON and the file through its standard input and answers the same way.
"""

import json
import math
import signal
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from typing import TypeAlias

from jigs.artwork import answer, guard
from jigs.artwork.drawn import Drawn, Task
from jigs.errors import BadInput, Place

Renderer: TypeAlias = Callable[[Task, bytes], Drawn]

_START = (
    "import sys,json; sys.path[:]=json.loads(sys.argv[1]); "
    "from jigs.artwork.child import main; main()"
)


def draw(task: Task, data: bytes, place: Place) -> Drawn:
    """Return what the renderer named in `task["kind"]` sees of a file.

    Raises:
        BadInput: it crashes, takes too long or too much memory, or finds the file broken.
    """
    try:
        done = _run(json.dumps(dict(task)).encode() + b"\n" + data)
    except subprocess.TimeoutExpired:
        raise _too_long(guard.MOST_WAITING, place) from None
    if done.returncode == -getattr(signal, "SIGXCPU", math.inf):
        raise _too_long(guard.MOST_SECONDS, place)
    head, _, preview = done.stdout.partition(b"\n")
    if done.returncode != 0 or not head:
        found = "the file cannot be drawn: the renderer gave up"
        allowed = f"send a sound file that needs less than {guard.MOST_MEMORY / 1e9:.0f} GB"
        raise BadInput(place, found, allowed)
    drawn = answer.read(head, preview)
    if drawn.problem:
        remedy = drawn.remedy or "save or export it again and check that it opens"
        raise BadInput(place, drawn.problem, remedy)
    return drawn


def _run(sent: bytes) -> "subprocess.CompletedProcess[bytes]":
    """Return what the child answers."""
    return subprocess.run(  # noqa: S603 - our own module, started by our own interpreter
        [sys.executable, "-c", _START, json.dumps(sys.path)],
        input=sent,
        capture_output=True,
        check=False,
        timeout=guard.MOST_WAITING,
        creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
    )


def _too_long(seconds: float, place: Place) -> BadInput:
    found = f"drawing the file takes more than {seconds:.0f} s"
    return BadInput(place, found, "send a simpler file")


def main() -> None:
    """Do one task from standard input and answer on standard output."""
    head = sys.stdin.buffer.readline()
    work = renderer(json.loads(head)["kind"])
    # From here on nothing is written, so no compiled module either; those above may be.
    sys.dont_write_bytecode = True
    _limit()
    sys.stdout.buffer.write(answered(work, head, sys.stdin.buffer.read()))


def renderer(kind: str) -> Renderer:
    """Return what looks at a file of a kind."""
    if kind == "svg":
        from jigs.artwork.draw_svg import draw_svg

        return draw_svg
    if kind == "pdf":
        from jigs.artwork.draw_pdf import draw_pdf

        return draw_pdf
    from jigs.artwork.draw_raster import draw_raster

    return draw_raster


def answered(work: Renderer, head: bytes, data: bytes) -> bytes:
    """Return the child's answer to one line of JSON and a file."""
    try:
        drawn = work(json.loads(head), data)
    except MemoryError:
        found = f"drawing the file needs more than {guard.MOST_MEMORY / 1e9:.0f} GB"
        drawn = Drawn(problem=found, remedy="send a simpler file")
    return answer.written(drawn) + b"\n" + drawn.preview


def _limit() -> None:
    """Limit this process: its memory, its time on the processor, and no file written."""
    try:
        import resource
    except ImportError:  # Windows has no such limits
        return
    for kind, limit in (
        (resource.RLIMIT_AS, guard.MOST_MEMORY),
        (resource.RLIMIT_CPU, guard.MOST_SECONDS),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
    ):
        _, hard = resource.getrlimit(kind)
        least = limit if hard == resource.RLIM_INFINITY else min(limit, hard)
        # macOS refuses one of memory where more is mapped already.
        with suppress(ValueError, OSError):
            resource.setrlimit(kind, (least, hard))
