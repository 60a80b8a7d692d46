"""What a PDF holds besides flat outlined colour: known files, their places, and hostile ones."""

import io
import time
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from PIL import Image
from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    DecodedStreamObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    NumberObject,
    RectangleObject,
)

from jigs.artwork import child, drawing
from jigs.artwork.detail import Detail, Remark
from jigs.artwork.draw_pdf import draw_pdf
from jigs.artwork.drawn import Drawn
from jigs.artwork.pdf_contents import walk
from jigs.artwork.pdf_file import open_file
from jigs.artwork.pdf_page import open_page
from jigs.artwork.remarks import Remarks
from jigs.geometry import Affine, Box, Point

from .samples import PATIENCE, PLACE, pdf


@pytest.fixture(autouse=True)
def _no_look_at_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a file holds is told whether or not its lines are looked at, which takes long."""
    nothing = Detail(Point(0, 0), (), flat=True, thin=())
    monkeypatch.setattr(drawing, "examine_drawn", lambda *_: nothing)


#: A point is 1/72 in (ISO 32000-1, 8.3.2.3).
PT = 25.4 / 72
Make = Callable[[PdfWriter], dict[str, Any]]


def drawn(data: bytes, page: int = 1) -> Drawn:
    """Return what is seen of a PDF, in this process."""
    return draw_pdf({"kind": "pdf", "longest": 1e9, "page": page}, data)


def dictionary(**entries: Any) -> DictionaryObject:
    """Return a PDF's dictionary; a text is a name."""
    wrap = {str: lambda s: NameObject(f"/{s}"), int: NumberObject, float: FloatObject}
    return DictionaryObject(
        {
            NameObject(f"/{key}"): wrap[type(value)](value) if type(value) in wrap else value
            for key, value in entries.items()
        }
    )


def stream(content: str, **entries: Any) -> DecodedStreamObject:
    """Return a PDF's stream."""
    made = DecodedStreamObject()
    made.set_data(content.encode())
    made.update(dictionary(**entries))
    return made


def numbers(*values: float) -> ArrayObject:
    """Return a PDF's array of numbers."""
    return ArrayObject(FloatObject(value) for value in values)


def written(content: str, make: Make = lambda _: {}, **page: Any) -> bytes:
    """Return a PDF of one page of 300 x 200 pt with a content; `make` gives its resources."""
    writer = PdfWriter()
    sheet = writer.add_blank_page(300, 200)
    resources = {key: dictionary(**value) for key, value in make(writer).items()}
    sheet[NameObject("/Resources")] = dictionary(**resources)
    sheet[NameObject("/Contents")] = writer._add_object(stream(content))
    sheet.update(dictionary(**page))
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def points(left: float, bottom: float, right: float, top: float, height: float = 200) -> Box:
    """Return a box of a PDF's points in mm, y down from the top of the page."""
    return Box(left * PT, (height - top) * PT, right * PT, (height - bottom) * PT)


def assert_near(found: Box | None, meant: Box, slack: float = 0.1) -> None:
    """Hold each side of a box to a slack in mm."""
    assert found is not None
    assert found.holds(meant, slack), (found, meant)
    assert meant.holds(found, slack), (found, meant)


def only(data: bytes) -> Remark:
    """Return the one remark on a PDF."""
    (remark,) = drawn(data).remarks
    return remark


STATE: dict[str, dict[str, Any]] = {
    "opacity": {"ca": 0.4},
    "blend": {"BM": "Multiply"},
    "overprint": {"op": BooleanObject(True)},
}


@pytest.mark.parametrize("kind", STATE)
def test_a_graphics_state_is_told_where_it_paints(kind: str) -> None:
    """Opacity, blend modes and overprint are told of what is painted with them, and only that."""
    content = "0 0 20 20 re f q 1 0 0 1 100 50 cm /G gs 10 10 60 30 re f Q 40 0 20 20 re f"
    data = written(content, lambda _: {"ExtGState": {"G": dictionary(**STATE[kind])}})
    remark = only(data)

    assert remark.kind == kind
    assert_near(remark.where, points(110, 60, 170, 90))


