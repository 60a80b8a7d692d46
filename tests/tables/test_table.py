import pickle
from dataclasses import FrozenInstanceError

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import JigsError, Place
from jigs.tables.library import find, names
from jigs.tables.measure import Origin
from jigs.tables.points import POINTS
from jigs.tables.table import SizeTable, read
from jigs.units import INCH
from tests.tables.examples import GOOD, problems, table

CHEST = "half_chest = [18, 20, 22, 24]"


def test_lengths_are_read_in_the_tables_unit_or_their_own() -> None:
    """Bare numbers, fractions and lengths with a unit all become millimetres."""
    sizes = table().sizes

    def inches(point: str) -> list[float]:
        return [size.mm(point) / INCH for size in sizes]

    assert inches("half_chest") == pytest.approx([18, 20, 22, 24])
    assert inches("body_length") == pytest.approx([28, 29, 29.5, 30])
    assert inches("neck_width") == pytest.approx([6.75, 17.5 / 2.54, 7.125, 7.5])
    assert inches("back_neck_drop") == pytest.approx([0.75] * 4)


def test_a_table_holds_what_was_given_and_no_more() -> None:
    """Every measure is given; points of measure that were left out are not there."""
    first = table().sizes[0]
    assert set(first.values) == {"half_chest", "body_length", "neck_width", "back_neck_drop"}
    assert {measure.origin for measure in first.values.values()} == {Origin.GIVEN}
    assert (first.key, first.age) == ("tee/S", "adult")


def test_tolerances_are_the_tables_own_or_the_usual_ones() -> None:
    """Half an inch on length, a quarter on the rest (common practice, no source)."""
    first = table().sizes[0]
    assert first["half_chest"].plus_minus == 0.375 * INCH
    assert first["body_length"].plus_minus == 0.5 * INCH
    assert first["neck_width"].plus_minus == 0.25 * INCH


def test_a_table_is_a_value() -> None:
    """It compares by content, travels between processes and cannot be changed."""
    one = table()
    assert one == table()
    assert pickle.loads(pickle.dumps(one)) == one  # noqa: S301 (our own bytes)
    with pytest.raises(FrozenInstanceError):
        one.title = "other"  # type: ignore[misc]  # that it cannot be set is what is tested


def test_a_byte_order_mark_and_dos_line_ends_do_no_harm() -> None:
    """Editors of other systems write both."""
    assert table("\ufeff" + GOOD.replace("\n", "\r\n")) == table()


