"""What jigs are cut from: the known materials by name, and a shop's own."""

import re
import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files

from jigs.errors import BadInput, Place
from jigs.order.fields import Fields, shown
from jigs.order.order import MOST_CORNER, MOST_KERF, MOST_WEB, Material
from jigs.units import mm

_OWN = 'material = { name = "HDPE 2 mm", kerf = "0.3 mm", web = "6 mm", corner = "2 mm" }'
#: No machine leaves a bridge narrower than this.
_LEAST_WEB = 0.5
#: Materials that no laser may cut, by what their names contain, and why (every workshop's list).
_NEVER = {
    "pvc": "gives off chlorine compounds that poison people and eat the machine",
    "vinyl": "is PVC as a rule, which gives off chlorine compounds that poison people",
    "polycarbonate": "burns rather than cuts, and gives off poisonous fumes",
    "abs": "melts, catches fire, and gives off hydrogen cyanide",
}


def never(name: str) -> str | None:
    """Return why a material of such a name must never be laser cut, or None.

    >>> never("ABS 2 mm"), never("absorbent card")
    ('ABS melts, catches fire, and gives off hydrogen cyanide', None)
    """
    words = name.casefold().replace("-", " ").split()
    return next((f"{word.upper()} {why}" for word, why in _NEVER.items() if word in words), None)


@cache
def materials() -> Mapping[str, Material]:
    """Return the known materials by name."""
    text = files("jigs.order").joinpath("materials.toml").read_text(encoding="utf-8")
    place = Place("materials.toml")
    found = {}
    for name, row in tomllib.loads(text).items():
        here = place.at(name)
        thin, thick = (mm(each, here.at("thickness")) for each in row["thickness"])
        found[name] = Material(
            title=row["title"],
            tool=row["tool"],
            kerf=mm(row["kerf"], here.at("kerf")),
            web=mm(row["web"], here.at("web")),
            corner=mm(row["corner"], here.at("corner")),
            thickness=(thin, thick),
            cautions=tuple(row["cautions"]),
        )
    return found


def material_named(name: str, place: Place) -> Material:
    """Return a known material, however its name is spelt: `acrylic-3mm`, `Acrylic 3 mm`.

    Raises:
        BadInput: there is none of that name; the nearest is offered, and how to describe one.
    """
    known = materials()
    spelt = {_bare(each): each for each in known}
    bare = _bare(name)
    if bare in spelt:
        return known[spelt[bare]]
    near = get_close_matches(bare, spelt, n=1, cutoff=0.6)
    hint = f"did you mean {spelt[near[0]]!r}? " if near else ""
    allowed = f"{hint}known: {', '.join(known)}; or describe your own: {_OWN}"
    why = never(name)
    danger = f", and never laser cut it: {why}" if why else ""
    raise BadInput(place, f"unknown material {shown(name)}{danger}", allowed)


def read_material(fields: Fields) -> Material:
    """Return the material that a cutter's table names or describes."""
    value = fields.values.get("material")
    if isinstance(value, dict):
        return _own(fields.table("material"))
    if value is None or not isinstance(value, str):
        if value is not None:
            allowed = f"write a name in quotes, or describe it: {_OWN}"
            fields.note("material", f"found {shown(value)}", allowed)
        return Material()
    name = fields.text("material")
    if not name:
        return Material()
    try:
        return material_named(name, fields.place.at("material"))
    except BadInput as problem:
        fields.problems.append(problem)
        return Material()


def _own(fields: Fields) -> Material:
    fields.known_keys("name", "kerf", "web", "corner", "caution")
    for key in ("kerf", "web", "corner"):
        if key not in fields.values:
            fields.note(key, "missing", 'write a length in quotes, such as "0.3 mm"')
    caution = fields.text("caution", "", most=200) if "caution" in fields.values else ""
    return Material(
        title=fields.text("name", most=40),
        tool="",
        kerf=fields.length("kerf", 0.0, 0.0, MOST_KERF),
        web=fields.length("web", _LEAST_WEB, _LEAST_WEB, MOST_WEB),
        corner=fields.length("corner", 0.0, 0.0, MOST_CORNER),
        thickness=None,
        cautions=(caution,) if caution else (),
    )


def _bare(name: str) -> str:
    """Return a name without what people spell in different ways: case, spaces, dashes, commas."""
    return re.sub(r"[\s_,–-]+", "", name).casefold()
