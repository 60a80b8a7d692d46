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
@click.option("--keep", type=int, multiple=True, metavar="ROW",
              help="Take a row in, odd as it looks; may be repeated.")  # fmt: skip
@units_option
@json_option
def command(
    table: str,
    garments: str,
    out: Path | None,
    update: bool,  # noqa: FBT001
    unit: str | None,
    without: tuple[int, ...],
    keep: tuple[int, ...],
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

    A garment is known by its name: the same file may grow and be given again. What is in the
    table already is not added again, and a length that was corrected replaces the earlier one.

    With a garment that looks odd nothing is written: leave it out with --without, or take it in
    with --keep. One that is in the table already is taken out by deleting its length under
    [measured]. Without --out or --update nothing is written.
    """  # noqa: D301 - click's mark of a paragraph that is not to be wrapped
    from jigs.cli._inputs import new_table_file, read_here, table_text_here, text_here
    from jigs.documents.report import findings_text
    from jigs.documents.table_text import measured_data, measured_text
    from jigs.errors import Place, raise_all
    from jigs.files import replace_file, write_new
    from jigs.plan.sizes import points_of, sized
    from jigs.tables.measuring import Garments, TableText, measured

    own = table.lower().endswith(".toml")
    if update and (out or not own):
        table_text_here(table)
        raise click.UsageError(
            "--update writes into a table file of your own, and needs no --out"
            if out
            else f"--update cannot change the program's own table {table!r}; give --out MY.toml"
        )
    if out:
        new_table_file(out, Place("option", "--out"))
    old = read_here(table)[1] if update else b""
    text, name = table_text_here(table)
    done = measured(
        TableText(text, name, Place(table)),
        out.stem if out else name,
        Garments(
            text_here(garments),
            Place(garments),
            unit,
            without,
            keep,
            lambda cut: points_of(cut, Place(table, "cut")),
        ),
    )
    for one in done.after.sizes:
        sized(done.after, one)
    writes = bool(out) or (update and bool(done.points))
    if writes:
        raise_all(done.odd)
    if out:
        write_new(out, done.text.encode())
    elif writes:
        replace_file(Path(table), old, done.text.encode())
    written = str(out or table) if writes else None
    if as_data:
        show_json({"written": written, **measured_data(done)})
        return
    if done.points:
        click.echo(measured_text(done, units), nl=False)
    for line in findings_text(done.findings):
        click.echo(line)
    click.echo(_outcome(written, update=update))


def _outcome(written: str | None, *, update: bool) -> str:
    if written:
        return f"wrote {written}; to take a garment out again, delete its lengths under [measured]"
    return "nothing written; " + ("nothing is new" if update else "give --out or --update")
