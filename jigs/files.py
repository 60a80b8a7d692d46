"""The disk: files read from inside one folder, files written all together or not at all.

A folder that a run wrote holds a list of what it wrote, `.jigs-files.json`. What is not on the
list, or has been changed since, is somebody else's and is never overwritten.
"""

import errno
import hashlib
import json
import os
import shutil
import stat
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import IO

from jigs.errors import BadInput, Place, Refused
from jigs.names import path_problem, safe_name

LIST = ".jigs-files.json"
#: While files are being replaced, the new ones and those they replace are in here.
UNFINISHED = ".jigs-unfinished"
MB = 1_000_000
_ELSEWHERE = "move it away or choose another folder"
#: A Windows folder that stands for another one; nothing but Windows has it.
_JUNCTION = 0xA0000003


@dataclass(frozen=True, slots=True)
class Output:
    """A file to be written: its path in the folder, with forward slashes, and its bytes."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder whose files may be read, and none outside it."""

    path: Path

    def read_bytes(self, name: str, place: Place, limit: int = 64 * MB) -> bytes:
        """Return a file's bytes.

        Raises:
            BadInput: it is missing, not a plain file, unreadable, larger than `limit`, or not
                inside the folder, be it by its path or through a link.
        """
        path = self._inside(name, place)
        try:
            kind = path.stat()
            if stat.S_ISDIR(kind.st_mode):
                raise BadInput(place, f"{name!r} is a folder", "name a file")
            if not stat.S_ISREG(kind.st_mode):
                raise BadInput(place, f"{name!r} is a device or a pipe", "name a plain file")
            with path.open("rb") as file:
                data = file.read(limit + 1)
        except FileNotFoundError:
            raise BadInput(place, f"no file {name!r}", self._nearest(path)) from None
        except OSError as error:
            found = f"{name!r} cannot be read: {_reason(error)}"
            raise BadInput(place, found, "make it readable") from None
        if len(data) > limit:
            raise BadInput(place, f"{name!r} is larger than {limit / MB:g} MB", "make it smaller")
        return data

    def read_text(self, name: str, place: Place) -> str:
        """Return a UTF-8 file's text, without a byte order mark.

        Raises:
            BadInput: as for `read_bytes`, or the file is not UTF-8.
        """
        data = self.read_bytes(name, place)
        try:
            return data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            at = error.start
            line = data.count(b"\n", 0, at) + 1
            found = f"{name!r} is not UTF-8 text: byte 0x{error.object[at]:02x} at position {at}"
            raise BadInput(place, f"{found}, line {line}", "save the file as UTF-8") from None

    def _inside(self, name: str, place: Place) -> Path:
        problem = path_problem(name)
        if problem is not None:
            raise BadInput(place, f"{name!r}: {problem}", "name a file inside the order's folder")
        root = Path(os.path.realpath(self.path))
        path = Path(os.path.realpath(root.joinpath(*name.split("/"))))
        if not path.is_relative_to(root):
            found = f"{name!r} is a link that leaves {str(self.path)!r}"
            raise BadInput(place, found, "copy the file into the order's folder")
        return path

    def _nearest(self, path: Path) -> str:
        names: list[str] = []
        with suppress(OSError):
            names = sorted(entry.name for entry in path.parent.iterdir())
        near = get_close_matches(path.name, names, n=1, cutoff=0.6)
        return f"did you mean {near[0]!r}?" if near else "check the path and the file's name"


def write_all(folder: Path, outputs: Sequence[Output], *, prune: bool) -> None:
    """Write files into a folder, all of them or none, and list them in `.jigs-files.json`.

    `prune` removes files of an earlier run that are no longer among the outputs, unless they
    were changed since.

    Raises:
        Refused: a file in the way is not ours, or the folder cannot be written; nothing has
            changed then.
        ValueError: an output's name is not a safe relative path, or two are the same.
    """
    _check_names([output.name for output in outputs])
    with _refusing(folder):
        listed = _read_list(folder)
        # Where case is ignored, another spelling on the list is the same file.
        hashes = {name.casefold(): worth for name, worth in listed.items()}
        wanted = {output.name: output.data for output in outputs}
        changed = {name for name in wanted if _differs(folder, name, wanted[name], hashes)}
        kept, stale = _left_over(folder, listed, wanted, prune=prune)
        ours = kept | {name: hashlib.sha256(data).hexdigest() for name, data in wanted.items()}
        list_bytes = f"{json.dumps(ours, indent=1, sort_keys=True)}\n".encode()
        writes = {name: wanted[name] for name in sorted(changed)}
        if not _same(folder / LIST, list_bytes):
            writes[LIST] = list_bytes
        if writes or stale:
            _replace(folder, writes, stale)
            _remove_empty(folder, stale)


