"""Every style at every location on every table, in three sizes of print, keeps every rule."""

import pytest

from jigs.locations import LOCATIONS
from jigs.styles import STYLES
from tests import matrix


@pytest.mark.parametrize("table", matrix.tables())
def test_every_jig_of_a_table_keeps_the_rules(table: str) -> None:
    """A jig for a small, a usual or the largest print breaks no rule, or its style says why not.

    Of every print some style has a jig.
    """
    asked, made = set(), set()
    for cell in matrix.cells(table):
        which = (cell.location, cell.print, cell.template.sizes)
        asked.add(which)
        if cell.objection is None:
            assert cell.faults == (), str(cell)
            made.add(which)

    assert asked
    assert made == asked


def test_the_matrix_leaves_nothing_out() -> None:
    """Each location is on some table, and each style and print on each of a table's locations."""
    cells = list(matrix.cells("adult-hoodie")) + list(matrix.cells("tote-bag"))
    cells += list(matrix.cells("adult-polo")) + list(matrix.cells("adult-long-sleeve-tee"))
    by_place: dict[tuple[str, str], set[tuple[str, str]]] = {}
    for cell in cells:
        by_place.setdefault((cell.table, cell.location), set()).add((cell.style, cell.print))
    every = {(style, size) for style in STYLES.names() for size in matrix.PRINTS}

    assert all(found == every for found in by_place.values())
    assert {location for _, location in by_place} == set(LOCATIONS.names())
