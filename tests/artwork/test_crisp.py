"""Drawing without antialiasing: every pixel has the one colour that is painted there."""

import math
from collections import Counter
from typing import Any

import pytest
from PIL import Image

from jigs.artwork.drawn import Page
from jigs.artwork.pdf_page import open_page
from jigs.artwork.rims import without_rims
from jigs.artwork.svg_page import SvgPage
from jigs.geometry import Box

from .samples import pdf

SIDE = 1600
CLEAR, RED, GREEN, BLUE = (0, 0, 0, 0), (255, 0, 0, 255), (0, 255, 0, 255), (0, 0, 255, 255)


def svg_page() -> Page:
    """Return an SVG of overlapping colours, a clip and an opacity, that asks for smooth edges."""
    smooth = 'style="shape-rendering:geometricPrecision !important"'
    return SvgPage(
        '<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">'
        "<style>#r{shape-rendering:geometricPrecision !important}</style>"
        '<clipPath id="c"><circle cx="50" cy="50" r="20.3"/></clipPath>'
        f'<circle id="r" cx="40" cy="40" r="30" fill="#f00"/>'
        f'<circle cx="60" cy="50" r="25" fill="#0f0" {smooth}/>'
        '<g clip-path="url(#c)"><rect width="100" height="100" fill="#00f"/></g>'
        '<circle cx="20" cy="80" r="10" opacity=".5"/></svg>',
        100,
        100,
    )


def pdf_page() -> Page:
    """Return the same as a PDF."""

    def draw(canvas: Any) -> None:
        canvas.setFillColorRGB(1, 0, 0)
        canvas.circle(40, 60, 30, stroke=0, fill=1)
        canvas.setFillColorRGB(0, 1, 0)
        canvas.circle(60, 50, 25, stroke=0, fill=1)
        canvas.saveState()
        path = canvas.beginPath()
        path.circle(50, 50, 20.3)
        canvas.clipPath(path, stroke=0, fill=0)
        canvas.setFillColorRGB(0, 0, 1)
        canvas.rect(0, 0, 100, 100, stroke=0, fill=1)
        canvas.restoreState()
        canvas.setFillAlpha(0.5)
        canvas.setFillColorRGB(0, 0, 0)
        canvas.circle(20, 20, 10, stroke=0, fill=1)

    return open_page(pdf(draw, (100, 100)))


def areas() -> dict[str, float]:
    """Return what is to be seen of each colour, by shapely's geometry."""
    from shapely import Point

    red, green, blue = (
        Point(x, y).buffer(r, quad_segs=2000)
        for x, y, r in ((40, 40, 30), (60, 50, 25), (50, 50, 20.3))
    )
    return {
        "red": red.difference(green.union(blue)).area,
        "green": green.difference(blue).area,
        "blue": blue.area,
        "half": math.pi * 100,
    }


@pytest.mark.parametrize("make", [svg_page, pdf_page])
def test_only_the_colours_painted_are_seen(make: Any) -> None:
    """Three overlapping colours, a clip and an opacity are five colours, clear among them."""
    picture = make().render(Box(0, 0, 100, 100), SIDE, SIDE, crisp=True)
    found = Counter(picture.get_flattened_data())
    half = next(one for one in found if 0 < one[3] < 255)
    scale = (100 / SIDE) ** 2

    assert set(found) == {CLEAR, RED, GREEN, BLUE, half}
    assert half[:3] == (0, 0, 0)
    assert abs(half[3] - 127.5) <= 0.5
    seen = {"red": found[RED], "green": found[GREEN], "blue": found[BLUE], "half": found[half]}
    for name, area in areas().items():
        assert seen[name] * scale == pytest.approx(area, rel=2e-3), name


@pytest.mark.parametrize("make", [svg_page, pdf_page])
def test_a_part_is_as_crisp_as_the_whole(make: Any) -> None:
    """Magnified, a part of the page shows the same colours, and smooth edges if not crisp."""
    part = Box(30, 30, 50, 50)
    crisp = set(make().render(part, 400, 400, crisp=True).get_flattened_data())
    smooth = set(make().render(part, 400, 400).get_flattened_data())

    assert crisp == {RED, GREEN, BLUE}
    assert len(smooth) > 10


@pytest.mark.parametrize("width", [1.0, 0.5, 0.2])
@pytest.mark.parametrize("turn", [0, 30])
def test_a_thin_line_has_its_width_where_it_is_magnified(width: float, turn: float) -> None:
    """From some three pixels on, a stroke's area is its own in both renderers."""
    length, pixel = 60.0, width / 8
    across = 400
    half = across * pixel / 2
    part = Box(50 - half, 50 - half, 50 + half, 50 + half)
    line = f'<path d="M20 50H80" stroke="#000" stroke-width="{width}"'
    line = f'{line} transform="rotate({turn} 50 50)"/>'
    svg = SvgPage(f'<svg xmlns="http://www.w3.org/2000/svg">{line}</svg>', 100, 100)

    def draw(canvas: Any) -> None:
        canvas.translate(50, 50)
        canvas.rotate(-turn)
        canvas.setLineWidth(width)
        canvas.line(-length / 2, 0, length / 2, 0)

    for page in (svg, open_page(pdf(draw, (100, 100)))):
        picture = page.render(part, across, across, crisp=True)
        inked = picture.getchannel("A").histogram()[255] * pixel**2
        run = min(length, 2 * half / math.cos(math.radians(turn)))
        # A PDF's upright line is drawn from whole pixel to whole pixel.
        assert inked == pytest.approx(width * run, rel=0.13)


def test_a_line_is_no_rim() -> None:
    """A line one pixel wide between two grounds stays, as does a lone pixel."""
    picture = Image.new("RGBA", (40, 40), "white")
    picture.paste((0, 0, 0, 255), (10, 0, 11, 40))
    picture.paste((0, 0, 255, 255), (30, 0, 40, 40))
    picture.putpixel((20, 20), (255, 0, 0, 255))

    assert without_rims(picture).tobytes() == picture.tobytes()


def test_a_rim_goes_to_its_nearer_side() -> None:
    """A mixed row between two colours becomes the one it has more of."""
    picture = Image.new("RGBA", (20, 20), RED)
    picture.paste(BLUE, (0, 10, 20, 20))
    picture.paste((178, 0, 77, 255), (0, 10, 20, 11))
    meant = Image.new("RGBA", (20, 20), RED)
    meant.paste(BLUE, (0, 11, 20, 20))
    inner = (2, 2, 18, 18)

    assert without_rims(picture).crop(inner).tobytes() == meant.crop(inner).tobytes()


def test_shades_stay() -> None:
    """A gradient is no rim."""
    picture = Image.linear_gradient("L").convert("RGBA").rotate(45)
    left = without_rims(picture)

    assert Counter(left.get_flattened_data()).keys() >= {(v, v, v, 255) for v in range(60, 200)}
