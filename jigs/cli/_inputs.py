"""What commands are given: tables and sizes by name, files wherever the user points to."""

from collections.abc import Sequence
from pathlib import Path

import click

from jigs import artwork as reader
from jigs.artwork.asked import Asked
from jigs.errors import BadInput, Finding, Place, Unknown, raise_all
from jigs.files import Folder
from jigs.names import safe_name
from jigs.order import profile as profiles
from jigs.order.colours import colour_key, colours, hex_colour
from jigs.order.order import Paper, Printer
from jigs.plan.plan import TableFacts
from jigs.plan.sizes import Sized, facts, sized, table_named
from jigs.plan.wanted import meant
from jigs.tables import library
from jigs.tables.table import SizeTable
from jigs.units import number


def table_here(name: str) -> SizeTable:
    """Return one of the program's own tables, or a table file wherever the user points to.

    Raises:
        BadInput: there is no such table, or it is malformed.
    """
    return table_named(name, Place(name), text_here)


def table_text_here(name: str) -> tuple[str, str]:
    """Return the text and the name of one of the program's own tables, or of a table file.

    Raises:
        BadInput: there is no such table.
    """
    if name.lower().endswith(".toml"):
        return text_here(name), Path(name).stem
    return library.text_of(name, Place("TABLE")), name


def printer_of(profile: str | None, paper: Paper) -> tuple[Printer, tuple[Finding, ...]]:
    """Return the factors of a printer's profile, if one is given, and what is to be said of it.

    Raises:
        BadInput: the file cannot be read, or is no profile.
    """
    if profile is None:
        return Printer(), ()
    found = profiles.read(text_here(profile), Place(profile))
    return found.printer, found.remarks(profile, paper)


def new_table_file(file: Path, place: Place) -> None:
    """Check that a file may be a table's: an order can name it.

    Raises:
        BadInput: its name is none for a table.
    """
    if file.suffix != ".toml" or file.name != safe_name(file.name):
        allowed = "a name such as my-tee.toml: letters, digits, dot, dash and underscore"
        raise BadInput(place, f"found {file.name!r}", f"write {allowed}")


def wanted_sizes(
    names: Sequence[str], text: str | None
) -> tuple[list[Sized], tuple[TableFacts, ...]]:
    """Return the sizes of tables that a text names (all, without one), and facts of the tables.

    Raises:
        BadInput: a table or size is unknown.
    """
    tables = list({table.name: table for table in map(table_here, names)}.values())
    keys = meant(text, tables, Place("option", "--sizes"), in_each=True) if text else None
    found = [
        sized(table, one)
        for table in tables
        for one in table.sizes
        if keys is None or one.key in keys
    ]
    return found, facts(tables)


def read_here(path: str) -> tuple[str, bytes]:
    """Return a file's name and bytes, wherever the user points to.

    Raises:
        BadInput: it is missing, no file, unreadable or too large.
    """
    file = Path(path)
    return file.name, Folder(file.parent).read_bytes(file.name, Place(path))


def text_here(path: str) -> str:
    """Return a text file's text, wherever the user points to.

    Raises:
        BadInput: it is missing, no file, unreadable, too large or no UTF-8.
    """
    file = Path(path)
    return Folder(file.parent).read_text(file.name, Place(path))


def positive(value: str, option: str) -> float:
    """Return a plain positive number given to an option.

    Raises:
        BadInput: it is none.
    """
    read = number(value.strip())
    if read is None or read[1].strip() or not 0.01 <= read[0] <= 100:
        raise BadInput(
            Place("option", option), f"found {value!r}", "write a number from 0.01 to 100"
        )
    return read[0]


def garment_colours(texts: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Return garment colours given by name or by value, each with its `#rrggbb`.

    Raises:
        BadInput: one is neither a known name nor a `#rrggbb`.
    """
    problems: list[BadInput] = []
    found: list[tuple[str, str]] = []
    place = Place("option", "--garment-colour")
    for text in texts:
        value = hex_colour(text.strip()) or colours().get(colour_key(text))
        if value is None:
            problems.append(Unknown(place, "colour", text, ["#rrggbb", *colours()]))
        else:
            found.append((colour_key(text), value))
    raise_all(problems)
    return tuple(found)


def picture_format(file: Path) -> str:
    """Return the format that a picture's name asks for.

    Raises:
        BadInput: it ends in neither .svg nor .png.
    """
    suffix = file.suffix.lower().removeprefix(".")
    if suffix not in {"svg", "png"}:
        raise BadInput(Place("option", "--out"), f"found {file.name!r}", "write a name.svg or .png")
    return suffix


def aspect_of(artwork: str | None, aspect: str | None) -> tuple[float, tuple[Finding, ...]]:
    """Return the aspect that one of two options gives, and what is to be said of the artwork.

    Raises:
        BadInput: the file or the number cannot be used.
        click.UsageError: both are given, or neither.
    """
    if (artwork is None) == (aspect is None):
        raise click.UsageError("give either --artwork FILE or --aspect NUMBER")
    if aspect is not None:
        return positive(aspect, "--aspect"), ()
    assert artwork is not None  # noqa: S101 - one of the two is given
    name, data = read_here(artwork)
    art = reader.read(name, data, Place(artwork), Asked(closely=False))
    return art.aspect, art.findings
