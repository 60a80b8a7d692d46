"""A jig's geometry as the operator sees it: x to the right, y down, the centre line at x = 0."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jigs.garments._parts import both_sides, mirrored
from jigs.geometry import Arc, Box, Cubic, Path, Point
from jigs.geometry.contact import parameter_at
from jigs.locations import Location, Seen
from jigs.template.ranges import Run
from jigs.template.seam_line import SeamLine
from jigs.template.seat import Seat, Stand, relief
from jigs.units import Mm, say

#: Sides of two openings that run into one another lie on one line, or are a step of this apart:
#: a smaller one leaves no room for its rounded corners.
STEP: Mm = 3.0
#: Sides nearer than this lie on one line.
_ONE: Mm = 0.01


@dataclass(frozen=True, slots=True)
class Beside:
    """The other print of a plate that serves two."""

    title: str
    seen: Seen
    ink: Box
    carrier: Box
    window: Box
    """The carrier and its slip; a side may be farther out, a step from the first's window."""
    drop: Mm
    drop_from: str
    seats: tuple[Seat, ...]


@dataclass(frozen=True, slots=True)
class Wish:
    """What a plate's other print is: where, and how large its ink is."""

    location: Location
    width: Mm
    height: Mm


@dataclass(frozen=True, slots=True)
class Template:
    """A jig without a style: an edge that seats on the garment and the print's place by it."""

    title: str
    """The location's title."""
    seen: Seen
    seat: str
    """What the edge seats on: `front collar seam`, `cuff seam`."""
    how: str
    """What the operator does first so that it can seat; empty if there is nothing to do."""
    level: Mm
    """y of the seam on the centre line: what the drop is measured from."""
    edge: Path
    """From left to right; a collar's is concave, a hem's straight.

    At the point of a V it is cut away in a small arc.
    """
    curved: bool
    """Whether the edge follows a collar."""
    hangs: bool
    """Whether the plate lies below its edge (collar) or above it (hem)."""
    ink: Box
    carrier: Box
    """The trimmed transfer."""
    window: Box
    """The carrier and its slip."""
    drop: Mm
    drop_from: str
    sizes: str
    """The sizes, for people: `adult crew tee S–XL`."""
    seats: tuple[Seat, ...]
    estimated: bool
    """Whether the collar of one of the sizes is an estimate."""
    reference: str
    """Order reference and print name, or what else tells the jig from others."""
    unit: str
    """`in` or `mm`: how the jig speaks."""
    trade: tuple[tuple[int, Mm], ...] = ()
    """With so many jigs for its width, the least greatest error in height."""
    prints: str = ""
    """What the jig is for where its prints differ in width, such as `numbers, 10 in high`.

    `ink` is then that of the widest.
    """
    beside: Beside | None = None
    """The other print of a plate that serves two."""
    seams: tuple[SeamLine, ...] = ()
    """Of a sheet laid on by eye: a line for every size. Nothing seats then; `edge` is the first."""
    web: Mm = 5.0
    """The material's: no bridge is left narrower."""
    inner: Mm = 1.5
    """The material's: no inner corner has a smaller radius."""

    @property
    def windows(self) -> tuple[Box, ...]:
        """The window of each of its prints."""
        return (self.window, self.beside.window) if self.beside else (self.window,)

    @property
    def inks(self) -> tuple[Box, ...]:
        """The ink of each of its prints."""
        return (self.ink, self.beside.ink) if self.beside else (self.ink,)

    @property
    def whole(self) -> Box:
        """The box of all its windows."""
        return Box.of_all(self.windows)

    @property
    def relief(self) -> Mm:
        """How far below the seam's level the edge is on the centre line: more than 0 for a V."""
        half = len(self.edge.segments) // 2
        middle = self.edge.segments[half]
        return middle.at(0.5).y - self.level if isinstance(middle, Arc) else 0.0

    @property
    def full_title(self) -> str:
        """The location's title, or both of a plate that serves two."""
        return f"{self.title} + {self.beside.title}" if self.beside else self.title

    @property
    def print_text(self) -> str:
        """What the jig says of the prints it is for."""
        if self.prints:
            return self.prints
        said = [f"{say(ink.width, self.unit)} × {say(ink.height, self.unit)}" for ink in self.inks]
        return f"print {' and '.join(said)}"

    @property
    def drops(self) -> tuple[Mm, Mm]:
        """The least drop and the most: of a sheet laid on by eye each size has its own."""
        drops = [line.drop for line in self.seams] or [self.drop]
        return min(drops), max(drops)

    @property
    def drop_text(self) -> str:
        """What the jig says of its drop."""
        least, most = self.drops
        if most - least < 0.05:
            return drop_text(self.drop, self.drop_from, self.unit, hangs=self.hangs)
        side = "below" if self.hangs else "above"
        return f"drop {say(least, self.unit)} to {say(most, self.unit)} {side} {self.drop_from}"

    @property
    def reach(self) -> Mm:
        """Half the width of the edge."""
        return self.edge.end.x

    @property
    def room(self) -> Mm:
        """Distance from the edge, on the centre line, to the nearest side of a window."""
        if self.hangs:
            return self.whole.top - self.level
        return self.level - self.whole.bottom


