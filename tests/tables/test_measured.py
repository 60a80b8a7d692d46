"""What the shop measured, in a table's file: how it is read, and what it changes."""

import pytest

from jigs.errors import Place
from jigs.tables.estimate import completed
from jigs.tables.library import find, names
from jigs.tables.measure import Measure, Origin
from jigs.tables.rules import HALF_CHESTS
from jigs.units import INCH
from tests.reference.rows import rows
from tests.tables.examples import GOOD, problems, table

MEASURED = """
[measured.neck_width]
M = ["17.6 cm", 7, "6 7/8", "17.7 cm"]
[measured.front_neck_drop]
XXL = ["4 1/4"]
"""


def with_(entry: str, text: str = GOOD) -> str:
    """Return the good table with a measured entry."""
    return f"{text}[measured]\n{entry}\n"


def test_a_measured_length_comes_before_the_suppliers() -> None:
    """Its mean, its own plus-minus, its garments; other sizes stay as they were given."""
    before, after = table().sizes, table(GOOD + MEASURED).sizes
    lengths = [176, 7 * INCH, 6.875 * INCH, 177]
    neck = after[1]["neck_width"]
    assert neck.mm == pytest.approx(sum(lengths) / 4)
    assert (neck.origin, neck.pieces) == (Origin.MEASURED, 4)
    assert 0 < neck.plus_minus < before[1]["neck_width"].plus_minus
    assert after[0] == before[0]
    assert after[1]["half_chest"] == before[1]["half_chest"]


def test_a_measured_length_replaces_an_estimate() -> None:
    """Where the row gives nothing at all; the sizes that were not measured are estimated on."""
    sizes = [completed(one, "crew-tee") for one in table(GOOD + MEASURED).sizes]
    assert [one["front_neck_drop"].origin for one in sizes] == [
        Origin.ESTIMATED, Origin.ESTIMATED, Origin.ESTIMATED, Origin.MEASURED,
    ]  # fmt: skip
    assert sizes[3]["front_neck_drop"] == Measure(
        4.25 * INCH, 0.25 * INCH, Origin.MEASURED, 1
    )  # one garment says nothing of the spread: the usual tolerance stays


def test_sizes_with_odd_names_are_quoted() -> None:
    """As TOML wants it; spelling does not matter."""
    text = GOOD.replace('"2XL"', '"5T/6T"')
    sizes = table(with_('half_chest = { "5t/6t" = [24.25], M = [20] }', text)).sizes
    assert sizes[3].mm("half_chest") == pytest.approx(24.25 * INCH)


BAD = [
    ("wrist = { M = [1] }", "measured.wrist", "unknown point of measure"),
    ("neck_width = { Q = [7] }", "measured.neck_width.Q", "unknown size 'Q'"),
    ("neck_width = { XXL = [7], 2XL = [7] }", "measured.neck_width.2XL", "write each size once"),
    ("neck_width = [7]", "measured.neck_width", "headed [measured.neck_width]"),
    ("neck_width = { M = 7 }", "measured.neck_width.M", "a list of at least one length"),
    ("neck_width = { M = [] }", "measured.neck_width.M", "a list of at least one length"),
    ("neck_width = { M = [7, nan] }", "measured.neck_width.M[2]", "found nan"),
    ('neck_width = { M = [7, "7 lb"] }', "measured.neck_width.M[2]", "unknown unit 'lb'"),
    ("neck_width = { M = [7, -7] }", "measured.neck_width.M[2]", "found -7 (in)"),
    ("neck_width = { M = [true] }", "measured.neck_width.M[1]", "found True"),
    ("neck_width = { M = [175] }", "measured.neck_width.M[1]", "found 175 (in)"),
    # what the resulting lengths must be to each other
    ("half_chest = { M = [22.5] }", "measured.half_chest.M", "grows from size to size"),
    ("half_chest = { M = [17.5] }", "measured.half_chest.M", "after size S with 18 in"),
    ("half_chest = { L = [25], 2XL = [25] }", "measured.half_chest.2XL", "grows"),
    ("body_length = { L = [28] }", "measured.body_length.L", "does not shrink"),
    ("neck_width = { S = [18.5] }", "measured.neck_width.S", "smaller than half_chest"),
    ("hem_width = { S = [6] }", "measured.hem_width.S", "with neck_width 6 3/4 in"),
    ("front_neck_drop = { S = [0.5] }", "measured.front_neck_drop.S", "back_neck_drop 3/4 in"),
    ("back_neck_drop = { S = [0.1, 2.4] }", "measured.back_neck_drop.S", "look for a slip"),
]


@pytest.mark.parametrize(("entry", "key", "says"), BAD)
def test_each_mistake_is_reported_where_it_stands(entry: str, key: str, says: str) -> None:
    """The measured entry is named, also where it is at odds with a length that was given."""
    found = problems(with_(entry))
    assert says in found[key]


def test_what_is_no_table_is_reported() -> None:
    """`measured` must be a TOML table."""
    assert "[measured]" in problems(f"measured = 3\n{GOOD}")["measured"]


