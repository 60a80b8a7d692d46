"""One table of an order file: its values by key, checked, with every problem noted.

A value that cannot be used is noted and a stand-in returned, so that reading goes on and one
run shows everything that is wrong. An order is made only if nothing was noted.
"""

import unicodedata
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import TypeVar

from jigs.errors import BadInput, Place, Unknown
from jigs.units import Mm, mm

T = TypeVar("T")

#: No shop's order has more of anything; more is a slip or an attack.
MOST_ENTRIES = 200
_MOST_UNKNOWN_KEYS = 10
#: Control characters, lone surrogates, line and paragraph separators.
_UNPRINTABLE = frozenset({"Cc", "Cs", "Zl", "Zp"})


@dataclass(frozen=True, slots=True)
class Fields:
    """The values of one table, where it stands, and the problems found so far."""

    place: Place
    values: Mapping[str, object]
    problems: list[BadInput]

    def note(self, key: str | int, found: str, allowed: str) -> None:
        """Note a problem with a key's value."""
        self.problems.append(BadInput(self.place.at(key), found, allowed))

    def known_keys(self, *known: str) -> None:
        """Note every key that is not among the known ones."""
        strangers = [key for key in self.values if key not in known]
        for key in strangers[:_MOST_UNKNOWN_KEYS]:
            short = key[:40]
            self.problems.append(Unknown(self.place.at(short), "key", short, known))

    def text(self, key: str, default: str | None = None, most: int = 80) -> str:
        """Return a line of text, trimmed; the key must be there unless there is a default."""
        value = self._given(key, default, 'a text in quotes, such as "..."')
        if value is None:
            return default or ""
        if not isinstance(value, str):
            self.note(key, f"found {shown(value)}", "write a text in quotes")
            return ""
        return self._line(key, value, most)

    def choice(
        self, key: str, kind: str, known: Collection[str], default: str | None = None
    ) -> str:
        """Return one of the known names."""
        noted = len(self.problems)
        name = self.text(key, default)
        if len(self.problems) == noted and name != default:
            self.must_be_known(key, kind, name, known)
        return name

    def must_be_known(self, key: str | int, kind: str, name: str, known: Collection[str]) -> bool:
        """Note a name that is not among the known ones; return whether it is."""
        if name not in known:
            self.problems.append(Unknown(self.place.at(key), kind, name, known))
        return name in known

    def names(self, key: str, kind: str, known: Collection[str] | None) -> tuple[str, ...]:
        """Return a list of different names; `known` is None where that cannot be judged."""
        items = self._items(key)
        inner = Fields(self.place.at(key), {}, self.problems)
        names: list[str] = []
        for index, item in enumerate(items):
            if not isinstance(item, str):
                inner.note(index, f"found {shown(item)}", f"write the name of a {kind} in quotes")
            elif item in names:
                inner.note(index, f"found {shown(item)} twice", "name each one once")
            elif known is None or inner.must_be_known(index, kind, item[:60], known):
                names.append(item)
        return tuple(names)

    def length(self, key: str, default: Mm, least: Mm, most: Mm) -> Mm:
        """Return a length within bounds, the default if there is none."""
        if key not in self.values:
            return default
        return self.as_length(key, self.values[key], least, most)

    def as_length(self, key: str | int, value: object, least: Mm, most: Mm) -> Mm:
        """Return a value as a length within bounds, the least of them if it is none."""
        # A whole number beyond any float must not reach a conversion to float.
        small = value if not isinstance(value, int) else max(-(10**9), min(value, 10**9))
        read = small if not isinstance(value, bool) else value
        try:
            return mm(read, self.place.at(key), least=least, most=most)
        except BadInput as problem:
            self.problems.append(problem)
            return least

    def pair(
        self,
        key: str,
        default: tuple[Mm, Mm],
        least: Mm,
        most: Mm,
        allowed: str = 'write a width and a height, such as ["16 in", "20 in"]',
    ) -> tuple[Mm, Mm]:
        """Return two lengths, a width and a height unless `allowed` says otherwise."""
        if key not in self.values:
            return default
        value = self.values[key]
        if not isinstance(value, list) or len(value) != 2:
            self.note(key, f"found {shown(value)}", allowed)
            return default
        inner = Fields(self.place.at(key), {}, self.problems)
        first, second = (inner.as_length(i, item, least, most) for i, item in enumerate(value))
        return first, second

    def factor(self, key: str, default: float, least: float, most: float) -> float:
        """Return a number within bounds, without a unit."""
        value = self.values.get(key, default)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            self.note(key, f"found {shown(value)}", "write a number without quotes, such as 1.004")
        elif not least <= value <= most:
            self.note(key, f"found {shown(value)}", f"allowed: a number from {least} to {most}")
        else:
            return float(value)
        return default

    def whole(self, key: str, default: int, least: int, most: int) -> int:
        """Return a whole number within bounds, without quotes."""
        value = self.values.get(key, default)
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            allowed = f"allowed: a whole number from {least} to {most}"
            self.note(key, f"found {shown(value)}", allowed)
            return default
        return value

    def flag(self, key: str) -> bool:
        """Return whether something is wanted; not, if nothing is said."""
        value = self.values.get(key, False)
        if not isinstance(value, bool):
            self.note(key, f"found {shown(value)}", "write true or false, without quotes")
            return False
        return value

    def table(self, key: str, example: str = "") -> "Fields":
        """Return an inner table; an empty one if there is none."""
        value = self.values.get(key, {})
        if isinstance(value, dict):
            return Fields(self.place.at(key), value, self.problems)
        self.note(key, f"found {shown(value)}", f"write {example or f'a heading [{key}]'}")
        return Fields(self.place.at(key), {}, self.problems)

    def tables(self, key: str) -> tuple["Fields", ...]:
        """Return the inner tables of a list that must have at least one."""
        allowed = f"write one or more headings [[{key}]], with two brackets"
        value = self._given(key, None, f"one or more headings [[{key}]]")
        if value is None:
            return ()
        if not isinstance(value, list) or not value:
            self.note(key, f"found {shown(value)}", allowed)
            return ()
        if len(value) > MOST_ENTRIES:
            self.note(key, f"found {len(value)} entries", f"allowed: at most {MOST_ENTRIES}")
            return ()
        inner = Fields(self.place.at(key), {}, self.problems)
        found = []
        for index, item in enumerate(value):
            if isinstance(item, dict):
                found.append(Fields(inner.place.at(index), item, self.problems))
            else:
                inner.note(index, f"found {shown(item)}", allowed)
        return tuple(found)

    def _given(self, key: str, default: T | None, wanted: str) -> object | None:
        if key not in self.values and default is None:
            self.note(key, "missing", f"write {wanted}")
        return self.values.get(key)

    def _items(self, key: str) -> list[object]:
        value = self.values[key]
        if not isinstance(value, list) or not value:
            allowed = 'write a list of names, such as ["a", "b"], or leave the key out'
            self.note(key, f"found {shown(value)}", allowed)
            return []
        if len(value) > MOST_ENTRIES:
            self.note(key, f"found {len(value)} entries", f"allowed: at most {MOST_ENTRIES}")
            return []
        return value

    def _line(self, key: str, value: str, most: int) -> str:
        line = value.strip()
        if not line:
            self.note(key, "found an empty text", "write something between the quotes")
        elif any(unicodedata.category(letter) in _UNPRINTABLE for letter in line):
            allowed = "write one line without control characters"
            self.note(key, f"found {shown(value)}", allowed)
        elif len(line) > most:
            self.note(key, f"found {len(line)} letters", f"allowed: at most {most}")
        else:
            return line
        return ""


def shown(value: object) -> str:
    """Return a value as a user would know it again, shortened.

    >>> shown([1, 2]), shown(True), shown("a")
    ('a list of 2', 'true', "'a'")
    """
    if isinstance(value, dict):
        return f"a table of {len(value)}" if value else "an empty table"
    if isinstance(value, list):
        return f"a list of {len(value)}" if value else "an empty list"
    if isinstance(value, bool):
        return str(value).lower()
    text = repr(value) if isinstance(value, (str, int, float)) else f"the date or time {value}"
    return text if len(text) <= 60 else f"{text[:57]}..."