BROKEN = [
    # the file
    ("title = ", "title == ", "line 1", "Invalid"),
    # keys
    ('cut = "crew-tee"', 'cutt = "crew-tee"', "cutt", "did you mean 'cut'"),
    ('cut = "crew-tee"', 'cutt = "crew-tee"', "cut", "missing"),
    ('title = "Crew-neck tee"', "title = 3", "title", "found 3"),
    ('title = "Crew-neck tee"', 'title = " "', "title", "found ' '"),
    ('title = "Crew-neck tee"', 'title = "a\\u0007b"', "title", "printable"),
    ('source = "invented"', "", "source", "where the figures come from"),
    ('age = "adult"', 'age = "adlt"', "age", "did you mean 'adult'"),
    ('unit = "in"', 'unit = "furlong"', "unit", "unknown unit 'furlong'"),
    ('unit = "in"', 'unit = ["in"]', "unit", "a list of 1"),
    # sizes
    ('sizes = ["S", "M", "L", "2XL"]', "sizes = []", "sizes", "list of names"),
    ('sizes = ["S", "M", "L", "2XL"]', 'sizes = "S"', "sizes", "list of names"),
    ('"S", "M", "L", "2XL"', '"S", "M", "XXL", "2XL"', "sizes[4]", "same size as 'XXL'"),
    ('"S", "M", "L", "2XL"', '"S", "m", "M", "2XL"', "sizes[3]", "stands in a table once"),
    ('"S", "M", "L", "2XL"', '"S", "M", 3, "2XL"', "sizes[3]", "found 3"),
    ('"S", "M", "L", "2XL"', '"S", "M", "L,X", "2XL"', "sizes[3]", "without a comma"),
    ('"S", "M", "L", "2XL"', '"S", "M", "", "2XL"', "sizes[3]", "found ''"),
    # rows
    (CHEST, "", "measurements.half_chest", "missing"),
    (CHEST, f"{CHEST}\nwrist = [1, 2, 3, 4]", "measurements.wrist", "unknown point of measure"),
    (CHEST, f"{CHEST}\nneck_widht = []", "measurements.neck_widht", "mean 'neck_width'"),
    (CHEST, "half_chest = 18", "measurements.half_chest", "list of 4 lengths"),
    (CHEST, "half_chest = [18, 20, 22]", "measurements.half_chest", "3 lengths for 4 sizes"),
    (CHEST, "half_chest = []", "measurements.half_chest", "0 lengths for 4 sizes"),
    # values
    (CHEST, "half_chest = [18, 20, -22, 24]", "measurements.half_chest[3]", "size L: found -22"),
    (CHEST, "half_chest = [0, 20, 22, 24]", "measurements.half_chest[1]", "from 50 mm"),
    (CHEST, "half_chest = [18, nan, 22, 24]", "measurements.half_chest[2]", "found nan"),
    (CHEST, "half_chest = [18, inf, 22, 24]", "measurements.half_chest[2]", "found inf"),
    (CHEST, "half_chest = [18, true, 22, 24]", "measurements.half_chest[2]", "found True"),
    (CHEST, "half_chest = [18, [20], 22, 24]", "measurements.half_chest[2]", "found [20]"),
    (CHEST, 'half_chest = [18, "2o", 22, 24]', "measurements.half_chest[2]", "'2o'"),
    (CHEST, 'half_chest = [18, "", 22, 24]', "measurements.half_chest[2]", "size M: found ''"),
    # a half chest of two metres, and millimetres in a table of inches
    (CHEST, 'half_chest = [18, 20, 22, "200 cm"]', "measurements.half_chest[4]", "to 1200 mm"),
    (CHEST, "half_chest = [457, 508, 559, 610]", "measurements.half_chest[1]", "found 457 (in)"),
    (CHEST, f"half_chest = [18, 20, 22, 1{'0' * 400}]", "measurements.half_chest[4]", "1200 mm"),
    (CHEST, f"half_chest = [18, 20, 22, 0x{'f' * 6000}]", "measurements.half_chest[4]", "1200"),
    # grading
    (CHEST, "half_chest = [18, 20, 19, 24]", "measurements.half_chest[3]", "size L: found 19 in"),
    (CHEST, "half_chest = [18, 20, 20, 24]", "measurements.half_chest[3]", "grows"),
    ('28, "29"', '30, "29"', "measurements.body_length[2]", "after size S with 30 in"),
    # what must be smaller than what
    ("6 3/4", "18", "measurements.neck_width[1]", "smaller than half_chest"),
    ("[tol", "across_shoulder = [17, 6, 19, 20]\n[tol", "measurements.neck_width[2]", "6.89 in"),
    ("[tol", "front_neck_drop = [4, 4, 0.5, 4]\n[tol", "measurements.back_neck_drop[3]", "size L"),
    ("[tol", "armhole_depth = [9, 9, 9, 0]\n[tol", "measurements.armhole_depth[4]", "from 30 mm"),
    ("[tol", "armhole_depth = [27.5, 9, 9, 9]\n[tol", "measurements.armhole_depth[1]", "than 1 in"),
    (
        "[tol",
        "armhole_depth = [9, 9, 9, 9]\nfront_neck_drop = [3, 3, 3, 9]\n[tol",
        "measurements.front_neck_drop[4]",
        "found 9 in, with armhole_depth 9 in",
    ),
    (
        "[tol",
        "armhole_depth = [9, 9, 9, 9]\nshoulder_drop = [2, 2, 9.5, 2]\n[tol",
        "measurements.shoulder_drop[3]",
        "smaller than armhole_depth",
    ),
    (
        "[tol",
        "sleeve_opening = [7, 7, 7, 9]\nbicep = [7, 7, 7, 8]\n[tol",
        "measurements.sleeve_opening[4]",
        "is at most bicep",
    ),
    # the middle of the chain is left out: back neck drop < front neck drop < armhole depth
    (
        '["3/4", "¾", 0.75, "3/4"]',
        "[8, 8, 8, 8]\narmhole_depth = [9, 9, 9, 8]",
        "measurements.back_neck_drop[4]",
        "smaller than armhole_depth",
    ),
    # tolerances
    ('half_chest = "3/8"', "half_chest = -0.5", "tolerances.half_chest", "found -0.5 (in)"),
    ('half_chest = "3/8"', "half_chest = nan", "tolerances.half_chest", "found nan"),
    ('half_chest = "3/8"', "half_chest = [1]", "tolerances.half_chest", "found [1]"),
    ('half_chest = "3/8"', "chest = 1", "tolerances.chest", "unknown point of measure"),
    ('half_chest = "3/8"', "back_neck_drop = 1", "tolerances.back_neck_drop", "smaller than"),
]


@pytest.mark.parametrize(("old", "new", "key", "says"), BROKEN)
def test_each_mistake_is_reported_where_it_stands(old: str, new: str, key: str, says: str) -> None:
    """The report names the key, with the size's place in its row, and says what is wrong."""
    assert old in GOOD
    found = problems(GOOD.replace(old, new, 1))
    assert says in found[key]


def test_tolerances_may_be_left_out() -> None:
    """A table without them is a whole table."""
    assert problems(GOOD.partition("[tolerances]")[0]) == {}


def test_all_mistakes_are_reported_together() -> None:
    """One run shows them all."""
    text = GOOD.replace('"adult"', '"old"').replace("18, 20", "18, 18").replace('"29"', '"x"')
    found = problems(text)
    assert set(found) == {"age", "measurements.half_chest[2]", "measurements.body_length[2]"}


def test_an_unknown_unit_is_reported_once() -> None:
    """Not again at every length that is written in it; others are still read."""
    found = problems(GOOD.replace('unit = "in"', 'unit = "furlong"').replace("17.5 cm", "17.5 m"))
    assert set(found) == {"unit", "measurements.neck_width[2]"}


