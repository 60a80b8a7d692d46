"""Which texts on a spec sheet are names of sizes."""

import re

from jigs.tables.spec_cells import DATE, Cell
from jigs.tables.spec_values import without_unit

_LETTER = (
    r"(?:(?:\d{1,2}-?X|X{1,6})-?[SL]T?|(?:\d{1,2}X)|X{2,6}|SM?T?|MD?T?|MED|LG?T?|"
    r"(?:(?:\d{1,2}-?)?X{1,4}[ -]?|EXTRA[ -]|)(?:SMALL|LARGE)|MEDIUM|[2-9]XLT)"
)
_NUMBERS = r"\d{1,3}(?:\s?[-/]\s?\d{1,3})?"
#: Names that nothing but a size has.
_SURE = re.compile(
    rf"""(?:SIZE\s)?(?:
      (?:(?:Y|YTH|YOUTH|KIDS?|TODDLER|INFANT|ADULT|UNISEX|MENS?|WOMENS?|LADIES)[ -]?)? {_LETTER}
        (?:\s?[-/]\s?{_LETTER})? (?:\s?\([^()]{{1,12}}\)|\s{_NUMBERS})? (?:\sTALL)?
    | \d{{1,2}}T? \s?[-/]\s? \d{{1,2}}T | \d{{1,2}}T
    | NB | NEW[ -]?BORN | PREEMIE
    | \d{{1,2}} (?:\s?[-/]\s?\d{{1,2}})? \s? (?:M|MOS?|MTHS?|MONTHS?|Y|YRS?|YEARS?)\.?
    | (?:Y|YTH|YOUTH|AGES?)[ -]? {_NUMBERS}
    | MINI | STANDARD | JUMBO
    | OS | O/S | OSFA | OSFM | ONE[ -]?SIZE
    )""",
    re.VERBOSE | re.IGNORECASE,
)
_PREFIX = re.compile(r"^SIZE\s+", re.IGNORECASE)


def size_name(text: str) -> str:
    """Return a size's name as it stands in the table, without the word and unit around it.

    >>> size_name("Size M (cm)"), size_name("6-12M")
    ('M', '6-12M')
    """
    return _PREFIX.sub("", without_unit(text))


def is_sure(text: str) -> bool:
    """Return whether a text can be nothing but a size.

    >>> [is_sure(one) for one in ("2XL", "YM", "5/6T", "NB", "S (34)", "Standard", "36", "Notes")]
    [True, True, True, True, True, True, False, False]
    """
    return bool(_SURE.fullmatch(without_unit(text)))


def may_be_size(cell: Cell) -> bool:
    """Return whether a cell may hold a size: one for sure, a number, or a date made of one."""
    if cell.problem:
        return cell.problem is DATE
    return is_sure(cell.text) or bool(re.fullmatch(_NUMBERS, size_name(cell.text)))
