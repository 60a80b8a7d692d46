"""Labels in a column beside a drawing, each with a leader to what it names: none on another."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jigs.drawing.drawing import Anchor, Entity, Layer, Shape, Text
from jigs.geometry import Path, Point
from jigs.units import Mm

#: Distance of two lines of a column, as a share of the letters' height.
PITCH = 1.7
_GREY = "#8a8a8a"
_INK = "#222222"
_GAP: Mm = 0.8


@dataclass(frozen=True, slots=True)
class Label:
    """A label: its words, the point it names, and the colour of both letters and leader."""

    words: str
    at: Point
    colour: str | None = None


def column(
    labels: Sequence[Label], x: Mm, height: Mm, top: Mm, bottom: Mm, *, left: bool = False
) -> list[Entity]:
    """Return labels that start at x, or end there if they stand `left` of the drawing.

    Each stands as level with its point as the others allow, between top and bottom; leaders do
    not cross, since the labels keep the order of their points.
    """
    step = height * PITCH
    ordered = sorted(labels, key=lambda label: (label.at.y, label.words))
    levels = spread([label.at.y for label in ordered], step, top + step / 2, bottom - step / 2)
    entities: list[Entity] = []
    for label, y in zip(ordered, levels, strict=True):
        foot = Point(x + (_GAP if left else -_GAP), y)
        leader = Path.through([label.at, foot])
        entities += [
            Shape(Layer.NOTE, leader, colour=label.colour or _GREY, stroke=0.1),
            Text(
                Layer.NOTE, label.words, Point(x, y + height / 2), height,
                Anchor.END if left else Anchor.START, colour=label.colour or _INK,
            ),
        ]  # fmt: skip
    return entities


def spread(wanted: Sequence[Mm], step: Mm, top: Mm, bottom: Mm) -> list[Mm]:
    """Return rising levels at least a step apart, near the wanted ones, which rise too.

    They stay between top and bottom if there is room for them all; else they go on below.
    """
    blocks: list[list[float]] = []
    for level in wanted:
        blocks.append([level, 1])
        # Labels that touch move as one block, whose middle is the mean of what its labels want.
        while (
            len(blocks) > 1
            and blocks[-1][0] - blocks[-2][0] < step * (blocks[-1][1] + blocks[-2][1]) / 2
        ):
            (y1, n1), (y2, n2) = blocks[-2], blocks[-1]
            blocks[-2:] = [[(y1 * n1 + y2 * n2) / (n1 + n2), n1 + n2]]
    levels = [
        middle + step * (k - (count - 1) / 2) for middle, count in blocks for k in range(int(count))
    ]
    for k in range(len(levels) - 1, -1, -1):
        levels[k] = min(levels[k], bottom - step * (len(levels) - 1 - k))
    for k in range(len(levels)):
        levels[k] = max(levels[k], top + step * k)
    return levels


def wrapped(words: Iterable[str], room: int) -> list[str]:
    """Return words joined into lines of no more than so many letters, where words allow it."""
    rows: list[str] = []
    for word in words:
        if rows and len(rows[-1]) + 1 + len(word) <= room:
            rows[-1] += f" {word}"
        else:
            rows.append(word)
    return rows
