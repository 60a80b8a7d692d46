"""How high names and numbers are set, and what fits on a garment.

A number has one height for the whole team. A name is set at that of the team too, and shrunk as a
whole on a garment it is too long for, never condensed.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from jigs.errors import Finding
from jigs.geometry import Box
from jigs.locations import Placement
from jigs.team.lettering import WEIGHTS, lettered, overshoot
from jigs.team.rules import Rule
from jigs.team.stroke import USUAL, lightest, stroke
from jigs.units import INCH, Mm, say
from jigs.widths.band import SMALLEST

#: How far above a rule's least height figures and names are set, so that no cut or stretch takes
#: them below it (common practice, no source).
SPARE: Mm = 5.0
#: Heights where neither the rule nor the order says one (common practice, no source).
_HABIT = {"back-number": 250.0, "front-number": 100.0, "back-name": 50.0}
#: A name lower than this is hard to read from the stand (common practice, no source).
_LOW: Mm = 1 * INCH
#: What rises above flat capitals by more than this share of their height is a mark, not a round
#: letter (from the font: 0.01 for O, 0.3 and more for marks).
_MARK = 0.05
#: Names are shrunk to whole millimetres, so that fewer sizes of one name are ordered.
_STEP: Mm = 1.0
_SLACK: Mm = 1e-6


@dataclass(frozen=True, slots=True)
class Setting:
    """How one kind of print is set: its weight and height for the whole team."""

    kind: str
    """`back-name`, `back-number` or `front-number`."""
    weight: str
    height: Mm
    """Of the flat figures, or of a name's flat capitals."""
    least: Mm | None
    """The rule's least height."""
    thin: Mm | None = None
    """Width of the figures' thin strokes, and of their usual ones; None for names."""
    usual: Mm | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """One text on one size of a garment."""

    height: Mm
    """Of the flat figures or capitals."""
    ink_width: Mm
    ink_height: Mm
    """With what rises above flat letters: round ones, and marks."""
    rise: Mm
    """How far a name's ink rises above flat capitals; 0 for numbers, which hang by their ink."""
    most: Mm
    """The greatest height at which it fits."""
    stops: str
    """What stops a greater one: an edge's name or `platen`."""


def number_setting(
    kind: str, rule: Rule, wanted: Mm | None, unit: str
) -> tuple[Setting, tuple[Finding, ...]]:
    """Return how numbers are set, and what a rule has against it."""
    height = _height(kind, rule, wanted)
    weight = lightest(rule, height)
    findings = list(_outside(kind, rule, height, unit))
    if weight is None:
        weight = WEIGHTS[-1]
        findings.append(_no_weight(kind, rule, height, unit))
    found = stroke(weight)
    thin, usual = found.thin * height, found.usual * height
    about = rule.stroke_about
    if about is not None and abs(usual - about) > 0.15 * about:
        says = f"their stroke is {say(usual, unit)} wide; the rule says about {say(about, unit)}"
        findings.append(Finding(blocks=False, about=_several(kind), says=says))
    return Setting(kind, weight, height, rule.least, thin, usual), tuple(findings)


def name_setting(
    rule: Rule, wanted: Mm | None, unit: str, weight: str = USUAL
) -> tuple[Setting, tuple[Finding, ...]]:
    """Return how names are set, in the weight of the numbers beside them, and what is against."""
    height = _height("back-name", rule, wanted)
    findings = tuple(_outside("back-name", rule, height, unit))
    return Setting("back-name", weight, height, rule.least), findings


def _height(kind: str, rule: Rule, wanted: Mm | None) -> Mm:
    """Return the height of a kind of print: the wanted one, else by the rule, else by habit.

    A name is as high as its rule allows; a number a little higher than its rule asks.
    """
    if wanted is not None:
        return wanted
    high = _highest(kind, rule)
    if rule.least is not None and (kind != "back-name" or rule.most is None):
        return min(rule.least + SPARE, high)
    return high if rule.most is not None else _HABIT[kind]


def _highest(kind: str, rule: Rule) -> Mm:
    """Return how high flat letters may be for round ones to keep to the rule as well.

    A rule that names one height means the flat ones.
    """
    if rule.most is None:
        return math.inf
    over = max(overshoot(weight, figures=kind != "back-name") for weight in WEIGHTS)
    return max(rule.most / over, rule.least or 0.0)


def _outside(kind: str, rule: Rule, height: Mm, unit: str) -> list[Finding]:
    """Return a finding that blocks if a height is not what a rule allows."""
    low, high = rule.least or 0.0, _highest(kind, rule)
    if low - _SLACK <= height <= high + _SLACK:
        return []
    asks = [f"at least {say(low, unit)}"] if low else []
    if math.isfinite(high):
        round_ones = f", {say(high, unit)} for flat ones since round ones are higher"
        asks.append(f"at most {say(rule.most or high, unit)}{round_ones if height > high else ''}")
    says = f"{say(height, unit)} high; the rule asks {' and '.join(asks)}"
    return [Finding(blocks=True, about=_several(kind), says=says)]


