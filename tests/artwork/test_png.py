"""PNG: every kind of pixel, both grounds, exact to the pixel."""

import io
import struct
import zlib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw, PngImagePlugin

from jigs.artwork import guard
from jigs.artwork.ground import tell
from jigs.artwork.pixels import Pixels
from jigs.errors import BadInput
from jigs.geometry import Box

from .samples import inked, looked_at, png

#: The ink of every picture here, in pixels.
INK = (10, 20, 60, 50)


def marked(mode: str, ground: Any, ink: Any, size: tuple[int, int] = (200, 100)) -> Any:
    """Return a picture of one ground with one rectangle of ink."""
    picture = Image.new(mode, size, ground)
    ImageDraw.Draw(picture).rectangle((10, 20, 59, 49), fill=ink)
    return picture


def pixels(box: Box, ppi: float = 300.0) -> tuple[float, ...]:
    """Return a box in pixels."""
    scale = ppi / 25.4
    return (box.left * scale, box.top * scale, box.right * scale, box.bottom * scale)


def palette() -> Any:
    """Return a picture of indexed colours, one of them transparent."""
    picture = marked("P", 0, 1)
    picture.putpalette([255, 255, 255, 200, 30, 30])
    return picture


def raw_png(width: int, height: int, depth: int, colour: int, rows: bytes) -> bytes:
    """Return a PNG put together by hand (PNG specification, 5 and 11)."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        )

    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(rows))
        + chunk(b"IEND", b"")
    )


def wide(colour: int, ground: tuple[int, ...], ink: tuple[int, ...]) -> bytes:
    """Return a PNG of 16 bits a channel with the same ink."""
    rows = b""
    for y in range(100):
        line = [ink if 10 <= x < 60 and 20 <= y < 50 else ground for x in range(200)]
        rows += b"\0" + b"".join(struct.pack(f">{len(p)}H", *p) for p in line)
    return raw_png(200, 100, 16, colour, rows)


KINDS = {
    "RGBA": (png(marked("RGBA", (0, 0, 0, 0), (255, 0, 0, 255))), "transparent"),
    "white on transparent": (
        png(marked("RGBA", (255, 255, 255, 0), (255, 255, 255, 255))),
        "transparent",
    ),
    "a haze of alpha 3": (png(marked("RGBA", (0, 0, 0, 3), (255, 0, 0, 255))), "transparent"),
    "grey and alpha": (png(marked("LA", (0, 0), (90, 255))), "transparent"),
    "indexed, transparent": (png(palette(), transparency=0), "transparent"),
    "indexed, white": (png(palette()), "white"),
    "RGB": (png(marked("RGB", (255, 255, 255), (0, 0, 255))), "white"),
    "RGB of nearly white": (png(marked("RGB", (250, 251, 249), (255, 255, 0))), "white"),
    "opaque RGBA": (png(marked("RGBA", (255, 255, 255, 255), (9, 9, 9, 255))), "white"),
    "grey": (png(marked("L", 255, 40)), "white"),
    "1 bit": (png(marked("1", 1, 0)), "white"),
    "16-bit grey": (wide(0, (65535,), (3000,)), "white"),
    "16-bit RGB": (wide(2, (65535, 65535, 65535), (65535, 0, 0)), "white"),
    "16-bit RGBA": (wide(6, (0, 0, 0, 0), (65535, 0, 0, 65535)), "transparent"),
    "16-bit grey and alpha": (wide(4, (0, 0), (9000, 65535)), "transparent"),
}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_pixel(kind: str) -> None:
    """The ink box is exact in pixels, whatever the pixels are made of."""
    data, ground = KINDS[kind]
    artwork = inked("a.png", data)

    told = ["16 bits per channel, read as 8"] if kind.startswith("16-bit") else []
    if ground == "white":
        told.append(
            "white was taken for the ground, so white is not printed; white that is to be "
            "printed needs a transparent ground"
        )
    assert (ground, told) == (artwork.ground, [finding.says for finding in artwork.findings])
    assert pytest.approx(INK) == pixels(artwork.ink)
    assert artwork.aspect == pytest.approx(50 / 30)


@given(st.integers(0, 39), st.integers(0, 29), st.integers(1, 40), st.integers(1, 30))
def test_any_rectangle(x: int, y: int, width: int, height: int) -> None:
    """A rectangle anywhere inside is found to the pixel on both grounds."""
    for ground in ((0, 0, 0, 0), (255, 255, 255, 255)):
        picture = Image.new("RGBA", (82, 62), ground)
        ImageDraw.Draw(picture).rectangle((x + 1, y + 1, x + width, y + height), fill="#148")

        expected = (x + 1, y + 1, x + width + 1, y + height + 1)
        assert expected == tell(Pixels(png(picture), "png")).box


def test_size_comes_from_the_resolution() -> None:
    """A PNG's pHYs chunk sets its size; without one it is taken at 300 ppi (common practice)."""
    picture = marked("L", 255, 0)
    said, silent = inked("a.png", png(picture, dpi=(100, 100))), inked("a.png", png(picture))

    # pHYs counts whole pixels per metre: 100 ppi is 3937 for 3937.008.
    assert said.page_width == pytest.approx(2 * 25.4, rel=1e-5)
    assert silent.page_width == pytest.approx(200 / 300 * 25.4)
    # A straight side: a tenth of a pixel, and 16 of its alpha's 255 that are too faint to see.
    assert silent.accuracy == pytest.approx((0.1 + 16 / 255) * 25.4 / 300)


