"""Measured garments written into the text of a size table, everything else in it left as it is."""

from collections.abc import Sequence

from jigs.errors import BadInput, Place
from jigs.tables.garments_csv import Garment, Reading
from jigs.tables.points import POINTS
from jigs.tables.size_names import index_of
from jigs.units import number, unit_worth

#: So many lengths that are all in the table already, in order, are a file that is read again.
_SURELY_AGAIN = 4


def with_garments(
    text: str, sizes: Sequence[str], unit: str, garments: Sequence[Garment], place: Place
) -> tuple[str, dict[str, Garment]]:
    """Return a table's text with the garments added, and which garment stands where.

    The text is one that reads as a table. Comments, order and layout stay. The places are those
    of the new text, `measured.front_neck_drop.M[3]`, and `measured.front_neck_drop.M` where that
    holds one garment alone.

    Raises:
        BadInput: the text cannot be edited so, or the same lengths are in it already.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError
    from tomlkit.items import InlineTable

    try:
        document = tomlkit.parse(text)
        measured = document.setdefault("measured", tomlkit.table(is_super_table=True))
        row = tomlkit.inline_table if isinstance(measured, InlineTable) else tomlkit.table
        new: dict[str, Garment] = {}
        again = count = 0
        for point in POINTS:
            for index in range(len(sizes)):
                added = [one for one in garments if one.size == index and point in one.readings]
                if not added:
                    continue
                by_size = measured.setdefault(point, row())
                names = list(by_size)
                known = index_of(sizes[index], names)
                name = sizes[index] if known is None else names[known]
                entries = by_size.setdefault(name, tomlkit.array())
                here = place.at("measured").at(point).at(sizes[index])
                values = [_value(one.readings[point], unit) for one in added]
                count += len(values)
                again += len(values) if _holds(list(entries), values) else 0
                for one, value in zip(added, values, strict=True):
                    entries.append(value)
                    new[str(here.at(len(entries) - 1))] = one
                if len(entries) == 1:
                    new[str(here)] = added[0]
        result = tomlkit.dumps(document)
        if "\r\n" in text:
            result = result.replace("\r\n", "\n").replace("\n", "\r\n")
    except TOMLKitError as error:
        found = f"cannot be edited: {error}"
        raise BadInput(place, found, "a plain TOML file; write the lengths in yourself") from None
    if count >= _SURELY_AGAIN and again == count:
        found = f"all {count} lengths are in it already"
        raise BadInput(place, found, "each garment is measured once: leave out those rows")
    return result, new


def _value(reading: Reading, unit: str) -> str | float | int:
    """Return a length as a table holds it: bare in the table's unit, else with its own."""
    read = number(reading.text)
    if read is None or unit_worth(read[1]) != unit_worth(unit):
        return reading.text
    bare = reading.text[: len(reading.text) - len(read[1])].strip()
    plain = bare.replace(".", "", 1)
    if not (plain.isascii() and plain.isdigit()):
        return bare
    return int(bare) if bare.isdigit() else float(bare)


def _holds(entries: Sequence[object], values: Sequence[object]) -> bool:
    """Return whether the values stand among the entries, in their order, side by side."""
    span = len(values)
    return any(
        list(entries[start : start + span]) == list(values)
        for start in range(len(entries) - span + 1)
    )
