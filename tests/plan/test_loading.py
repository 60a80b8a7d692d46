"""Garments of every size laid on the platen alike: on it, in its middle, found with a tape."""

from dataclasses import replace
from functools import cache
from itertools import pairwise
from math import ceil, floor

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from jigs.geometry import Box
from jigs.locations import LOCATIONS, Seen
from jigs.order.order import Press
from jigs.plan.loading import from_edge, loads
from jigs.plan.plan import Load
from jigs.plan.prints import Site
from jigs.units import INCH, Mm
from tests import shipped

#: Presses of all kinds: large, label, square, wide.
PRESSES = (
    Press(),
    Press(6 * INCH, 4 * INCH),
    Press(150.0, 150.0),
    Press(1000.0, 1000.0),
    Press(20 * INCH, 16 * INCH),
)
RIM = 0.25 * INCH


def laid(
    location: str, where: tuple[Site, ...], width: Mm, height: Mm, press: Press, unit: str = "in"
) -> tuple[Load, ...]:
    """Return how sizes with a print of one width and height are laid."""
    found = LOCATIONS.get(location)
    inks = {}
    for site in where:
        x, y = site.placement.anchor
        top = y if found.hangs else y - height
        inks[site.key] = Box(x - width / 2, top, x + width / 2, top + height)
    return loads(found, where, inks, press, unit)


def small(press: Press, share: float = 0.5) -> tuple[Mm, Mm]:
    """Return the width and height of a print that any press has room for."""
    return share * min(press.platen_width, 9 * INCH), share * min(press.platen_height, 8 * INCH)


@pytest.mark.parametrize(("location", "table"), shipped.places())
def test_figures_agree_with_the_garment_measured_again(location: str, table: str) -> None:
    """From the landmarks alone: seam at its level, ink as far from it as the drop says."""
    where, found = shipped.at(location, table), LOCATIONS.get(location)
    for press in PRESSES:
        width, height = small(press)
        for load in laid(location, where, width, height, press):
            assert load.fits
            for one in load.lying:
                (site,) = (each for each in where if each.key == one.key)
                drop = site.placement.drop
                top = load.level + drop if found.hangs else load.level - drop - height
                across = found.across(site.sized.flat)
                mirror = -1 if found.seen in {Seen.BACK, Seen.RIGHT_HOOD} else 1
                middle = load.aside + mirror * across

                assert one.ink.top == pytest.approx(top, abs=1e-6)
                assert one.ink.centre.x == pytest.approx(middle, abs=1e-6)
                assert one.ink.width == pytest.approx(width)
                assert one.ink.height == pytest.approx(height)


@pytest.mark.parametrize(("location", "table"), shipped.places())
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_ink_is_on_the_platen_and_every_size_is_laid_once(
    location: str, table: str, unit: str
) -> None:
    """Off the rim that the widths keep off too; no size is lost and none is there twice."""
    where = shipped.at(location, table)
    for press in PRESSES:
        width, height = small(press)
        made = laid(location, where, width, height, press, unit)
        platen = box(
            RIM - press.platen_width / 2, RIM, press.platen_width / 2 - RIM,
            press.platen_height - RIM,
        )  # fmt: skip

        assert sorted(one.key for load in made for one in load.lying) == sorted(
            site.key for site in where
        )
        for load in made:
            for one in load.lying:
                ink = box(one.ink.left, one.ink.top, one.ink.right, one.ink.bottom)
                assert platen.buffer(1e-5).contains(ink)


@pytest.mark.parametrize(("location", "table"), shipped.places())
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_seam_is_where_a_tape_finds_it_and_the_ink_is_most_in_the_middle(
    location: str, table: str, unit: str
) -> None:
    """No other quarter inch, or 5 mm, from the same edge has all ink nearer to the middle."""
    where = shipped.at(location, table)
    press, step = Press(), INCH / 4 if unit == "in" else 5.0
    width, height = small(press)
    (load,) = laid(location, where, width, height, press, unit)
    distance = from_edge(load, press)
    box_of_all = Box.of_all(one.ink for one in load.lying)

    def off(shift: Mm) -> Mm:
        return abs(box_of_all.centre.y + shift - press.platen_height / 2)

    assert distance / step == pytest.approx(round(distance / step), abs=1e-6)
    assert all(off(0.0) <= off(k * step) + 1e-6 for k in range(-5, 6))
    assert load.edge == ("top" if LOCATIONS.get(location).hangs else "bottom")


