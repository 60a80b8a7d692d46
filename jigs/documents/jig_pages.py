"""A jig as files: cut files with the kerf in them, paper at 1:1, a preview."""

from collections.abc import Iterator

from jigs.documents.contact_sheet import Entry
from jigs.documents.cutting import cut_drawing, cut_says, joints_say
from jigs.drawing.drawing import Drawing, Layer, Page
from jigs.drawing.tile import tiles
from jigs.errors import Refused
from jigs.files import Output
from jigs.geometry import Box
from jigs.order.order import Cutter
from jigs.plan import JigPlan, Shop
from jigs.plan.jigs import broken, cutter_of, drawn, plate_cutting
from jigs.template import Template
from jigs.template.template import drop_text
from jigs.units import Mm, say
from jigs.writers import as_bytes

#: White round the plate in a file of its own.
_EDGE: Mm = 5.0


def jig_files(jig: JigPlan, shop: Shop) -> tuple[Output, ...]:
    """Return a jig's files, in the folder of the order's jigs."""
    return tuple(jig_outputs(jig.template, jig.style, f"jigs/{jig.stem}", shop))


def jig_outputs(template: Template, style: str, path: str, shop: Shop) -> Iterator[Output]:
    """Yield a jig's files, all under one name: SVG and DXF to cut, PDF to print, a PNG preview.

    The cut files hold the kerf, the paper and the preview are nominal. A jig larger than the
    paper also comes as one page of its own size, for a plotter or a print shop.

    Raises:
        Refused: the drawing breaks a rule, which a plan kept in a file may lead to.
    """
    faults = broken(style, template)
    if faults:
        raise Refused(f"{path}: {faults[0]}")
    paper, cutter = shop.paper, shop.cutter
    drawing = drawn(style, template)
    title = f"{template.full_title} {style} jig, {template.sizes}"
    says = described(template, style)
    # On the nominal drawing's page, so that a jig does not move on it with the kerf.
    cutter = cutter_of(style, cutter)
    led = cut_drawing(drawing, template, style, cutter)
    cut = own_page(led, title, says + cut_says(cutter, led), drawing.bounds())
    whole = own_page(drawing, title, says)
    yield Output(f"{path}.svg", as_bytes("svg", [cut]))
    yield Output(f"{path}.dxf", as_bytes("dxf", [cut]))
    yield from _piece_files(template, style, path, cutter)
    pages = tiles(
        drawing,
        title=title,
        says=says,
        width=paper.width,
        height=paper.height,
        margin=paper.margin,
        overlap=paper.overlap,
        x=shop.printer.x,
        y=shop.printer.y,
        reference=template.reference,
    )
    yield Output(f"{path}.pdf", as_bytes("pdf", pages))
    if len(pages) > 1:
        yield Output(f"{path}-one-page.pdf", as_bytes("pdf", [whole]))
    yield Output(f"{path}.png", as_bytes("png", [whole]))


#: How a sheet is used that nothing seats.
BY_EYE = (
    " A clear sheet: engrave it, or print it on clear film made for your printer, and lay the line "
    "of the size on the seam and its centre line on the garment's centre, which an eye does to "
    "about 1 mm. Slide the trimmed transfer under the sheet until it fills the box, then lift the "
    "sheet off."
)


def _piece_files(template: Template, style: str, path: str, cutter: Cutter) -> Iterator[Output]:
    """Yield the cut files of a jig's pieces, if its plate is larger than the bed or stock."""
    pieces = plate_cutting(style, template, cutter).pieces
    if len(pieces) < 2:
        return
    for number, piece in enumerate(pieces, start=1):
        of = f"piece {number} of {len(pieces)}"
        title = f"{template.full_title} {style} jig, {template.sizes}, {of}"
        says = f"{described(template, style)} {of.capitalize()}. {joints_say(cutter)}"
        box = Drawing(piece.shapes(Layer.CUT)).bounds()
        led = cut_drawing(piece, template, style, cutter, drawn(style, template))
        page = own_page(led, title, says + cut_says(cutter, led), box)
        for suffix in ("svg", "dxf"):
            yield Output(f"{path}-piece-{number}.{suffix}", as_bytes(suffix, [page]))


def described(template: Template, style: str) -> str:
    """Return what a jig is and how to use it, in words, with the caution of the press."""
    t, unit = template, template.unit
    windows = " and ".join(f"{say(w.width, unit)} x {say(w.height, unit)}" for w in t.windows)
    drop = t.drop_text
    if t.beside:
        also = drop_text(t.beside.drop, t.beside.drop_from, unit, hangs=t.hangs)
        drop = f"{t.title}: {drop}; {t.beside.title}: {also}"
    opening = f" Window {windows}." if style == "window" else ""
    softens = "acrylic softens near 100 C"
    if t.seams:
        opening = BY_EYE
        softens = "film softens in its heat"
    return (
        f"{t.full_title.capitalize()}, {style} jig for {t.sizes}. "
        f"{t.print_text.replace('×', 'x').capitalize()}, {drop}.{opening} "
        f"The press is hot: take the jig off before it closes ({softens}), and "
        "follow the press's manual and the transfer maker's instructions."
    )


def own_page(drawing: Drawing, title: str, says: str, around: Box | None = None) -> Page:
    """Return a drawing on a page of its own size, or of a box's, with a little room round it."""
    box = (around or drawing.bounds()).grown(_EDGE)
    moved = drawing.moved(-box.left, -box.top)
    return Page(box.width, box.height, moved, title, says)


def contact_entry(jig: JigPlan) -> Entry:
    """Return a jig for the contact sheet."""
    t = jig.template
    lines = (f"{t.full_title}, {jig.style}", t.sizes, t.print_text)
    return Entry(drawn(jig.style, t), lines)
