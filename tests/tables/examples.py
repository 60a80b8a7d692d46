"""Small size tables that the tests vary."""

from jigs.errors import BadInput, BadInputs, Place
from jigs.tables.table import SizeTable, read

GOOD = """\
title = "Crew-neck tee"
cut = "crew-tee"
age = "adult"
unit = "in"
sizes = ["S", "M", "L", "2XL"]
source = "invented"
[measurements]
half_chest = [18, 20, 22, 24]
body_length = [28, "29", "29 1/2", "30 in"]
neck_width = ["6 3/4", "17.5 cm", "7 1/8", 7.5]
back_neck_drop = ["3/4", "¾", 0.75, "3/4"]
[tolerances]
half_chest = "3/8"
"""


def table(text: str = GOOD, name: str = "tee") -> SizeTable:
    """Return the table a text describes."""
    return read(text, name, Place("tee.toml"))


def problems(text: str) -> dict[str, str]:
    """Return what is wrong with a text: key of the place to message."""
    try:
        table(text)
    except BadInputs as error:
        return {problem.place.key: str(problem) for problem in error.problems}
    except BadInput as error:
        return {error.place.key: str(error)}
    return {}


def with_sizes(names: list[str]) -> SizeTable:
    """Return a table of nothing but sizes of these names."""
    quoted = ", ".join(f'"{name}"' for name in names)
    chest = ", ".join(str(100 + index) for index in range(len(names)))
    return table(
        f'title = "t"\ncut = "tote"\nage = "adult"\nunit = "mm"\nsource = "invented"\n'
        f"sizes = [{quoted}]\n[measurements]\nhalf_chest = [{chest}]\nbody_length = [{chest}]\n"
        f"[tolerances]\nhalf_chest = 0.1\n"
    )
