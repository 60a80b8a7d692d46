"""Files made to harm: one clear error, or the harm left out; nothing is fetched."""

import base64
import io
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image

from jigs.artwork import READERS, guard
from jigs.errors import BadInput
from jigs.geometry import Box

from .samples import HEAD, PATIENCE, assert_ink, inked, png, saved, svg

SQUARE = '<rect x="20" y="30" width="50" height="40"/>'
SQUARE_BOX = Box(20, 30, 70, 70)


@pytest.fixture
def listener() -> Iterator[tuple[int, list[str]]]:
    """Give a port of this machine, and the list of those who called it."""
    calls: list[str] = []
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(0.1)
        over = threading.Event()

        def listen() -> None:
            while not over.is_set():
                try:
                    caller, _ = server.accept()
                except TimeoutError:
                    continue
                calls.append("called")
                caller.close()

        thread = threading.Thread(target=listen)
        thread.start()
        yield server.getsockname()[1], calls
        over.set()
        thread.join()


def test_nothing_is_fetched_from_the_network(listener: tuple[int, list[str]]) -> None:
    """Pictures, style sheets, fonts and clones of a server are left out and told, not fetched."""
    port, calls = listener
    there = f"http://127.0.0.1:{port}"
    before = f'<?xml version="1.0"?><?xml-stylesheet href="{there}/a.css"?>'
    body = (
        f'<image href="{there}/b.png" width="200" height="100"/>'
        f'<image xlink:href="{there}/c.png" width="200" height="100"/>'
        f'<use href="{there}/d.svg#e"/>'
        f'<style>@import url("{there}/f.css"); @font-face {{ src: url({there}/g) }}</style>'
        f'<rect width="200" height="100" fill="url({there}/h.svg#i)"/>'
        f'<filter id="j"><feImage href="{there}/k.png"/></filter>'
        f'<foreignObject><img xmlns="http://www.w3.org/1999/xhtml" src="{there}/l"/>'
        f"</foreignObject><script>alert(1)</script>{SQUARE}"
    )
    artwork = inked("a.svg", svg(body, before=before))

    assert calls == []
    assert_ink(artwork, SQUARE_BOX)
    told = [finding.says for finding in artwork.findings]
    assert any(f"linked '{there}/" in one and "artwork is not complete" in one for one in told)
    assert "foreign content (foreignObject) was left out" in told
    assert f"a link to '{there}/h.svg#i' was left out" in told
    assert "and 1 more is not in the file" in told[0]
    assert [finding.blocks for finding in artwork.findings].count(True) == 1


def test_nothing_is_read_from_the_disk(tmp_path: Path) -> None:
    """A picture that lies on the disk is not drawn, however it is named."""
    there = tmp_path / "secret.png"
    there.write_bytes(png(Image.new("RGB", (9, 9), "red")))
    links = (there.as_uri(), str(there), f"file:{there}", "/etc/passwd", "secret.png")
    body = "".join(f'<image href="{link}" width="200" height="100"/>' for link in links)
    artwork = inked("a.svg", svg(body + SQUARE))

    assert_ink(artwork, SQUARE_BOX)
    (finding,) = artwork.findings
    assert finding.blocks
    assert finding.says.startswith("linked 'file:///")
    assert "and 2 more is not in the file" in finding.says


def test_an_embedded_picture_is_drawn() -> None:
    """A picture that the file itself holds is part of the artwork."""
    held = base64.b64encode(png(Image.new("RGB", (9, 9), "red"))).decode()
    body = (
        f'<image href="data:image/png;base64,{held}" x="50" y="20" width="90" height="60" '
        'preserveAspectRatio="none"/>'
    )
    artwork = inked("a.svg", svg(body))

    assert artwork.findings == ()
    assert_ink(artwork, Box(50, 20, 140, 80))


@pytest.mark.parametrize("link", ["image/svg+xml;base64,PHN2Zy8+", "image/png;base64,AAAA", ","])
def test_an_embedded_document_is_left_out(link: str) -> None:
    """Only pictures may be embedded: a drawing inside could reach out by itself."""
    body = f'<image href="data:{link}" width="200" height="100"/>{SQUARE}'
    artwork = inked("a.svg", svg(body))

    assert_ink(artwork, SQUARE_BOX)
    assert "was left out" in artwork.findings[0].says


def bomb_picture() -> str:
    """Return an embedded picture of 64 million pixels in 8 kB."""
    out = io.BytesIO()
    Image.new("1", (8000, 8000)).save(out, "PNG")
    return f"data:image/png;base64,{base64.b64encode(out.getvalue()).decode()}"


LAUGHS = (
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "ha">'
    + "".join(
        f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefghi", "bcdefghij", strict=True)
    )
    + "]>"
)
OUTSIDE = '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
DEFAULTS = '<!DOCTYPE svg [<!ATTLIST rect fill CDATA "red">]>'
CLONES = "".join(
    f'<g id="g{i}">{f"<use href={chr(34)}#g{i + 1}{chr(34)}/>" * 10}</g>' for i in range(12)
)
CHAIN = "".join(f'<g id="g{i}"><use href="#g{i + 1}"/></g>' for i in range(300))


