"""Lines of text fitted into boxes of a plate."""

from collections.abc import Iterator, Sequence

from jigs.drawing.drawing import Anchor, Layer, Text
from jigs.geometry import Box, Point
from jigs.geometry.strokes import width_of
from jigs.units import Mm

#: Capitals lower than this cannot be read at arm's length, nor engraved cleanly.
SMALLEST: Mm = 1.8
#: Baseline to baseline, in capital heights: room for accents and descenders.
PITCH = 1.75
#: Descenders and accents reach this far beyond the capitals, in capital heights.
_OVER = 0.35


def fitted(lines: Sequence[str], box: Box, most: Mm, layer: Layer = Layer.ENGRAVE) -> list[Text]:
    """Return lines, broken where they must be, as large as fits a box, centred in it.

    The first line is the title, a third larger. Lines that do not fit even at the smallest
    height are left out from the end.

    Raises:
        ValueError: not even the first line fits.
    """
    kept = list(lines)
    while kept:
        height = most
        while height >= SMALLEST:
            texts = _set(kept, box, height, layer)
            if texts is not None:
                return texts
            height = height - 0.2 if height - 0.2 >= SMALLEST or height <= SMALLEST else SMALLEST
        kept.pop()
    raise ValueError(f"no room for {lines[0]!r} in a box of {box.width:.1f} x {box.height:.1f} mm")


def fits(lines: Sequence[str], box: Box, height: Mm) -> bool:
    """Return whether all the lines fit a box at a height."""
    return _set(lines, box, height, Layer.ENGRAVE) is not None


def height_needed(lines: Sequence[str], width: Mm, height: Mm) -> Mm:
    """Return how high a box of a width must be for all the lines at a height.

    Raises:
        ValueError: the box is narrower than a letter.
    """
    rows = _rows(lines, width, height)
    if rows is None:
        raise ValueError(f"no letter of {lines[0]!r} fits into {width:.1f} mm")
    return sum(size * PITCH for _, size in rows) + 2 * _OVER * height


def _rows(lines: Sequence[str], width: Mm, height: Mm) -> list[tuple[str, Mm]] | None:
    """Return the rows and their heights once every line is broken to a width.

    None if not even a single letter fits.
    """
    rows: list[tuple[str, Mm]] = []
    for k, line in enumerate(lines):
        size = height * 4 / 3 if k == 0 else height
        row = ""
        for word in _pieces(line, width, size):
            longer = f"{row} {word}" if row else word
            if width_of(longer, size) <= width:
                row = longer
            elif width_of(word, size) > width:
                return None
            else:
                rows.append((row, size))
                row = word
        if row:
            rows.append((row, size))
    return rows


def _pieces(line: str, width: Mm, size: Mm) -> Iterator[str]:
    """Yield a line's words; one wider than the width is cut where it has to be."""
    for word in line.split():
        rest = word
        while len(rest) > 1 and width_of(rest, size) > width:
            end = next(
                n
                for n in range(len(rest) - 1, 0, -1)
                if n == 1 or width_of(rest[:n], size) <= width
            )
            yield rest[:end]
            rest = rest[end:]
        yield rest


def _set(lines: Sequence[str], box: Box, height: Mm, layer: Layer) -> list[Text] | None:
    rows = _rows(lines, box.width, height)
    if rows is None:
        return None
    total = sum(size * PITCH for _, size in rows) + 2 * _OVER * height
    if total > box.height + 1e-9:
        return None
    y = box.centre.y - total / 2 + _OVER * height
    texts = []
    for row, size in rows:
        # The capitals stand in the middle of their row.
        baseline = y + size * (PITCH + 1) / 2
        texts.append(Text(layer, row, Point(box.centre.x, baseline), size, Anchor.MIDDLE))
        y += size * PITCH
    return texts


def along(text: str, at: Point, height: Mm, angle: float, layer: Layer = Layer.ENGRAVE) -> Text:
    """Return a line of text whose middle, half way up its capitals, stands at a point."""
    # The baseline is half a capital below the middle, measured square to the text.
    quarter = angle % 360
    below = {0: Point(0, 1), 90: Point(-1, 0), 270: Point(1, 0)}[int(quarter)]
    return Text(layer, text, at.plus(below.times(height / 2)), height, Anchor.MIDDLE, angle)
