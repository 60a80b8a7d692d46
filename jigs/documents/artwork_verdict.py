"""What keeps artwork from being printed, in few words: for one look at the whole order."""

from collections.abc import Callable, Iterator, Sequence

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import GAP, LINE
from jigs.order.order import Transfer
from jigs.plan import HeldAt, Holding
from jigs.plan.held import SLACK, dense, ink_name, limit_of, main_inks, sized_by_specks
from jigs.plan.held_words import ppi_text, tiny
from jigs.plan.holding import DETAIL_SHARE, hidden
from jigs.units import POINT

_PIXELS = "pixels"


def stops_anywhere(art: Artwork, held: Holding) -> list[str]:
    """Return what blocks at any width: the file itself, its specks, an ink like the garment."""
    said = ["stray specks"] if sized_by_specks(art) else []
    inks = main_inks(art.detail) if art.detail else ()
    lost: dict[int, list[str]] = {}
    for one in held.contrasts:
        if one.ink < len(inks) and hidden(one) and inks[one.ink].share >= DETAIL_SHARE:
            lost.setdefault(one.ink, []).append(one.garment)
    said += [
        f"{ink_name(inks[ink])} hardly visible on {' and '.join(dict.fromkeys(garments))}"
        for ink, garments in lost.items()
    ]
    return [*said, *file_stops(art)]


def file_stops(art: Artwork) -> list[str]:
    """Return in few words that something was said of the file itself that blocks."""
    return ["see what is said of the file"] if any(one.blocks for one in art.findings) else []


def stops_at(row: HeldAt, transfer: Transfer) -> list[str]:
    """Return what does not hold at a width."""
    said = {LINE: "lines too thin", GAP: "gaps too narrow", _PIXELS: "too few pixels"}
    return [said[what] for what in _fails(row, transfer)]


def _fails(row: HeldAt, transfer: Transfer) -> tuple[str, ...]:
    fails = {
        LINE: row.line is not None and row.line < transfer.line * (1 - SLACK),
        GAP: row.gap is not None and row.gap < transfer.gap * (1 - SLACK),
        _PIXELS: row.ppi is not None and not dense(row.ppi, transfer.least_ppi),
    }
    return tuple(what for what, so in fails.items() if so)


def verdict(
    art: Artwork, held: Holding, transfer: Transfer, named: Callable[[Sequence[str]], str]
) -> str:
    """Return in a line whether a print holds, and on which of its sizes it does not."""
    blocks = stops_anywhere(art, held)
    said = [f"STOP: {', '.join(blocks)}"] if blocks else []
    return "; ".join([*said, *_by_size(held.rows, transfer, named)])


def _by_size(
    rows: Sequence[HeldAt], transfer: Transfer, named: Callable[[Sequence[str]], str]
) -> Iterator[str]:
    """Yield what fails on which sizes, and which hold; sizes with the same failings together."""
    if all(row.holds for row in rows):
        yield "holds on all sizes"
        return
    groups: dict[tuple[str, ...], list[HeldAt]] = {}
    for row in rows:
        groups.setdefault(_fails(row, transfer), []).append(row)
    for fails, alike in groups.items():
        sizes = named([key for row in alike for key in row.sizes])
        worst = ", ".join(_worst(what, alike, transfer) for what in fails)
        yield f"{sizes}: {f'NO, {worst}' if fails else 'holds'}"


def _worst(what: str, rows: Sequence[HeldAt], transfer: Transfer) -> str:
    """Return how far something falls short on the worst of some rows on which it does."""
    if what == _PIXELS:
        ppi = ppi_text(min(row.ppi for row in rows if row.ppi is not None))
        return f"{ppi} ppi, under {transfer.least_ppi:g}"
    lengths = (row.line if what == LINE else row.gap for row in rows)
    least = tiny(min(one for one in lengths if one is not None)).partition(" (")[0]
    return f"{what} {least}, under {limit_of(what, transfer) / POINT:.3g} pt"
