"""Which reader a file is for: decided by its content, never by its name."""

from dataclasses import replace
from pathlib import PurePath

from jigs.artwork import guard
from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.artwork.readers._reader import Reader
from jigs.errors import BadInput, Finding, Place
from jigs.registry import Registry

READERS = Registry("jigs.artwork.readers", "READER", Reader, "artwork format")

#: First bytes of formats that a customer may well send and that are not read.
_OTHERS = (
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"II*\x00", "a TIFF picture"),
    (b"MM\x00*", "a TIFF picture"),
    (b"GIF8", "a GIF picture"),
    (b"BM", "a BMP picture"),
    (b"8BPS", "a layered picture (PSD)"),
    (b"%!PS", "PostScript or EPS"),
    (b"\xc5\xd0\xd3\xc6", "EPS"),
    (b"\x1f\x8b", "compressed (gzip, an .svgz perhaps)"),
    (b"PK\x03\x04", "a ZIP archive"),
)


_USUAL = Asked()


def read(name: str, data: bytes, place: Place, asked: Asked = _USUAL) -> Artwork:  # noqa: ARG001 - the readers will
    """Return the artwork in a file's content.

    `name` is the file's name, for people; `place` is where the order names it, or the file.

    Raises:
        BadInput: no format that is read, a broken or hostile file, or no ink in it.
    """
    guard.check_bytes(data, place)
    for _, reader in READERS:
        if reader.recognises(data):
            artwork = reader.read(name, data, place)
            misnamed = _misnamed(name, reader)
            return replace(artwork, findings=(*misnamed, *artwork.findings))
    raise BadInput(place, f"{name} is {_what(data)}", f"formats read: {_formats()}")


def _formats() -> str:
    return ", ".join(sorted(reader.title for _, reader in READERS))


def _what(data: bytes) -> str:
    for magic, title in _OTHERS:
        if data.startswith(magic):
            return title
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "a WebP picture"
    return "not artwork of a known format"


def _misnamed(name: str, reader: Reader) -> tuple[Finding, ...]:
    suffix = PurePath(name).suffix.lower()
    if suffix in reader.suffixes:
        return ()
    ending = f"the name ends in {suffix}" if suffix else "the name has no ending"
    says = f"{ending}, but the content is {reader.title} and was read as that"
    return (Finding(blocks=False, about=name, says=says),)