def check_writable(folder: Path) -> None:
    """Look whether a folder can be written, before long work is done for it.

    Raises:
        Refused: it, or the nearest folder above it that exists, is no folder or not writable.
    """
    whole = folder.absolute()
    here = next((one for one in (whole, *whole.parents) if one.exists()), whole)
    if not here.is_dir():
        raise Refused(f"cannot write {folder}: {here} is not a folder; {_ELSEWHERE}")
    if not os.access(here, os.W_OK):
        raise Refused(f"cannot write {folder}: {here} is not yours to write; {_ELSEWHERE}")


def check_new(path: Path) -> None:
    """Raise `Refused` if something of that name is there already."""
    if path.exists() or path.is_symlink():
        raise Refused(f"{path} is already there; choose another name")


def write_new(path: Path, data: bytes, *, new_folder: bool = True) -> None:
    """Write one file that is not there yet, whole or not at all; its folder may be a new one.

    Raises:
        Refused: something of that name is there already, or the folder cannot be written.
    """
    with _refusing(path.parent):
        check_new(path)
        if new_folder:
            path.parent.mkdir(parents=True, exist_ok=True)
        try:
            with path.open("xb") as file:
                file.write(data)
        except OSError:
            path.unlink(missing_ok=True)
            raise


def replace_file(path: Path, old: bytes, data: bytes) -> None:
    """Replace a file of the user's own, whole or not at all.

    Raises:
        Refused: it no longer holds what was read of it, is a link, or cannot be written.
    """
    with _refusing(path.parent):
        if not _same(path, old):
            raise Refused(f"{path} is a link, or was changed meanwhile; nothing was changed")
        mode = path.stat().st_mode
        _replace(path.parent, {path.name: data}, [])
        path.chmod(mode)


def into_nowhere(stream: IO[str]) -> None:
    """Send what is still written to a stream into nothing: its reader has gone away."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _check_names(names: Sequence[str]) -> None:
    """Check that paths are safe, and differ on systems that ignore case."""
    spelling: dict[str, str] = {}
    for name in names:
        if any(part != safe_name(part) for part in name.split("/")):
            raise ValueError(f"not a safe relative path: {name!r}")
        if name.casefold() in spelling:
            raise ValueError(f"two outputs are called {name!r}")
        spelling[name.casefold()] = name
    for name in names:
        for above in Path(name).parents[:-1]:
            path = above.as_posix()
            if spelling.setdefault(path.casefold(), path + "/") != path + "/":
                raise ValueError(f"{path!r} is a file and a folder, or is spelled in two ways")


@contextmanager
def _refusing(folder: Path) -> Iterator[None]:
    """Turn what the system says into one line for the user."""
    try:
        yield
    except OSError as error:
        about = error.filename if isinstance(error.filename, str) else str(folder)
        about = about if UNFINISHED not in about else str(folder)
        raise Refused(f"cannot write {about}: {_reason(error)}; nothing was changed") from error


def _reason(error: OSError) -> str:
    reasons = {
        errno.ENOSPC: "the disk is full",
        errno.EROFS: "the disk is read-only",
        errno.EACCES: "permission denied, or another program has it open",
        errno.EPERM: "permission denied",
        **dict.fromkeys((errno.ENOTDIR, errno.EEXIST), "a file stands where a folder is needed"),
    }
    return reasons.get(error.errno or 0, error.strerror or str(error))


def _refuse(path: Path, why: str) -> Refused:
    return Refused(f"{path} {why}; {_ELSEWHERE}")


def _read_list(folder: Path) -> dict[str, str]:
    """Return the names and hashes of what an earlier run wrote."""
    path = folder / LIST
    kind = _kind(path)
    if kind == "missing":
        return {}
    if kind != "file":
        raise _refuse(path, f"is a {kind}, not a list this program wrote")
    try:
        listed = json.loads(path.read_bytes())
    except (ValueError, RecursionError):
        raise _refuse(path, "is not a list this program wrote") from None
    fits = isinstance(listed, dict) and all(
        isinstance(value, str) and all(part == safe_name(part) for part in name.split("/"))
        for name, value in listed.items()
    )
    if not fits:
        raise _refuse(path, "is not a list this program wrote")
    return dict(listed)


def _kind(path: Path) -> str:
    """Return what stands at a path, links not followed: missing, file, folder, link, device."""
    try:
        found = path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return "missing"
    if stat.S_ISLNK(found.st_mode) or getattr(found, "st_reparse_tag", 0) == _JUNCTION:
        return "link"
    if stat.S_ISDIR(found.st_mode):
        return "folder"
    return "file" if stat.S_ISREG(found.st_mode) else "device"


def _differs(folder: Path, name: str, data: bytes, hashes: Mapping[str, str]) -> bool:
    """Return whether a file is to be written; refuse if what stands there is not ours."""
    _check_way(folder, name)
    path = folder / name
    kind = _kind(path)
    if kind == "missing":
        return True
    if kind != "file":
        raise _refuse(path, f"is a {kind}, not a file this program wrote")
    if _same(path, data):
        return False
    if name.casefold() not in hashes:
        raise _refuse(path, "was not written by this program")
    if _hash(path) != hashes[name.casefold()]:
        raise _refuse(path, "was changed since this program wrote it")
    return True


def _check_way(folder: Path, name: str) -> None:
    """Refuse if a folder between is a link, which would lead the file elsewhere."""
    for above in reversed(Path(name).parents[:-1]):
        kind = _kind(folder / above)
        if kind not in {"missing", "folder"}:
            raise _refuse(folder / above, f"is a {kind} where a folder is needed")


def _left_over(
    folder: Path, listed: Mapping[str, str], wanted: Mapping[str, bytes], *, prune: bool
) -> tuple[dict[str, str], list[str]]:
    """Return what stays on the list of an earlier run's files, and what is to be removed."""
    spelled = {name.casefold() for name in wanted}
    kept, stale = {}, []
    for name in sorted(name for name in listed if name.casefold() not in spelled):
        ways = (folder / above for above in Path(name).parents[:-1])
        plain = all(_kind(way) == "folder" for way in ways) and _kind(folder / name) == "file"
        if plain and _hash(folder / name) == listed[name]:
            if prune:
                stale.append(name)
            else:
                kept[name] = listed[name]
    return kept, stale


