"""Files are read from one folder only, and written all together or not at all."""

import errno
import hashlib
import json
import os
import socket
import stat
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, Place, Refused
from jigs.files import LIST, UNFINISHED, Folder, Output, replace_file, write_all
from jigs.names import path_problem, safe_name

PLACE = Place("order.toml", "prints[1].artwork")
FIRST = (Output("a.txt", b"a1"), Output("jigs/b.svg", b"b1"), Output("jigs/c.svg", b"c1"))
SECOND = (Output("a.txt", b"a2"), Output("jigs/b.svg", b"b1"), Output("new/d.svg", b"d2"))


def _state(folder: Path) -> dict[str, bytes | None]:
    """Return every file's bytes and every folder below one; empty if it is not there."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else None
        for path in folder.rglob("*")
    }


def _link(link: Path, to: Path | str) -> None:
    try:
        link.symlink_to(to)
    except OSError:
        pytest.skip("links cannot be made here")


# ---- reading


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """A folder with an artwork, and a secret beside the folder."""
    (tmp_path / "secret").write_bytes(b"secret")
    (tmp_path / "order/artwork").mkdir(parents=True)
    (tmp_path / "order/artwork/crest.svg").write_bytes(b"<svg/>")
    return Folder(tmp_path / "order")


def test_read(folder: Folder) -> None:
    """A file inside the folder is read."""
    assert folder.read_bytes("artwork/crest.svg", PLACE) == b"<svg/>"


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("artwork/crst.svg", "did you mean 'crest.svg'?"),
        ("nowhere/crest.svg", "check the path"),
        ("artwork/crest.svg/x", "'artwork/crest.svg/x'"),
        ("artwork", "is a folder"),
        ("artwork/..", "leaves the folder"),
        ("../secret", "leaves the folder"),
        ("artwork/../../secret", "leaves the folder"),
        ("/etc/hostname", "root"),
        ("C:/secret", "colon"),
        ("..\\secret", "backslash"),
        ("artwork/crest.svg:stream", "colon"),
        ("NUL", "Windows"),
        ("artwork/con.svg", "Windows"),
        ("", "empty"),
        ("a\0b", "control"),
        ("a" * 5000, "aaaa"),
    ],
)
def test_read_refused(folder: Folder, name: str, says: str) -> None:
    """What is missing, no file, or outside is bad input at its place, in one line."""
    with pytest.raises(BadInput, match="prints") as caught:
        folder.read_bytes(name, PLACE)

    assert caught.value.place == PLACE
    assert says in str(caught.value)
    assert len(caught.value.lines()) == 1


def test_links(folder: Folder) -> None:
    """A link within the folder is followed; one that leaves it is not, nor one that loops."""
    _link(folder.path / "inner.svg", "artwork/crest.svg")
    _link(folder.path / "outer.svg", folder.path.parent / "secret")
    _link(folder.path / "up", "..")
    _link(folder.path / "loop", "loop")

    assert folder.read_bytes("inner.svg", PLACE) == b"<svg/>"
    for name in ("outer.svg", "up/secret"):
        with pytest.raises(BadInput, match="link that leaves"):
            folder.read_bytes(name, PLACE)
    with pytest.raises(BadInput, match="loop"):
        folder.read_bytes("loop", PLACE)


def test_linked_folder(folder: Folder) -> None:
    """The folder itself may be reached through a link."""
    _link(folder.path.parent / "other", folder.path)

    other = Folder(folder.path.parent / "other")
    assert other.read_bytes("artwork/crest.svg", PLACE) == b"<svg/>"


def test_too_large(folder: Folder) -> None:
    """A file of exactly the limit is read, one byte more is refused."""
    assert folder.read_bytes("artwork/crest.svg", PLACE, limit=6) == b"<svg/>"
    with pytest.raises(BadInput, match="larger than 5e-06 MB"):
        folder.read_bytes("artwork/crest.svg", PLACE, limit=5)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes among files here")
def test_pipe(folder: Folder) -> None:
    """A pipe is refused without waiting for it."""
    # mypy judges this for the system it runs on; Windows has no pipes among files.
    if sys.platform != "win32":
        os.mkfifo(folder.path / "pipe")
        with pytest.raises(BadInput, match="a device or a pipe"):
            folder.read_bytes("pipe", PLACE)


@pytest.mark.skipif(not hasattr(socket, "AF_UNIX"), reason="no sockets among files here")
def test_socket(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    """A socket is refused."""
    monkeypatch.chdir(folder.path)  # a socket's path must be short
    with socket.socket(socket.AF_UNIX) as end:
        end.bind("socket")
        with pytest.raises(BadInput, match="a device or a pipe"):
            folder.read_bytes("socket", PLACE)


def test_unreadable(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that may not be read is bad input."""

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, "no")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(BadInput, match="cannot be read: permission denied"):
        folder.read_bytes("artwork/crest.svg", PLACE)


