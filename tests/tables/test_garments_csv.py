"""Files of measured garments."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, BadInputs, JigsError, Place
from jigs.tables.garments_csv import Garment, read_garments
from jigs.units import mm

SIZES = ("S", "M", "2XL", "5T/6T")
HERE = Place("garments.csv")
FILE = """\
garment,size,Front neck drop (cm),neck-width,note
A1,M,9.2,7,
A2,xxl,,"7 1/4 in",sewn crooked?

,5T/6T,3 5/8 in,178 mm,
"""


def garments(text: str = FILE, *without: int, unit: str = "in") -> tuple[Garment, ...]:
    """Return the garments of a text."""
    return read_garments(text, SIZES, unit, without, HERE)


def test_a_row_is_a_garment() -> None:
    """Its number in the file, its size however spelled, its lengths in their own units."""
    first, second, third = garments()
    assert (first.row, first.name, first.size) == (2, "A1", 1)
    assert (second.row, second.name, second.size) == (3, "A2", 2)
    assert (third.row, third.name, third.size) == (5, "", 3)
    assert first.readings["front_neck_drop"].mm == pytest.approx(92)
    assert first.readings["neck_width"].mm == pytest.approx(177.8)
    assert set(second.readings) == {"neck_width"}
    assert third.readings["front_neck_drop"].mm == pytest.approx(3.625 * 25.4)
    assert third.readings["neck_width"].mm == 178


def test_an_inch_mark_is_no_trouble() -> None:
    """Quoted as spreadsheets do, or as it stands; nor is a fraction written with one sign."""
    text = 'size,neck_width\nM,"7 1/8"""\nM,7 1/8"\nM,7⅛\nM,7 1⁄8\n'
    found = [one.readings["neck_width"] for one in garments(text)]
    assert [one.mm for one in found] == [7.125 * 25.4] * 4
    assert [mm(one.text, HERE) for one in found] == [7.125 * 25.4] * 4


def test_the_unit_of_bare_numbers() -> None:
    """That of the heading comes first, then the one asked for."""
    (one,) = garments("size,neck_width,front_neck_drop [mm]\nM,17.5,92\n", unit="cm")
    assert (one.readings["neck_width"].mm, one.readings["front_neck_drop"].mm) == (175, 92)


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_columns_are_parted_as_spreadsheets_do(mark: str) -> None:
    """Also where the comma is the decimal one, with DOS line ends and blank columns."""
    number = "9.2" if mark == "," else "9,2"
    text = mark.join(("size", "front_neck_drop (cm)", "")) + "\r\n"
    text += mark.join(("M", number, "")) + "\r\n" + mark * 2 + "\r\n"
    (one,) = garments(text)
    assert one.readings["front_neck_drop"].mm == pytest.approx(92)


def test_a_garment_is_left_out_on_purpose() -> None:
    """By the number of its row; what is wrong with it does not matter then."""
    assert [one.row for one in garments(FILE, 3)] == [2, 5]
    assert [one.row for one in garments(FILE + "Z,Q,1,1,\n", 6, 2)] == [3, 5]


BAD = [
    ("", "garments.csv: found nothing"),
    ("size,neck_width\n", "found no garment"),
    ("neck_width\n7\n", "no column 'size'"),
    ("size,note\nM,x\n", "no point of measure"),
    ("size,neckwidth\nM,7\n", "did you mean 'neck_width'"),
    ("size,neck_width (furlong)\nM,7\n", "headings.neck_width: unknown unit 'furlong'"),
    ("size (cm),neck_width\nM,7\n", "unknown column 'size (cm)'"),
    ("size,neck_width,Neck Width (cm)\nM,7,7\n", "found 'neck_width' again"),
    ("size,neck_width\nQ,7\n", "row 2.size: unknown size 'Q'"),
    ("size,neck_width\n,7\n", "row 2.size: missing"),
    ("size,neck_width\nM,\n", "row 2: found no length"),
    ("size,neck_width\nM,wide\n", "row 2.neck_width: found 'wide'"),
    ("size,neck_width\nM,7 lb\n", "row 2.neck_width: found '7 lb'"),
    ("size,neck_width\nM,-7\n", "row 2.neck_width: found '-7'"),
    ("size,neck_width\nM,700\n", "from 30 mm to 500 mm"),
    ("size,neck_width\nM,17,5\n", "found '5' in column 3"),
    (
        "garment,size,neck_width\nA 1,M,7\na  1,M,7.1\n",
        "row 3.neck_width: found 'a 1' again, with the size and point of row 2",
    ),
    ("garment,size,neck_width\nA\x01,M,7\n", "row 2.garment: found"),
    ("size,neck_width\n" + "M,7\n" * 5001, "more than 5000 rows"),
    ("size,neck_width\nM," + "7" * 200_000, "field larger than field limit"),
]


@pytest.mark.parametrize(("text", "says"), BAD, ids=[says for _, says in BAD])
def test_each_mistake_is_one_line(text: str, says: str) -> None:
    """With its row and column."""
    with pytest.raises(BadInput) as caught:
        garments(text)
    assert says in str(caught.value)
    assert len(caught.value.lines()) == 1


def test_a_garments_lengths_may_stand_in_several_rows() -> None:
    """And a name may be that of a garment in each size."""
    text = "garment,size,neck_width,bicep\n1,M,7,\n1,M,,8\n1,S,7,8\n"
    assert [one.row for one in garments(text)] == [2, 3, 4]


def test_all_mistakes_are_reported_together() -> None:
    """One run shows them all, a row that does not exist among them."""
    with pytest.raises(BadInputs) as caught:
        garments("size,neck_width\nQ,7\nM,x\n", 1)
    assert [problem.place.key for problem in caught.value.problems] == [
        "--without", "row 2.size", "row 3.neck_width",
    ]  # fmt: skip


@given(st.text(alphabet='size,neck_width();"\n\r\t\x00M7 1/2', max_size=60))
def test_any_text_is_garments_or_bad_input(text: str) -> None:
    """Nothing but a JigsError comes instead."""
    try:
        found: tuple[Garment, ...] | JigsError = garments(f"size,neck_width\n{text}")
    except JigsError as error:
        found = error
    if isinstance(found, JigsError):
        assert found.lines()
    else:
        assert all(one.readings for one in found)
