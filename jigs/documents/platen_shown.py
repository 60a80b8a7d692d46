"""What a platen map shows of one load: garments' seams, ink and cloth, where they lie on it.

Everything is in the platen's own place, as the operator sees it: x to the right from its middle,
y down from its top edge, millimetres at 1:1.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from jigs.garments import GARMENTS, Flat
from jigs.garments._parts import both_sides
from jigs.geometry import Affine, Box, Line, Path, Point
from jigs.locations import Location, Seen
from jigs.order.order import Press
from jigs.plan import Load, Plan, TableFacts
from jigs.plan.loading import on_platen
from jigs.plan.sizes import sizes_text

#: What a garment is laid by across, by what the operator looks at.
_MIDDLES = {
    Seen.LEFT_SLEEVE: "sleeve's fold",
    Seen.RIGHT_SLEEVE: "sleeve's fold",
    Seen.LEFT_HOOD: "edge of the hood's opening",
    Seen.RIGHT_HOOD: "edge of the hood's opening",
    Seen.BAG: "bag's middle",
}
_SLEEVES = frozenset({Seen.LEFT_SLEEVE, Seen.RIGHT_SLEEVE})
_HOODS = frozenset({Seen.LEFT_HOOD, Seen.RIGHT_HOOD})


@dataclass(frozen=True, slots=True)
class Ink:
    """Sizes whose ink lies alike: a letter to find them by, the sizes, the box."""

    letter: str
    keys: tuple[str, ...]
    sizes: str
    box: Box


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam that one size, or all of them, are laid by."""

    says: str
    path: Path


@dataclass(frozen=True, slots=True)
class Shown:
    """One load of one print as it is drawn."""

    title: str
    name: str
    """Of its files."""
    location: Location
    load: Load
    count: tuple[int, int]
    """Which of how many loads."""
    press: Press
    unit: str
    inks: tuple[Ink, ...]
    seams: tuple[Seam, ...]
    cloth: tuple[Path, ...]
    """The panel of the middle size, and what lies on it."""

    @property
    def platen(self) -> Box:
        """The platen."""
        half = self.press.platen_width / 2
        return Box(-half, 0.0, half, self.press.platen_height)

    @property
    def middle(self) -> str:
        """What of the garment is laid by across: `garment's centre line`, `sleeve's fold`."""
        return _MIDDLES.get(self.location.seen, "garment's centre line")

    @property
    def top(self) -> str:
        """Which way the top of the map points on the garment."""
        seen = self.location.seen
        if seen in _SLEEVES:
            return "towards the shoulder"
        part = "hood" if seen in _HOODS else "bag" if seen is Seen.BAG else "garment"
        return f"top of the {part}"

    @property
    def side(self) -> str:
        """What lies up: `front`, `left sleeve`."""
        return "printed side" if self.location.seen is Seen.BAG else self.location.seen.value

    @property
    def curved(self) -> bool:
        """Whether a seam is a collar's, not straight."""
        return any(len(one.path.segments) > 1 for one in self.seams)


def flats(plan: Plan) -> dict[str, Flat]:
    """Return every size of an order drawn."""
    return {one.key: GARMENTS.get(one.cut).draw(one.measures) for one in plan.sizes}


def shown(
    plan: Plan,
    drawn: Mapping[str, Flat],
    title: str,
    name: str,
    location: Location,
    loads: Sequence[Load],
) -> Iterator[Shown]:
    """Yield each load of a print as it is drawn; `drawn` has the sizes of the plan."""
    for k, load in enumerate(loads):
        keys = [one.key for one in load.lying]
        yield Shown(
            title=title,
            name=name,
            location=location,
            load=load,
            count=(k + 1, len(loads)),
            press=plan.shop.press,
            unit=plan.units,
            inks=tuple(_inks(load, plan.tables)),
            seams=tuple(_seams(location, load, {key: drawn[key] for key in keys}, plan.tables)),
            cloth=tuple(_cloth(location, load, drawn[keys[(len(keys) - 1) // 2]])),
        )


def _inks(load: Load, tables: Sequence[TableFacts]) -> Iterator[Ink]:
    found: dict[tuple[float, ...], list[str]] = {}
    boxes: dict[tuple[float, ...], Box] = {}
    for one in load.lying:
        ink = one.ink
        # Alike is what no tape tells apart.
        alike = tuple(round(side, 2) for side in (ink.left, ink.top, ink.right, ink.bottom))
        found.setdefault(alike, []).append(one.key)
        boxes.setdefault(alike, ink)
    for k, (alike, keys) in enumerate(found.items()):
        yield Ink(letter(k), tuple(keys), sizes_text(keys, tables), boxes[alike])


def letter(k: int) -> str:
    """Return the name of the kth of some things.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    return (letter(k // 26 - 1) if k >= 26 else "") + chr(ord("A") + k % 26)


def _seams(
    location: Location, load: Load, sizes: Mapping[str, Flat], tables: Sequence[TableFacts]
) -> Iterator[Seam]:
    """Yield the seam of each size, a collar's as its own curve; straight ones, all level, once."""
    straight: list[Path] = []
    alike: dict[Path, list[str]] = {}
    for key, flat in sizes.items():
        half = flat.seams[location.seat].half
        lies = on_platen(location, flat, load.aside, load.level)
        if half is None:
            straight.append(_level(location, flat).moved(lies))
        else:
            alike.setdefault(both_sides(Path((half,))).moved(lies), []).append(key)
    for path, keys in alike.items():
        yield Seam(sizes_text(keys, tables), path)
    if straight:
        yield Seam(load.seam, max(straight, key=lambda path: path.length()))


def _level(location: Location, flat: Flat) -> Path:
    """Return a straight seam from side to side of its panel; a sleeve's as it lies folded."""
    panel, seam = flat.panels[location.panel], flat.seams[location.seat]
    y = flat.landmarks[location.datum].y
    lines = [one.path for one in (*panel.edges, *panel.features) if one.name in seam.edges]
    ends = [point.x for path in lines for point in path.points() if abs(point.y - y) < 1e-6]
    share = 0.5 if location.seen in _SLEEVES else 1.0
    return Path((Line(Point(share * min(ends), y), Point(share * max(ends), y)),))


def _cloth(location: Location, load: Load, flat: Flat) -> Iterator[Path]:
    """Yield what a garment looks like under the map; a sleeve folded in half, by eye."""
    names = ("front", "pocket") if location.panel == "pocket" else (location.panel,)
    lies = on_platen(location, flat, load.aside, load.level)
    if location.seen in _SLEEVES:
        lies = Affine.scale(0.5, 1.0).then(lies)
    for name in names:
        panel = flat.panels[name]
        yield panel.outline.moved(lies)
        if location.seen is not Seen.INSIDE_BACK:
            yield from (one.path.moved(lies) for one in panel.features if one.path.closed)
