"""Size tables and sizes as they are named on the command line."""

from collections.abc import Sequence
from pathlib import Path

from jigs.errors import Place
from jigs.files import Folder
from jigs.plan.plan import TableFacts
from jigs.plan.sizes import Sized, facts, sized, table_named
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
    from jigs.errors import BadInput, raise_all

    tables = [table_here(name) for name in names]
    tables = list({table.name: table for table in tables}.values())
    found: list[Sized] = []
    problems: list[BadInput] = []
    for table in tables:
        try:
            given = table.select(text, Place("option", "--sizes")) if text else table.sizes
        except BadInput as problem:
            problems.append(problem)
            continue
        found += [sized(table, one) for one in given]
    # With several tables a size need only be known to one of them.
    if not found:
        raise_all(problems)
    return found, tuple(facts(table) for table in tables)
