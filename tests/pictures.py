"""The README's pictures, from the demo order's own files: `python -m tests.pictures`."""

from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

from jigs import artwork
from jigs.documents.artwork_picture import artwork_page
from jigs.documents.block_picture import block_page
from jigs.documents.jig_pages import own_page
from jigs.documents.nest import nest_page
from jigs.documents.team_picture import team_page
from jigs.drawing.drawing import Page
from jigs.errors import Place
from jigs.order.order import Transfer
from jigs.plan.holding import Use, holding
from jigs.plan.jigs import drawn as drawn_jig
from jigs.tables import library
from jigs.units import INCH, Mm
from jigs.writers import as_bytes
from tests import demo, shipped
from tests.team import orders as team

FOLDER = Path(__file__).parents[1] / "out" / "pictures"
#: Name, the demo order's file it is from, width in pixels.
PICTURES = (
    ("garments", "picture-womens.png", 900),
    ("window-jig", "jigs/left-chest-window-adult-M-3XL.png", 640),
    ("contact-sheet", "contact-sheet.png", 900),
    ("platen-map", "platen/full-back.png", 640),
    ("cut-sheet", "cut-sheets/sheet-3.png", 900),
)
#: A page of paper, from the PDF of a ledge jig.
PAPER = ("paper-jig", "jigs/left-chest-ledge-adult-M-3XL.pdf", 640)


#: Pages that no file of the demo order has, and their width in pixels.
PAGES = (
    ("artwork", 900), ("two-prints-jig", 640), ("film-jig", 640), ("hoodie", 900), ("nest", 900),
    ("team", 900),
)  # fmt: skip

#: The pictures' file names.
NAMES = tuple(f"{name}.png" for name, *_ in (*PICTURES, PAPER, *PAGES))


@cache
def drawn() -> dict[str, Any]:
    """Return each picture by its file name, as Pillow's images."""
    from PIL import Image

    found = {}
    for name, source, width in PICTURES:
        image = Image.open(BytesIO(demo.output(source))).convert("RGB")
        found[f"{name}.png"] = _sized(image, width)
    name, source, width = PAPER
    found[f"{name}.png"] = _sized(_page(demo.output(source)), width)
    for (name, width), page in zip(PAGES, _pages(), strict=True):
        image = Image.open(BytesIO(as_bytes("png", [page]))).convert("RGB")
        found[f"{name}.png"] = _sized(image, width)
    return found


def _pages() -> tuple[Page, ...]:
    """Return the pages of `PAGES`."""
    hoodie, tee = (library.find(name, Place(name)) for name in ("adult-hoodie", "adult-crew-tee"))
    plan = team.planned()
    plate = replace(
        shipped.plates("full-front", "left-chest", tee.name)[0], reference="pier-swim · both fronts"
    )
    film = replace(shipped.by_eye("left-chest", tee.name), reference="pier-swim · left-chest")
    return (
        _looked_at("crest.svg", 2 * INCH),
        own_page(drawn_jig("window", plate), "two prints", "one plate for two prints"),
        own_page(drawn_jig("film", film), "film", "a film for all sizes"),
        block_page(hoodie, shipped.sizes(hoodie.name)[1], "in"),
        nest_page(tee, shipped.sizes(tee.name)),
        team_page(plan, team.squad_of(plan)),
    )


def _looked_at(name: str, width: Mm) -> Page:
    """Return the picture of one of the demo order's files at a width, on navy."""
    data = (demo.folder() / "artwork" / name).read_bytes()
    art = artwork.read(name, data, Place(name))
    transfer = Transfer()
    use = Use(((width, ()),), (("navy", "#1f2a44"),), transfer)
    return artwork_page(art, holding(art, use), transfer, "in", name)


def _page(data: bytes) -> Any:
    import pypdfium2

    document = pypdfium2.PdfDocument(data)
    try:
        return document[0].render(scale=2).to_pil().convert("RGB").copy()
    finally:
        document.close()


def _sized(image: Any, width: int) -> Any:
    """Return the image at a width, in few colours: small files for a page that is read."""
    from PIL import Image

    height = round(image.height * width / image.width)
    small = image.resize((width, height), Image.Resampling.LANCZOS)
    return small.quantize(48, dither=Image.Dither.NONE)


def main() -> None:
    """Write the pictures."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, image in drawn().items():
        image.save(FOLDER / name, optimize=True)


if __name__ == "__main__":
    main()
