"""Measured garments put into a table's text."""

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, Place
from jigs.tables.garments_csv import read_garments
from jigs.tables.measuring import Garments, Measured, TableText, measured
from tests.tables.examples import GOOD, table

HERE = Place("tee.toml")
SIZES = ("S", "M", "L", "2XL")
#: The good table with everything that a person may write around the figures.
COMMENTED = (
    f"# ours\n{GOOD}\n# by Jo, in May\n[measured.neck_width]  # flat\nM = [\n  7,  # A1\n]\n"
)
LAYOUTS = [
    GOOD,
    COMMENTED,
    GOOD.replace("\n", "\r\n"),
    GOOD.rstrip(),
    f"{GOOD}[measured]\nneck_width = {{ M = [7, '6 7/8'] }}\n",
    f"{GOOD}[measured]\nneck_width.XXL = [7.5]\n",
    GOOD.replace("[measurements]", "measured = { neck_width = { S = [7] } }\n[measurements]"),
    GOOD.replace("[tol", "[measured.half_chest]\nM = [20]\n\n[tol") + "[measured.neck_width]\n",
]
#: Layouts in which garments have names.
NAMED = [
    f"{GOOD}[measured.neck_width]\nM = {{ A1 = 7 }} # Jo\nXXL = [7.5, {{ 'B 1' = 7.6 }}]\n",
    f"{GOOD}[measured.neck_width.M]\nA1 = 7\nA2 = 7.1\n",
    f"{GOOD}[measured]\nneck_width = {{ M = {{ A1 = 7 }} }}\n[measured.bicep.S]\nA1 = 7\n",
]
LENGTHS = st.sampled_from(["7", "6 15/16", "17.6 cm", "178mm", "7.05", "17,9 cm", '7"', "7½"])
ROWS = st.lists(st.tuples(st.sampled_from(SIZES), LENGTHS), min_size=1, max_size=8)


def added(text: str, csv: str, unit: str | None = None) -> Measured:
    """Return what a table becomes by a CSV text."""
    return measured(TableText(text, "tee", HERE), "tee", Garments(csv, Place("g.csv"), unit))


def as_csv(rows: list[tuple[str, str]]) -> str:
    """Return rows of size and neck width as a file."""
    lines = [f'{size};"{length.replace(chr(34), chr(34) * 2)}"' for size, length in rows]
    return "\n".join(["size;neck_width", *lines])


def without_measured(text: str) -> dict[str, Any]:
    """Return all of a table but what was measured."""
    return {key: value for key, value in tomllib.loads(text).items() if key != "measured"}


@given(st.sampled_from(LAYOUTS), ROWS)
def test_garments_are_added_and_nothing_else_changes(
    text: str, rows: list[tuple[str, str]]
) -> None:
    """Every line that was there is there still, in its order; every length is there exactly."""
    try:
        done = added(text, as_csv(rows))
    except BadInput as error:
        assert "already" in error.found  # noqa: PT017 - the one thing that may be wrong
        return
    assert without_measured(done.text) == without_measured(text)
    lines = iter(done.text.splitlines())
    assert all(line in lines for line in text.splitlines() if "neck_width" not in line and line)
    assert ("\r\n" in done.text) == ("\r\n" in text)
    read = read_garments(as_csv(rows), SIZES, "in", (), HERE)
    for index, size in enumerate(SIZES):
        new = [one.readings["neck_width"].mm for one in read if one.size == index]
        was, now = (one.sizes[index]["neck_width"] for one in (done.before, done.after))
        assert now.pieces == was.pieces + len(new)
        assert (size in done.points) == bool(new)
        if new:
            total = sum(new) + (was.mm * was.pieces)
            assert now.mm == pytest.approx(total / now.pieces, rel=1e-12)


@given(st.sampled_from([*LAYOUTS, *NAMED]), ROWS, st.integers(0, 8))
def test_named_garments_are_counted_once(
    text: str, rows: list[tuple[str, str]], first: int
) -> None:
    """A file that has grown gives what the whole of it gives at once, whatever was there."""
    lines = [f"G {k};{line}" for k, line in enumerate(as_csv(rows).splitlines())]
    lines[0] = "garment;size;neck_width"
    whole, part = "\n".join(lines), "\n".join(lines[: 2 + first])
    try:
        at_once, grown = added(text, whole), added(added(text, part).text, whole)
    except BadInput as error:
        assert "already" in error.found  # noqa: PT017 - the one thing that may be wrong
        return
    assert grown.after.sizes == at_once.after.sizes
    assert added(grown.text, whole).text == grown.text
    assert added(grown.text, whole).points == {}


