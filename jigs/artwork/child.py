"""Drawing in a process of its own, with a limit of time and, where the system has one, memory.

A renderer that aborts on a hostile file takes its process with it; here that is the child's.
The child gets one line of JSON and the file through its standard input and answers the same way.
"""

import json
import subprocess
import sys

from jigs.artwork import answer, guard
from jigs.artwork.drawn import Drawn, Task
from jigs.errors import BadInput, Place

_START = (
    "import sys,json; sys.path[:]=json.loads(sys.argv[1]); "
    "from jigs.artwork.child import main; main()"
)


def draw(task: Task, data: bytes, place: Place) -> Drawn:
    """Return what the renderer named in `task["kind"]` sees of a file.

    Raises:
        BadInput: it crashes, takes too long or too much memory, or finds the file broken.
    """
    command = [sys.executable, "-c", _START, json.dumps(sys.path)]
    sent = json.dumps(dict(task)).encode() + b"\n" + data
    try:
        done = subprocess.run(  # noqa: S603 - our own module, started by our own interpreter
            command,
            input=sent,
            capture_output=True,
            check=False,
            timeout=guard.MOST_SECONDS,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except subprocess.TimeoutExpired:
        found = f"drawing the file takes more than {guard.MOST_SECONDS:.0f} s"
        raise BadInput(place, found, "send a simpler file") from None
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


def main() -> None:
    """Do one task from standard input and answer on standard output."""
    _limit_memory()
    head, _, data = sys.stdin.buffer.read().partition(b"\n")
    task = json.loads(head)
    if task["kind"] == "svg":
        from jigs.artwork.draw_svg import draw_svg as work
    elif task["kind"] == "pdf":
        from jigs.artwork.draw_pdf import draw_pdf as work
    else:
        from jigs.artwork.draw_raster import draw_raster as work
    drawn = work(task, data)
    sys.stdout.buffer.write(answer.written(drawn) + b"\n" + drawn.preview)


def _limit_memory() -> None:
    try:
        import resource
    except ImportError:  # Windows has no such limit
        return
    _, hard = resource.getrlimit(resource.RLIMIT_AS)
    limit = guard.MOST_MEMORY
    if hard != resource.RLIM_INFINITY:
        limit = min(limit, hard)
    try:
        resource.setrlimit(resource.RLIMIT_AS, (limit, hard))
    except (ValueError, OSError):  # macOS refuses where more is mapped already
        return