def test_rows_that_are_no_table_are_reported() -> None:
    """`measurements` and `tolerances` must be TOML tables."""
    head = GOOD.partition("[measurements]")[0]
    found = problems(head + "measurements = [1]\ntolerances = 3\n")
    assert "[measurements]" in found["measurements"]
    assert "[tolerances]" in found["tolerances"]


def test_equal_lengths_may_stay_and_a_sleeve_may_be_a_tube() -> None:
    """Body length may stay from size to size; a sleeve opening may equal the bicep."""
    text = GOOD.replace('28, "29"', '29, "29"')
    tube = "sleeve_opening = [7, 7, 7, 8]\nbicep = [7, 7, 7, 8]\n[tol"
    assert problems(text.replace("[tol", tube)) == {}


WARNED = [
    ("[tol", "front_neck_drop = [4, 4, 4, 5]\n[tol", "front_neck_drop[4]", "jumps by 1 in"),
    ("[tol", "sleeve_length = [8, 7, 9, 10]\n[tol", "sleeve_length[2]", "shrinks by 1 in"),
    (CHEST, "half_chest = [18, 19, 20, 30]", "half_chest[4]", "jumps by 10 in"),
    ('half_chest = "3/8"', "half_chest = 1", "tolerances.half_chest", "overlap"),
    (
        "[tol",
        "across_shoulder = [17, 18, 19, 20]\nshoulder_drop = [5, 5, 5, 5]\n[tol",
        "shoulder_drop[4]",
        "slopes by 39 degrees",
    ),
]


@pytest.mark.parametrize(("old", "new", "key", "says"), WARNED)
def test_what_looks_like_a_slip_is_a_warning(old: str, new: str, key: str, says: str) -> None:
    """The table is read all the same, and nothing blocks."""
    assert old in GOOD
    warnings = table(GOOD.replace(old, new, 1)).warnings
    assert [says in warning.says for warning in warnings if warning.about.endswith(key)] == [True]
    assert not any(warning.blocks for warning in warnings)


def test_a_good_table_has_no_warning() -> None:
    """Steady grading and a tolerance under half a step are what the trade expects."""
    assert table().warnings == ()


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 5000,
        "a = " + "9" * 5000,
        "a = " + '"x"' + " " * 1_000_000,
        "\x00",
        "[a]\n[a]",
    ],
    ids=["nested", "digits", "long", "nul", "twice"],
)
def test_hostile_texts_are_bad_input(text: str) -> None:
    """What breaks the TOML reader is reported like any other mistake."""
    with pytest.raises(JigsError):
        table(text)


TOKENS = [*POINTS, "[", "]", "{}", "=", '"', "'", "\n", ",", "nan", "-inf", "1e999", "0", "-1"]
TOKENS += [
    "true",
    "1979-05-27",
    "[[sizes]]",
    "[measurements]",
    "[measured]",
    "\n[measured.half_chest]\nM = [20.2, 20]\n",
    "XXL",
    "18 1/2",
    "½",
    "1/0",
    "\u202e",
]


@given(
    st.sampled_from(("", *names())),
    st.lists(
        st.tuples(
            st.integers(0, 2000), st.integers(0, 30), st.sampled_from(TOKENS) | st.text(max_size=5)
        )
    ),
)
def test_any_text_is_a_table_or_bad_input(name: str, edits: list[tuple[int, int, str]]) -> None:
    """However a table's text is damaged, the answer is a table or what is wrong with it."""
    text = GOOD if not name else _source(name)
    for start, length, instead in edits:
        at = start % (len(text) + 1)
        text = text[:at] + instead + text[at + length :]
    try:
        result: SizeTable | JigsError = read(text, "tee", Place("tee.toml"))
    except JigsError as error:
        result = error
    if isinstance(result, JigsError):
        assert result.lines()
        assert all(line.startswith("tee.toml") and line.isprintable() for line in result.lines())
    else:
        assert all(m.mm > 0 for size in result.sizes for m in size.values.values())


def _source(name: str) -> str:
    """Return a TOML text of one of the package's tables, written anew."""
    found = find(name, Place("test"))
    quoted = [f'"{size.size}"' for size in found.sizes]
    lines = [f'{key} = "{getattr(found, key)}"' for key in ("title", "cut", "age", "source")]
    lines += ['unit = "mm"', f"sizes = [{', '.join(quoted)}]", "[measurements]"]
    lines += [
        f"{point} = {[size.mm(point) for size in found.sizes]}" for point in found.sizes[0].values
    ]
    return "\n".join(lines)


@pytest.mark.parametrize("name", names())
def test_a_table_written_anew_reads_the_same(name: str) -> None:
    """The lengths of a table survive being written in millimetres."""
    again = read(_source(name), name, Place("again.toml"))
    for one, other in zip(again.sizes, find(name, Place("test")).sizes, strict=True):
        assert {p: m.mm for p, m in one.values.items()} == {
            p: m.mm for p, m in other.values.items()
        }
