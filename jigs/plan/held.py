"""What artwork comes to at a printed width: its lines, gaps and pixels; its inks on a garment.

All that a close look found grows with the print. A line or a gap that is half as wide as its
limit at one width is therefore as wide as the limit at twice that width.
"""

from collections.abc import Iterable, Sequence

from jigs.artwork.artwork import Artwork
from jigs.artwork.colour import colour_name, contrast, difference
from jigs.artwork.detail import GAP, LINE, Detail, Ink, Thin
from jigs.geometry import Box, Point
from jigs.geometry.point import distance
from jigs.order.order import Transfer
from jigs.plan.plan import Contrast, HeldAt
from jigs.units import INCH, Mm

#: As much as a width may fall short of a limit by reckoning alone.
SLACK = 1e-9
#: As much as pixels may fall short: files keep their resolution in whole pixels per metre.
PPI_SLACK = 0.001
#: So many times its limit a line or a gap is wide, and how wide says nothing (our own choice).
WIDE = 10
#: Widths within this part of each other may be those of one stroke (our own choice).
_ALIKE = 0.05
#: So many shades stand for all of them.
_SHADES = 4
#: Part by which specks may widen the artwork before they set its size (our own choice).
_WIDER = 0.01


def at_width(art: Artwork, length: Mm, width: Mm) -> Mm:
    """Return how long a length of the file is when the ink is printed at a width."""
    return length * width / art.ink.width


def limit_of(kind: str, transfer: Transfer) -> Mm:
    """Return how wide a line or a gap must be."""
    return transfer.line if kind == LINE else transfer.gap


def judged(detail: Detail) -> tuple[Thin, ...]:
    """Return the places that must hold, thinnest first, each once.

    Each ink's own lines, since each is printed by itself; but only the gaps that no other ink
    fills. In shades of colour the lines of one of them mean nothing, and a speck is no line.
    """
    found: list[Thin] = []
    for one in sorted(places_in(detail), key=lambda each: (each.width, each.ink is None)):
        whole = one.ink is None or len(detail.inks) == 1
        counts = whole or (detail.flat and (one.kind == LINE or _open(one, detail)))
        if counts and not any(_same(one, other) for other in found):
            found.append(one)
    return tuple(found)


def places_in(detail: Detail) -> tuple[Thin, ...]:
    """Return the thin places that are not in a speck."""
    return tuple(
        one for one in detail.thin if not any(_inside(box, one.at) for box in detail.specks)
    )


def thinnest_of(detail: Detail, ink: int | None, kind: str) -> Thin | None:
    """Return an ink's thinnest place of a kind; a single ink's may be known as all ink's."""
    places = places_in(detail)
    own = thinnest((one for one in places if one.ink == ink), kind)
    if own is None and len(detail.inks) == 1:
        return thinnest(places, kind)
    return own


def main_inks(detail: Detail) -> tuple[Ink, ...]:
    """Return the inks that are told of: all, or the heaviest of many shades."""
    return detail.inks if detail.flat else detail.inks[:_SHADES]


def told(places: Sequence[Thin]) -> tuple[Thin, ...]:
    """Return places with at most two of each stroke, as far apart as they are.

    What is of one ink, one kind and one width is taken for one stroke. The order stays, but the
    second of a stroke comes after all the first ones.
    """
    strokes: list[list[Thin]] = []
    for one in places:
        own = next((stroke for stroke in strokes if _alike(stroke[0], one)), None)
        if own is None:
            strokes.append([one])
        else:
            own.append(one)
    firsts = [stroke[0] for stroke in strokes]
    seconds = [
        max(rest, key=lambda one: distance(one.at, first.at)) for first, *rest in strokes if rest
    ]
    return (*firsts, *seconds)


def _alike(one: Thin, other: Thin) -> bool:
    as_wide = abs(one.width - other.width) <= _ALIKE * max(one.width, other.width)
    return one.kind == other.kind and one.ink == other.ink and as_wide


def _inside(box: Box, at: Point) -> bool:
    return box.left <= at.x <= box.right and box.top <= at.y <= box.bottom


def sized_by_specks(art: Artwork) -> bool:
    """Return whether specks make the artwork larger than it is."""
    body = art.detail.body if art.detail and art.detail.specks else None
    return body is not None and (
        body.width < art.ink.width * (1 - _WIDER) or body.height < art.ink.height * (1 - _WIDER)
    )


def filled(detail: Detail) -> tuple[Thin, ...]:
    """Return the gaps in one ink that another fills, narrowest first."""
    gaps = [one for one in places_in(detail) if one.kind == GAP and one.ink is not None]
    if len(detail.inks) == 1 or not detail.flat:
        return ()
    return tuple(sorted((one for one in gaps if not _open(one, detail)), key=lambda one: one.width))


