"""Time and memory of a close look at artwork, beside decoding: `python -m tests.bench.artwork`.

A picture in four inks with smoothed edges is made, the same each time. Decoding of the same bytes
is measured in processes of their own, in the same run; the look is `artwork.read`, child and all.
Of each the best of some runs counts. `wall` is by the clock, `cpu` the processor's time.
"""

import argparse
import os
import subprocess
import sys
from dataclasses import dataclass
from random import Random
from typing import Any, BinaryIO

from tests import demo

#: What is loaded first, and what is then measured.
_PILLOW = (
    "from PIL import Image; Image.MAX_IMAGE_PIXELS = None",
    "Image.open(io.BytesIO(data)).load()",
)
_VIPS = (
    "import numpy, pyvips; from jigs.artwork.pixels import Pixels",
    "found = Pixels(data, 'png'); [None for _ in found._decode(128, 0, found.height)]",
)
_READ = (
    "from jigs.artwork import read; from jigs.errors import Place",
    "read('a', data, Place('a'))",
)
_MEASURED = """
import io, resource, sys, time
{0}
data = sys.stdin.buffer.read()
def cpu():
    both = map(resource.getrusage, (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(one.ru_utime + one.ru_stime for one in both)
wall, used = time.perf_counter(), cpu()
{1}
print(time.perf_counter() - wall, cpu() - used)
print(*(resource.getrusage(o).ru_maxrss for o in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)))
"""
_INKS = ((20, 30, 60), (200, 40, 40), (240, 200, 30), (30, 120, 90))


@dataclass(frozen=True)
class Cost:
    """What one process, and those that it started, took."""

    wall: float
    cpu: float
    megabytes: float
    """Of the larger of the two: the program's own, and its child's."""
    problem: str = ""


def made(side: int) -> bytes:
    """Return the picture, made by another process: what starts others must stay small itself.

    To the system, a new process was once as large as the one that started it.
    """
    code = (
        f"import sys; from tests.bench.artwork import picture; picture({side}, sys.stdout.buffer)"
    )
    return subprocess.run([sys.executable, "-c", code], capture_output=True, check=True).stdout


def picture(side: int, out: BinaryIO) -> None:
    """Write a square PNG of discs and lines in four inks on white, with smoothed edges."""
    import cv2
    import numpy as np
    from PIL import Image

    random = Random(1)  # noqa: S311 - the same each time
    canvas: Any = np.full((side, side, 3), 255, np.uint8)
    scale = side / 6000

    def anywhere() -> tuple[int, int]:
        return random.randrange(side), random.randrange(side)

    for index in range(400):
        wide = round(random.randrange(20, 300) * scale)
        cv2.circle(canvas, anywhere(), wide, _INKS[index % 4], -1, cv2.LINE_AA)
    for index in range(300):
        wide = max(1, round(random.randrange(3, 30) * scale))
        cv2.line(canvas, anywhere(), anywhere(), _INKS[index % 4], wide, cv2.LINE_AA)
    Image.fromarray(canvas).save(out, "PNG", dpi=(430, 430))


def cost(code: tuple[str, str], data: bytes) -> Cost:
    """Return what it costs to run some code on data, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-c", _MEASURED.format(*code)],
        input=data,
        capture_output=True,
        check=False,
    )
    if done.returncode:
        return Cost(0.0, 0.0, 0.0, done.stderr.decode().strip().splitlines()[-1])
    wall, cpu, *most = map(float, done.stdout.split())
    return Cost(wall, cpu, max(most) / (1e6 if sys.platform == "darwin" else 1e3))


def best(runs: int, code: tuple[str, str], data: bytes) -> Cost:
    """Return the least of some runs, by the processor's time."""
    costs = [cost(code, data) for _ in range(runs)]
    return min(costs, key=lambda one: (one.problem, one.cpu))


def _says(name: str, found: Cost, beside: Cost | None = None) -> None:
    if found.problem:
        print(f"{name:34}{found.problem[:100]}", flush=True)
        return
    ratio = f"{found.wall / beside.wall:7.1f} x {found.cpu / beside.cpu:7.1f} x" if beside else ""
    row = f"{found.wall:7.2f} s {found.cpu:7.2f} s {found.megabytes:7.0f} MB"
    print(f"{name:34}{row}{ratio}", flush=True)


def main() -> int:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.artwork")
    parser.add_argument("--sides", type=int, nargs="*", default=[6000, 12000], help="pixels")
    parser.add_argument("--runs", type=int, default=3)
    asked = parser.parse_args()
    load = " ".join(f"{one:.1f}" for one in os.getloadavg()) if hasattr(os, "getloadavg") else "?"
    print(f"{os.cpu_count()} processors, load {load}")
    print(f"{'':34}{'wall':>9} {'cpu':>9} {'memory':>10} {'of libvips: wall, cpu':>18}")
    for side in asked.sides:
        data = made(side)
        title = f"{side} px square, {len(data) / 1e6:.1f} MB"
        vips = best(asked.runs, _VIPS, data)
        _says(f"{title}: libvips", vips)
        _says(f"{title}: Pillow", best(asked.runs, _PILLOW, data), vips)
        _says(f"{title}: read", best(asked.runs, _READ, data), vips)
    for path in sorted(demo.folder().glob("artwork/*.svg")):
        _says(path.name, best(asked.runs, _READ, path.read_bytes()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
