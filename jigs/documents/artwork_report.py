"""The artwork report: what was sent, whether it holds in print; as data and as text."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from jigs.artwork.artwork import Artwork
from jigs.artwork.detail import GAP, LINE, Detail, Thin
from jigs.documents.artwork_verdict import file_stops, verdict
from jigs.documents.report import columns, findings_data, findings_text
from jigs.geometry import Box
from jigs.order.order import Transfer
from jigs.plan import Contrast, HeldAt, Holding, Plan
from jigs.plan.held import (
    at_width,
    ink_title,
    judged,
    least_width,
    limit_of,
    main_inks,
    passes,
    place_name,
    thicken_by,
    thinnest_of,
    told,
)
from jigs.plan.held_words import (
    at_least,
    at_most,
    box_text,
    centre_text,
    ground_text,
    hundredths,
    limit,
    ppi_text,
    ratio_text,
    tiny,
)
from jigs.plan.holding import WANTED_CONTRAST, WIDEST, hidden
from jigs.plan.sizes import sizes_text
from jigs.units import Mm, say

_NONE = "–"


def artwork_text(plan: Plan) -> str:
    """Return what is to be said of the artwork of a whole order as text."""
    head = " · ".join(part for part in (plan.reference, plan.customer) if part)
    lines = [head, "", "one look says", *columns(_verdicts(plan), indent="  "), ""]
    for one in plan.prints:
        turn = f", turned {one.artwork.turn}°" if one.artwork.turn else ""
        lines.append(f"{one.name}: {art_title(one.artwork, plan.units)}{turn}")
        if one.held is None:
            lines.append("  not looked at closely")
        else:
            lines += held_text(
                one.artwork,
                one.held,
                plan.shop.transfer,
                plan.units,
                lambda keys: sizes_text(keys, plan.tables),
            )
        said = (*one.artwork.findings, *(one.held.findings if one.held else ()))
        lines += ["", *findings_text(said), ""] if said else [""]
    return "\n".join(lines).rstrip() + "\n"


def _verdicts(plan: Plan) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for one in plan.prints:
        if one.held is None:
            stops = file_stops(one.artwork)
            said = f"STOP: {stops[0]}" if stops else "not looked at closely"
        else:
            said = verdict(
                one.artwork,
                one.held,
                plan.shop.transfer,
                lambda keys: sizes_text(keys, plan.tables),
            )
        rows.append((one.name, said))
    return rows


def artwork_data(plan: Plan) -> dict[str, Any]:
    """Return what is to be said of the artwork of a whole order as data; lengths in mm."""
    return {
        "reference": plan.reference,
        "prints": [
            {
                "name": one.name,
                "location": one.location,
                **art_data(one.artwork),
                **(held_data(one.artwork, one.held, plan.shop.transfer) if one.held else {}),
                "findings": findings_data(
                    (*one.artwork.findings, *(one.held.findings if one.held else ()))
                ),
            }
            for one in plan.prints
        ],
    }


def art_title(art: Artwork, unit: str) -> str:
    """Return a file of artwork in a line: its name, format, ground and size."""
    ground, size = ground_text(art), box_text(art, unit)
    return f"{art.name}, {art.kind.upper()}, {ground}, ink {size} in the file"


def art_data(art: Artwork) -> dict[str, Any]:
    """Return what a file of artwork measures as data; all lengths in millimetres."""
    return {
        "file": art.name,
        "kind": art.kind,
        "sha256": art.sha256,
        "turn": art.turn,
        "page_mm": [art.page_width, art.page_height],
        "ink_box_mm": [art.ink.width, art.ink.height],
        "ink_at_mm": [art.ink.left, art.ink.top],
        "aspect": art.aspect,
        "accuracy_mm": art.accuracy,
        "ground": art.ground,
    }


def held_data(art: Artwork, held: Holding, transfer: Transfer) -> dict[str, Any]:
    """Return how artwork holds as data: lengths in mm, those of the file at the file's size."""
    detail = art.detail
    if detail is None:
        return {}
    return {
        "inks": [
            {"colour": one.colour, "name": one.name, "title": ink_title(one), "share": one.share}
            for one in detail.inks
        ],
        "flat": detail.flat,
        "separations": [{"name": name, "colour": colour} for name, colour in detail.separations],
        "optical_centre_mm": list(detail.centroid),
        "optical_centre_off_mm": list(detail.centroid.minus(art.ink.centre)),
        "limits": {
            "line_mm": transfer.line, "gap_mm": transfer.gap, "least_ppi": transfer.least_ppi,
        },
        "widths": [
            {
                "sizes": list(row.sizes),
                "width_mm": row.width,
                "height_mm": row.height,
                "line_mm": row.line,
                "gap_mm": row.gap,
                "ppi": row.ppi,
                "holds": row.holds,
            }
            for row in held.rows
        ],
        "least_width_mm": held.least,
        "most_width_mm": held.most,
        "thin": [
            {
                "kind": one.kind,
                "ink": one.ink,
                "in_file_mm": one.width,
                "at_mm": list(one.at),
                "where": place_name(art.ink, one.at),
                "least_width_mm": least_width(art, one, transfer),
            }
            for one in detail.thin
        ],
        "specks_mm": [_corners(one) for one in detail.specks],
        "remarks": [
            {
                "kind": one.kind,
                "says": one.says,
                "where_mm": _corners(one.where) if one.where else None,
                "pixels": one.pixels or None,
            }
            for one in detail.remarks
        ],
        "contrast": [
            {
                "ink": one.ink,
                "garment": one.garment,
                "garment_colour": one.garment_hex,
                "ratio": one.ratio,
                "ciede2000": one.difference,
            }
            for one in held.contrasts
        ],
    }  # fmt: skip


