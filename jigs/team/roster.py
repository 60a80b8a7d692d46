"""The list of a team: who gets which garment, with which name and number."""

import re
import unicodedata
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from jigs.errors import BadInput, Finding, Place, Unknown, raise_all
from jigs.tables.size_names import index_of
from jigs.team.sheet import Row, rows

LONGEST_NAME = 40
MOST_PIECES = 1000
#: 0 to 99, and 00 (what rule books have in common; some allow fewer).
_NUMBER = re.compile(r"00|0|[1-9][0-9]?")
_ALLOWED = "allowed: 0 to 99, or 00"
#: Where an order has rules of its own, which say nothing of what is worn.
_ANY_NUMBER = re.compile(r"[0-9]{1,3}")
_ANY_ALLOWED = "allowed: one to three figures"
#: What a name may begin with besides a letter or a figure.
_BEFORE = "'’‘ʻʼ"
#: Control and format characters, lone surrogates, private and unassigned ones, line ends.
_UNPRINTABLE = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


@dataclass(frozen=True, slots=True)
class Line:
    """A garment line that a list may name: its colour, and the sizes ordered."""

    name: str
    colour: str
    sizes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Player:
    """One entry of the list."""

    row: int
    """Its line in the file."""
    garment: str
    size: str
    """As the order spells it."""
    name: str
    """Empty if there is none; otherwise as written, its spaces single."""
    number: str
    """Empty, or 0 to 99, or 00; one to three figures by an order's own rules."""
    quantity: int

    @property
    def title(self) -> str:
        """Who it is: `ABBOTT 7`."""
        return " ".join(part for part in (self.name, self.number) if part) or f"row {self.row}"


def read(
    data: bytes,
    file: str,
    lines: Sequence[Line],
    prints: Collection[str],
    *,
    any_number: bool = False,
) -> tuple[tuple[Player, ...], tuple[Finding, ...]]:
    """Return the players of a list for the prints a team gets, and what is to be said of it.

    A player has a name or a number that is printed. `any_number` allows one to three figures.

    Raises:
        BadInput: one thing is wrong with the list.
        BadInputs: several things are; each is named with its row and column.
    """
    numbered, named = any(kind.endswith("number") for kind in prints), "back-name" in prints
    needed = {"size", *(["number"] if numbered else []), *(["name"] if named else [])}
    found, problems = rows(data, file, needed)
    raise_all(problems)
    if not found:
        raise BadInput(Place(file), "found a header but no players", "a row for each player")
    players = [_player(row, file, lines, problems, any_number=any_number) for row in found]
    for row in found:
        _has_a_print(row, file, problems, named=named, numbered=numbered)
    raise_all(problems)
    return tuple(players), (
        *_doubled(players, lines),
        *(_nameless(players) if named else ()),
        *(_numberless(players) if numbered else ()),
    )


def _player(
    row: Row, file: str, lines: Sequence[Line], problems: list[BadInput], *, any_number: bool
) -> Player:
    line = _line(row, file, lines, problems)
    return Player(
        row.line,
        line.name if line else "",
        _size(row, file, line, problems),
        _name(row, file, problems),
        _number(row, file, problems, any_number=any_number),
        _quantity(row, file, problems),
    )


def _line(row: Row, file: str, lines: Sequence[Line], problems: list[BadInput]) -> Line | None:
    name = row.cells.get("garment", "")
    if not name and len(lines) == 1:
        return lines[0]
    known = {line.name.casefold(): line for line in lines}
    if not name:
        allowed = f"name one of the order's garments: {', '.join(line.name for line in lines)}"
        problems.append(BadInput(row.place(file, "garment"), "missing", allowed))
    elif name.casefold() not in known:
        names = [line.name for line in lines]
        problems.append(Unknown(row.place(file, "garment"), "garment", _short(name), names))
    return known.get(name.casefold())


