"""Invented spec sheets with mistakes in them, each against the exact list of complaints."""

import pytest

from tests.tables.sheets import FOLDER, complaints, imported

DATE = "a date, which spreadsheets make"
ONE = "one unit for the same figures"
LENGTH = "no length; write one such as 18 1/2"

#: By file: the cell of each complaint, in the order of the sheet, and a part of its message.
BROKEN = {
    "no-unit": [("", "say it with --unit in")],
    "two-units": [
        ("B2", f"says cm, and A1 says in; {ONE}"),
        ("A3", f"says mm, and A1 says in; {ONE}"),
        ("C4 (Body length, size M)", f"says cm, and A1 says in; {ONE}"),
    ],
    "dual-unit-title": [("A1", "says in and cm")],
    "bad-lengths": [
        ("C2 (Half chest, size M)", f"found '2o'; {LENGTH}"),
        ("E2 (Half chest, size XL)", "found '-24'; no length above 0"),
        ("C3 (Body length, size M)", "found nothing; a row has one length for each size"),
        ("E3 (Body length, size XL)", "may part thousands or decimals; write a point"),
        ("C4 (Neck width, size M)", f"found 'n/a'; {LENGTH}"),
        ("D4 (Neck width, size L)", f"found '7 1/8 yd'; {LENGTH}"),
        ("E4 (Neck width, size XL)", "found '0'; no length above 0"),
        ("B5 (Sleeve length, size S)", LENGTH),
        ("C5 (Sleeve length, size M)", f"found '8 +/- 1/4'; {LENGTH}"),
        ("D5 (Sleeve length, size L)", f"found '8 1/0'; {LENGTH}"),
        ("E5 (Sleeve length, size XL)", "found '=8+1', a formula; write its result"),
    ],
    "unclear": [
        ("A2", "'Chest', which can mean half_chest or half_chest*0.5 (half of all round)"),
        ("A3", 'can mean body_length or sleeve_length; say which with --map "A3=body_length'),
        ("A4", "can mean neck_width or front_neck_drop or rib_width"),
        ("A5", "can mean across_shoulder or something else"),
    ],
    "twice": [("A3", "'Pit to pit' means half_chest, as 'Chest width' in A2 does; leave one out")],
    "missing": [("", "found no figures for body_length; every table gives half_chest and body")],
    "dates": [
        ("D1 (size)", f"found '06-Dec', {DATE}"),
        ("E1 (size)", f"found 'Dec-18', {DATE}"),
        ("C3 (Body length (cm), size 3-6)", f"found '2-Jan', {DATE}"),
    ],
    "no-sizes": [("", "found no row and no column of sizes; a sheet names its sizes")],
    "numbers-for-sizes": [("", "found no row and no column of sizes")],
    "unknown-size": [
        ("D1", "found 'LRG', no size we know, over figures; write the size"),
        ("F1", "found no size over figures; write the size, such as XL or 6-12M, or leave"),
    ],
    "same-size": [("D1 (size)", 'stands in a table once; leave one out with --map "D1=-"')],
    "rules": [
        ("C3 (Half chest, size M)", "found 440 mm, after size S with 450 mm; half_chest grows"),
        ("D4 (Body length, size L)", "found 720 (cm); allowed: a length from 80 mm to 2000 mm"),
        ("C5 (Neck width, size M)", "found 58 (cm); allowed: a length from 30 mm to 500 mm"),
        ("E5 (Neck width, tolerance)", "found 20 (cm); allowed: a length from 0 mm to 75 mm"),
    ],
    "turned-rules": [
        ("B3 (Half chest (cm), size M)", "found 440 mm, after size S with 450 mm"),
        ("C4 (Body length (cm), size L)", "body_length does not shrink from size to size"),
        ("D4 (Back neck drop (cm), size L)", "back_neck_drop is smaller than front_neck_drop"),
    ],
    "tolerances": [
        ("E2 (Half chest, tolerance)", "found '5%'; no tolerance; write one such as 1/2"),
        ("E3 (Body length, tolerance)", 'or leave the column out with --map "E1=-"'),
        ("E4 (Neck width, tolerance)", f"found '2-Jan', {DATE}"),
    ],
    "no-name": [
        ("", "found no figures for body_length"),
        ("A3", "found figures without a name"),
    ],
    "two-tables": [
        ("A4", "row 4 names other sizes: 'YS'; one table in a sheet"),
        ("A5", "'Half chest' means half_chest, as 'Half chest' in A2 does"),
        ("A6", "'Body length' means body_length, as 'Body length' in A3 does"),
    ],
    "too-small": [
        (f"{column}{row} ({name}, size {size})", "(mm); allowed: a length from")
        for row, name in ((3, "Half chest"), (4, "Body length"))
        for column, size in zip("BCD", "SML", strict=True)
    ],
    "quotes": [("", "a quote within it is doubled")],
    "blank": [("", "found no cell with anything in it")],
    "two-blocks": [
        ("F1", f"says cm, and B1 says in; {ONE}"),
        ("F2 (size)", "found 'S', the same size as 'S'"),
        ("G2 (size)", "found 'M', the same size as 'M'"),
        ("H2 (size)", "found 'L', the same size as 'L'"),
    ],
    "catalogue-sleeve": [
        ("A5", "'Sleeve Length' longer than the body, as if from centre back; say which"),
    ],
    "plus-between": [
        ("C1", "found '+', no size we know, over figures"),
        ("E1", 'or leave it out with --map "E1=-"'),
    ],
    "backwards": [
        ("C2 (Half chest, size M)", "found 500 mm, after size L with 550 mm"),
        ("D2 (Half chest, size S)", "half_chest grows from size to size"),
        ("C3 (Body length, size M)", "body_length does not shrink"),
        ("D3 (Body length, size S)", "body_length does not shrink"),
    ],
    "unit-in-a-note": [("D2", f"says cm, and A1 says in; {ONE}")],
    "several": [
        ("", "no unit is said of the figures of 'Half chest' in A3"),
        ("--map", "found 'wrist', which the sheet does not have; names in a.csv: Half chest"),
        ("B3 (Half chest, size S)", f"found 'x'; {LENGTH}"),
        ("D4 (Body length (cm), size L)", "found 690 mm, after size M with 700 mm"),
        ("A5", "'Sleeve', which can mean"),
    ],
}  # fmt: skip
MAPS = {"several": ["Wrist=-"]}


