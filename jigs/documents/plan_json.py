"""The plan as a file, `plan.json`, and back: nothing is lost on the way.

Lengths are millimetres. A float is written so that reading it gives the same float again.
"""

import base64
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

from jigs.artwork.detail import GAP, LINE
from jigs.drawing.tile import takes
from jigs.errors import BadInput, Place
from jigs.garments import GARMENTS
from jigs.geometry import Arc, Cubic, Line, Point
from jigs.geometry.path import Segment
from jigs.locations import LOCATIONS, Location, lacks
from jigs.names import safe_name
from jigs.order.equipment import LEAST_BED, MOST_FIT
from jigs.order.order import MOST_CORNER, MOST_KERF, MOST_TAB, MOST_WEB
from jigs.order.team import PRINTS
from jigs.plan.plan import JigPlan, Load, Plan, PrintPlan, TeamPlan
from jigs.styles import STYLES
from jigs.tables.measure import Measure, Measures, Origin
from jigs.team.lettering import WEIGHTS, version
from jigs.team.places import location as team_location
from jigs.template import Template
from jigs.units import INCH, LONGEST

if TYPE_CHECKING:
    from cattrs import Converter

#: What a file says it is; another version is refused, never guessed at.
FORMAT = "garment-jigs plan 4"
_COLOUR = re.compile("#[0-9a-fA-F]{6}")
_SEGMENTS: Mapping[str, type[Segment]] = {"line": Line, "arc": Arc, "cubic": Cubic}


def dumped(plan: Plan) -> bytes:
    """Return a plan as JSON."""
    data = {
        "format": FORMAT,
        "lengths": "millimetres; y down from the high point shoulder, x to the wearer's left",
        "plan": _converter().unstructure(plan),
    }
    return (json.dumps(data, indent=1, ensure_ascii=False) + "\n").encode()


def loaded(text: str, place: Place) -> Plan:
    """Return the plan that `dumped` wrote.

    Raises:
        BadInput: it is no JSON, no plan, or a plan of another version.
    """
    try:
        data = json.loads(text, parse_constant=_not_finite)
    except (ValueError, RecursionError) as error:
        raise BadInput(place, f"not JSON: {error}", "a plan.json as written by jigs make") from None
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        found = data.get("format") if isinstance(data, dict) else None
        raise BadInput(place.at("format"), f"found {found!r}", f"allowed: {FORMAT!r}")
    import cattrs

    try:
        plan: Plan = _converter().structure(data.get("plan"), Plan)
    except (cattrs.BaseValidationError, ValueError, KeyError, TypeError) as error:
        reasons = (
            cattrs.transform_error(error, path="plan")
            if isinstance(error, cattrs.BaseValidationError)
            else [str(error)]
        )
        raise BadInput(place, reasons[0], "a plan.json as written by jigs make") from None
    _check(plan, place)
    return plan


def _check(plan: Plan, place: Place) -> None:
    """Refuse a plan whose names would lead elsewhere: a file can be changed by anybody."""
    names = [("reference", plan.reference)]
    names += [("stem", jig.stem) for jig in plan.jigs]
    for key, name in names:
        if name != safe_name(name):
            raise BadInput(
                place.at(key), f"found {name!r}", f"a file name, such as {safe_name(name)!r}"
            )
    _check_shop(plan, place)
    for garment in plan.garments:
        if not _COLOUR.fullmatch(garment.colour_hex):
            allowed = "a colour such as '#1f2a44'"
            raise BadInput(place.at("colour_hex"), f"found {garment.colour_hex!r}", allowed)
    for one in plan.prints:
        LOCATIONS.get(one.location, place.at("location"))
        _check_held(one, place.at("held"))
        if not one.artwork.preview.startswith(b"\x89PNG\r\n\x1a\n"):
            raise BadInput(place.at("preview"), "found no PNG", "the preview that jigs make wrote")
    for jig in plan.jigs:
        _check_jig(jig, place)
    for size in plan.sizes:
        GARMENTS.get(size.cut, place.at("cut"))
    if plan.team is not None:
        _check_team(plan, plan.team, place.at("team"))
    _check_loads(plan, place.at("loads"))


def _check_jig(jig: JigPlan, place: Place) -> None:
    """Refuse a style that is not known, and what a plate is not laid out for."""
    STYLES.get(jig.style, place.at("style"))
    web, inner = jig.template.web, jig.template.inner
    if not (0 < web <= MOST_WEB and 0 <= inner <= MOST_CORNER):
        allowed = f"allowed: webs up to {MOST_WEB:g} mm, corners up to {MOST_CORNER:g} mm"
        raise BadInput(place.at("web"), f"found {web}, inner {inner}", allowed)


