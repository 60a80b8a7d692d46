"""`jigs artwork`: what a file of artwork measures."""

import click

from jigs.cli._show import Length, code_of, json_option, show_json, units_option
from jigs.units import Mm, say


@click.command(name="artwork")
@click.argument("file")
@click.option("--width", type=Length(least=1.0), help="Also say how high it is at this width.")
@units_option
@json_option
def command(file: str, width: Mm | None, units: str, as_data: bool) -> int:  # noqa: FBT001
    """Measure a file of artwork: the box of its ink, and its aspect.

    FILE is SVG, PDF or PNG. Everything is trimmed to the ink: empty margins do not count.
    """
    from jigs import artwork
    from jigs.cli._inputs import read_here
    from jigs.documents.report import findings_data, findings_text
    from jigs.errors import Place

    name, data = read_here(file)
    art = artwork.read(name, data, Place(file))
    if as_data:
        ink = art.ink
        shown = {
            "file": name,
            "kind": art.kind,
            "sha256": art.sha256,
            "page_mm": [art.page_width, art.page_height],
            "ink_box_mm": [ink.width, ink.height],
            "ink_at_mm": [ink.left, ink.top],
            "aspect": art.aspect,
            "accuracy_mm": art.accuracy,
            "ground": art.ground,
            "findings": findings_data(art.findings),
        }
        if width is not None:
            shown |= {"width_mm": width, "height_mm": art.height_at(width)}
        show_json(shown)
        return code_of(art.findings)
    page = f"{say(art.page_width, units)} × {say(art.page_height, units)}"
    ink_size = f"{say(art.ink.width, units)} × {say(art.ink.height, units)}"
    click.echo(f"{name}: {art.kind.upper()}, {art.ground} ground")
    click.echo(f"  page    {page}")
    click.echo(f"  ink     {ink_size} (each side within {art.accuracy:.2g} mm)")
    click.echo(f"  aspect  {art.aspect:.4f} wide to 1 high")
    if width is not None:
        click.echo(f"  at {say(width, units)} wide it is {say(art.height_at(width), units)} high")
    for line in findings_text(art.findings):
        click.echo(line)
    return code_of(art.findings)
