"""What the layout promises and the import contracts in pyproject.toml cannot say."""

import ast
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any, TypeAlias

import pytest

from jigs.artwork import READERS
from jigs.garments import GARMENTS
from jigs.locations import LOCATIONS
from jigs.registry import Registry
from jigs.styles import STYLES
from jigs.writers import WRITERS

Public: TypeAlias = ast.Module | ast.ClassDef | ast.FunctionDef

PACKAGE = Path(__file__).parents[1] / "jigs"
MODULES = tuple(path.relative_to(PACKAGE).as_posix() for path in sorted(PACKAGE.rglob("*.py")))
REGISTRIES: tuple[Registry[Any], ...] = (GARMENTS, LOCATIONS, READERS, STYLES, WRITERS)

#: Modules that read data of the package itself, which is inside it and never a user's.
READ_PACKAGE_DATA = {
    "cli/new.py",
    "geometry/strokes.py",
    "order/colours.py",
    "order/materials.py",
    "order/papers.py",
    "tables/estimate.py",
    "tables/library.py",
    "tables/spec_names.py",
    "team/lettering.py",
    "team/rules.py",
}
#: Calls that read, list, make or remove files, by the last part of their name.
READING = {"exists", "glob", "is_dir", "is_file", "iterdir", "read_bytes", "read_text", "rglob"}
WRITING = {"mkdir", "open", "rename", "rmdir", "touch", "unlink", "write_bytes", "write_text"}
#: Modules of the disk, of the network, and those that make two runs differ.
OUTSIDE = {"glob", "http", "os", "shutil", "socket", "ssl", "tempfile", "urllib"}
CHANGING = {"datetime", "getpass", "locale", "platform", "random", "secrets", "time", "uuid"}
#: Libraries that take long to import, or fail to where a system's library is missing.
HEAVY = {
    "PIL", "cairosvg", "cattrs", "cv2", "ezdxf", "lxml", "numpy", "openpyxl", "pint", "pypdf",
    "pypdfium2", "pyvips", "reportlab", "resvg_py", "rpack", "shapely", "svgwrite", "tomlkit",
    "uharfbuzz",
}  # fmt: skip


@cache
def text(module: str) -> str:
    """Return a module's text."""
    return (PACKAGE / module).read_text(encoding="utf-8")


@cache
def tree(module: str) -> ast.Module:
    """Return a module's syntax tree."""
    return ast.parse(text(module))


def offending(found: Callable[[str], Iterable[str]], but: str = "") -> dict[str, list[str]]:
    """Return what is found in each module, but in `but` (a folder or a file); nothing is good."""
    judged = {name: sorted(found(name)) for name in MODULES if not (but and name.startswith(but))}
    return {name: said for name, said in judged.items() if said}


def imported(nodes: Iterable[ast.AST]) -> set[str]:
    """Return the top-level names of the packages that statements import."""
    found = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module.partition(".")[0])
    return found


def called(module: str) -> set[str]:
    """Return what a module calls, as it is written: `print`, `path.open`, `Image.open`."""
    calls = (node for node in ast.walk(tree(module)) if isinstance(node, ast.Call))
    return {ast.unparse(call.func) for call in calls}


def last(name: str) -> str:
    """Return the last part of a dotted name."""
    return name.rpartition(".")[2]


def test_no_module_is_longer_than_400_lines() -> None:
    """A module can be read at one go."""
    assert [name for name in MODULES if len(text(name).splitlines()) > 400] == []


def test_one_module_touches_the_disk() -> None:
    """Only `files` opens, lists, makes or removes files; a few read the package's own data."""

    def touching(module: str) -> set[str]:
        banned = WRITING if module in READ_PACKAGE_DATA else WRITING | READING
        # Pillow opens bytes in memory; reading through a Folder is the way it is meant.
        calls = {name for name in called(module) if not name.lower().startswith("folder")}
        return {name for name in calls - {"Image.open"} if last(name) in banned}

    assert offending(touching, but="files.py") == {}


