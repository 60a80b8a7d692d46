import math

import pytest
from hypothesis import example, given, reject
from hypothesis import strategies as st

from jigs.errors import JigsError, Place
from jigs.tables.estimate import Relation, completed, relations
from jigs.tables.library import find, names
from jigs.tables.measure import Measure, Measures, Origin
from jigs.tables.points import BELOW, MAY_BE_EQUAL, POINTS
from jigs.tables.sheet import AGES
from jigs.tables.table import read
from tests.tables.cuts import from_bare

HERE = Place("test")
#: What is never estimated: the sleeve's length follows from the one, a zip is there or not.
NEVER = ("centre_back_sleeve", "zip_width")
#: What a crew-neck tee has, in the order of tables.
TEE = list(POINTS)[: list(POINTS).index("hem_width") + 1]


def measures(age: str = "adult", **lengths: float) -> Measures:
    """Return measures with a plus-minus of 5 mm each."""
    values = {point: Measure(length, 5.0) for point, length in lengths.items()}
    return Measures("tee", "M", age, values)


def out_of_order(size: Measures) -> list[tuple[str, str]]:
    """Return the pairs of lengths that no garment can have together."""
    return [
        (a, b)
        for (a, b), gap in BELOW.items()
        if a in size and b in size
        if not (
            size.mm(a) + gap < size.mm(b) or ((a, b) in MAY_BE_EQUAL and size.mm(a) == size.mm(b))
        )
    ]


@pytest.mark.parametrize("age", AGES)
def test_chest_and_length_are_enough_for_a_whole_tee(age: str) -> None:
    """Every point of measure follows from the two that a table must give."""
    whole = completed(measures(age, half_chest=300, body_length=450), "crew-tee")
    assert list(whole.values) == TEE
    assert out_of_order(whole) == []


def test_what_is_given_stays_and_the_rest_says_it_is_estimated() -> None:
    """Origins are kept apart, and an estimate has a plus-minus of its own."""
    given_ones = measures(half_chest=500, body_length=730, neck_width=190)
    whole = completed(given_ones, "crew-tee")
    for point, measure in whole.values.items():
        if point in given_ones:
            assert measure == given_ones[point]
        else:
            assert measure.origin is Origin.ESTIMATED
            assert measure.plus_minus > 0
    assert (whole.table, whole.size, whole.age) == ("tee", "M", "adult")


def test_completing_twice_changes_nothing() -> None:
    """There is nothing left to estimate."""
    once = completed(measures(half_chest=500, body_length=730), "crew-tee")
    assert completed(once, "crew-tee") == once


def test_an_estimate_is_as_unsure_as_its_relation_and_its_inputs_together() -> None:
    """Root sum square: 3-4-12-13, by hand."""
    relation = Relation(
        "neck_width", ("adult",), (), 10.0, (("half_chest", 0.6), ("body_length", -0.8)), 12.0, "x"
    )
    values = {"half_chest": Measure(100.0, 5.0), "body_length": Measure(50.0, 5.0)}
    estimate = relation.estimate(values)
    assert estimate.mm == pytest.approx(10 + 60 - 40)
    assert estimate.plus_minus == pytest.approx(13)
    assert estimate.origin is Origin.ESTIMATED


def test_a_longer_chain_of_estimates_is_less_sure() -> None:
    """A neck width that had to be estimated makes the drop below it less sure."""
    guessed = completed(measures(half_chest=500, body_length=730), "crew-tee")
    given_neck = completed(measures(half_chest=500, body_length=730, neck_width=176), "crew-tee")
    assert guessed["front_neck_drop"].plus_minus > given_neck["front_neck_drop"].plus_minus


def test_an_estimate_is_moved_between_what_is_given_and_is_less_sure_for_it() -> None:
    """A tight armhole leaves less room for the neck: the drop stays above it."""
    free = completed(measures(half_chest=500, body_length=730), "crew-tee")
    tight = completed(measures(half_chest=500, body_length=730, armhole_depth=70), "crew-tee")
    assert tight.mm("front_neck_drop") < 70 < free.mm("front_neck_drop")
    moved = free.mm("front_neck_drop") - tight.mm("front_neck_drop")
    assert tight["front_neck_drop"].plus_minus == pytest.approx(
        free["front_neck_drop"].plus_minus + moved
    )


