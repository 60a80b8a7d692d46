"""What is seen of a drawing's page, whichever format it has: its ink, and what a close look finds.

Lengths are in the file's own unit.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from jigs.artwork.detail import Detail
from jigs.artwork.drawn import Page, Task
from jigs.artwork.examine.look import examine_drawn
from jigs.artwork.ink import find_ink, has_white_ground, pixels
from jigs.artwork.on_white import OnWhite
from jigs.artwork.png_bytes import PREVIEW, png_bytes
from jigs.artwork.stray import Cleared, Stray, specks_on
from jigs.geometry import Box


@dataclass(frozen=True, slots=True)
class Seen:
    """The ink of a page: its ground, its box, and how it looks on no ground."""

    ground: str
    """`white` if a white rectangle fills the page, else `transparent`."""
    ink: Box
    preview: bytes
    detail: Detail | None


def see(page: Page, task: Task, separations: Sequence[tuple[str, str]] = ()) -> Seen | None:
    """Return the ink of a page; None if there is none.

    `task` says whether specks are ignored and whether to look closely; `separations` are the names
    and colours of the inks that the file names.
    """
    ground, ink = "transparent", find_ink(page.render, page.width, page.height)
    if ink is None:
        return None
    if has_white_ground(page.render, page.width, page.height, ink):
        cleared = OnWhite(page)
        marks = find_ink(cleared.render, page.width, page.height)
        # A page that is all white is white artwork that fills its page.
        if marks is not None:
            page, ground, ink = cleared, "white", marks
    closely = bool(task.get("closely", True))
    ignoring = bool(task.get("ignore_specks"))
    stray = specks_on(page, ink) if closely or ignoring else Stray()
    if stray.specks and ignoring:
        page = Cleared(page, stray.specks)
        ink = find_ink(page.render, page.width, page.height) or ink
    detail = None
    if closely:
        looked = examine_drawn(page.render, ink, separations)
        detail = replace(looked, specks=stray.specks, body=stray.body)
    preview = png_bytes(page.render(ink, *pixels(ink, PREVIEW)))
    return Seen(ground, ink, preview, detail)