@pytest.mark.parametrize(
    ("data", "text"),
    [(b"caf\xc3\xa9\r\n", "café\r\n"), (b"\xef\xbb\xbfx", "x"), (b"", "")],
)
def test_text(folder: Folder, data: bytes, text: str) -> None:
    """Text is UTF-8, with or without a byte order mark, line ends as they are."""
    (folder.path / "order.toml").write_bytes(data)

    assert folder.read_text("order.toml", PLACE) == text


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"ab\ncaf\xe9", "byte 0xe9 at position 6, line 2"),
        ("ref".encode("utf-16"), "byte 0xff at position 0, line 1"),
    ],
)
def test_not_text(folder: Folder, data: bytes, says: str) -> None:
    """Text in another encoding is refused with the byte and where it stands."""
    (folder.path / "order.toml").write_bytes(data)
    with pytest.raises(BadInput, match="UTF-8") as caught:
        folder.read_text("order.toml", PLACE)

    assert says in str(caught.value)


# ---- names


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("left-chest.svg", "left-chest.svg"),
        ("2XL-3XL", "2XL-3XL"),
        ("Crew / back & front", "Crew-back-front"),
        ("../../etc/passwd", "etc-passwd"),
        ("Müller", "Muller"),
        ("日本", "unnamed"),
        ("", "unnamed"),
        (".hidden", "hidden"),
        ("--out", "out"),
        ("a..b", "a.b"),
        ("con", "_con"),
        ("COM1.svg", "_COM1.svg"),
        ("LPT9", "_LPT9"),
        ("console", "console"),
        ("x" * 200, "x" * 80),
        ("end. ", "end"),
        ("a\0\n\u202eb", "a-b"),
    ],
)
def test_safe_name(text: str, name: str) -> None:
    """A name keeps its letters, digits, dots, dashes and underscores."""
    assert safe_name(text) == name


@given(st.text(max_size=120))
def test_safe_name_is_safe(text: str) -> None:
    """Any text gives a name that every system takes, and a safe name stays as it is."""
    name = safe_name(text)

    assert 0 < len(name) <= 80
    assert name.isascii()
    assert name[0] not in ".-"
    assert name[-1] not in ".-"
    assert path_problem(name) is None
    assert safe_name(name) == name


@pytest.mark.parametrize(
    "names",
    [
        ["../a"], ["/a"], [""], ["a//b"], ["a/"], ["a\\b"], ["C:a"], ["./a"], [".a"], [LIST],
        ["nul"], ["a b"], ["a", "a"], ["a", "A"], ["a", "a/b"], ["x/A", "X/B"],
    ],
)  # fmt: skip
def test_names_of_outputs(tmp_path: Path, names: list[str]) -> None:
    """Unsafe paths and paths that some system takes for the same are a caller's mistake."""
    with pytest.raises(ValueError, match=r"safe|called|spelled"):
        write_all(tmp_path / "out", [Output(name, b"") for name in names], prune=True)

    assert not (tmp_path / "out").exists()


# ---- writing


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """A folder that a first run has written."""
    write_all(tmp_path / "out/spring", FIRST, prune=True)
    return tmp_path / "out/spring"


def test_first_run(out: Path) -> None:
    """A first run makes the folder, the files, and their sorted list."""
    state = _state(out)
    listed = state.pop(LIST)

    assert state == {"a.txt": b"a1", "jigs": None, "jigs/b.svg": b"b1", "jigs/c.svg": b"c1"}
    assert listed is not None
    assert list(json.loads(listed).items()) == [
        (output.name, hashlib.sha256(output.data).hexdigest()) for output in FIRST
    ]


