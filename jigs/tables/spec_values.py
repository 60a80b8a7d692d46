"""Lengths, tolerances and units as spec sheets write them. Nothing that can mean two is read."""

import re
from dataclasses import dataclass
from fractions import Fraction

from jigs.units import number, unit_worth

UNITS = ("in", "cm", "mm")

_WORD = r"inch(?:es)?|ins?|centimet(?:re|er)s?|cms?|millimet(?:re|er)s?|mms?"
_UNIT = rf"(?P<unit>{_WORD}|\")\.?"
_ENTITLED = (
    "measure[a-z]*|dimensions?|sizes?|specs?|specifications?|values?|figures?|all|given|shown|"
    "stated|taken|expressed|tolerances?|tol"
)
#: How a text says a unit for what it heads. After a number it is a length: "1 in below".
_SAID = tuple(
    re.compile(pattern, re.IGNORECASE)
    for pattern in (
        rf"^[(\[]?\s*(?:in\s+)?(?P<unit>{_WORD})\.?\s*[)\]]?\s*:?$",
        rf"[(\[]\s*(?:all\s+)?(?:in\s+)?{_UNIT}\s*[)\]]",
        rf"\bunits?\b(?:\s+of\s+measure[a-z]*)?\s*(?:[:=-]|are|is|in|\s)*\s*\b{_UNIT}(?![a-z])",
        rf"\b(?:{_ENTITLED})\b[^.;\d]{{0,40}}?\bin\s+{_UNIT}(?![a-z])",
        rf"(?<![\d\s/½¼¾])\s*[-,:|/]\s*(?:in\s+)?{_UNIT}$",
        rf"(?<![\d½¼¾])(?:\s+in)?\s(?P<unit>{_WORD.replace('|ins?', '')})\.?$",
    )
)
#: A text of two units leaves open which of them its figures are in.
_PAIR = re.compile(
    rf"(?<![a-z\d])(?P<unit>{_WORD})\s*(?:[/&,+(\[]|\bor\b|\band\b)\s*(?P<other>{_WORD})(?![a-z])",
    re.IGNORECASE,
)
#: Letters of a length, with its unit and to spare.
_LONGEST = 60
_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}(?!\d)")
_SIGN = re.compile(r"^(?:\+\s*/?\s*-|±|\+|-)\s*|\s*(?:\+\s*/\s*-|±)$")
_TWO_SIDED = re.compile(r"^\+(?P<more>[^+-]*?)(?P<between>[\s,;/]*)-(?P<less>[^+]*)$")


@dataclass(frozen=True, slots=True)
class Value:
    """A number as it was said, with the unit that was said beside it, if any."""

    number: float
    fraction: bool = False
    """Whether it was said as a fraction, `18 1/2`."""
    unit: str | None = None

    def times(self, factor: float) -> "Value":
        """Return so many times the value."""
        return Value(self.number * factor, self.fraction, self.unit)

    def to(self, unit: str) -> "Value":
        """Return the value in another unit, as a decimal."""
        if self.unit is None or self.unit == unit:
            return self
        return Value(round(self.number * worth(self.unit) / worth(unit), 6), unit=unit)

    def text(self) -> str:
        """Return the number as text: `18 1/2` where it was said like that, else `18.5`."""
        exact = Fraction(self.number).limit_denominator(9999 if self.fraction else 1)
        if not self.fraction or exact.denominator == 1:
            return f"{self.number:.10g}"
        whole, part = divmod(exact.numerator, exact.denominator)
        fraction = f"{part}/{exact.denominator}"
        return f"{whole} {fraction}" if whole else fraction


def worth(unit: str) -> float:
    """Return the millimetres of one of our units."""
    found = unit_worth(unit)
    assert found is not None  # noqa: S101 - in, cm and mm are known
    return found


def unit_word(text: str) -> str | None:
    """Return the unit that a text is: in, cm, mm; None if it is none.

    >>> unit_word("Inches"), unit_word("cms."), unit_word('"'), unit_word("yd")
    ('in', 'cm', 'in', None)
    """
    found = re.fullmatch(rf"[(\[]?{_UNIT}[)\]]?", text.strip(), re.IGNORECASE)
    return _short(found["unit"]) if found else None