def _fill(number: int) -> str:
    return f"<path fill='url(#p{number})'/>"


FILLS = "".join(
    f"<pattern id='p{i}' width='1' height='1'>{_fill(i + 1) * 10}</pattern>" for i in range(12)
)

CLASSES = FILLS.replace("fill='url(#p", "class='p").replace(")'/>", "'/>")
SHEET = "".join(f".p{i}{{fill:url(#p{i})}}" for i in range(13))

HARM = {
    "billion laughs": (svg("<text>&j;</text>", before=LAUGHS), "declares entities"),
    "an outside entity": (svg("<text>&x;</text>", before=OUTSIDE), "declares entities"),
    "declared attributes": (svg(SQUARE, before=DEFAULTS), "declares"),
    "clones of clones": (svg(CLONES + '<rect id="g12"/>'), "draw more than"),
    "patterns of patterns": (svg(FILLS + '<rect fill="url(#p0)"/>'), "draw more than"),
    "patterns by class": (
        svg(f"<style>{SHEET}</style>{CLASSES}<rect class='p0'/>"),
        "draw more than",
    ),
    "a chain of clones": (svg(CHAIN + '<rect id="g300"/>'), "deep"),
    "a clone of itself": (svg('<g id="a"><use href="#a"/></g>'), "circle"),
    "clones of each other": (
        svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'),
        "circle",
    ),
    "a mask of itself": (svg('<mask id="m"><rect mask="url(#m)"/></mask>'), "circle"),
    "markers by the thousand": (
        svg(
            f'<marker id="m">{"<path/>" * 1000}</marker>'
            f'<path d="M{"1 1 " * 2000}" style="marker:url(#m)"/>',
        ),
        "draw more than",
    ),
    "a deep nest": (svg("<g>" * 100_000), "deep"),
    "too many elements": (svg("<g/>" * 400_001), "elements"),
    "a canvas of 10^9": (svg(SQUARE, HEAD.replace("200mm", "1000000000")), "the page is"),
    "a picture bomb": (svg(f'<image href="{bomb_picture()}"/>'), "million pixels"),
    "an unknown encoding": (svg(SQUARE, before='<?xml version="1.0" encoding="x-y"?>'), "broken"),
    "a null byte": (svg("\0"), "broken"),
    "a web page": (b"<!DOCTYPE html><html><svg></svg></html>", "root element"),
    "compressed": (b"\x1f\x8b\x08\x00" + b"\0" * 40, "compressed"),
    "nothing": (b"", "0 bytes"),
    "noise": (bytes(range(256)) * 40, "not artwork of a known format"),
    "too much": (b" " * (guard.MOST_BYTES + 1), "65 MB|64 MB"),
}


@pytest.mark.parametrize("harm", HARM)
def test_harm_is_refused(harm: str) -> None:
    """Each is one BadInput that says what is wrong, within seconds."""
    data, says = HARM[harm]
    start = time.monotonic()

    with pytest.raises(BadInput, match=says) as caught:
        inked("a.svg", data)

    assert time.monotonic() - start < PATIENCE
    assert len(str(caught.value)) < 400


@pytest.mark.parametrize(
    "head",
    [b"", b"%PDF-1.7\n", b"\x89PNG\r\n\x1a\n", b"<svg ", b"\xff\xd8\xff\xe0", b"II*\0", b"MM\0*"],
)
def test_noise_behind_any_head_is_refused(head: bytes) -> None:
    """Noise is BadInput to every reader, never another error."""
    with pytest.raises(BadInput):
        inked("a", head + bytes((i * i * 7 + i // 3) % 256 for i in range(4000)))


@pytest.mark.parametrize(
    ("data", "title"),
    [
        (b"GIF89a", "GIF"),
        (b"RIFF\0\0\0\0WEBPVP8 ", "WebP"),
        (b"%!PS-Adobe-3.0 EPSF-3.0", "EPS"),
    ],
)
def test_other_formats_are_named(data: bytes, title: str) -> None:
    """What is sent but not read is named, with the formats that are."""
    with pytest.raises(BadInput, match=title) as caught:
        inked("a.png", data)

    assert caught.value.allowed == "formats read: JPEG, PDF, PNG, SVG, TIFF"


def test_a_wrong_ending_is_told_and_read() -> None:
    """The content decides what a file is; an ending that lies is a finding."""
    artwork = inked("logo.pdf", svg(SQUARE))

    assert artwork.kind == "svg"
    assert artwork.name == "logo.pdf"
    assert not artwork.findings[0].blocks
    assert artwork.findings[0].says == (
        "the name ends in .pdf, but the content is SVG and was read as that"
    )


def test_every_reader_recognises_its_own() -> None:
    """No two readers claim the same file."""
    heads = {
        "svg": svg(SQUARE),
        "pdf": b"%PDF-1.4",
        "png": png(Image.new("L", (1, 1))),
        "jpeg": saved(Image.new("L", (1, 1)), "JPEG"),
        "tiff": saved(Image.new("L", (1, 1)), "TIFF"),
    }
    claims = {
        name: [other for other, reader in READERS if reader.recognises(head)]
        for name, head in heads.items()
    }

    assert claims == {name: [name] for name in heads}
