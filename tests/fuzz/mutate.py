"""Ways of breaking a file: of bytes, and of each format's own parts with their sums made right."""

import re
import struct
import zlib
from collections.abc import Callable
from random import Random
from typing import TypeAlias

_Way: TypeAlias = Callable[[Random, bytes], bytes]

_NUMBERS = (
    b"0", b"-1", b"1", b"NaN", b"inf", b"2147483647", b"4294967296", b"1e308", b"-1e308", b"1e-300",
    b"0.0000001", b"99999", b"-99999", b"1e9",
)  # fmt: skip
_SIZES = (0, 1, 2, 3, 7, 8, 255, 256, 65535, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFF)
#: Words that mean something to one format or another.
_WORDS = (
    b"<g>", b"</g>", b"<use href='#b'/>", b"<use href='#'/>", b"url(#p)", b"url(#", b"]]>", b"<!--",
    b"&#0;", b"&x;", b"<style>*{fill:url(#p)}</style>", b"<svg>", b"%", b"em", b"none", b"inherit",
    b"<switch>", b"<textPath href='#b'>", b"d='M0'", b"preserveAspectRatio='xMaxYMin slice'",
    b"obj", b"endobj", b"stream\n", b"endstream", b"<<", b">>", b"[", b"]", b"/Length 9", b"q ",
    b"Q ", b"/F1 ", b" Do ", b" cm ", b" 1 0 R", b" 9999 0 R", b"/Filter/FlateDecode",
    b"/Filter[/ASCIIHexDecode/LZWDecode]", b"/DecodeParms<</Predictor 12/Columns 9>>", b"/Parent",
    b"/Group<</S/Transparency>>", b"/SMask", b"/BBox[0 0 0 0]", b"/Rotate 90", b"/UserUnit 1e9",
    b"/Encrypt 1 0 R", b"null", b"true", b"xref", b"trailer", b"startxref\n0", b"BI ID EI", b"sh ",
    b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND", b"iCCP", b"zTXt", b"eXIf", b"acTL", b"gAMA",
    b"\xff\xd8", b"\xff\xd9", b"\xff\xda", b"\xff\xc2", b"\xff\xdd\x00\x04\x00\x01", b"Exif\0\0",
    b"\xff\xff\xff\xff", b"\x00\x00\x00\x00", b"\x7f\xff\xff\xff", b"\x80\x00", b"II*\0", b"MM\0*",
)  # fmt: skip


def mutated(random: Random, name: str, data: bytes) -> bytes:
    """Return a file broken in one to four ways."""
    ways = (*_ANY, *_OF[name.rpartition(".")[2]] * 2)
    for _ in range(random.choice((1, 1, 2, 4))):
        if data:
            data = random.choice(ways)(random, data)
    return data


def _flip(random: Random, data: bytes) -> bytes:
    changed = bytearray(data)
    for _ in range(random.choice((1, 1, 3, 20))):
        changed[random.randrange(len(data))] ^= 1 << random.randrange(8)
    return bytes(changed)


def _cut(random: Random, data: bytes) -> bytes:
    return data[: random.randrange(len(data))]


def _part(random: Random, data: bytes) -> tuple[int, int]:
    begin = random.randrange(len(data))
    return begin, min(len(data), begin + random.choice((1, 4, 16, 100, 1000)))


def _copy(random: Random, data: bytes) -> bytes:
    begin, end = _part(random, data)
    to = random.randrange(len(data))
    return data[:to] + data[begin:end] * random.choice((1, 1, 50)) + data[to:]


def _drop(random: Random, data: bytes) -> bytes:
    begin, end = _part(random, data)
    return data[:begin] + data[end:]


def _insert(random: Random, data: bytes) -> bytes:
    at = random.randrange(len(data))
    return data[:at] + random.choice(_WORDS) + data[at:]


def _number(random: Random, data: bytes) -> bytes:
    return _replaced(random, data, rb"-?\d+(?:\.\d+)?|\.\d+", random.choice(_NUMBERS))


def _word(random: Random, data: bytes) -> bytes:
    at = random.randrange(max(len(data) - 4, 1))
    order = random.choice("<>")
    return data[:at] + struct.pack(f"{order}I", random.choice(_SIZES)) + data[at + 4 :]


def _replaced(random: Random, data: bytes, pattern: bytes, new: bytes) -> bytes:
    found = list(re.finditer(pattern, data))
    if not found:
        return data
    one = random.choice(found)
    return data[: one.start()] + new + data[one.end() :]


def _swap(random: Random, data: bytes, pattern: bytes) -> bytes:
    """Put one thing of a kind in the place of another."""
    found = list(re.finditer(pattern, data, re.DOTALL))
    if not found:
        return data
    return _at(data, random.choice(found), random.choice(found)[0])


