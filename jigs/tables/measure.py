"""A measurement of a garment: how long, how sure, and how we know."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

from jigs.units import Mm


class Origin(Enum):
    """How a measurement is known."""

    MEASURED = "measured"
    """Measured on garments by the shop."""
    GIVEN = "given"
    """Stands in the size table."""
    ESTIMATED = "estimated"
    """Follows from other measurements by a drafting relation."""


@dataclass(frozen=True, slots=True)
class Measure:
    """A length of a garment, its plus-minus, and its origin."""

    mm: Mm
    plus_minus: Mm
    origin: Origin = Origin.GIVEN
    pieces: int = 0
    """How many garments were measured; 0 unless it is measured."""


@dataclass(frozen=True, slots=True)
class Measures:
    """The points of measure of one size: `measures["half_chest"].mm`."""

    table: str
    """Name of the size table, such as `adult-crew-tee`."""
    size: str
    """Name of the size within it, such as `2XL`."""
    age: str
    """infant, toddler, youth or adult."""
    values: Mapping[str, Measure]

    def __post_init__(self) -> None:
        object.__setattr__(self, "values", MappingProxyType(dict(self.values)))

    def __getitem__(self, name: str) -> Measure:
        return self.values[name]

    def __contains__(self, name: object) -> bool:
        return name in self.values

    def __reduce__(self) -> tuple[type["Measures"], tuple[str, str, str, dict[str, Measure]]]:
        # A mapping proxy cannot be pickled, and plans travel between processes.
        return (Measures, (self.table, self.size, self.age, dict(self.values)))

    @property
    def key(self) -> str:
        """`table/size`, the name of this size among all tables."""
        return f"{self.table}/{self.size}"

    @property
    def breadth(self) -> Mm:
        """Width laid flat, of which the widths of prints are a share.

        It is the half chest, or the width of a bag.
        """
        return self.mm("half_chest" if "half_chest" in self.values else "bag_width")

    def mm(self, name: str) -> Mm:
        """Return one length.

        Raises:
            KeyError: the size has no such point of measure.
        """
        return self.values[name].mm
