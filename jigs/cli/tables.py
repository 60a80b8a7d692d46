"""`jigs tables`: the size tables the program has, and checks of others."""

from pathlib import Path

import click

from jigs.cli import tables_measure
from jigs.cli._show import json_option, show_json, units_option
from jigs.cli.tables_import import import_table


@click.group(name="tables")
def command() -> None:
    """List, show, copy, check, import and measure size tables."""


command.add_command(import_table)


@command.command(name="list")
@json_option
def list_tables(as_data: bool) -> None:  # noqa: FBT001
    """List the size tables that come with the program."""
    from jigs.documents.report import columns
    from jigs.errors import Place
    from jigs.tables import library

    tables = [library.find(name, Place(name)) for name in library.names()]
    if as_data:
        keys = ("name", "title", "cut", "age", "source")
        show_json(
            {
                "tables": [
                    {**{key: getattr(one, key) for key in keys},
                     "sizes": [size.size for size in one.sizes]}
                    for one in tables
                ]
            }
        )  # fmt: skip
        return
    rows = [(one.name, one.title, ", ".join(size.size for size in one.sizes)) for one in tables]
    for line in columns(rows):
        click.echo(line)


@command.command(name="show")
@click.argument("table")
@units_option
@json_option
def show(table: str, units: str, as_data: bool) -> None:  # noqa: FBT001
    """Show a table's lengths: given, estimated (est.) or measured (meas.), with plus-minus."""
    from jigs.cli._inputs import table_here
    from jigs.documents.report import findings_text
    from jigs.documents.table_text import table_data, table_text
    from jigs.tables.estimate import completed

    found = table_here(table)
    sizes = [completed(one, found.cut) for one in found.sizes]
    if as_data:
        show_json(table_data(found, sizes))
        return
    click.echo(table_text(found, sizes, units), nl=False)
    for line in findings_text(found.warnings):
        click.echo(line)


@command.command(name="points")
@click.argument("cut", required=False)
@json_option
def points(cut: str | None, as_data: bool) -> None:  # noqa: FBT001
    """Say what the points of measure are: all of them, or those of one cut.

    CUT is what a table calls its garment: crew-tee, hoodie, tote. What a table leaves out is
    estimated, but for the two that every table gives.
    """
    from jigs.documents.report import columns
    from jigs.errors import Place
    from jigs.garments import GARMENTS
    from jigs.tables.points import POINTS, REQUIRED

    needed = {point for pair in REQUIRED for point in pair}
    block = GARMENTS.get(cut, Place("CUT")) if cut else None
    shown = [point for point in POINTS if block is None or point in block.needs | block.may]
    if as_data:
        show_json({"points": {name: POINTS[name].title for name in shown}})
        return
    note = {name: "given by every table" for name in shown if name in needed}
    for line in columns([(name, POINTS[name].title, note.get(name, "")) for name in shown]):
        click.echo(line)


@command.command(name="copy")
@click.argument("table")
@click.argument("file", type=click.Path(path_type=Path))
def copy(table: str, file: Path) -> None:
    """Write one of the program's tables to a new file, to put your own figures in."""
    from jigs.cli._inputs import new_table_file
    from jigs.errors import Place
    from jigs.files import write_new
    from jigs.tables import library

    new_table_file(file, Place("FILE"))
    text = library.text_of(table, Place("TABLE"))
    write_new(file, text.encode())
    click.echo(f"wrote {file}; name it in an order as table = {file.name!r}")


@command.command(name="check")
@click.argument("file")
def check(file: str) -> None:
    """Check a size table of your own: every problem, with its row and size."""
    from jigs.cli._inputs import table_here
    from jigs.documents.report import findings_text
    from jigs.plan.sizes import sized

    found = table_here(file)
    for one in found.sizes:
        sized(found, one)
    for line in findings_text(found.warnings):
        click.echo(line)
    click.echo(f"{file}: {len(found.sizes)} sizes, nothing wrong")


command.add_command(tables_measure.command)
