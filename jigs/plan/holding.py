"""Whether a print's artwork holds at its widths and shows on its garments, in words.

One finding for each thing that is wrong, whatever the number of sizes it is wrong on. What lies
below a limit of the shop's blocks; what is only weaker than usual is remarked.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import GAP, LINE, Detail, Remark, Thin
from jigs.artwork.remarks import LIVE
from jigs.errors import Finding
from jigs.geometry import Box
from jigs.order.order import Transfer
from jigs.plan.held import (
    SLACK,
    at_width,
    contrasts,
    dense,
    densities,
    filled,
    held_at,
    ink_title,
    judged,
    least_width,
    limit_of,
    main_inks,
    near,
    passes,
    place_name,
    ppi_at,
    sized_by_specks,
    thicken_by,
    thinnest,
    width_for,
)
from jigs.plan.held_words import at_least, at_most, hundredths, ppi_text, ratio_text, tiny
from jigs.plan.plan import Contrast, HeldAt, Holding
from jigs.units import POINT, Mm, say

#: Pixels per inch of print that are usually asked for (common practice, no source).
WANTED_PPI = 300.0
#: What WCAG 2.2 asks of graphics, success criterion 1.4.11.
WANTED_CONTRAST = 3.0
#: Below both of these an ink is hardly told from the garment: a third of what lies between no
#: contrast and the 3 above, and a difference of two neighbouring shades of one colour (common
#: practice, no source).
HIDDEN_CONTRAST, HIDDEN_DIFFERENCE = 1.5, 12.0
#: Part of the inked area below which an ink is mostly an outline or lies on another ink, so that
#: it is only remarked if it does not show (common practice, no source).
DETAIL_SHARE = 0.25
#: No print is wider: a width above it is no advice.
WIDEST: Mm = 2000.0
#: Widths of a line and of a gap within this part of each other may be of one stroke (likewise).
_FILLS = 0.1
_FAILS = {
    LINE: ("thinnest line", "break up", "thicken"),
    GAP: ("narrowest gap", "close up", "open"),
}


@dataclass(frozen=True, slots=True)
class Use:
    """How artwork is used: at which widths, on which colours, under which limits."""

    widths: tuple[tuple[Mm, tuple[str, ...]], ...]
    """Each with its sizes (`table/size`); without sizes outside an order."""
    grounds: tuple[tuple[str, str], ...]
    """Garment colours: name and `#rrggbb`."""
    transfer: Transfer
    unit: str = "in"
    sizes_text: Callable[[Sequence[str]], str] = ", ".join
    """Names sizes for people."""
    room: Callable[[Sequence[str]], Mm] = lambda _: math.inf
    """The greatest width that fits all of some sizes."""
    specks_ignored: bool = False
    ignoring: str = "set ignore_specks = true"
    """How specks are left out."""


def holding(art: Artwork, use: Use) -> Holding | None:
    """Return how artwork holds where it is used; None if it was not looked at closely."""
    if art.detail is None:
        return None
    rows = tuple(held_at(art, sizes, width, use.transfer) for width, sizes in use.widths)
    places = judged(art.detail)
    on = contrasts(art.detail.inks, use.grounds)
    least = max((least_width(art, one, use.transfer) for one in places), default=None)
    most = min(
        (width_for(art, density, use.transfer.least_ppi) for density, _ in densities(art)),
        default=None,
    )
    findings = [
        *(said for kind in (LINE, GAP) if rows for said in _thin(art, kind, rows, use)),
        *(_filled(art, art.detail, rows, use) if rows else ()),
        *(_pixels(art, rows, use) if rows else ()),
        *_on_garments(art.detail, on),
        *_specks(art, art.detail, use),
        *_remarks(art, art.detail, rows, use),
    ]
    return Holding(rows, least, most, on, tuple(findings))


def _about(art: Artwork, failing: Sequence[HeldAt], rows: Sequence[HeldAt], use: Use) -> str:
    keys = [key for row in failing for key in row.sizes]
    if not keys:
        return art.name
    return "all sizes" if len(failing) == len(rows) else use.sizes_text(keys)


def _at(failing: Sequence[HeldAt], unit: str) -> str:
    """Return the widths that fail: `3 1/2 in wide`, `3 1/2 in wide (and up to 4 in)`."""
    widths = [row.width for row in failing]
    first, last = say(min(widths), unit), say(max(widths), unit)
    return f"{first} wide" if first == last else f"{first} wide (and up to {last})"


def _ink_of(place: Thin, detail: Detail) -> str:
    """Return which ink a place is in, if there are several."""
    if place.ink is None or len(detail.inks) == 1:
        return ""
    return f" in {ink_title(detail.inks[place.ink])}"


def _thin(art: Artwork, kind: str, rows: Sequence[HeldAt], use: Use) -> Iterator[Finding]:
    """Yield a finding that blocks if the thinnest line or gap is too thin at some width."""
    detail, transfer = art.detail, use.transfer
    place = thinnest(judged(detail), kind) if detail else None
    if detail is None or place is None:
        return
    failing = [row for row in rows if not passes(art, place, row.width, transfer)]
    if not failing:
        return
    width = min(row.width for row in failing)
    what, fails, mend = _FAILS[kind]
    by = thicken_by(art, place, width, transfer)
    least = least_width(art, place, transfer)
    mended = f"{mend} it by {hundredths(by)} mm (half on each side)"
    rooms = [use.room(row.sizes) for row in failing]
    if least > WIDEST:
        wider = f"no width up to {WIDEST / 1000:g} m holds it: redraw it"
    elif least > max(rooms) * (1 + SLACK):
        most = at_most(max(rooms), use.unit)
        wider = f"it takes {at_least(least, use.unit)}, and no more than {most} fits: {mended}"
    else:
        where = " where that fits" if least > min(rooms) * (1 + SLACK) else ""
        wider = f"order at least {at_least(least, use.unit)} wide{where} or {mended}"
    says = (
        f"{_at(failing, use.unit)}: the {what}{_ink_of(place, detail)}, "
        f"{place_name(art.ink, place.at)}, is {tiny(at_width(art, place.width, width))}, under "
        f"{limit_of(kind, transfer) / POINT:.3g} pt: it will {fails}; {wider}"
    )
    yield Finding(blocks=True, about=_about(art, failing, rows, use), says=says)


def _filled(art: Artwork, detail: Detail, rows: Sequence[HeldAt], use: Use) -> Iterator[Finding]:
    """Yield a remark if a gap in one ink that another fills may close up."""
    narrowest = min(row.width for row in rows)
    lines = [
        one
        for one in judged(detail)
        if one.kind == LINE and not passes(art, one, narrowest, use.transfer)
    ]
    # What fills a gap may itself be a line that is too thin: that is said, and is all there is.
    gaps = (gap for gap in filled(detail) if not any(_fills(line, gap) for line in lines))
    for place in islice(gaps, 1):
        failing = [row for row in rows if not passes(art, place, row.width, use.transfer)]
        if failing:
            width = min(row.width for row in failing)
            says = (
                f"{_at(failing, use.unit)}: the narrowest gap{_ink_of(place, detail)} that another "
                f"ink fills, {place_name(art.ink, place.at)}, is "
                f"{tiny(at_width(art, place.width, width))}: let the inks overlap there"
            )
            yield Finding(blocks=False, about=_about(art, failing, rows, use), says=says)


def _fills(line: Thin, gap: Thin) -> bool:
    """Return whether a line may be what fills a gap in another ink."""
    alike = abs(line.width - gap.width) <= _FILLS * max(line.width, gap.width)
    return line.ink != gap.ink and (alike or near(line, gap))


def _pixels(art: Artwork, rows: Sequence[HeldAt], use: Use) -> Iterator[Finding]:
    """Yield a finding for each picture with too few pixels: it blocks below the shop's limit."""
    least, wanted = use.transfer.least_ppi, max(WANTED_PPI, use.transfer.least_ppi)

    def has(widest: Mm, what: str, density: float) -> str:
        ppi = ppi_text(ppi_at(art, density, widest))
        return f"{say(widest, use.unit)} wide: {what} has {ppi} ppi"

    for density, where in densities(art):
        what = f"the picture {place_name(art.ink, where.centre)}" if where else "the picture"
        few = [row for row in rows if not dense(ppi_at(art, density, row.width), least)]
        if few:
            widest = max(row.width for row in few)
            most = at_most(width_for(art, density, least), use.unit)
            says = (
                f"{has(widest, what, density)}, under {least:g}: its edges will show as "
                f"steps; get it larger, or order at most {most} wide"
            )
            yield Finding(blocks=True, about=_about(art, few, rows, use), says=says)
        soft = [
            row
            for row in rows
            if row not in few and not dense(ppi_at(art, density, row.width), wanted)
        ]
        if soft:
            widest = max(row.width for row in soft)
            says = (
                f"{has(widest, what, density)}, where {wanted:g} is usual: its edges may look soft"
            )
            yield Finding(blocks=False, about=_about(art, soft, rows, use), says=says)