def _same(path: Path, data: bytes) -> bool:
    return _kind(path) == "file" and path.stat().st_size == len(data) and path.read_bytes() == data


def _hash(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _replace(folder: Path, writes: Mapping[str, bytes], stale: Sequence[str]) -> None:
    """Write every file beside its place, then move all; undo everything if one step fails."""
    with ExitStack() as undo:
        for name in ("", *writes):
            _make_folders((folder / name).parent if name else folder, undo)
        work = folder / UNFINISHED
        try:
            work.mkdir()
        except FileExistsError:
            raise Refused(
                f"{work} is there: another run is writing, or one was cut off and what it was "
                "replacing is in its folder old; when none is running, move that back and remove it"
            ) from None
        undo.callback(_clear, work)
        for name, data in writes.items():
            _write(work / "new" / name, data)
        for name in (*writes, *stale):
            path, old, new = folder / name, work / "old" / name, work / "new" / name
            undo.callback(_put_back, path, old, new if name in writes else None)
            if _kind(path) != "missing":
                old.parent.mkdir(parents=True, exist_ok=True)
                path.replace(old)
            if name in writes:
                new.replace(path)
        _sync({(folder / name).parent for name in (*writes, *stale)})
        undo.pop_all()
    shutil.rmtree(work, ignore_errors=True)


def _make_folders(folder: Path, undo: ExitStack) -> None:
    for path in reversed([one for one in (folder, *folder.parents) if _kind(one) == "missing"]):
        undo.callback(_remove_folder, path)
        path.mkdir(exist_ok=True)
    if not folder.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, "not a folder", str(folder))


def _remove_folder(path: Path) -> None:
    # A folder that somebody has put a file into meanwhile stays.
    with suppress(OSError):
        path.rmdir()


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _put_back(path: Path, old: Path, new: Path | None) -> None:
    """Undo one step, as far as it had come."""
    if old.exists():
        old.replace(path)
    elif new is not None and not new.exists():
        path.unlink(missing_ok=True)


def _clear(work: Path) -> None:
    """Remove the work folder, unless an old file could not be put back and is still in it."""
    if any(path.is_file() for path in (work / "old").rglob("*")):
        raise Refused(f"the earlier files could not all be put back; they are in {work / 'old'}")
    shutil.rmtree(work, ignore_errors=True)


def _sync(folders: set[Path]) -> None:
    """Make the moves last through a power cut, where the system lets a folder be synced."""
    for folder in sorted(folders):
        with suppress(OSError):
            handle = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)


def _remove_empty(folder: Path, removed: Sequence[str]) -> None:
    """Remove the folders that pruning has emptied."""
    for name in removed:
        for above in Path(name).parents[:-1]:
            _remove_folder(folder / above)
