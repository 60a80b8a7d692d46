"""`jigs tables measure`: garments that the shop measured update a size table."""

from pathlib import Path

import click

from jigs.cli._show import json_option, show_json, units_option


@click.command(name="measure")
@click.argument("table")
@click.option("--garments", required=True, metavar="FILE.csv", help="The garments measured.")
@click.option("--out", type=click.Path(path_type=Path), metavar="MY.toml",
              help="Write the table with them to this new file.")  # fmt: skip
@click.option("--update", is_flag=True, help="Write them into TABLE itself, a file of your own.")
@click.option("--unit", help="Unit of bare numbers under headings without one "
              "[default: the table's].")  # fmt: skip
@click.option("--without", type=int, multiple=True, metavar="ROW",
              help="Leave a row out (headings are row 1); may be repeated.")  # fmt: skip
@units_option
@json_option
def command(
    table: str,
    garments: str,
    out: Path | None,
    update: bool,  # noqa: FBT001
    unit: str | None,
    without: tuple[int, ...],
    units: str,
    as_data: bool,  # noqa: FBT001
) -> None:
    """Put the lengths of garments you measured into a size table.

    FILE.csv has a row for each garment and a column for each point of measure:

    \b
      garment, size, front_neck_drop (cm), body_length
      A1,      M,    9.2,                  28 1/2 in
      A2,      M,    9.4,

    The supplier's figures stay in the table; a size that was measured goes by the mean of its
    garments. The ± is what nine of ten further garments stay within, by Student's t: the spread
    is that of all garments of the point, each against its own size's mean. The table's tolerance
    counts as one garment more, is the most the ± can be unless the garments vary more than it
    says, and stays where no two garments of a size were measured.

    Garments that look odd are named, and left out only by --without. Without --out or --update
    nothing is written.
    """  # noqa: D301 - click's mark of a paragraph that is not to be wrapped
    from jigs.cli._inputs import new_table_file, read_here, table_text_here, text_here
    from jigs.documents.report import findings_text
    from jigs.documents.table_text import measured_data, measured_text
    from jigs.errors import Place
    from jigs.files import replace_file, write_new
    from jigs.plan.sizes import sized
    from jigs.tables.measuring import TableText, measured

    own = table.lower().endswith(".toml")
    if update and (out or not own):
        raise click.UsageError(
            "--update writes into a table file of your own, and needs no --out"
            if out
            else f"--update cannot change the program's own table {table!r}; give --out MY.toml"
        )
    if out:
        new_table_file(out, "--out")
    old = read_here(table)[1] if update else b""
    text, name = table_text_here(table)
    done = measured(
        TableText(text, name, Place(table)),
        out.stem if out else name,
        (text_here(garments), Place(garments)),
        unit,
        without,
    )
    for one in done.after.sizes:
        sized(done.after, one)
    if out:
        write_new(out, done.text.encode())
    elif update:
        replace_file(Path(table), old, done.text.encode())
    if as_data:
        show_json({"written": str(out or table) if out or update else None, **measured_data(done)})
        return
    click.echo(measured_text(done, units), nl=False)
    for line in findings_text(done.findings):
        click.echo(line)
    written = out or table
    click.echo(f"wrote {written}" if out or update else "nothing written; give --out or --update")
