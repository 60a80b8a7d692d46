"""`jigs calibrate`: a page that shows how true a printer prints, and the profile it gives."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from jigs.cli._show import Length, json_option, show_json
from jigs.units import Mm, say

if TYPE_CHECKING:
    from jigs.order.order import Paper


@click.command(name="calibrate")
@click.option(
    "--paper", default="letter", show_default=True, help="Paper in the printer: letter, a4, ..."
)
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE.pdf",
    help="The page to print [default: calibration-PAPER.pdf].",
)  # fmt: skip
@click.option("--across", type=Length(), help="What the line across measures on the print.")
@click.option("--down", type=Length(), help="What the line down the page measures.")
@click.option(
    "--save", type=click.Path(path_type=Path), metavar="MY.toml",
    help="Write the printer's profile, for an order to name.",
)  # fmt: skip
@json_option
def command(
    paper: str,
    out: Path | None,
    across: Mm | None,
    down: Mm | None,
    save: Path | None,
    as_data: bool,  # noqa: FBT001
) -> None:
    """Print a page that shows how true a printer prints, and keep what it measures.

    Without more, the page is written. Print it at 100 %, measure its two lines with a steel rule,
    and give their lengths with --across, --down and --save: that writes a profile. An order in the
    same folder names it under [printer] as profile = "my-printer.toml", and its jigs are then
    drawn so much larger or smaller that they measure true on paper.
    """
    from jigs.errors import Place
    from jigs.order.papers import paper_named

    sheet = paper_named(paper, Place("option", "--paper"))
    if across is None and down is None and save is None:
        written = out or Path(f"calibration-{sheet.name}.pdf")
        shown = _page(sheet, written)
        said = (
            f"wrote {written}: print it at 100 %, measure both lines, and give them with --across, "
            "--down and --save"
        )
    elif across is None or down is None or save is None:
        raise click.UsageError("a profile takes --across, --down and --save, all three")
    elif out is not None:
        raise click.UsageError("--out is for the page to print; --save names the profile")
    else:
        shown, said = _profile(sheet, across, down, save)
    if as_data:
        show_json(shown)
    else:
        click.echo(said)


def _page(paper: "Paper", out: Path) -> dict[str, object]:
    """Write the page and return what there is on it."""
    from jigs.documents.calibration import calibration_page
    from jigs.errors import BadInput, Place
    from jigs.order.profile import lines_on
    from jigs.writers import as_bytes

    if out.suffix.lower() != ".pdf":
        raise BadInput(Place("option", "--out"), f"found {out.name!r}", "write a name.pdf")
    data = as_bytes("pdf", [calibration_page(paper)])
    _write(out, data, lambda old: old == data)
    across, down = lines_on(paper)
    return {"written": out.as_posix(), "paper": paper.name, "across_mm": across, "down_mm": down}


def _profile(paper: "Paper", across: Mm, down: Mm, save: Path) -> tuple[dict[str, object], str]:
    """Write the profile; return what is in it as data and in words."""
    from jigs.cli._inputs import new_table_file
    from jigs.errors import Place
    from jigs.order import profile

    new_table_file(save, Place("option", "--save"))
    places = Place("option", "--across"), Place("option", "--down")
    found = profile.measured(paper, across, down, places)
    _write(save, profile.text_of(found, save.name).encode(), profile.is_profile)
    x, y = found.printer.x, found.printer.y
    wide, tall = profile.lines_on(paper)
    said = (
        f"wrote {save}: across {say(across, 'mm')} for {say(wide, 'mm')}, x = {x:.6f}; down "
        f"{say(down, 'mm')} for {say(tall, 'mm')}, y = {y:.6f}\n"
        f'name it in an order beside it, under [printer]: profile = "{save.name}"'
    )
    return {"written": save.as_posix(), "paper": paper.name, "x": x, "y": y}, said


def _write(path: Path, data: bytes, ours: Callable[[bytes], bool]) -> None:
    """Write a new file, or in the place of one whose bytes are `ours`."""
    from jigs.errors import BadInput, Place, Refused
    from jigs.files import Folder, replace_file, write_new

    try:
        write_new(path, data, new_folder=False)
    except Refused as refused:
        try:
            old = Folder(path.parent).read_bytes(path.name, Place(str(path)))
        except BadInput:
            raise refused from None
        if not ours(old):
            raise
        replace_file(path, old, data)