def hidden(one: Contrast) -> bool:
    """Return whether an ink is hardly told from the garment it is on."""
    return one.ratio < HIDDEN_CONTRAST and one.difference < HIDDEN_DIFFERENCE


def _on_garments(detail: Detail, found: Sequence[Contrast]) -> Iterator[Finding]:
    """Yield what is to be said of each ink that does not stand out on a garment."""
    for k, ink in enumerate(main_inks(detail)):
        own = [one for one in found if one.ink == k]
        lost = [one for one in own if hidden(one)]
        if lost:
            says = (
                f"contrast {_ratios(lost)}, hardly visible: give it another colour, or leave it "
                "out where the garment is meant to show"
            )
            blocks = ink.share >= DETAIL_SHARE
            if not blocks:
                says = (
                    f"contrast {_ratios(lost)}, hardly visible where it lies on the garment "
                    "itself; good as an outline or on another ink"
                )
            yield Finding(blocks=blocks, about=f"{ink_title(ink)} on {_grounds(lost)}", says=says)
        weak = [one for one in own if one not in lost and one.ratio < WANTED_CONTRAST]
        if weak:
            says = (
                f"contrast {_ratios(weak)}, weak: {WANTED_CONTRAST:g} is asked of graphics "
                "(WCAG 2, 1.4.11)"
            )
            yield Finding(blocks=False, about=f"{ink_title(ink)} on {_grounds(weak)}", says=says)


