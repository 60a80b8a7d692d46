"""Jigs per second beside a floor of bare libraries: `python -m tests.bench.jigs`.

A jig is taken from its template to the bytes of all its files: drawn, checked by the rules, its
kerf and its pages worked out, its curves and letters lowered. The floor (`floor.py`) writes the
same entities in the same run, turn by turn, and knows them beforehand. Then the demo order, as the
command makes it, beside three bare starts of Python and the floor of all its files. Times are the
processor's; of each file the least of some runs counts, for a machine does other things too.
"""

import argparse
import gc
import os
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from time import perf_counter, process_time
from typing import Any

from jigs.cli import collect_seldom
from jigs.documents.jig_pages import jig_outputs
from jigs.drawing import lower
from jigs.geometry import strokes
from jigs.locations import LOCATIONS
from jigs.order.order import Cutter, Paper, Press, Printer, Transfer
from jigs.pipeline import load, render
from jigs.plan import Shop
from jigs.plan import jigs as planned
from jigs.styles import STYLES
from jigs.template import Template
from jigs.writers.png import renderer
from tests import demo, shipped
from tests.bench.floor import Written, noting

#: Seconds by part or format.
Times = dict[str, float]

#: Everything that a jig's values are remembered in; letters' forms stay, as they do in an order.
_REMEMBERED = (
    planned.drawn, planned.broken, lower.strokes, lower.text_box, lower._shown, strokes.written,
)  # fmt: skip


def cases() -> list[tuple[str, Template]]:
    """Return a jig of every style at every location, as far as the style takes one."""
    found = []
    for style in STYLES.names():
        for location in LOCATIONS.names():
            one = shipped.drawn_in(style, location, shipped.one_table(location))[0]
            if STYLES.get(style).objection(one) is None:
                found.append((style, one))
    return found


def forget() -> None:
    """Let every jig be worked out anew."""
    for one in _REMEMBERED:
        one.cache_clear()
    gc.collect()


def _settle() -> None:
    """Have garbage looked for as the command does, and not in what the bench itself keeps.

    The floor has the good of it too.
    """
    collect_seldom()
    gc.collect()
    gc.freeze()


def timed(work: Callable[[], Any]) -> float:
    """Return the processor's time that some work takes."""
    start = process_time()
    work()
    return process_time() - start


def parts(style: str, one: Template, shop: Shop) -> Iterator[tuple[str, float]]:
    """Yield the times of a jig's parts: what is drawn, checked and written."""
    yield "drawing", timed(lambda: planned.drawn(style, one))
    yield "rules", timed(lambda: planned.broken(style, one))
    start = process_time()
    for file in jig_outputs(one, style, "x", shop):
        end = process_time()
        yield file.name.rpartition(".")[2], end - start
        start = process_time()


def jigs_beside_floor(runs: int) -> None:
    """Print the times of all jigs by part, beside their floors, which are taken turn by turn."""
    shop = Shop(Paper(), Printer(), Cutter(kerf=0.2), Press(), Transfer())
    made = cases()
    floors = []
    for style, one in made:
        written: list[Written] = []
        with noting(written):
            list(jig_outputs(one, style, "x", shop))
        floors.append([(file.format, file.floor()) for file in written])
    _settle()
    ours: list[Times] = [{} for _ in made]
    bare: list[Times] = [{} for _ in made]
    for _ in range(runs):
        forget()
        for k, (style, one) in enumerate(made):
            _least(ours[k], parts(style, one, shop))
            _least(bare[k], ((name, timed(floor)) for name, floor in floors[k]))
    best, least = _sum(ours), _sum(bare)
    print(f"{len(made)} jigs, {sum(map(len, floors))} files", flush=True)
    print(f"{'':12}{'jigs/s':>10}{'floor':>10}{'ms a jig':>10}{'floor':>8}{'ratio':>9}")
    for part in best:
        _row(part, best[part], least.get(part, 0.0), len(made))
    _row("all", sum(best.values()), sum(least.values()), len(made))


def _least(known: Times, found: Iterable[tuple[str, float]]) -> None:
    """Keep the lesser of the times known and found, by part; a format may have several files."""
    now: Times = defaultdict(float)
    for part, took in found:
        now[part] += took
    for part, took in now.items():
        known[part] = min(took, known.get(part, took))


def _sum(times: Sequence[Times]) -> Times:
    total: Times = defaultdict(float)
    for one in times:
        for part, took in one.items():
            total[part] += took
    return total


def _row(part: str, ours: float, floor: float, count: int) -> None:
    rate, bare = count / ours, f"{count / floor:10.1f}" if floor else f"{'-':>10}"
    per, least = ours / count * 1e3, f"{floor / count * 1e3:8.1f}" if floor else f"{'-':>8}"
    ratio = f"{ours / floor:7.2f} x" if floor else ""
    print(f"{part:12}{rate:10.1f}{bare}{per:10.1f}{least}{ratio}", flush=True)


_RENDERED = """
import sys
from pathlib import Path
from jigs.cli import collect_seldom
from jigs.files import write_all
from jigs.pipeline import load, render
collect_seldom()
write_all(Path(sys.argv[2]), list(render(load(Path(sys.argv[1])))), prune=True)
"""


def order_beside_floor(runs: int) -> None:
    """Print the times of the demo order, whole and from its plan, beside starts and floor."""
    with tempfile.TemporaryDirectory() as name:
        out = Path(name)
        order = str(demo.folder() / "order.toml")
        whole = _command(["-m", "jigs", "make", order, "--out", str(out / "a")])
        (plan,) = out.glob("a/*/plan.json")
        # One at a time, as the floor is.
        again = ["-c", _RENDERED, str(plan), str(out / "b")]
        rendered = min((_command(again) for _ in range(runs)), key=lambda one: one[1])
        bare = min((_command(["-c", "pass"]) for _ in range(runs)), key=lambda one: one[1])
        written: list[Written] = []
        with noting(written):
            list(render(load(plan)))
    floors = [one.floor() for one in written]
    _settle()
    floor = sum(min(timed(one) for _ in range(runs + 1)) for one in floors)
    print(f"\ndemo order: {len(written)} drawn files{'':22}{'wall':>9}{'cpu':>9}")
    _says("jigs make, with a close look at its artwork", *whole)
    _says("its plan loaded, all files rendered and written", *rendered)
    _says("three bare starts of Python", bare[0] * 3, bare[1] * 3)
    _says("floor of its drawn files, libraries loaded", floor, floor)
    ratio = rendered[1] / (3 * bare[1] + floor)
    print(f"rendered, of three starts and the floor: {ratio:.2f} x")


def _says(name: str, wall: float, cpu: float) -> None:
    print(f"{name:50}{wall:7.2f} s{cpu:7.2f} s", flush=True)


def _command(words: list[str]) -> tuple[float, float]:
    """Return the time by the clock, and the processor's, of a command and all that it starts."""
    start, before = perf_counter(), os.times()
    subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)
    after = os.times()
    used = after.children_user - before.children_user
    used += after.children_system - before.children_system
    return perf_counter() - start, used


def main() -> int:
    """Measure, and print two tables."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.jigs")
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--no-order", action="store_true", help="leave the demo order out")
    asked = parser.parse_args()
    load_now = " ".join(f"{one:.1f}" for one in os.getloadavg())
    print(f"{os.cpu_count()} processors, load {load_now}")
    if renderer() != "cairo":
        parser.error("the floor of previews needs libcairo")
    jigs_beside_floor(asked.runs)
    if not asked.no_order:
        order_beside_floor(asked.runs)
    return 0


if __name__ == "__main__":
    sys.exit(main())
