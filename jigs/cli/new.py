"""`jigs new`: an order to start from."""

from importlib import resources
from pathlib import Path

import click


@click.command(name="new")
@click.argument("folder", type=click.Path(path_type=Path))
def command(folder: Path) -> None:
    """Write an order to start from, with artwork, into a new folder.

    FOLDER gets order.toml, which explains itself, and an artwork folder. Files of yours that are
    already there are never overwritten.
    """
    from jigs.files import Output, write_all

    demo = resources.files("jigs").joinpath("demo")
    outputs = [Output("order.toml", demo.joinpath("order.toml").read_bytes())]
    arts = sorted(demo.joinpath("artwork").iterdir(), key=lambda one: one.name)
    outputs += [Output(f"artwork/{art.name}", art.read_bytes()) for art in arts]
    write_all(folder, outputs, prune=False)
    click.echo(
        f"wrote {folder / 'order.toml'}; change it, then run: jigs make {folder / 'order.toml'}"
    )