def _size(row: Row, file: str, line: Line | None, problems: list[BadInput]) -> str:
    name, place = row.cells.get("size", ""), row.place(file, "size")
    if not name:
        problems.append(BadInput(place, "missing", "a size of the order"))
    elif line is not None:
        index = index_of(name, line.sizes)
        if index is not None:
            return line.sizes[index]
        problems.append(Unknown(place, f"size of {line.name}", _short(name), line.sizes))
    return ""


def _name(row: Row, file: str, problems: list[BadInput]) -> str:
    place = row.place(file, "name")
    name = unicodedata.normalize("NFC", row.cells.get("name", ""))
    if any(unicodedata.category(letter) in _UNPRINTABLE for letter in name):
        allowed = "write one line without control characters"
        problems.append(BadInput(place, f"found {_short(name)!r}", allowed))
    elif len(name) > LONGEST_NAME:
        found = f"found {len(name)} letters"
        problems.append(BadInput(place, found, f"allowed: at most {LONGEST_NAME}"))
    elif name and not (name[0].isalnum() or name[0] in _BEFORE):
        allowed = "a name begins with a letter"
        problems.append(BadInput(place, f"found {_short(name)!r}", allowed))
    else:
        return " ".join(name.split())
    return ""


def _number(row: Row, file: str, problems: list[BadInput], *, any_number: bool) -> str:
    number = row.cells.get("number", "").removeprefix("#").strip()
    pattern, allowed = (_ANY_NUMBER, _ANY_ALLOWED) if any_number else (_NUMBER, _ALLOWED)
    if number and not pattern.fullmatch(number):
        place = row.place(file, "number")
        problems.append(BadInput(place, f"found {_short(number)!r}", allowed))
        return ""
    return number


def _has_a_print(
    row: Row, file: str, problems: list[BadInput], *, named: bool, numbered: bool
) -> None:
    """Note a row on which nothing of what the team gets would be printed."""
    name, number = row.cells.get("name", ""), row.cells.get("number", "").strip("# ")
    if (named and name) or (numbered and number):
        return
    if named and numbered:
        allowed = "write a name, a number, or both"
        problems.append(BadInput(row.place(file), "found neither a name nor a number", allowed))
    else:
        column = "number" if numbered else "name"
        allowed = f"write a {column}: nothing else is printed"
        problems.append(BadInput(row.place(file, column), "missing", allowed))


def _quantity(row: Row, file: str, problems: list[BadInput]) -> int:
    text = row.cells.get("quantity", "")
    if not text:
        return 1
    if re.fullmatch(r"[0-9]{1,4}", text) and 1 <= int(text) <= MOST_PIECES:
        return int(text)
    allowed = f"allowed: a whole number from 1 to {MOST_PIECES}"
    problems.append(BadInput(row.place(file, "quantity"), f"found {_short(text)!r}", allowed))
    return 1


def _doubled(players: Sequence[Player], lines: Sequence[Line]) -> list[Finding]:
    """Return a finding for each number that stands twice on garments of one colour."""
    colours = {line.name: line.colour for line in lines}
    seen: dict[tuple[str, str], list[Player]] = {}
    for one in players:
        if one.number:
            seen.setdefault((colours[one.garment], one.number), []).append(one)
    return [
        Finding(
            blocks=False,
            about=f"number {number}",
            says=f"stands in rows {', '.join(str(one.row) for one in those)} of one colour: "
            "a team has each number once",
        )
        for (_, number), those in seen.items()
        if len(those) > 1
    ]


def _nameless(players: Sequence[Player]) -> list[Finding]:
    without = [str(one.row) for one in players if not one.name]
    if not without:
        return []
    says = f"no name stands in {_count(len(without), 'row')} {', '.join(without)}: none is printed"
    return [Finding(blocks=False, about="names", says=says)]


def _numberless(players: Sequence[Player]) -> list[Finding]:
    without = [one.name for one in players if not one.number]
    if not without:
        return []
    says = f"{', '.join(without)} {'has' if len(without) == 1 else 'have'} no number"
    return [Finding(blocks=False, about="numbers", says=f"{says}: none is printed")]


def _count(number: int, word: str) -> str:
    return word if number == 1 else f"{word}s"


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."