def template(
    run: Run,
    location: Location,
    *,
    width: Mm,
    height: Mm,
    trim: Mm,
    slip: Mm,
    sizes: str,
    reference: str,
    unit: str = "in",
    beside: Wish | None = None,
) -> Template:
    """Return the template of a run of sizes for a print of a width and height of ink.

    `trim` is the carrier left on each side of the ink, `slip` the window's room on each side.
    `beside` is the other print, of a run for two.
    """
    jig = run.jig
    half = jig.seam.half
    seat = seat_of(run.members)
    # A straight seam is drawn from itself: it is y = 0.
    level = half.a.y if half else 0.0
    ink = _ink(run, Wish(location, width, height), level)
    window = ink.grown(trim + slip)
    other = _beside(run, beside, level, window, trim, slip) if beside else None
    if half:
        edge = _collar_edge(half, run.engaged)
    else:
        # It reaches to the centre line, or whatever stands for it, where its mark is.
        windows = [window, *([other.window] if other else [])]
        ends = min(0.0, *(w.left for w in windows)), max(0.0, *(w.right for w in windows))
        edge = Path.through([Point(x, 0.0) for x in ends])
    return Template(
        title=location.title,
        seen=location.seen,
        seat=seat,
        how=how_of(run.members),
        level=level,
        edge=edge,
        curved=half is not None,
        hangs=location.hangs,
        ink=ink,
        carrier=ink.grown(trim),
        window=window,
        drop=run.drop,
        drop_from=location.drop_from if half else f"the {seat}",
        sizes=sizes,
        seats=run.seats,
        estimated=any(one.seam.estimated for one in run.members),
        reference=reference,
        unit=unit,
        beside=other,
    )


def _ink(run: Run, wish: Wish, level: Mm) -> Box:
    """Return where the ink lies, as the operator sees it."""
    jig = run.jig
    across = -jig.across if wish.location.seen.mirrors else jig.across
    top = level + jig.drop if jig.hangs else level - jig.drop - wish.height
    return Box(across - wish.width / 2, top, across + wish.width / 2, top + wish.height)


def _beside(run: Run, wish: Wish, level: Mm, first: Box, trim: Mm, slip: Mm) -> Beside:
    """Return the other print of a plate.

    Raises:
        ValueError: the run is for one print.
    """
    other = run.beside
    if other is None:
        raise ValueError("the run is for one print")
    ink, location = _ink(other, wish, level), wish.location
    window = ink.grown(trim + slip)
    return Beside(
        title=location.title,
        seen=location.seen,
        ink=ink,
        carrier=ink.grown(trim),
        window=_stepped(window, first, run.jig.hangs) if window.overlaps(first) else window,
        drop=other.drop,
        drop_from=location.drop_from if run.jig.seam.half else f"the {run.jig.seam.title}",
        seats=other.seats,
    )


def _stepped(window: Box, first: Box, hangs: bool) -> Box:  # noqa: FBT001
    """Return a window whose sides lie on the first's or a step away, moved out where they do not.

    The side nearest the plate's edge stays where it is: its transfer is laid against it.
    """

    def out(side: Mm, other: Mm, way: int) -> Mm:
        step = (side - other) * way
        if abs(step) < _ONE or abs(step) >= STEP:
            return side
        return other + way * STEP if step > 0 else other

    top = window.top if hangs else out(window.top, first.top, -1)
    bottom = out(window.bottom, first.bottom, 1) if hangs else window.bottom
    return Box(out(window.left, first.left, -1), top, out(window.right, first.right, 1), bottom)


def seat_of(members: Sequence[Stand]) -> str:
    """Return what a jig for some sizes seats on."""
    return " or ".join(dict.fromkeys(one.seam.title for one in members))


def how_of(members: Sequence[Stand]) -> str:
    """Return what to do before a jig can seat, with the garments it is for where not for all."""
    said = []
    for how in dict.fromkeys(one.seam.how for one in members if one.seam.how):
        garments = dict.fromkeys(one.garment for one in members if one.seam.how == how)
        everywhere = all(one.seam.how == how for one in members)
        said.append(how if everywhere else f"{' and '.join(garments)}: {how}")
    return "; ".join(said)


def size_names(keys: Sequence[str]) -> list[str]:
    """Return sizes (`table/size`) for people, short; with a word of the table where they differ."""
    tables = dict.fromkeys(key.partition("/")[0] for key in keys)
    if len(tables) == 1:
        return [key.partition("/")[2] for key in keys]
    return [f"{_word(table, tables)} {size}" for table, _, size in (k.partition("/") for k in keys)]


def _word(table: str, tables: Iterable[str]) -> str:
    """Return the first word of a table's name, or all of it where another's begins alike."""
    first = [name.split("-", maxsplit=1)[0] for name in tables]
    own = table.split("-", maxsplit=1)[0]
    return own if first.count(own) == 1 else table


def _collar_edge(half: Cubic, engaged: Mm) -> Path:
    """Return the edge along a collar, |x| up to what is engaged, cut away round a V's point."""
    used = half.split(parameter_at(half, engaged))[0]
    begin = relief(half)
    if begin == half.a:
        return both_sides(Path((used,)))
    right = Path((used.split(parameter_at(used, begin.x))[1],))
    left = mirrored(right)
    # Round the point, on the plate's side of it.
    turn = math.atan2(begin.x, half.a.y - begin.y)
    arc = Arc(left.end, right.start, -math.tan((math.pi - turn) / 2))
    return left.then(Path((arc,)), right)


def drop_text(drop: Mm, drop_from: str, unit: str, *, hangs: bool) -> str:
    """Return the drop as it is said to the operator, with its datum."""
    if drop < 0.05:
        return f"{'top' if hangs else 'bottom'} of the print level with {drop_from}"
    side = "below" if hangs else "above"
    return f"drop {say(drop, unit)} {side} {drop_from}"