def test_a_corrected_length_replaces_the_earlier_one() -> None:
    """It is said which garment had which; the same length in another unit is no correction."""
    csv = "garment,size,neck_width\nA1,M,7\nA2,M,7.1\na  3,M,17.8 cm\n"
    once = added(GOOD, csv).text
    assert 'M = {A1 = 7, A2 = 7.1, "a 3" = "17.8 cm"}' in once
    again = added(once, csv.replace("7.1", "7.2").replace("17.8 cm", "178 mm").replace("a ", "A"))
    assert 'M = {A1 = 7, A2 = 7.2, "a 3" = "17.8 cm"}' in again.text
    assert [(one.about, one.says) for one in again.findings] == [
        ("g.csv", "2 lengths are in the table already and not added again, of A1, A 3"),
        (
            "g.csv: row 3, A2",
            "neck_width of size M was 7.1 in in the table and is replaced by 7.2 in",
        ),
    ]
    assert again.after.sizes[1]["neck_width"].pieces == 3


def test_named_and_nameless_garments_share_a_list() -> None:
    """Whichever came first; a lone garment's row is found either way."""
    named, nameless = "garment,size,neck_width\nA1,M,7\n", "size,neck_width\nM,7.1\n"
    assert "M = [{A1 = 7}, 7.1]" in added(added(GOOD, named).text, nameless).text
    assert "M = [7.1, {A1 = 7}]" in added(added(GOOD, nameless).text, named).text
    both = added(GOOD, named + ",M,7.1\n").text
    assert added(both, named).points == {}


@given(st.sampled_from(NAMED), ROWS)
def test_nameless_garments_join_named_ones(text: str, rows: list[tuple[str, str]]) -> None:
    """None is lost, and comments stay."""
    done = added(text, as_csv(rows))
    assert ("# Jo" in done.text) == ("# Jo" in text)
    for index, size in enumerate(SIZES):
        was, now = (one.sizes[index]["neck_width"] for one in (done.before, done.after))
        assert now.pieces == was.pieces + [name for name, _ in rows].count(size)


@given(ROWS, ROWS)
def test_measuring_twice_is_measuring_at_once(
    first: list[tuple[str, str]], second: list[tuple[str, str]]
) -> None:
    """To the last bit: nothing but the garments themselves is kept."""
    at_once = added(GOOD, as_csv(first + second))
    try:
        one_by_one = added(added(GOOD, as_csv(first)).text, as_csv(second))
    except BadInput as error:
        assert "already" in error.found  # noqa: PT017 - the one thing that may be wrong
        return
    assert one_by_one.after.sizes == at_once.after.sizes


def test_a_file_read_again_is_refused() -> None:
    """Counted twice, garments would look surer than they are; a garment alike is no repetition."""
    csv = as_csv([("M", "7"), ("M", "7.1"), ("L", "7.2"), ("L", "7.1")])
    once = added(GOOD, csv).text
    with pytest.raises(BadInput, match="all 4 lengths are in it already"):
        added(once, csv)
    assert added(once, as_csv([("M", "7"), ("L", "7.1")])).after != added(GOOD, csv).after


def test_lengths_are_written_as_a_person_would() -> None:
    """Bare in the table's unit, else with their own; comments stay."""
    csv = as_csv([("M", "7.05"), ("M", "6 15/16 in"), ("M", "17.6 cm"), ("2XL", "7")])
    done = added(COMMENTED, csv)
    assert tomllib.loads(done.text)["measured"]["neck_width"]["M"] == [
        7, 7.05, "6 15/16", "17.6 cm",
    ]  # fmt: skip
    assert "  7,  # A1\n" in done.text
    assert "2XL = [7]" in done.text
    assert "# by Jo, in May" in done.text


def test_a_finding_names_the_row_and_the_garment() -> None:
    """And the table's entry, where the garment is one that was there before."""
    csv = "garment,size,half_chest\nA1,M,20\nA2,M,22.1\nA3,M,20.1\nB1,S,19\n"
    found = {one.about: one.says for one in added(GOOD, csv).findings}
    assert "it looks like size L" in found["g.csv: row 3, A2"]
    assert "one garment measures half_chest 19 in" in found["g.csv: row 5, B1"]
    later = added(added(GOOD, csv).text, "size,half_chest\nM,20\n")
    assert "tee.toml: measured.half_chest.M[1].A2" in {one.about for one in later.findings}


def test_bare_numbers_take_the_unit_asked_for() -> None:
    """Where a heading names none."""
    done = added(GOOD, as_csv([("M", "17.6")]), "cm")
    assert done.after.sizes[1].mm("neck_width") == 176
    assert done.before == table()
