"""People of a public survey, and the garments estimated for their chest girth.

Each person wears the cut whose half chest has the ease that the package's own tables have: 5 cm
round over the middle chest girth of their letters (EN 13402-3) for what is worn on the skin, 15 cm
for sweatshirts. Everything but that half chest is estimated.

Sources: `ansur2_people.csv`, `ansur2_regression_on_chest.csv` (US Army anthropometric survey 2012,
ANSUR II), `gost_men_size100_mm.csv` (GOST typical figures), first lines of those files.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from jigs.tables.estimate import completed
from jigs.tables.measure import Measures
from jigs.units import Mm
from tests.reference.rows import rows
from tests.tables.cuts import bare

SEXES = ("men", "women")
SET_IN = ("crew-tee", "v-neck-tee", "long-sleeve-tee", "polo")
SWEATSHIRTS = ("crew-sweatshirt", "hoodie")
ADULT = (*SET_IN, *SWEATSHIRTS, "tank")
LONG = ("long-sleeve-tee", *SWEATSHIRTS)


@dataclass(frozen=True, slots=True)
class Person:
    """One of the survey's people; all in mm."""

    chest: Mm
    neck_base: Mm
    biacromial: Mm
    bideltoid: Mm
    shoulder: Mm
    biceps: Mm
    arm: Mm
    """From the acromion to the wrist."""
    to_acromion: Mm
    to_axilla: Mm
    to_notch: Mm
    """How far these lie below the cervicale, the bone at the back of the neck."""

    @property
    def neck_width(self) -> Mm:
        """As if the base of the neck were round."""
        return self.neck_base / math.pi


#: A statement on a garment and who wears it.
Holds = Callable[[Measures, Person], bool]


@cache
def people(sex: str) -> tuple[Person, ...]:
    """Return every fifth person of the survey."""
    found = rows("ansur2_people.csv")
    return tuple(
        Person(*(float(value) for key, value in row.items() if key != "sex"))
        for row in found
        if row["sex"] == sex
    )


def ease(cut: str) -> Mm:
    """Return how much wider round the chest a cut is than the body."""
    return 150.0 if cut in SWEATSHIRTS else 50.0


@cache
def worn(cut: str, chest: Mm) -> Measures:
    """Return the estimates of a cut for a chest girth."""
    return completed(bare(cut, "adult", (chest + ease(cut)) / 2), cut)


def share(cut: str, sex: str, holds: Holds) -> float:
    """Return for which part of the people a statement on garment and person holds."""
    found = [holds(worn(cut, person.chest), person) for person in people(sex)]
    return sum(found) / len(found)


def contains(m: Measures, point: str, length: Mm) -> bool:
    """Return whether a length lies within an estimate's plus-minus."""
    return abs(m.mm(point) - length) <= m[point].plus_minus


def regressions(measure: str) -> dict[str, tuple[float, Mm]]:
    """Return slope on the chest girth and intercept of a body measure by sex."""
    return {
        row["sex"]: (float(row["slope_per_mm_chest"]), float(row["intercept_mm"]))
        for row in rows("ansur2_regression_on_chest.csv")
        if row["measure_mm"] == measure
    }


def growth(cut: str, of: Callable[[Measures], Mm]) -> float:
    """Return by how much something estimated grows with a millimetre of chest girth."""
    return (of(worn(cut, 1100.0)) - of(worn(cut, 900.0))) / 200


def gost(measure: str, column: str = "increase_per_4cm_chest_step_mm") -> Mm:
    """Return a typical body measure, or by how much it grows with 4 cm of chest girth."""
    found = rows("gost_men_size100_mm.csv")
    return next(float(row[column]) for row in found if row["measure"] == measure)


#: How far the point where the neck meets the shoulder lies below the cervicale: the height of the
#: back of the neck less that of its side.
TO_HPS = gost("height_neck_back", "base_mm") - gost("height_neck_side", "base_mm")
