"""A size table: the measures of one garment style, size by size."""

from dataclasses import dataclass

from jigs.errors import Finding, Place, Unknown, raise_all
from jigs.tables.measure import Measures
from jigs.tables.outliers import odd_garments
from jigs.tables.rules import broken_rules, findings
from jigs.tables.sheet import Sheet, read_sheet
from jigs.tables.size_names import index_of, selected


@dataclass(frozen=True, slots=True)
class SizeTable:
    """The sizes of one garment style, smallest first, with what was given and measured alone."""

    name: str
    """The file's name without its ending, such as `adult-crew-tee`."""
    title: str
    cut: str
    """Which garment block draws it, such as `crew-tee`."""
    age: str
    """infant, toddler, youth or adult."""
    source: str
    sizes: tuple[Measures, ...]
    warnings: tuple[Finding, ...] = ()

    def size(self, name: str, place: Place) -> Measures:
        """Return one size; case does not matter, and XXL is 2XL.

        Raises:
            Unknown: the table has no such size; the nearest name is offered.
        """
        names = [measures.size for measures in self.sizes]
        index = index_of(name, names)
        if index is None:
            raise Unknown(place, "size", name, names, in_order=True)
        return self.sizes[index]

    def select(self, text: str, place: Place) -> tuple[Measures, ...]:
        """Return the sizes a text such as `S-XL, 3XL` means, in the table's order, each once.

        Raises:
            Unknown: a size the table does not have; the nearest name is offered.
            BadInput: an empty part, a range written backwards or readable in two ways.
        """
        names = [measures.size for measures in self.sizes]
        return tuple(self.sizes[index] for index in selected(text, self.name, names, place))


def read(text: str, name: str, place: Place) -> SizeTable:
    """Return the size table a TOML text describes.

    Raises:
        BadInput: the one thing wrong with it.
        BadInputs: everything wrong with it, each with its place (`measurements.half_chest[3]`).
    """
    sheet, problems = read_sheet(text, place)
    raise_all([*problems, *broken_rules(sheet, place)])
    return SizeTable(
        name=name,
        title=sheet.words["title"],
        cut=sheet.words["cut"],
        age=sheet.words["age"],
        source=sheet.words["source"],
        sizes=tuple(_measures(sheet, index, name) for index in range(len(sheet.sizes))),
        warnings=(*findings(sheet, place), *odd_garments(sheet, place)),
    )


def _measures(sheet: Sheet, index: int, table: str) -> Measures:
    values = {
        point: measure
        for point in sheet.rows
        if (measure := sheet.measure(point, index)) is not None
    }
    return Measures(table, sheet.sizes[index], sheet.words["age"], values)
