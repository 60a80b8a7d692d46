"""How wide the strokes of the font's figures are, and the weight that a rule asks for.

A stroke is measured as a brush would be: the disc that can be moved inside the figure so that it
paints nine tenths of it is as wide as its thin strokes (the corners, and the wedges where two
strokes part, take up the last tenth); the disc that paints half of it is as wide as its usual
stroke. That is the opening of mathematical morphology, and the figure's granulometry.
"""

from dataclasses import dataclass
from functools import cache

from jigs.geometry.region import painted
from jigs.team.lettering import FIGURES, WEIGHTS, figure
from jigs.team.rules import Rule
from jigs.units import Mm

#: The weight where no rule speaks of a stroke.
USUAL = "Bold"
_THIN, _HALF = 0.9, 0.5
#: Strokes are found to within this share of the figures' height.
_EXACT = 1e-4


@dataclass(frozen=True, slots=True)
class Stroke:
    """Widths of a weight's strokes, as shares of the flat figures' height."""

    thin: float
    """Thin strokes of the figure that has the thinnest."""
    usual: float
    """Usual stroke, the mean of the ten figures."""
    wide: float
    """Usual stroke of the figure that has the widest."""


@cache
def stroke(weight: str) -> Stroke:
    """Return the strokes of a weight's ten figures."""
    thin = [_brush(letter, weight, _THIN) for letter in FIGURES]
    usual = [_brush(letter, weight, _HALF) for letter in FIGURES]
    return Stroke(min(thin), sum(usual) / len(usual), max(usual))


def _brush(letter: str, weight: str, share: float) -> float:
    """Return the width of the widest disc that paints a share of a figure."""
    low, high = 0.0, 1.0
    while high - low > _EXACT:
        middle = (low + high) / 2
        if painted(figure(letter, weight), middle) >= share:
            low = middle
        else:
            high = middle
    return low


def suits(rule: Rule, weight: str, height: Mm) -> bool:
    """Return whether figures of a weight and height have the stroke that a rule asks for."""
    found = stroke(weight)
    thin_enough = rule.stroke_most is None or found.wide * height <= rule.stroke_most
    wide_enough = rule.stroke_least is None or found.thin * height >= rule.stroke_least
    return thin_enough and wide_enough


def lightest(rule: Rule, height: Mm) -> str | None:
    """Return the lightest weight whose figures, at a height, have the stroke a rule asks for.

    Where a rule says about how wide the stroke is it is the nearest weight, and where it says
    nothing the usual one. None if no weight will do.
    """
    about = rule.stroke_about
    if about is not None:
        return min(WEIGHTS, key=lambda weight: abs(stroke(weight).usual * height - about))
    if rule.stroke_least is None and rule.stroke_most is None:
        return USUAL
    return next((weight for weight in WEIGHTS if suits(rule, weight, height)), None)
