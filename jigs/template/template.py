"""A jig's geometry as the operator sees it: x to the right, y down, the centre line at x = 0."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jigs.garments._parts import both_sides, mirrored
from jigs.geometry import Arc, Box, Cubic, Path, Point
from jigs.geometry.contact import parameter_at
from jigs.locations import Location, Seen
from jigs.template.ranges import Run
from jigs.template.seat import Seat, Stand, relief
from jigs.units import Mm, say


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
    web: Mm = 5.0
    """The material's: no bridge is left narrower."""
    inner: Mm = 1.5
    """The material's: no inner corner has a smaller radius."""

    @property
    def relief(self) -> Mm:
        """How far below the seam's level the edge is on the centre line: more than 0 for a V."""
        half = len(self.edge.segments) // 2
        middle = self.edge.segments[half]
        return middle.at(0.5).y - self.level if isinstance(middle, Arc) else 0.0

    @property
    def print_text(self) -> str:
        """What the jig says of the prints it is for."""
        if self.prints:
            return self.prints
        return f"print {say(self.ink.width, self.unit)} × {say(self.ink.height, self.unit)}"

    @property
    def reach(self) -> Mm:
        """Half the width of the edge."""
        return self.edge.end.x

    @property
    def room(self) -> Mm:
        """Distance from the edge, on the centre line, to the window."""
        if self.hangs:
            return self.window.top - self.level
        return self.level - self.window.bottom


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
) -> Template:
    """Return the template of a run of sizes for a print of a width and height of ink.

    `trim` is the carrier left on each side of the ink, `slip` the window's room on each side.
    """
    jig = run.jig
    across = -jig.across if location.seen.mirrors else jig.across
    half = jig.seam.half
    seat = " or ".join(dict.fromkeys(one.seam.title for one in run.members))
    # A straight seam is drawn from itself: it is y = 0.
    level = half.a.y if half else 0.0
    top = level + jig.drop if jig.hangs else level - jig.drop - height
    ink = Box(across - width / 2, top, across + width / 2, top + height)
    window = ink.grown(trim + slip)
    if half:
        edge = _collar_edge(half, run.engaged)
    else:
        # It reaches to the centre line, or whatever stands for it, where its mark is.
        ends = min(window.left, 0.0), max(window.right, 0.0)
        edge = Path.through([Point(x, 0.0) for x in ends])
    return Template(
        title=location.title,
        seen=location.seen,
        seat=seat,
        how=_how(run.members),
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
    )


def _how(members: Sequence[Stand]) -> str:
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
