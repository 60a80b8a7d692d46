"""Lengths, tolerances and units as sheets write them; fractions against Python's own."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.tables.points import POINTS
from jigs.tables.spec_cells import is_date, tidy
from jigs.tables.spec_names import Meaning, Unclear, _document, folded, own_names
from jigs.tables.spec_sizes import is_sure, size_name
from jigs.tables.spec_values import (
    Value,
    read_tolerance,
    read_value,
    unit_word,
    units_said,
    without_unit,
)
from tests.reference.rows import rows
from tests.tables.sheets import exact


@given(st.integers(0, 99), st.integers(1, 63), st.sampled_from((2, 3, 4, 8, 16, 32, 64)))
def test_a_fraction_is_what_python_says_it_is(whole: int, top: int, bottom: int) -> None:
    """With space, dash, unit or none; and it is written again as the same number."""
    expected = whole + Fraction(top, bottom)
    mixed = f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    spellings = [mixed, f'{mixed}"', f"{mixed} in"]
    spellings += [f"{whole}-{top}/{bottom}", f"{whole} - {top}/{bottom}"] if whole else []
    for text in spellings:
        read = read_value(tidy(text))
        assert isinstance(read, Value)
        assert read.number == pytest.approx(float(expected), rel=1e-15)
        assert exact(read.text()) == expected


@given(st.decimals(min_value="0.01", max_value="9999.99", places=2), st.sampled_from(".,"))
def test_a_decimal_is_what_python_says_it_is(number: object, point: str) -> None:
    """With a point or a comma of which two figures follow."""
    read = read_value(str(number).replace(".", point))
    assert isinstance(read, Value)
    assert exact(read.text()) == Fraction(str(number))


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("18½", "18.5", None),
        ("18\u00a0½”", "18.5", "in"),
        ("18 1⁄2 ″", "18.5", "in"),
        ("18 1/2''", "18.5", "in"),
        ("18–1/2", "18.5", None),
        ("18,5cm", "18.5", "cm"),
        ("0,750", "0.75", None),
        ("185 mm", "185", "mm"),
        ("18.500", "18.5", None),
        ("1/2 inch", "0.5", "in"),
        ("⅜ in.", "0.375", "in"),
    ],
)
def test_common_spellings_are_read(text: str, number: str, unit: str | None) -> None:
    """Signs of all keyboards, and the unit beside the number."""
    read = read_value(tidy(text))
    assert isinstance(read, Value)
    assert (Fraction(read.number), read.unit) == (Fraction(number), unit)


@pytest.mark.parametrize(
    "text",
    ["", "-", "n/a", "18,500", "1,234", "1,234.5", "1.234,5", "18 1/0", "18..5", "18 19", "18 ft",
     "0", "-3", "18 +/- 1", "18 in 46 cm", "½½", "18 1/2 1/2", "nan", "inf", "1e3", "0x12", "18%",
     "18'6\"", "=18", "18\u200e1"],
)  # fmt: skip
def test_what_can_be_read_in_two_ways_or_none_is_no_length(text: str) -> None:
    """It is said instead, whatever it looks like."""
    read = read_value(tidy(text))
    if text == "18\u200e1":  # a mark that is not seen does not part a number
        assert read == Value(181.0)
    else:
        assert isinstance(read, str)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("1/2", "0.5"), ("+/- 1/2", "0.5"), ("±0,5", "0.5"), ("+1/2", "0.5"), ("-1/2", "0.5"),
        ("1/2 +/-", "0.5"), ("+1/2 / -1/4", "0.5"), ("+1/4 -1/2", "0.5"), ("+1/4, -3/8", "0.375"),
        ("+0.5/-0.25", "0.5"), ("± 1 cm", "1"), ("+1/4-1/2", "0.5"), ("0", "0"),
        ("+/-1-1/2", "1.5"),
    ],
)  # fmt: skip
def test_tolerances_are_the_greater_of_two(text: str, number: str) -> None:
    """Plus and minus, before or behind, together or apart."""
    read = read_tolerance(text)
    assert isinstance(read, Value)
    assert Fraction(read.number) == Fraction(number)


@pytest.mark.parametrize("text", ["", "5%", "+1-1/2", "+", "none", "1/2 to 1", "+1/2 -x"])
def test_what_is_no_tolerance_is_said(text: str) -> None:
    """One and a half, or one above and a half below, is not decided."""
    assert isinstance(read_tolerance(text), str)


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("Half Chest (cm)", "cm"), ("Half Chest [IN]", "in"), ("Half chest, mm", "mm"),
        ("Half chest - inches", "in"), ("Half chest in inches", "in"), ('Half chest (")', "in"),
        ("All measurements in inches", "in"), ("All measurements are given in cm.", "cm"),
        ("Unit: cm", "cm"), ("Units = inches", "in"), ("unit of measure mm", "mm"),
        ("Dimensions in Centimeters", "cm"), ("CM", "cm"), ("(inches)", "in"), ("POM / cm", "cm"),
        ("Spec sheet centimetres", "cm"),
        ("in/cm", "in cm"), ("inches (cm)", "in cm"), ("Measured in inches and cm", "in cm"),
        ("Half chest", ""), ('Chest 1" below armhole', ""), ("Chest 1 in below armhole", ""),
        ("Chest (1 inch below armhole)", ""), ("taken 2.5 cm", ""), ("1-inch", ""),
        ("1/2 inch", ""),
        ("Printed in China", ""), ("Made in Comilla", ""), ("Main label in neck", ""),
        ("MM-12", ""),
        ("Summer", ""), ("Min", ""), ("size in use", ""),
    ],
)  # fmt: skip
def test_a_heading_says_a_unit_or_none(text: str, units: str) -> None:
    """A length within a name is no unit of its figures; two units are a contradiction."""
    assert " ".join(units_said(text)) == units


@pytest.mark.parametrize("word", ["in", "inch", "Inches", '"', "cm", "CMS", "mm", "centimeters"])
def test_a_name_without_its_unit_is_the_name(word: str) -> None:
    """Bracketed or after a comma, in any of its spellings."""
    assert unit_word(word) in {"in", "cm", "mm"}
    assert without_unit(f"Half Chest ({word})") == "Half Chest"
    assert folded(f"Half Chest ({word})") == folded("half chest")


def test_no_name_means_two_things() -> None:
    """Each name of the list stands there once, folded, and no point's own name is unclear."""
    entries = [*_document()["names"], *_document()["unclear"]]
    names = [folded(name) for entry in entries for name in entry["names"]]
    assert sorted(set(names)) == sorted(names)
    for point in POINTS:
        assert own_names([]).find(point, "") == Meaning(point)
        assert own_names([]).find(point.replace("_", " ").title(), "") == Meaning(point)