@pytest.mark.parametrize("name", BROKEN)
def test_every_mistake_is_said_with_its_cell(name: str) -> None:
    """All of them, in the order of the sheet, and nothing else."""
    data = (FOLDER / "broken" / f"{name}.csv").read_bytes()
    found = complaints(data, "a.csv", *MAPS.get(name, []))

    assert [cell for cell, _ in found] == [cell for cell, _ in BROKEN[name]]
    for (_, message), (_, part) in zip(found, BROKEN[name], strict=True):
        assert part in message


def test_every_broken_sheet_is_tested() -> None:
    """No file lies in the folder unread."""
    assert {path.stem for path in (FOLDER / "broken").glob("*.csv")} == set(BROKEN)


SHEET = b"POM (in),S,M,L\nHalf chest,18,20,22\nBody length,28,29,30\nSleeve,8,9,10\n"


@pytest.mark.parametrize(
    ("maps", "said"),
    [
        (["Sleeve"], "found 'Sleeve'; write NAME=POINT"),
        (["=sleeve_length"], "found '=sleeve_length'; write NAME=POINT"),
        (["Sleeve=sleeve_lenght"], "did you mean 'sleeve_length'"),
        (["Sleeve=sleeve_length*3"], "write NAME=POINT, NAME=POINT*0.5"),
        (["Sleeve=-", "sleeve=bicep"], "found two meanings of 'sleeve'"),
        (["Sleeve=-", "B9=-"], "found 'B9', which the sheet does not have"),
        (["Sleeve=half_chest"], "'Sleeve' means half_chest, as 'Half chest' in A2 does"),
    ],
)
def test_a_meaning_that_cannot_be_given_is_said(maps: list[str], said: str) -> None:
    """Malformed, unknown, contradicting, unused, or one that another name has."""
    found = complaints(SHEET, "a.csv", *maps)
    assert len(found) == 1
    assert said in found[0][1]


@pytest.mark.parametrize("said", ["Sleeve=sleeve_length", "A4=sleeve_length", "sleeve = bicep*2"])
def test_a_meaning_is_given_by_name_or_cell(said: str) -> None:
    """And may double or halve; the row's figures are then those."""
    first = imported(SHEET, "a.csv", said).table.sizes[0]
    point = said.partition("=")[2].strip().partition("*")[0]
    assert first.mm(point) == 25.4 * 8 * (2 if "*2" in said else 1)


def test_what_is_left_out_can_be_left_out() -> None:
    """The ways out that the messages name are ones: by heading, by cell, by meaning."""
    unknown = (FOLDER / "broken" / "unknown-size.csv").read_bytes()
    assert imported(unknown, "a.csv", "LRG=-", "F1=-").sizes == ("S", "M", "XL")
    bad = (FOLDER / "broken" / "tolerances.csv").read_bytes()
    assert imported(bad, "a.csv", "Tol=-").sizes == ("S", "M", "L")
    steps = (FOLDER / "broken" / "plus-between.csv").read_bytes()
    assert imported(steps, "a.csv", "+=-").sizes == ("S", "M", "L")
    long = (FOLDER / "broken" / "catalogue-sleeve.csv").read_bytes()
    for point in ("sleeve_length", "centre_back_sleeve"):
        first = imported(long, "a.csv", f"Sleeve Length={point}").table.sizes[0]
        assert first.mm(point) == 25.4 * 33.5


@pytest.mark.parametrize("unit", ["cm", "mm"])
def test_a_unit_that_contradicts_the_sheet_is_refused(unit: str) -> None:
    """`--unit` is for sheets that say none."""
    found = complaints(SHEET, "a.csv", "Sleeve=-", unit=unit)
    assert found == [("A1", f"says in, and --unit says {unit}; {ONE}; correct the sheet")]