def units_said(text: str) -> tuple[str, ...]:
    """Return the units that a heading says its figures are in: one, none, or a contradiction.

    >>> units_said("Half Chest (cm)"), units_said("All measurements are in inches")
    (('cm',), ('in',))
    >>> units_said("1 in below armhole"), units_said("Chest (in/cm)")
    ((), ('in', 'cm'))
    """
    found = {_short(one["unit"]) for pattern in _SAID for one in pattern.finditer(text)}
    found |= {_short(word) for one in _PAIR.finditer(text) for word in one.groups()}
    return tuple(unit for unit in UNITS if unit in found)


def without_unit(text: str, *, sentences: bool = False) -> str:
    """Return a heading without the unit it says, perhaps without a whole sentence on it.

    >>> without_unit("Half Chest (cm)"), without_unit("Half Chest, inches"), without_unit("cm")
    ('Half Chest', 'Half Chest', '')
    >>> without_unit("Box tee. All measurements are in cm", sentences=True)
    'Box tee.'
    """
    for pattern in _SAID if sentences else (*_SAID[:2], *_SAID[4:]):
        text = pattern.sub(" ", text)
    return " ".join(text.split())


def read_value(text: str) -> Value | str:
    """Return the length that a cell's text says, or why it says none.

    >>> read_value("18 1/2"), read_value('18½"').unit, read_value("18,5").number
    (Value(number=18.5, fraction=True, unit=None), 'in', 18.5)
    >>> read_value("18,500")
    'a comma that may part thousands or decimals; write a point'
    """
    if len(text) > _LONGEST:
        return _NO_LENGTH
    if _THOUSANDS.match(text):
        return "a comma that may part thousands or decimals; write a point"
    read = number(text)
    if read is None:
        return _NO_LENGTH
    unit = unit_word(read[1]) if read[1].strip() else None
    if read[1].strip() and unit is None:
        return _NO_LENGTH
    if not read[0] > 0:
        return "no length above 0"
    return Value(read[0], _is_fraction(text), unit)


_NO_LENGTH = 'no length; write one such as 18 1/2, 18.5, 18 1/2" or 46 cm'
_NO_TOLERANCE = "no tolerance; write one such as 1/2, +/- 1/2 or +1/2 -1/4"


def read_tolerance(text: str) -> Value | str:
    """Return the tolerance that a text says, the greater of two, or why it says none.

    >>> read_tolerance("+/- 1/2").number, read_tolerance("+1/2 / -1/4").number
    (0.5, 0.5)
    >>> read_tolerance("+1-1/2")
    'no tolerance; write one such as 1/2, +/- 1/2 or +1/2 -1/4'
    """
    sides = _TWO_SIDED.match(text[:_LONGEST])
    if sides and sides["more"].strip():
        # "+1-1/2" is one and a half, or one above and a half below.
        parts = (sides["more"], sides["less"])
        unclear = not sides["between"] and "/" not in sides["more"]
        read = [_NO_TOLERANCE if unclear else _plain_tolerance(part) for part in parts]
    else:
        read = [_plain_tolerance(_SIGN.sub("", text))]
    values = [one for one in read if isinstance(one, Value)]
    if len(values) < len(read):
        return next(one for one in read if isinstance(one, str))
    return greater(values)


def greater(values: list[Value]) -> Value:
    """Return the greatest of some values; one without a unit has that of the others."""
    unit = next((one.unit for one in values if one.unit), None)
    return max(
        (Value(one.number, one.fraction, one.unit or unit) for one in values),
        key=lambda one: one.number * worth(one.unit or "mm"),
    )


def _plain_tolerance(text: str) -> Value | str:
    text = text.strip()
    if text.rstrip("0").rstrip(".,") in {"", "0"} and text.startswith("0"):
        return Value(0.0)
    read = read_value(text)
    return _NO_TOLERANCE if read == _NO_LENGTH else read


def _is_fraction(text: str) -> bool:
    return "/" in text or any(sign in text for sign in "½¼¾⅓⅔⅛⅜⅝⅞")


def _short(word: str) -> str:
    word = word.lower()
    if word.startswith("c"):
        return "cm"
    return "mm" if word.startswith("m") else "in"
