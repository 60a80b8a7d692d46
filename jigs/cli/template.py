"""`jigs template`: jigs for one location, without an order."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from jigs.cli._show import Length, code_of, json_option, show_json, units_option
from jigs.units import INCH, Mm, say

if TYPE_CHECKING:
    from jigs.plan import JigPlan


@click.command(name="template")
@click.argument("table")
@click.option("--location", required=True, help="Where, such as full-front or left-chest.")
@click.option("--width", required=True, type=Length(least=5.0), help="Width of the ink.")
@click.option("--height", type=Length(least=2.0), help="Height of the ink.")
@click.option("--artwork", help="Or a file of artwork, whose ink gives the height.")
@click.option("--sizes", help="S, S-XL, M,L or table/size [default: all].")
@click.option(
    "--style", default="window", show_default=True, help="Jig style: window, ledge, film, ..."
)
@click.option("--drop", type=Length(), help="Drop, if not the location's own.")
@click.option(
    "--trim",
    type=Length(),
    default=0.25 * INCH,
    help="Carrier left round the ink [default: 1/4 in].",
)
@click.option(
    "--slip", type=Length(most=10.0), default=0.5, help="Room round the carrier [default: 0.5 mm]."
)
@click.option(
    "--kerf",
    type=Length(most=2.0),
    help="Full width of the cut, for SVG and DXF [default: the material's].",
)
@click.option(
    "--material",
    default="acrylic-3mm",
    show_default=True,
    help="What it is cut from: paper, card, acrylic-3mm, plywood-3mm, polyester-film.",
)
@click.option(
    "--tabs",
    type=Length(most=5.0),
    default=0.0,
    help="Bridges left uncut, so that nothing falls out [default: none].",
)
@click.option(
    "--bed",
    nargs=2,
    type=Length(least=50.0, most=10_000.0),
    help="Width and height of the cutter's bed: a larger jig also comes in pieces that lock.",
)
@click.option(
    "--paper", default="letter", show_default=True, help="Paper of the PDF: letter, a4, ..."
)
@click.option("--profile", help="Of your printer, as jigs calibrate --save wrote it.")
@click.option("--reference", default="", help="Text that tells this jig from others.")
@click.option("--out", required=True, type=click.Path(path_type=Path), help="Folder to write to.")
@units_option
@json_option
def command(
    table: str,
    location: str,
    width: Mm,
    height: Mm | None,
    artwork: str | None,
    sizes: str | None,
    style: str,
    drop: Mm | None,
    trim: Mm,
    slip: Mm,
    kerf: Mm | None,
    material: str,
    tabs: Mm,
    bed: tuple[Mm, Mm] | None,
    paper: str,
    profile: str | None,
    reference: str,
    out: Path,
    units: str,
    as_data: bool,  # noqa: FBT001
) -> int:
    """Make jigs for one location of one size table.

    TABLE is the name of a size table ("jigs tables list") or a table file. As many jigs are made
    as it takes to place every size within 1/8 in and 1 degree; a film, which is laid on by eye,
    has a line for every size.
    """
    if (height is None) == (artwork is None):
        raise click.UsageError("give either --height LENGTH or --artwork FILE")
    from jigs.cli._inputs import aspect_of, printer_of, wanted_sizes
    from jigs.documents.jig_pages import jig_outputs
    from jigs.documents.report import findings_data, findings_text
    from jigs.errors import Place
    from jigs.files import write_all
    from jigs.locations import LOCATIONS
    from jigs.order.materials import material_named
    from jigs.order.order import Cutter, Press, Transfer
    from jigs.order.papers import paper_named
    from jigs.plan import Shop
    from jigs.plan.jigs import jig_plans
    from jigs.plan.prints import sites
    from jigs.plan.prints import widths as plan_widths
    from jigs.styles import STYLES

    where = LOCATIONS.get(location, Place("option", "--location"))
    STYLES.get(style, Place("option", "--style"))
    stuff = material_named(material, Place("option", "--material"))
    sheet = paper_named(paper, Place("option", "--paper"))
    printer, noted = printer_of(profile, sheet)
    aspect, remarks = aspect_of(artwork, None) if height is None else (width / height, ())
    wanted, known = wanted_sizes([table], sizes)
    found, missing = sites(where, wanted, Press(), drop, units)
    transfer = Transfer(trim=trim, slip=slip)
    plan = plan_widths(
        where,
        found,
        aspect,
        transfer,
        wanted=[(width, tuple(site.key for site in found))],
        unit=units,
        findings=(*noted, *remarks, *missing),
    )
    own_kerf = stuff.kerf if kerf is None else kerf
    cutter = Cutter(own_kerf, *(bed or (10_000.0, 10_000.0)), stuff, tabs)
    made, said = jig_plans(
        location,
        [style],
        where,
        found,
        plan,
        reference=reference or known[0].name,
        unit=units,
        transfer=transfer,
        cutter=cutter,
        tables=known,
    )
    shop = Shop(sheet, printer, cutter, Press(), transfer)
    files = [tuple(jig_outputs(one.template, one.style, one.stem, shop)) for one in made]
    if files:
        write_all(out, [output for outputs in files for output in outputs], prune=False)
    findings = (*plan.findings, *said)
    shown = [
        jig_data(one, [(out / output.name).as_posix() for output in outputs])
        for one, outputs in zip(made, files, strict=True)
    ]
    if as_data:
        show_json({"jigs": shown, "findings": findings_data(findings)})
    else:
        for one, outputs in zip(made, files, strict=True):
            t = one.template
            box = t.window if style == "window" else t.ink
            size = f"{say(box.width, units)} × {say(box.height, units)}"
            what = "window" if style == "window" else "print"
            click.echo(f"{t.title}, {one.style}, {t.sizes}: {what} {size}")
            for output in outputs:
                click.echo(f"  {out / output.name}")
        for line in findings_text(findings):
            click.echo(line)
    return code_of(findings)


def jig_data(jig: "JigPlan", files: list[str]) -> dict[str, Any]:
    """Return a jig as data; all lengths in millimetres, errors positive when too low.

    What is laid on by eye has a line for every size instead of errors and an edge.
    """
    t = jig.template
    name = {seat.key: seat.key.partition("/")[2] for seat in t.seats}
    begin = {
        "style": jig.style,
        "sizes": list(name.values()),
        **({} if t.seams else {"drop_mm": t.drop}),
        "window_mm": [t.window.width, t.window.height],
        "carrier_mm": [t.carrier.width, t.carrier.height],
        "ink_mm": [t.ink.width, t.ink.height],
    }
    if t.seams:
        lines = [
            {
                "sizes": [name[key] for key in line.keys],
                "drop_mm": line.drop,
                "centre_to_ink_mm": t.ink.centre.x - line.centre,
            }
            for line in t.seams
        ]
        return {**begin, "lines": lines, "files": files}
    return {
        **begin,
        "edge_to_window_mm": t.room,
        "centre_mm": t.window.centre.x,
        "errors_mm": {name[seat.key]: seat.height for seat in t.seats},
        "error_ranges_mm": {name[seat.key]: [seat.highest, seat.lowest] for seat in t.seats},
        "side_errors_mm": {name[seat.key]: seat.side for seat in t.seats},
        "tilt_deg": {name[seat.key]: seat.tilt for seat in t.seats},
        "play_mm": {name[seat.key]: seat.play for seat in t.seats},
        "files": files,
    }
