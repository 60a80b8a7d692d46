"""A folder of files as a list of entries: one file, one name, one constant.

`garments/crew_tee.py` defines `BLOCK` and is thereby the garment `crew-tee`. A name is looked
up among the folder's files before anything is imported, so that a name from an order can never
import something else. Other packages add entries through the entry-point group `jigs.<folder>`.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from importlib import import_module
from importlib.metadata import EntryPoint, entry_points
from pkgutil import iter_modules
from typing import Generic, TypeVar

from jigs.errors import Place, Unknown

T = TypeVar("T")


@dataclass(frozen=True)
class Registry(Generic[T]):
    """The entries of one folder: its package, its constant's name and type, what to call one."""

    package: str
    constant: str
    kind: type[T]
    called: str

    @cached_property
    def _files(self) -> dict[str, str]:
        path = import_module(self.package).__path__
        return {
            module.name.replace("_", "-"): module.name
            for module in iter_modules(path)
            if not module.name.startswith("_")
        }

    @cached_property
    def _plugged(self) -> dict[str, EntryPoint]:
        group = f"jigs.{self.package.rpartition('.')[2]}"
        return {point.name: point for point in entry_points(group=group)}

    def names(self) -> tuple[str, ...]:
        """Return the entries' names, sorted; nothing is imported."""
        return tuple(sorted(self._files.keys() | self._plugged.keys()))

    def get(self, name: str, place: Place | None = None) -> T:
        """Return one entry, importing its file alone.

        Raises:
            Unknown: no entry has that name.
            TypeError: the entry's file does not define the constant (a mistake of its author).
        """
        if name in self._files:
            module = import_module(f"{self.package}.{self._files[name]}")
            entry = getattr(module, self.constant, None)
        elif name in self._plugged:
            entry = self._plugged[name].load()
        else:
            raise Unknown(place or Place(f"({self.called})"), self.called, name, self.names())
        if not isinstance(entry, self.kind):
            raise TypeError(f"{self.called} {name!r} must define {self.constant}: {self.kind}")
        return entry

    def __iter__(self) -> Iterator[tuple[str, T]]:
        for name in self.names():
            yield name, self.get(name)
