"""`jigs widths`: how wide, for which sizes."""

import click

from jigs.cli._show import Length, code_of, json_option, show_json, units_option
from jigs.units import INCH, Mm


@click.command(name="widths")
@click.argument("tables", nargs=-1, required=True, metavar="TABLE...")
@click.option("--location", required=True, help="Where, such as full-front or left-chest.")
@click.option(
    "--artwork", help="File of artwork (SVG, PDF, PNG, JPEG, TIFF): its ink gives the aspect."
)
@click.option("--aspect", help="Or the aspect itself: width over height.")
@click.option("--sizes", help="Only these: S, S-XL, M,L or table/size [default: all].")
@click.option("--width", type=Length(least=5.0), help="Judge this width instead of choosing.")
@click.option("--drop", type=Length(), help="Drop, if not the location's own.")
@click.option(
    "--step",
    type=Length(least=1.0),
    default=0.25 * INCH,
    help="Step widths are ordered in [default: 1/4 in].",
)
@click.option(
    "--platen",
    nargs=2,
    type=Length(least=25.0),
    default=(16 * INCH, 20 * INCH),
    help="Platen width and height [default: 16 in 20 in].",
)
@units_option
@json_option
def command(
    tables: tuple[str, ...],
    location: str,
    artwork: str | None,
    aspect: str | None,
    sizes: str | None,
    width: Mm | None,
    drop: Mm | None,
    step: Mm,
    platen: tuple[Mm, Mm],
    units: str,
    as_data: bool,  # noqa: FBT001
) -> int:
    """Recommend the widths of a print for sizes of one or more tables.

    The fewest widths that suit every size, and among those the ones nearest to what is usual.
    """
    from jigs.cli._inputs import aspect_of, wanted_sizes
    from jigs.documents.report import widths_data, widths_text
    from jigs.errors import Place
    from jigs.locations import LOCATIONS
    from jigs.order.order import Press, Transfer
    from jigs.plan.prints import sites
    from jigs.plan.prints import widths as plan_widths

    where = LOCATIONS.get(location, Place("option", "--location"))
    shape, remarks = aspect_of(artwork, aspect)
    wanted, known = wanted_sizes(tables, sizes)
    found, missing = sites(where, wanted, Press(*platen), drop, units)
    plan = plan_widths(
        where,
        found,
        shape,
        Transfer(step=step),
        wanted=[(width, tuple(site.key for site in found))] if width is not None else (),
        unit=units,
        findings=(*remarks, *missing),
    )
    if as_data:
        show_json(widths_data(location, plan))
    else:
        title = f"{where.title}, artwork {shape:.3f} wide to 1 high"
        click.echo(widths_text(title, plan, known, units))
    return code_of(plan.findings)
