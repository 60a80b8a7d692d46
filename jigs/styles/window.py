r"""Window: a frame whose opening takes the trimmed transfer.

 __           __          edge against the collar seam, which leaves the plate at the same
|  \         /  | o       figure of the rulers on both wings
|   `-.___.-'   |
|    words      |
|   _________   |
|  |         |  |         window = trimmed carrier + slip on every side
|  |_________|  |
|_______________|         words here instead where the drop is short; ruler
"""

from jigs.drawing.drawing import Drawing, Entity, Layer, Shape, Text
from jigs.geometry import Path, Point
from jigs.geometry.strokes import width_of
from jigs.styles._lettering import SMALLEST, along, fits, fitted, height_needed
from jigs.styles._openings import clash, names, openings, window_marks
from jigs.styles._plate import (
    HOLE,
    NOTCH,
    OUTER,
    RULER,
    WING,
    Frame,
    notched,
    outline,
    printed_place,
    ruler,
    sides,
    tick,
    turned_over,
    web,
    wing_rulers,
    words,
    zero,
)
from jigs.styles._style import LEAST_WEB, Style
from jigs.template import Template
from jigs.units import Mm, say

#: Width of the frame beside the window.
_SIDE: Mm = 18.0
_MARGIN: Mm = 4.0
#: No window is smaller: its corners alone are 1.5 mm round.
_LEAST: Mm = 5.0
#: Words above the window keep this far from the plate's sides: the hanging hole is there.
_BESIDE: Mm = 15.0
_LARGE: Mm = 5.0
_SMALL: Mm = 2.4


def objection(template: Template) -> str | None:
    """Return why the window cannot be cut: it would leave too little of the edge."""
    unit = template.unit
    left = min(web(template, window) for window in template.windows)
    if left < LEAST_WEB:
        return (
            f"the drop of {say(template.drop, unit)} leaves {say(left, unit)} between "
            f"the {template.seat} and the window, less than {say(LEAST_WEB, unit)}: "
            "trim the transfer closer, or use a ledge"
        )
    if min(side for box in template.windows for side in (box.width, box.height)) < _LEAST:
        return f"a window lower or narrower than {say(_LEAST, unit)} holds nothing: use a ledge"
    return clash(template)


def draw(template: Template) -> Drawing:
    """Return the frame, its window and its marks."""
    frame, window = Frame.of(template), template.whole
    reach = template.reach + WING if template.curved else _SIDE
    left, right = min(-reach, window.left - _SIDE), max(reach, window.right + _SIDE)
    # The middle of the far side stays on the centre line, where its notch is.
    near = template.room
    # Two windows are named where one has its ticks alone.
    below_words = 8.0 if template.beside is None else 12.0
    above = frame.box(left + _BESIDE, 9.0, right - _BESIDE, near - below_words)
    lines = words(template)
    beside = _side_words(template, frame, left, right)
    if not beside and not turned_over(template):
        on_left, on_right = sides(template)
        lines.insert(1, f"← {on_left} · {on_right} →")
    roomy = near > 30.0 and fits(lines, above, _SMALL)
    opening = near + window.height
    far = opening + max(_SIDE, RULER + 5.0)
    hole = _hole(template, frame, right)
    # Below the window, words begin under the hanging hole too, if the window is that low.
    begin = max(opening + 5.0, frame.away(hole.y) + HOLE + 2.0)
    if not roomy:
        room = height_needed(lines, right - left - 2 * _MARGIN, _SMALL)
        far = max(far, begin + room + RULER + 2.0)
    plate = outline(
        template,
        left,
        right,
        [Point(right, frame.y(far)), Point(left, frame.y(far))],
    )
    plate = notched(plate, Point(0.0, frame.y(far)))
    below = frame.box(left + _MARGIN, begin, right - _MARGIN, far - RULER - 1.0)
    marks: list[Shape | Text] = [
        _centre_tick(template, frame),
        *window_marks(template),
        *ruler(
            start=left + OUTER,
            end=right - OUTER,
            y=frame.y(far),
            inwards=-frame.sign,
            unit=template.unit,
            notch=NOTCH + 0.5,
        ),
        *_edge_rulers(template, frame, left, right),
        *zero(template, frame),
    ]
    entities: list[Entity] = [
        Shape(Layer.CUT, plate),
        *(Shape(Layer.CUT, opening) for opening in openings(template)),
        Shape(Layer.CUT, Path.circle(hole, HOLE)),
        *marks,
        *names(template, marks),
        *beside,
        *fitted(lines, above if roomy else below, _LARGE if roomy else 3.6),
        *printed_place(template),
    ]
    return Drawing(tuple(entities))


def _hole(template: Template, frame: Frame, right: Mm) -> Point:
    """Return the middle of the hanging hole: in the right wing, clear of ruler and edge."""
    if template.hangs:
        return Point(right - HOLE - LEAST_WEB, template.edge.end.y + RULER + 2 + HOLE)
    return Point(right - HOLE - LEAST_WEB, frame.y(RULER + 2 + HOLE))


def _centre_tick(template: Template, frame: Frame) -> Shape:
    """Return the tick on the centre line at the seat edge."""
    start = template.relief
    length = min(6.0, (min(web(template, one) for one in template.windows) - start) / 3)
    return tick(Point(0.0, frame.y(start)), Point(0.0, frame.y(start + length)))


def _edge_rulers(template: Template, frame: Frame, left: Mm, right: Mm) -> list[Shape | Text]:
    """Return rulers beside the seat edge, by which both sides of the garment read alike."""
    y = template.edge.end.y
    if template.curved:
        # Where a short drop brings the window up beside the collar, the ruler is what is left.
        room = min(RULER, template.whole.top - y - 1.5)
        return wing_rulers(template, left, right, gap=2.0, room=room)
    return ruler(
        start=left + OUTER,
        end=right - OUTER,
        y=y,
        inwards=frame.sign,
        unit=template.unit,
        room=template.room - 1.5,
    )


def _side_words(template: Template, frame: Frame, left: Mm, right: Mm) -> list[Entity]:
    """Return which side is which, up the frame beside the window, clear of the hanging hole.

    Nothing where the window is too low for words that can be read, or the sides change places.
    """
    if turned_over(template):
        return []
    window, (on_left, on_right) = template.whole, sides(template)
    hole = _hole(template, frame, right).y
    top, bottom = window.top, window.bottom
    if template.hangs:
        top = max(top, hole + HOLE + 2.0)
    else:
        bottom = min(bottom, hole - HOLE - 2.0)
    size = min(3.2, 3.2 * (bottom - top) / max(width_of(on_left, 3.2), width_of(on_right, 3.2)))
    if size < SMALLEST:
        return []
    middle = (top + bottom) / 2
    return [
        along(on_left, Point(left + 7.0, middle), size, 270.0),
        along(on_right, Point(right - 7.0, middle), size, 90.0),
    ]


STYLE = Style(
    title="window",
    says="a frame to cut; the trimmed transfer drops into its opening",
    draw=draw,
    objection=objection,
    opening=True,
)
