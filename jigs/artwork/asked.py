"""What a reader of artwork is asked."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Asked:
    """Which page, and how closely it is looked at."""

    page: int = 1
    """Page of a PDF or a TIFF that has several."""
    ignore_specks: bool = False
    """Whether small things away from all else are left out of the ink."""
    closely: bool = True
    """Whether inks, lines and gaps are looked for; without it, only the box of the ink."""
