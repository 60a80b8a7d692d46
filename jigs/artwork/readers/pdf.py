"""PDF, and the PDF-compatible files that drawing programs save under their own ending."""

from hashlib import sha256

from jigs.artwork import guard
from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.child import draw
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import accuracy
from jigs.artwork.readers._reader import Reader
from jigs.artwork.vector import box_in_mm, found_on, in_mm, pages_say
from jigs.errors import BadInput, Finding, Place
from jigs.units import LONGEST, POINT


def recognises(data: bytes) -> bool:
    """Return whether the file says it is PDF within its first 1024 bytes, as viewers ask."""
    return b"%PDF-" in data[:1024]


def read(name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork on a page of a PDF.

    Raises:
        BadInput: encrypted, broken, an impossible page, or no ink.
    """
    task: Task = {
        "kind": "pdf",
        "longest": LONGEST / POINT,
        "page": asked.page,
        "closely": asked.closely,
        "ignore_specks": asked.ignore_specks,
    }
    drawn = draw(task, data, place)
    width, height = drawn.width * POINT, drawn.height * POINT
    guard.check_page(width, height, place)
    if drawn.ink is None:
        found = f"no ink: page {drawn.page} is blank"
        raise BadInput(place, found, "put the artwork on that page, or choose another page")
    return Artwork(
        name=name,
        kind="pdf",
        sha256=sha256(data).hexdigest(),
        page_width=width,
        page_height=height,
        ink=box_in_mm(drawn.ink, POINT),
        accuracy=accuracy(drawn.width, drawn.height, drawn.ink) * POINT,
        ground=drawn.ground,
        preview=drawn.preview,
        findings=_findings(name, drawn),
        detail=in_mm(drawn, POINT),
    )


def _findings(name: str, drawn: Drawn) -> tuple[Finding, ...]:
    says = list(found_on(drawn))
    if drawn.pages > 1:
        says.append(pages_say("PDF", drawn.pages, drawn.page))
    found = tuple(Finding(blocks=False, about=name, says=text) for text in says)
    if not drawn.fonts:
        return found
    fonts = ", ".join(drawn.fonts[:5])
    more = f" and {len(drawn.fonts) - 5} more" if len(drawn.fonts) > 5 else ""
    # Text that another machine draws otherwise has another ink box, so another jig.
    text = (
        f"live text in {fonts}{more}, which the file does not hold: it may look different on "
        "another machine; convert it to outlines"
    )
    return (Finding(blocks=True, about=name, says=text), *found)


READER = Reader("PDF", (".pdf", ".ai"), recognises, read)
