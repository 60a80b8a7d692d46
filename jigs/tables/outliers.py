"""Which measured garments are not like the others, or not what the table says: to be looked at.

Nothing is ever left out for it; whoever measures decides.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean, median, stdev

from jigs.errors import Finding, Place
from jigs.tables.measured import Piece
from jigs.tables.sheet import Sheet, lengths_of
from jigs.tables.spread import exceeds, scatter
from jigs.tables.student import grubbs
from jigs.units import Mm

#: From so many garments on Grubbs' test is used, two-sided at 5 %. "The test should not be used
#: for sample sizes of six or fewer" (NIST/SEMATECH e-Handbook, 1.3.5.17.1).
_FOR_GRUBBS = 7
_RISK = 0.05


@dataclass(frozen=True, slots=True)
class Oddity:
    """One length of one garment that is to be looked at: where it stands, and what is odd."""

    place: Place
    point: str
    says: str


def odd_garments(sheet: Sheet, place: Place) -> Iterator[Finding]:
    """Yield what is strange about the garments that were measured, garment by garment at last."""
    for point, sizes in sheet.garments.items():
        here = place.at("measured").at(point)
        yield from _varying(sheet, point, here)
        for index in sizes:
            at = here.at(sheet.sizes[index])
            says = _not_as_given(sheet, point, index)
            yield from [Finding(blocks=False, about=str(at), says=says)] if says else []
            for one in _apart(sheet, point, index):
                says = f"{one.says}; if the garment is wrong, delete its length there"
                yield Finding(blocks=False, about=str(one.place), says=says)


def oddities(sheet: Sheet) -> Iterator[Oddity]:
    """Yield each length that is odd by itself: apart from others, or alone and not as given."""
    for point, sizes in sheet.garments.items():
        for index, pieces in sizes.items():
            yield from _apart(sheet, point, index)
            says = _not_as_given(sheet, point, index) if len(pieces) == 1 else ""
            yield from [Oddity(pieces[0].place, point, says)] if says else []


def _apart(sheet: Sheet, point: str, index: int) -> Iterator[Oddity]:
    """Yield the garments of a size that are not like its others."""
    pieces: Sequence[Piece] = sheet.garments[point][index]
    lengths = [one.mm for one in pieces]
    for garment in odd_ones(lengths, _given(sheet, point, index), sheet.tolerance(point)):
        says = (
            f"{point} {sheet.said(lengths[garment])} is far from that of the other garments of "
            f"size {sheet.sizes[index]} ({len(pieces)} measured, middle "
            f"{sheet.said(median(lengths))}){_like(sheet, point, index, lengths[garment])}"
        )
        yield Oddity(pieces[garment].place, point, says)


def _given(sheet: Sheet, point: str, index: int) -> Mm | None:
    return sheet.given[point][index] if point in sheet.given else None


def odd_ones(lengths: Sequence[Mm], given: Mm | None, tolerance: Mm) -> list[int]:
    """Return which of a size's garments lie apart.

    From seven on by Grubbs' test, if they lie half the tolerance from the mean as well: where the
    rest read alike, a millimetre would be enough. Fewer cannot be tested: then those are meant
    that lie further than the tolerance from the middle of the others, and from the table's own
    length if there is one; of two garments without a table's length neither is the odd one
    (common practice, no source).
    """
    pieces = len(lengths)
    if pieces >= _FOR_GRUBBS:
        mean, spread = fmean(lengths), stdev(lengths)
        bound = grubbs(pieces, _RISK / (2 * pieces)) * spread
        return [k for k, one in enumerate(lengths) if abs(one - mean) > max(bound, tolerance / 2)]
    found = []
    for k, one in enumerate(lengths):
        others = [*lengths[:k], *lengths[k + 1 :]]
        if len(others) < 2 and (given is None or not others):
            continue
        apart = abs(one - median(others)) > tolerance
        if apart and (given is None or abs(one - given) > tolerance):
            found.append(k)
    return found


def _varying(sheet: Sheet, point: str, here: Place) -> Iterator[Finding]:
    """Yield that the garments of a point vary by more than its tolerance."""
    tolerance = sheet.tolerance(point)
    if exceeds(scatter(lengths_of(sheet.garments[point])), tolerance):
        widest = max(one.plus_minus for one in sheet.figures[point].values())
        says = (
            f"garments of one size vary by more than the tolerance {sheet.said(tolerance)}: "
            f"the plus-minus is {sheet.said(widest)}; measure more, or look for a slip"
        )
        yield Finding(blocks=False, about=str(here), says=says)


def _not_as_given(sheet: Sheet, point: str, index: int) -> str:
    """Return that a size measures something else than the table gives; nothing if it does not."""
    one, tolerance = sheet.figures[point][index], sheet.tolerance(point)
    given = _given(sheet, point, index)
    if given is None or abs(one.mm - given) <= tolerance:
        return ""
    garments = "one garment measures" if one.pieces == 1 else f"{one.pieces} garments measure"
    return (
        f"{garments} {point} {sheet.said(one.mm)}, but the table gives {sheet.said(given)} "
        f"± {sheet.said(tolerance)} for size {sheet.sizes[index]}: the table or the size is not "
        f"what it says{_like(sheet, point, index, one.mm)}"
    )


def _like(sheet: Sheet, point: str, index: int, length: Mm) -> str:
    """Return that a length is that of another size, if the table's lengths tell them apart."""
    row, tolerance = sheet.given.get(point, ()), sheet.tolerance(point)
    apart = {k: abs(length - one) for k, one in enumerate(row) if one is not None}
    if index not in apart:
        return ""
    nearest = min(apart, key=lambda k: apart[k])
    clear = apart[nearest] <= tolerance < apart[index]
    return f"; it looks like size {sheet.sizes[nearest]}" if clear else ""
