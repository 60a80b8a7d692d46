"""Every style at every location on every shipped table: `python -m tests.matrix FOLDER`.

The command draws a contact sheet of each table, in three sizes of print, with what a style objects
to and what rule a jig breaks in words. `tests/rules/test_matrix.py` asks for the same cells.
"""

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from jigs.documents.contact_sheet import Entry, contact_page
from jigs.drawing.drawing import Drawing, Layer, Shape
from jigs.errors import Place
from jigs.geometry import Box
from jigs.geometry import Path as Outline
from jigs.locations import LOCATIONS, lacks
from jigs.locations._location import Location, usual_width
from jigs.order.order import Press, Transfer
from jigs.plan.jigs import broken, drawn, named
from jigs.plan.prints import Site, film_template, sites, templates
from jigs.plan.sizes import facts, sizes_text
from jigs.styles import STYLES
from jigs.tables import library
from jigs.template import Template
from jigs.units import Mm
from jigs.widths import WidthRange
from jigs.writers import as_bytes
from tests import shipped

#: Sizes of print, with the unit that its jigs speak.
PRINTS = {"small": "mm", "usual": "in", "largest": "mm"}
_ASPECT = 1.25
#: Jigs on a page of the contact sheet: more than so many would be too small to be looked at.
_ON_A_PAGE = 24


@dataclass(frozen=True)
class Cell:
    """A jig of the matrix, or what its style has against it."""

    style: str
    location: str
    table: str
    print: str
    """Which size of print."""
    template: Template

    @property
    def objection(self) -> str | None:
        """What the style has against the template, if anything."""
        return STYLES.get(self.style).objection(self.template)

    @property
    def faults(self) -> tuple[str, ...]:
        """What rules the jig breaks."""
        return broken(self.style, self.template)

    @property
    def drawing(self) -> Drawing:
        """The jig's drawing."""
        return drawn(self.style, self.template)

    def __str__(self) -> str:
        return f"{self.style} at {self.location} on {self.table}, {self.print} print"


@cache
def tables() -> tuple[str, ...]:
    """Return every shipped table."""
    return library.names()


def cells(table: str) -> Iterator[Cell]:
    """Yield every jig of a table: of all styles, at all locations, in all sizes of print."""
    for location in LOCATIONS.names():
        for name, templates_ in _prints(LOCATIONS.get(location), table):
            for one in templates_:
                for style in STYLES.names():
                    # A sheet laid on by eye is drawn of all sizes, a plate of those that share it.
                    if STYLES.get(style).touch is not bool(one.seams):
                        yield Cell(style, location, table, name, one)


def _prints(location: Location, table: str) -> Iterator[tuple[str, Sequence[Template]]]:
    """Yield the sizes of print, each with the templates that all sizes of a table need."""
    sized = shipped.sizes(table)
    if any(lacks(location, one.flat) for one in sized):
        return
    where, _ = sites(location, sized, Press())
    rooms = [site.placement.room(_ASPECT) for site in where]
    if any(room.covered for room in rooms):
        return
    largest = min(room.mm for room in rooms)
    known = facts([library.find(table, Place(table))])
    for name, width in _widths(location, where, largest).items():
        keys = tuple(site.key for site in where)
        one = WidthRange(keys, width, width / _ASPECT, len(keys))
        unit = PRINTS[name]
        made = templates(location, where, one, Transfer(), "matrix", unit)
        made.append(film_template(location, where, one, Transfer(), "matrix", unit))
        yield (
            name,
            [
                replace(named(t, known), sizes=sizes_text([s.key for s in t.seats], known))
                for t in made
            ],
        )


def _widths(location: Location, where: Sequence[Site], largest: Mm) -> dict[str, Mm]:
    """Return the width of each size of print: none is wider than what fits every size."""
    measures = where[0].sized.flat.measures
    usual = usual_width(location, measures.age, measures.breadth, _ASPECT)
    small = location.usual[0].at(measures.age) / 2
    return {"small": min(small, largest), "usual": min(usual, largest), "largest": largest}


def pages(table: str) -> Iterator[tuple[str, bytes]]:
    """Yield a table's contact sheets, by file name."""
    made = list(cells(table))
    for name in PRINTS:
        entries = [_entry(cell) for cell in made if cell.print == name]
        for k in range(0, len(entries), _ON_A_PAGE):
            page = contact_page(f"{table}: {name} prints", entries[k : k + _ON_A_PAGE], "in")
            yield f"{table}-{name}-{k // _ON_A_PAGE + 1}.png", as_bytes("png", [page])


def _entry(cell: Cell) -> Entry:
    lines = [f"{cell.location}, {cell.style}", cell.template.sizes, cell.template.print_text]
    if cell.objection is not None:
        blank = Shape(Layer.NOTE, Outline.box(Box(0.0, 0.0, 150.0, 60.0)), dashed=True)
        return Entry(Drawing((blank,)), (*lines, *_wrapped(cell.objection)))
    return Entry(cell.drawing, (*lines, *_wrapped("; ".join(cell.faults))))


def _wrapped(text: str) -> list[str]:
    from textwrap import wrap

    return wrap(text, 48)


def main() -> int:
    """Write the contact sheets of every table, or of those that are named after the folder."""
    if len(sys.argv) < 2:
        sys.stderr.write("python -m tests.matrix FOLDER [TABLE ...]\n")
        return 2
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for table in sys.argv[2:] or tables():
        for name, data in pages(table):
            (folder / name).write_bytes(data)
    return 0


if __name__ == "__main__":
    sys.exit(main())
