"""A plain plate that keeps every rule, to be spoilt in one way at a time."""

from jigs.drawing.drawing import Drawing, Entity, Layer, Shape, Text
from jigs.geometry import Box, Line, Path, Point
from jigs.rules import Facts, Violation, check

#: 120 × 80 mm, its upper side the seat edge.
PLATE = Path.box(Box(0, 0, 120, 80), 5.0)
WINDOW = Box(30, 30, 90, 60)
EDGE = Path.through([Point(10, 0), Point(110, 0)])
FACTS = Facts(least_web=5.0, least_inner=1.5, seat=EDGE, windows=(WINDOW,))
BARE = Facts(least_web=5.0, least_inner=1.5)


def cut(path: Path) -> Shape:
    """Return a path on the cut layer."""
    return Shape(Layer.CUT, path)


def mark(*points: tuple[float, float]) -> Shape:
    """Return an engraved line through points."""
    return Shape(Layer.ENGRAVE, Path.through([Point(*point) for point in points]))


def word(string: str, x: float, y: float, height: float = 3.0) -> Text:
    """Return an engraved text."""
    return Text(Layer.ENGRAVE, string, Point(x, y), height)


def plate(*more: Entity, outline: Path = PLATE, window: Path | None = None) -> Drawing:
    """Return a plate with a window, and more on it."""
    opening = Path.box(WINDOW, 1.5) if window is None else window
    return Drawing((cut(outline), cut(opening))).plus(more)


def solid(*points: tuple[float, float]) -> Drawing:
    """Return a plate of straight sides, and nothing on it."""
    return Drawing((cut(Path.through([Point(*point) for point in points], closed=True)),))


def told(drawing: Drawing, facts: Facts = FACTS) -> tuple[Violation, ...]:
    """Return the rules that a drawing breaks."""
    return check(drawing, facts)


def slot(a: tuple[float, float], b: tuple[float, float]) -> Line:
    """Return a side."""
    return Line(Point(*a), Point(*b))
