"""What the shop measured, as a size table holds it: by point of measure, by size, each garment.

    [measured.front_neck_drop]
    M = ["92 mm", "93.5 mm", "91 mm"]
    "5T/6T" = [2.5, "2 5/8"]

Every garment's own length is kept, and nothing that follows from it: so garments measured later
join those measured before as if all had been measured at once, and no figure can go stale.
"""

from collections.abc import Mapping
from typing import Any

from jigs.errors import BadInput, Place, Unknown
from jigs.tables.points import POINTS
from jigs.tables.size_names import index_of
from jigs.tables.values import by_point, length, shown
from jigs.units import Mm


def read_measured(
    document: Mapping[str, Any],
    sizes: tuple[str, ...],
    unit: str | None,
    place: Place,
    problems: list[BadInput],
) -> dict[str, dict[int, tuple[Mm, ...]]]:
    """Return the measured lengths by point and index of the size; problems are noted."""
    table, here = by_point(document, "measured", place, problems), place.at("measured")
    read = {
        point: _sizes(table[point], point, sizes, unit, here.at(point), problems)
        for point in POINTS
        if point in table
    }
    return {point: lengths for point, lengths in read.items() if lengths}


def _sizes(
    value: object,
    point: str,
    sizes: tuple[str, ...],
    unit: str | None,
    place: Place,
    problems: list[BadInput],
) -> dict[int, tuple[Mm, ...]]:
    if not isinstance(value, dict):
        allowed = f"write a table headed [measured.{point}], with sizes"
        problems.append(BadInput(place, f"found {shown(value)}", allowed))
        return {}
    found: dict[int, tuple[Mm, ...]] = {}
    for name, entry in value.items():
        index, here = index_of(name, sizes), place.at(name)
        if index is None:
            problems.append(Unknown(here, "size", name, sizes))
        elif index in found:
            problems.append(BadInput(here, f"found {name!r} again", "write each size once"))
        else:
            found[index] = _garments(entry, point, unit, here, problems)
    return {index: lengths for index, lengths in found.items() if lengths}


def _garments(
    value: object, point: str, unit: str | None, place: Place, problems: list[BadInput]
) -> tuple[Mm, ...]:
    if not isinstance(value, list) or not value:
        allowed = "write a list of at least one length, one for each garment measured"
        problems.append(BadInput(place, f"found {shown(value)}", allowed))
        return ()
    bounds = (POINTS[point].least, POINTS[point].most)
    read = [length(entry, unit, bounds, "", place.at(k), problems) for k, entry in enumerate(value)]
    return tuple(one for one in read if one is not None)
