"""The lists of papers and colours say what other documents say."""

import csv
from pathlib import Path

import pytest

from jigs.order.colours import colour_key, colours, hex_colour
from jigs.order.order import Paper
from jigs.order.papers import papers

_OURS = {
    "letter": "na_letter",
    "legal": "na_legal",
    "tabloid": "na_ledger",
    "executive": "na_executive",
    "super-b": "na_super-b",
    "ansi-c": "na_c",
    "ansi-d": "na_d",
    "ansi-e": "na_e",
    **{f"arch-{letter}": f"na_arch-{letter}" for letter in "abcd"},
    **{f"{row}{number}": f"iso_{row}{number}" for row in "a" for number in range(6)},
    **{f"b{number}": f"iso_b{number}" for number in (3, 4, 5)},
}


def _media() -> dict[str, tuple[float, float]]:
    # PWG 5101.1, Media Standardized Names.
    with Path(__file__).with_name("pwg_media.csv").open(encoding="utf-8") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return {
            row["pwg_name"].rpartition("_")[0]: (float(row["w_mm"]), float(row["h_mm"]))
            for row in rows
        }


@pytest.mark.parametrize("name", sorted(papers()))
def test_paper(name: str) -> None:
    """Every paper has the size that PWG 5101.1 gives it, and names its standard."""
    width, height = _media()[_OURS.get(name, "not in the list")]

    assert papers()[name].width == pytest.approx(width, abs=1e-9)
    assert papers()[name].height == pytest.approx(height, abs=1e-9)
    assert papers()[name].standard.startswith(("ISO 216", "ANSI/ASME Y14.1", "PWG 5101.1"))


def test_usual_paper() -> None:
    """The paper of an order that names none is the list's letter."""
    assert (Paper().width, Paper().height) == (papers()["letter"].width, papers()["letter"].height)


def test_colours() -> None:
    """Every colour's name is spelled as it is looked up, and its value is one."""
    for name, value in colours().items():
        assert colour_key(name) == name
        assert hex_colour(value) == value


@pytest.mark.parametrize("name", ["Heather Grey", "heather-gray", " HEATHER  GREY "])
def test_colour_spelling(name: str) -> None:
    """Capitals, dashes and either spelling of grey find the same colour."""
    assert colour_key(name) == "heather grey"
