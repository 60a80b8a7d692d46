"""The page that shows how true a printer prints: two long lines to measure, and what to do.

 |------- across: 190 mm -------|      end ticks; the two lines are square to one another
-+-
 |  PRINTER CALIBRATION
 |  what to do, what to measure
 d
 o  what was measured ______
 w  printer, paper    ______
 n  which edge came out first [ ]
"""

from collections.abc import Iterator

from jigs.documents.captions import broken
from jigs.drawing.drawing import Anchor, Drawing, Entity, Page, Text
from jigs.drawing.marks import line, words
from jigs.geometry import Box, Point
from jigs.order.order import Paper
from jigs.order.profile import lines_on
from jigs.units import INCH, Mm

#: From the margin to either line, half a tick, and the distance of words from the upright line.
_INSET: Mm = 14.0
_TICK: Mm = 5.0
_BESIDE: Mm = 12.0
_TITLE, _TEXT, _SMALL = 5.0, 3.0, 2.3
_PITCH = 1.9

_PRINT = (
    "1. Print this page at 100 % (actual size), never with 'fit to page', on the paper and with "
    "the settings that the jigs are printed with. If a line lacks an end tick, the page was cut "
    "off or moved: it is of no use."
)
_MEASURE = (
    "2. Measure both lines with a steel rule, from the middle of one end tick to the middle of the "
    "other, as closely as you can read it: 0.2 mm or better."
)
_STEPS = (_PRINT, _MEASURE, "3. Give what you measured to")
_ALWAYS = (
    "Feed the sheets of jigs the way this one was fed: along the feed a printer errs otherwise "
    "than across it. Every sheet of a jig has its own scale bars; measure them all the same."
)
_EDGES = ("top", "bottom", "left", "right")


def calibration_page(paper: Paper) -> Page:
    """Return the calibration page of a paper, upright."""
    across, down = lines_on(paper)
    corner = Point(paper.margin + _INSET, paper.margin + _INSET)
    left, top = (paper.width - across) / 2, (paper.height - down) / 2
    beside = Box(
        corner.x + _BESIDE, corner.y + _BESIDE,
        paper.width - paper.margin - 4.0, top + down,
    )  # fmt: skip
    drawing = Drawing((
        *_measured(Point(left, corner.y), across, Point(1.0, 0.0)),
        *_measured(Point(corner.x, top), down, Point(0.0, 1.0)),
        words(_says("across", across), Point(paper.width / 2, corner.y - 2.5), _TEXT,
              Anchor.MIDDLE),
        words(_says("down", down), Point(corner.x + 5.5, paper.height / 2), _TEXT,
              Anchor.MIDDLE, -90),
        *_column(paper, beside),
    ))  # fmt: skip
    title = f"Printer calibration, {paper.name}"
    says = (
        f"Two lines to measure: across {across:g} mm and down {down:g} mm as drawn. "
        "Print at 100 %, never with 'fit to page'."
    )
    return Page(paper.width, paper.height, drawing, title, says)


def _says(way: str, length: Mm) -> str:
    return f"{way}: {length:g} mm = {length / INCH:.3f} in, from tick to tick"


def _measured(start: Point, length: Mm, along: Point) -> Iterator[Entity]:
    """Yield a line and its end ticks."""
    end, out = start.plus(along.times(length)), along.quarter().times(_TICK)
    yield line(start, end)
    for tick in (start, end):
        yield line(tick.minus(out), tick.plus(out))


def _column(paper: Paper, box: Box) -> Iterator[Entity]:
    """Yield what is written beside the lines, and the lines to fill in by hand."""
    y = box.top + _TITLE
    yield words(f"Printer calibration: {paper.name}", Point(box.left, y), _TITLE)
    y += 0.8 * _TITLE
    for text in _STEPS:
        y, made = _paragraph(text, box, y)
        yield from made
    for text in (
        f'jigs calibrate --paper {paper.name} --across "... mm"',
        '--down "... mm" --save my-printer.toml',
    ):
        y, made = _paragraph(text, Box(box.left + 5, 0, box.right, 0), y, apart=0.0)
        yield from made
    y, made = _paragraph(_ALWAYS, box, y)
    yield from made
    y += 4.0
    for label in ("across, measured", "down, measured", "printer", "paper, settings", "date"):
        y += 9.0
        yield words(label, Point(box.left, y), _TEXT)
        yield line(Point(box.left + 38, y + 1), Point(box.right, y + 1))
    y += 9.0
    yield words("edge that left the printer first", Point(box.left, y), _TEXT)
    y += 6.0
    step = (box.right - box.left) / len(_EDGES)
    for k, edge in enumerate(_EDGES):
        x = box.left + k * step
        square = Box(x, y - _TEXT - 0.5, x + _TEXT + 1, y + 0.5)
        yield line(*square.corners(), closed=True)
        yield words(edge, Point(x + _TEXT + 3, y), _TEXT)
    y += 8.0
    yield words("top is the edge above the line 'across', as this is read", Point(box.left, y),
                _SMALL)  # fmt: skip


def _paragraph(text: str, box: Box, y: Mm, apart: Mm = 2.0) -> tuple[Mm, list[Text]]:
    """Return where a paragraph ends, and its lines, begun below a place."""
    y += apart
    made = []
    for one in broken(text, _TEXT, box.right - box.left):
        y += _TEXT * _PITCH
        made.append(words(one, Point(box.left, y), _TEXT))
    return y, made
