"""What the lengths of a table must be to each other, and what merely looks like a slip."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from statistics import median

from jigs.errors import BadInput, Finding, Place
from jigs.tables.points import BELOW, MAY_BE_EQUAL, REQUIRED
from jigs.tables.sheet import Sheet
from jigs.units import INCH, Mm, say, unit_worth

#: A step is a jump when it is this many times the middle one, and more than this long.
_JUMP_TIMES = 3.0
_JUMP_LEAST: Mm = 0.5 * INCH
#: Shoulder slopes in degrees beyond which a table's figures are probably not what they say.
#: Drafting takes 13 to 26 (from memory); the rest is allowance for how garments are laid.
_SLOPES = (8.0, 32.0)


def broken_rules(sheet: Sheet, place: Place) -> Iterator[BadInput]:
    """Yield every length that no garment can have beside the others."""
    here = place.at("measurements")
    for width, length in REQUIRED:
        yield from _ungraded(sheet, width, here, may_stay=False)
        yield from _ungraded(sheet, length, here, may_stay=True)
    for (smaller, larger), gap in BELOW.items():
        yield from _not_below(sheet, smaller, larger, gap, here)
    for point, tolerance in sheet.tolerances.items():
        known = [length for length in sheet.rows.get(point, ()) if length is not None]
        if known and tolerance >= min(known):
            found = f"found {_said(tolerance, sheet)}, with {point} {_said(min(known), sheet)}"
            allowed = "a tolerance is smaller than the length it belongs to"
            yield BadInput(place.at("tolerances").at(point), found, allowed)


def findings(sheet: Sheet, place: Place) -> Iterator[Finding]:
    """Yield what a table without broken rules is worth a second look for."""
    here = place.at("measurements")
    for point, row in sheet.rows.items():
        lengths = [length for length in row if length is not None]
        yield from _jumps(sheet, point, lengths, here.at(point))
    yield from _steep(sheet, here.at("shoulder_drop"))
    width = next(width for width, _ in REQUIRED if width in sheet.rows)
    widths = [length for length in sheet.rows[width] if length is not None]
    steps = [b - a for a, b in pairwise(widths)]
    tolerance = sheet.tolerance(width)
    # Common practice: sizes whose tolerances meet cannot be told apart.
    if steps and tolerance >= min(steps) / 2:
        says = (
            f"the tolerance {_said(tolerance, sheet)} is not below half the smallest step "
            f"between sizes, {_said(min(steps), sheet)}: neighbouring sizes overlap"
        )
        yield Finding(blocks=False, about=str(place.at("tolerances").at(width)), says=says)


def _ungraded(sheet: Sheet, point: str, place: Place, *, may_stay: bool) -> Iterator[BadInput]:
    row = sheet.rows.get(point, ())
    for index, (before, length) in enumerate(pairwise(row), start=1):
        if before is None or length is None:
            continue
        if length < before or (length == before and not may_stay):
            found = (
                f"size {sheet.sizes[index]}: found {_said(length, sheet)}, "
                f"after size {sheet.sizes[index - 1]} with {_said(before, sheet)}"
            )
            rule = "does not shrink from size to size" if may_stay else "grows from size to size"
            yield BadInput(place.at(point).at(index), found, f"{point} {rule}")


def _not_below(
    sheet: Sheet, smaller: str, larger: str, gap: Mm, place: Place
) -> Iterator[BadInput]:
    equal = (smaller, larger) in MAY_BE_EQUAL
    rule = f"{smaller} {'is at most' if equal else 'is smaller than'} {larger}"
    allowed = f"{rule}, by more than {_said(gap, sheet)}" if gap else rule
    rows = zip(sheet.sizes, sheet.rows.get(smaller, ()), sheet.rows.get(larger, ()), strict=False)
    for index, (size, low, high) in enumerate(rows):
        if low is None or high is None or low + gap < high or (equal and low == high):
            continue
        found = f"size {size}: found {_said(low, sheet)}, with {larger} {_said(high, sheet)}"
        yield BadInput(place.at(smaller).at(index), found, allowed)


def _jumps(sheet: Sheet, point: str, row: Sequence[Mm], place: Place) -> Iterator[Finding]:
    steps = [b - a for a, b in pairwise(row)]
    usual = median(abs(step) for step in steps) if steps else 0.0
    for index, step in enumerate(steps, start=1):
        size = f"from size {sheet.sizes[index - 1]} to {sheet.sizes[index]}"
        about = str(place.at(index))
        if abs(step) > max(_JUMP_TIMES * usual, _JUMP_LEAST):
            says = (
                f"{point} jumps by {_said(step, sheet)} {size}; "
                f"the middle step is {_said(usual, sheet)}"
            )
            yield Finding(blocks=False, about=about, says=says)
        elif step < 0:
            says = f"{point} shrinks by {_said(-step, sheet)} {size}"
            yield Finding(blocks=False, about=about, says=says)


def _steep(sheet: Sheet, place: Place) -> Iterator[Finding]:
    names = ("neck_width", "across_shoulder", "shoulder_drop")
    rows = [sheet.rows.get(name, ()) for name in names]
    for index, (neck, across, drop) in enumerate(zip(*rows, strict=False)):
        if neck is None or across is None or drop is None:
            continue
        slope = math.degrees(math.atan2(2 * drop, across - neck))
        if not _SLOPES[0] <= slope <= _SLOPES[1]:
            says = (
                f"the shoulder of size {sheet.sizes[index]} slopes by {slope:.0f} degrees; "
                f"shoulders slope by {_SLOPES[0]:.0f} to {_SLOPES[1]:.0f}"
            )
            yield Finding(blocks=False, about=str(place.at(index)), says=says)


def _said(length: Mm, sheet: Sheet) -> str:
    """Return a length in the table's own way of measuring, inches or millimetres."""
    return say(length, "in" if unit_worth(sheet.words["unit"]) == INCH else "mm")