def _check_held(one: PrintPlan, place: Place) -> None:
    """Refuse what a close look could not have found, or would not be judged by."""
    detail, held, ink = one.artwork.detail, one.held, one.artwork.ink
    inks = detail.inks if detail else ()
    thin = detail.thin if detail else ()
    known = {None, *range(len(inks))}
    contrasts = held.contrasts if held else ()
    widths = [each.width for each in (held.rows if held else ())]
    colours = [*(each.colour for each in inks), *(each.garment_hex for each in contrasts)]
    limits = (
        ("artwork", detail, (detail is None) == (held is None), "a close look and its judgement"),
        ("ink", ink, ink.width > 0 and ink.height > 0, "a box of ink"),
        ("kind", thin, all(each.kind in {LINE, GAP} for each in thin), f"{LINE!r} or {GAP!r}"),
        ("thin", thin, all(each.width > 0 and each.ink in known for each in thin),
         "widths above 0, of the artwork's inks"),
        ("width", widths, all(width > 0 for width in widths), "widths above 0"),
        ("contrasts", contrasts, all(each.ink in known - {None} for each in contrasts),
         "the artwork's inks"),
        ("colour", colours, all(_COLOUR.fullmatch(each) for each in colours), "'#1f2a44'"),
    )  # fmt: skip
    for key, found, good, allowed in limits:
        if not good:
            raise BadInput(place.at(key), f"found {str(found)[:60]!r}", f"allowed: {allowed}")


def _check_team(plan: Plan, team: TeamPlan, place: Place) -> None:
    """Refuse a team that cannot be drawn, or that another version of the font would draw."""
    settings = {one.setting.kind: one.setting for one in team.prints}
    marks = [mark for entry in team.entries for mark in entry.marks]
    heights = [length for mark in marks for length in (mark.height, mark.width, mark.ink_height)]
    garments, keys = {one.name for one in plan.garments}, {one.key for one in plan.sizes}
    limits = (
        ("font", team.font, team.font == version(), version()),
        ("prints", tuple(settings), settings.keys() <= set(PRINTS), ", ".join(PRINTS)),
        ("weight", [one.weight for one in settings.values()],
         all(one.weight in WEIGHTS for one in settings.values()), ", ".join(WEIGHTS)),
        ("kind", {mark.kind for mark in marks} - settings.keys(),
         all(mark.kind in settings for mark in marks), "a print of the team"),
        ("text", [mark.text for mark in marks if not mark.text.strip()],
         all(mark.text.strip() for mark in marks), "a text with ink"),
        ("height", heights, all(0 < length < LONGEST for length in heights), "a length above 0"),
        ("entries", [one.garment for one in team.entries],
         bool(team.entries) and all(one.garment in garments and one.key in keys
                                    for one in team.entries), "garments and sizes of the plan"),
    )  # fmt: skip
    for key, found, good, allowed in limits:
        if not good:
            raise BadInput(place.at(key), f"found {str(found)[:60]!r}", f"allowed: {allowed}")


def _laid(plan: Plan) -> Iterator[tuple[Location, Sequence[Load]]]:
    for one in plan.prints:
        yield LOCATIONS.get(one.location), one.loads
    for each in plan.team.prints if plan.team else ():
        yield team_location(each.setting.kind), each.loads


def _check_loads(plan: Plan, place: Place) -> None:
    """Refuse garments laid on the platen as none could be."""
    known = {one.key: one for one in plan.sizes}
    for location, loads in _laid(plan):
        edges, lying = [one.edge for one in loads], [one for load in loads for one in load.lying]
        inks = [side for one in lying for side in (one.ink.width, one.ink.height)]
        places = [length for one in loads for length in (one.level, one.aside)]
        keys = [one.key for one in lying]
        limits = (
            ("edge", edges, set(edges) <= {"top", "bottom"}, "'top' or 'bottom'"),
            ("lying", loads, all(one.lying for one in loads), "the sizes that are laid so"),
            ("key", keys, set(keys) <= known.keys(), "sizes of the plan"),
            ("ink", inks, all(0 < length < LONGEST for length in inks), "lengths above 0"),
            ("level", places, all(abs(length) < LONGEST for length in places),
             "places on the platen"),
        )  # fmt: skip
        for key, found, good, allowed in limits:
            if not good:
                raise BadInput(place.at(key), f"found {str(found)[:60]!r}", f"allowed: {allowed}")
        for size in (known[key] for key in dict.fromkeys(keys)):
            if lacks(location, GARMENTS.get(size.cut).draw(size.measures)):
                allowed = f"sizes with a place for a {location.title} print"
                raise BadInput(place.at("key"), f"found {size.key!r}", f"allowed: {allowed}")


