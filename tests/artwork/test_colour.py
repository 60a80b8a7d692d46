"""Colours are as far apart as the published formulas say."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.artwork.colour import (
    Lab,
    ciede2000,
    colour_name,
    contrast,
    difference,
    lab,
    luminance,
)
from jigs.order.colours import colours
from tests.reference.rows import rows

HEX = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06x}")


@pytest.mark.parametrize("row", rows("ciede2000_34pairs.csv"))
def test_ciede2000_is_the_published_one(row: dict[str, str]) -> None:
    """The 34 pairs of Sharma, Wu & Dalal (2005), table 1, in both orders, to four decimals."""
    one, two = (Lab(*(float(row[f"{part}{k}"]) for part in "Lab")) for k in (1, 2))

    assert ciede2000(one, two) == pytest.approx(float(row["dE00"]), abs=1e-4)
    assert ciede2000(two, one) == pytest.approx(float(row["dE00"]), abs=1e-4)


@pytest.mark.parametrize("row", rows("wcag_contrast.csv"))
def test_contrast_is_wcags(row: dict[str, str]) -> None:
    """Contrast ratios of WCAG 2.2, whichever of the two is the ground."""
    one, two = f"#{row['fg']}", f"#{row['bg']}"

    assert contrast(one, two) == pytest.approx(float(row["ratio"]), abs=1e-4)
    assert contrast(two, one) == contrast(one, two)


@pytest.mark.parametrize(
    ("colour", "known"),
    [
        # sRGB, D65, from the definition of CIELAB in CIE 15:2004; white and greys have no hue.
        ("#ffffff", (100.0, 0.0, 0.0)),
        ("#000000", (0.0, 0.0, 0.0)),
        ("#777777", (50.034, 0.0, 0.0)),
        # The primaries as commonly tabled (from memory).
        ("#ff0000", (53.24, 80.09, 67.20)),
        ("#00ff00", (87.73, -86.18, 83.18)),
        ("#0000ff", (32.30, 79.19, -107.86)),
    ],
)
def test_lab_of_known_colours(colour: str, known: tuple[float, float, float]) -> None:
    """Red, green, blue and greys lie where tables have them, to what white points differ by."""
    assert lab(colour) == pytest.approx(known, abs=0.05)


@given(HEX, HEX)
def test_a_difference_is_symmetric_and_nought_for_the_same(one: str, two: str) -> None:
    """Either order gives one number; it is 0 for one colour and above 0 for two."""
    assert difference(one, two) == pytest.approx(difference(two, one), abs=1e-9)
    assert difference(one, one) == 0.0
    assert (difference(one, two) > 0) == (one != two)
    assert 1 <= contrast(one, two) <= 21.0000001
    assert contrast(one, two) == contrast(two, one)


@given(HEX)
def test_luminance_rises_with_lightness(colour: str) -> None:
    """Both come from Y alone, so that they agree on any colour, to what four digits leave."""
    share = luminance(colour)
    lightness = 116 * share ** (1 / 3) - 16 if share > 216 / 24389 else share * 24389 / 27

    assert lab(colour).lightness == pytest.approx(lightness, abs=1e-6)


@pytest.mark.parametrize("name", colours())
def test_a_known_colour_goes_by_a_name_of_its_own_looks(name: str) -> None:
    """Each garment colour's value is called by its name, or by another of the same value."""
    found = colour_name(colours()[name])

    assert found is not None
    assert colours()[found] == colours()[name]


def test_a_colour_far_from_any_name_has_none() -> None:
    """A green like no garment's is called by its value; one near navy is navy."""
    assert colour_name("#00ff00") is None
    assert colour_name("#1b2a4a") == "navy"
