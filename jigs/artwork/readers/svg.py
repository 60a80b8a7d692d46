"""SVG: read as XML without entities, cleaned, then drawn."""

from hashlib import sha256

from jigs.artwork import guard, svg_size
from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.child import draw
from jigs.artwork.drawn import Drawn, Task
from jigs.artwork.ink import accuracy
from jigs.artwork.readers._reader import Reader
from jigs.artwork.svg_clean import Cleaned, clean
from jigs.artwork.svg_parse import parse
from jigs.artwork.svg_references import check_references
from jigs.artwork.vector import box_in_mm, found_on, in_mm
from jigs.errors import BadInput, Finding, Place

_MARKS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))


def recognises(data: bytes) -> bool:
    """Return whether the file starts as XML does and soon has an svg element."""
    head, coding = data[:65536], "latin-1"
    for mark, name in _MARKS:
        if head.startswith(mark):
            head, coding = head[len(mark) :], name
    text = head.decode(coding, errors="replace").lstrip()
    return text.startswith("<") and ("<svg" in text or ":svg" in text)


def read(name: str, data: bytes, place: Place, asked: Asked) -> Artwork:
    """Return the artwork in an SVG.

    Raises:
        BadInput: no sound SVG, an impossible page, references that explode, or no ink.
    """
    root = parse(data, place)
    page = svg_size.page_size(root, place)
    guard.check_page(page.width * svg_size.PX, page.height * svg_size.PX, place)
    cleaned = clean(root, page, place)
    check_references(root, place)
    task: Task = {
        "kind": "svg",
        "width": page.width,
        "height": page.height,
        "fonts": bool(cleaned.texts),
        "closely": asked.closely,
        "ignore_specks": asked.ignore_specks,
    }
    drawn = draw(task, cleaned.xml, place)
    if drawn.ink is None:
        allowed = "put visible artwork on the page; look for hidden layers and marks beside it"
        if cleaned.texts:
            allowed = "its live text has no font on this machine: convert it to outlines"
        raise BadInput(place, "no ink: nothing is drawn on the page", allowed)
    says = (*cleaned.says, *found_on(drawn))
    return Artwork(
        name=name,
        kind="svg",
        sha256=sha256(data).hexdigest(),
        page_width=page.width * svg_size.PX,
        page_height=page.height * svg_size.PX,
        ink=box_in_mm(drawn.ink, svg_size.PX),
        accuracy=accuracy(page.width, page.height, drawn.ink) * svg_size.PX,
        ground=drawn.ground,
        preview=drawn.preview,
        findings=(
            # Text that another machine draws otherwise has another ink box, so another jig.
            *(Finding(blocks=True, about=name, says=text) for text in _live_text(cleaned, drawn)),
            *(Finding(blocks=True, about=name, says=text) for text in _missing(cleaned)),
            *(Finding(blocks=False, about=name, says=text) for text in says),
        ),
        detail=in_mm(drawn, svg_size.PX),
    )


def _live_text(cleaned: Cleaned, drawn: Drawn) -> tuple[str, ...]:
    if not cleaned.texts:
        return ()
    shown = ", ".join(repr(text) for text in cleaned.texts[:3])
    more = f" and {len(cleaned.texts) - 3} more" if len(cleaned.texts) > 3 else ""
    says = (
        f"live text {shown}{more} is drawn in a font of this machine, or not at all, "
        "and may look different on another; convert it to outlines"
    )
    if drawn.fonts:
        says += f" (this machine does not have {', '.join(drawn.fonts)})"
    return (says,)


def _missing(cleaned: Cleaned) -> tuple[str, ...]:
    if not cleaned.missing:
        return ()
    shown = ", ".join(cleaned.missing[:3])
    more = f" and {len(cleaned.missing) - 3} more" if len(cleaned.missing) > 3 else ""
    says = (
        f"linked {shown}{more} is not in the file and was left out, so the artwork is not "
        "complete; embed what is linked"
    )
    return (says,)


READER = Reader("SVG", (".svg",), recognises, read)
