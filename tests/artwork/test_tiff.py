"""TIFF: pages, byte orders, tiles, alpha of every kind, and its units (TIFF 6.0)."""

import struct
from collections.abc import Mapping
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageDraw

from jigs.artwork import read
from jigs.artwork.asked import Asked
from jigs.artwork.pixels import Pixels
from jigs.artwork.tiff_tags import tags
from jigs.errors import BadInput

from .samples import PLACE, inked, saved

CODES = {"H": 3, "I": 4}


def raw_tiff(
    pixels: bytes,
    order: str = "<",
    bits: tuple[int, ...] = (8, 8, 8, 8),
    photometric: int = 2,
    size: tuple[int, int] = (6, 4),
    more: Mapping[int, tuple[str, tuple[int, ...]]] | None = None,
) -> bytes:
    """Return a TIFF of one strip put together by hand (TIFF 6.0, section 2)."""
    entries: dict[int, tuple[str, tuple[int, ...]]] = {
        256: ("I", (size[0],)),
        257: ("I", (size[1],)),
        258: ("H", bits),
        259: ("H", (1,)),
        262: ("H", (photometric,)),
        273: ("I", (8,)),
        277: ("H", (len(bits),)),
        278: ("I", (size[1],)),
        279: ("I", (len(pixels),)),
        **(more or {}),
    }
    body = bytearray(pixels + b"\0" * (len(pixels) % 2))
    directory = b""
    for tag, (code, values) in sorted(entries.items()):
        packed = struct.pack(f"{order}{len(values)}{code}", *values)
        if len(packed) > 4:
            where = 8 + len(body)
            body += packed
            packed = struct.pack(order + "I", where)
        directory += struct.pack(order + "HHI", tag, CODES[code], len(values))
        directory += packed.ljust(4, b"\0")
    head = {"<": b"II", ">": b"MM"}[order] + struct.pack(order + "HI", 42, 8 + len(body))
    count = struct.pack(order + "H", len(entries))
    return head + bytes(body) + count + directory + b"\0\0\0\0"


def whole(data: bytes, page: int = 1) -> Any:
    """Return all pixels of a page."""
    found = Pixels(data, "tiff", page)
    return found.window(0, 0, found.width, found.height)


def squares() -> list[Any]:
    """Return three pages with ink in different places."""
    pages = []
    for number in range(3):
        picture = Image.new("RGB", (100 + 10 * number, 60), "white")
        ImageDraw.Draw(picture).rectangle((10 * number + 5, 5, 10 * number + 24, 44), fill="navy")
        pages.append(picture)
    return pages


@pytest.mark.parametrize("order", ["<", ">"])
@pytest.mark.parametrize(
    ("extra", "expected"),
    [
        # 1: the colours are multiplied by alpha; 2: they are not; 0: the channel is no alpha.
        (1, [199, 100, 0, 128]),
        (2, [100, 50, 0, 128]),
        (0, [100, 50, 0, 255]),
        (None, [100, 50, 0, 128]),
    ],
)
def test_alpha_of_every_kind(order: str, extra: int | None, expected: list[int]) -> None:
    """Colours multiplied by alpha are divided by it again (TIFF 6.0, section 18)."""
    more = {} if extra is None else {338: ("H", (extra,))}
    data = raw_tiff(bytes([100, 50, 0, 128]) * 24, order, more=more)
    found = whole(data)

    assert found.shape == (4, 6, 4)
    assert np.abs(found.astype(int) - expected).max() <= 1
    assert bool(Pixels(data, "tiff").says) == (extra == 0)


@pytest.mark.parametrize("order", ["<", ">"])
def test_sixteen_bits_in_both_byte_orders(order: str) -> None:
    """Each channel gives its high byte, alpha too."""
    pixel = struct.pack(order + "4H", 0x1234, 0xFFFF, 0x00FF, 0x80FF)
    data = raw_tiff(pixel * 24, order, (16,) * 4, more={338: ("H", (2,))})

    assert (whole(data) == [0x12, 0xFF, 0, 0x80]).all()
    assert Pixels(data, "tiff").says == ("16 bits per channel, read as 8",)


def test_white_may_be_nought() -> None:
    """Where 0 stands for white (PhotometricInterpretation 0), the picture is not a negative."""
    data = raw_tiff(bytes([0, 255, 30] * 8), bits=(8,), photometric=0)

    assert whole(data)[0, :3, 0].tolist() == [255, 0, 225]


