"""Student's t distribution, and the bound of Grubbs' test that rests on it."""

import math
from functools import cache

#: Beyond so many degrees of freedom t hardly moves: 0.95 lies at 1.6464, in the end at 1.6449.
_MOST_FREEDOM = 1000
_HALVINGS = 200


def within(t: float, freedom: int) -> float:
    """Return the probability that Student's t lies from -t to t.

    The finite sums for whole degrees of freedom: Abramowitz and Stegun, Handbook of Mathematical
    Functions (1964), 26.7.3 and 26.7.4.
    """
    angle = math.atan2(t, math.sqrt(freedom))
    sine, cosine = math.sin(angle), math.cos(angle)
    odd = freedom % 2
    term, total = (cosine, 0.0) if odd else (1.0, 0.0)
    for k in range(1 + odd, freedom, 2):
        total += term
        term *= k / (k + 1) * cosine * cosine
    return 2 / math.pi * (angle + sine * total) if odd else sine * total


@cache
def quantile(probability: float, freedom: int) -> float:
    """Return the t that Student's t stays below with a probability from 0.5 to below 1.

    Above 1000 degrees of freedom it is that of 1000, which is a little more.
    """
    freedom = min(freedom, _MOST_FREEDOM)
    both = 2 * probability - 1
    low, high = 0.0, 1.0
    while within(high, freedom) < both:
        low, high = high, 2 * high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if not low < middle < high:
            break
        low, high = (middle, high) if within(middle, freedom) < both else (low, middle)
    return high


def grubbs(pieces: int, tail: float) -> float:
    """Return how many standard deviations one of some pieces may lie from their mean.

    `tail` is the risk taken for each piece and side: 0.05 / (2 n) for a two-sided test at 5 %.
    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1, Grubbs' test.
    """
    squared = quantile(1 - tail, pieces - 2) ** 2
    return (pieces - 1) / math.sqrt(pieces) * math.sqrt(squared / (pieces - 2 + squared))