def test_second_run_identical(out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same outputs again, in any sequence, touch nothing at all."""
    before = {path: path.stat().st_mtime_ns for path in (out, *out.rglob("*"))}

    def refuse(*_: object) -> None:
        raise AssertionError("something was moved")

    monkeypatch.setattr(os, "replace", refuse)
    write_all(out, FIRST[::-1], prune=True)

    assert {path: path.stat().st_mtime_ns for path in (out, *out.rglob("*"))} == before


def test_next_run(out: Path) -> None:
    """A next run replaces what changed and prunes what is no longer made, with empty folders."""
    write_all(out, [SECOND[0], SECOND[2]], prune=True)
    state = _state(out)

    assert state.pop(LIST) is not None
    assert state == {"a.txt": b"a2", "new": None, "new/d.svg": b"d2"}


def test_without_prune(out: Path) -> None:
    """Without pruning, what is no longer made stays, and stays on the list."""
    write_all(out, SECOND, prune=False)
    assert (out / "jigs/c.svg").read_bytes() == b"c1"

    write_all(out, SECOND, prune=True)
    assert not (out / "jigs/c.svg").exists()


def test_same_files_same_list(tmp_path: Path, out: Path) -> None:
    """A folder that came about in two runs is the folder that comes about in one."""
    write_all(out, SECOND, prune=True)
    write_all(tmp_path / "other", SECOND, prune=True)

    assert _state(out) == _state(tmp_path / "other")


def test_prune_spares_edited(out: Path) -> None:
    """A file that was changed since is not pruned."""
    (out / "jigs/c.svg").write_bytes(b"mine")
    write_all(out, SECOND, prune=True)

    assert (out / "jigs/c.svg").read_bytes() == b"mine"


def test_deleted_is_made_again(out: Path) -> None:
    """A listed file that somebody deleted is made again, or forgotten if no longer made."""
    (out / "a.txt").unlink()
    (out / "jigs/c.svg").unlink()
    write_all(out, SECOND, prune=True)

    assert (out / "a.txt").read_bytes() == b"a2"


def test_identical_counts_as_ours(tmp_path: Path) -> None:
    """A file that is not listed but has the wanted bytes is ours from then on."""
    (tmp_path / "a.txt").write_bytes(b"a1")
    write_all(tmp_path, FIRST, prune=True)
    write_all(tmp_path, SECOND, prune=True)

    assert (tmp_path / "a.txt").read_bytes() == b"a2"


def test_other_files_stay(out: Path) -> None:
    """Files of other people in the folder are left alone."""
    (out / "jigs/notes.txt").write_bytes(b"notes")
    write_all(out, [SECOND[0]], prune=True)

    assert _state(out / "jigs") == {"notes.txt": b"notes"}


def _edit(out: Path) -> str:
    (out / "a.txt").write_bytes(b"edited")
    return "a.txt was changed since"


def _unlisted(out: Path) -> str:
    (out / "new").mkdir()
    (out / "new/d.svg").write_bytes(b"mine")
    return "d.svg was not written by this program"


def _folder_there(out: Path) -> str:
    (out / "new/d.svg").mkdir(parents=True)
    return "d.svg is a folder"


def _file_for_folder(out: Path) -> str:
    (out / "new").write_bytes(b"mine")
    return "new is a file where a folder is needed"


def _linked_file(out: Path) -> str:
    (out / "a.txt").rename(out / "elsewhere.txt")
    _link(out / "a.txt", "elsewhere.txt")
    return "a.txt is a link"


def _linked_folder(out: Path) -> str:
    (out.parent / "else").mkdir()
    _link(out / "new", out.parent / "else")
    return "new is a link where a folder is needed"


def _dangling(out: Path) -> str:
    (out / "new").mkdir()
    _link(out / "new/d.svg", "nowhere")
    return "d.svg is a link"


def _no_list(out: Path) -> str:
    (out / LIST).unlink()
    return "a.txt was not written by this program"


def _bad_list(out: Path) -> str:
    (out / LIST).write_bytes(b"[" * 100_000)
    return "is not a list this program wrote"


def _wrong_list(out: Path) -> str:
    (out / LIST).write_text('["a.txt"]', encoding="utf-8")
    return "is not a list this program wrote"


def _hostile_list(out: Path) -> str:
    secret = out.parent / "secret"
    secret.write_bytes(b"secret")
    listed = {"../secret": hashlib.sha256(b"secret").hexdigest()}
    (out / LIST).write_text(json.dumps(listed), encoding="utf-8")
    return "is not a list this program wrote"


def _linked_list(out: Path) -> str:
    (out / LIST).rename(out / "list.json")
    _link(out / LIST, "list.json")
    return "is a link, not a list"


@pytest.mark.parametrize(
    "spoil",
    [
        _edit, _unlisted, _folder_there, _file_for_folder, _linked_file, _linked_folder, _dangling,
        _no_list, _bad_list, _wrong_list, _hostile_list, _linked_list,
    ],
)  # fmt: skip
def test_not_ours(out: Path, spoil: Callable[[Path], str]) -> None:
    """What is in the way and not ours is named, with what to do, and nothing changes."""
    says = spoil(out)
    before = _state(out.parent)
    with pytest.raises(Refused) as caught:
        write_all(out, SECOND, prune=True)

    assert says in str(caught.value)
    assert "move it away or choose another folder" in str(caught.value)
    assert len(caught.value.lines()) == 1
    assert _state(out.parent) == before


def test_not_a_folder(tmp_path: Path) -> None:
    """A file in place of the folder, or of one above it, is refused in one line."""
    (tmp_path / "file").write_bytes(b"mine")
    for folder in (tmp_path / "file", tmp_path / "file/out"):
        with pytest.raises(Refused, match="a file stands where a folder is needed"):
            write_all(folder, FIRST, prune=True)

    assert _state(tmp_path) == {"file": b"mine"}


def test_linked_target(tmp_path: Path) -> None:
    """The folder itself may be a link to a folder."""
    (tmp_path / "real").mkdir()
    _link(tmp_path / "out", "real")
    write_all(tmp_path / "out", FIRST, prune=True)

    assert (tmp_path / "real/a.txt").read_bytes() == b"a1"


@pytest.mark.parametrize(
    ("number", "says"),
    [
        (errno.EACCES, "permission denied"),
        (errno.EROFS, "the disk is read-only"),
        (errno.ENOSPC, "the disk is full"),
        (errno.EIO, os.strerror(errno.EIO)),
    ],
)
@pytest.mark.parametrize("step", ["mkdir", "fsync"])
def test_disk_says_no(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, says: str, step: str
) -> None:
    """A folder that cannot be written, or a full disk, is one line; no folder is left behind."""

    def refuse(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, step, refuse)
    with pytest.raises(Refused, match=says) as caught:
        write_all(tmp_path / "deep/out", FIRST, prune=True)
    monkeypatch.undo()

    assert len(caught.value.lines()) == 1
    assert _state(tmp_path) == {}


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write")
def test_read_only_folder(out: Path) -> None:
    """A folder without the right to write is refused, and stays as it was."""
    before = _state(out)
    out.chmod(stat.S_IRUSR | stat.S_IXUSR)
    try:
        with pytest.raises(Refused, match="permission denied"):
            write_all(out, SECOND, prune=True)
    finally:
        out.chmod(stat.S_IRWXU)

    assert _state(out) == before


def _failing(at: int, error: BaseException) -> Callable[[str, str], None]:
    """Return an `os.replace` that fails at its n-th call."""
    calls: Iterator[int] = iter(range(1, 1000))
    whole = os.replace

    def replace(source: str, target: str) -> None:
        if next(calls) == at:
            raise error
        whole(source, target)

    return replace


@pytest.mark.parametrize("error", [OSError(errno.EACCES, "busy"), KeyboardInterrupt()])
@pytest.mark.parametrize("at", range(1, 8))
def test_cut_off_in_the_middle(
    out: Path, monkeypatch: pytest.MonkeyPatch, at: int, error: BaseException
) -> None:
    """Whichever move fails, everything is as it was; afterwards the run goes through."""
    # a.txt and the list move out and in, new/d.svg in, jigs/c.svg and jigs/e.svg out.
    write_all(out, [*FIRST, Output("jigs/e.svg", b"e1")], prune=True)
    before = _state(out)
    monkeypatch.setattr(os, "replace", _failing(at, error))
    with pytest.raises((Refused, KeyboardInterrupt)):
        write_all(out, SECOND, prune=True)
    monkeypatch.undo()

    assert _state(out) == before
    write_all(out, SECOND, prune=True)
    assert (out / "new/d.svg").read_bytes() == b"d2"
    assert not (out / "jigs/c.svg").exists()


@pytest.mark.parametrize("at", range(1, 4))
def test_first_run_cut_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int) -> None:
    """A first run that fails leaves not even the folder."""
    monkeypatch.setattr(os, "replace", _failing(at, OSError(errno.EIO, "no")))
    with pytest.raises(Refused, match="nothing was changed"):
        write_all(tmp_path / "deep/out", FIRST, prune=True)

    assert _state(tmp_path) == {}


def test_nothing_moves_any_more(out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """If old files cannot be put back either, they are kept, and the user is told where."""
    calls = iter(range(1000))
    whole = os.replace

    def replace(source: str, target: str) -> None:
        if next(calls) >= 2:
            raise OSError(errno.EIO, "gone")
        whole(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(Refused, match="could not all be put back") as caught:
        write_all(out, SECOND, prune=True)
    monkeypatch.undo()

    assert UNFINISHED in str(caught.value)
    assert (out / UNFINISHED / "old/a.txt").read_bytes() == b"a1"
    with pytest.raises(Refused, match="another run is writing, or one was cut off"):
        write_all(out, SECOND, prune=True)


def test_two_at_once(out: Path) -> None:
    """While another run is replacing files, a second one is refused and changes nothing."""
    (out / UNFINISHED).mkdir()
    before = _state(out)
    with pytest.raises(Refused, match="another run is writing"):
        write_all(out, SECOND, prune=True)

    assert _state(out) == before


_NAMES = st.sampled_from(["a", "b", "c/d", "c/e", "f/g/h"])
_FILES = st.dictionaries(_NAMES, st.binary(max_size=3), max_size=5)


@given(st.lists(st.tuples(_FILES, st.booleans()), min_size=1, max_size=4), st.integers(1, 12))
def test_any_runs(
    tmp_path_factory: pytest.TempPathFactory, runs: list[tuple[dict[str, bytes], bool]], at: int
) -> None:
    """After any runs the folder holds the last outputs; a failing one changes nothing."""
    out = tmp_path_factory.mktemp("runs") / "out"
    for files, prune in runs:
        outputs = [Output(name, data) for name, data in files.items()]
        before = _state(out)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(os, "fsync", lambda _: None)  # what makes a hundred runs slow
            patch.setattr(os, "replace", _failing(at, OSError(errno.EIO, "no")))
            try:
                write_all(out, outputs, prune=prune)
            except Refused:
                assert _state(out) == before
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(os, "fsync", lambda _: None)
            write_all(out, outputs, prune=prune)
        held = {name: data for name, data in _state(out).items() if data is not None}
        listed = json.loads(held.pop(LIST))
        assert held.items() >= files.items()
        assert listed == {name: hashlib.sha256(data).hexdigest() for name, data in held.items()}
        if prune:
            assert held == files


# ---- one file of the user's own


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    """Nothing else is left beside it, and who may read it stays."""
    file = tmp_path / "own.toml"
    file.write_bytes(b"old")
    file.chmod(0o600)
    mode = file.stat().st_mode
    replace_file(file, b"old", b"new")
    assert file.stat().st_mode == mode
    assert _state(tmp_path) == {"own.toml": b"new"}


@pytest.mark.parametrize("now", [b"other", b"old and more", None])
def test_a_file_that_was_changed_meanwhile_is_not_replaced(
    tmp_path: Path, now: bytes | None
) -> None:
    """What somebody else has just written, or removed, is theirs."""
    file = tmp_path / "own.toml"
    if now is not None:
        file.write_bytes(now)
    with pytest.raises(Refused, match="changed meanwhile"):
        replace_file(file, b"old", b"new")
    assert _state(tmp_path) == ({} if now is None else {"own.toml": now})
