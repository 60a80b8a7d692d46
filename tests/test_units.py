import doctest
import math
import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs import units
from jigs.errors import BadInput, Place
from jigs.units import FINGER, INCH, LONGEST, mm, number, say, unit_names, unit_worth

HERE = Place("order.toml", "prints[1].drop")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("18 1/2", 18.5),
        ("18-1/2", 18.5),
        ("18 - 1/2", 18.5),
        ("18  1 / 2", 18.5),
        ("18½", 18.5),
        ("18 ½", 18.5),
        ("18-½", 18.5),
        ("18.5", 18.5),
        ("18,5", 18.5),
        ("18.", 18.0),
        (".5", 0.5),
        (",5", 0.5),
        ("1/2", 0.5),
        ("½", 0.5),
        ("¼", 0.25),
        ("¾", 0.75),
        ("⅓", 1 / 3),
        ("⅔", 2 / 3),
        ("⅛", 0.125),
        ("⅜", 0.375),
        ("⅝", 0.625),
        ("⅞", 0.875),
        ("3 15/16", 3.9375),
        ("11/8", 1.375),
        ("-3", -3.0),
        ("- 3 1/4", -3.25),
        ("-½", -0.5),
        ("-1/8", -0.125),
        ("007", 7.0),
        ("0", 0.0),
    ],
)
def test_every_spelling_of_a_number_is_read(text: str, value: float) -> None:
    """Fractions with space, hyphen or sign of their own, decimal point and comma, and minus."""
    assert number(text) == (value, "")
    assert number(f"{text} in") == (value, " in")


@pytest.mark.parametrize(
    "text", ["", "in", "nan", "inf", "-inf", "+3", "1/0", "3 1/0", "e3", "--3"]
)
def test_what_starts_with_no_number_is_none(text: str) -> None:
    """There is no number, and none is made up; a fraction over nothing is none either."""
    assert number(text) is None


@given(st.integers(0, 999), st.integers(0, 999), st.integers(1, 64), st.booleans())
def test_a_mixed_fraction_is_its_exact_value(
    whole: int, top: int, bottom: int, minus: bool
) -> None:
    """However it is spelt, a fraction is the float nearest to it, to an ulp."""
    exact = float(whole + Fraction(top, bottom)) * (-1 if minus else 1)
    sign = "-" if minus else ""

    for text in (f"{sign}{whole} {top}/{bottom}", f"{sign}{whole}-{top}/{bottom}"):
        read = number(text)
        assert read is not None
        assert read[0] == pytest.approx(exact, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "length"),
    [
        # A general units library reads the first four as 9 in, 18 in, 185 cm and 3 in.
        ("18 1/2 in", 469.9),
        ("18½ in", 469.9),
        ("18,5 cm", 185.0),
        ("3-1/4 in", 82.55),
        ("3 1/4\N{RIGHT DOUBLE QUOTATION MARK}", 82.55),
        ("3 1/4\N{LEFT DOUBLE QUOTATION MARK}", 82.55),
        ("3 1/4\N{DOUBLE PRIME}", 82.55),
        ('3 1/4"', 82.55),
        ("3\N{NO-BREAK SPACE}1\N{FRACTION SLASH}4 in", 82.55),
        ("  82.55 MM ", 82.55),
        ("82.55mm", 82.55),
        ("3.25 Inches", 82.55),
        ("3.25 in.", 82.55),
        ("1 ft", 304.8),
        ("1 yd", 914.4),
        ("1 m", 1000.0),
        ("0 mm", 0.0),
        ("10000 mm", LONGEST),
    ],
)
def test_lengths_are_read_with_their_units(text: str, length: float) -> None:
    """Units in any case, with a full stop, joined or apart, and quotes of every kind."""
    assert mm(text, HERE) == pytest.approx(length, abs=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "nan in",
        "inf mm",
        "infinity mm",
        "1e400 mm",
        "1e3 mm",
        "9**9**9 mm",
        "9*9 mm",
        "3 in * 2",
        "3 in 4 in",
        "1 000 mm",
        "3 furlongs",
        "3 in mm",
        "(3) in",
        "__import__('os') in",
        "9" * 5000 + " mm",
        "3 1/2/2 in",
        "3; 4 mm",
        "",
        "   ",
        "mm",
        "\x00",
    ],
)
def test_what_is_no_length_is_refused_at_once(text: str) -> None:
    """No arithmetic, exponents, names or second numbers: each is refused, and without delay."""
    before = time.perf_counter()
    with pytest.raises(BadInput) as caught:
        mm(text, HERE, default_unit="mm")

    assert time.perf_counter() - before < 10
    assert caught.value.place == HERE
    assert len(str(caught.value)) < 500


