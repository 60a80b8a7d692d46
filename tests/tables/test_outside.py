"""The package's own tables against body measures and standards from outside.

The sources of the figures stand in the first lines of the files in `tests/reference`.
"""

import math
from itertools import pairwise

import pytest

from jigs.tables.estimate import completed, relations
from jigs.tables.library import find, names
from jigs.tables.measure import Measures
from tests.reference.rows import rows
from tests.tables.cuts import HERE, NEEDS, sizes, tables

CM = 10.0
WORN = [(name, size) for name in tables(*(NEEDS.keys() - {"tote"})) for size in sizes(name)]
CREW = [
    (name, size)
    for name in tables("crew-tee", "long-sleeve-tee", "crew-sweatshirt", "hoodie")
    for size in sizes(name)
]
LETTERS = {"XXL": "2XL"}
TABLE = {"men": "adult-crew-tee", "women": "womens-crew-tee"}


def worn_by(name: str) -> str:
    """Return whom a table is for: infant, toddler, youth, womens or adult."""
    return name.partition("-")[0]


#: Sizes of the craft council's lists that a size of ours spans; ages of youth sizes are common
#: practice (S 6-8, M 10-12, L 14-16).
SPANS = {
    "infant": {
        "3-6M": ("baby", "3mo", "6mo"),
        "6-12M": ("baby", "6mo", "12mo"),
        "12-18M": ("baby", "12mo", "18mo"),
        "18-24M": ("baby", "18mo", "24mo"),
    },
    "toddler": {
        "2T": ("child", "2", "2"),
        "4T": ("child", "4", "4"),
        "5T/6T": ("child", "6", "6"),
    },
    "youth": {
        "XS": ("child", "4", "6"),
        "S": ("child", "6", "8"),
        "M": ("child", "10", "12"),
        "L": ("child", "14", "16"),
    },
    "womens": {
        **{letter: ("women", letter, letter) for letter in ("XS", "S", "M", "L", "XL")},
        "2XL": ("women", "2X", "2X"),
        "3XL": ("women", "3X", "3X"),
    },
    "adult": {
        **{letter: ("men", letter, letter) for letter in ("S", "M", "L", "XL")},
        **{f"{n}XL": ("men", f"{n}X", f"{n}X") for n in (2, 3, 4, 5)},
    },
}
SWEATSHIRTS = tables("crew-sweatshirt", "hoodie")
SPANNED = [
    (name, size)
    for name in tables(*(NEEDS.keys() - {"tote"}))
    for size in SPANS[worn_by(name)]
    if size in sizes(name)
]
SLEEVES = [one for one in SPANNED if one[0] not in tables("tank")]


def body(name: str, size: str, measure: str) -> tuple[float, float] | None:
    """Return the least and greatest body measure a size is for, in mm; None if not listed."""
    group, *ends = SPANS[worn_by(name)][size]
    found = [
        float(row[end]) * CM
        for row in rows("cyc_body_sizes_cm.csv")
        if row["group"] == group and row["size"] in ends and row["measure"] == measure
        for end in ("lo_cm", "hi_cm")
    ]
    return (min(found), max(found)) if found else None


def survey(sex: str, measure: str) -> dict[str, tuple[float, float]]:
    """Return mean and standard deviation by letter, in mm."""
    return {
        LETTERS.get(row["band"], row["band"]): (float(row["mean_mm"]), float(row["sd_mm"]))
        for row in rows("ansur2_by_chest_band.csv")
        if row["sex"] == sex and row["measure"] == measure
    }


@pytest.mark.parametrize("name", names())
def test_the_packages_tables_are_valid_and_give_no_warning(name: str) -> None:
    """They are brandless, say that they are invented, and are named after their cut."""
    found = find(name, HERE)
    assert found.warnings == ()
    assert found.cut in NEEDS
    assert found.cut == "tote" or name.endswith(found.cut)
    assert found.source.startswith("invented, typical of")


