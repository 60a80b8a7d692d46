"""Artwork made for the tests, and how it is compared."""

import io
from collections.abc import Callable
from typing import Any

from jigs.artwork import Artwork, read
from jigs.artwork.asked import Asked
from jigs.errors import Place
from jigs.geometry import Box

PLACE = Place("order.toml", "prints[1].artwork")
#: Seconds that a hostile file may take on a slow and busy machine; without bounds, it is hours.
PATIENCE = 90
HEAD = (
    'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    'width="200mm" height="100mm" viewBox="0 0 200 100"'
)


def svg(body: str, head: str = HEAD, before: str = "") -> bytes:
    """Return an SVG of 200 x 100 mm in mm, unless another head is given."""
    return f"{before}<svg {head}>{body}</svg>".encode()


def pdf(draw: Callable[[Any], None], size: tuple[float, float] = (300, 200)) -> bytes:
    """Return a PDF of one page; size in points."""
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=size, invariant=1)
    draw(canvas)
    canvas.save()
    return out.getvalue()


def png(picture: Any, **options: Any) -> bytes:
    """Return a Pillow picture as PNG."""
    return saved(picture, "PNG", **options)


def saved(picture: Any, form: str, **options: Any) -> bytes:
    """Return a Pillow picture as a file of a format."""
    out = io.BytesIO()
    picture.save(out, form, **options)
    return out.getvalue()


def inked(name: str, data: bytes) -> Artwork:
    """Return the artwork read, without a close look."""
    return read(name, data, PLACE, Asked(closely=False))


def looked_at(name: str, data: bytes, *, ignore_specks: bool = False) -> Artwork:
    """Return the artwork read and looked at closely."""
    return read(name, data, PLACE, Asked(ignore_specks=ignore_specks))


def assert_ink(artwork: Artwork, expected: Box) -> None:
    """Hold the ink box to the accuracy that it claims, and the claim to 0.02 %."""
    ink = artwork.ink
    # A thousandth more, because the claim is reckoned from the ink as found.
    claim = 2.002e-4 * max(expected.width, expected.height)

    assert artwork.accuracy <= claim + 1e-6 * max(artwork.page_width, artwork.page_height)
    for found, meant in zip(
        (ink.left, ink.top, ink.right, ink.bottom),
        (expected.left, expected.top, expected.right, expected.bottom),
        strict=True,
    ):
        assert abs(found - meant) <= artwork.accuracy, (ink, expected)
    # Each of the four sides may be off by the accuracy: 2/width + 2/height of the aspect.
    aspect = expected.width / expected.height
    slack = 2.1 * artwork.accuracy * (1 / expected.width + 1 / expected.height)
    assert abs(artwork.aspect / aspect - 1) <= slack
