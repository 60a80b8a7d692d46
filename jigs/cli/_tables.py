"""Size tables and sizes as they are named on the command line."""

from collections.abc import Sequence
from pathlib import Path

from jigs.errors import Place
from jigs.files import Folder
from jigs.plan.plan import TableFacts
from jigs.plan.sizes import Sized, facts, sized, table_named
from jigs.plan.wanted import meant
from jigs.tables.table import SizeTable


def table_here(name: str) -> SizeTable:
    """Return one of the program's own tables, or a table file wherever the user points to.

    Raises:
        BadInput: there is no such table, or it is malformed.
    """
    place = Place(name)

    def beside(path: str) -> str:
        file = Path(path)
        return Folder(file.parent).read_text(file.name, place)

    return table_named(name, place, beside)


def wanted_sizes(
    names: Sequence[str], text: str | None
) -> tuple[list[Sized], tuple[TableFacts, ...]]:
    """Return the sizes of tables that a text names (all, without one), and facts of the tables.

    Raises:
        BadInput: a table or size is unknown.
    """
    tables = list({table.name: table for table in map(table_here, names)}.values())
    keys = meant(text, tables, Place("option", "--sizes")) if text else None
    found = [
        sized(table, one)
        for table in tables
        for one in table.sizes
        if keys is None or one.key in keys
    ]
    return found, facts(tables)