@pytest.mark.parametrize(
    "row", rows("en13402_3_letter_codes.csv"), ids=lambda row: f"{row['girth']} {row['code']}"
)
def test_the_chest_of_a_letter_has_ease(row: dict[str, str]) -> None:
    """A tee is 0 to 20 cm wider round than the middle girth of its letter (EN 13402-3)."""
    letter = LETTERS.get(row["code"], row["code"])
    known = sizes(TABLE[row["girth"].split()[0]])
    if letter not in known:
        assert letter == "XXS"
        return
    assert 0 <= 2 * known[letter].mm("half_chest") - float(row["mid_cm"]) * CM <= 20 * CM


@pytest.mark.parametrize(("name", "size"), SPANNED)
def test_the_chest_has_ease_over_the_body_it_is_for(name: str, size: str) -> None:
    """0 to 20 cm round over the middle of the craft council's chests; sweatshirts to 24."""
    chest = body(name, size, "chest")
    assert chest is not None
    most = (24 if name in SWEATSHIRTS else 20) * CM
    assert 0 <= 2 * sizes(name)[size].mm("half_chest") - sum(chest) / 2 <= most


@pytest.mark.parametrize(("name", "size"), SLEEVES)
def test_the_shoulders_span_the_body_they_are_for(name: str, size: str) -> None:
    """Wider than the cross back by 0 to 4 cm more than half the ease of the chest, +/- 2 cm.

    The shoulders of sweatshirts drop by an inch more.
    """
    back, chest = body(name, size, "cross_back"), body(name, size, "chest")
    if back is None or chest is None:
        assert worn_by(name) == "womens"  # the source's rows for the large sizes look copied
        assert size in {"2XL", "3XL"}
        return
    known = sizes(name)[size]
    ease = 2 * known.mm("half_chest") - sum(chest) / 2
    across = known.mm("across_shoulder")
    most = ease / 2 + (8.5 if name in SWEATSHIRTS else 6) * CM
    assert -2 * CM <= across - sum(back) / 2 <= most


@pytest.mark.parametrize(("name", "size"), SLEEVES)
def test_the_armhole_is_deeper_than_the_bodys(name: str, size: str) -> None:
    """By 0 to 6 cm, +/- 2 cm, from the shoulder point down; sweatshirts by 2 cm more."""
    depth = body(name, size, "armhole_depth")
    if depth is None:
        assert worn_by(name) == "adult"  # the source has none for men
        return
    known = sizes(name)[size]
    armhole = known.mm("armhole_depth") - known.mm("shoulder_drop")
    most = (10 if name in SWEATSHIRTS else 8) * CM
    assert -2 * CM <= armhole - sum(depth) / 2 <= most


@pytest.mark.parametrize(("name", "size"), SLEEVES)
def test_an_arm_goes_into_the_sleeve(name: str, size: str) -> None:
    """The sleeve is as wide round as the upper arm, - 2 cm, which a knit gives."""
    arm = body(name, size, "upper_arm")
    if arm is None:
        assert worn_by(name) in {"adult", "infant"}  # the source has none
        return
    assert 2 * sizes(name)[size].mm("bicep") >= sum(arm) / 2 - 2 * CM


@pytest.mark.parametrize("sex", ["men", "women"])
def test_the_neck_is_wider_than_the_neck(sex: str) -> None:
    """Seam to seam at least the neck-base girth over pi of its letter (ANSUR II)."""
    known = sizes(TABLE[sex])
    for letter, (mean, _) in survey(sex, "neckbase_over_pi").items():
        assert known[letter].mm("neck_width") >= mean


@pytest.mark.parametrize("sex", ["men", "women"])
def test_an_estimated_neck_is_wider_than_the_neck_too(sex: str) -> None:
    """The relation for adults, from chest alone, clears the same bound (ANSUR II)."""
    known = find(TABLE[sex], HERE)
    for letter, (mean, _) in survey(sex, "neckbase_over_pi").items():
        size = known.size(letter, HERE)
        bare = {point: size[point] for point in ("half_chest", "body_length")}
        whole = completed(Measures("t", letter, "adult", bare), "crew-tee")
        assert whole.mm("neck_width") - whole["neck_width"].plus_minus >= mean