def _check_shop(plan: Plan, place: Place) -> None:
    """Refuse equipment that an order could not have either."""
    shop = plan.shop
    paper = (shop.paper.width, shop.paper.height, shop.paper.margin, shop.paper.overlap)
    printer, cutter = (shop.printer.x, shop.printer.y), shop.cutter
    platen = (shop.press.platen_width, shop.press.platen_height)
    limits = (
        ("units", plan.units, plan.units in {"in", "mm"}, "'in' or 'mm'"),
        ("paper", paper, min(paper) >= 0 and takes(*paper), "a paper with room for tiles"),
        ("kerf", cutter.kerf, 0 <= cutter.kerf <= MOST_KERF, f"0 to {MOST_KERF:g} mm"),
        ("tabs", cutter.tabs, 0 <= cutter.tabs <= MOST_TAB, f"0 to {MOST_TAB:g} mm"),
        ("fit", cutter.fit, 0 <= cutter.fit <= MOST_FIT, f"0 to {MOST_FIT:g} mm"),
        ("bed", cutter.sheet, min(cutter.sheet) >= LEAST_BED, "a bed of 50 mm or more"),
        ("printer", printer, all(0.9 <= factor <= 1.1 for factor in printer), "0.9 to 1.1"),
        ("platen", platen, all(2 * INCH <= side <= 2000 for side in platen), "2 in to 2000 mm"),
        ("garments", plan.garments, bool(plan.garments), "at least one garment"),
        ("prints", plan.prints, bool(plan.prints or plan.team), "at least one print"),
    )
    for key, found, good, allowed in limits:
        if not good:
            raise BadInput(place.at(key), f"found {found!r}", f"allowed: {allowed}")


def _not_finite(text: str) -> float:
    raise ValueError(f"found {text} where a number belongs")


@cache
def _converter() -> "Converter":
    import cattrs
    from cattrs.gen import make_dict_unstructure_fn

    converter = cattrs.Converter(forbid_extra_keys=True)
    converter.register_unstructure_hook(bytes, lambda data: base64.b64encode(data).decode())
    converter.register_structure_hook(bytes, lambda text, _: base64.b64decode(text, validate=True))
    converter.register_unstructure_hook(Point, list)
    converter.register_structure_hook(Point, lambda pair, _: Point(float(pair[0]), float(pair[1])))
    converter.register_unstructure_hook(Measures, _measures_out)
    converter.register_structure_hook(Measures, lambda data, _: _measures_in(data))
    converter.register_structure_hook(Segment, lambda data, _: _segment_in(data))
    for kind in (Line, Arc, Cubic):
        converter.register_unstructure_hook(kind, _segment_out)
    # A plan without a team is written as if there were none, so that kept ones stay alike.
    for whole in (Template, Plan):
        converter.register_unstructure_hook(
            whole, make_dict_unstructure_fn(whole, converter, _cattrs_omit_if_default=True)
        )
    return converter


def _segment_out(segment: Segment) -> dict[str, Any]:
    name = type(segment).__name__.lower()
    parts = {part: getattr(segment, part) for part in type(segment).__slots__}
    return {
        "kind": name,
        **{part: list(v) if isinstance(v, Point) else v for part, v in parts.items()},
    }


def _segment_in(data: dict[str, Any]) -> Segment:
    parts: dict[str, Any] = {
        part: Point(float(v[0]), float(v[1])) if isinstance(v, list) else float(v)
        for part, v in data.items()
        if part != "kind"
    }
    return _SEGMENTS[data["kind"]](**parts)


def _measures_out(measures: Measures) -> dict[str, Any]:
    return {
        "table": measures.table,
        "size": measures.size,
        "age": measures.age,
        "values": {
            name: {
                "mm": one.mm,
                "plus_minus": one.plus_minus,
                "origin": one.origin.value,
                **({"pieces": one.pieces} if one.pieces else {}),
            }
            for name, one in measures.values.items()
        },
    }


def _measures_in(data: dict[str, Any]) -> Measures:
    values = {
        name: Measure(
            float(one["mm"]),
            float(one["plus_minus"]),
            Origin(one["origin"]),
            int(one.get("pieces", 0)),
        )
        for name, one in data["values"].items()
    }
    return Measures(data["table"], data["size"], data["age"], values)
