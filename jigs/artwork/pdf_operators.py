"""The operators of a PDF's content, one after the other (ISO 32000-1, 7.8.2)."""

import re
from collections.abc import Iterator
from typing import NamedTuple

_TOKEN = re.compile(
    rb"""[\0\t\n\f\r ]*(?:
      (?P<number> [+-]?(?:\d+\.?\d*|\.\d+) )
    | (?P<operator> [A-Za-z'"][A-Za-z0-9'"*]* )
    | (?P<name> /[^\0\t\n\f\r ()<>\[\]{}/%]* )
    | (?P<string> \( )
    | %[^\r\n]*
    | <[0-9A-Fa-f\0\t\n\f\r ]*>
    | . | $ )""",
    re.VERBOSE | re.DOTALL,
)
_IN_STRING = re.compile(rb"\\.|[()]", re.DOTALL)
_PICTURE_BEGINS = re.compile(rb"[\0\t\n\f\r ]ID[\0\t\n\f\r ]")
_PICTURE_ENDS = re.compile(rb"[\0\t\n\f\r ]EI(?=[\0\t\n\f\r /]|$)")
_PICTURE_SIDE = (re.compile(rb"/W(?:idth)?\s+(\d{1,9})"), re.compile(rb"/H(?:eight)?\s+(\d{1,9})"))
_HEX = re.compile(rb"#([0-9A-Fa-f]{2})")
#: The last so many operands are kept; no operator that is looked at has more.
_MOST_OPERANDS = 64
_LONGEST_NUMBER = 40
_VALUES = {"true", "false", "null"}


class Operator(NamedTuple):
    """An operator with its operands; strings are left out, and what brackets enclose is flat."""

    word: str
    numbers: list[float]
    """For `BI`, a picture in the content: its pixels across and down."""
    names: list[str]
    """With their slashes."""


def operators(content: bytes) -> Iterator[Operator]:
    """Yield each operator."""
    numbers, names = list[float](), list[str]()
    at, end = 0, len(content)
    while at < end:
        match = _TOKEN.match(content, at)
        if match is None:
            return
        at, kind = match.end(), match.lastgroup
        if kind == "number":
            numbers.append(float(match["number"][:_LONGEST_NUMBER]))
        elif kind == "operator":
            word = match["operator"].decode("ascii")
            if word == "BI":
                numbers, at = _picture(content, at)
            elif word in _VALUES:
                continue
            yield Operator(word, numbers, names)
            numbers, names = [], []
        elif kind == "name":
            names.append(_name(match["name"]))
        elif kind == "string":
            at = _after_string(content, at)
        if len(numbers) > _MOST_OPERANDS or len(names) > _MOST_OPERANDS:
            del numbers[:-_MOST_OPERANDS], names[:-_MOST_OPERANDS]


def _picture(content: bytes, at: int) -> tuple[list[float], int]:
    """Return the size of a picture in the content, if it is told, and where it ends."""
    begins = _PICTURE_BEGINS.search(content, at)
    if begins is None:
        return [], len(content)
    sides = [side.search(content, at, begins.start()) for side in _PICTURE_SIDE]
    ends = _PICTURE_ENDS.search(content, begins.end() - 1)
    size = [float(side[1]) for side in sides if side]
    return size if len(size) == 2 else [], ends.end() if ends else len(content)


def _name(token: bytes) -> str:
    if b"#" in token:
        token = _HEX.sub(lambda match: bytes([int(match[1], 16)]), token)
    try:
        return token.decode("utf-8")
    except UnicodeDecodeError:
        return token.decode("latin-1")


def _after_string(content: bytes, at: int) -> int:
    depth = 1
    while depth:
        match = _IN_STRING.search(content, at)
        if match is None:
            return len(content)
        at = match.end()
        depth += {b"(": 1, b")": -1}.get(match[0], 0)
    return at
