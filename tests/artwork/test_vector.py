"""What the readers say of a page alike: the inks by the names of the file."""

from typing import Any

import pytest

from jigs.artwork.detail import Detail, Ink
from jigs.artwork.drawn import Drawn
from jigs.artwork.vector import in_mm
from jigs.geometry import Point

TEAM_RED = ("Team Red", "#cc2222")


def named(colour: str, name: str = "", separations: Any = (TEAM_RED,)) -> str:
    """Return what an ink of a colour is called in a file with separations."""
    detail = Detail(Point(0, 0), (Ink(colour, 1.0, name),), flat=True, thin=())
    found = in_mm(Drawn(detail=detail, separations=separations), 1.0)
    assert found is not None
    assert found.separations == separations
    return found.inks[0].name


@pytest.mark.parametrize(
    ("colour", "name"),
    [
        # Half of what #cc2222 lacks of white: 255 - 51 / 2 and 255 - 221 / 2.
        ("#e69191", "Team Red, tint"),
        ("#e6919c", "Team Red, tint"),
        ("#e691b0", ""),
        ("#22cc22", ""),
        ("#ffffff", ""),
        ("#fbf5f5", ""),
        ("#660000", ""),
    ],
)
def test_a_tint_goes_by_its_separation(colour: str, name: str) -> None:
    """What lies between white and a separation's colour is a tint of it; white is none."""
    assert named(colour) == name


def test_a_name_is_kept() -> None:
    """An ink that the file names keeps its name; without separations there is none."""
    assert named("#e69191", "Coral") == "Coral"
    assert named("#e69191", separations=()) == ""
    assert named("#e69191", separations=(("White", "#ffffff"), TEAM_RED)) == "Team Red, tint"
