"""How what artwork comes to at a width is said: each kind of number in one way, everywhere.

Nothing is said to be better than it is: what fails is never shown as what is asked.
"""

import math

from jigs.artwork.artwork import Artwork
from jigs.plan.held import WIDE, dense
from jigs.units import INCH, POINT, Mm, say


def tiny(length: Mm, limit: Mm = math.inf) -> str:
    """Return the width of a line or a gap for people, never said wider than it is.

    One that is many times its limit is no line any more, and how wide it is says nothing.

    >>> tiny(0.2199), tiny(0.3528), tiny(87.77, 0.3528)
    ('0.21 mm (0.62 pt)', '0.35 mm (1 pt)', 'over 3.5 mm')
    """
    if length > WIDE * limit:
        return f"over {_floor(WIDE * limit, 10)} mm"
    return f"{_floor(length, 100)} mm ({_floor(length / POINT, 100)} pt)"


def limit(length: Mm) -> str:
    """Return how wide a line or a gap must be, for people.

    >>> limit(1.5 * POINT)
    '0.53 mm (1.5 pt)'
    """
    return f"{length:.2g} mm ({length / POINT:.3g} pt)"


def hundredths(value: Mm) -> str:
    """Return millimetres for people that are never less than they are: to a hundredth."""
    return f"{math.ceil(value * 100 - 1e-6) / 100:g}"


def at_least(length: Mm, unit: str) -> str:
    """Return a length for people that is never less than it is: to 0.01 in, or 0.1 mm."""
    step = _step(unit)
    return say(math.ceil(length / step - 1e-6) * step, unit)


def at_most(length: Mm, unit: str) -> str:
    """Return a length for people that is never more than it is: to 0.01 in, or 0.1 mm."""
    step = _step(unit)
    return say(math.floor(length / step + 1e-6) * step, unit)


def ppi_text(ppi: float) -> str:
    """Return pixels per inch for people: whole ones, and as many as asked for only if they pass.

    >>> ppi_text(299.9994), ppi_text(299.6), ppi_text(150.9)
    ('300', '299', '150')
    """
    whole = math.ceil(ppi)
    return f"{whole if dense(ppi, whole) else math.floor(ppi)}"


def ratio_text(ratio: float) -> str:
    """Return a contrast for people, rounded down: 2.96 is not said to be the 3 that it misses.

    >>> ratio_text(2.96), ratio_text(21)
    ('2.9', '21.0')
    """
    return f"{math.floor(ratio * 10 + 1e-6) / 10:.1f}"


def ground_text(art: Artwork) -> str:
    """Return what the ink was told apart from: `white ground`, `no ground`."""
    return "no ground" if art.ground == "none" else f"{art.ground} ground"


def box_text(art: Artwork, unit: str) -> str:
    """Return the size of the ink box in the file, as exactly as it is asked for."""
    places, worth = (3, INCH) if unit == "in" else (1, 1.0)
    width, height = (
        f"{side / worth:.{places}f} {unit}" for side in (art.ink.width, art.ink.height)
    )
    return f"{width} × {height}"


def centre_text(art: Artwork, width: Mm, unit: str) -> str:
    """Return how far the optical centre lies from the middle of the ink box, in print.

    Of artwork that was looked at closely; to 0.01 in, or 0.1 mm.
    """
    if art.detail is None:
        return ""
    off = art.detail.centroid.minus(art.ink.centre).times(width / art.ink.width)
    places, worth = (2, INCH) if unit == "in" else (1, 1.0)
    said = [
        f"{abs(by) / worth:.{places}f} {unit} {words[by > 0]}"
        for by, words in ((off.x, ("left", "right")), (off.y, ("above", "below")))
        if round(abs(by) / worth, places)
    ]
    return ", ".join(said) or f"the same to {_step(unit) / worth:g} {unit}"


def _step(unit: str) -> Mm:
    return INCH / 100 if unit == "in" else 0.1


def _floor(value: float, parts: int) -> str:
    return f"{math.floor(value * parts + 1e-6) / parts:g}"
