"""The command line: names and help lines of the commands; each is imported when it is used."""

import gc
import sys
from importlib import import_module

import click

from jigs import __version__
from jigs.errors import JigsError

#: Name, help line. A test holds each line equal to the command's own.
COMMANDS = {
    "artwork": "Measure a file of artwork and judge it at its printed width.",
    "calibrate": "Print a page that shows how true a printer prints, and keep what it measures.",
    "inspect": "Measure a cut file and check it against the rules of a plate.",
    "make": "Make everything an order needs: widths, jigs, pictures, plan.",
    "new": "Write an order to start from, with artwork, into a new folder.",
    "tables": "List, show, copy, check, import and measure size tables.",
    "template": "Make jigs for one location of one size table.",
    "widths": "Recommend the widths of a print for sizes of one or more tables.",
}
_EPILOG = (
    "Exit codes: 0 done; 1 done, but something says not to order or press like this; "
    "2 something you gave cannot be used."
)


#: Everything made is a frozen value without cycles: looking for those as often as Python does by
#: itself takes a seventh of the time in which jigs are written, and finds none.
_COLLECT = (20_000, 20, 20)


def collect_seldom() -> None:
    """Have this process look for cycles of garbage less often than Python does by itself."""
    gc.set_threshold(*_COLLECT)


class Commands(click.Group):
    """A group whose help is printed without importing a command."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the commands' names."""
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return a command, importing its file alone; None if there is none of that name."""
        if cmd_name not in COMMANDS:
            return None
        command = getattr(import_module(f"jigs.cli.{cmd_name}"), "command", None)
        return command if isinstance(command, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the list of commands."""
        with formatter.section("Commands"):
            formatter.write_dl(sorted(COMMANDS.items()))


@click.command(
    cls=Commands, epilog=_EPILOG, context_settings={"help_option_names": ["-h", "--help"]}
)
@click.version_option(__version__, prog_name="jigs")
def jigs() -> None:
    """Garment Jigs: 1:1 templates, print widths and artwork checks for pressing transfers."""


def main(arguments: list[str] | None = None) -> None:
    """Run the command line and exit with its code."""
    collect_seldom()
    try:
        code = jigs.main(arguments, prog_name="jigs", standalone_mode=False)
    except JigsError as error:
        for line in error.lines():
            click.echo(f"jigs: {line}", err=True)
        code = 2
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message(), err=True)
        code = 2
    except click.UsageError as error:
        where = error.ctx.command_path if error.ctx else "jigs"
        said = " ".join(error.format_message().split()).rstrip(".")
        click.echo(f"jigs: {said}; see: {where} --help", err=True)
        code = 2
    except click.ClickException as error:
        click.echo(f"jigs: {error.format_message()}", err=True)
        code = 2
    except click.Abort:
        click.echo("jigs: stopped; nothing was written", err=True)
        code = 130
    except BrokenPipeError:
        from jigs.files import into_nowhere

        into_nowhere(sys.stdout)
        code = 0
    sys.exit(code or 0)