def test_a_soft_mask_is_told() -> None:
    """A soft mask set by the state is told; one that is taken back is not."""

    def make(writer: PdfWriter) -> dict[str, Any]:
        group = dictionary(S="Transparency", CS="DeviceGray")
        form = stream(
            "0.5 g 0 0 300 200 re f", Type="XObject", Subtype="Form",
            BBox=numbers(0, 0, 300, 200), Group=group,
        )  # fmt: skip
        mask = dictionary(S="Luminosity", G=writer._add_object(form))
        states = {"M": dictionary(SMask=mask), "N": dictionary(SMask="None")}
        return {"ExtGState": states}

    remark = only(written("/M gs 10 10 50 50 re f /N gs 100 10 50 50 re f", make))

    assert remark.kind == "mask"
    assert_near(remark.where, points(10, 10, 60, 60))


def gradient(canvas: Any) -> None:
    """Draw a gradient in a clip of 100 x 40 pt."""
    path = canvas.beginPath()
    path.rect(50, 60, 100, 40)
    canvas.clipPath(path, stroke=0, fill=0)
    canvas.linearGradient(0, 0, 300, 200, ((1, 0, 0), (0, 0, 1)))


def test_a_gradient_ends_at_its_clip() -> None:
    """A shading fills its clip."""
    remark = only(pdf(gradient))

    assert remark.kind == "gradient"
    assert_near(remark.where, points(50, 60, 150, 100))


def test_patterns_are_told_apart() -> None:
    """A shading pattern is a gradient, a tiling pattern is a pattern (ISO 32000-1, 8.7)."""

    def make(writer: PdfWriter) -> dict[str, Any]:
        function = dictionary(
            FunctionType=2, N=1, Domain=numbers(0, 1), C0=numbers(1, 0, 0), C1=numbers(0, 0, 1)
        )
        shading = dictionary(
            ShadingType=2, ColorSpace="DeviceRGB", Coords=numbers(0, 0, 300, 0), Function=function
        )
        cell = stream(
            "0 0 3 3 re f", PatternType=1, PaintType=1, TilingType=1, BBox=numbers(0, 0, 5, 5),
            XStep=5, YStep=5, Resources=dictionary(),
        )  # fmt: skip
        shade = dictionary(PatternType=2, Shading=shading)
        return {"Pattern": {"S": shade, "T": writer._add_object(cell)}}

    content = "/Pattern cs /S scn 10 10 50 50 re f /T scn 100 10 50 50 re f"
    found = {remark.kind: remark.where for remark in drawn(written(content, make)).remarks}

    assert set(found) == {"gradient", "pattern"}
    assert_near(found["gradient"], points(10, 10, 60, 60))
    assert_near(found["pattern"], points(100, 10, 150, 60))


def picture(canvas: Any) -> None:
    """Draw 30 x 20 pixels on 72 x 48 pt: 1 in across."""
    from reportlab.lib.utils import ImageReader

    canvas.translate(100, 50)
    canvas.drawImage(ImageReader(Image.new("RGB", (30, 20), "red")), 0, 0, 72, 48)


def test_an_image_has_its_resolution() -> None:
    """30 pixels on one inch are 30 ppi."""
    remark = only(pdf(picture))

    assert (remark.kind, remark.pixels) == ("image", 30)
    assert "30 x 20 pixels, 30 ppi" in remark.says
    assert_near(remark.where, points(100, 50, 172, 98))


def test_an_image_in_the_content_is_seen() -> None:
    """An inline image is one too (ISO 32000-1, 8.9.7), and what follows it is read on."""
    content = (
        "q 144 0 0 72 20 30 cm BI /W 4 /H 2 /BPC 8 /CS /G ID abcdefgh EI Q /G gs 0 0 10 10 re f"
    )
    remarks = drawn(written(content, lambda _: {"ExtGState": {"G": dictionary(ca=0.5)}})).remarks

    assert [remark.kind for remark in remarks] == ["image", "opacity"]
    assert "4 x 2 pixels, 2 ppi" in remarks[0].says
    assert_near(remarks[0].where, points(20, 30, 164, 102))