@pytest.mark.parametrize(("location", "table"), shipped.places())
def test_on_a_usual_platen_the_centre_lines_lie_on_each_other(location: str, table: str) -> None:
    """But a hood's, which has no centre line: its print is in the middle."""
    press = Press()
    (load,) = laid(location, shipped.at(location, table), 2 * INCH, 2 * INCH, press)
    if "hood" in location:
        middle = Box.of_all(one.ink for one in load.lying).centre.x

        assert abs(middle) <= INCH / 8 + 1e-6
    else:
        assert load.aside == 0.0


def test_a_chest_print_is_laid_aside_on_a_small_platen() -> None:
    """By whole quarter inches, its middle in the platen's, the left one left of it."""
    press = Press(6 * INCH, 6 * INCH)
    left, right = (
        laid(name, shipped.at(name, "adult-crew-tee"), 3 * INCH, 3 * INCH, press)[0]
        for name in ("left-chest", "right-chest")
    )

    assert left.aside == -right.aside < 0
    assert left.aside / (INCH / 4) == pytest.approx(round(left.aside / (INCH / 4)))
    assert abs(Box.of_all(one.ink for one in left.lying).centre.x) <= INCH / 8 + 1e-6


def test_a_finer_step_is_taken_only_where_the_ink_asks_for_it() -> None:
    """Ink as high as the platen takes leaves one place; a hair less a sixteenth of an inch."""
    press, where = Press(), shipped.at("full-front", "adult-crew-tee")[:1]
    most = press.platen_height - 2 * RIM
    (tight,) = laid("full-front", where, 200.0, most, press)
    (eighth,) = laid("full-front", where, 200.0, most - INCH / 8, press)

    assert tight.fits
    assert tight.lying[0].ink.top == pytest.approx(RIM, abs=1e-6)
    distance = from_edge(eighth, press) / (INCH / 16)
    assert eighth.fits
    assert distance == pytest.approx(round(distance))


def test_what_is_too_large_for_the_platen_says_so() -> None:
    """It is laid in the middle all the same, as one load: the width is a finding of its own."""
    press, where = Press(), shipped.at("full-front", "adult-crew-tee")
    (load,) = laid("full-front", where, 300.0, 600.0, press)

    assert not load.fits
    assert abs(load.lying[0].ink.centre.y - press.platen_height / 2) < INCH


@cache
def site() -> Site:
    """Return a front of which only the key matters."""
    return shipped.at("full-front", "adult-crew-tee")[0]


def fewest(spans: list[tuple[int, int]], room: float) -> int:
    """Return the fewest groups of spans that are no longer than a room, by trying them all."""
    best = len(spans)

    def place(k: int, groups: list[tuple[int, int]]) -> None:
        nonlocal best
        if len(groups) >= best and k < len(spans):
            return
        if k == len(spans):
            best = min(best, len(groups))
            return
        for n, (top, bottom) in enumerate(groups):
            joined = min(top, spans[k][0]), max(bottom, spans[k][1])
            if joined[1] - joined[0] <= room:
                place(k + 1, [*groups[:n], joined, *groups[n + 1 :]])
        place(k + 1, [*groups, spans[k]])

    place(0, [])
    return best


