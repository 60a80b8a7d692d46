"""What a cut file holds, and lines gathered into outlines, under limits."""

import math
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jigs.drawing.drawing import Drawing, Layer, Shape
from jigs.errors import BadInput, Place
from jigs.geometry import Arc, Cubic, Path, Point, Segment
from jigs.geometry.path import ended
from jigs.geometry.point import distance
from jigs.units import LONGEST, Mm

#: Ends no farther apart than this are one point: files keep four decimals or more.
JOINED: Mm = 0.005
#: A jig has a thousand lines, most of them strokes of letters, and a handful of outlines. Every
#: line is held against every other near it, so that crowds of them take minutes.
MOST_LINES = 10_000
MOST_CUT = 2_000
MOST_SIDES = 400_000
#: Said in every cut file of ours, so that it can be told when it is read back.
_MM = r"(\d{1,2}(?:\.\d{1,6})?)"
_KERF = re.compile(rf"Kerf {_MM}(?: mm:|: )")
_TABS = re.compile(rf"Tabs {_MM} mm:")
_LEAST = re.compile(rf"no bridge under {_MM} mm, no inner corner under {_MM} mm radius")


@dataclass(frozen=True, slots=True)
class CutFile:
    """The lines of a cut file on our four layers, in mm, y down."""

    kind: str
    drawing: Drawing
    layers: tuple[tuple[str, int], ...]
    """Each layer's name in the file, and how many lines or other things are on it."""
    notes: tuple[str, ...]
    """What was taken for granted, and what was not read."""
    kerf: Mm
    """The kerf that the file's own words say its outlines allow for; 0 without any."""
    tabs: Mm = 0.0
    """The bridges that the file's own words say are left uncut; 0 without any."""
    least: tuple[Mm, Mm] | None = None
    """Narrowest bridge and least inner radius of the file's material, if its own words say so."""


class Gathering:
    """Lines as they come out of a file, counted."""

    def __init__(self, place: Place) -> None:
        self.place = place
        self.lines: list[tuple[str, Path]] = []
        self.sides = 0
        self.seen = 0
        self.counts: Counter[str] = Counter()
        self.unread: Counter[str] = Counter()

    def add(self, layer: str, segments: Sequence[Segment]) -> None:
        """Take a line on a layer.

        Raises:
            BadInput: there are too many, or its numbers are none for a plate.
        """
        self.count(layer)
        self.sides += len(segments)
        if self.sides > MOST_SIDES:
            raise BadInput(
                self.place, f"the file has more than {MOST_SIDES} sides", "simplify the drawing"
            )
        if not segments:
            return
        for segment in segments:
            points = (segment.p, segment.q) if isinstance(segment, Cubic) else ()
            numbers = [n for point in (segment.a, segment.b, *points) for n in point]
            numbers += [segment.bulge] if isinstance(segment, Arc) else []
            if not all(math.isfinite(n) and abs(n) <= 1e6 for n in numbers):
                allowed = "allowed: lengths of a plate, in mm"
                raise BadInput(self.place, "a line has coordinates that are none", allowed)
        self.lines.append((layer, Path(tuple(segments))))

    def count(self, layer: str) -> None:
        """Count one thing on a layer.

        Raises:
            BadInput: there are too many.
        """
        self.see()
        self.counts[layer] += 1

    def see(self) -> None:
        """Count one thing that is looked at, drawn or not.

        Raises:
            BadInput: there are too many.
        """
        self.seen += 1
        if self.seen > MOST_LINES:
            found = f"the file has more than {MOST_LINES} lines"
            raise BadInput(self.place, found, "inspect a file of one jig")

    def skip(self, what: str, layer: str) -> None:
        """Count something that is not read."""
        self.unread[what] += 1
        self.count(layer)

    def done(self, kind: str, said: str, notes: Iterable[str] = ()) -> CutFile:
        """Return what was gathered, with what the file says of itself in words.

        Raises:
            BadInput: no line is on the cut layer, or they reach farther than any plate.
        """
        names = {layer.value: layer for layer in Layer}
        shapes = []
        for layer in Layer:
            paths = [path for name, path in self.lines if name.lower() == layer.value]
            shapes += [Shape(layer, path) for path in joined(paths, chains=layer is Layer.CUT)]
        drawing = Drawing(tuple(shapes))
        if not drawing.shapes(Layer.CUT):
            found = f"no line on the layer {Layer.CUT.value!r}; it has {self._layers()}"
            raise BadInput(self.place, found, f"allowed: layers {', '.join(names)}")
        if len(drawing.shapes(Layer.CUT)) > MOST_CUT:
            found = f"the file has more than {MOST_CUT} cut lines"
            raise BadInput(self.place, found, "inspect a file of one jig")
        box = Drawing(drawing.shapes(Layer.CUT)).bounds()
        if max(box.width, box.height) > LONGEST:
            found = f"the cut lines reach over {box.width:.6g} × {box.height:.6g} mm"
            raise BadInput(self.place, found, f"allowed: up to {LONGEST:g} mm; is the unit right?")
        other = [name for name in self.counts if name.lower() not in names]
        more = [f"{n} {what} not read" for what, n in sorted(self.unread.items())]
        more += (
            [f"what is on other layers is not judged: {', '.join(sorted(other))}"] if other else []
        )
        kerf, tabs, least = (one.search(said) for one in (_KERF, _TABS, _LEAST))
        return CutFile(
            kind,
            drawing,
            tuple(sorted(self.counts.items())),
            (*notes, *more),
            float(kerf[1]) if kerf else 0.0,
            float(tabs[1]) if tabs else 0.0,
            (float(least[1]), float(least[2])) if least else None,
        )

    def _layers(self) -> str:
        return ", ".join(sorted(self.counts)[:6]) or "none"


def joined(paths: Sequence[Path], *, chains: bool) -> list[Path]:
    """Return lines with ends that meet made one point, and lines that meet end to end made one.

    Drawing programs take an outline apart into lines and arcs. Where more than two ends meet,
    nothing is joined.
    """
    snapped = [_closed(path) for path in paths]
    if not chains:
        return snapped
    loose = {k: path for k, path in enumerate(snapped) if not path.closed}
    ends: dict[tuple[int, int], list[int]] = {}
    for k, path in loose.items():
        for point in (path.start, path.end):
            ends.setdefault(_cell(point), []).append(k)
    made = [path for path in snapped if path.closed]
    while loose:
        first, chain = loose.popitem()
        for _ in range(2):
            while not chain.closed:
                here = [k for k in ends[_cell(chain.end)] if k in loose]
                if len(here) != 1 or len(ends[_cell(chain.end)]) != 2:
                    break
                following = loose.pop(here[0])
                if _cell(following.start) != _cell(chain.end):
                    following = following.reversed()
                chain = _closed(chain.then(_from(chain.end, following)))
            chain = chain.reversed()
        made.append(chain)
        del first
    return made


def _cell(point: Point) -> tuple[int, int]:
    return round(point.x / (2 * JOINED)), round(point.y / (2 * JOINED))


def _closed(path: Path) -> Path:
    """Return a line whose ends are one point if they nearly are; one that is no more is left."""
    if path.closed or distance(path.start, path.end) > JOINED or path.length() <= 3 * JOINED:
        return path
    *others, last = path.segments
    return Path((*others, ended(last, path.start)))


def _from(start: Point, path: Path) -> Path:
    first, *others = path.segments
    return Path((ended(first.reversed(), start).reversed(), *others))