def test_a_form_carries_its_matrix_and_its_resources() -> None:
    """What is in a form is found where its matrix and the state put it, cut to its box."""

    def make(writer: PdfWriter) -> dict[str, Any]:
        inner = dictionary(ExtGState=dictionary(G=dictionary(ca=0.5)))
        form = stream(
            "/G gs 0 0 500 20 re f", Type="XObject", Subtype="Form", Resources=inner,
            BBox=numbers(0, 0, 30, 20), Matrix=numbers(2, 0, 0, 2, 10, 10),
        )  # fmt: skip
        return {"XObject": {"F": writer._add_object(form)}}

    remark = only(written("q 1 0 0 1 100 20 cm /F Do Q", make))

    assert remark.kind == "opacity"
    assert_near(remark.where, points(110, 30, 170, 70))


def test_a_group_is_told_once() -> None:
    """The opacity of a transparency group is the group's, not that of each shape in it."""

    def draw(canvas: Any) -> None:
        canvas.beginForm("group", 0, 0, 300, 200)
        canvas.rect(10, 10, 50, 50, stroke=0, fill=1)
        canvas.rect(80, 10, 50, 50, stroke=0, fill=1)
        canvas.endForm()
        canvas.setFillAlpha(0.5)
        canvas.doForm("group")

    writer = PdfWriter(PdfReader(io.BytesIO(pdf(draw))))
    forms = writer.pages[0]["/Resources"]["/XObject"]  # type: ignore[index]
    for form in forms.values():
        form.get_object()[NameObject("/Group")] = dictionary(S="Transparency")
    out = io.BytesIO()
    writer.write(out)

    assert [remark.kind for remark in drawn(out.getvalue()).remarks] == ["opacity"]


def test_a_line_of_no_width_is_told() -> None:
    """`0 w` is the thinnest line the device can draw (ISO 32000-1, 8.4.3.2)."""
    remark = only(written("1 w 10 10 m 90 10 l S 0 w 10 50 m 90 50 l S"))

    assert remark.kind == "hairline"
    assert_near(remark.where, points(10, 50, 90, 50))


@pytest.mark.parametrize(
    ("turn", "meant"),
    [
        (0, Box(100, 110, 160, 140)),
        (90, Box(60, 100, 90, 160)),
        (180, Box(140, 60, 200, 90)),
        (270, Box(110, 140, 140, 200)),
    ],
)
@pytest.mark.parametrize("unit", [1.0, 2.5])
def test_a_place_is_on_the_page_as_shown(turn: int, meant: Box, unit: float) -> None:
    """Crop box, turn and UserUnit are regarded, as the ink box regards them."""
    data = written(
        "/G gs 110 60 60 30 re f",
        lambda _: {"ExtGState": {"G": dictionary(ca=0.5)}},
        Rotate=NumberObject(turn),
        CropBox=RectangleObject((10, 0, 310, 200)),
        MediaBox=RectangleObject((0, 0, 400, 300)),
        UserUnit=FloatObject(unit),
    )
    seen = drawn(data)
    (remark,) = seen.remarks
    scale = PT * unit
    meant = Box(meant.left * scale, meant.top * scale, meant.right * scale, meant.bottom * scale)

    assert_near(remark.where, meant)
    assert seen.ink is not None
    ink = seen.ink
    assert_near(Box(ink.left * PT, ink.top * PT, ink.right * PT, ink.bottom * PT), meant)


def test_a_user_unit_scales_the_page() -> None:
    """A unit of 2 makes a page of 300 x 200 units 600 x 400 pt (ISO 32000-1, table 30)."""
    seen = drawn(written("10 10 50 50 re f", UserUnit=FloatObject(2)))

    assert (seen.width, seen.height) == (600, 400)