def _corners(box: Box) -> list[Mm]:
    return [box.left, box.top, box.right, box.bottom]


def held_text(
    art: Artwork,
    held: Holding,
    transfer: Transfer,
    unit: str,
    named: Callable[[Sequence[str]], str],
) -> Iterator[str]:
    """Yield how artwork holds as text: its inks, its widths, what to mend, its contrast."""
    detail = art.detail
    if detail is None:
        return
    narrowest = min((row.width for row in held.rows), default=art.ink.width)
    yield from columns(_ink_rows(art, detail, narrowest, transfer, unit), indent="  ")
    if detail.separations:
        named_inks = ", ".join(f"{name} ({colour})" for name, colour in detail.separations)
        yield f"  separations in the file: {named_inks}"
    centre = centre_text(art, narrowest, unit)
    yield f"  optical centre from the middle of the ink box, {say(narrowest, unit)} wide: {centre}"
    yield ""
    yield from columns(_width_rows(held.rows, transfer, unit, named), indent="  ")
    bounds = _bounds(held, unit)
    if bounds:
        yield f"  lines, gaps and pixels hold {bounds}"
    mend = _mend_rows(art, detail, narrowest, transfer, unit)
    if mend:
        yield ""
        yield from columns(mend, indent="  ")
    if held.contrasts:
        yield ""
        yield from columns(_contrast_rows(detail, held), indent="  ")


def _ink_rows(
    art: Artwork, detail: Detail, width: Mm, transfer: Transfer, unit: str
) -> list[tuple[str, ...]]:
    """Return a heading and a row for each ink; where there are several, one for them together.

    Lines in one of many shades mean nothing.
    """
    shades = "" if detail.flat else ", the main of many shades"
    rows: list[tuple[str, ...]] = [
        (f"inks{shades}", "share", f"thinnest line at {say(width, unit)}", "narrowest gap")
    ]
    inks = [(ink_title(one), f"{one.share:.0%}", k) for k, one in enumerate(main_inks(detail))]
    together = [("all together", "", None)] if len(detail.inks) > 1 else []
    for title, share, ink in (*inks, *together):
        if ink is not None and len(detail.inks) > 1 and not detail.flat:
            rows.append((title, share, "", ""))
            continue
        found = (thinnest_of(detail, ink, kind) for kind in (LINE, GAP))
        rows.append((title, share, *(_printed(art, one, width, transfer) for one in found)))
    return rows


