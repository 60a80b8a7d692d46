"""What a spec sheet calls our points of measure: whole names from a list, nothing guessed."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from jigs.errors import BadInput, Place, Unknown, collecting, raise_all
from jigs.tables.points import POINTS
from jigs.tables.spec_values import without_unit

_FACTORS = {"": 1.0, "0.5": 0.5, "1/2": 0.5, "2": 2.0}
_MAP = 'write NAME=POINT, NAME=POINT*0.5 or NAME=- to leave it out, such as "Chest=half_chest*0.5"'
#: The letter or number that sheets put before a name: "A. Half chest", "(3) Sleeve", "B - Neck".
_CODE = re.compile(r"^\(?(?:[A-Z]{1,2}\d{0,2}|\d{1,3})\s?(?:[.):]|\s-)\s+")
_LONGEST_NAME = 120


@dataclass(frozen=True, slots=True)
class Meaning:
    """A point of measure, and by what the sheet's figure is multiplied to give it."""

    point: str
    times: float = 1.0

    def __str__(self) -> str:
        return self.point if self.times == 1 else f"{self.point}*{self.times:g}"


#: What a name that the user leaves out means.
LEFT_OUT = Meaning("-")


@dataclass(frozen=True, slots=True)
class Unclear:
    """What a name means on one sheet or another; the user must say which."""

    candidates: tuple[Meaning, ...]


@dataclass(frozen=True, slots=True)
class Names:
    """Which names mean what: the user's own word first, then the list's."""

    own: Mapping[str, Meaning]

    def own_key(self, text: str, cell: str) -> str | None:
        """Return by which of the user's own keys a name is meant; `cell` is where it stands."""
        return next((one for one in (cell, *_spellings(text)) if one in self.own), None)

    def find(self, text: str, cell: str) -> Meaning | Unclear | None:
        """Return what a name means; None if it is none of our points."""
        key = self.own_key(text, cell)
        if key is not None:
            return self.own[key]
        return next((_listed()[one] for one in _spellings(text) if one in _listed()), None)


def own_names(options: Iterable[str]) -> Names:
    """Return the names that the user gives meanings to: `Sleeve=sleeve_length`, `Notes=-`.

    Raises:
        BadInput, BadInputs: an option is malformed, unknown, or says something else of a name.
    """
    own: dict[str, Meaning] = {}
    problems: list[BadInput] = []
    place = Place("option", "--map")
    for option in options:
        name, _, target = option.rpartition("=")
        key = name.strip() if _is_cell(name.strip()) else folded(name)
        with collecting(problems):
            if not key:
                raise BadInput(place, f"found {option!r}", _MAP)
            meaning = _target(target.strip(), option, place)
            if own.setdefault(key, meaning) != meaning:
                raise BadInput(place, f"found two meanings of {name.strip()!r}", "give one")
    raise_all(problems)
    return Names(own)


@lru_cache(10_000)
def folded(text: str) -> str:
    """Return what the spellings of one name have in common.

    >>> folded("Center-Back Length (cm)"), folded("½ Chest"), folded("Tol. +/-")
    ('centre back length', 'half chest', 'tol plus minus')
    """
    dropped, instead = _words()
    words = [word for word in _plain(text[:_LONGEST_NAME]).split() if word not in dropped]
    line = f" {' '.join(words)} "
    for theirs, ours in instead:
        line = line.replace(f" {theirs} ", f" {ours} ")
    return line.strip()


def _plain(text: str) -> str:
    """Return a name in small letters without its unit and punctuation, signs as words."""
    text = without_unit(text).casefold().replace("½", " 1/2 ")
    text = re.sub(r"\+\s?/\s?-|±", " plus minus ", text)
    text = re.sub(r"\(-\)|^-|\s-$", " minus ", text).replace("+", " plus ")
    return re.sub(r"(?<!\d)/|/(?!\d)|[^\w/#]|_", " ", text)


def is_heading(text: str, kind: str) -> bool:
    """Return whether a text heads a column of a kind: names, tolerance, grading, code, notes.

    What begins with the word size, such as "Size (EU)", heads names.
    """
    spellings = _spellings(text)
    of_sizes = any(one.split()[0] in {"size", "sizes"} for one in spellings)
    return any(one in _headings()[kind] for one in spellings) or (kind == "names" and of_sizes)


def _spellings(text: str) -> tuple[str, ...]:
    """Return a name as it stands, and without the code before it."""
    return tuple(one for one in (folded(text), folded(_CODE.sub("", text))) if one)


def _is_cell(name: str) -> bool:
    return bool(re.fullmatch(r"[A-Z]{1,3}[1-9]\d{0,3}", name))


def _target(text: str, option: str, place: Place) -> Meaning:
    if text == "-":
        return LEFT_OUT
    point, _, times = (part.strip() for part in text.partition("*"))
    if not point or times not in _FACTORS:
        raise BadInput(place, f"found {option!r}", _MAP)
    if point not in POINTS:
        raise Unknown(place, "point of measure", point, POINTS)
    return Meaning(point, _FACTORS[times])


@cache
def _document() -> Mapping[str, Any]:
    text = files("jigs.tables").joinpath("synonyms.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def _words() -> tuple[frozenset[str], tuple[tuple[str, str], ...]]:
    """Return the words to drop, and those to put instead of others, longest first."""
    words = _document()["words"]
    instead = [(theirs, ours) for theirs, ours in words.items() if ours]
    dropped = frozenset(word for word, ours in words.items() if not ours)
    return dropped, tuple(sorted(instead, key=lambda pair: (-len(pair[0]), pair)))


@cache
def _listed() -> Mapping[str, Meaning | Unclear]:
    """Return what each folded name means; the points' own names are among them."""
    found: dict[str, Meaning | Unclear] = {folded(point): Meaning(point) for point in POINTS}
    for entry in _document()["names"]:
        meaning = Meaning(entry["point"], entry.get("times", 1.0))
        found |= {folded(name): meaning for name in entry["names"]}
    for entry in _document()["unclear"]:
        place = Place("synonyms.toml")
        unclear = Unclear(tuple(_target(one, one, place) for one in entry["points"]))
        found |= {folded(name): unclear for name in entry["names"]}
    return found


@cache
def _headings() -> Mapping[str, frozenset[str]]:
    return {kind: frozenset(map(folded, names)) for kind, names in _document()["headings"].items()}
