"""Every cut of the package at every age: what is estimated for it, and how that grades."""

import math
from itertools import pairwise, product

import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from jigs.errors import JigsError
from jigs.garments._parts import armhole, cap, cap_height
from jigs.geometry import Point
from jigs.tables.estimate import completed, relations
from jigs.tables.library import find, names
from jigs.tables.measure import Measure, Measures, Origin
from jigs.tables.points import POINTS
from jigs.tables.sheet import AGES
from jigs.tables.table import read
from jigs.units import INCH
from tests.tables.cuts import CHESTS, HERE, NEEDS, SLEEVED, bare, required, sizes, tables
from tests.tables.test_estimate import out_of_order

CUTS = [(cut, age) for cut, age in product(NEEDS, AGES)]
WORN = [(cut, age) for cut, age in CUTS if cut != "tote"]
CAPS = [(cut, age) for cut, age in CUTS if cut in SLEEVED]
SHIPPED_CAPS = [(name, size) for name in tables(*SLEEVED) for size in sizes(name)]


def evenly(age: str, count: int = 9) -> list[float]:
    """Return half chests of an age, evenly spaced from the smallest to the largest."""
    least, most = CHESTS[age]
    return [least + (most - least) * k / (count - 1) for k in range(count)]


@pytest.mark.parametrize(("cut", "age"), CUTS)
def test_the_two_lengths_that_a_table_must_give_are_enough(cut: str, age: str) -> None:
    """From them follows all that the cut has, and nothing else, in the order of tables."""
    for width in evenly(age):
        whole = completed(bare(cut, age, width), cut)
        assert list(whole.values) == [point for point in POINTS if point in NEEDS[cut]]
        assert out_of_order(whole) == []
        for point in whole.values.keys() - set(required(cut)):
            assert whole[point].origin is Origin.ESTIMATED


@pytest.mark.parametrize(("cut", "age"), CUTS)
def test_estimates_grow_evenly_with_the_chest(cut: str, age: str) -> None:
    """Equal steps of the chest give equal steps of all the rest: nothing jumps or is moved."""
    whole = [completed(bare(cut, age, width), cut) for width in evenly(age)]
    for point in whole[0].values:
        row = [size.mm(point) for size in whole]
        steps = [b - a for a, b in pairwise(row)]
        assert min(steps) >= 0, point
        assert max(steps) - min(steps) < 1e-6, point