def _printed(art: Artwork, place: Thin | None, width: Mm, transfer: Transfer) -> str:
    if place is None:
        return _NONE
    return tiny(at_width(art, place.width, width), limit_of(place.kind, transfer))


def _width_rows(
    rows: Sequence[HeldAt], transfer: Transfer, unit: str, named: Callable[[Sequence[str]], str]
) -> list[tuple[str, ...]]:
    """Return a heading, a row for each width, and one with what is asked for."""
    head = ("width", "height", "thinnest line", "narrowest gap", "ppi", "lines, gaps, pixels")
    sized = any(row.sizes for row in rows)
    made: list[tuple[str, ...]] = [("sizes", *head) if sized else head]
    for row in rows:
        cells = (
            say(row.width, unit),
            say(row.height, unit),
            tiny(row.line, transfer.line) if row.line is not None else _NONE,
            tiny(row.gap, transfer.gap) if row.gap is not None else _NONE,
            ppi_text(row.ppi) if row.ppi is not None else _NONE,
            "hold" if row.holds else "NO",
        )
        made.append((named(row.sizes), *cells) if sized else cells)
    asked = ("", limit(transfer.line), limit(transfer.gap), f"{transfer.least_ppi:g}", "")
    made.append(("at least", "", *asked) if sized else ("at least", *asked))
    return made


def _bounds(held: Holding, unit: str) -> str:
    """Return between which widths artwork holds: `from 5.9 in to 12 in wide`."""
    parts = []
    if held.least is not None and held.least > WIDEST:
        return f"at no width up to {say(WIDEST, unit)}"
    # Narrower than a millimetre nothing is printed.
    if held.least is not None and held.least > 1.0:
        parts.append(f"from {at_least(held.least, unit)}")
    if held.most is not None:
        parts.append(f"up to {at_most(held.most, unit)}")
    if len(parts) > 1 and (held.least or 0.0) > (held.most or 0.0):
        return f"at no width: lines and gaps {parts[0]}, pixels {parts[1]}"
    return f"{' '.join(parts)} wide" if parts else ""


def _mend_rows(
    art: Artwork, detail: Detail, width: Mm, transfer: Transfer, unit: str
) -> list[tuple[str, ...]]:
    """Return a heading and a row for each place that is too thin at a width; nothing if none is."""
    rows: list[tuple[str, ...]] = [
        (f"to mend at {say(width, unit)}", "ink", "where", "is", "widen by", "in the file")
    ]
    failing = [one for one in judged(detail) if not passes(art, one, width, transfer)]
    for place in told(failing):
        by = thicken_by(art, place, width, transfer)
        rows.append((
            place.kind,
            ink_title(detail.inks[place.ink]) if place.ink is not None else "all together",
            place_name(art.ink, place.at),
            tiny(at_width(art, place.width, width)),
            f"{hundredths(by)} mm",
            f"{hundredths(by * art.ink.width / width)} mm",
        ))  # fmt: skip
    return rows if len(rows) > 1 else []


def _contrast_rows(detail: Detail, held: Holding) -> list[tuple[str, ...]]:
    """Return a heading and a row for each ink: its contrast on each garment colour."""
    grounds = list(dict.fromkeys((one.garment, one.garment_hex) for one in held.contrasts))
    rows: list[tuple[str, ...]] = [
        (
            "contrast (and CIEDE2000) on",
            *(name if name == value else f"{name} ({value})" for name, value in grounds),
        )
    ]
    for k, ink in enumerate(main_inks(detail)):
        own = {(one.garment, one.garment_hex): one for one in held.contrasts if one.ink == k}
        cells = (own[ground] for ground in grounds)
        rows.append((ink_title(ink), *(_contrast(one) for one in cells)))
    return rows


def _contrast(one: Contrast) -> str:
    said = f"{ratio_text(one.ratio)} ({one.difference:.0f})"
    if hidden(one):
        return f"{said} hidden"
    return f"{said} weak" if one.ratio < WANTED_CONTRAST else said