def test_every_meaning_of_the_list_is_a_point() -> None:
    """And an unclear name has a candidate."""
    for entry in _document()["names"]:
        assert entry["point"] in POINTS
        assert entry.get("times", 1) in {1, 0.5}
    for entry in _document()["unclear"]:
        assert entry["points"]
        assert isinstance(own_names([]).find(entry["names"][0], ""), Unclear)


@pytest.mark.parametrize("name", ["length", "width", "neck", "sleeve", "shoulder", "chest", "Bust"])
def test_names_that_differ_from_sheet_to_sheet_are_unclear(name: str) -> None:
    """Common practice, no source."""
    assert isinstance(own_names([]).find(name, ""), Unclear)


@pytest.mark.parametrize("name", ["waist", "half chests", "hlaf chest", "chest width front", "x"])
def test_a_name_is_matched_whole_or_not_at_all(name: str) -> None:
    """What looks like a known name is none."""
    assert own_names([]).find(name, "") is None


@pytest.mark.parametrize(
    "text",
    [
        "XS", "S", "M", "L", "XL", "2XL", "XXL", "3X", "XXXL", "YXS", "YS", "YM", "2T", "5T/6T",
        "5/6T", "6-12M", "NB", "0-3M", "S/M", "LT", "XLT", "2XLT", "OS", "24M", "Youth M",
        "12-18 mos", "Newborn", "M 38/40", "S (34-36)", "Small", "X-Large", "2X-Large", "Size S",
        "One Size", "5-6Y", "8 yrs", "6-12 months", "XX-Large",
    ],
)  # fmt: skip
def test_sizes_are_known(text: str) -> None:
    """Letters, words, ages, months, toddlers' sizes, pairs."""
    assert is_sure(text)
    assert is_sure(text.lower())
    assert size_name(f"{text} (cm)") == size_name(text)


@pytest.mark.parametrize("row", rows("en13402_3_letter_codes.csv"), ids=lambda row: row["code"])
def test_the_standards_letter_codes_are_sizes(row: dict[str, str]) -> None:
    """All letter codes of EN 13402-3."""
    assert is_sure(row["code"])


@pytest.mark.parametrize(
    "text",
    ["36", "6-12", "Notes", "POM", "A", "T", "Tol", "Sample", "cm", "Chest", "Length", "XLL"],
)
def test_what_is_no_size_for_sure_is_not_taken_for_one(text: str) -> None:
    """Codes, units, headings, typing mistakes; mere numbers need a heading."""
    assert not is_sure(text)


@pytest.mark.parametrize(
    "text", ["12-Jun", "06-Dec", "Dec-18", "6-Dec-24", "2024-12-06", "6/12/2024", "06.12.24"]
)
def test_dates_are_known_as_spreadsheets_write_them(text: str) -> None:
    """In place of 6-12."""
    assert is_date(text)


@pytest.mark.parametrize(
    "text", ["6-12", "6/12", "6-12M", "18-1/2", "18.5", "5/6T", "1.2.3", "May"]
)
def test_sizes_and_lengths_are_no_dates(text: str) -> None:
    """What a sheet means is left alone."""
    assert not is_date(text)
