"""Drawings and pictures made for the tests of the close look, and what it says of them."""

import io
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
import resvg_py
import shapely
from PIL import Image, ImageDraw

from jigs.artwork.detail import GAP, LINE, Detail, Thin
from jigs.artwork.examine import drawn_map, examine_drawn, examine_seen
from jigs.artwork.ink import find_ink
from jigs.geometry import Box

#: Colours far enough from each other, and from white, to be inks of their own.
COLOURS = (
    "#1b2a4a", "#c8102e", "#f2b705", "#2e7d32", "#6a1b9a",
    "#00acc1", "#ef6c00", "#8d6e63", "#9e9e9e", "#f48fb1",
)  # fmt: skip

Rgba = npt.NDArray[np.uint8]

#: What is found is not to depend on how the map's pixels happen to lie.
on_maps = pytest.mark.parametrize("longest", [1200, drawn_map.LONGEST, 1720, 2200])


@dataclass(frozen=True)
class Looked:
    """What the close look says of a drawing in mm, or of a picture in pixels."""

    detail: Detail

    def thin(self, kind: str, ink: int | str | None = None) -> list[Thin]:
        """Return the thin places of one kind and ink, thinnest first."""
        if isinstance(ink, str):
            ink = [one.colour for one in self.detail.inks].index(ink)
            # A single ink is all inks together.
            ink = ink if len(self.detail.inks) > 1 else None
        return [one for one in self.detail.thin if (one.kind, one.ink) == (kind, ink)]

    def line(self, ink: int | str | None = None) -> float:
        """Return the width of the thinnest line; infinite if there is none."""
        return min((one.width for one in self.thin(LINE, ink)), default=math.inf)

    def gap(self, ink: int | str | None = None) -> float:
        """Return the width of the narrowest gap; infinite if there is none."""
        return min((one.width for one in self.thin(GAP, ink)), default=math.inf)

    @property
    def shares(self) -> dict[str, float]:
        """The inks, and the part of the inked area that each has."""
        return {ink.colour: ink.share for ink in self.detail.inks}


@dataclass(frozen=True)
class Drawing:
    """An SVG whose unit is 1 mm."""

    body: str
    width: float
    height: float

    def __call__(self, part: Box, across: int, down: int, *, crisp: bool = False) -> Image.Image:
        """Draw a part of it."""
        edges = 'shape-rendering="crispEdges"' if crisp else ""
        frame = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}" height="{down}" '
            f'viewBox="{part.left!r} {part.top!r} {part.width!r} {part.height!r}" '
            f'preserveAspectRatio="none"><g {edges}>{self.body}</g></svg>'
        )
        drawn = resvg_py.svg_to_bytes(svg_string=frame, dpi=96, skip_system_fonts=True)
        with Image.open(io.BytesIO(drawn)) as picture:
            return picture.convert("RGBA")

    @cached_property
    def looked(self) -> Looked:
        """What the close look says."""
        ink = find_ink(self, self.width, self.height)
        assert ink is not None
        return Looked(examine_drawn(self, ink))


