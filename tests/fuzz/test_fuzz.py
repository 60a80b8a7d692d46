"""A short run over broken files."""

from itertools import count, islice
from pathlib import Path

import pytest

from tests.fuzz.run import outcomes
from tests.fuzz.seeds import seeds
from tests.fuzz.worker import broken


def test_broken_files_are_read_or_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each is artwork or one line, no process dies of its own code, nothing is left behind."""
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    names = [name for name, _ in seeds()]
    # One of each kind, and more of the pictures, which are quicker than the drawings.
    more = (i for i in count(len(names)) if names[i % len(names)][-3:] not in {"svg", "pdf"})
    picked = [*range(len(names)), *islice(more, 60 - len(names))]
    found = list(outcomes(iter(picked), 2, tmp_path, workers=2, limit=60))

    assert [one for one in found if one.kind in {"failed", "died", "hung"}] == []
    assert sorted(one.index for one in found) == picked
    assert list(tmp_path.iterdir()) == []


def test_files_are_broken_the_same_way_each_time() -> None:
    """A file that does harm is made again from its number."""
    again = [broken(1, index) for index in range(50)]

    assert again == [broken(1, index) for index in range(50)]
    assert sum(data != seeds()[i % len(seeds())][1] for i, (_, data) in enumerate(again)) > 45
