"""Small orders written into a test's folder."""

from collections.abc import Sequence
from pathlib import Path

from tests import shipped

ART = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="80mm" viewBox="0 0 120 80">'
    '<rect x="15" y="10" width="90" height="60" fill="#f4f1e6"/></svg>'
)
ORDER = """\
reference = "small"
customer = "Pier Swimmers"

[[garments]]
name = "adult"
table = "adult-crew-tee"
colour = "navy"
sizes = { M = 3, L = 2 }

[[prints]]
location = "left-chest"
artwork = "art.svg"

styles = ["window"]

[[prints]]
location = "neck-label"
artwork = "art.svg"
styles = ["ledge"]
"""


def small(folder: Path, order: str = ORDER, art: str = ART) -> Path:
    """Write an order and its artwork into a folder; return the order's path."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "art.svg").write_text(art, encoding="utf-8")
    (folder / "order.toml").write_text(order, encoding="utf-8")
    return folder / "order.toml"


def every(tables: Sequence[str]) -> str:
    """Return an order of the least, middle and largest size of tables, printed all over."""
    colours = ("#27496d", "#9fb8a5", "#7a1f2b", "#2b2b2b", "#d8a13a")
    garments = [
        f'[[garments]]\nname = "{table}"\ntable = "{table}"\ncolour = "invented"\n'
        f'colour_hex = "{colours[k % len(colours)]}"\nsizes = {{ {_one_each(table)} }}\n'
        for k, table in enumerate(tables)
    ]
    prints = [
        f'[[prints]]\nlocation = "{location}"\nartwork = "art.svg"\nstyles = ["ledge"]\n'
        f"garments = {list(on)}\n"
        for location, on in _places(tables).items()
    ]
    return "\n".join(['reference = "every-cut"', 'customer = "Pier Swimmers"', *garments, *prints])


def _one_each(table: str) -> str:
    sizes = [one.plan.measures.size for one in shipped.sizes(table)]
    shown = (sizes[0], sizes[(len(sizes) - 1) // 2], sizes[-1])
    return ", ".join(f'"{size}" = 1' for size in shown)


def _places(tables: Sequence[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for location, table in shipped.places():
        if table in tables:
            found.setdefault(location, []).append(table)
    return found
