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
from jigs.styles._openings import clash, names, opened, openings, relieved, window_marks
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
from jigs.styles._style import Style
from jigs.template import Template
from jigs.units import Mm, say

#: Width of the frame beside the window.
_SIDE: Mm = 18.0
_MARGIN: Mm = 4.0
#: No window is smaller, nor than so many times the radius of its corners or of their reliefs.
_LEAST: Mm = 5.0
_LEAST_ROUND = 3.0
_LEAST_RELIEVED = 5.0
#: Words above the window keep this far from the plate's sides: the hanging hole is there.
_BESIDE: Mm = 15.0
_LARGE: Mm = 5.0
_SMALL: Mm = 2.4


def objection(template: Template) -> str | None:
    """Return why the window cannot be cut: it would leave too little of the edge."""
    unit = template.unit
    near = min(web(template, box) for box in opened(template))
    left = max(0.0, min(near, _below_wing(template)))
    if left < template.web:
        return (
            f"the drop of {say(template.drop, unit)} leaves {say(left, unit)} between "
            f"the {template.seat} and the window, less than {say(template.web, unit)}: "
            "trim the transfer closer, or use a ledge"
        )
    least = _least(template)
    if min(side for box in template.windows for side in (box.width, box.height)) < least:
        return f"a window lower or narrower than {say(least, unit)} holds nothing: use a ledge"
    return clash(template)


def _below_wing(template: Template) -> Mm:
    """Return how far the window is from where the plate ends beside a collar, at its wings' top."""
    frame = Frame.of(template)
    return template.room - frame.away(template.edge.end.y)


def _least(template: Template) -> Mm:
    """Return the least side of a window."""
    times = _LEAST_RELIEVED if relieved(template) else _LEAST_ROUND
    return max(_LEAST, times * template.inner)


def draw(template: Template) -> Drawing:
    """Return the frame, its window and its marks."""
    frame, window = Frame.of(template), template.whole
    side = _side(template)
    reach = template.reach + WING if template.curved else side
    left, right = min(-reach, window.left - side), max(reach, window.right + side)
    # The middle of the far side stays on the centre line, where its notch is.
    near = template.room
    beside = max(_BESIDE, template.web + 2 * HOLE + 4.0)
    # Two windows are named where one has its ticks alone.
    below_words = 8.0 if template.beside is None else 12.0
    above = frame.box(left + beside, 9.0, right - beside, near - below_words)
    lines = words(template)
    up_the_sides = _side_words(template, frame, left, right)
    if not up_the_sides and not turned_over(template):
        on_left, on_right = sides(template)
        lines.insert(1, f"← {on_left} · {on_right} →")
    roomy = near > 30.0 and fits(lines, above, _SMALL)
    end = near + window.height
    far = end + max(side, RULER + 5.0)
    hole = _hole(template, frame, right)
    # Below the window, words begin under the hanging hole too, if the window is that low.
    begin = max(end + 5.0, frame.away(hole.y) + HOLE + 2.0)
    if not roomy:
        room = height_needed(lines, right - left - 2 * _MARGIN, _SMALL)
        far = max(far, begin + room + RULER + 2.0)
    plate = outline(
        template,
        left,
        right,
        [Point(right, frame.y(far)), Point(left, frame.y(far))],
    )
    notch = max(NOTCH, template.inner)
    plate = notched(plate, Point(0.0, frame.y(far)), notch)
    below = frame.box(left + _MARGIN, begin, right - _MARGIN, far - RULER - 1.0)
    marks: list[Shape | Text] = [
        _centre_tick(template, frame),
        *window_marks(template, _tick(template)),
        *ruler(
            start=left + OUTER,
            end=right - OUTER,
            y=frame.y(far),
            inwards=-frame.sign,
            unit=template.unit,
            notch=notch + 0.5,
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
        *up_the_sides,
        *fitted(lines, above if roomy else below, _LARGE if roomy else 3.6),
        *printed_place(template),
    ]
    return Drawing(tuple(entities))


def _hole(template: Template, frame: Frame, right: Mm) -> Point:
    """Return the middle of the hanging hole: in the right wing, clear of ruler and edge."""
    x, down = right - HOLE - template.web, max(RULER + 2, template.web) + HOLE
    if template.hangs:
        return Point(x, template.edge.end.y + down)
    return Point(x, frame.y(down))


def _side(template: Template) -> Mm:
    """Return the width of the frame beside the window: the hole's webs, and a relief, fit in."""
    return max(_SIDE, 2 * (HOLE + template.web) + (template.inner if relieved(template) else 0.0))


def _centre_tick(template: Template, frame: Frame) -> Shape:
    """Return the tick on the centre line at the seat edge."""
    start = template.relief
    return tick(Point(0.0, frame.y(start)), Point(0.0, frame.y(start + _tick(template))))


def _tick(template: Template) -> Mm:
    """Return the length of the ticks between the seat edge and a window."""
    near = min(web(template, window) for window in template.windows)
    return min(6.0, (near - template.relief) / 3, _below_wing(template) - 1.5)


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