@given(st.lists(st.tuples(st.integers(0, 400), st.integers(1, 200)), min_size=1, max_size=7))
def test_loads_are_the_fewest(spans: list[tuple[int, int]]) -> None:
    """Against all ways to group sizes; each group lies on the platen, alike in its seam."""
    press = Press(400.0, 220.0 + 2 * RIM)
    size = site().sized
    y = size.flat.landmarks["front collar"].y
    where = [
        replace(site(), sized=replace(size, plan=replace(size.plan, key=f"t/{k}")))
        for k in range(len(spans))
    ]
    inks = {f"t/{k}": Box(-50, y + a, 50, y + a + long) for k, (a, long) in enumerate(spans)}
    made = loads(LOCATIONS.get("full-front"), where, inks, press, "mm")

    assert len(made) == fewest([(a, a + long) for a, long in spans], 220.0)
    assert all(load.fits for load in made)
    for load in made:
        for one in load.lying:
            assert one.ink.top - load.level == pytest.approx(spans[int(one.key[2:])][0])
    order = [int(load.lying[0].key[2:]) for load in made]
    assert order == sorted(order)
    assert all(a.key < b.key for load in made for a, b in pairwise(load.lying))


@given(st.floats(-500, 500), st.floats(10, 180), st.sampled_from(["in", "mm"]))
def test_wherever_ink_hangs_it_comes_to_lie_on_the_platen(
    drop: float, long: float, unit: str
) -> None:
    """And no farther from the platen's middle than half a step, unless the rim is in the way."""
    press = Press(400.0, 200.0)
    y = site().sized.flat.landmarks["front collar"].y
    ink = Box(-50.0, y + drop, 50.0, y + drop + long)
    (load,) = loads(LOCATIONS.get("full-front"), [site()], {site().key: ink}, press, unit)
    step = INCH / 4 if unit == "in" else 5.0

    assert load.fits
    assert abs(load.lying[0].ink.centre.y - 100.0) <= step / 2 + 1e-6
    steps = load.level / (INCH / 16 if unit == "in" else 1.0)
    slack = 100.0 - RIM - long / 2
    assert min(steps - floor(steps), ceil(steps) - steps) < 1e-6 or slack < INCH / 32 + 1e-6


@pytest.mark.parametrize(
    ("location", "table", "there"),
    [
        ("full-front", "adult-polo", {"placket", "collar seam"}),
        ("full-front", "adult-zip-hoodie", {"zip", "collar seam"}),
        ("full-front", "adult-hoodie", {"pocket", "collar seam"}),
        ("left-sleeve", "adult-crew-sweatshirt", {"cuff", "sleeve hem"}),
        ("tote-centre", "tote-bag", {"handle", "top edge"}),
        ("full-back", "adult-hoodie", {"hood at rest"}),
    ],
)
def test_what_is_thick_under_the_press_is_named(location: str, table: str, there: set[str]) -> None:
    """What the garment has there is among it."""
    (load,) = laid(location, shipped.at(location, table), 6 * INCH, 4 * INCH, Press())

    assert there <= set.union(*(set(one.thick) for one in load.lying))


@pytest.mark.parametrize(("location", "table"), shipped.places())
def test_what_is_named_as_thick_does_lie_on_the_platen(location: str, table: str) -> None:
    """The panel moved again, and laid on the platen by another library: none left out."""
    where, found, press = shipped.at(location, table), LOCATIONS.get(location), Press(300.0, 200.0)
    for load in laid(location, where, 50.0, 40.0, press):
        for one in load.lying:
            (flat,) = (each.sized.flat for each in where if each.key == one.key)
            panel = flat.panels[found.panel]
            down = load.level - flat.landmarks[found.datum].y
            mirror = -1 if found.seen.mirrors else 1
            platen = box(-150.0, 0.0, 150.0, 200.0)
            sure, may = set(), set()
            for line in (*panel.edges, *panel.features):
                points = [(mirror * p.x + load.aside, p.y + down) for p in line.path.points()]
                shape = Polygon(points) if line.path.closed else LineString(points)
                if shape.intersects(platen.buffer(-1.0)):
                    sure.add(line.name)
                if shape.envelope.intersects(platen):
                    may.add(line.name)
            below = {"underarm seam", "cuff side"} if found.panel == "sleeve" else set[str]()

            assert sure - below <= set(one.thick) <= may - below
