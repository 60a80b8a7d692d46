"""`jigs tables import`: a supplier's spec sheet becomes a size table."""

from pathlib import Path

import click

from jigs.cli._show import json_option, show_json
from jigs.tables.sheet import AGES
from jigs.tables.spec_values import UNITS


@click.command(name="import")
@click.argument("spec")
@click.option("--cut", required=True, help="What is drawn of it, such as crew-tee.")
@click.option("--age", required=True, type=click.Choice(AGES), help="Who wears it.")
@click.option("--title", help="What the table is called.  [default: the sheet's title or name]")
@click.option("--source", help="Where its figures come from.  [default: imported from SPEC]")
@click.option("--sheet", help="Which sheet of a workbook.  [default: the only one with content]")
@click.option("--unit", type=click.Choice(UNITS), help="Unit of figures that say none.")
@click.option(
    "--map", "maps", multiple=True, metavar="NAME=POINT",
    help='What a name in the sheet means: "Sleeve=sleeve_length", "Chest=half_chest*0.5", '
    '"Waist=-" to leave it out; a cell may stand for the name. Repeatable.',
)  # fmt: skip
@click.option(
    "--out", type=click.Path(path_type=Path),
    help="The file to write.  [default: SPEC with the ending .toml, in this folder]",
)  # fmt: skip
@json_option
def import_table(
    spec: str,
    cut: str,
    age: str,
    title: str | None,
    source: str | None,
    sheet: str | None,
    unit: str | None,
    maps: tuple[str, ...],
    out: Path | None,
    as_data: bool,  # noqa: FBT001
) -> None:
    """Write a size table from a supplier's spec sheet, SPEC.csv or SPEC.xlsx.

    Sizes may run across or down. What is not understood is said with its cell, and then nothing
    is written. Check what the report says was read: a sheet's names can mislead.
    """
    from jigs.cli._inputs import new_table_file, read_here
    from jigs.documents.import_report import import_data, import_text
    from jigs.errors import BadInput, Place, Unknown, collecting, raise_all
    from jigs.files import write_new
    from jigs.garments import GARMENTS
    from jigs.names import safe_name
    from jigs.plan.sizes import points_of, sized
    from jigs.tables.importer import Wanted, import_sheet
    from jigs.tables.spec_files import read_grid

    if cut not in GARMENTS.names():
        raise Unknown(Place("option", "--cut"), "garment cut", cut, GARMENTS.names())
    points = points_of(cut, Place("option", "--cut"))
    name, data = read_here(spec)
    file = out or Path(f"{safe_name(Path(name).stem)}.toml")
    new_table_file(file, Place("option", "--out"))
    place = Place(spec)
    source = f"imported from {name}" if source is None else source
    wanted = Wanted(cut, age, source, Path(name).stem, title, unit, maps, points)
    imported = import_sheet(read_grid(name, data, sheet, place), wanted, file.stem, place)
    problems: list[BadInput] = []
    for one in imported.table.sizes:
        with collecting(problems):
            sized(imported.table, one)
    raise_all(BadInput(Place(spec, one.place.key), one.found, one.allowed) for one in problems)
    write_new(file, imported.text.encode())
    if as_data:
        show_json({"file": str(file), **import_data(imported)})
        return
    for line in import_text(imported):
        click.echo(line)
    click.echo(f"wrote {file}; name it in an order as table = {file.name!r}")
