"""`jigs make`: the whole job."""

import os
import signal
from pathlib import Path
from typing import TYPE_CHECKING

import click

from jigs.cli import collect_seldom
from jigs.cli._show import Progress, code_of, json_option, show_json

if TYPE_CHECKING:
    from concurrent.futures import Executor
    from contextlib import AbstractContextManager

    from jigs.plan import Plan


@click.command(name="make")
@click.argument("order", type=click.Path(path_type=Path))
@click.option(
    "--out",
    default="out",
    show_default=True,
    type=click.Path(path_type=Path),
    help="Folder in which a folder named by the order's reference is written.",
)
@click.option("--jobs", type=click.IntRange(1, 64), help="Processes at once [default: all cores].")
@json_option
def command(order: Path, out: Path, jobs: int | None, as_data: bool) -> int:  # noqa: FBT001
    """Make everything an order needs: widths, jigs, pictures, plan.

    ORDER is an order file (TOML), or the plan.json of an earlier run, which is made again exactly
    as it was. Everything goes into OUT/<reference>/.
    """
    from jigs.documents.artwork_report import artwork_data
    from jigs.documents.report import findings_text, report_data
    from jigs.documents.team_report import team_data
    from jigs.files import check_writable, write_all
    from jigs.pipeline import load, make, read, render

    progress = Progress(quiet=as_data)
    progress.tell(f"reading {order.name}")
    if order.suffix.lower() == ".json":
        plan = load(order)
    else:
        plan = make(read(order), lambda name: progress.tell(f"planning {name}"))
    folder = out / plan.reference
    check_writable(folder)
    outputs = []
    with _executor(jobs, len(plan.jigs)) as executor:
        for output in render(plan, executor):
            outputs.append(output)
            progress.tell(f"made {output.name}")
    progress.tell(f"writing {len(outputs)} files")
    write_all(folder, outputs, prune=True)
    progress.done()
    findings = plan.all_findings()
    if as_data:
        team = {"team": team_data(plan.team)} if plan.team else {}
        art = {"artwork": artwork_data(plan)["prints"]}
        show_json({**report_data(plan), **art, **team, "folder": folder.as_posix()})
    else:
        for line in findings_text(findings):
            click.echo(line.strip())
        click.echo(f"{len(outputs)} files in {folder}{os.sep}: start with {_first(plan)}")
        _say_renderer()
    return code_of(findings)


def _first(plan: "Plan") -> str:
    """Return what to read first."""
    names = ["widths.txt", *(["artwork.txt"] if plan.prints else [])]
    return ", ".join([*names, *(["team.txt"] if plan.team else [])])


def _executor(jobs: int | None, jigs: int) -> "AbstractContextManager[Executor | None]":
    """Return processes to draw the jigs in; none where starting them costs more than it saves."""
    from contextlib import nullcontext

    count = jobs or os.cpu_count() or 1
    if count == 1 or jigs < 6:
        return nullcontext()
    try:
        from concurrent.futures import ProcessPoolExecutor
        from multiprocessing import get_context

        # Fresh processes on every system: a forked one would inherit half-loaded libraries' locks.
        return ProcessPoolExecutor(
            min(count, jigs), mp_context=get_context("spawn"), initializer=_begin
        )
    except (ImportError, OSError):
        # A system without shared memory has no processes to offer; one is enough.
        return nullcontext()


def _begin() -> None:
    """Make a process ready to draw; Ctrl-C is left to the process that the user talks to."""
    collect_seldom()
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _say_renderer() -> None:
    from jigs.writers.png import renderer

    if renderer() == "pdfium":
        says = "note: libcairo is not installed, so the PNG previews were drawn from the PDFs"
        click.echo(says, err=True)
