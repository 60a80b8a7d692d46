"""Where size tables are found: beside the order, or among the package's own."""

from collections.abc import Callable
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from jigs.errors import BadInput, Place, Unknown
from jigs.tables.table import SizeTable, read

_ENDING = ".toml"


def names() -> tuple[str, ...]:
    """Return the names of the package's own tables, sorted."""
    return tuple(sorted(_own()))


def find(name: str, place: Place, beside: Callable[[str], str] | None = None) -> SizeTable:
    """Return a table: a path that ends in `.toml` beside the order, else one of the package's.

    `beside` returns the text of a file beside the order. `place` is where the name was written.

    Raises:
        Unknown: the package has no table of that name; the nearest is offered.
        BadInput, BadInputs: what is wrong in the file, or what `beside` says.
    """
    if name.lower().endswith(_ENDING):
        return _beside(name, place, beside)
    if name not in _own():
        raise Unknown(place, "size table", name, names())
    return _own_table(name)


def text_of(name: str, place: Place) -> str:
    """Return the file of one of the package's own tables: something to start from.

    Raises:
        Unknown: the package has no table of that name.
    """
    if name not in _own():
        raise Unknown(place, "size table", name, names())
    return _own()[name].read_text(encoding="utf-8")


def _beside(name: str, place: Place, beside: Callable[[str], str] | None) -> SizeTable:
    stem = name.replace("\\", "/").rpartition("/")[2][: -len(_ENDING)].strip()
    if not stem:
        raise BadInput(place, f"found {name!r}", "write the name of a table file")
    if beside is None:
        allowed = f"a table file is named in an order; known tables: {', '.join(names())}"
        raise BadInput(place, f"found {name!r}, a file", allowed)
    return read(beside(name), stem, Place(name))


@cache
def _own_table(name: str) -> SizeTable:
    return read(_own()[name].read_text(encoding="utf-8"), name, Place(f"{name}{_ENDING}"))


@cache
def _own() -> dict[str, Traversable]:
    folder = _folder()
    return {
        entry.name.removesuffix(_ENDING): entry
        for entry in sorted(folder.iterdir(), key=lambda entry: entry.name)
        if entry.name.endswith(_ENDING)
    }


def _folder() -> Traversable:
    """Return the folder of tables: in the installed package, else at the top of the sources."""
    package = files("jigs")
    inside = package.joinpath("size_tables")
    if not inside.is_dir() and isinstance(package, Path):
        return package.parent / "size_tables"
    return inside