@pytest.mark.parametrize(
    "value",
    [True, False, None, [], {}, b"3 in", math.nan, math.inf, -math.inf, 1e308, 10**400],
)
def test_what_is_no_number_of_a_table_is_refused(value: object) -> None:
    """Not a truth value, not a list, nothing endless, no whole number beyond any float."""
    with pytest.raises(BadInput):
        mm(value, HERE, default_unit="in")


def test_a_whole_number_too_long_to_write_out_is_refused() -> None:
    """A file can hold one in hexadecimal, and Python will not turn it into digits."""
    for value in (16**5000, -(16**5000)):
        with pytest.raises(BadInput, match="more than 60 digits"):
            mm(value, HERE, default_unit="in")


def test_a_number_without_a_unit_needs_a_table() -> None:
    """In an order a bare number is refused; in a size table it has the table's unit."""
    for bare in ("3", "3.0", 3, 3.0):
        with pytest.raises(BadInput, match="no unit"):
            mm(bare, HERE)
        assert mm(bare, HERE, default_unit="in") == pytest.approx(76.2, abs=1e-12)
    assert mm("3 cm", HERE, default_unit="in") == 30


def test_bounds_belong_to_what_is_allowed() -> None:
    """Least and greatest are allowed, beyond them is not; negative only where it is asked for."""
    for text in ("-1 mm", "10001 mm", "9" * 9 + " in"):
        with pytest.raises(BadInput, match="from 0 mm to 10000 mm"):
            mm(text, HERE)
    assert mm("-1 mm", HERE, least=-5) == -1
    assert mm("2 in", HERE, least=50.8, most=50.8) == 50.8
    with pytest.raises(BadInput, match="from 5 mm to 6 mm"):
        mm("4.99 mm", HERE, least=5, most=6)


def test_units_agree_with_pint() -> None:
    """What the table of units says is what pint says, exactly."""
    import pint

    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)

    for name, asked in (("mm", "millimeter"), ("cm", "cm"), ("in", "inch")):
        worth = registry.Quantity(Fraction(1), asked).to("millimeter").magnitude
        assert unit_worth(name) == float(worth)


@pytest.mark.parametrize(
    ("name", "worth"),
    [
        ("in", Fraction(254, 10)),  # NIST Special Publication 811, appendix B: exactly 25.4 mm
        ("ft", Fraction(3048, 10)),  # likewise
        ("yd", Fraction(9144, 10)),  # likewise
        ("pt", Fraction(254, 10) / 72),  # PostScript Language Reference: 72 to the inch
        ("pc", Fraction(254, 10) / 6),  # CSS Values and Units 4, section 6.2: 1/6 in
        ("thou", Fraction(254, 10000)),  # a thousandth of an inch
        ("m", Fraction(1000)),
    ],
)
def test_units_are_worth_what_their_definitions_say(name: str, worth: Fraction) -> None:
    """Each unit is the float nearest to its definition."""
    assert unit_worth(name) == float(worth)


