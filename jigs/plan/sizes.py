"""From size tables to flats: every size that is wanted, measured and drawn."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jigs.errors import BadInput, Place
from jigs.garments import GARMENTS, Flat
from jigs.plan.plan import SizePlan, TableFacts
from jigs.tables import library
from jigs.tables.estimate import completed
from jigs.tables.measure import Measures
from jigs.tables.table import SizeTable


@dataclass(frozen=True, slots=True)
class Sized:
    """One size with its flat, and how many pieces are wanted."""

    plan: SizePlan
    flat: Flat
    quantity: int
    block: str
    """The garment's title: `hooded sweatshirt`."""

    @property
    def key(self) -> str:
        """`table/size`."""
        return self.plan.key


def points_of(cut: str, place: Place) -> frozenset[str]:
    """Return the points of measure that a table of a cut may give.

    From a sleeve's length over the shoulder that from the shoulder point is estimated.

    Raises:
        Unknown: no garment is called so.
    """
    block = GARMENTS.get(cut, place)
    over_shoulder = {"centre_back_sleeve"} if "sleeve_length" in block.needs else set[str]()
    return block.needs | block.may | over_shoulder


def table_named(name: str, place: Place, beside: Callable[[str], str] | None = None) -> SizeTable:
    """Return a size table whose garment is known.

    Raises:
        BadInput: there is no such table, it is malformed, or its cut is no known garment.
    """
    table = library.find(name, place, beside)
    GARMENTS.get(table.cut, Place(name, "cut"))
    return table


def sized(table: SizeTable, given: Measures, quantity: int = 1) -> Sized:
    """Return one size of a table, completed and drawn.

    Raises:
        BadInput: its measurements contradict one another, or lack what the garment needs.
    """
    place = Place(f"{table.name}.toml", f"size {given.size}")
    block = GARMENTS.get(table.cut, Place(f"{table.name}.toml", "cut"))
    measures = completed(given, table.cut)
    missing = sorted(block.needs - measures.values.keys())
    if missing:
        raise BadInput(place, f"lacks {', '.join(missing)}", f"a {block.title} needs them")
    try:
        flat = block.draw(measures)
    except ValueError as error:
        raise BadInput(place, str(error), "measurements that make a garment") from None
    title = f"{table.title.rpartition(', ')[2]} {given.size}"
    return Sized(SizePlan(given.key, title, table.cut, measures), flat, quantity, block.title)


def facts(tables: Sequence[SizeTable]) -> tuple[TableFacts, ...]:
    """Return what documents say of tables.

    The part of a title after its last comma is a table's short name, `Crew-neck tee, adult`;
    tables that would share it go by their own names, so that no two jigs read alike.
    """
    short = [table.title.rpartition(", ")[2] for table in tables]
    folded = [name.casefold() for name in short]
    return tuple(
        TableFacts(
            name=table.name,
            title=table.title,
            short=name if folded.count(name.casefold()) == 1 else table.name,
            cut=table.cut,
            age=table.age,
            source=table.source,
            sizes=tuple(one.size for one in table.sizes),
            whole="chest" if "half_chest" in table.sizes[0] else "bag",
        )
        for table, name in zip(tables, short, strict=True)
    )


def sizes_text(keys: Sequence[str], tables: Sequence[TableFacts]) -> str:
    """Return sizes for people: `adult S–XL; youth L`, runs of a table's sizes joined."""
    parts = []
    for table in tables:
        names = [key.partition("/")[2] for key in keys if key.partition("/")[0] == table.name]
        if names:
            # A dash between 3-6M and 18-24M would be one dash too many.
            dash = " to " if any("-" in name for name in table.sizes) else "–"
            parts.append(f"{table.short} {', '.join(spans(names, table.sizes, dash))}")
    return "; ".join(parts)


def spans(names: Sequence[str], every: Sequence[str], dash: str) -> list[str]:
    """Return names in the order of `every`, neighbours joined: S, M, L, 2XL become S-L and 2XL."""
    rows: list[list[str]] = []
    # Sizes that share a jig stand by their drops, which need not be the table's order.
    for name in sorted(names, key=every.index):
        if rows and every.index(name) == every.index(rows[-1][-1]) + 1:
            rows[-1].append(name)
        else:
            rows.append([name])
    return [row[0] if len(row) == 1 else f"{row[0]}{dash}{row[-1]}" for row in rows]