def warned(entry: str, text: str = GOOD) -> dict[str, str]:
    """Return what looks strange about a measured entry: where, and what."""
    return {one.about: one.says for one in table(with_(entry, text)).warnings}


def test_a_size_that_is_not_what_the_table_says_is_named() -> None:
    """Beyond the tolerance, and it looks like the next size."""
    found = warned("body_length = { M = [28.2, 28.3] }", GOOD.replace("18, 20", "19, 20"))
    says = found["tee.toml: measured.body_length.M"]
    assert "2 garments measure body_length 28 1/4 in" in says
    assert "the table gives 29 in ± 1/2 in for size M" in says
    assert says.endswith("it looks like size S")
    assert warned("body_length = { M = [28.7, 29.2] }") == {}


def test_one_garment_among_few_is_named() -> None:
    """It is a large among mediums; the others are as the table says."""
    found = warned("half_chest = { M = [20, 20.1, 22.1] }")
    assert found["tee.toml: measured.half_chest.M[3]"].endswith(
        "it looks like size L; if the garment is wrong, delete its length there"
    )
    assert not any(about.endswith(("M[1]", "M[2]")) for about in found)


def test_of_two_garments_that_one_is_odd_that_the_table_does_not_know() -> None:
    """Without a length in the table neither of two is; the spread is named all the same."""
    assert "tee.toml: measured.neck_width.M[2]" in warned("neck_width = { M = [7, 7.6] }")
    found = warned("front_neck_drop = { M = [3, 4] }")
    assert set(found) == {"tee.toml: measured.front_neck_drop"}
    assert "vary by more than the tolerance 1/4 in" in found["tee.toml: measured.front_neck_drop"]


def test_one_garment_among_many_is_named_by_grubbs_test() -> None:
    """The outlier of the worked example of NIST/SEMATECH e-Handbook 1.3.5.17.1, in mm."""
    text = GOOD.replace("[tol", 'front_neck_drop = ["200 mm", "201 mm", "202 mm", "203 mm"]\n[tol')
    example = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    lengths = ", ".join(f'"{one} mm"' for one in example)
    found = warned(f"front_neck_drop = {{ M = [{lengths}] }}", text)
    odd = [about for about in found if about.endswith("]")]
    assert odd == ["tee.toml: measured.front_neck_drop.M[8]"]


def test_a_millimetre_is_no_news_where_the_rest_read_alike() -> None:
    """Grubbs' test alone would name it."""
    lengths = ", ".join(['"176 mm"'] * 9 + ['"177 mm"'])
    assert warned(f"neck_width = {{ M = [{lengths}] }}") == {}


def test_half_chests_by_age_are_those_of_bodies() -> None:
    """Half of the chest girths of Craft Yarn Council's body sizes, 50 mm less to 200 mm more."""
    groups = {
        "infant": ("baby",), "toddler": ("child",), "youth": ("child",), "adult": ("women", "men"),
    }  # fmt: skip
    between = {"toddler": (2, 6), "youth": (4, 16)}
    for age, (least, most) in HALF_CHESTS.items():
        girths = [
            float(row[end]) * 10
            for row in rows("cyc_body_sizes_cm.csv")
            if row["group"] in groups[age] and row["measure"] == "chest"
            if age not in between or between[age][0] <= int(row["size"]) <= between[age][1]
            for end in ("lo_cm", "hi_cm")
        ]
        assert (min(girths) - 50) / 2 == least
        assert (max(girths) + 200) / 2 == most


@pytest.mark.parametrize(("age", "unit", "chest"), [
    ("adult", "cm", "18, 20, 22, 24"),
    ("adult", "in", "41, 43, 45, 47"),
    ("youth", "cm", "15, 16, 17, 18"),
    ("toddler", "in", "30, 33, 36, 38"),
    ("infant", "in", "21, 22, 23, 24"),
    ("infant", "cm", "8, 9, 10, 11"),
    ("infant", "in", "18, 20, 22, 24"),
])  # fmt: skip
def test_a_wrong_unit_is_noticed_by_the_age(age: str, unit: str, chest: str) -> None:
    """Inch figures in a table of centimetres, the other way round, and a wrong age."""
    text = (
        f'title = "t"\ncut = "crew-tee"\nage = "{age}"\nunit = "{unit}"\nsource = "invented"\n'
        f'sizes = ["1", "2", "3", "4"]\n[measurements]\nhalf_chest = [{chest}]\n'
        f"body_length = [{chest}]\n[tolerances]\nhalf_chest = 0.1\n"
    )
    found = [one for one in table(text).warnings if "is the unit right?" in one.says]
    assert [one.about for one in found] == ["tee.toml: measurements.half_chest[1]"]
    assert not found[0].blocks


@pytest.mark.parametrize("name", names())
def test_the_packages_tables_give_nothing_to_ask(name: str) -> None:
    """No finding on any of them."""
    assert find(name, Place("test")).warnings == ()
