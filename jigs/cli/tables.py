"""`jigs tables`: the size tables the program has, and checks of others."""

from pathlib import Path

import click

from jigs.cli import tables_measure
from jigs.cli._show import json_option, show_json, units_option


@click.group(name="tables")
def command() -> None:
    """List, show, copy and check size tables."""


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


@command.command(name="copy")
@click.argument("table")
@click.argument("file", type=click.Path(path_type=Path))
def copy(table: str, file: Path) -> None:
    """Write one of the program's tables to a new file, to put your own figures in."""
    from jigs.cli._inputs import new_table_file
    from jigs.errors import Place
    from jigs.files import write_new
    from jigs.tables import library

    new_table_file(file, "FILE")
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
