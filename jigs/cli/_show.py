"""What the commands share: options, units, findings, progress, exit codes."""

import sys
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import click

from jigs.errors import Finding, Place
from jigs.units import Mm, mm

F = TypeVar("F", bound=Callable[..., Any])

#: The exit code when the work is done but a finding blocks the order.
BLOCKED = 1


class Length(click.ParamType[Mm]):
    """A length with its unit; what is wrong with it is said as of a value in a file."""

    name = "length"

    def __init__(self, least: Mm = 0.0, most: Mm = 2000.0) -> None:
        self.least = least
        self.most = most

    def convert(
        self,
        value: Any,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002 - click's signature
    ) -> Mm:
        """Return the millimetres."""
        if isinstance(value, float):
            return value
        option = param.opts[-1] if param else "length"
        return mm(value, Place("option", option), least=self.least, most=self.most)


def json_option(command: F) -> F:
    """Add `--json`: data instead of text; all lengths in millimetres."""
    return click.option(
        "as_data", "--json", is_flag=True, help="Print data (JSON, lengths in mm), not text."
    )(command)


def units_option(command: F) -> F:
    """Add `--units`: how lengths are said in text."""
    return click.option(
        "--units", type=click.Choice(["in", "mm"]), default="in", show_default=True,
        help="Unit of the lengths in text.",
    )(command)  # fmt: skip


def show_json(data: Any) -> None:
    """Print data as JSON."""
    from jigs.documents.text import as_json

    click.echo(as_json(data).decode(), nl=False)


def code_of(findings: Sequence[Finding]) -> int:
    """Return the exit code that findings call for."""
    return BLOCKED if any(one.blocks for one in findings) else 0


class Progress:
    """A line on a terminal that says what is being done; silent in a pipe."""

    def __init__(self, *, quiet: bool = False) -> None:
        self.shown = sys.stderr.isatty() and not quiet
        self.width = 0

    def tell(self, what: str) -> None:
        """Show a step, in the place of the last one."""
        if self.shown:
            line = what[:78]
            click.echo("\r" + line.ljust(self.width), nl=False, err=True)
            self.width = len(line)

    def done(self) -> None:
        """Clear the line."""
        if self.shown and self.width:
            click.echo("\r" + " " * self.width + "\r", nl=False, err=True)
            self.width = 0
