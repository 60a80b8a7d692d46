"""PDF, and the PDF-compatible files that drawing programs save under their own ending."""

from hashlib import sha256

from jigs.artwork import guard
from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.child import draw
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import accuracy
from jigs.artwork.readers._reader import Reader
from jigs.artwork.vector import box_in_mm, found_on
from jigs.errors import BadInput, Finding, Place
from jigs.units import INCH, LONGEST, Mm

#: A point is 1/72 in (ISO 32000-1, 8.3.2.3).
POINT: Mm = INCH / 72


def recognises(data: bytes) -> bool:
    """Return whether the file says it is PDF within its first 1024 bytes, as viewers ask."""
    return b"%PDF-" in data[:1024]


def read(name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork on a PDF's first page.

    Raises:
        BadInput: encrypted, broken, an impossible page, or no ink.
    """
    task: Task = {
        "kind": "pdf",
        "longest": LONGEST / POINT,
        "page": asked.page,
        "closely": asked.closely,
    }
    drawn = draw(task, data, place)
    width, height = drawn.width * POINT, drawn.height * POINT
    guard.check_page(width, height, place)
    if drawn.ink is None:
        raise BadInput(place, "no ink: the first page is blank", "put the artwork on page 1")
    return Artwork(
        name=name,
        kind="pdf",
        sha256=sha256(data).hexdigest(),
        page_width=width,
        page_height=height,
        ink=box_in_mm(drawn.ink, POINT),
        accuracy=accuracy(drawn.width, drawn.height, drawn.ink) * POINT,
        ground="transparent",
        preview=drawn.preview,
        findings=_findings(name, data, drawn),
    )


def _findings(name: str, data: bytes, drawn: Drawn) -> tuple[Finding, ...]:
    says = list(found_on(drawn))
    if drawn.pages > 1:
        says.append(f"the PDF has {drawn.pages} pages; the first was read")
    if drawn.fonts:
        fonts = ", ".join(drawn.fonts[:5])
        says.append(
            f"live text in {fonts}, which the file does not hold: it may look different on "
            "another machine; convert it to outlines",
        )
    if b"/UserUnit" in data:
        says.append("the PDF sets a UserUnit, which is not regarded: its page size may be wrong")
    return tuple(Finding(blocks=False, about=name, says=text) for text in says)


READER = Reader("PDF", (".pdf", ".ai"), recognises, read)
