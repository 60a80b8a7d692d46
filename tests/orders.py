"""Small orders written into a test's folder."""

from pathlib import Path

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
