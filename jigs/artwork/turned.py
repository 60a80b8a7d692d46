"""Artwork turned by quarter turns: a wordmark that runs down a sleeve."""

from dataclasses import replace

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import Detail
from jigs.geometry import Box, Point
from jigs.order.order import TURNS
from jigs.units import Mm


def turned(art: Artwork, degrees: int) -> Artwork:
    """Return artwork as it is printed after turning it clockwise.

    Raises:
        ValueError: the degrees are none of 0, 90, 180, 270.
    """
    if degrees not in TURNS:
        raise ValueError(f"artwork turns by quarters, not by {degrees} degrees")
    for _ in range(degrees // 90):
        art = _quarter(art)
    return replace(art, turn=degrees, preview=_preview(art.preview, degrees))


def _quarter(art: Artwork) -> Artwork:
    height = art.page_height
    return replace(
        art,
        page_width=height,
        page_height=art.page_width,
        ink=_box(art.ink, height),
        detail=art.detail and _detail(art.detail, height),
    )


def _detail(detail: Detail, height: Mm) -> Detail:
    return replace(
        detail,
        centroid=_point(detail.centroid, height),
        thin=tuple(
            replace(one, at=_point(one.at, height), across=one.across.quarter())
            for one in detail.thin
        ),
        specks=tuple(_box(one, height) for one in detail.specks),
        remarks=tuple(
            replace(one, where=one.where and _box(one.where, height)) for one in detail.remarks
        ),
        body=detail.body and _box(detail.body, height),
    )


def _box(box: Box, height: Mm) -> Box:
    # What was at the bottom is at the left.
    return Box(height - box.bottom, box.left, height - box.top, box.right)


def _point(point: Point, height: Mm) -> Point:
    return Point(height - point.y, point.x)


def _preview(png: bytes, degrees: int) -> bytes:
    if not degrees:
        return png
    import io

    from PIL import Image

    from jigs.artwork.png_bytes import png_bytes

    # Pillow turns the other way round.
    ways = {
        90: Image.Transpose.ROTATE_270,
        180: Image.Transpose.ROTATE_180,
        270: Image.Transpose.ROTATE_90,
    }
    return png_bytes(Image.open(io.BytesIO(png)).transpose(ways[degrees]))
