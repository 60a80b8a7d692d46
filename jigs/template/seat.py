"""How a jig made for one size seats on another, and where it puts the print there."""

from dataclasses import dataclass, replace
from functools import cache
from itertools import product

from jigs.garments._block import Seam
from jigs.geometry import Affine, Cubic, Point
from jigs.geometry.contact import rest
from jigs.geometry.point import distance
from jigs.units import INCH, Mm

#: A jig's edge is cut away round the point of a V neck, this far from it: an inner corner cracks.
RELIEF: Mm = 1.5
#: A gap a hand pushing the jig up does not feel (common practice, no source).
FEEL: Mm = 0.25


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far a print may be from its place (common practice, no source)."""

    height: Mm = 0.125 * INCH
    side: Mm = 0.25 * INCH
    tilt: float = 1.0
    """Degrees."""


@dataclass(frozen=True, slots=True)
class Stand:
    """What a jig finds on one size: the seam it seats on and the place wanted for the print."""

    key: str
    """`table/size`."""
    seam: Seam
    drop: Mm
    """Wanted distance from the seam at the centre to the print."""
    across: Mm
    """Wanted x of the print's middle, to the wearer's left."""
    hangs: bool = True
    """Whether the drop runs down from the seam."""
    garment: str = ""
    """What the garment is called: `hooded sweatshirt`."""

    @property
    def half_width(self) -> Mm:
        """Half the width of the seam; 0 for a straight edge."""
        return self.seam.half.b.x if self.seam.half else 0.0


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a jig puts the print on one size, against where it is wanted."""

    key: str
    height: Mm
    """Error in height; positive when the print comes out lower than wanted."""
    lowest: Mm
    highest: Mm
    """The greatest and least `height` over the plus-minus of the collar."""
    side: Mm
    """Error across the garment; positive towards the wearer's left."""
    tilt: float
    """Degrees the jig can turn, its centre mark held on the centre line."""
    play: Mm
    """How far the jig can slide to one side before a hand feels it; 0 where a mark holds it."""
    most_tilt: float = 0.0
    """The greatest `tilt` over the plus-minus of the collar."""
    most_play: Mm = 0.0
    """Likewise of `play`."""

    @property
    def worst(self) -> Mm:
        """The error in height farthest from none over the plus-minus, with its sign."""
        return max(self.lowest, self.highest, key=abs)

    def within(self, tolerance: Tolerance) -> bool:
        """Return whether the print of the size as drawn is within the tolerance."""
        return (
            abs(self.height) <= tolerance.height
            and abs(self.side) <= tolerance.side
            and self.tilt <= tolerance.tilt
        )


def seat(jig: Stand, on: Stand, engaged: Mm) -> Seat:
    """Return how a jig made for one size seats on another, both as drawn.

    On a collar it rests where it first touches: with t the greatest seam(x) − edge(x) over the
    engaged |x|, the print is t + edge(0) − seam(0) too low, and the difference of the wanted
    drops lower still. On a straight edge only that difference is left.

    Raises:
        ValueError: one of the two has a collar and the other has not.
    """
    side = jig.across - on.across
    if jig.seam.half is None or on.seam.half is None:
        if jig.seam.half is not on.seam.half:
            raise ValueError(f"{jig.key} and {on.key} do not seat on the same kind of edge")
        # Where the drop runs up from a hem a longer one puts the print higher.
        height = jig.drop - on.drop if on.hangs else on.drop - jig.drop
        return Seat(on.key, height, height, height, side, 0.0, 0.0)
    height, tilt, play = _on_collar(jig.seam.half, on.seam.half, engaged)
    height += jig.drop - on.drop
    return Seat(on.key, height, height, height, side, tilt, play, tilt, play)


def with_spread(found: Seat, jig: Stand, on: Stand, engaged: Mm) -> Seat:
    """Return the seat with its errors over the plus-minus of the collar, width and depth.

    They are greatest at the ends of both (tests compare with all between).
    """
    if jig.seam.half is None or on.seam.half is None:
        return found
    heights, tilts, plays = [found.height], [found.tilt], [found.play]
    for wider, deeper in product((-1, 1), (-1, 1)):
        collar = _stretched(on.seam, on.seam.half, wider, deeper)
        height, tilt, play = _on_collar(jig.seam.half, collar, engaged)
        heights.append(height + jig.drop - on.drop)
        tilts.append(tilt)
        plays.append(play)
    return replace(
        found,
        lowest=max(heights),
        highest=min(heights),
        most_tilt=max(tilts),
        most_play=max(plays),
    )


@cache
def _on_collar(edge: Cubic, seam: Cubic, engaged: Mm) -> tuple[Mm, float, Mm]:
    contact = rest(edge, seam, min(engaged, edge.b.x, seam.b.x), FEEL, relief(edge).x)
    return contact.shift + edge.a.y - seam.a.y, contact.tilt, contact.play


@cache
def relief(half: Cubic) -> Point:
    """Return where an edge begins beside the centre: at its middle, or clear of a V's point."""
    if abs(half.tangent(0).y) < 1e-9:
        return half.a
    low, high = 0.0, 1.0
    while high - low > 1e-12:
        middle = (low + high) / 2
        if distance(half.at(middle), half.a) < RELIEF:
            low = middle
        else:
            high = middle
    return half.at(high)


def _stretched(seam: Seam, half: Cubic, wider: int, deeper: int) -> Cubic:
    """Return the collar at an end of its plus-minus in width and depth."""
    x = 1 + wider * seam.width / half.b.x
    y = 1 + deeper * seam.drop / half.a.y
    # The HPS stays at y = 0: depth is measured from it.
    return half.moved(Affine.scale(x, y))