def drawn(
    body: str, width: float = 200.0, height: float = 20.0, longest: int = drawn_map.LONGEST
) -> Looked:
    """Return what the close look says of a drawing; a long low one is quick.

    `longest` is how many pixels its map has along the longer side.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawn_map, "LONGEST", longest)
        return Drawing(body, width, height).looked


def seen(picture: Rgba, ground: str = "white", *, blurred: bool = False) -> Looked:
    """Return what the close look says of a picture; lengths in pixels."""
    detail = examine_seen(
        lambda: strips(picture),
        picture.shape[1],
        picture.shape[0],
        ground,
        blurred=blurred,
    )
    assert detail is not None
    return Looked(detail)


def strips(picture: Rgba, rows: int = 128) -> Iterator[tuple[int, Rgba]]:
    """Go through a picture as a decoder does."""
    for top in range(0, len(picture), rows):
        yield top, picture[top : top + rows]


def path(shape: Any, fill: str = "#000000", **more: str) -> str:
    """Return a shapely polygon, or several, as an SVG path."""
    rings = [ring for part in shapely.get_parts(shape) for ring in (part.exterior, *part.interiors)]
    outline = "".join(
        "M" + " ".join(f"{x!r},{y!r}" for x, y in ring.coords[:-1]) + "Z" for ring in rings
    )
    extra = "".join(f' {name.replace("_", "-")}="{value}"' for name, value in more.items())
    return f'<path d="{outline}" fill="{fill}" fill-rule="evenodd"{extra}/>'


def bar(x: float, y: float, length: float, width: float, degrees: float = 0.0) -> Any:
    """Return a bar round a middle."""
    flat = shapely.box(x - length / 2, y - width / 2, x + length / 2, y + width / 2)
    return shapely.affinity.rotate(flat, degrees, origin=(x, y))


def circle(x: float, y: float, diameter: float) -> Any:
    """Return a circle, as a polygon that is nowhere 1e-5 of the diameter inside it."""
    return shapely.Point(x, y).buffer(diameter / 2, quad_segs=180)


def pixels(
    shapes: Iterable[tuple[Any, str]],
    width: int,
    height: int,
    ground: str = "#ffffff",
    *,
    fine: int = 8,
) -> Rgba:
    """Return shapes, the last on top, as a picture with smoothed edges; 1 leaves them hard.

    The ground `none` is transparent. Each pixel is the mean of `fine` x `fine` samples.
    """
    opaque = 0 if ground == "none" else 255
    bare = (*_rgb("#ffffff" if ground == "none" else ground), opaque)
    large = Image.new("RGBA", (width * fine, height * fine), bare)
    pen = ImageDraw.Draw(large)
    for shape, colour in shapes:
        mask = Image.new("1", large.size)
        mask_pen = ImageDraw.Draw(mask)
        # Pillow paints a polygon's border, too: half a sample too much all round.
        for part in shapely.get_parts(shape.buffer(-0.5 / fine, join_style="mitre")):
            for ring, ink in [(part.exterior, 1), *((one, 0) for one in part.interiors)]:
                # Pillow's whole numbers are pixels' middles.
                mask_pen.polygon([(x * fine - 0.5, y * fine - 0.5) for x, y in ring.coords], ink)
        pen.bitmap((0, 0), mask, fill=(*_rgb(colour), 255))
    samples = np.asarray(large).astype(np.float32).reshape(height, fine, width, fine, 4)
    alpha = samples[..., 3:] / 255
    cover = alpha.mean((1, 3))
    colour_sum = (samples[..., :3] * alpha).mean((1, 3))
    mixed = np.where(cover > 0, colour_sum / np.maximum(cover, 1e-6), 0)
    return np.asarray(np.rint(np.concatenate([mixed, cover * 255], axis=2)), np.uint8)


def compressed(picture: Rgba, quality: int, subsampling: int) -> Rgba:
    """Return a picture as JPEG brings it back; subsampling 0 is 4:4:4, 2 is 4:2:0."""
    out = io.BytesIO()
    rgb = Image.fromarray(picture).convert("RGB")
    rgb.save(out, "JPEG", quality=quality, subsampling=subsampling)
    with Image.open(out) as back:
        return np.array(back.convert("RGBA"), np.uint8)


def _rgb(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[k : k + 2], 16) for k in (1, 3, 5))


def in_a_row(shapes: Sequence[Any], cell: float) -> tuple[str, dict[str, Any]]:
    """Return shapes round 0, 0 as one drawing, each in its own ink and cell, and which is which."""
    placed = {
        colour: shapely.affinity.translate(shape, (k + 0.5) * cell, cell / 2)
        for k, (shape, colour) in enumerate(zip(shapes, COLOURS, strict=False))
    }
    return "".join(path(shape, colour) for colour, shape in placed.items()), placed
