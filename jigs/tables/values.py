"""The values of a size table's file one by one: tables by point of measure, lengths."""

from collections.abc import Mapping
from typing import Any

from jigs.errors import BadInput, Place, Unknown
from jigs.tables.points import POINTS
from jigs.units import Mm, mm, number


def by_point(
    document: Mapping[str, Any], key: str, place: Place, problems: list[BadInput]
) -> Mapping[str, Any]:
    """Return a table of the file by point of measure; unknown names in it are reported."""
    value = document.get(key, {})
    if not isinstance(value, dict):
        allowed = f"write a table headed [{key}]"
        problems.append(BadInput(place.at(key), f"found {shown(value)}", allowed))
        return {}
    problems += [
        Unknown(place.at(key).at(name), "point of measure", name, POINTS)
        for name in value
        if name not in POINTS
    ]
    return value


def length(
    value: object,
    unit: str | None,
    bounds: tuple[Mm, Mm],
    about: str,
    place: Place,
    problems: list[BadInput],
) -> Mm | None:
    """Return a length in the table's unit or its own; None if it is none, which is reported."""
    bare = _has_no_unit(value)
    if bare and unit is None:
        return None  # the table's unit is reported already
    if type(value) is int:  # TOML's whole numbers have no end, floats have
        value = max(-(10**9), min(value, 10**9))
    try:
        return mm(value, place, default_unit=unit, least=bounds[0], most=bounds[1])
    except BadInput as error:
        in_unit = f" ({unit})" if bare else ""
        problems.append(BadInput(place, f"{about}{error.found}{in_unit}", error.allowed))
        return None


def _has_no_unit(value: object) -> bool:
    if isinstance(value, str):
        read = number(value.strip())
        return read is not None and not read[1]
    return isinstance(value, (int, float))


def shown(value: object) -> str:
    """Return a value of a file as an error shows it: short, on one line."""
    if isinstance(value, int) and abs(value) >= 10**18:
        return "a very large number"  # Python refuses to write out thousands of digits
    if isinstance(value, (dict, list)):
        return f"a {'table' if isinstance(value, dict) else 'list'} of {len(value)}"
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
