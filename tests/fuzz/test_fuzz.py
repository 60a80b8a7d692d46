"""A short run over broken files."""

from pathlib import Path

import pytest

from tests.fuzz.run import outcomes
from tests.fuzz.seeds import seeds
from tests.fuzz.worker import broken


def test_broken_files_are_read_or_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each is artwork or one line, no process dies of its own code, nothing is left behind."""
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    found = list(outcomes(iter(range(60)), 2, tmp_path, workers=2, limit=60))

    assert [one for one in found if one.kind in {"failed", "died", "hung"}] == []
    assert sorted(one.index for one in found) == list(range(60))
    assert list(tmp_path.iterdir()) == []


def test_files_are_broken_the_same_way_each_time() -> None:
    """A file that does harm is made again from its number."""
    again = [broken(1, index) for index in range(50)]

    assert again == [broken(1, index) for index in range(50)]
    assert sum(data != seeds()[i % len(seeds())][1] for i, (_, data) in enumerate(again)) > 45
