"""Pages that the writers' tests draw: every kind of segment, text, and hostile strings."""

from jigs.drawing.drawing import Anchor, Area, Drawing, Layer, Page, Picture, Shape, Text
from jigs.geometry import Arc, Box, Cubic, Line, Path, Point

HOSTILE = (
    "</svg><script>alert(1)</script>",
    "]]> & < > \" ' \x00\x01\x1b\x7f\ud800\ufffe",
    "100 % (half) \\(open [bracket ) >> endobj stream\r\n0\nEOF\r999\n",
    "  0\nSECTION\n  2\nENTITIES\n\u2028\u202e",
    "x" * 5000,
    "",
)


def plate() -> Drawing:
    """Return a plate with a window, marks of every kind of segment, and texts."""
    return Drawing((
        Shape(Layer.CUT, Path.box(Box(20, 20, 120, 90), 8)),
        Shape(Layer.CUT, Path.circle(Point(70, 55), 20)),
        Shape(Layer.CUT, _collar()),
        Shape(Layer.SCORE, Path.through([Point(20, 100), Point(120, 100)])),
        Shape(Layer.ENGRAVE, Path((_wave(),))),
        Shape(Layer.ENGRAVE, Path((Arc(Point(30, 80), Point(110, 80), -0.2),))),
        Shape(Layer.NOTE, Path.through([Point(20, 105), Point(120, 105)]), dashed=True),
        Text(Layer.ENGRAVE, "Left chest 3 1/2 in", Point(70, 60), 4, Anchor.MIDDLE),
        Text(Layer.NOTE, "M - XL", Point(130, 100), 5, Anchor.END, angle=-90),
    ))  # fmt: skip


def _wave() -> Cubic:
    return Cubic(Point(30, 30), Point(50, 60), Point(90, 0), Point(110, 30))


def _collar() -> Path:
    """Return a closed outline of a line, an arc of more than half a circle, and a cubic."""
    a, b, c = Point(150, 30), Point(180, 30), Point(180, 60)
    return Path((Line(a, b), Arc(b, c, 1.4), Cubic(c, Point(170, 80), Point(145, 70), a)))


def page(drawing: Drawing | None = None, *, title: str = "Plate", says: str = "A plate.") -> Page:
    """Return a sheet of 230 by 130 mm."""
    return Page(230, 130, plate() if drawing is None else drawing, title, says)


def painted() -> Drawing:
    """Return the plate with an area and a picture, which DXF cannot hold."""
    ring = Area((Path.box(Box(130, 95, 160, 125)), Path.circle(Point(145, 110), 8)), "#e69f00", 0.5)
    return plate().plus(ring, Picture(Box(165, 95, 195, 115), png(), "a red and a clear half"))


def png() -> bytes:
    """Return a picture of 20 by 10 pixels: left half red, right half clear."""
    from io import BytesIO

    from PIL import Image

    image = Image.new("RGBA", (20, 10), (0, 0, 0, 0))
    image.paste((255, 0, 0, 255), (0, 0, 10, 10))
    out = BytesIO()
    image.save(out, "PNG")
    return out.getvalue()