def test_cmyk_may_have_alpha() -> None:
    """A fifth channel of CMYK that is alpha stays that."""
    pixels = bytes([0, 0, 0, 0, 7]) * 24
    data = raw_tiff(pixels, bits=(8,) * 5, photometric=5, more={338: ("H", (2,))})

    assert (whole(data) == [255, 255, 255, 7]).all()


@pytest.mark.parametrize("big", [False, True])
def test_tiles_are_put_together(big: bool) -> None:
    """A tiled TIFF, and a BigTIFF, show the same pixels as one in strips."""
    import pyvips

    chance = np.random.default_rng(5)
    made = chance.integers(0, 256, (90, 130, 3), dtype=np.uint8)
    data = pyvips.Image.new_from_array(made).tiffsave_buffer(
        tile=True, tile_width=32, tile_height=48, bigtiff=big, compression="deflate"
    )

    assert data[2:4] == (b"+\0" if big else b"*\0")
    assert np.array_equal(whole(data)[..., :3], made)


@pytest.mark.parametrize(
    ("unit", "expected"),
    [(2, (300, 150)), (3, (762, 381)), (1, None), (None, (300, 150))],
)
def test_the_resolution_has_a_unit(unit: int | None, expected: tuple[float, float] | None) -> None:
    """Inches, centimetres or none; inches if it does not say (TIFF 6.0, ResolutionUnit)."""
    info: dict[int, Any] = {282: 300.0, 283: 150.0}
    if unit is not None:
        info[296] = unit
    found = Pixels(saved(squares()[0], "TIFF", tiffinfo=info), "tiff").ppi

    assert found == (expected if expected is None else pytest.approx(expected))


def test_a_page_is_chosen() -> None:
    """Each page has its own size and ink; that there are several is told."""
    first, *others = squares()
    data = saved(first, "TIFF", save_all=True, append_images=others, dpi=(254, 254))
    for page in (1, 2, 3):
        artwork = read("a.tif", data, PLACE, Asked(page=page))

        assert artwork.page_width == pytest.approx(10 + page - 1)
        assert artwork.ink.left == pytest.approx(0.5 + page - 1)
        assert [f.says for f in artwork.findings][:1] == [
            (
                f"the file has 3 pages; page {page} was read: choose another by --page, or by "
                "page = in an order"
            ),
        ]
    for page in (0, 4):
        with pytest.raises(BadInput, match=f"page {page} was asked for, but the TIFF has 3"):
            read("a.tif", data, PLACE, Asked(page=page))


def test_other_formats_have_one_page() -> None:
    """A second page of a PNG is an error, not the first once more."""
    with pytest.raises(BadInput, match="the PNG has 1; allowed: 1 to 1"):
        read("a.png", saved(squares()[0], "PNG"), PLACE, Asked(page=2))


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"II*\0", "broken or cut short"),
        (raw_tiff(bytes(96), more={273: ("I", (9999,))}), "broken or cut short"),
        (raw_tiff(bytes(96), size=(60_001, 2)), "allowed: up to 160 million pixels, 60000 along"),
        (raw_tiff(bytes(96), size=(50_000, 50_000)), "50000 x 50000 pixels"),
        (raw_tiff(bytes(96), size=(9000, 9000)), "broken or cut short"),
        (saved(Image.new("F", (9, 9)), "TIFF"), "pixels of a kind that is not read"),
        (saved(Image.new("I", (9, 9)), "TIFF"), "pixels of a kind that is not read"),
        (saved(Image.new("RGBA", (9, 9)), "TIFF"), "no ink: every pixel is transparent"),
    ],
)
def test_what_is_no_artwork_is_refused(data: bytes, says: str) -> None:
    """A TIFF without ink, size or sense is one BadInput that says why."""
    with pytest.raises(BadInput, match=says):
        inked("a.tif", data)


def test_a_ring_of_pages_ends() -> None:
    """Pages that follow each other in a circle are refused or read, never forever."""
    first = saved(squares()[0], "TIFF")
    at = int.from_bytes(first[4:8], "little")
    end = at + 2 + 12 * int.from_bytes(first[at : at + 2], "little")
    ring = first[:end] + first[4:8] + first[end + 4 :]

    assert tags(ring, 5) == tags(first)
    try:
        assert inked("a.tif", ring).kind == "tiff"
    except BadInput as bad:
        assert "broken" in bad.found  # noqa: PT017


@pytest.mark.parametrize("noise", [b"", b"II", b"II*\0", b"MM\0*\xff\xff\xff\xff", b"II+\0" * 9])
def test_tags_of_noise_are_none(noise: bytes) -> None:
    """What is no TIFF has no tags."""
    assert tags(noise) == {}
