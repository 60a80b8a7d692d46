"""Artwork as a close look would find it, made up: thin places where they are wanted."""

import io
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

from jigs import artwork
from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import GAP, LINE, Detail, Ink, Remark, Thin
from jigs.errors import Place
from jigs.geometry import Box, Point

NAVY, CORAL, CREAM = "#1b2a4a", "#ff7a59", "#f4f1e6"
#: A plain picture: what is looked at in it is made up, so any does.
ART = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="80mm" viewBox="0 0 120 80">'
    '<rect x="10" y="10" width="100" height="60" fill="#ff7a59"/>'
    '<rect x="30" y="30" width="60" height="20" fill="#1b2a4a"/></svg>'
)
ACROSS = Point(0.6, 0.8)


def thin(kind: str, width: float, x: float, y: float, ink: int | None = 0) -> Thin:
    """Return a thin place."""
    return Thin(kind, ink, width, Point(x, y), ACROSS)


def detail(*places: Thin, **more: Any) -> Detail:
    """Return what a close look found: two inks unless more is said."""
    usual: dict[str, Any] = {
        "centroid": Point(58.0, 42.0),
        "inks": (Ink(CORAL, 0.8), Ink(NAVY, 0.2)),
        "flat": True,
        "thin": tuple(sorted(places, key=lambda one: one.width)),
    }
    return Detail(**{**usual, **more})


PLACES = (
    thin(LINE, 0.4, 20, 15),
    thin(LINE, 0.9, 80, 35, ink=1),
    thin(LINE, 0.4, 20, 15, ink=None),
    thin(GAP, 0.6, 100, 60),
    thin(GAP, 0.6, 100, 60, ink=None),
)
SPECK = Box(108.0, 10.0, 110.0, 11.0)
GRADIENT = Remark("gradient", "a gradient has no flat colour", Box(90.0, 10.0, 110.0, 20.0))


@cache
def plain() -> Artwork:
    """Return artwork of 100 x 60 mm ink, at (10, 10) on a page of 120 x 80 mm, not looked at."""
    found = artwork.read("mark.svg", ART.encode(), Place("mark.svg"))
    # The box as drawn, so that what is reckoned from it comes out even.
    box = Box(10.0, 10.0, 110.0, 70.0)
    return replace(found, page_width=120.0, page_height=80.0, ink=box, detail=None)


def looked(found: Detail | None = None, density: float = 0.0) -> Artwork:
    """Return the artwork with what a close look found."""
    return replace(plain(), detail=found or detail(*PLACES), density=density)


def picture(draw: Any, size: tuple[int, int]) -> bytes:
    """Return a transparent PNG that a function has drawn on."""
    from PIL import Image, ImageDraw

    image = Image.new("RGBA", size, (0, 0, 0, 0))
    draw(ImageDraw.Draw(image))
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


def names(findings: Sequence[Any]) -> list[str]:
    """Return findings as lines: whether they stop, what they are about, what they say."""
    return [f"{'STOP' if one.blocks else 'note'} {one.about}: {one.says}" for one in findings]
