"""Settings of the tests of the close look."""

import pytest

from jigs.artwork.examine import drawn_map


@pytest.fixture(autouse=True)
def _coarse_map(monkeypatch: pytest.MonkeyPatch) -> None:
    """A map half as fine takes a quarter of the time, and nothing promised depends on it."""
    monkeypatch.setattr(drawn_map, "LONGEST", 1500)
