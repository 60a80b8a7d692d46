"""A list is read whatever spreadsheet wrote it, and what is wrong is said by row and column."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, BadInputs, JigsError
from jigs.team.roster import Line, Player, read
from jigs.team.sheet import MOST_ROWS

ADULT = Line("adult", "#1f2a44", ("S", "M", "2XL"))
YOUTH = Line("youth", "#1f2a44", ("S", "M"))
PRINTS = ("back-name", "back-number")
GOOD = "size,name,number\nM,Abbott,7\n2XL,Núñez,10\n"


def players(text: str | bytes, *lines: Line, prints: tuple[str, ...] = PRINTS) -> list[Player]:
    """Return the players of a list that has nothing wrong."""
    data = text if isinstance(text, bytes) else text.encode()
    return list(read(data, "squad.csv", lines or (ADULT,), prints)[0])


def said(text: str | bytes, *lines: Line, prints: tuple[str, ...] = PRINTS) -> list[str]:
    """Return what is wrong with a list, line by line."""
    with pytest.raises((BadInput, BadInputs)) as caught:
        players(text, *lines, prints=prints)
    return list(caught.value.lines())


def test_a_good_list() -> None:
    """A row is a player; the garment is the order's only one, the quantity one."""
    assert players(GOOD) == [
        Player(2, "adult", "M", "Abbott", "7", 1),
        Player(3, "adult", "2XL", "Núñez", "10", 1),
    ]


@pytest.mark.parametrize(
    "data",
    [
        GOOD.encode("utf-8-sig"),
        GOOD.encode("cp1252"),
        GOOD.replace(",", ";").encode(),
        GOOD.replace(",", "\t").encode(),
        GOOD.replace("\n", "\r\n").encode(),
        GOOD.replace("\n", "\r").encode(),
        GOOD.replace("Abbott", '"Abbott"').encode(),
        GOOD.replace("size,name,number", "Size, Player ,No.").encode(),
        GOOD.replace("size,name,number", "SIZE,Back_Name,#").encode(),
        GOOD.replace("number\n", "number,,\n").encode(),
        GOOD.replace("2XL", "xxl").encode(),
        GOOD.replace(",7", ",#7").encode(),
        GOOD.replace("Núñez", "Nu\u0301n\u0303ez").encode(),
    ],
)
def test_dialects(data: bytes) -> None:
    """Encodings, delimiters, line ends, quotes and headers of spreadsheets all read alike."""
    assert players(data) == players(GOOD)


def test_blank_rows_keep_the_count() -> None:
    """A blank row is no player, and the rows after it keep their numbers."""
    text = GOOD.replace("2XL", "\n,,\n2XL")
    assert [one.row for one in players(text)] == [2, 5]


def test_columns_in_any_order() -> None:
    """Columns are found by their headers."""
    text = "number,qty,garment,size,name\n00,3,Youth,m,de  la Cruz\n"
    (one,) = players(text, ADULT, YOUTH)
    assert one == Player(2, "youth", "M", "de la Cruz", "00", 3)


@pytest.mark.parametrize("number", ["0", "00", "7", "10", "99"])
def test_numbers_that_are_worn(number: str) -> None:
    """0 to 99 and 00 are numbers; which of them a league allows it says itself."""
    assert players(f"size,name,number\nM,A,{number}\n")[0].number == number


@pytest.mark.parametrize("number", ["100", "007", "07", "-1", "7.0", "1/2", "x", "٧", "²", "=7"])
def test_numbers_that_are_not(number: str) -> None:
    """Anything else is none, be it a figure of another script or a formula."""
    (line,) = said(f"size,name,number\nM,A,{number}\n")
    assert line.startswith("squad.csv: row 2, number: found ")
    assert "0 to 99, or 00" in line


@pytest.mark.parametrize(
    ("text", "where", "says"),
    [
        ("", "squad.csv:", "no rows"),
        ("\n\n", "squad.csv:", "no rows"),
        ("size,name,number\n", "squad.csv:", "no players"),
        ("size,name,nubmer\nM,A,7\n", "row 1", "did you mean 'number'"),
        ("size,name,no,number\nM,A,7,7\n", "row 1", "two columns for the number"),
        ("name,number\nA,7\n", "row 1", "no column size"),
        ("size,name\nM,A\n", "row 1", "no column number"),
        ("size,number\nM,7\n", "row 1", "no column name"),
        ("size,name,number\nM,A,7,8\n", "row 2", "4 cells under 3 headers"),
        ('size,name,number\nM,"A,7\n', "row 2", "no CSV"),
        ('size,name,number\nM,"A"x,7\n', "row 2", "no CSV"),
        ("size,name,number\nXS,A,7\n", "row 2, size", "did you mean 'S'"),
        ("size,name,number\n,A,7\n", "row 2, size", "missing"),
        ("size,name,number\nM,,\n", "row 2:", "neither a name nor a number"),
        ("size,name,number\nM\n", "row 2:", "neither a name nor a number"),
        ("size,name,number\nM,,#\n", "row 2:", "neither a name nor a number"),
        ("garment,size,name,number\nadlut,M,A,7\n", "row 2, garment", "did you mean 'adult'"),
        ("size,name,number,qty\nM,A,7,0\n", "row 2, quantity", "from 1 to 1000"),
        ("size,name,number,qty\nM,A,7,1.5\n", "row 2, quantity", "whole number"),
        (f"size,name,number\nM,{'A' * 41},7\n", "row 2, name", "at most 40"),
        ("size,name,number\nM,A\u200bB,7\n", "row 2, name", "control"),
        ('size,name,number\nM,"A\nB",7\n', "row 2, name", "control"),
        ("size,name,number\nM,A\x00B,7\n", "row 2, name", "control"),
        ("size,name,number\nM,=1+1,7\n", "row 2, name", "begins with a letter"),
        ("size,name,number\nM,@A,7\n", "row 2, name", "begins with a letter"),
        (GOOD.encode("utf-16"), "squad.csv:", "UTF-16"),
        (b"size,name,number\nM,\x81\xff,7\n", "squad.csv:", "no text"),
        ("size,name,number\n" + "M,A,7\n" * (MOST_ROWS + 1), "squad.csv:", "more than"),
    ],
)
def test_one_thing_wrong(text: str | bytes, where: str, says: str) -> None:
    """One mistake is one line, with its row and column, and what is allowed."""
    (line,) = said(text)
    assert line.startswith("squad.csv: ")
    assert where in line
    assert says in line


