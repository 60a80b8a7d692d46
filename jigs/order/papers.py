"""Paper sizes by name, from the standards that define them."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from jigs.errors import Place, Unknown
from jigs.order.order import Paper
from jigs.units import Mm, mm


@dataclass(frozen=True, slots=True)
class PaperSize:
    """A paper upright, and the document that defines it."""

    width: Mm
    height: Mm
    standard: str


@cache
def papers() -> Mapping[str, PaperSize]:
    """Return the known papers by name."""
    text = files("jigs.order").joinpath("papers.toml").read_text(encoding="utf-8")
    place = Place("papers.toml")
    return {
        name: PaperSize(
            mm(row["width"], place.at(name)),
            mm(row["height"], place.at(name)),
            str(row["standard"]),
        )
        for name, row in tomllib.loads(text).items()
    }


def paper_named(name: str, place: Place) -> Paper:
    """Return a known paper with the usual margin and overlap.

    Raises:
        Unknown: there is no paper of that name.
    """
    known = papers()
    if name.lower() not in known:
        raise Unknown(place, "paper", name, known)
    size = known[name.lower()]
    return Paper(name.lower(), size.width, size.height)
