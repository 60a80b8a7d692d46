"""The process that draws: what becomes of one that dies, hangs, eats memory or writes."""

import sys
from pathlib import Path

import pytest

from jigs.artwork import child, guard
from jigs.artwork.drawn import Drawn
from jigs.errors import BadInput

from .samples import PLACE

_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="other systems have fewer limits")


def start(monkeypatch: pytest.MonkeyPatch, code: str) -> None:
    """Let the child, under its limits, do something else than draw."""
    ready = "import sys,json; sys.path[:]=json.loads(sys.argv[1]); from jigs.artwork import child"
    monkeypatch.setattr(child, "_START", f"{ready}\n{code}")


@pytest.mark.parametrize("code", ["import os; os.abort()", "raise SystemExit(3)", ""])
def test_a_renderer_that_dies_is_bad_input(monkeypatch: pytest.MonkeyPatch, code: str) -> None:
    """A renderer that aborts takes its own process along, not ours."""
    monkeypatch.setattr(child, "_START", code)

    with pytest.raises(BadInput, match="gave up"):
        child.draw({"kind": "svg"}, b"", PLACE)


def test_a_renderer_that_waits_is_bad_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """A renderer has a limit of time by the clock."""
    monkeypatch.setattr(child, "_START", "import time; time.sleep(30)")
    monkeypatch.setattr(guard, "MOST_WAITING", 0.2)

    with pytest.raises(BadInput, match="takes more than 0 s"):
        child.draw({"kind": "svg"}, b"", PLACE)


@_LINUX
def test_a_renderer_that_works_on_and_on_is_bad_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """A renderer has a limit of the processor's time, and the line says that it is too long."""
    limit = "child.guard.MOST_SECONDS = 1; child._limit()"
    start(monkeypatch, f"{limit}\nwhile True: pass")

    with pytest.raises(BadInput, match=f"takes more than {guard.MOST_SECONDS} s"):
        child.draw({"kind": "svg"}, b"", PLACE)


@_LINUX
def test_a_renderer_that_eats_memory_is_bad_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system limits memory, a renderer cannot take more."""
    start(monkeypatch, "child._limit(); b = bytearray(4 * 10**9); print(1)")

    with pytest.raises(BadInput, match="gave up"):
        child.draw({"kind": "svg"}, b"", PLACE)


def test_memory_that_runs_out_is_told() -> None:
    """A renderer that is refused memory answers that the file needs too much."""

    def work(_: object, __: bytes) -> Drawn:
        raise MemoryError

    said = child.answered(work, b"{}\n", b"")

    assert b"drawing the file needs more than 3 GB" in said


@_LINUX
def test_a_renderer_writes_no_file(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Under its limits the child can put no byte into a file; without them it could."""
    limited, free = tmp_path / "limited", tmp_path / "free"
    code = "open({!r}, 'wb').write(b'x')"
    start(monkeypatch, f"{code.format(str(free))}\nchild._limit(); {code.format(str(limited))}")

    with pytest.raises(BadInput, match="gave up"):
        child.draw({"kind": "svg"}, b"", PLACE)

    assert free.read_bytes() == b"x"
    assert limited.read_bytes() == b""
