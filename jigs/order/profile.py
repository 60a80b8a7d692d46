"""How true a printer prints: measured on a calibration page, kept as a small file, a profile.

kind = "printer-profile"
paper = "letter"
x = 1.002110                    what to draw larger by, across the sheet fed upright
y = 0.999231                    and down it
"""

import math
from dataclasses import dataclass

from jigs.errors import BadInput, Finding, Place, raise_all
from jigs.order.fields import Fields
from jigs.order.order import Paper, Printer
from jigs.order.papers import papers
from jigs.order.toml_text import parsed
from jigs.units import Mm, say

_KIND = "printer-profile"
#: A printer that is further off scales the page; no factor is a cure for that.
MOST_OFF = 0.03
#: Beside the unprintable edge, for the end ticks' own width and a sheet fed askew.
_BESIDE: Mm = 2.0
#: The longest rule that a workshop has.
_LONGEST: Mm = 1000.0


@dataclass(frozen=True, slots=True)
class Profile:
    """The factors of a printer, and the paper they were measured on."""

    paper: str
    printer: Printer

    def remarks(self, name: str, paper: Paper) -> tuple[Finding, ...]:
        """Return a remark if it was measured on another paper than is printed on."""
        if self.paper == paper.name:
            return ()
        says = f"measured on {self.paper}, and the jigs are printed on {paper.name}: measure that "
        says += "too, for a printer need not feed all papers alike"
        return (Finding(blocks=False, about=name, says=says),)


def lines_on(paper: Paper) -> tuple[Mm, Mm]:
    """Return how long the lines of a paper's calibration page are, across and down.

    They are as long as the page allows in whole 10 mm.
    """
    across, down = (
        10.0 * math.floor(min(side - 2 * (paper.margin + _BESIDE), _LONGEST) / 10)
        for side in (paper.width, paper.height)
    )
    return across, down


def measured(paper: Paper, across: Mm, down: Mm, places: tuple[Place, Place]) -> Profile:
    """Return the profile that the measured lengths of a calibration page's lines give.

    Raises:
        BadInput: a length is not plausible; each of them is named.
    """
    problems: list[BadInput] = []
    factors = []
    for place, drawn, found in zip(places, lines_on(paper), (across, down), strict=True):
        if abs(found / drawn - 1) > MOST_OFF:
            least, most = say((1 - MOST_OFF) * drawn, "mm"), say((1 + MOST_OFF) * drawn, "mm")
            said = f"found {say(found, 'mm')} for the line of {say(drawn, 'mm')} on {paper.name}"
            allowed = f"allowed: {least} to {most}; print at 100 %, never 'fit to page'"
            problems.append(BadInput(place, said, allowed))
        factors.append(round(drawn / found, 6) if found else 1.0)
    raise_all(problems)
    return Profile(paper.name, Printer(*factors))


def text_of(profile: Profile, file: str) -> str:
    """Return a profile as the text of a file, with what it is and how an order names it."""
    return f"""\
# How true a printer prints, measured on a calibration page: written by "jigs calibrate".
# An order in the same folder uses it with
#     [printer]
#     profile = "{file}"
# Measure again with another printer, driver or paper.

kind = "{_KIND}"
paper = "{profile.paper}"
x = {profile.printer.x:.6f}  # drawn larger by this across the sheet, fed upright
y = {profile.printer.y:.6f}  # and by this down it
"""


def read(text: str, place: Place) -> Profile:
    """Return the profile that a file's text says.

    Raises:
        BadInput: it is no profile, or one thing is wrong with it.
        BadInputs: several things are wrong; all are named, each with its key.
    """
    values = parsed(text, place, "a profile")
    if values.get("kind") != _KIND:
        allowed = "name a file that 'jigs calibrate --save' wrote"
        raise BadInput(place.at("kind"), "this is no printer profile", allowed)
    problems: list[BadInput] = []
    fields = Fields(place, values, problems)
    fields.known_keys("kind", "paper", "x", "y")
    paper = fields.choice("paper", "paper", papers())
    factors = []
    for key in ("x", "y"):
        if key not in values:
            fields.note(key, "missing", "write a number such as 1.004, or calibrate again")
        most = round(1 / (1 - MOST_OFF), 3)
        factors.append(fields.factor(key, 1.0, 1 - MOST_OFF, most))
    raise_all(problems)
    return Profile(paper, Printer(*factors))


def is_profile(data: bytes) -> bool:
    """Return whether a file's bytes are a profile, so that a new one may take its place."""
    try:
        return parsed(data.decode(), Place(""), "a profile").get("kind") == _KIND
    except (UnicodeDecodeError, BadInput):
        return False