def _no_weight(kind: str, rule: Rule, height: Mm, unit: str) -> Finding:
    asks = [
        f"at {word} {say(length, unit)}"
        for word, length in (("least", rule.stroke_least), ("most", rule.stroke_most))
        if length is not None
    ]
    has = [
        f"{weight} {say(stroke(weight).thin * height, unit)} to "
        f"{say(stroke(weight).wide * height, unit)}"
        for weight in WEIGHTS
    ]
    says = (
        f"no weight of the font has the stroke the rule asks for ({' and '.join(asks)}) at "
        f"{say(height, unit)} high: {', '.join(has)}"
    )
    return Finding(blocks=True, about=_several(kind), says=says)


def _several(kind: str) -> str:
    return f"{kind.replace('-', ' ')}s"


def number_fit(text: str, setting: Setting, placement: Placement) -> Fit:
    """Return a number at the team's height, whether or not it fits."""
    most, stops = _most(text, setting, placement)
    return _fit(text, setting, setting.height, most, stops)


def name_fit(text: str, setting: Setting, placement: Placement) -> Fit:
    """Return a name at the team's height, or as much lower as it takes to fit."""
    most, stops = _most(text, setting, placement)
    height = setting.height
    if most < height:
        whole = math.floor((most + _SLACK) / _STEP) * _STEP
        # The step never takes a name below the rule's least, nor to nothing.
        low = min(setting.least or 0.0, most)
        height = max(whole, low, min(most, _STEP))
    return _fit(text, setting, height, most, stops)


def _most(text: str, setting: Setting, placement: Placement) -> tuple[Mm, str]:
    """Return the greatest height at which a text fits, and what stops a greater one.

    A name hangs by its flat capitals: below that line it is one box, its marks above are another.
    """
    box = lettered(text, setting.weight, 1.0).box
    rise = _rise(setting, box)
    hung = box.height - rise
    under = placement.room(box.width / hung)
    found = [(under.mm, under.limited_by), (placement.platen[1] * box.width / box.height, "platen")]
    if rise > 0:
        over = replace(placement, hangs=False).room(box.width / rise)
        marked = " above its marks" if rise > _MARK and over.mm < under.mm else ""
        found.append((over.mm, f"{over.limited_by}{marked}"))
    width, stops = min(found, key=lambda one: one[0])
    return width / box.width, stops


def _rise(setting: Setting, box: Box) -> Mm:
    """Return how far the ink of letters 1 high rises above flat ones, of a name."""
    return max(0.0, -box.top - 1.0) if setting.kind == "back-name" else 0.0


def rise(text: str, setting: Setting) -> Mm:
    """Return how far a name's ink rises above flat capitals at the team's height."""
    return _rise(setting, lettered(text, setting.weight, 1.0).box) * setting.height


def _fit(text: str, setting: Setting, height: Mm, most: Mm, stops: str) -> Fit:
    # Where there is no room at all the text keeps its height, for something to be shown.
    height = height if height > _SLACK else setting.height
    box = lettered(text, setting.weight, 1.0).box
    rise = _rise(setting, box)
    return Fit(height, box.width * height, box.height * height, rise * height, most, stops)


def trim_above(rises: Iterable[Mm], setting: Setting, trim: Mm, unit: str) -> Mm:
    """Return how far above the flat capitals all names are trimmed, so that one ledge is for all.

    It is the trim, counted from the highest mark if there are any, in eighths or millimetres.
    """
    highest = max(rises, default=0.0)
    if highest <= _MARK * setting.height:
        return trim
    step = INCH / 8 if unit == "in" else 1.0
    return math.ceil((highest + trim) / step - _SLACK) * step


def remarks(text: str, setting: Setting, fit: Fit, on: str, unit: str) -> list[Finding]:
    """Return what is to be said of a text on a size, `on`: letters missing, or no room."""
    about = f"{'name' if setting.kind == 'back-name' else setting.kind.replace('-', ' ')} {text}"
    found = []
    missing = lettered(text, setting.weight, fit.height).missing
    if missing:
        says = f"the font has no letter {' '.join(missing)}: a box is drawn in its place"
        found.append(Finding(blocks=True, about=about, says=says))
    no_room = _no_room(setting, fit, on, unit)
    if no_room is not None:
        found.append(Finding(blocks=True, about=about, says=no_room))
    elif setting.kind == "back-name" and fit.height < min(_LOW, setting.height) - _SLACK:
        says = f"only {say(fit.height, unit)} high on {on} (limited by the {fit.stops})"
        found.append(Finding(blocks=False, about=about, says=says))
    return found


def _no_room(setting: Setting, fit: Fit, on: str, unit: str) -> str | None:
    """Return why a text cannot go on a size; None if it can."""
    if fit.most < SMALLEST:
        return f"there is no room for it on {on}: the {fit.stops} is too close"
    least = setting.least or 0.0
    most = f"{say(fit.most, unit)} high is the most that fits on {on} (limited by the {fit.stops})"
    if fit.most < least - _SLACK:
        return f"{most}; the rule asks at least {say(least, unit)}"
    if setting.kind != "back-name" and fit.most < setting.height - _SLACK:
        return f"{most}; the team's are {say(setting.height, unit)} high: give a lower height"
    return None
