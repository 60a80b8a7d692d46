"""Names of sizes: which are the same, and which of a table's sizes a text such as `S-XL` means."""

import re
from collections.abc import Sequence

from jigs.errors import BadInput, Place, Unknown

#: The letters S, M, L with as many X before them are the codes of EN 13402-3; their words, and a
#: large one without its L, are common practice, no source.
_LETTER = re.compile(
    r"(?:(?P<count>\d{1,2})[ -]?x?|(?P<many>x+)|(?P<extra>extra))?[ -]?"
    r"(?P<size>small|sml|medium|med|large|lge|[sml])"
)
_NO_L = re.compile(r"(?P<count>[2-9])x|(?P<many>x{2,})")
_DASHES = re.compile(r"[-–]")
_GRAMMAR = 'write sizes such as "M", "S-XL" or "S-XL, 3XL"'


def folded(name: str) -> str:
    """Return what two spellings of one size have in common.

    >>> folded(" XXL ") == folded("2xl")
    True
    >>> folded("X-Large"), folded("Extra small"), folded("XX-Large"), folded("2X"), folded("Small")
    ('xl', 'xs', '2xl', '2xl', 's')
    """
    plain = " ".join(name.split()).casefold()
    letter, no_l = _LETTER.fullmatch(plain), _NO_L.fullmatch(plain)
    if no_l:
        return f"{no_l['count'] or len(no_l['many'])}xl"
    if not letter or (letter["count"] and "x" not in plain):
        return plain
    times = int(letter["count"] or len(letter["many"] or "") or bool(letter["extra"]))
    if times and letter["size"][0] == "m":
        return plain
    return ("" if not times else "x" if times == 1 else f"{times}x") + letter["size"][0]


def index_of(name: str, names: Sequence[str]) -> int | None:
    """Return where a size stands among the names, however it is spelled."""
    wanted = folded(name)
    return next((i for i, known in enumerate(names) if folded(known) == wanted), None)


def selected(text: str, table: str, names: Sequence[str], place: Place) -> tuple[int, ...]:
    """Return which of a table's sizes a text means, in the table's order, each once.

    A size's own name comes before any reading of it as a range, so `6-12M` is a size where there
    is one of that name. A part may start with the table's own name: `adult-crew-tee/S`.

    Raises:
        Unknown: a size the table does not have.
        BadInput: an empty part, a range written backwards, or one that can be read in two ways.
    """
    found: set[int] = set()
    for part in text.split(","):
        found.update(_part(part.strip(), table, names, place))
    return tuple(sorted(found))


def _part(part: str, table: str, names: Sequence[str], place: Place) -> range:
    one = index_of(part, names)
    if one is not None:
        return range(one, one + 1)
    before, slash, rest = part.partition("/")
    if slash and before.strip() == table:
        return _part(rest.strip(), "", names, place)
    if not part:
        raise BadInput(place, "found no size where one is expected", _GRAMMAR)
    return _range(part, names, place)


def _range(part: str, names: Sequence[str], place: Place) -> range:
    pairs = [(part[: dash.start()], part[dash.end() :]) for dash in _DASHES.finditer(part)]
    ends = [(index_of(left, names), index_of(right, names)) for left, right in pairs]
    known = [(i, j) for i, j in ends if i is not None and j is not None]
    if len(known) > 1:
        raise BadInput(
            place,
            f"found {part!r}, which can be read as {len(known)} different ranges",
            'write the sizes one by one, such as "S, M, L"',
        )
    if not known:
        raise Unknown(place, "size", _wrong_end(part, pairs, ends), names, in_order=True)
    first, last = known[0]
    if first > last:
        raise BadInput(
            place,
            f"found {part!r}, which runs backwards",
            f'write "{names[last]}-{names[first]}"',
        )
    return range(first, last + 1)


def _wrong_end(
    part: str, pairs: list[tuple[str, str]], ends: list[tuple[int | None, int | None]]
) -> str:
    """Return the end of a range that is no size, if the other end is one; else the whole part."""
    for (left, right), (i, j) in zip(pairs, ends, strict=True):
        if i is not None:
            return right.strip()
        if j is not None:
            return left.strip()
    return part