@pytest.mark.parametrize("sex", ["men", "women"])
def test_the_neckline_goes_round_the_neck(sex: str) -> None:
    """Its length is at least the neck-base girth of its letter less one sd (ANSUR II).

    Two half ellipses, by Ramanujan's first formula (1914): no longer than a crew neck's curves.
    """
    known = sizes(TABLE[sex])
    for letter, (mean, sd) in survey(sex, "neckcircumferencebase").items():
        half = known[letter].mm("neck_width") / 2
        drops = [known[letter].mm(f"{side}_neck_drop") for side in ("front", "back")]
        length = sum(
            math.pi * (3 * (half + d) - math.sqrt((3 * half + d) * (half + 3 * d))) / 2
            for d in drops
        )
        assert length >= mean - sd


@pytest.mark.parametrize("name", ["adult-crew-tee", "womens-crew-tee"])
def test_the_neck_grades_like_necks(name: str) -> None:
    """3 to 6 mm for a letter's 8 cm of chest, as the neck-base girth over pi does (ANSUR II).

    The steps of the tables' letters are not all 8 cm, so the growth is taken over the whole row.
    """
    known = list(sizes(name).values())
    chest = 2 * (known[-1].mm("half_chest") - known[0].mm("half_chest"))
    growth = known[-1].mm("neck_width") - known[0].mm("neck_width")
    assert 3 <= growth / chest * 80 <= 6
    for one, other in pairwise(known):
        assert 3 <= other.mm("neck_width") - one.mm("neck_width") <= 6


def test_the_relation_of_the_neck_grades_between_women_and_men() -> None:
    """Its slope on half the chest is that of neck-base girth over pi on the chest, twice."""
    slopes = {
        row["sex"]: 2 * float(row["slope_per_mm_chest"])
        for row in rows("ansur2_regression_on_chest.csv")
        if row["measure_mm"] == "neckbase_over_pi"
    }
    neck = [r for r in relations("adult", "crew-tee") if r.point == "neck_width"]
    assert len(neck) == 1
    assert slopes["women"] <= dict(neck[0].slopes)["half_chest"] <= slopes["men"]


@pytest.mark.parametrize("sex", ["men", "women"])
def test_the_shoulders_are_wider_and_grade_faster_than_the_bodys(sex: str) -> None:
    """Across shoulder is more than the biacromial breadth and grows at least as fast (ANSUR II)."""
    known, breadth = sizes(TABLE[sex]), survey(sex, "biacromialbreadth")
    for letter, (mean, _) in breadth.items():
        assert known[letter].mm("across_shoulder") >= mean
    for one, other in pairwise(breadth):
        step = known[other].mm("across_shoulder") - known[one].mm("across_shoulder")
        assert step >= breadth[other][0] - breadth[one][0]


@pytest.mark.parametrize(("name", "size"), WORN)
def test_shoulders_slope_as_shoulders_do(name: str, size: str) -> None:
    """13 to 26 degrees (drafting practice, from memory)."""
    known = sizes(name)[size]
    run = (known.mm("across_shoulder") - known.mm("neck_width")) / 2
    assert 13 <= math.degrees(math.atan2(known.mm("shoulder_drop"), run)) <= 26


@pytest.mark.parametrize(("name", "size"), CREW)
def test_a_crew_neck_is_deeper_in_front_as_the_neck_is(name: str, size: str) -> None:
    """By 40 to 110 mm: the back of the neck stands 66 to 79 mm above the breastbone (ANSUR II)."""
    known = sizes(name)[size]
    assert 40 <= known.mm("front_neck_drop") - known.mm("back_neck_drop") <= 110


@pytest.mark.parametrize(("name", "size"), CREW)
def test_the_back_neck_drop_is_as_usual(name: str, size: str) -> None:
    """About 15 to 25 mm on adults, down to 10 on children (common practice, no source)."""
    known = sizes(name)[size]
    assert (15 if known.age == "adult" else 10) <= known.mm("back_neck_drop") <= 25


def test_the_usual_adult_sizes_measure_what_the_trade_expects() -> None:
    """S 18, M 20, L 22, XL 24 in across, 28 to 31 in long (common practice, no source)."""
    known = sizes("adult-crew-tee")
    inches = [known[letter].mm("half_chest") / 25.4 for letter in ("S", "M", "L", "XL")]
    assert inches == pytest.approx([18, 20, 22, 24])
    assert known["S"].mm("body_length") / 25.4 == pytest.approx(28)
    assert known["XL"].mm("body_length") / 25.4 == pytest.approx(31)
