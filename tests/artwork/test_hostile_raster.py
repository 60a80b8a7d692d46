"""Pictures made to fill memory or to mislead: refused with one line, or read for what they are."""

import io
import struct
import zlib
from collections.abc import Callable
from typing import TypeAlias

import pytest
from PIL import Image

from jigs.artwork.draw_raster import draw_raster
from jigs.artwork.drawn import Drawn

from .samples import png, saved

PNG = b"\x89PNG\r\n\x1a\n"


def drawn(kind: str, data: bytes) -> Drawn:
    """Return what the child's work answers."""
    return draw_raster({"kind": kind, "page": 1, "closely": False}, data)


def zeros(count: int) -> bytes:
    """Return so many zero bytes, deflated."""
    packer = zlib.compressobj(9)
    block = bytes(1_000_000)
    parts = [packer.compress(block) for _ in range(count // len(block))]
    return b"".join((*parts, packer.compress(bytes(count % len(block))), packer.flush()))


def chunk(kind: bytes, body: bytes) -> bytes:
    """Return a chunk of a PNG (PNG specification, 5.3)."""
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def raw_png(side: int, packed: bytes, extra: bytes = b"") -> bytes:
    """Return a square RGBA PNG of packed rows, and other chunks before them."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", side, side, 8, 6, 0, 0, 0))
    return PNG + head + extra + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


ROWS = zlib.compress((b"\0" + b"\x20\x30\x40\xff" * 16) * 16)
FULL = 100_000_000
JPEG = saved(Image.new("RGB", (64, 64), "red"), "JPEG")


def tiff(changed: dict[int, int], body: bytes, after: int = 0) -> bytes:
    """Return a grey TIFF of 16 x 16 in one strip (TIFF 6.0), some tags changed."""
    usual = {256: 16, 257: 16, 258: 8, 259: 1, 262: 1, 273: 122, 277: 1, 278: 16, 279: len(body)}
    tags = {**usual, **changed}
    entries = b"".join(struct.pack("<HHII", tag, 4, 1, value) for tag, value in tags.items())
    head = b"II*\0" + struct.pack("<IH", 8, len(tags))
    return head + entries + struct.pack("<I", after) + body


def pages(count: int) -> bytes:
    """Return a TIFF of many pages that share their pixels."""
    size, out = 2 + 9 * 12 + 4, [b"II*\0" + struct.pack("<I", 8)]
    tags = {256: 16, 257: 16, 258: 8, 259: 1, 262: 1, 273: 8 + size * count, 277: 1, 278: 16,
            279: 256}  # fmt: skip
    entries = b"".join(struct.pack("<HHII", tag, 4, 1, value) for tag, value in tags.items())
    for index in range(count):
        after = 8 + size * (index + 1) if index + 1 < count else 0
        out.append(struct.pack("<H", 9) + entries + struct.pack("<I", after))
    return b"".join(out) + bytes(256)


#: Its format and its content.
Case: TypeAlias = tuple[str, Callable[[], bytes]]


def bomb(start: bytes) -> Case:
    """Return a little PNG with a chunk, named in its first four bytes, that unpacks to 100 MB."""
    return "png", lambda: raw_png(16, ROWS, chunk(start[:4], start[4:] + zeros(FULL)))


REFUSED: dict[str, tuple[str, Callable[[], bytes], str]] = {
    "a PNG of 10^9": ("png", lambda: raw_png(10**9, b""), "the picture is 1000000000 x"),
    "a PNG of 2^31": ("png", lambda: raw_png(2**31 - 1, b""), "the picture is 2147483647 x"),
    "a PNG of nothing": ("png", lambda: raw_png(0, b""), "the picture is 0 x 0"),
    "a PNG without its rows": ("png", lambda: raw_png(9000, zlib.compress(b"")), "broken or cut"),
    "a PNG with far more rows": ("png", lambda: raw_png(8, zeros(FULL)), "every pixel is transp"),
    "a transparent PNG": ("png", lambda: png(Image.new("RGBA", (99, 99))), "is transparent"),
    "a white PNG": ("png", lambda: png(Image.new("L", (99, 99), 255)), "is white"),
    "a JPEG of 65535": (
        "jpeg",
        lambda: JPEG.replace(b"\0\x40\0\x40", b"\xff\xff\xff\xff"),
        "broken or cut short",
    ),
    "a TIFF of 10^9": ("tiff", lambda: tiff({256: 10**9, 257: 10**9}, bytes(256)), "broken"),
    "a TIFF of nothing": ("tiff", lambda: tiff({256: 0, 257: 0}, bytes(256)), "broken"),
    "a TIFF of 65 535 samples": ("tiff", lambda: tiff({277: 65535}, bytes(256)), "broken"),
    "a TIFF cut short": (
        "tiff",
        lambda: tiff({256: 9000, 257: 9000, 278: 9000, 259: 8}, zeros(100)),
        "broken",
    ),
}


@pytest.mark.parametrize("harm", REFUSED)
def test_a_picture_that_cannot_be_is_refused(harm: str) -> None:
    """The problem is said in one line, whatever the head promises."""
    kind, build, says = REFUSED[harm]
    problem = drawn(kind, build()).problem

    assert says in problem
    assert "\n" not in problem
    assert len(problem) < 200


READ: dict[str, Case] = {
    "a profile that is a bomb": bomb(b"iCCPa\0\0"),
    "a text that is a bomb": bomb(b"zTXta\0\0"),
    "a text of any script that is a bomb": bomb(b"iTXta\0\1\0\0\0"),
    "a PNG of 100 000 chunks": (
        "png",
        lambda: raw_png(16, ROWS, chunk(b"tEXt", b"a\0b") * 10**5),
    ),
    "a PNG with endless EXIF": (
        "png",
        lambda: raw_png(16, ROWS, chunk(b"eXIf", b"II*\0\x08\0\0\0\xff\xff" + bytes(10**6))),
    ),
    "a JPEG of many segments": (
        "jpeg",
        lambda: JPEG[:2] + b"\xff\xe1\0\x08Exif\0\0" * 10**5 + JPEG[2:],
    ),
    "EXIF that refers to itself": (
        "jpeg",
        lambda: saved(
            Image.new("RGB", (64, 64)),
            "JPEG",
            exif=b"Exif\0\0II*\0\x08\0\0\0\x01\0\x69\x87\x04\0\x01\0\0\0\x08\0\0\0\x08\0\0\0",
        ),
    ),
    "a TIFF whose last page is its first": ("tiff", lambda: tiff({}, bytes(256), after=8)),
    "a TIFF that unpacks to 100 MB": ("tiff", lambda: tiff({259: 8}, zeros(FULL))),
    "a TIFF of 10^4 pages": ("tiff", lambda: pages(10**4)),
}


@pytest.mark.parametrize("harm", READ)
def test_what_is_beside_the_picture_does_no_harm(harm: str) -> None:
    """The pixels are read; what else the file has is passed over."""
    kind, build = READ[harm]
    found = drawn(kind, build())

    assert found.problem == ""
    assert found.ink is not None


def test_a_jpeg_of_scans_without_end_is_refused() -> None:
    """A progressive file that sends the same scan over and over is broken, said at once."""
    out = io.BytesIO()
    Image.new("RGB", (64, 64), "red").save(out, "JPEG", progressive=True)
    data = out.getvalue()
    last = data.rindex(b"\xff\xda")

    found = drawn("jpeg", data[:last] + data[last:-2] * 10_000 + data[-2:])

    assert "broken or cut short" in found.problem


@pytest.mark.parametrize("kind", ["png", "jpeg", "tiff"])
def test_a_picture_cut_short_anywhere_is_told_or_read(kind: str) -> None:
    """Wherever it ends there is an answer: the picture if all of it is there, else one line."""
    noise = Image.effect_noise((40, 30), 90)
    data = saved(noise, kind.upper())
    whole = drawn(kind, data)
    for part in range(0, len(data), max(1, len(data) // 60)):
        found = drawn(kind, data[:part])
        assert found.problem or found.ink == whole.ink, part
        assert "\n" not in found.problem
