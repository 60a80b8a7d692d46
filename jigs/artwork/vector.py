"""What the readers share: what was drawn, in millimetres and in words."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from jigs.artwork.detail import Detail, Ink
from jigs.artwork.drawn import Drawn
from jigs.geometry import Box
from jigs.units import Mm

#: As far as a channel, 0 to 255, of a tint may be off the line to white (our own choice).
_NEAR = 12


def box_in_mm(box: Box, unit: Mm) -> Box:
    """Return a box of the file's own unit in millimetres."""
    return Box(box.left * unit, box.top * unit, box.right * unit, box.bottom * unit)


def in_mm(drawn: Drawn, unit: Mm) -> Detail | None:
    """Return what a close look found, in millimetres and with the remarks."""
    if drawn.detail is None:
        return None
    found = drawn.detail
    return replace(
        found,
        inks=tuple(_named(ink, drawn.separations) for ink in found.inks),
        centroid=found.centroid.times(unit),
        thin=tuple(
            replace(one, width=one.width * unit, at=one.at.times(unit)) for one in found.thin
        ),
        specks=tuple(box_in_mm(box, unit) for box in found.specks),
        body=box_in_mm(found.body, unit) if found.body else None,
        remarks=drawn.remarks,
        separations=drawn.separations,
    )


def _named(ink: Ink, separations: Sequence[tuple[str, str]]) -> Ink:
    """Return an ink with the name of the separation that it is a tint of, if it may be one's."""
    tints = (name for name, colour in separations if _is_tint(ink.colour, colour))
    name = ink.name or next((f"{name}, tint" for name in tints), "")
    return replace(ink, name=name)


def _is_tint(colour: str, full: str) -> bool:
    """Return whether a colour lies on the line from white to another."""
    lacks, all_of_it = ([255 - part for part in _channels(one)] for one in (colour, full))
    square = sum(part * part for part in all_of_it)
    if max(lacks) <= _NEAR or not square:
        return False
    share = sum(a * b for a, b in zip(lacks, all_of_it, strict=True)) / square
    off = (abs(a - share * b) for a, b in zip(lacks, all_of_it, strict=True))
    return share <= 1 and max(off) <= _NEAR


def _channels(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[k : k + 2], 16) for k in (1, 3, 5))


def found_on(drawn: Drawn) -> Iterator[str]:
    """Yield what is noteworthy about any drawn page."""
    if drawn.ground == "white":
        yield (
            "a white rectangle fills the page and was taken for the ground, so white is not "
            "printed; if it is to be, take the rectangle out, or make the page larger than it"
        )


def pages_say(what: str, pages: int, page: int) -> str:
    """Return that a file has several pages, which was read, and how another is chosen."""
    return (
        f"the {what} has {pages} pages; page {page} was read: choose another by --page, or by "
        "page = in an order"
    )