def test_everything_at_once() -> None:
    """All that is wrong in a list is said in one run."""
    lines = said("size,name,number\nM,A,777\nQ,B,8\nM,+C,x\nM,,\n")
    assert [line.split(": ")[1] for line in lines] == [
        "row 2, number",
        "row 3, size",
        "row 4, name",
        "row 4, number",
        "row 5",
    ]


def test_a_garment_must_be_named_where_there_are_two() -> None:
    """With two garment lines a row that names neither is told both."""
    (line,) = said(GOOD.replace("2XL,Núñez,10\n", ""), ADULT, YOUTH)
    assert "row 2, garment" in line
    assert "adult, youth" in line


def test_a_number_is_only_missed_where_one_is_printed() -> None:
    """A list of names alone needs no numbers, one of numbers alone no names."""
    assert players("size,name\nM,A\n", prints=("back-name",))[0].number == ""
    assert players("size,number\nM,7\n", prints=("front-number",))[0].name == ""


def test_a_number_worn_twice() -> None:
    """A number on two shirts of one colour is remarked, even on two garments; it blocks nothing."""
    text = "garment,size,name,number\nadult,M,A,7\nyouth,M,B,7\nadult,S,C,8\n"
    away = Line("youth", "#ffffff", ("S", "M"))
    (one,) = read(text.encode(), "squad.csv", (ADULT, YOUTH), PRINTS)[1]
    assert (one.blocks, one.about) == (False, "number 7")
    assert "rows 2, 3" in one.says
    assert read(text.encode(), "squad.csv", (ADULT, away), PRINTS)[1] == ()


@pytest.mark.parametrize("number", ["0", "00", "7", "100", "007", "999"])
def test_numbers_by_an_orders_own_rules(number: str) -> None:
    """Where no published rule speaks a number has one to three figures, as written."""
    data = f"size,name,number\nM,A,{number}\n".encode()
    (one,), _ = read(data, "squad.csv", (ADULT,), PRINTS, any_number=True)
    assert one.number == number
    with pytest.raises(BadInput, match="one to three figures"):
        read(data.replace(b"A,", b"A,1000"), "squad.csv", (ADULT,), PRINTS, any_number=True)


def test_a_player_without_a_number() -> None:
    """A coach's shirt may have a name alone, and that is remarked."""
    data = b"size,name,number\nM,Abbott,\nM,B,8\n"
    (coach, _), (one,) = read(data, "squad.csv", (ADULT,), PRINTS)
    assert (coach.name, coach.number) == ("Abbott", "")
    assert not one.blocks
    assert one.says == "Abbott has no number: none is printed"


@pytest.mark.parametrize(
    ("prints", "column"), [(("back-name",), "name"), (("front-number",), "number")]
)
def test_a_row_with_nothing_to_print(prints: tuple[str, ...], column: str) -> None:
    """Where names or numbers alone are printed each row has one."""
    (line,) = said(f"size,{column}\nM,\n", prints=prints)
    assert line.startswith(f"squad.csv: row 2, {column}: missing")


def test_a_player_without_a_name() -> None:
    """A player without a name gets none, and that is remarked."""
    (one,) = read(b"size,name,number\nM,,7\nM,B,8\n", "squad.csv", (ADULT,), PRINTS)[1]
    assert not one.blocks
    assert "row 2" in one.says


_CELL = st.one_of(
    st.sampled_from(["M", "2XL", "7", "00", "Abbott", "O'Neil", "=1", '"', '""', "adult", ""]),
    st.text(max_size=6),
)
_TABLE = st.lists(st.lists(_CELL, max_size=5), max_size=5)


@given(_TABLE, st.sampled_from(",;\t"), st.booleans())
def test_any_table_is_a_list_or_bad_input(
    table: list[list[str]], delimiter: str, headed: bool
) -> None:
    """Whatever a table holds, it is read whole or refused in lines that can be printed."""
    text = "\n".join(delimiter.join(row) for row in table)
    _list_or_bad_input(("size,name,number\n" if headed else "").encode() + _bytes(text))


@given(st.binary(max_size=200))
def test_any_bytes_are_a_list_or_bad_input(data: bytes) -> None:
    """So it is with any bytes at all."""
    _list_or_bad_input(data)
    _list_or_bad_input(b"size;name;number\n" + data)


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "replace")


def _list_or_bad_input(data: bytes) -> None:
    found, lines = _tried(data)
    assert all(line.isprintable() and line.startswith("squad.csv") for line in lines)
    assert found or lines
    assert all(one.size in ADULT.sizes and (one.name or one.number) for one in found)
    assert all(one.name.isprintable() and one.quantity >= 1 for one in found)


def _tried(data: bytes) -> tuple[tuple[Player, ...], tuple[str, ...]]:
    """Return the players of any bytes, or the lines that say what is wrong with them."""
    try:
        return read(data, "squad.csv", (ADULT,), PRINTS)[0], ()
    except JigsError as error:
        return (), error.lines()