def _at(data: bytes, where: "re.Match[bytes]", new: bytes) -> bytes:
    return data[: where.start()] + new + data[where.end() :]


def _attribute(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"[\w:-]+=\"[^\"]*\"")


def _value(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"(?<=\")[^\"<>=]*(?=\")")


def _element(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"<[^<>!?]*/>")


def _tag(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"(?<=<)[a-zA-Z]+(?= )")


def _pdf_name(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"/[A-Za-z]\w*")


def _pdf_object(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"(?<= 0 obj).*?(?=endobj)")


def _pdf_reference(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"\d+ 0 R")


def _pdf_line(random: Random, data: bytes) -> bytes:
    return _swap(random, data, rb"(?<=\n)[^\n]* [a-zA-Z*]{1,3}(?=\n)")


def _png_chunks(data: bytes) -> list[tuple[bytes, bytes]]:
    found, at = [], 8
    while at + 12 <= len(data):
        (length,) = struct.unpack_from(">I", data, at)
        found.append((data[at + 4 : at + 8], data[at + 8 : at + 8 + length]))
        at += 12 + length
    return found


def _chunk(random: Random, data: bytes) -> bytes:
    """Break what is in a chunk, or where chunks stand, and make the sums right again."""
    chunks = _png_chunks(data)
    if not chunks:
        return data
    at = random.randrange(len(chunks))
    kind, body = chunks[at]
    what = random.randrange(6)
    if what == 0 and body:
        chunks[at] = kind, _flip(random, body)
    elif what == 1:
        chunks[at] = random.choice(chunks)[0], body
    elif what == 2:
        chunks.insert(random.randrange(len(chunks)), chunks[at])
    elif what == 3:
        del chunks[at]
    elif what == 4 and len(body) > 4:
        chunks[at] = kind, _word(random, body)
    else:
        chunks = [(k, _repacked(random, b) if k == b"IDAT" else b) for k, b in chunks]
    packed = (struct.pack(">I", len(b)) + k + b + _sum(k + b) for k, b in chunks)
    return data[:8] + b"".join(packed)


def _repacked(random: Random, body: bytes) -> bytes:
    try:
        raw = zlib.decompress(body)
    except zlib.error:
        return body
    broken = random.choice((_flip, _cut, _copy, _drop))(random, raw) if raw else raw
    return zlib.compress(broken)


def _sum(data: bytes) -> bytes:
    return struct.pack(">I", zlib.crc32(data))


def _segment(random: Random, data: bytes) -> bytes:
    """Break the length, the kind or the place of a JPEG's segment."""
    found = [m.start() for m in re.finditer(rb"\xff[\xc0-\xfe]", data)]
    if not found:
        return data
    at = random.choice(found)
    what = random.randrange(4)
    if what == 0:
        size = random.choice(_SIZES) & 0xFFFF
        return data[: at + 2] + struct.pack(">H", size) + data[at + 4 :]
    if what == 1:
        return data[: at + 1] + bytes([random.randrange(0xC0, 0xFF)]) + data[at + 2 :]
    begin, end = at, min([one for one in found if one > at], default=len(data))
    if what == 2:
        return data[:begin] + data[end:]
    to = random.choice(found)
    return data[:to] + data[begin:end] * random.choice((1, 1, 200)) + data[to:]


def _entry(random: Random, data: bytes) -> bytes:
    """Break an entry of a TIFF's directory: its tag, its type, its count or its value."""
    if len(data) < 16:
        return data
    order = "<" if data[:2] == b"II" else ">"
    (first,) = struct.unpack_from(f"{order}I", data, 4)
    if first + 2 > len(data):
        return data
    (count,) = struct.unpack_from(f"{order}H", data, first)
    entry = first + 2 + 12 * random.randrange(max(count, 1))
    offset, kind = random.choice(((0, "H"), (2, "H"), (4, "I"), (8, "I"), (8, "H")))
    if entry + 12 > len(data):
        return data
    value = random.choice((*_SIZES, first, random.randrange(len(data)), 256 + random.randrange(90)))
    packed = struct.pack(order + kind, value & (0xFFFF if kind == "H" else 0xFFFFFFFF))
    at = entry + offset
    return data[:at] + packed + data[at + len(packed) :]


_ANY: tuple[_Way, ...] = (_flip, _cut, _copy, _drop, _insert, _number, _word)
_OF: dict[str, tuple[_Way, ...]] = {
    "svg": (_attribute, _value, _element, _tag, _number, _number, _value),
    "pdf": (_pdf_name, _pdf_object, _pdf_reference, _pdf_line, _number, _number, _insert),
    "png": (_chunk, _chunk, _chunk, _chunk),
    "jpg": (_segment, _segment, _segment, _flip),
    "tif": (_entry, _entry, _entry, _entry),
}