def test_all_of_it_comes_through_the_child() -> None:
    """What is drawn in a process of its own is the same as in this one."""

    def draw(canvas: Any) -> None:
        from reportlab.lib.colors import CMYKColorSep

        canvas.setFillColor(CMYKColorSep(0, 1, 1, 0, spotName="Team Red"))
        canvas.drawString(20, 20, "HRR")
        picture(canvas)

    data = pdf(draw)
    seen = drawn(data)

    assert seen.remarks
    assert seen.separations
    answered = child.draw({"kind": "pdf", "longest": 1e9}, data, PLACE)
    assert replace(answered, detail=seen.detail) == seen


def test_live_text_has_its_place_and_its_font() -> None:
    """Text in a font that the file does not hold is told, and where."""

    def draw(canvas: Any) -> None:
        canvas.setFont("Helvetica", 40)
        canvas.drawString(100, 50, "HHH")

    seen = drawn(pdf(draw))
    (remark,) = seen.remarks

    assert seen.fonts == ("Helvetica",)
    assert remark.kind == "font"
    assert "Helvetica" in remark.says
    assert "does not hold" in remark.says
    assert seen.ink is not None
    ink = seen.ink
    assert remark.where is not None
    assert remark.where.holds(Box(ink.left * PT, ink.top * PT, ink.right * PT, ink.bottom * PT), 1)
    assert remark.where.width < 1.3 * ink.width * PT


def test_text_in_a_form_in_a_form_has_its_place() -> None:
    """The matrices of all forms around a text carry it."""

    def make(writer: PdfWriter) -> dict[str, Any]:
        font = dictionary(Type="Font", Subtype="Type1", BaseFont="Courier")
        fonts = dictionary(Font=dictionary(F=font))
        inner = stream(
            "BT /F 10 Tf 5 5 Td (HHHH) Tj ET", Type="XObject", Subtype="Form", Resources=fonts,
            BBox=numbers(0, 0, 100, 100), Matrix=numbers(2, 0, 0, 2, 0, 0),
        )  # fmt: skip
        held = dictionary(XObject=dictionary(I=writer._add_object(inner)))
        outer = stream(
            "1 0 0 1 50 20 cm /I Do", Type="XObject", Subtype="Form", Resources=held,
            BBox=numbers(0, 0, 300, 300), Matrix=numbers(1, 0, 0, 1, 40, 10),
        )  # fmt: skip
        return {"XObject": {"O": writer._add_object(outer)}}

    remark = only(written("/O Do", make))

    # Four letters of Courier are 0.6 em wide each; a capital is some 0.56 em high.
    assert remark.kind == "font"
    assert_near(remark.where, points(100, 40, 148, 51.5), 1.5)


def test_invisible_text_is_not_told() -> None:
    """Text of rendering mode 3, as a reader of scans adds it, is not drawn."""

    def draw(canvas: Any) -> None:
        canvas.rect(0, 0, 20, 20, fill=1)
        text = canvas.beginText(100, 50)
        text.setTextRenderMode(3)
        text.textOut("unseen")
        canvas.drawText(text)

    assert drawn(pdf(draw)).remarks == ()


def test_a_hidden_layer_is_not_told() -> None:
    """What belongs to an optional content group that is off is not drawn, so not told."""
    data = written("/OC /L BDC q /G gs 0 0 50 50 re f Q EMC 60 0 20 20 re f")
    writer = PdfWriter(PdfReader(io.BytesIO(data)))
    layer = writer._add_object(dictionary(Type="OCG"))
    writer.pages[0][NameObject("/Resources")] = dictionary(
        ExtGState=dictionary(G=dictionary(ca=0.5)), Properties=dictionary(L=layer)
    )
    off = dictionary(OFF=ArrayObject([layer]))
    writer.root_object[NameObject("/OCProperties")] = dictionary(OCGs=ArrayObject([layer]), D=off)
    out = io.BytesIO()
    writer.write(out)
    seen = drawn(out.getvalue())

    assert seen.remarks == ()
    assert seen.ink is not None
    assert seen.ink.width == pytest.approx(20, abs=0.1)


