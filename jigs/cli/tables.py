"""`jigs tables`: the size tables the program has, and checks of others."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from jigs.cli import tables_measure
from jigs.cli._show import json_option, show_json, units_option
from jigs.cli.tables_import import import_table

if TYPE_CHECKING:
    from jigs.tables.table import SizeTable


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
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Also draw the table into this folder: all sizes over one another, printable zones.",
)
@click.option("--size", help="Size whose zones are drawn [default: the middle one].")
@units_option
@json_option
def show(table: str, out: Path | None, size: str | None, units: str, as_data: bool) -> None:  # noqa: FBT001
    """Show a table's lengths: given, estimated (est.) or measured (meas.), with plus-minus."""
    from jigs.cli._inputs import table_here
    from jigs.documents.report import findings_text
    from jigs.documents.table_text import table_data, table_text
    from jigs.tables.estimate import completed

    found = table_here(table)
    if size and not out:
        raise click.UsageError("--size is for pictures: name a folder for them with --out")
    files = _draw(found, out, size, units) if out else []
    sizes = [completed(one, found.cut) for one in found.sizes]
    if as_data:
        show_json({**table_data(found, sizes), **({"files": files} if out else {})})
        return
    click.echo(table_text(found, sizes, units), nl=False)
    for line in (*findings_text(found.warnings), *(f"wrote {file}" for file in files)):
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
    from jigs.plan.sizes import points_of
    from jigs.tables.points import POINTS, REQUIRED

    needed = {point for pair in REQUIRED for point in pair}
    known = points_of(cut, Place("CUT")) if cut else POINTS
    shown = [point for point in POINTS if point in known]
    if as_data:
        show_json({"points": {name: POINTS[name].title for name in shown}})
        return
    note = {name: "given by every table" for name in shown if name in needed}
    for line in columns([(name, POINTS[name].title, note.get(name, "")) for name in shown]):
        click.echo(line)


def _draw(table: "SizeTable", out: Path, size: str | None, units: str) -> list[str]:
    """Write a table's pictures into a folder and return their paths."""
    from jigs.documents.block_picture import block_page
    from jigs.documents.nest import nest_page
    from jigs.errors import Place
    from jigs.files import Output, check_writable, write_all
    from jigs.names import safe_name
    from jigs.plan.sizes import sized
    from jigs.writers import as_bytes

    sizes = [sized(table, one) for one in table.sizes]
    wanted = table.size(size, Place("option", "--size")) if size else None
    shown = sizes[table.sizes.index(wanted) if wanted else (len(sizes) - 1) // 2]
    check_writable(out)
    pages = {"nest": nest_page(table, sizes), "zones": block_page(table, shown, units)}
    outputs = [
        Output(f"{safe_name(table.name)}-{kind}.{suffix}", as_bytes(suffix, [page]))
        for kind, page in pages.items()
        for suffix in ("svg", "png")
    ]
    write_all(out, outputs, prune=False)
    return [(out / one.name).as_posix() for one in outputs]


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
    write_new(file, text.encode(), new_folder=False)
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
