"""What the shop measured, as a size table holds it: by point of measure, by size, each garment.

    [measured.front_neck_drop]
    M = { A1 = "92 mm", A2 = "93.5 mm" }
    L = ["96 mm", 3.75]
    "5T/6T" = [2.5, { B7 = "2 5/8" }]

Every garment's own length is kept, and nothing that follows from it: so garments measured later
join those measured before as if all had been measured at once, and no figure can go stale. A
garment that has a name is known by it and is not counted twice.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from jigs.errors import BadInput, Place, Unknown
from jigs.tables.points import POINTS
from jigs.tables.size_names import index_of
from jigs.tables.values import by_point, length, shown
from jigs.units import Mm


@dataclass(frozen=True, slots=True)
class Piece:
    """One garment's length: in millimetres, and where it stands."""

    mm: Mm
    place: Place


def same_garment(name: str) -> str:
    """Return what two spellings of a garment's name have in common.

    >>> same_garment(" a  1") == same_garment("A 1")
    True
    """
    return " ".join(name.split()).casefold()


def read_measured(
    document: Mapping[str, Any],
    sizes: tuple[str, ...],
    unit: str | None,
    place: Place,
    problems: list[BadInput],
) -> dict[str, dict[int, tuple[Piece, ...]]]:
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
) -> dict[int, tuple[Piece, ...]]:
    if not isinstance(value, dict):
        allowed = f"write a table headed [measured.{point}], with sizes"
        problems.append(BadInput(place, f"found {shown(value)}", allowed))
        return {}
    found: dict[int, tuple[Piece, ...]] = {}
    for name, entry in value.items():
        index, here = index_of(name, sizes), place.at(name)
        if index is None:
            problems.append(Unknown(here, "size", name, sizes, in_order=True))
        elif index in found:
            problems.append(BadInput(here, f"found {name!r} again", "write each size once"))
        else:
            found[index] = _garments(entry, point, unit, here, problems)
    return {index: lengths for index, lengths in found.items() if lengths}


def _garments(
    value: object, point: str, unit: str | None, place: Place, problems: list[BadInput]
) -> tuple[Piece, ...]:
    if not isinstance(value, (list, dict)) or not value:
        allowed = "write a list of at least one length, or garments by name: { A1 = 9.2 }"
        problems.append(BadInput(place, f"found {shown(value)}", allowed))
        return ()
    bounds = (POINTS[point].least, POINTS[point].most)
    found: list[Piece] = []
    names: set[str] = set()
    for entry, here, name in _entries(value, place):
        if name is not None and same_garment(name) in names:
            problems.append(BadInput(here, f"found {name!r} again", "write each garment once"))
            continue
        names |= {same_garment(name)} if name is not None else set()
        read = length(entry, unit, bounds, "", here, problems)
        found += [Piece(read, here)] if read is not None else []
    return tuple(found)


def _entries(
    value: list[Any] | dict[str, Any], place: Place
) -> list[tuple[object, Place, str | None]]:
    """Return each length as it is written, where, and the garment's name if it has one."""
    if isinstance(value, dict):
        return [(entry, place.at(name), name) for name, entry in value.items()]
    return [
        one
        for k, entry in enumerate(value)
        for one in (
            _entries(entry, place.at(k))
            if isinstance(entry, dict)
            else [(entry, place.at(k), None)]
        )
    ]
