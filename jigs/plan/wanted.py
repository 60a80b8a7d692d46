"""What an order asks for itself: how artwork is read, and the widths with the sizes of each."""

from collections.abc import Sequence

from jigs.artwork.asked import Asked
from jigs.errors import BadInput, Place, collecting, raise_all
from jigs.order.order import Print
from jigs.tables.table import SizeTable
from jigs.units import Mm


def asked(wish: Print) -> Asked:
    """Return what the reader of a print's artwork is asked."""
    return Asked(page=wish.page, ignore_specks=wish.ignore_specks)


def wanted(
    wish: Print, tables: Sequence[SizeTable], keys: Sequence[str], place: Place
) -> list[tuple[Mm, tuple[str, ...]]]:
    """Return the order's own widths, each with the sizes (`table/size`) it is for.

    `keys` are the sizes of the print. Empty if the widths are to be chosen.

    Raises:
        BadInput: a range names no size of the print, or a size is left without a width.
    """
    if wish.width is not None:
        return [(wish.width, tuple(keys))]
    if not wish.widths:
        return []
    left = list(keys)
    widths: list[tuple[Mm, tuple[str, ...]]] = []
    for text, width in wish.widths:
        here = place.at("width").at(text)
        asked = meant(text, tables, here)
        taken = tuple(key for key in left if key in asked)
        if not taken:
            had = [key for key in keys if key in asked]
            if had:
                found = f"{', '.join(had)} has a width already"
                raise BadInput(here, found, "give every size of the print one width")
            raise BadInput(here, "names no size of this print", f"sizes: {', '.join(keys)}")
        left = [key for key in left if key not in taken]
        widths.append((width, taken))
    if left:
        allowed = "give every size of the print one width"
        raise BadInput(place.at("width"), f"no width for {', '.join(left)}", allowed)
    return widths


def meant(
    text: str, tables: Sequence[SizeTable], place: Place, *, in_each: bool = False
) -> set[str]:
    """Return the sizes (`table/size`) that a list of sizes and ranges means in some tables.

    Each part need only be known to one of the tables.

    Raises:
        BadInput: a part is known to none; or, if `in_each`, a table is meant by no part.
    """
    keys: set[str] = set()
    unmeant: dict[str, BadInput] = {}
    meant_in: set[str] = set()
    for part in text.split(","):
        problems: list[BadInput] = []
        known = False
        for table in tables:
            before = len(problems)
            with collecting(problems):
                keys |= {one.key for one in table.select(part, place)}
                meant_in.add(table.name)
                known = True
            for problem in problems[before:]:
                found = f"{problem.found}, and no size of {table.name}"
                unmeant.setdefault(table.name, BadInput(place, found, problem.allowed))
        if not known:
            raise problems[0]
    if in_each:
        raise_all(one for name, one in unmeant.items() if name not in meant_in)
    return keys
