"""Measured garments written into the text of a size table, everything else in it left as it is."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from jigs.errors import BadInput, Place
from jigs.tables.garments_csv import Garment, Reading
from jigs.tables.measured import same_garment
from jigs.tables.points import POINTS
from jigs.tables.size_names import index_of
from jigs.units import mm, number, unit_worth

#: So many lengths that are all in the table already, in order, are a file that is read again.
_SURELY_AGAIN = 4


@dataclass(frozen=True, slots=True)
class Added:
    """A table's text with garments added, and what became of each length of them."""

    text: str
    places: Mapping[str, Garment]
    """Where those that are new stand in the text, `measured.front_neck_drop.M.A3`.

    Also `measured.front_neck_drop.M` where that holds one garment alone.
    """
    new: frozenset[tuple[int, str]]
    """Of which sizes, by index, and of which points there is something new."""
    known: tuple[tuple[Garment, str], ...]
    """What was there already, of the same length."""
    replaced: tuple[tuple[Garment, str, str], ...]
    """What was there with another length, and what that was."""


def with_garments(
    text: str, sizes: Sequence[str], unit: str, garments: Sequence[Garment], place: Place
) -> Added:
    """Return a table's text with the garments added; those it knows by name are not added again.

    The text is one that reads as a table. Comments, order and layout stay. Of a garment that it
    has with another length, the new one holds.

    Raises:
        BadInput: the text cannot be edited so, or the same lengths are in it without names.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError
    from tomlkit.items import InlineTable

    adding = _Adding(unit, place.at("measured"))
    try:
        document = tomlkit.parse(text)
        measured = document.setdefault("measured", tomlkit.table(is_super_table=True))
        row = tomlkit.inline_table if isinstance(measured, InlineTable) else tomlkit.table
        for point in POINTS:
            for index, size in enumerate(sizes):
                added = [one for one in garments if one.size == index and point in one.readings]
                if added:
                    adding.to_size(measured.setdefault(point, row()), point, size, added)
        result = tomlkit.dumps(document)
        if "\r\n" in text:
            result = result.replace("\r\n", "\n").replace("\n", "\r\n")
    except TOMLKitError as error:
        found = f"cannot be edited: {error}"
        raise BadInput(place, found, "a plain TOML file; write the lengths in yourself") from None
    if adding.count >= _SURELY_AGAIN and adding.again == adding.count:
        found = f"all {adding.count} lengths are in it already"
        raise BadInput(place, found, "each garment is measured once: leave out those rows")
    return Added(
        result, adding.places, frozenset(adding.new), tuple(adding.known), tuple(adding.replaced)
    )


@dataclass(slots=True)
class _Adding:
    """What has been added so far."""

    unit: str
    place: Place
    places: dict[str, Garment] = field(default_factory=dict)
    new: set[tuple[int, str]] = field(default_factory=set)
    known: list[tuple[Garment, str]] = field(default_factory=list)
    replaced: list[tuple[Garment, str, str]] = field(default_factory=list)
    count: int = 0
    """How many lengths were not there by name."""
    again: int = 0
    """How many of them stand there side by side without a name."""

    def to_size(self, by_size: Any, point: str, size: str, garments: Sequence[Garment]) -> None:
        """Add garments to those of one size of a point."""
        spelled = list(by_size)
        known = index_of(size, spelled)
        key = size if known is None else spelled[known]
        here, entry = self.place.at(point).at(key), by_size.get(key)
        fresh = [one for one in garments if not self._is_there(entry, one, point, here)]
        if not fresh:
            return
        values = [_value(one.readings[point], self.unit) for one in fresh]
        self.count += len(values)
        self.again += len(values) if _holds(entry, values) else 0
        self.new.add((fresh[0].size, point))
        named = all(one.name for one in fresh)
        if entry is None or (isinstance(entry, dict) and not named):
            entry = _begun(entry, named=named)
            by_size[key] = entry
            entry = by_size[key]
        for one, value in zip(fresh, values, strict=True):
            self.places[str(_put(entry, one.name, value, here))] = one
        if len(entry) == len(fresh) == 1:
            self.places[str(self.place.at(point).at(size))] = fresh[0]

    def _is_there(self, entry: Any, garment: Garment, point: str, place: Place) -> bool:
        """Return whether a garment stands there by name; another length of it is replaced."""
        there = _named(entry, garment.name, place)
        if there is None:
            return False
        holder, name, here = there
        old, new = holder[name], garment.readings[point]
        if math.isclose(mm(old, here, default_unit=self.unit), new.mm, rel_tol=1e-9):
            self.known.append((garment, point))
            return True
        self.replaced.append((garment, point, _with_unit(old, self.unit)))
        self.new.add((garment.size, point))
        holder[name] = _value(new, self.unit)
        self.places[str(here)] = garment
        return True


def _named(entry: Any, name: str, place: Place) -> tuple[Any, str, Place] | None:
    """Return where a garment of a name stands: the table, the name as it is there, the place."""
    holders = [(entry, place)] if isinstance(entry, dict) else []
    if isinstance(entry, list):
        holders = [(one, place.at(k)) for k, one in enumerate(entry) if isinstance(one, dict)]
    for holder, here in holders:
        for spelled in holder:
            if name and same_garment(spelled) == same_garment(name):
                return holder, spelled, here.at(spelled)
    return None


def _begun(entry: Any, *, named: bool) -> Any:
    """Return what holds a size's garments: by name, or a list if there are some without.

    Those that are there by name stand at the head of the list.
    """
    import tomlkit

    holder = tomlkit.inline_table()
    if named:
        return holder
    for name, value in (entry or {}).items():
        holder.append(name, value)
    begun = tomlkit.array()
    if entry:
        begun.append(holder)
    return begun


def _put(entry: Any, name: str, value: str | float, place: Place) -> Place:
    """Add a garment to those of its size, and return where it stands."""
    import tomlkit

    if isinstance(entry, dict):
        entry[name] = value
        return place.at(name)
    here = place.at(len(entry))
    if not name:
        entry.append(value)
        return here
    holder = tomlkit.inline_table()
    holder[name] = value
    entry.append(holder)
    return here.at(name)


def _with_unit(value: object, unit: str) -> str:
    """Return a length of the table as it is read."""
    read = number(str(value))
    return f"{value} {unit}" if read is not None and not read[1].strip() else str(value)


def _value(reading: Reading, unit: str) -> str | float:
    """Return a length as a table holds it: bare in the table's unit, else with its own."""
    read = number(reading.text)
    if read is None or unit_worth(read[1]) != unit_worth(unit):
        return reading.text
    bare = reading.text[: len(reading.text) - len(read[1])].strip()
    plain = bare.replace(".", "", 1)
    if not (plain.isascii() and plain.isdigit()):
        return bare
    return int(bare) if bare.isdigit() else float(bare)


def _holds(entry: Any, values: Sequence[object]) -> bool:
    """Return whether the values stand in a list, in their order, side by side."""
    entries, span = list(entry) if isinstance(entry, list) else [], len(values)
    return any(
        entries[start : start + span] == list(values) for start in range(len(entries) - span + 1)
    )
