"""From the garments that a shop measured to a length and its plus-minus.

The length of a size is the mean of its garments. Its plus-minus is what nine of ten *further*
garments of that size stay within, one by one, because a jig meets one garment at a time:

    t(0.95, 1 + m) x sqrt((s0^2 + Q) / (1 + m)) x sqrt(1 + 1/n)

n is the garments of the size. Cutting and sewing scatter alike in every size, so the spread is
pooled: Q is the sum of squared differences of the garments from their own size's mean, over all
sizes, and m the sum of n - 1 over all sizes. The tolerance counts as one degree of freedom more:
taken as what nine of ten garments stay within, it means a standard deviation s0 = tolerance/1.645.
That is the prediction interval of a normal distribution with a scaled inverse chi-squared prior on
its variance (Gelman et al., Bayesian Data Analysis, 3rd ed., 3.2; without the prior it is the
usual prediction interval). t allows for the standard deviation being itself estimated, and it is
made for the root of the unbiased variance, so that root is not corrected by c4 again.

- The plus-minus is at most the tolerance, or what the garments' own spread comes to if that were
  known, 1.645 x sqrt(Q / m) x sqrt(1 + 1/n), whichever is larger: two garments that happen to
  differ do not make a table worthless.
- Where no size has two garments (m = 0) nothing is known of the spread: the tolerance stays.
- It is at least a millimetre, or the tolerance if that is less: a tape is read no closer.

While garments vary alike, every further one makes the plus-minus smaller, or leaves it. Tried on
normal garments that vary as the tolerance says, it holds 87 to 89 of a hundred further ones; of
those that vary by half as much it holds more than 92, by twice as much 74 with two garments
measured, 83 with five, 88 with twenty.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist, fmean

from jigs.tables.measure import Measure, Origin
from jigs.tables.student import quantile
from jigs.units import Mm

#: Nine of ten lie within the plus-minus: one of twenty on either side does not.
_BELOW = 0.95
_NORMAL = NormalDist().inv_cdf(_BELOW)
#: Common practice, no source: cloth laid flat is measured to the millimetre or 1/16 in.
_CLOSEST: Mm = 1.0


@dataclass(frozen=True, slots=True)
class Scatter:
    """How garments of one size differ: the degrees of freedom, and the sum of squares."""

    freedom: int
    squares: float


def scatter(sizes: Mapping[int, Sequence[Mm]]) -> Scatter:
    """Return the scatter of garments around the means of their own sizes."""
    freedom = sum(len(lengths) - 1 for lengths in sizes.values())
    means = {index: fmean(lengths) for index, lengths in sizes.items()}
    squares = ((x - means[index]) ** 2 for index, lengths in sizes.items() for x in lengths)
    return Scatter(freedom, math.fsum(squares))


def plus_minus(known: Scatter, pieces: int, tolerance: Mm) -> Mm:
    """Return what nine of ten further garments of a size stay within; see the module's text."""
    if known.freedom == 0:
        return tolerance
    freedom = known.freedom + 1
    deviation = math.sqrt(((tolerance / _NORMAL) ** 2 + known.squares) / freedom)
    spread = quantile(_BELOW, freedom) * deviation * math.sqrt(1 + 1 / pieces)
    own = _NORMAL * math.sqrt(known.squares / known.freedom) * math.sqrt(1 + 1 / pieces)
    return max(min(spread, max(tolerance, own)), min(_CLOSEST, tolerance))


def exceeds(known: Scatter, tolerance: Mm) -> bool:
    """Return whether garments vary more than the tolerance means, by more than chance explains.

    The standard error of a standard deviation s of m degrees of freedom is about s / sqrt(2 m)
    (any textbook); one-sided at 5 %.
    """
    if known.freedom == 0:
        return False
    allowed = tolerance / _NORMAL * (1 + _NORMAL / math.sqrt(2 * known.freedom))
    return math.sqrt(known.squares / known.freedom) > allowed


def figures(sizes: Mapping[int, Sequence[Mm]], tolerance: Mm) -> dict[int, Measure]:
    """Return the measure of every size of which garments were measured."""
    known = scatter(sizes)
    return {
        index: Measure(
            fmean(lengths),
            plus_minus(known, len(lengths), tolerance),
            Origin.MEASURED,
            len(lengths),
        )
        for index, lengths in sizes.items()
    }
