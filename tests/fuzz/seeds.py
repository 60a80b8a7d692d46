"""The honest files that are broken: small, and with much of what their format has."""

import base64
import io
from functools import cache
from typing import Any

from PIL import Image, ImageCms, ImageDraw

from tests.artwork.samples import png, saved, svg


@cache
def seeds() -> tuple[tuple[str, bytes], ...]:
    """Return the name and content of each; the ending is the format's."""
    return (*_svgs(), *_pdfs(), *_pngs(), *_jpegs(), *_tiffs())


def picture(mode: str = "RGBA", size: tuple[int, int] = (48, 36)) -> Image.Image:
    """Return a little picture of three colours with smooth edges."""
    drawn = Image.new("RGBA", (size[0] * 4, size[1] * 4), (255, 255, 255, 0))
    brush = ImageDraw.Draw(drawn)
    brush.ellipse((20, 20, 120, 120), fill="#1b2a4a")
    brush.rectangle((90, 60, 170, 120), fill="#ff7a59")
    brush.line((10, 10, 180, 130), fill="#30785a", width=6)
    small = drawn.resize(size, Image.Resampling.BOX)
    if mode in {"RGBA", "LA"}:
        return small.convert(mode)
    ground = Image.new("RGB", size, "white")
    ground.paste(small, mask=small.getchannel("A"))
    return ground.convert(mode)


def _svgs() -> tuple[tuple[str, bytes], ...]:
    held = base64.b64encode(png(picture())).decode()
    shapes = (
        '<defs><clipPath id="c"><circle cx="60" cy="50" r="40"/></clipPath>'
        '<linearGradient id="g" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#123"/>'
        '<stop offset="1" stop-color="#f85"/></linearGradient>'
        '<pattern id="p" width="8" height="8" patternUnits="userSpaceOnUse">'
        '<rect width="4" height="4" fill="#a00"/></pattern>'
        '<filter id="f"><feGaussianBlur stdDeviation="1"/></filter>'
        '<mask id="m"><rect width="90" height="90" fill="#fff"/></mask>'
        '<marker id="k" markerWidth="3" markerHeight="3"><circle r="1"/></marker></defs>'
        "<style>.a{fill:#1b2a4a;stroke:#ff7a59;stroke-width:2} #b{opacity:.5}</style>"
    )
    one = (
        '<g clip-path="url(#c)"><rect class="a" x="20" y="20" width="90" height="60"/></g>'
        '<path id="b" d="M120 20 C140 10 160 60 180 30 A10 20 5 1 0 150 80z" fill="url(#g)"/>'
        '<use href="#b" x="5" y="9" transform="rotate(9) scale(.9,1.1)"/>'
    )
    two = (
        '<rect x="10" y="10" width="60" height="60" fill="url(#p)" mask="url(#m)"/>'
        '<g filter="url(#f)" transform="matrix(1 0 .1 1 3 4)"><circle cx="110" cy="50" r="20"/></g>'
        '<polyline points="130,80 150,20 170,80" fill="none" stroke="#0a0" stroke-width="3" '
        'stroke-dasharray="5 2" stroke-linejoin="round" marker-mid="url(#k)"/>'
    )
    three = (
        f'<image href="data:image/png;base64,{held}" x="20" y="20" width="80" height="60"/>'
        '<text x="20" y="90" font-size="12" font-family="sans-serif" fill="#a0a">North 7</text>'
        '<symbol id="s" viewBox="0 0 9 9"><path d="M0 0h9v9z"/></symbol>'
        '<use href="#s" x="120" y="20" width="40" height="40"/>'
    )
    return tuple(
        (f"{name}.svg", svg(shapes + body))
        for name, body in (("shapes", one), ("effects", two), ("held", three))
    )


def _pdfs() -> tuple[tuple[str, bytes], ...]:
    def shapes(canvas: Any) -> None:
        from reportlab.lib.colors import CMYKColorSep

        canvas.setFillColor(CMYKColorSep(0, 0.6, 0.7, 0, spotName="Brick"))
        canvas.rect(20, 20, 120, 80, stroke=0, fill=1)
        canvas.setFillColorRGB(0.1, 0.2, 0.4)
        canvas.setFillAlpha(0.5)
        canvas.circle(200, 100, 50, stroke=1, fill=1)
        canvas.setDash([6, 3], 0)
        canvas.bezier(20, 150, 80, 190, 120, 110, 180, 160)
        canvas.linearGradient(20, 110, 90, 110, ["#112233", "#ff8855"], extend=False)

    def forms(canvas: Any) -> None:
        from reportlab.lib.utils import ImageReader

        canvas.beginForm("mark", 0, 0, 100, 100)
        canvas.setFillColorRGB(0.8, 0.2, 0.2)
        canvas.rect(10, 10, 60, 60, stroke=0, fill=1)
        canvas.endForm()
        canvas.doForm("mark")
        canvas.translate(120, 20)
        canvas.rotate(12)
        canvas.doForm("mark")
        canvas.drawImage(ImageReader(picture()), 20, 70, 80, 60, mask="auto")
        canvas.drawString(10, 150, "North 7")

    def pages(canvas: Any) -> None:
        canvas.rect(20, 20, 60, 60, fill=1)
        canvas.showPage()
        canvas.rect(40, 40, 60, 60, fill=1)

    from reportlab.pdfgen.canvas import Canvas

    found = []
    for name, draw, packed in (("inks", shapes, 0), ("forms", forms, 0), ("pages", pages, 1)):
        out = io.BytesIO()
        canvas = Canvas(out, pagesize=(300, 200), invariant=1, pageCompression=packed)
        draw(canvas)
        canvas.save()
        found.append((f"{name}.pdf", out.getvalue()))
    return tuple(found)


def _pngs() -> tuple[tuple[str, bytes], ...]:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    grey16 = Image.frombytes("I;16", (48, 36), picture("L").tobytes() * 2)
    return (
        ("rgba.png", png(picture(), dpi=(300, 300), icc_profile=profile)),
        ("rgb.png", png(picture("RGB"))),
        ("palette.png", png(picture("RGB").quantize(16), transparency=0, bits=4)),
        ("one-bit.png", png(picture("L").convert("1"))),
        ("grey-alpha.png", png(picture("LA"))),
        ("grey16.png", png(grey16)),
    )


def _jpegs() -> tuple[tuple[str, bytes], ...]:
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "maker"
    return (
        ("plain.jpg", saved(picture("RGB"), "JPEG", quality=90, dpi=(300, 300))),
        ("progressive.jpg", saved(picture("RGB"), "JPEG", progressive=True, exif=exif)),
        ("grey.jpg", saved(picture("L"), "JPEG")),
        ("cmyk.jpg", saved(picture("CMYK"), "JPEG")),
    )


def _tiffs() -> tuple[tuple[str, bytes], ...]:
    pages = [picture("RGB"), picture("L")]
    return (
        ("raw.tif", saved(picture(), "TIFF", dpi=(300, 300))),
        ("lzw.tif", saved(picture("RGB"), "TIFF", compression="tiff_lzw")),
        ("deflate.tif", saved(picture("CMYK"), "TIFF", compression="tiff_adobe_deflate")),
        ("packbits.tif", saved(picture("L"), "TIFF", compression="packbits")),
        ("fax.tif", saved(picture("L").convert("1"), "TIFF", compression="group4")),
        ("jpeg.tif", saved(picture("RGB"), "TIFF", compression="jpeg")),
        (
            "pages.tif",
            saved(pages[0], "TIFF", save_all=True, append_images=pages[1:]),
        ),
    )