def test_an_impossible_resolution_is_told() -> None:
    """A resolution of one pixel per inch is a mistake of a program, not a print of 5 m."""
    artwork = inked("a.png", png(marked("L", 255, 0), dpi=(1, 1)))

    assert "ppi" in artwork.findings[0].says
    assert artwork.page_width == pytest.approx(200 / 300 * 25.4)


def test_oblong_pixels_keep_their_shape() -> None:
    """Pixels twice as tall as wide make the ink twice as tall."""
    artwork = inked("a.png", png(marked("L", 255, 0), dpi=(200, 100)))

    assert artwork.aspect == pytest.approx(50 / 60, rel=1e-4)
    assert "square" in artwork.findings[0].says


def test_a_dark_ground_is_all_ink() -> None:
    """On a ground that is neither transparent nor white everything is ink, and that is told."""
    artwork = inked("a.png", png(marked("RGB", (0, 0, 60), (255, 0, 0))))

    assert artwork.ground == "none"
    assert pixels(artwork.ink) == pytest.approx((0, 0, 200, 100))
    assert "all of it counts as ink" in artwork.findings[0].says


def test_ink_may_bleed_off_one_side() -> None:
    """The ground is white when most of the border is."""
    picture = Image.new("RGB", (200, 100), "white")
    ImageDraw.Draw(picture).rectangle((150, 0, 199, 99), fill="navy")

    assert pixels(inked("a.png", png(picture)).ink) == pytest.approx((150, 0, 200, 100))


def test_no_white_is_shown_on_a_white_ground() -> None:
    """It is not printed, inside the ink neither: in the preview it is clear, with a soft edge."""
    picture = Image.new("RGB", (300, 300), "white")
    pen = ImageDraw.Draw(picture)
    pen.ellipse((50, 50, 250, 250), fill="navy")
    pen.ellipse((100, 100, 200, 200), fill="white")
    artwork = inked("a.png", png(picture))
    preview = Image.open(io.BytesIO(artwork.preview))

    assert artwork.ground == "white"
    assert (preview.mode, preview.size) == ("RGBA", (1200, 1200))
    corner, ring, inside = (preview.getpixel(p) for p in ((8, 8), (120, 600), (600, 600)))
    assert isinstance(corner, tuple)
    assert isinstance(inside, tuple)
    assert (corner[3], inside[3]) == (0, 0)
    assert len(set(preview.getchannel("A").get_flattened_data())) > 2
    assert ring == (0, 0, 128, 255)


@pytest.mark.parametrize(("alpha", "told"), [(128, ["opacity"]), (255, []), (20, [])])
def test_half_transparent_parts_are_told(alpha: int, told: list[str]) -> None:
    """Flat parts of it are; what is solid but for a soft edge, or too faint to be seen, is not."""
    picture = Image.new("RGBA", (90, 60), (0, 0, 0, 0))
    pen = ImageDraw.Draw(picture)
    pen.rectangle((10, 10, 40, 40), fill=(20, 40, 160, 255))
    pen.rectangle((50, 10, 80, 40), fill=(20, 40, 160, alpha))
    pen.line((45, 5, 45, 50), fill=(20, 40, 160, 128))
    detail = looked_at("a.png", png(picture)).detail

    assert detail is not None
    assert [one.kind for one in detail.remarks] == told


def test_text_chunks_do_not_reach_the_preview() -> None:
    """The preview holds pixels only, and is the same for the same pixels."""
    info = PngImagePlugin.PngInfo()
    info.add_text("Author", "Rowan")
    picture = marked("RGBA", (0, 0, 0, 0), (255, 0, 0, 255))
    plain, signed = inked("a.png", png(picture)), inked("a.png", png(picture, pnginfo=info))

    assert plain.preview == signed.preview
    assert plain.sha256 != signed.sha256


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (png(Image.new("RGBA", (50, 50), (255, 0, 0, 0))), "no ink: every pixel is transparent"),
        (png(Image.new("RGB", (50, 50), "white")), "white artwork needs a transparent ground"),
        (png(marked("RGB", (255, 255, 255), (244, 244, 244))), "white artwork needs"),
        (png(marked("L", 255, 0))[:120], "broken or cut short"),
        (b"\x89PNG\r\n\x1a\n", "broken or cut short"),
        (raw_png(0, 10, 8, 0, b""), "0 x 10 pixels"),
        (raw_png(100_000, 100_000, 8, 0, b"\0"), "million pixels"),
        (raw_png(9000, 9000, 8, 6, b"\0"), "broken or cut short"),
        (raw_png(10, 10, 7, 0, b"\0"), "broken or cut short"),
    ],
)
def test_what_is_no_artwork_is_refused(data: bytes, says: str) -> None:
    """A PNG without ink, size or sense is one BadInput that says why."""
    with pytest.raises(BadInput, match=says):
        inked("a.png", data)


def test_the_limit_of_pixels_holds_before_decoding() -> None:
    """A head that promises one pixel too many is refused, though the data is a few bytes."""
    data = raw_png(guard.MOST_PIXELS + 1, 1, 1, 0, b"\0")

    with pytest.raises(BadInput, match="million pixels"):
        inked("a.png", data)
