"""Names and numbers as outlines, set in Barlow Condensed (SIL Open Font License 1.1).

A face that is drawn narrow: a name of ten letters fits across a back. It comes with the package
`fontpkg-barlow-condensed`; HarfBuzz sets the line, with kerning and figures of their own widths.
A height here is that of the ink of a flat letter: of H for text, of the lowest of the ten figures
for a number. Round letters and figures rise a little above it and below the baseline
(`overshoot`), and marks such as the one of Å stand above it.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from jigs.geometry import Affine, Box, Cubic, Line, Path, Point, Segment
from jigs.geometry.region import united
from jigs.units import Mm

FONT = "Barlow Condensed"
#: From the lightest to the heaviest.
WEIGHTS = ("Medium", "SemiBold", "Bold", "Black")
FIGURES = "0123456789"
_CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
#: OpenType features: pair kerning, lining figures of their own widths, no joined letters.
_FEATURES = {"kern": True, "lnum": True, "pnum": True, "liga": False}


@dataclass(frozen=True, slots=True)
class Lettered:
    """A line of text as outlines, baseline at y = 0."""

    text: str
    glyphs: tuple[tuple[Path, ...], ...]
    """The closed contours of each letter that has ink, to be filled even-odd; none overlap."""
    box: Box
    """Of the ink."""
    missing: tuple[str, ...]
    """Characters the font has no letter for; the font's own box is drawn in their place."""

    def moved(self, x: Mm, y: Mm) -> "Lettered":
        """Return the line with the top left corner of its ink at a point."""
        by = Affine.move(x - self.box.left, y - self.box.top)
        box = Box(x, y, x + self.box.width, y + self.box.height)
        glyphs = tuple(tuple(path.moved(by) for path in glyph) for glyph in self.glyphs)
        return Lettered(self.text, glyphs, box, self.missing)


@lru_cache(maxsize=4096)
def lettered(text: str, weight: str, height: Mm) -> Lettered:
    """Return a line of text in a weight of the font, its flat letters `height` high.

    Raises:
        ValueError: the text has no ink, or the height is not positive.
    """
    if not height > 0:
        raise ValueError(f"letters cannot be {height} high")
    unscaled, missing = _shaped(text, weight)
    by = Affine.scale(height / _flat(weight, figures=is_number(text)))
    glyphs = tuple(tuple(path.moved(by) for path in glyph) for glyph in unscaled)
    if not glyphs:
        raise ValueError(f"{text!r} has no ink")
    box = Box.of_all(path.bounds() for glyph in glyphs for path in glyph)
    return Lettered(text, glyphs, box, missing)


def is_number(text: str) -> bool:
    """Return whether a text is set by the height of the figures."""
    return bool(text) and all(letter in FIGURES for letter in text)


@cache
def depth(weight: str) -> float:
    """Return how far round capitals go below the baseline, as a share of a flat one's height."""
    return _ink("O", weight).bottom / _flat(weight, figures=False)


@cache
def overshoot(weight: str, *, figures: bool) -> float:
    """Return how high the highest figure, or capital A to Z but J and Q, is to a flat one.

    J and Q may go below the baseline; what they have there is no part of a letter's height.
    """
    letters = FIGURES if figures else _CAPITALS.replace("J", "").replace("Q", "")
    return max(_ink(letter, weight).height for letter in letters) / _flat(weight, figures=figures)


def figure(letter: str, weight: str) -> tuple[Path, ...]:
    """Return a figure's contours, drawn so that flat figures are 1 high."""
    return lettered(letter, weight, 1.0).glyphs[0]


@cache
def version() -> str:
    """Return which version of the font is installed; another may have other outlines."""
    return f"{FONT}: {', '.join(f'{weight} {_revision(weight)}' for weight in WEIGHTS)}"


def _revision(weight: str) -> str:
    """Return the font revision of the head table, 16.16 fixed (OpenType 1.9, head)."""
    head = _face(weight).reference_table("head").data
    return f"{int.from_bytes(head[4:8], 'big') / 65536:.3f}"


@cache
def _flat(weight: str, *, figures: bool) -> float:
    """Return the height of a flat letter in the font's units."""
    if figures:
        return min(_ink(letter, weight).height for letter in FIGURES)
    return _ink("H", weight).height


@cache
def _ink(letter: str, weight: str) -> Box:
    """Return the box of a letter's ink in the font's units."""
    (contours,), _ = _shaped(letter, weight)
    return Box.of_all(path.bounds() for path in contours)


@cache
def _face(weight: str) -> Any:
    import uharfbuzz

    file = files("fontpkg_barlow_condensed").joinpath(f"files/BarlowCondensed-{weight}.ttf")
    return uharfbuzz.Face(uharfbuzz.Blob(file.read_bytes()))


@cache
def _font(weight: str) -> Any:
    import uharfbuzz

    return uharfbuzz.Font(_face(weight))


@lru_cache(maxsize=1024)
def _shaped(text: str, weight: str) -> tuple[tuple[tuple[Path, ...], ...], tuple[str, ...]]:
    """Return the contours of each letter in the font's units, y down, and what has no letter."""
    import uharfbuzz

    font, buffer = _font(weight), uharfbuzz.Buffer()
    # What has no shape by its nature, such as a filler letter, is missing too: nothing vanishes.
    buffer.flags = uharfbuzz.BufferFlags.PRESERVE_DEFAULT_IGNORABLES
    buffer.add_str(text)
    buffer.guess_segment_properties()
    uharfbuzz.shape(font, buffer, _FEATURES)
    glyphs: list[tuple[Path, ...]] = []
    missing: dict[str, None] = {}
    pen = 0.0
    for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        if info.codepoint == 0:
            missing[text[info.cluster]] = None
        place = Affine.move(pen + position.x_offset, -position.y_offset)
        contours = tuple(path.moved(place) for path in _contours(weight, info.codepoint))
        pen += position.x_advance
        if contours:
            glyphs.append(contours)
    return tuple(glyphs), tuple(missing)


@cache
def _contours(weight: str, glyph: int) -> tuple[Path, ...]:
    """Return a glyph's contours in the font's units, y down.

    HarfBuzz hands quadratic curves out as the cubics they are, by raising their degree.
    """
    import uharfbuzz

    trace = _Trace([], [])
    draw = uharfbuzz.DrawFuncs()
    draw.set_move_to_func(lambda x, y, pen: pen.move(Point(x, -y)))
    draw.set_line_to_func(lambda x, y, pen: pen.line(Point(x, -y)))
    draw.set_cubic_to_func(
        lambda px, py, qx, qy, x, y, pen: pen.cubic(Point(px, -py), Point(qx, -qy), Point(x, -y))
    )
    draw.set_close_path_func(lambda pen: pen.close())
    _font(weight).draw_glyph(glyph, draw, trace)
    return united([Path(tuple(segments)) for segments in trace.done if segments])


@dataclass(slots=True)
class _Trace:
    """A pen that writes down contours as it is led along them."""

    done: list[list[Segment]]
    """Closed contours; the last may still be growing."""
    at: list[Point]
    """Where the contour started, and where the pen is."""

    def move(self, to: Point) -> None:
        self.done.append([])
        self.at = [to, to]

    def line(self, to: Point) -> None:
        if to != self.at[1]:
            self.done[-1].append(Line(self.at[1], to))
            self.at[1] = to

    def cubic(self, p: Point, q: Point, to: Point) -> None:
        self.done[-1].append(Cubic(self.at[1], p, q, to))
        self.at[1] = to

    def close(self) -> None:
        self.line(self.at[0])