def test_an_inch_is_96_pixels_and_72_points() -> None:
    """25.4 mm are 96 CSS pixels (CSS Values and Units 4, 6.2) and 72 points (PostScript)."""
    point = unit_worth("pt")

    assert point is not None
    assert 72 * point == pytest.approx(INCH, rel=1e-15)
    assert 96 * (0.75 * point) == pytest.approx(INCH, rel=1e-15)


def test_four_fingers_are_three_inches() -> None:
    """A finger is the English digit, 3/4 in or 19.05 mm; four are 76.2 mm (common practice)."""
    assert FINGER == 19.05
    assert mm("4 fingers", HERE) == 76.2
    assert mm("3 in", HERE) == pytest.approx(76.2, abs=1e-12)
    assert mm("1 finger", HERE) == pytest.approx(mm("3/4 in", HERE), abs=1e-12)


def test_every_offered_unit_is_known_and_others_are_not() -> None:
    """The names in the message can all be typed, in capitals too."""
    for name in unit_names():
        worth = unit_worth(name)
        assert worth is not None
        assert worth > 0
        assert unit_worth(name.upper()) == worth
    for name in ("", "px", "pint", "inc", "kg", "mmm", "''", "lightyear"):
        assert unit_worth(name) is None


@given(st.floats(-LONGEST + 1, LONGEST - 1), st.sampled_from(("in", "mm")))
def test_what_is_said_is_read_again(length: float, unit: str) -> None:
    """A length said is the length, to half a unit of the last place it is said to."""
    said = say(length, unit)
    read = mm(said, HERE, least=-LONGEST)

    # Sixteenths are said of what is within a fiftieth of one, else inches to a hundredth.
    half = 0.05 if unit == "mm" else 0.005 * INCH
    assert abs(read - length) <= half + 1e-9
    assert said.endswith(f" {unit}")


@given(st.integers(-16 * 390, 16 * 390))
def test_sixteenths_are_said_exactly(sixteenths: int) -> None:
    """Every sixteenth of an inch is said as a fraction in lowest terms and read without loss."""
    length = sixteenths / 16 * INCH
    said = say(length)

    assert "." not in said
    assert mm(said, HERE, least=-LONGEST) == pytest.approx(length, abs=1e-9)
    _, _, fraction = said.removesuffix(" in").rpartition(" ")
    if "/" in fraction:
        top, bottom = fraction.lstrip("-").split("/")
        assert (Fraction(int(top), int(bottom)).denominator) == int(bottom)


@pytest.mark.parametrize(
    ("length", "unit", "said"),
    [
        (0, "in", "0 in"),
        (-0.0, "mm", "0 mm"),
        (-0.01, "mm", "0 mm"),
        (25.4, "in", "1 in"),
        (-25.4 * 3.25, "in", "-3 1/4 in"),
        (-25.4 / 8, "in", "-1/8 in"),
        (25.4 * 0.9999, "in", "1 in"),
        (100.04, "mm", "100 mm"),
        (100.06, "mm", "100.1 mm"),
        (10.0, "in", "0.39 in"),
    ],
)
def test_lengths_are_said_as_a_decorator_says_them(length: float, unit: str, said: str) -> None:
    """Fractions where there is one, never minus nothing, no needless noughts."""
    assert say(length, unit) == said


def test_the_examples_in_the_module_hold() -> None:
    """The doctests of the module run and pass."""
    result = doctest.testmod(units)

    assert result.attempted >= 5
    assert result.failed == 0


def test_bounds_are_said_in_inches_too_where_inches_were_written() -> None:
    """So that nobody has to reckon what 1200 mm are."""
    with pytest.raises(BadInput, match=r"from 50\.8 mm to 1270 mm \(2 in to 50 in\)"):
        mm("51 in", Place("t"), least=50.8, most=1270)
    with pytest.raises(BadInput, match=r"from 50 mm to 1200 mm$"):
        mm("1300 mm", Place("t"), least=50, most=1200)