def test_a_cut_that_no_relation_knows_gets_only_what_holds_for_all() -> None:
    """No collar and no short sleeve is invented for it."""
    whole = completed(measures(half_chest=500, body_length=730), "unknown-cut")
    assert "hem_width" in whole
    assert not {"neck_width", "sleeve_length", "rib_width"} & set(whole.values)


def test_a_given_sleeve_opening_leads_the_bicep() -> None:
    """A sleeve is never estimated narrower at the underarm than at its hem."""
    wide = completed(measures(half_chest=500, body_length=730, sleeve_opening=240), "crew-tee")
    assert wide.mm("bicep") > 240


@pytest.mark.parametrize("age", AGES)
def test_every_relation_is_sound(age: str) -> None:
    """It names points of measure, says how sure it is and where it comes from."""
    for relation in relations(age, "crew-tee"):
        assert {relation.point, *dict(relation.slopes)} <= set(POINTS)
        assert relation.point not in dict(relation.slopes)
        assert relation.plus_minus > 0
        assert any(word in relation.source for word in ("from memory", "no source", "geometry"))


@pytest.mark.parametrize("name", names())
def test_the_packages_own_figures_lie_within_the_estimates(name: str) -> None:
    """What a full table gives is what would be estimated for it, within the plus-minus."""
    found = find(name, HERE)
    for size in found.sizes:
        whole = from_bare(size, found.cut)
        for point, measure in size.values.items():
            if point in NEVER:
                continue
            assert abs(whole.mm(point) - measure.mm) <= whole[point].plus_minus, (size.size, point)


@pytest.mark.parametrize("name", names())
def test_estimates_grade_as_steadily_as_what_is_given(name: str) -> None:
    """No point of measure of a completed table shrinks from size to size."""
    found = find(name, HERE)
    sizes = [completed(size, found.cut) for size in found.sizes]
    for point in sizes[0].values:
        row = [size.mm(point) for size in sizes]
        assert row == sorted(row), point


@given(
    st.sampled_from(AGES),
    st.floats(50, 1200),
    st.dictionaries(
        st.sampled_from([point for point in TEE if point != "half_chest"]), st.floats(0.2, 3.0)
    ),
)
@example("youth", 58.0, {"front_neck_drop": 0.5})
def test_whatever_a_valid_table_leaves_out_is_estimated_into_a_garment(
    age: str, chest: float, factors: dict[str, float]
) -> None:
    """However odd the given lengths, what is estimated beside them can be sewn."""
    usual = completed(measures(age, half_chest=chest, body_length=1.4 * chest), "crew-tee")
    rows = {"half_chest": chest, "body_length": 1.4 * chest}
    rows |= {point: factor * usual.mm(point) for point, factor in factors.items()}
    head = f'title = "t"\ncut = "crew-tee"\nage = "{age}"\nunit = "mm"\nsource = "s"\n'
    body = "\n".join(f"{point} = [{length!r}]" for point, length in rows.items())
    try:
        table = read(f'{head}sizes = ["M"]\n[measurements]\n{body}\n', "t", HERE)
    except JigsError:
        reject()
    whole = completed(table.sizes[0], table.cut)
    assert list(whole.values) == TEE
    assert out_of_order(whole) == []
    assert all(math.isfinite(m.plus_minus) and m.plus_minus > 0 for m in whole.values.values())
    assert all(m.mm >= POINTS[point].least for point, m in whole.values.items())


def test_the_bounds_of_the_lengths_are_ordered_like_the_lengths() -> None:
    """Whatever lengths are allowed on both sides of a missing one, there is room between them."""
    for (smaller, larger), gap in BELOW.items():
        room = 0 if (smaller, larger) in MAY_BE_EQUAL else 1
        assert POINTS[smaller].least + gap + room <= POINTS[larger].least
        assert POINTS[smaller].most + gap + room <= POINTS[larger].most


def test_the_shoulder_is_sewn_at_21_degrees() -> None:
    """Half the tangent of the slope is what the relation multiplies by."""
    whole = completed(measures(half_chest=500, body_length=730), "crew-tee")
    run = (whole.mm("across_shoulder") - whole.mm("neck_width")) / 2
    assert math.degrees(math.atan2(whole.mm("shoulder_drop"), run)) == pytest.approx(21, abs=0.1)
