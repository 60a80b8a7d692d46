"""TOML that users write by hand, read with errors they can act on."""

import re
import tomllib

from jigs.errors import BadInput, Place

#: A large order has some 20 kB. The parser's time grows with the square of a line's length.
LONGEST_FILE = 200_000
LONGEST_LINE = 1000
_AT = re.compile(r"(?P<says>.*) \(at (?P<where>line \d+, column \d+|end of document)\)")


def parsed(text: str, place: Place, what: str) -> dict[str, object]:
    """Return the keys and values of a file's text; `what` names what the file is.

    Raises:
        BadInput: it is too long, or no TOML; the place is said, and the likeliest slip.
    """
    if len(text) > LONGEST_FILE:
        found = f"the file has {len(text)} letters"
        raise BadInput(place, found, f"{what} has at most {LONGEST_FILE}")
    for row, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            found = f"the line has {len(line)} letters"
            raise BadInput(place.at(f"line {row}"), found, f"a line has at most {LONGEST_LINE}")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(str(error), text, place) from None
    except RecursionError:
        raise BadInput(place, "lists or tables nested too deep", "write them as shown") from None


def _not_toml(message: str, text: str, place: Place) -> BadInput:
    says, where, line = message, "", ""
    match = _AT.fullmatch(message)
    if match is not None:
        says, where = match["says"], match["where"]
        row = re.match(r"line (\d+)", where)
        line = text.split("\n")[int(row[1]) - 1] if row else ""
    allowed = "check the quotes, brackets, commas and equals signs there"
    if any(quote in line for quote in "“”„‘’"):
        allowed = 'use straight quotes " instead of curly ones'
    elif line.count('"') % 2:
        allowed = 'a text begins and ends with "; write an inch as in, such as "3 1/2 in"'
    elif "\\" in line:
        allowed = "write a path with forward slashes, such as artwork/crest.svg"
    return BadInput(place.at(where) if where else place, f"not TOML: {says}", allowed)