def _open(gap: Thin, detail: Detail) -> bool:
    """Return whether a gap in one ink is one in all ink."""
    return any(other.ink is None and _same(gap, other) for other in detail.thin)


def _same(one: Thin, other: Thin) -> bool:
    return one.kind == other.kind and near(one, other)


def near(one: Thin, other: Thin) -> bool:
    """Return whether two places are hardly farther apart than they are wide."""
    return distance(one.at, other.at) <= 2 * max(one.width, other.width)


def thinnest(places: Iterable[Thin], kind: str) -> Thin | None:
    """Return the thinnest of one kind; None if there is none."""
    return min((one for one in places if one.kind == kind), key=lambda one: one.width, default=None)


def least_width(art: Artwork, place: Thin, transfer: Transfer) -> Mm:
    """Return the least width at which a place is as wide as its limit."""
    return limit_of(place.kind, transfer) / place.width * art.ink.width


def thicken_by(art: Artwork, place: Thin, width: Mm, transfer: Transfer) -> Mm:
    """Return what a place lacks at a width, from side to side; 0 if nothing."""
    return max(limit_of(place.kind, transfer) - at_width(art, place.width, width), 0.0)


def densities(art: Artwork) -> list[tuple[float, Box | None]]:
    """Return pixels per mm at the size of the file's page: of it all, or of parts with boxes."""
    found: list[tuple[float, Box | None]] = []
    if art.density:
        found.append((art.density, None))
    for one in art.detail.remarks if art.detail else ():
        if one.pixels and one.where is not None:
            # Pixels are counted along what was the width before the artwork was turned.
            across = one.where.height if art.turn % 180 else one.where.width
            found.append((one.pixels / across, one.where))
    return found


def ppi_at(art: Artwork, density: float, width: Mm) -> float:
    """Return the pixels per inch of print that a density comes to at a width."""
    return density * INCH * art.ink.width / width


def width_for(art: Artwork, density: float, ppi: float) -> Mm:
    """Return the width at which a density comes to so many pixels per inch of print."""
    return density * INCH * art.ink.width / ppi


def held_at(art: Artwork, sizes: Sequence[str], width: Mm, transfer: Transfer) -> HeldAt:
    """Return how artwork holds at a width; it must have been looked at closely."""
    places = judged(art.detail) if art.detail else ()
    line, gap = (
        at_width(art, found.width, width) if (found := thinnest(places, kind)) else None
        for kind in (LINE, GAP)
    )
    ppi = min((ppi_at(art, density, width) for density, _ in densities(art)), default=None)
    return HeldAt(
        sizes=tuple(sizes),
        width=width,
        height=art.height_at(width),
        line=line,
        gap=gap,
        ppi=ppi,
        holds=(ppi is None or dense(ppi, transfer.least_ppi))
        and all(passes(art, place, width, transfer) for place in places),
    )


def dense(ppi: float, limit: float) -> bool:
    """Return whether there are as many pixels per inch as asked for."""
    return ppi >= limit * (1 - PPI_SLACK)


def passes(art: Artwork, place: Thin, width: Mm, transfer: Transfer) -> bool:
    """Return whether a place is as wide as it must be at a width."""
    limit = limit_of(place.kind, transfer)
    return at_width(art, place.width, width) >= limit * (1 - SLACK)


def contrasts(inks: Sequence[Ink], grounds: Iterable[tuple[str, str]]) -> tuple[Contrast, ...]:
    """Return each ink on each garment colour, which is a name and a `#rrggbb`."""
    return tuple(
        Contrast(k, name, ground, contrast(ink.colour, ground), difference(ink.colour, ground))
        for k, ink in enumerate(inks)
        for name, ground in dict.fromkeys(grounds)
    )


def ink_title(ink: Ink) -> str:
    """Return what an ink is called with its value: `navy (#1b2a4a)`."""
    short = ink_name(ink)
    return short if short == ink.colour else f"{short} ({ink.colour})"


def ink_name(ink: Ink) -> str:
    """Return what an ink is called: by the file, by what it looks like, or by its value."""
    return ink.name or colour_name(ink.colour) or ink.colour


def place_name(box: Box, at: Point) -> str:
    """Return where in a box a point lies: `upper left`, `right`, `middle`."""
    across = _third((at.x - box.left) / box.width, ("left", "", "right"))
    down = _third((at.y - box.top) / box.height, ("upper", "", "lower"))
    if down and not across:
        return {"upper": "top", "lower": "bottom"}[down]
    return " ".join(word for word in (down, across) if word) or "middle"


def _third(share: float, words: tuple[str, str, str]) -> str:
    return words[min(max(int(3 * share), 0), 2)]