def test_many_alike_are_counted() -> None:
    """Five of a kind have their places; of the rest there is the number."""
    content = "/G gs " + " ".join(f"{10 * i} 0 5 5 re f" for i in range(17))
    remarks = drawn(written(content, lambda _: {"ExtGState": {"G": dictionary(ca=0.5)}})).remarks

    assert [remark.kind for remark in remarks] == ["opacity"] * 6
    assert remarks[-1].says == "and 12 more like these"
    assert all(remark.where for remark in remarks[:5])


def test_a_plain_drawing_has_no_remark() -> None:
    """Flat colour, clipped and stroked, is nothing to remark on, even off the page."""

    def draw(canvas: Any) -> None:
        canvas.setFillColorRGB(1, 0, 0)
        canvas.circle(100, 100, 50, stroke=1, fill=1)
        canvas.setFillAlpha(0.5)
        canvas.rect(1000, 1000, 10, 10, fill=1)

    seen = drawn(pdf(draw))

    assert (seen.remarks, seen.separations, seen.fonts) == ((), (), ())


def test_separations_are_named_and_shown() -> None:
    """Spot colours have their names, and the colour of their CMYK equivalent."""
    from reportlab.lib.colors import CMYKColorSep

    def draw(canvas: Any) -> None:
        canvas.setFillColor(CMYKColorSep(0, 1, 1, 0, spotName="Team Red"))
        canvas.rect(10, 10, 50, 50, stroke=0, fill=1)
        canvas.setStrokeColor(CMYKColorSep(0, 0, 0, 0.5, spotName="Rim Grey"))
        canvas.line(10, 100, 100, 100)
        canvas.setFillColor(CMYKColorSep(1, 0, 0, 0, spotName="Unused"))

    data = pdf(draw)
    found = drawn(data).separations
    page = open_page(data).render(Box(0, 0, 300, 200), 300, 200)
    red: Any = page.getpixel((30, 170))

    assert [name for name, _ in found] == ["Team Red", "Rim Grey"]
    assert found[0][1] == "#{:02x}{:02x}{:02x}".format(*red[:3])
    assert found[0][1] != found[1][1]


def test_devicen_names_the_inks_that_are_laid_down() -> None:
    """Of a DeviceN space those with a tint are inks, but for those of the process."""

    def make(writer: PdfWriter) -> dict[str, Any]:
        program = "{ 4 1 roll pop pop pop 1 exch sub dup dup }"
        function = stream(program, FunctionType=4, Domain=numbers(0, 1, 0, 1, 0, 1, 0, 1),
                          Range=numbers(0, 1, 0, 1, 0, 1))  # fmt: skip
        names = ArrayObject(NameObject(f"/{n}") for n in ("Cyan", "Gold", "None", "Navy#20Deep"))
        parts = [NameObject("/DeviceN"), names, NameObject("/DeviceRGB")]
        return {"ColorSpace": {"N": ArrayObject([*parts, writer._add_object(function)])}}

    content = "/N cs 1 0.5 1 0 scn 10 10 50 50 re f 0 0 0 0 SCN"
    assert [name for name, _ in drawn(written(content, make)).separations] == ["Gold"]


def separation(writer: PdfWriter, red: float) -> ArrayObject:
    """Return a Separation space called Ink whose full tint is so red."""
    function = dictionary(
        FunctionType=2, N=1, Domain=numbers(0, 1), C0=numbers(1, 1, 1), C1=numbers(red, 0, 0)
    )
    head = [NameObject("/Separation"), NameObject("/Ink"), NameObject("/DeviceRGB")]
    return ArrayObject([*head, writer._add_object(function)])


