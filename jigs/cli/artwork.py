"""`jigs artwork`: what a file of artwork measures, and whether it holds in print."""

from pathlib import Path

import click

from jigs.cli._show import Length, code_of, json_option, show_json, units_option
from jigs.units import POINT, Mm, say


@click.command(name="artwork")
@click.argument("file")
@click.option(
    "--width",
    "widths",
    multiple=True,
    type=Length(least=1.0),
    help="Judge it at this width; may be given several times [default: as in the file].",
)
@click.option(
    "--garment-colour",
    "colours",
    multiple=True,
    help="Judge its inks on this: a colour name or #rrggbb; may be given several times.",
)
@click.option(
    "--page", type=click.IntRange(1, 9999), default=1, show_default=True,
    help="Page of a PDF or TIFF that has several.",
)  # fmt: skip
@click.option("--ignore-specks", is_flag=True, help="Leave stray specks out of the artwork.")
@click.option(
    "--line", type=Length(most=10.0), default=1 * POINT, help="Thinnest line [default: 1 pt]."
)
@click.option(
    "--gap", type=Length(most=10.0), default=1.5 * POINT, help="Narrowest gap [default: 1.5 pt]."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Also write a picture with what was found marked, .svg or .png.",
)
@units_option
@json_option
def command(
    file: str,
    widths: tuple[Mm, ...],
    colours: tuple[str, ...],
    page: int,
    ignore_specks: bool,  # noqa: FBT001
    line: Mm,
    gap: Mm,
    out: Path | None,
    units: str,
    as_data: bool,  # noqa: FBT001
) -> int:
    """Measure a file of artwork and judge it at its printed width.

    FILE is SVG, PDF, PNG, JPEG or TIFF. Everything is trimmed to the ink: empty margins do not
    count. Said are its box and inks, its thinnest lines and narrowest gaps, the least width at
    which they hold, and how its inks show on garments. The picture is at the least width given.
    """
    from jigs import artwork
    from jigs.artwork.asked import Asked
    from jigs.cli._inputs import garment_colours, picture_format, read_here
    from jigs.documents.artwork_report import art_data, held_data, held_text
    from jigs.documents.report import findings_data, findings_text
    from jigs.errors import Place
    from jigs.files import check_new, write_new
    from jigs.order.order import Transfer
    from jigs.plan.held_words import box_text, ground_text
    from jigs.plan.holding import Use, holding

    grounds = garment_colours(colours)
    suffix = ""
    if out is not None:
        suffix = picture_format(out)
        # Before the look, which may take its time.
        check_new(out)
    name, data = read_here(file)
    art = artwork.read(name, data, Place(file), Asked(page, ignore_specks))
    transfer = Transfer(line=line, gap=gap)
    use = Use(
        widths=tuple((width, ()) for width in sorted(set(widths)) or [art.ink.width]),
        grounds=grounds,
        transfer=transfer,
        unit=units,
        specks_ignored=ignore_specks,
        ignoring="give --ignore-specks",
    )
    held = holding(art, use)
    findings = (*art.findings, *(held.findings if held else ()))
    if out is not None and suffix:
        from jigs.documents.artwork_picture import artwork_page
        from jigs.writers import as_bytes

        write_new(out, as_bytes(suffix, [artwork_page(art, held, transfer, units, name)]))
    if as_data:
        heights = [{"width_mm": one, "height_mm": art.height_at(one)} for one, _ in use.widths]
        judged = held_data(art, held, transfer) if held else {"widths": heights}
        shown = {**art_data(art), **judged}
        shown |= {"picture": out.as_posix()} if out else {}
        show_json({**shown, "findings": findings_data(findings)})
        return code_of(findings)
    click.echo(f"{name}: {art.kind.upper()}, {ground_text(art)}")
    click.echo(f"  page    {say(art.page_width, units)} × {say(art.page_height, units)}")
    off = f" (each side within {art.accuracy:.2g} mm)" if art.accuracy else ""
    click.echo(f"  ink     {box_text(art, units)}{off}")
    click.echo(f"  aspect  {art.aspect:.4f} wide to 1 high")
    for width in widths:
        click.echo(f"  at {say(width, units)} wide it is {say(art.height_at(width), units)} high")
    if held:
        click.echo("")
        for text in held_text(art, held, transfer, units, ", ".join):
            click.echo(text)
    if findings:
        click.echo("")
    for text in findings_text(findings):
        click.echo(text)
    if out is not None:
        click.echo(f"wrote {out}")
    return code_of(findings)
