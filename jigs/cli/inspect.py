"""`jigs inspect`: whether a cut file, perhaps edited since, can still be cut."""

import click

from jigs.cli._show import BLOCKED, Length, json_option, show_json, units_option
from jigs.units import Mm


@click.command(name="inspect")
@click.argument("file")
@click.option(
    "--kerf", type=Length(most=2.0),
    help="Full width of the cut that the outlines allow for [default: what the file says].",
)  # fmt: skip
@click.option(
    "--material",
    help="What it is cut from, for its least web and inner corner: acrylic-3mm, card, ... "
    "[default: what the file says, else acrylic-3mm].",
)
@click.option(
    "--web", type=Length(least=0.1, most=50.0), help="Least web [default: the material's]."
)
@click.option(
    "--tabs", type=Length(most=5.0),
    help="Bridges left uncut, closed before checking [default: what the file says].",
)  # fmt: skip
@click.option(
    "--plates", type=click.IntRange(1, 999), default=1, show_default=True,
    help="How many plates the file should hold.",
)  # fmt: skip
@units_option
@json_option
def command(
    file: str,
    kerf: Mm | None,
    material: str | None,
    web: Mm | None,
    tabs: Mm | None,
    plates: int,
    units: str,
    as_data: bool,  # noqa: FBT001
) -> int:
    """Measure a cut file and check it against the rules of a plate.

    FILE is a DXF or an SVG with the layers cut, score, engrave and note, as this program writes
    them or as edited since. Said are its sizes, its thinnest web and sharpest inner corner, and
    every rule it breaks, with the place.
    """
    from jigs import cutfile
    from jigs.cli._inputs import read_here
    from jigs.cutfile.tabs import rejoined
    from jigs.documents.inspection import inspection_data, inspection_text
    from jigs.errors import Place
    from jigs.order.materials import material_named
    from jigs.order.order import Material
    from jigs.rules import Facts, check, measured

    named = material_named(material, Place("option", "--material")) if material else None
    name, data = read_here(file)
    read = cutfile.read(name, data, Place(file))
    stuff = named or Material()
    least = (stuff.web, stuff.corner) if named or read.least is None else read.least
    facts = Facts(
        least_web=least[0] if web is None else web,
        least_inner=least[1],
        kerf=read.kerf if kerf is None else kerf,
        plates=plates,
        grouped=True,
    )
    bridges = read.tabs if tabs is None else tabs
    drawing = rejoined(read.drawing, bridges + facts.kerf) if bridges else read.drawing
    broken = check(drawing, facts)
    found = measured(drawing)
    if as_data:
        show_json(inspection_data(name, read, found, broken, facts))
    else:
        for line in inspection_text(name, read, found, broken, facts, units):
            click.echo(line)
    return BLOCKED if broken else 0
