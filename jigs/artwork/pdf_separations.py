"""The inks that a PDF names, each with the colour in which its full tint is shown."""

import io
from typing import Any

from jigs.artwork.pdf_file import troubles
from jigs.artwork.pdf_page import UnreadableError, open_page
from jigs.artwork.pdf_paint import Colorant
from jigs.geometry import Box

#: No job has more; the rest is left out.
_MOST = 40
_SIDE = 10


def shown(inks: tuple[Colorant, ...]) -> tuple[tuple[str, str], ...]:
    """Return the name of each ink and its colour as `#rrggbb`, as the renderer shows it.

    Each is painted on a page of its own file, in the colour space that the file has for it.
    """
    inks = inks[:_MOST]
    try:
        data = _swatches(inks)
        page = open_page(data)
    except UnreadableError:
        return ()
    except troubles():
        return ()
    picture = page.render(Box(0, 0, page.width, page.height), _SIDE * len(inks), _SIDE)
    found = []
    for index, (name, *_) in enumerate(inks):
        pixel: Any = picture.getpixel((_SIDE * index + _SIDE // 2, _SIDE // 2))
        found.append((name, "#{:02x}{:02x}{:02x}".format(*pixel[:3])))
    return tuple(found)


def _swatches(inks: tuple[Colorant, ...]) -> bytes:
    from pypdf import PdfWriter
    from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject

    writer = PdfWriter()
    page = writer.add_blank_page(_SIDE * len(inks), _SIDE)
    spaces, paints = DictionaryObject(), []
    for index, (_, space, component, count) in enumerate(inks):
        spaces[NameObject(f"/C{index}")] = space.clone(writer)
        tints = " ".join("1" if one == component else "0" for one in range(count))
        paints.append(f"/C{index} cs {tints} scn {_SIDE * index} 0 {_SIDE} {_SIDE} re f")
    content = DecodedStreamObject()
    content.set_data("\n".join(paints).encode())
    page[NameObject("/Resources")] = DictionaryObject({NameObject("/ColorSpace"): spaces})
    page[NameObject("/Contents")] = writer._add_object(content)  # noqa: SLF001 - as pypdf's guide says
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()