def test_those_that_read_package_data_ask_for_it_by_package() -> None:
    """They use `importlib.resources`, and nobody else does."""
    ways = ("importlib.resources", "from importlib import resources")
    assert {name for name in MODULES if any(way in text(name) for way in ways)} == READ_PACKAGE_DATA


def test_nothing_reaches_the_system_or_the_network() -> None:
    """No module but `files` and the command line asks the system, and none the network."""

    def reaching(module: str) -> set[str]:
        allowed = {"os", "shutil"} if module == "files.py" or module.startswith("cli/") else set()
        return imported(ast.walk(tree(module))) & OUTSIDE - allowed

    assert offending(reaching) == {}


def test_the_same_input_gives_the_same_bytes() -> None:
    """Outside the command line nothing asks the clock, chance, or where an object lies."""

    def changing(module: str) -> set[str]:
        return imported(ast.walk(tree(module))) & CHANGING | called(module) & {"hash", "id"}

    assert offending(changing, but="cli/") == {}


def test_only_the_command_line_speaks() -> None:
    """Nothing prints or asks; only commands write to the terminal."""
    spoken = {"click.echo", "echo", "input", "print", "sys.stderr.write", "sys.stdout.write"}
    assert offending(lambda module: called(module) & spoken, but="cli/") == {}
    assert offending(lambda module: called(module) & (spoken - {"click.echo"})) == {}


def test_nothing_is_caught_wholesale() -> None:
    """An error that nobody foresaw is never taken for one that somebody did."""

    def wholesale(module: str) -> set[str]:
        caught = (one for one in ast.walk(tree(module)) if isinstance(one, ast.ExceptHandler))
        names = {ast.unparse(one.type) if one.type else "everything" for one in caught}
        suppressed = {"suppress(Exception)"} if "suppress(Exception)" in text(module) else set()
        return names & {"everything", "Exception", "BaseException"} | suppressed

    assert offending(wholesale) == {}


def test_heavy_libraries_are_imported_where_they_are_used() -> None:
    """A library that takes long to import is imported inside the function that needs it."""
    assert offending(lambda module: imported(run_on_import(tree(module))) & HEAVY) == {}


def run_on_import(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what runs when a module is imported: all but functions and what checkers alone see."""
    for child in ast.iter_child_nodes(node):
        unseen = isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING"
        if not unseen and not isinstance(child, ast.FunctionDef):
            yield child
            yield from run_on_import(child)


def test_every_public_thing_says_what_it_is() -> None:
    """Every module has a docstring, and so has every public class and function in it."""

    def silent(module: str) -> set[str]:
        return {
            getattr(one, "name", "the module")
            for one in public(tree(module))
            if not ast.get_docstring(one)
        }

    assert offending(silent) == {}


def public(node: ast.Module | ast.ClassDef) -> Iterator[Public]:
    """Yield a module or class, and the public classes and functions defined in it."""
    yield node
    for child in node.body:
        if isinstance(child, ast.FunctionDef) and not child.name.startswith("_"):
            yield child
        if isinstance(child, ast.ClassDef) and not child.name.startswith("_"):
            yield from public(child)


@pytest.mark.parametrize("registry", REGISTRIES, ids=lambda one: one.package)
def test_every_file_of_a_registry_is_an_entry(registry: Registry[Any]) -> None:
    """Each file of the folder defines the folder's constant and is listed by the file's name."""
    folder = PACKAGE.parent / registry.package.replace(".", "/")
    files = {path.stem for path in folder.glob("*.py") if not path.name.startswith("_")}
    assert files <= {name.replace("-", "_") for name in registry.names()}
    for file in files:
        module = import_module(f"{registry.package}.{file}")
        assert registry.get(file.replace("_", "-")) is getattr(module, registry.constant)