@pytest.mark.parametrize(
    "content",
    [
        "/S cs 1 scn 0 0 50 50 re f",
        "/S CS 0.5 SCN 0 0 m 50 50 l S",
        "BT /F 20 Tf /S cs 1 scn (HHH) Tj ET",
        "/Pattern cs /P scn 0 0 50 50 re f",
        "/F Do",
    ],
)
def test_separations_are_found_wherever_they_are_used(content: str) -> None:
    """In fills, strokes, text, forms and the cells of patterns; shown as the file says."""

    def make(writer: PdfWriter) -> dict[str, Any]:
        space = writer._add_object(separation(writer, 0.8))
        held = dictionary(ColorSpace=dictionary(S=space))
        paint = "/S cs 1 scn 0 0 40 40 re f"
        cell = stream(
            paint, PatternType=1, PaintType=1, TilingType=1, BBox=numbers(0, 0, 50, 50),
            XStep=50, YStep=50, Resources=held,
        )  # fmt: skip
        form = stream(
            paint, Type="XObject", Subtype="Form", BBox=numbers(0, 0, 50, 50), Resources=held
        )
        return {
            "ColorSpace": {"S": space},
            "Pattern": {"P": writer._add_object(cell)},
            "XObject": {"F": writer._add_object(form)},
            "Font": {"F": dictionary(Type="Font", Subtype="Type1", BaseFont="Courier")},
        }

    assert drawn(written(content, make)).separations == (("Ink", "#cc0000"),)


def two_pages() -> bytes:
    """Return a PDF with a small square on page 1 and a large one on page 2."""

    def draw(canvas: Any) -> None:
        canvas.rect(10, 10, 20, 20, stroke=0, fill=1)
        canvas.showPage()
        canvas.rect(10, 10, 80, 80, stroke=0, fill=1)

    return pdf(draw)


def test_a_page_is_chosen() -> None:
    """The page asked for is read; what was read and how many there are is told."""
    seen = drawn(two_pages(), 2)

    assert (seen.page, seen.pages) == (2, 2)
    assert seen.ink is not None
    assert seen.ink.width == pytest.approx(80, abs=0.1)


@pytest.mark.parametrize("page", [0, -1, 3, 7])
def test_a_page_that_is_not_there(page: int) -> None:
    """It says how many pages there are, and which were allowed."""
    seen = drawn(two_pages(), page)

    assert seen.problem == f"the PDF has 2 pages; page {page} was asked for"
    assert seen.remedy == "allowed: 1 to 2"


@pytest.mark.parametrize("user", ["", "secret"])
def test_encryption(user: str) -> None:
    """A PDF locked only against changes is looked into like any other; else it says so."""
    data = written("/G gs 10 10 50 50 re f", lambda _: {"ExtGState": {"G": dictionary(ca=0.5)}})
    writer = PdfWriter(PdfReader(io.BytesIO(data)))
    writer.encrypt(user, "owner", algorithm="RC4-128")
    out = io.BytesIO()
    writer.write(out)
    seen = drawn(out.getvalue())

    assert ("password" in seen.problem) == bool(user)
    assert [remark.kind for remark in seen.remarks] == ([] if user else ["opacity"])


def form_of_itself(writer: PdfWriter) -> dict[str, Any]:
    """Return resources with a form that paints itself, twice; pdfium would follow it for ever."""
    form = stream(
        "/G gs 0 0 50 50 re f /F Do /F Do", Type="XObject", Subtype="Form",
        BBox=numbers(0, 0, 300, 200),
    )  # fmt: skip
    there = writer._add_object(form)
    states = dictionary(G=dictionary(ca=0.5))
    form[NameObject("/Resources")] = dictionary(XObject=dictionary(F=there), ExtGState=states)
    return {"XObject": {"F": there}}


def doubling_forms(writer: PdfWriter) -> dict[str, Any]:
    """Return resources with a form of forms, each painting the next ten times."""
    there: Any = None
    for _ in range(10):
        held = dictionary(XObject=dictionary(F=there)) if there is not None else dictionary()
        form = stream(
            "/F Do " * 10 + "0 0 5 5 re f", Type="XObject", Subtype="Form",
            BBox=numbers(0, 0, 300, 200), Resources=held,
        )  # fmt: skip
        there = writer._add_object(form)
    return {"XObject": {"F": there}}


