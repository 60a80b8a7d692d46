"""Lengths at the boundary: text to millimetres and back.

Inside the program a length is a float in millimetres, `Mm`. The number is read by the grammar
below, never by pint, which reads `18 1/2 in` as 9 in and accepts `nan`. Millimetre, centimetre
and inch are exact by definition (the international inch is 25.4 mm: NIST Special Publication
811, appendix B), and 72 points are an inch (CSS Values and Units 4, 6.2); what any other length
unit is worth is asked of pint.
"""

import math
import re
from fractions import Fraction
from functools import cache
from typing import Any, TypeAlias

from jigs.errors import BadInput, Place

Mm: TypeAlias = float

INCH: Mm = 25.4
#: 25.4/72, rounded once.
POINT: Mm = 127 / 360
#: The English digit, 3/4 in: four of them make the three inches of the trade's four fingers.
FINGER: Mm = 19.05
#: Longer than any garment; a longer length is a slip of the pen.
LONGEST: Mm = 10_000.0

_WORTH: dict[str, Mm] = {
    "mm": 1.0,
    "cm": 10.0,
    "in": INCH,
    "inch": INCH,
    "inches": INCH,
    '"': INCH,
    "pt": POINT,
    "finger": FINGER,
    "fingers": FINGER,
}
_PINT_NAMES = {
    "m": "meter",
    "ft": "foot",
    "feet": "foot",
    "yd": "yard",
    "pc": "pica",
    "thou": "thou",
}
_VULGAR = {
    "½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅓": (1, 3), "⅔": (2, 3),
    "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
_QUOTES = str.maketrans({"”": '"', "“": '"', "″": '"', "⁄": "/", "−": "-", "\u00a0": " "})
_NUMBER = re.compile(
    r"""(?P<sign>-?)\s*
    (?: (?P<whole>\d{1,9}) (?: [ -]+ (?P<top>\d{1,4}) \s*/\s* (?P<bottom>\d{1,4})
                             | [ -]* (?P<vulgar>[½¼¾⅓⅔⅛⅜⅝⅞]) )
      | (?P<only_top>\d{1,4}) \s*/\s* (?P<only_bottom>\d{1,4})
      | (?P<only_vulgar>[½¼¾⅓⅔⅛⅜⅝⅞])
      | (?P<decimal>\d{1,9}(?:[.,]\d{0,9})?|[.,]\d{1,9}) )""",
    re.VERBOSE,
)
_ALLOWED = 'a length with its unit, such as "3 1/4 in", "82.5 mm" or "4 fingers"'


def number(text: str) -> tuple[float, str] | None:
    """Return the number a text starts with, and the rest; None if it starts with none.

    Fractions may be written `18 1/2`, `18-1/2`, `18½` and `18.5`; a comma is a decimal comma.

    >>> number("18 1/2 in")
    (18.5, ' in')
    >>> number("18,5 cm")
    (18.5, ' cm')
    """
    match = _NUMBER.match(text)
    if match is None:
        return None
    part = match.groupdict()
    value = 0.0
    if part["whole"]:
        value += int(part["whole"])
    if part["decimal"]:
        value += float(part["decimal"].replace(",", "."))
    top, bottom = part["top"] or part["only_top"], part["bottom"] or part["only_bottom"]
    if top and bottom:
        if int(bottom) == 0:
            return None
        value += int(top) / int(bottom)
    sign = part["vulgar"] or part["only_vulgar"]
    if sign:
        value += _VULGAR[sign][0] / _VULGAR[sign][1]
    return (-value if part["sign"] else value), text[match.end() :]


def unit_worth(name: str) -> Mm | None:
    """Return what one of a unit is worth in millimetres; None if it is no length unit we know.

    >>> unit_worth("finger")
    19.05
    """
    name = name.strip().translate(_QUOTES)
    name = name if name == '"' else name.lower().rstrip(".")
    if name in _WORTH:
        return _WORTH[name]
    return _asked_of_pint(_PINT_NAMES[name]) if name in _PINT_NAMES else None


def unit_names() -> tuple[str, ...]:
    """Return the unit names that may be typed, but for the inch mark, which is no word."""
    return (*(name for name in _WORTH if name != '"'), *_PINT_NAMES)


def mm(
    text: object,
    place: Place,
    *,
    default_unit: str | None = None,
    least: Mm = 0.0,
    most: Mm = LONGEST,
) -> Mm:
    """Return the millimetres of a length as the user wrote it.

    A bare number is a length only where a `default_unit` is given (a size table's own unit).

    Raises:
        BadInput: no number, no unit, an unknown unit, or a length outside `least`..`most`.

    >>> mm("4 fingers", Place("order.toml", "drop"))
    76.2
    """
    if isinstance(text, bool) or not isinstance(text, (str, int, float)):
        raise BadInput(place, f"found {_shown(text)}", f"write {_ALLOWED}")
    if isinstance(text, str):
        read = number(text.strip().translate(_QUOTES))
        if read is None:
            raise BadInput(place, f"found {_shown(text)}", f"write {_ALLOWED}")
        value, rest = read
    else:
        # A whole number too large for a float is no length either.
        value, rest = (float(text) if abs(text) < 1e300 else math.inf), ""
    unit = rest.strip() or default_unit
    if unit is None:
        raise BadInput(place, f"found {_shown(text)}, which has no unit", f"write {_ALLOWED}")
    worth = unit_worth(unit)
    if worth is None:
        allowed = ", ".join(unit_names())
        raise BadInput(
            place, f"found {_shown(text)}: unknown unit {_shown(unit)}", f"units: {allowed}"
        )
    length = value * worth
    if not math.isfinite(length) or not least <= length <= most:
        bounds = f"from {say(least, 'mm')} to {say(most, 'mm')}"
        bounds += f" ({say(least)} to {say(most)})" if worth == INCH else ""
        raise BadInput(place, f"found {_shown(text)}", f"allowed: a length {bounds}")
    return length


def say(length: Mm, unit: str = "in") -> str:
    """Return a length as a decorator would say it: inches in sixteenths, or millimetres.

    Inches that are no sixteenth are said to a hundredth. Only for reading: no number is ever
    taken from this text again.

    >>> say(82.55), say(82.0), say(82.06, "mm")
    ('3 1/4 in', '3.23 in', '82.1 mm')
    """
    if unit == "mm":
        return f"{_plain(round(length, 1))} mm"
    inches = length / INCH
    sixteenths = round(inches * 16)
    if abs(inches * 16 - sixteenths) > 0.02:
        return f"{_plain(round(inches, 2))} in"
    sign = "-" if sixteenths < 0 else ""
    whole, part = divmod(abs(sixteenths), 16)
    if part == 0:
        return f"{sign}{whole} in"
    divisor = math.gcd(part, 16)
    fraction = f"{part // divisor}/{16 // divisor}"
    return f"{sign}{whole} {fraction} in" if whole else f"{sign}{fraction} in"


def _plain(value: float) -> str:
    return f"{value:.10g}" if value else "0"


def _shown(value: object) -> str:
    if isinstance(value, int) and abs(value) >= 10**60:
        # Python refuses to write out whole numbers of some thousand digits.
        return "a whole number of more than 60 digits"
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


@cache
def _asked_of_pint(name: str) -> Mm:
    return float(_registry().Quantity(Fraction(1), name).to("millimeter").magnitude)


@cache
def _registry() -> Any:
    import pint

    # The registry's own cache writes into the user's cache folder, so it stays off.
    # In fractions a foot is 304.8 mm; in floats it is 304.79999999999995.
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    return registry
