"""A size table as text: where each length comes from, and how sure it is."""

import pytest

from jigs.documents.table_text import table_data, table_text
from jigs.errors import Place
from jigs.tables.estimate import completed
from jigs.tables.library import find as find_table
from jigs.tables.library import names
from jigs.tables.table import SizeTable
from tests.tables.examples import GOOD, table

MEASURED = f"""{GOOD}
[measured.front_neck_drop]
M = ["92 mm", "93 mm", "91 mm", "92 mm"]
L = ["95 mm"]
"""


def text(found: SizeTable, unit: str = "mm") -> list[str]:
    """Return a table's text by lines."""
    return table_text(found, [completed(one, found.cut) for one in found.sizes], unit).splitlines()


def cells(lines: list[str], name: str) -> list[str]:
    """Return the cells of the first line that starts with a name."""
    line = next(line for line in lines if line.startswith(name))
    return [cell.strip() for cell in line.split("  ") if cell.strip()]


def test_a_row_that_is_given_has_one_plus_minus() -> None:
    """At its end, without a mark; the unit stands above."""
    lines = text(table(), "in")
    assert lines[1].startswith("lengths in inches; est.: ")
    assert cells(lines, "half_chest") == ["half_chest", "18", "20", "22", "24", "3/8"]
    assert "meas." not in "\n".join(lines)


def test_measured_lengths_stand_with_their_own_plus_minus() -> None:
    """In a second line, with the garments; what is beside them is marked as an estimate."""
    lines = text(table(MEASURED))
    at = next(k for k, line in enumerate(lines) if line.startswith("front_neck_drop"))
    assert cells(lines[at:], "front") == [
        "front_neck_drop", "88.4 est.", "92 meas.", "95 meas.", "95.5 est.",
    ]  # fmt: skip
    assert cells(lines[at + 1 :], "  ±") == [
        "±", "10.3", "4.9 n=4", "6.2 n=1", "10.3",
    ]  # fmt: skip
    assert "meas.: measured by the shop" in lines[1]


@pytest.mark.parametrize("name", names())
def test_a_terminal_holds_the_packages_tables(name: str) -> None:
    """At most 120 columns; every point of measure begins a line."""
    found = find_table(name, Place("test"))
    for unit in ("in", "mm"):
        lines = text(found, unit)
        assert max(map(len, lines[2:])) <= 120
        for point in completed(found.sizes[0], found.cut).values:
            assert sum(line.startswith(f"{point} ") for line in lines) == 1


def test_data_say_how_many_garments_were_measured() -> None:
    """Only of what was measured."""
    found = table(MEASURED)
    sizes = table_data(found, [completed(one, found.cut) for one in found.sizes])["sizes"]
    assert sizes["M"]["front_neck_drop"]["origin"] == "measured"
    assert sizes["M"]["front_neck_drop"]["pieces"] == 4
    assert set(sizes["S"]["front_neck_drop"]) == {"mm", "plus_minus_mm", "origin"}
