"""What the lengths of a table must be to each other, and what merely looks like a slip."""

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise
from statistics import median

from jigs.errors import BadInput, Finding, Place
from jigs.tables.points import BELOW, MAY_BE_EQUAL, REQUIRED
from jigs.tables.sheet import Sheet
from jigs.units import INCH, Mm

#: A step is a jump when it is this many times the middle one, and more than this long.
_JUMP_TIMES = 3.0
_JUMP_LEAST: Mm = 0.5 * INCH
#: Shoulder slopes in degrees beyond which a table's figures are probably not what they say.
#: Drafting takes 13 to 26 (from memory); the rest is allowance for how garments are laid.
_SLOPES = (8.0, 32.0)
#: Least and most half chest by age: half the chest girths of bodies (Craft Yarn Council, body
#: sizes: baby 3 to 24 months; child 2 to 6; child 4 to 16; women XS to men 5X), with ease.
#: Ease round the chest from -50 mm, a knit that stretches, to 200 mm, an oversized garment
#: (common practice, no source).
HALF_CHESTS: Mapping[str, tuple[Mm, Mm]] = {
    "infant": (177.5, 352.5),
    "toddler": (240.0, 417.5),
    "youth": (267.5, 512.5),
    "adult": (330.0, 912.5),
}


def broken_rules(sheet: Sheet, place: Place) -> Iterator[BadInput]:
    """Yield every length that no garment can have beside the others."""
    for width, length in REQUIRED:
        yield from _ungraded(sheet, width, place, may_stay=False)
        yield from _ungraded(sheet, length, place, may_stay=True)
    for (smaller, larger), gap in BELOW.items():
        yield from _not_below(sheet, smaller, larger, gap, place)
    for point, tolerance in sheet.tolerances.items():
        known = [length for length in sheet.rows.get(point, ()) if length is not None]
        if known and tolerance >= min(known):
            found = f"found {sheet.said(tolerance)}, with {point} {sheet.said(min(known))}"
            allowed = "a tolerance is smaller than the length it belongs to"
            yield BadInput(place.at("tolerances").at(point), found, allowed)
    for point, sizes in sheet.figures.items():
        for index, one in sizes.items():
            if one.pieces > 1 and one.plus_minus >= one.mm:
                found = (
                    f"{one.pieces} garments come to {sheet.said(one.mm)} "
                    f"± {sheet.said(one.plus_minus)}"
                )
                allowed = "garments that vary by less than the length: look for a slip among them"
                yield BadInput(sheet.place(point, index, place), found, allowed)


def findings(sheet: Sheet, place: Place) -> Iterator[Finding]:
    """Yield what a table without broken rules is worth a second look for."""
    for point in sheet.rows:
        yield from _jumps(sheet, point, place)
    yield from _steep(sheet, place)
    yield from _beyond_age(sheet, place)
    width = next(width for width, _ in REQUIRED if width in sheet.rows)
    widths = [length for length in sheet.rows[width] if length is not None]
    steps = [b - a for a, b in pairwise(widths)]
    tolerance = sheet.tolerance(width)
    # Common practice: sizes whose tolerances meet cannot be told apart.
    if steps and tolerance >= min(steps) / 2:
        says = (
            f"the tolerance {sheet.said(tolerance)} is not below half the smallest step "
            f"between sizes, {sheet.said(min(steps))}: neighbouring sizes overlap"
        )
        yield Finding(blocks=False, about=str(place.at("tolerances").at(width)), says=says)


def _ungraded(sheet: Sheet, point: str, place: Place, *, may_stay: bool) -> Iterator[BadInput]:
    row = sheet.rows.get(point, ())
    for index, (before, length) in enumerate(pairwise(row), start=1):
        if before is None or length is None:
            continue
        if length < before or (length == before and not may_stay):
            found = (
                f"size {sheet.sizes[index]}: found {sheet.said(length)}, "
                f"after size {sheet.sizes[index - 1]} with {sheet.said(before)}"
            )
            rule = "does not shrink from size to size" if may_stay else "grows from size to size"
            at = _new_one(sheet, point, index - 1, index)
            yield BadInput(sheet.place(point, at, place), found, f"{point} {rule}")


def _new_one(sheet: Sheet, point: str, before: int, index: int) -> int:
    """Return which of two sizes is to be named: the second, or the one that was measured."""
    only_first = sheet.is_measured(point, before) and not sheet.is_measured(point, index)
    return before if only_first else index


def _not_below(
    sheet: Sheet, smaller: str, larger: str, gap: Mm, place: Place
) -> Iterator[BadInput]:
    equal = (smaller, larger) in MAY_BE_EQUAL
    rule = f"{smaller} {'is at most' if equal else 'is smaller than'} {larger}"
    allowed = f"{rule}, by more than {sheet.said(gap)}" if gap else rule
    rows = zip(sheet.sizes, sheet.rows.get(smaller, ()), sheet.rows.get(larger, ()), strict=False)
    for index, (size, low, high) in enumerate(rows):
        if low is None or high is None or low + gap < high or (equal and low == high):
            continue
        place_of, here, beside, other = smaller, low, larger, high
        if sheet.is_measured(larger, index) and not sheet.is_measured(smaller, index):
            place_of, here, beside, other = larger, high, smaller, low
        found = f"size {size}: found {sheet.said(here)}, with {beside} {sheet.said(other)}"
        yield BadInput(sheet.place(place_of, index, place), found, allowed)


def _jumps(sheet: Sheet, point: str, place: Place) -> Iterator[Finding]:
    known = [(i, length) for i, length in enumerate(sheet.rows[point]) if length is not None]
    steps = [b - a for (_, a), (_, b) in pairwise(known)]
    usual = median(abs(step) for step in steps) if steps else 0.0
    for step, ((before, _), (index, _)) in zip(steps, pairwise(known), strict=True):
        size = f"from size {sheet.sizes[before]} to {sheet.sizes[index]}"
        about = str(sheet.place(point, _new_one(sheet, point, before, index), place))
        if abs(step) > max(_JUMP_TIMES * usual, _JUMP_LEAST):
            says = (
                f"{point} jumps by {sheet.said(step)} {size}; "
                f"the middle step is {sheet.said(usual)}"
            )
            yield Finding(blocks=False, about=about, says=says)
        elif step < 0:
            says = f"{point} shrinks by {sheet.said(-step)} {size}"
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
            yield Finding(blocks=False, about=str(sheet.place(names[2], index, place)), says=says)


def _beyond_age(sheet: Sheet, place: Place) -> Iterator[Finding]:
    least, most = HALF_CHESTS.get(sheet.words["age"], (0.0, math.inf))
    row = enumerate(sheet.rows.get("half_chest", ()))
    beyond = [(i, one) for i, one in row if one is not None and not least <= one <= most]
    if beyond:
        index, length = beyond[0]
        more = f", and of {len(beyond) - 1} more sizes" if len(beyond) > 1 else ""
        says = (
            f"the half chest of size {sheet.sizes[index]}, {sheet.said(length)}{more}, is not from "
            f"{sheet.said(least)} to {sheet.said(most)}, as on {sheet.words['age']} garments: "
            f"is the unit right? it is {sheet.words['unit']!r}"
        )
        yield Finding(blocks=False, about=str(sheet.place("half_chest", index, place)), says=says)