def circular_spaces(writer: PdfWriter) -> dict[str, Any]:
    """Return resources whose colour space, pattern and states refer to themselves."""
    space = ArrayObject([NameObject("/Indexed")])
    there = writer._add_object(space)
    space += [there, NumberObject(1), NumberObject(1)]
    state = dictionary()
    state_there = writer._add_object(state)
    state[NameObject("/SMask")] = state_there
    return {"ColorSpace": {"S": there}, "ExtGState": {"G": state_there}}


def broken_fonts(_: PdfWriter) -> dict[str, Any]:
    """Return resources whose fonts are none."""
    bad = dictionary(Type="Font", Subtype="Type0", DescendantFonts=numbers(1))
    return {"Font": {"A": NumberObject(7), "B": bad, "C": dictionary(Type="Font")}}


def nothing(_: PdfWriter) -> dict[str, Any]:
    """Return no resources."""
    return {}


TEXT = "".join(f"BT /{font} 20 Tf 10 10 Td (HH) Tj ET " for font in "ABCD")
HUGE = "9" * 400
NAMES = "/X gs /Y cs 1 scn /Z Do /W sh sh Do gs cs scn re cm w"
SHRUNK = "1e-9 0 0 .0000000000000001 0 0 cm BI /W 9 /H 9 ID x EI"
HOSTILE = {
    "circular resources": ("/S cs 1 scn /G gs 0 0 50 50 re f", circular_spaces),
    "broken fonts": (f"{TEXT} 0 0 50 50 re f", broken_fonts),
    "states saved for ever": ("q " * 200_000 + "0 0 9 9 re f", nothing),
    "numbers out of range": (f"1e3 0 0 {HUGE} 0 0 cm 0 0 9 9 re f 1 0 0 1 0 0 cm", nothing),
    "unfinished": ("0 0 50 50 re f (((( << [ /", nothing),
    "names of nothing": (f"0 0 9 9 re f {NAMES}", nothing),
    "no end of an image": ("0 0 50 50 re f BI /W 1 /H 1 ID xxxxx", nothing),
    "a shrunken image": (f"0 0 9 9 re f {SHRUNK}", nothing),
}  # fmt: skip


def walked(data: bytes) -> Remarks:
    """Return what a walk through a page finds, without drawing it."""
    found = Remarks()
    file = open_file(data, 1)
    assert file is not None
    walk(file, Affine.scale(PT), Box(0, 0, 300 * PT, 200 * PT), found)
    return found


@pytest.mark.parametrize("name", HOSTILE)
def test_harm_is_bounded(name: str) -> None:
    """Each is looked at in bounded time and without an error."""
    content, make = HOSTILE[name]
    data = written(content, make)
    start = time.monotonic()
    seen = drawn(data)

    assert time.monotonic() - start < PATIENCE
    assert not seen.problem


def test_100_000_objects_are_walked() -> None:
    """Each of many objects is looked at, and the last is as good as the first."""
    start = time.monotonic()
    content = "1 1 2 2 re f " * 99_999 + "/G gs 10 10 20 20 re f"
    data = written(content, lambda _: {"ExtGState": {"G": dictionary(ca=0.5)}})

    assert [remark.kind for remark in walked(data).done()] == ["opacity"]
    assert time.monotonic() - start < PATIENCE


def test_a_form_in_itself_is_walked_once() -> None:
    """A form that paints itself is not followed into itself."""
    (remark,) = walked(written("/F Do", form_of_itself)).done()

    assert remark.kind == "opacity"


def test_forms_of_forms_come_to_an_end() -> None:
    """Ten to the tenth shapes are not looked at one by one, and that is said."""
    start = time.monotonic()
    kinds = [one.kind for one in walked(written("/F Do", doubling_forms)).done()]

    assert kinds == ["unread"]
    assert time.monotonic() - start < PATIENCE


@pytest.mark.parametrize("cut", range(10))
def test_a_damaged_file_is_no_error(cut: int) -> None:
    """Bytes changed anywhere give a picture or a problem, never an exception."""
    data = bytearray(pdf(picture))
    for place in range(cut, len(data), 97):
        data[place] = (data[place] * 31 + cut) % 256

    drawn(bytes(data))