@pytest.mark.parametrize("name", names())
def test_the_packages_sizes_grade_steadily(name: str) -> None:
    """No row, given or estimated, shrinks; no step is above twice the middle one and 1/8 in."""
    whole = list(sizes(name).values())
    for point in whole[0].values:
        row = [size.mm(point) for size in whole]
        steps = sorted(b - a for a, b in pairwise(row))
        assert steps[0] >= 0, point
        assert steps[-1] <= 2 * steps[len(steps) // 2] + INCH / 8, point


def missing_cap(m: Measures) -> float:
    """Return by how much a whole sleeve cap falls short of the armhole it is sewn into.

    Both as the blocks draw them: the cap as tall as it must be, up to three quarters of the sleeve.
    """
    tip, drop = m.mm("across_shoulder") / 2, m.mm("shoulder_drop")
    slope = math.atan2(drop, tip - m.mm("neck_width") / 2)
    underarm = Point(m.mm("half_chest") / 2, m.mm("armhole_depth"))
    length = armhole(Point(tip, drop), underarm, slope).length()
    height = cap_height(m.mm("bicep"), length, 0.75 * m.mm("sleeve_length"))
    assert height > 0.1 * length  # a sleeve wider than its armhole would come out flat
    return 2 * (length - cap(m.mm("bicep"), height).length())


@pytest.mark.parametrize(("cut", "age"), CAPS)
def test_an_estimated_sleeve_can_be_sewn_into_its_armhole(cut: str, age: str) -> None:
    """Its cap is as long as the armhole, to 3 mm, whatever the chest."""
    for width in evenly(age):
        assert abs(missing_cap(completed(bare(cut, age, width), cut))) < 3, width


@pytest.mark.parametrize(("name", "size"), SHIPPED_CAPS)
def test_a_sleeve_of_the_package_can_be_sewn_into_its_armhole(name: str, size: str) -> None:
    """Given or estimated, its cap is as long as the armhole, to 3 mm."""
    assert abs(missing_cap(sizes(name)[size])) < 3


@pytest.mark.parametrize(("cut", "age"), CAPS)
def test_a_sleeve_measured_from_the_centre_back_is_as_long_as_one_from_the_shoulder(
    cut: str, age: str
) -> None:
    """The way over the shoulder point, by Pythagoras, and the sleeve make the given length."""
    for width in evenly(age):
        whole = completed(bare(cut, age, width), cut)
        over = math.hypot(
            whole.mm("across_shoulder") / 2, whole.mm("shoulder_drop") - whole.mm("back_neck_drop")
        )
        given_one = Measure(over + whole.mm("sleeve_length"), 5.0)
        start = bare(cut, age, width)
        values = {**start.values, "centre_back_sleeve": given_one}
        again = completed(Measures("t", "M", age, values), cut)
        assert again["sleeve_length"].origin is Origin.ESTIMATED
        assert again.mm("sleeve_length") == pytest.approx(whole.mm("sleeve_length"), abs=3)
        assert again["centre_back_sleeve"] == given_one


def test_what_no_relation_gives_is_never_estimated() -> None:
    """Whether there is a zip, and a sleeve's other measure, only a table can say."""
    given_only = {point for cut, age in CUTS for point in (r.point for r in relations(age, cut))}
    assert POINTS.keys() - given_only == {
        "half_chest", "body_length", "bag_width", "bag_height", "zip_width", "centre_back_sleeve",
    }  # fmt: skip


@pytest.mark.parametrize(("cut", "age"), CUTS)
def test_every_relation_of_a_cut_is_sound(cut: str, age: str) -> None:
    """It names points of measure, its plus-minus and its source."""
    for relation in relations(age, cut):
        assert {relation.point, *dict(relation.slopes)} <= set(POINTS)
        assert relation.point not in dict(relation.slopes)
        assert relation.plus_minus > 0
        assert set(relation.cuts) <= NEEDS.keys()
        assert any(
            word in relation.source for word in ("from memory", "no source", "geometry", "ANSUR")
        )


def test_no_relation_is_in_vain() -> None:
    """For some cut and age each is the first that its inputs are enough for."""
    every, used = set(), set()
    for cut, age in CUTS:
        found = relations(age, cut)
        every |= set(found)
        for index, relation in enumerate(found):
            above = [one for one in found[:index] if one.point == relation.point]
            inputs = dict(relation.slopes).keys()
            if relation.point in NEEDS[cut] and not any(
                dict(one.slopes).keys() <= inputs for one in above
            ):
                used.add(relation)
    assert every == used


@given(
    st.sampled_from(CUTS),
    st.floats(0, 1),
    st.dictionaries(st.sampled_from(list(POINTS)), st.floats(0.4, 2.0), max_size=8),
)
def test_whatever_a_valid_table_gives_the_rest_fits_it(
    one: tuple[str, str], part: float, factors: dict[str, float]
) -> None:
    """However odd the given lengths of any cut, what is estimated beside them can be sewn."""
    cut, age = one
    least, most = CHESTS[age]
    usual = completed(bare(cut, age, least + part * (most - least)), cut)
    rows = {point: usual.mm(point) for point in required(cut)}
    rows |= {p: factor * usual.mm(p) for p, factor in factors.items() if p in usual}
    head = f'title = "t"\ncut = "{cut}"\nage = "{age}"\nunit = "mm"\nsource = "s"\n'
    body = "\n".join(f"{point} = [{length!r}]" for point, length in rows.items())
    try:
        table = read(f'{head}sizes = ["M"]\n[measurements]\n{body}\n', "t", HERE)
    except JigsError:
        reject()
    whole = completed(table.sizes[0], table.cut)
    assert set(whole.values) == NEEDS[cut]
    assert out_of_order(whole) == []
    assert all(math.isfinite(m.plus_minus) and m.plus_minus > 0 for m in whole.values.values())
    assert all(m.mm >= POINTS[point].least for point, m in whole.values.items())


def test_each_table_gives_only_what_its_cut_has() -> None:
    """And what is only ever given: a zip, and a sleeve from the centre back."""
    for name in names():
        found = find(name, HERE)
        for size in found.sizes:
            known = NEEDS[found.cut] | {"centre_back_sleeve", "zip_width"}
            assert size.values.keys() <= known, name


#: Lengths that together are below others by at least so much, by cut.
ROOM = [
    # The lap ends on the armhole's seam; the legs open below the chest.
    ("bodysuit", ("shoulder_drop",), ("lap_depth",), 25),
    ("bodysuit", ("armhole_depth", "leg_height"), ("body_length",), 25),
    ("bodysuit", ("crotch_width",), ("hem_width",), 50),
    # The pocket stands on the hem's rib, below the armhole and between the sides.
    ("hoodie", ("armhole_depth", "pocket_height", "hem_rib"), ("body_length",), 10),
    ("hoodie", ("pocket_width",), ("hem_width",), 20),
    ("hoodie", ("hood_width",), ("hood_height",), 50),
    # A hood reaches forward over the face, further than the neck is wide.
    ("hoodie", ("neck_width",), ("hood_width",), 20),
    ("polo", ("front_neck_drop", "placket_length"), ("body_length",), 50),
    # Two straps.
    ("tank", ("neck_width",), ("across_shoulder",), 35),
    ("tank", ("back_neck_drop",), ("front_neck_drop",), 40),
    ("tote", ("handle_spread", "handle_width"), ("bag_width",), 50),
]


@pytest.mark.parametrize(("cut", "less", "more", "least"), ROOM)
def test_parts_leave_room_for_each_other(
    cut: str, less: tuple[str, ...], more: tuple[str, ...], least: float
) -> None:
    """On every size, the package's and those estimated from two lengths, so much is left over."""
    drawn = [size for name in tables(cut) for size in sizes(name).values()]
    ages = ("infant", "toddler") if cut == "bodysuit" else AGES
    drawn += [completed(bare(cut, age, width), cut) for age in ages for width in evenly(age)]
    for size in drawn:
        left = sum(map(size.mm, more)) - sum(map(size.mm, less))
        assert left >= least, (size.table, size.size, size.mm(required(cut)[0]))
