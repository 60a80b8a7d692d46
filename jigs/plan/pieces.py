"""A jig whose plate is larger than the cutter's bed or stock: its pieces, or why there are none."""

from dataclasses import dataclass, replace

from jigs.drawing.bed import MARGIN, Room, Split, Whole, split
from jigs.drawing.drawing import Drawing, Layer
from jigs.geometry import Box
from jigs.order.order import Cutter
from jigs.rules import Facts, Violation, check
from jigs.units import Mm, say

#: No joint comes nearer to the edge that seats, nor to the window's side by it from without.
_SEAT: Mm = 10.0
#: No joint comes nearer to a corner of the window, nor to its side by the edge from within.
_CORNER: Mm = 15.0
_ELSE = "Cut it elsewhere, or use the paper jig"


@dataclass(frozen=True, slots=True)
class Cutting:
    """How a plate is cut: in one, in pieces, or not at all; and what is to be said of it."""

    pieces: tuple[Drawing, ...]
    """Empty if the plate cannot be cut on the bed."""
    remark: str | None = None


def cutting(drawing: Drawing, facts: Facts, cutter: Cutter, unit: str, *, hangs: bool) -> Cutting:
    """Return a jig's plate as the bed and the stock take it."""
    plate = Drawing(drawing.shapes(Layer.CUT)).bounds()
    sheet = cutter.sheet
    room = Room(sheet[0] - 2 * MARGIN, sheet[1] - 2 * MARGIN)
    if room.takes(plate.width, plate.height):
        return Cutting((drawing,))
    large = (
        f"the plate is {say(plate.width, unit)} × {say(plate.height, unit)}, larger than the "
        f"{'bed' if cutter.stock is None else 'bed and stock'} of {say(sheet[0], unit)} × "
        f"{say(sheet[1], unit)} with {say(MARGIN, unit)} left all round"
    )
    try:
        found = split(
            drawing,
            room,
            web=facts.least_web,
            inner=facts.least_inner,
            keep=_kept(facts, plate, hangs=hangs),
            window=Box.of_all(facts.windows) if facts.windows else None,
            fit=cutter.fit,
        )
    except Whole as why:
        return Cutting((), f"{large}, and cannot be split: {why}. {_ELSE}")
    faults = _faults(found, facts)
    if faults:
        broken = f"a joint would break a rule ({faults[0].rule}): {faults[0].says}"
        return Cutting((), f"{large}, and cannot be split: {broken}. {_ELSE}")
    return Cutting(found.pieces, f"{large}: it is cut in {len(found.pieces)} pieces{_harm(found)}")


def _harm(found: Split) -> str:
    """Return what joints run through, for people."""
    said = []
    if found.frame:
        said.append("joints run through the frame beside the window: join them on a flat table")
    if found.words:
        words = ", ".join(repr(word) for word in found.words[:2])
        said.append(f"a joint runs through {words}{' and more' if len(found.words) > 2 else ''}")
    return "; " + "; ".join(said) if said else ""


def _kept(facts: Facts, plate: Box, *, hangs: bool) -> list[Box]:
    """Return where no joint may come: the seat edge, the window's side by it, its far corners."""
    kept = []
    if facts.seat is not None:
        edge = facts.seat.bounds()
        left, right = facts.engaged or (edge.left, edge.right)
        edge = Box(max(left, plate.left), edge.top, min(right, plate.right), edge.bottom)
        kept.append(edge.grown(_SEAT))
    for window in facts.windows:
        near, far = (window.top, window.bottom) if hangs else (window.bottom, window.top)
        above, below = (_SEAT, _CORNER) if hangs else (_CORNER, _SEAT)
        kept.append(Box(window.left - _SEAT, near - above, window.right + _SEAT, near + below))
        kept += [Box(x, far, x, far).grown(_CORNER) for x in (window.left, window.right)]
    return kept


def _faults(found: Split, facts: Facts) -> list[Violation]:
    """Return what breaks a rule; seat and whole window must be on one of the pieces."""
    of_one = {"seat", *(() if found.frame else ("window",))}
    asked = replace(facts, windows=()) if found.frame else facts
    each = [check(piece, asked) for piece in found.pieces]
    faults = [fault for one in each for fault in one if fault.rule not in of_one]
    for rule in sorted(of_one):
        missing = [[fault for fault in one if fault.rule == rule] for one in each]
        faults += [] if any(not one for one in missing) else missing[0]
    return faults