def _ratios(found: Sequence[Contrast]) -> str:
    ratios = [one.ratio for one in found]
    least, most = ratio_text(min(ratios)), ratio_text(max(ratios))
    return least if least == most else f"{least} to {most}"


def _grounds(found: Sequence[Contrast]) -> str:
    return " and ".join(dict.fromkeys(one.garment for one in found))


def _specks(art: Artwork, detail: Detail, use: Use) -> Iterator[Finding]:
    """Yield what is to be said of specks: it blocks if they make the artwork larger than it is."""
    if not detail.specks:
        return
    count, first = len(detail.specks), detail.specks[0]
    what = "a speck" if count == 1 else f"{count} specks"
    them = "it" if count == 1 else "them"
    whole = Box.of_all((art.ink, *detail.specks))
    where = place_name(whole, first.centre)
    if use.specks_ignored:
        says = f"{what} left out, as asked ({where})"
        yield Finding(blocks=False, about=art.name, says=says)
        return
    body = detail.body
    away = f", {say(_apart(first, body), use.unit)} from the rest in the file" if body else ""
    remedy = f"delete {them}, or {use.ignoring}"
    if body and sized_by_specks(art):
        says = (
            f"{what} ({where}{away}) count{'s' if count == 1 else ''} as artwork and would set "
            f"its size: the rest is {_size(body, use.unit)}, not {_size(art.ink, use.unit)}; "
            f"{remedy}"
        )
        yield Finding(blocks=True, about=art.name, says=says)
    else:
        says = f"{what} ({where}{away}) will be printed: if not meant, {remedy}"
        yield Finding(blocks=False, about=art.name, says=says)


def _apart(one: Box, other: Box) -> Mm:
    across = max(one.left - other.right, other.left - one.right, 0.0)
    down = max(one.top - other.bottom, other.top - one.bottom, 0.0)
    return math.hypot(across, down)


def _size(box: Box, unit: str) -> str:
    return f"{say(box.width, unit)} × {say(box.height, unit)}"


def _remarks(art: Artwork, detail: Detail, rows: Sequence[HeldAt], use: Use) -> Iterator[Finding]:
    """Yield what was remarked in the file, with where; what is said twice stands once."""
    width = min((row.width for row in rows), default=art.ink.width)
    said: dict[str, list[Remark]] = {}
    for one in detail.remarks:
        # Text in a font of another's machine blocks: it is said with the file itself.
        if one.kind != LIVE:
            said.setdefault(one.says, []).append(one)
    for says, same in said.items():
        where = next((one.where for one in same if one.where), None)
        more = f" and {len(same) - 1} more" if len(same) > 1 else ""
        at = ""
        if where is not None:
            k = width / art.ink.width
            size = f"{say(where.width * k, use.unit)} × {say(where.height * k, use.unit)}"
            at = f" ({place_name(art.ink, where.centre)}, {size} at {say(width, use.unit)}{more})"
        yield Finding(blocks=False, about=art.name, says=f"{says}{at}")
    if not detail.flat:
        says = (
            "shades of colour, not flat inks: the inks named are the main ones, and lines and "
            "gaps are judged on all of them together"
        )
        yield Finding(blocks=False, about=art.name, says=says)
