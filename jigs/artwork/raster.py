"""What the readers of PNG, JPEG and TIFF share: pixels to an `Artwork`."""

from collections.abc import Iterator
from hashlib import sha256

from jigs.artwork import guard
from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.child import draw
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.vector import in_mm, pages_say
from jigs.errors import BadInput, Finding, Place
from jigs.geometry import Box
from jigs.units import INCH

#: A picture that does not say its resolution is taken at this (common practice, no source).
USUAL_PPI = 300.0
#: Resolutions outside this are a mistake of the program that wrote them.
_PPI = (10.0, 10_000.0)
#: White shut in by ink that is told: less is between the strokes of a texture.
_WHITE_INSIDE = 0.005


def read_raster(kind: str, name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork in a picture: `kind` is png, jpeg or tiff.

    Raises:
        BadInput: broken, too many pixels, an impossible page, or no ink.
    """
    task: Task = {
        "kind": kind,
        "page": asked.page,
        "closely": asked.closely,
        "ignore_specks": asked.ignore_specks,
    }
    drawn = draw(task, data, place)
    if drawn.ink is None:
        raise BadInput(place, "no ink", "export it with its artwork visible")
    says: list[str] = []
    x, y = _resolution(drawn.ppi, says)
    width, height = drawn.width / x * INCH, drawn.height / y * INCH
    guard.check_page(width, height, place)
    says += _found(drawn, asked)
    ink = drawn.ink
    return Artwork(
        name=name,
        kind=kind,
        sha256=sha256(data).hexdigest(),
        page_width=width,
        page_height=height,
        ink=Box(
            ink.left / x * INCH, ink.top / y * INCH, ink.right / x * INCH, ink.bottom / y * INCH
        ),
        accuracy=drawn.accuracy * INCH / min(x, y),
        ground=drawn.ground,
        preview=drawn.preview,
        findings=tuple(Finding(blocks=False, about=name, says=text) for text in says),
        # Of pixels that are not square, lengths are those along their shorter sides.
        detail=in_mm(drawn, INCH / max(x, y)),
        density=min(x, y) / INCH,
    )


def _resolution(ppi: tuple[float, float] | None, says: list[str]) -> tuple[float, float]:
    if ppi is None:
        return USUAL_PPI, USUAL_PPI
    x, y = ppi
    if not (_PPI[0] <= x <= _PPI[1] and _PPI[0] <= y <= _PPI[1]):
        says.append(f"the file says {x:g} x {y:g} ppi, which cannot be; {USUAL_PPI:g} was taken")
        return USUAL_PPI, USUAL_PPI
    if abs(x - y) > 0.01 * x:
        says.append(f"the file's pixels are not square: {x:g} x {y:g} ppi")
    return x, y


def _found(drawn: Drawn, asked: Asked) -> Iterator[str]:
    """Yield what is noteworthy about a picture and how it was read."""
    if drawn.pages > 1:
        yield pages_say("file", drawn.pages, asked.page)
    yield from drawn.says
    if drawn.ground == "none":
        yield "the picture has neither a transparent nor a white ground: all of it counts as ink"
    if drawn.ground == "white":
        inside = ""
        if drawn.white_inside >= _WHITE_INSIDE:
            inside = f", nor is what ink shuts in ({100 * drawn.white_inside:.1f} % of the ink box)"
        yield (
            f"white was taken for the ground, so white is not printed{inside}; white that is to "
            "be printed needs a transparent ground"
        )
