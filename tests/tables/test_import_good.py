"""Invented spec sheets of many layouts, each against the figures its reader sees."""

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import pytest

from tests.tables.sheets import FOLDER, exact, imported

MM = {"in": exact("25.4"), "cm": exact("10"), "mm": exact("1")}


@dataclass(frozen=True)
class Good:
    """What a sheet says: unit and where it is said, sizes, figures and tolerances by point."""

    unit: str
    unit_from: str
    sizes: str
    rows: Mapping[str, str]
    tolerances: Mapping[str, str] = field(default_factory=dict)
    left: Sequence[str] = ()
    maps: Sequence[str] = ()
    turned: bool = False
    title: str = "table"
    option: str | None = None


GOOD = {
    "plain": Good(
        "in", "A1", "S, M, L, XL",
        {"half_chest": "18, 20, 22, 24", "body_length": "28, 29, 30, 31"},
    ),
    "turned": Good(
        "cm", "B1, C1, D1", "XS, S, M",
        {
            "half_chest": "41.9, 45.7, 50.8",
            "body_length": "68.6, 71.1, 73.7",
            "sleeve_length": "19.7, 20.3, 21",
        },
        turned=True,
    ),
    "titled": Good(
        "in", "A2", "S, M, L, 2XL",
        {
            "half_chest": "18, 20, 22, 26",
            "body_length": "28, 29, 30, 32",
            "neck_width": "6 3/4, 6 15/16, 7 1/8, 7 1/2",
            "front_neck_drop": "3 3/8, 3.5, 3 5/8, 3 3/4",
            "back_neck_drop": "3/4, 3/4, 0.75, 0.75",
        },
        {"half_chest": "1/2", "body_length": "1/2", "neck_width": "1/8", "front_neck_drop": "1/8"},
        left=["B10 Waist", "column A Code", "column H How to measure"],
        title="Crew-neck tee, heavy cotton",
    ),
    "semicolons": Good(
        "cm", "A2", "S, M, L",
        {
            "half_chest": "45.5, 50.5, 55.5",
            "body_length": "71, 73.5, 76",
            "hem_width": "45.25, 50.25, 55.25",
        },
        {"half_chest": "1", "body_length": "1.5"},
        title="Maße in cm",
    ),
    "tabs": Good(
        "mm", "A2, A3", "YXS, YS, YM, YL, YXL",
        {"half_chest": "381, 406, 432, 457, 483", "body_length": "495, 533, 571, 610, 648"},
    ),
    "two-tolerances": Good(
        "in", "A3", "Youth S, Youth M, Youth L",
        {
            "half_chest": "16, 17, 18",
            "body_length": "21, 22 1/2, 24",
            "sleeve_opening": "5 1/4, 5 5/8, 6",
        },
        {"half_chest": "1/2", "body_length": "1/2", "sleeve_opening": "1/8"},
        title="Youth tee",
    ),
    "toddler": Good(
        "in", "C4, C5", "2T, 3T, 4T, 5/6T",
        {"half_chest": "12, 12 1/2, 13, 14", "body_length": "15 1/2, 16 1/2, 17 1/2, 19"},
        left=["column A "],
        title="toddler tee / spec",
    ),
    "infant": Good(
        "mm", "converted; cm: G3, G4; mm: G5", "NB, 3-6M, 6-12M, 12-18 mos, 24M",
        {
            "half_chest": "205, 220, 235, 250, 265",
            "body_length": "260, 305, 340, 375, 410",
            "lap_depth": "65, 70, 75, 80, 85",
        },
        title="Infant bodysuit",
    ),
    "numeric": Good(
        "cm", "A3, A4", "34, 36, 38, 40",
        {"half_chest": "45, 47, 49, 51", "body_length": "70, 71, 72, 73"},
    ),
    "two-names-of-sizes": Good(
        "cm", "A1", "XS, S, M, L",
        {"half_chest": "47, 50, 53, 56", "body_length": "68, 70, 72, 74"},
        left=["row 2 ", "A3 EU"],
    ),
    "full-chest": Good(
        "in", "A1", "S, M, L",
        {
            "half_chest": "18 1/4, 20 1/4, 22 1/4",
            "hem_width": "18, 20, 22",
            "body_length": "27.5, 28.5, 29.5",
            "centre_back_sleeve": "33 1/4, 34 1/4, 35 1/4",
        },
        {
            "half_chest": "1/2",
            "hem_width": "3/8",
            "body_length": "1/2",
            "centre_back_sleeve": "1/2",
        },
    ),
    "mapped": Good(
        "cm", "A1", "S, M, L, XL",
        {
            "half_chest": "50, 54, 58, 62",
            "body_length": "68, 70, 72, 74",
            "sleeve_length": "60, 61.5, 63, 64.5",
            "hood_height": "33, 34, 35, 36",
        },
        left=["A6 Hood"],
        maps=[
            "Chest=half_chest*0.5", "length = body_length", "SLEEVE=sleeve_length",
            "Hood=hood_height", "A6=-",
        ],
    ),
    "mixed-units": Good(
        "mm", "converted; cm: A2; in: A3; mm: A4", "S, M, L",
        {
            "half_chest": "455, 505, 555",
            "body_length": "711.2, 749.3, 787.4",
            "neck_width": "170, 175, 180",
        },
    ),
    "tote": Good(
        "in", "B3, B4, B5", "One size",
        {"bag_width": "15", "bag_height": "16 1/2", "handle_spread": "5"},
        title="Tote bag",
    ),
    "graded": Good(
        "cm", "A1", "S, M, L",
        {
            "half_chest": "44, 49, 54",
            "body_length": "62, 64, 66",
            "across_shoulder": "36, 38, 40",
        },
        {"half_chest": "1", "body_length": "1", "across_shoulder": "0.5"},
        left=["column A #", "column C Grade", "column H Remarks"],
        title="Women's tee. Measurements in cm.",
    ),
    "turned-titled": Good(
        "cm", "B5, C5, D5, E5 and 1 more", "S, M, L",
        {
            "half_chest": "48, 51, 54",
            "body_length": "70, 72, 74",
            "placket_length": "14, 14.5, 15",
            "placket_width": "3, 3, 3",
            "collar_fall": "4, 4, 4",
        },
        {
            "half_chest": "1",
            "body_length": "1.5",
            "placket_length": "0.5",
            "placket_width": "0.3",
        },
        left=["G4 Notes", "row 3 ", "row 10 Grade"],
        turned=True,
        title="Polo shirt",
    ),
    "sizes-again": Good(
        "cm", "A2", "S, M, L",
        {"half_chest": "45, 50, 55", "body_length": "70, 72, 74"},
        left=["row 5 "],
    ),
    "quoted": Good(
        "in", "A3", "S, M, L",
        {"half_chest": "18, 20 1/2, 22 3/4", "body_length": "28, 29, 30"},
        title='Tee "box" \\ spec',
    ),
    "left-out": Good(
        "cm", "A1", "S, M, L",
        {"half_chest": "45, 50, 55", "body_length": "70, 72, 74"},
        left=["A4 Chest", "A5 Sleeve length", "column E Sample"],
        maps=["Sample=-", "chest=-"],
    ),
    "sweatshirt": Good(
        "in", "A2", "S, M, L, XL",
        {
            "half_chest": "20, 22, 24, 26",
            "body_length": "26, 27, 28, 29",
            "neck_width": "7 1/2, 7 3/4, 8, 8 1/4",
            "centre_back_sleeve": "33 1/2, 34 1/2, 35 1/2, 36 1/2",
            "bicep": "8 1/4, 8 3/4, 9 1/4, 9 3/4",
            "cuff_height": "2 1/2, 2 1/2, 2 1/2, 2 1/2",
            "hem_rib": "2 1/2, 2 1/2, 2 1/2, 2 1/2",
            "sleeve_opening": "3 1/2, 3 3/4, 4, 4 1/4",
        },
        {
            "half_chest": "1/2", "body_length": "1/2", "neck_width": "1/4",
            "centre_back_sleeve": "1/2", "bicep": "1/4", "cuff_height": "1/8", "hem_rib": "1/8",
            "sleeve_opening": "1/8",
        },
        left=["column A #"],
        title="Crew sweatshirt",
    ),
    "zip-hoodie": Good(
        "cm", "A3", "XS, S, M, L, XL",
        {
            "half_chest": "52.5, 55.5, 58.5, 61.5, 64.5",
            "body_length": "68, 70, 72, 74, 76",
            "zip_width": "3, 3, 3, 3, 3",
            "pocket_width": "34, 34, 36, 36, 38",
            "pocket_top": "22, 22, 23, 23, 24",
            "pocket_height": "20, 20, 21, 21, 22",
            "hood_height": "34, 34.5, 35, 35.5, 36",
            "hood_width": "25, 25.5, 26, 26.5, 27",
        },
        {"half_chest": "1", "body_length": "1"},
        title="Full-zip hoodie",
    ),
    "tank": Good(
        "mm", "A2, A3, A4, A5 and 2 more", "XS, S, M, L, XL, XXL",
        {
            "half_chest": "430, 460, 490, 520, 550, 590",
            "body_length": "680, 700, 720, 740, 760, 780",
            "across_shoulder": "330, 345, 360, 375, 390, 410",
            "armhole_depth": "235, 245, 255, 265, 275, 285",
            "front_neck_drop": "120, 124, 128, 132, 136, 140",
            "back_neck_drop": "40, 42, 44, 46, 48, 50",
        },
    ),
    "v-neck": Good(
        "in", "A2", "XS, S, M, L",
        {
            "half_chest": "16, 17.25, 18.5, 20",
            "body_length": "25 1/4, 25 3/4, 26 1/4, 26 3/4",
            "front_neck_drop": "5 3/4, 5 7/8, 6, 6 1/8",
            "sleeve_opening": "5 1/2, 5 3/4, 6, 6 3/8",
        },
        turned=True,
        title="V-neck tee, women's",
    ),
    "headings-below": Good(
        "cm", "A6", "S, M, L",
        {"half_chest": "45, 50, 55", "body_length": "70, 72, 74"},
        {"half_chest": "1", "body_length": "1"},
        left=["column A "],
    ),
    "row-of-units": Good(
        "cm", "B2", "S, M, L",
        {"half_chest": "45, 50, 55", "body_length": "70, 72, 74"},
        {"half_chest": "0.5", "body_length": "0.5"},
    ),
    "two-blocks": Good(
        "in", "B1", "S, M, L",
        {"half_chest": "18, 20, 22", "body_length": "28, 29, 30"},
        left=["column F S", "column G M", "column H L"],
        maps=["F2=-", "G2=-", "H2=-"],
    ),
    "numbers-named": Good(
        "cm", "A2, A3", "46, 48, 50, 52",
        {"half_chest": "50, 52, 54, 56", "body_length": "70, 71, 72, 73"},
    ),
    "form": Good(
        "cm", "A4", "S, M, L, XL",
        {
            "half_chest": "48, 51, 54, 57",
            "body_length": "70, 72, 74, 76",
            "sleeve_length": "20, 21, 22, 23",
        },
        {"half_chest": "1", "body_length": "1.5", "sleeve_length": "0.5"},
        left=["column A No."],
    ),
    "bare": Good(
        "cm", "--unit", "S, M, L",
        {"half_chest": "45, 50, 55", "body_length": "70, 72, 74"},
        option="cm",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", GOOD)
def test_a_sheet_gives_the_figures_its_reader_sees(name: str) -> None:
    """Every length and tolerance, the sizes, the title, the unit and where it was found."""
    good = GOOD[name]
    data = (FOLDER / "good" / f"{name}.csv").read_bytes()
    found = imported(data, f"{name}.csv", *good.maps, unit=good.option)
    worth = MM[good.unit]

    assert list(found.sizes) == good.sizes.split(", ")
    assert [size.size for size in found.table.sizes] == good.sizes.split(", ")
    assert set(found.table.sizes[0].values) == set(good.rows)
    for point, said in good.rows.items():
        wanted = [float(exact(text) * worth) for text in said.split(", ")]
        assert [size.mm(point) for size in found.table.sizes] == pytest.approx(wanted, rel=1e-12)
    for point, said in good.tolerances.items():
        assert found.table.sizes[0][point].plus_minus == pytest.approx(float(exact(said) * worth))
    assert set(tomllib.loads(found.text).get("tolerances", {})) == set(good.tolerances)
    assert (found.unit, found.unit_from) == (good.unit, good.unit_from)
    assert [f"{one.where} {one.what}" for one in found.left_out] == list(good.left)
    assert found.table.title == good.title
    ways = ("across", "down") if good.turned else ("down", "across")
    assert [f"points of measure {ways[0]} " in found.orientation, ways[1] in found.orientation] == [
        True,
        True,
    ]


def test_every_good_sheet_is_tested() -> None:
    """No file lies in the folder unread."""
    assert {path.stem for path in (FOLDER / "good").glob("*.csv")} == set(GOOD)


def test_fractions_are_written_as_they_were_said() -> None:
    """Lengths said as fractions are texts, all others numbers; a text ends in a reduced one."""
    sheet = b"POM (in),S,M,L,XL\nHalf chest,18 2/4,19.5,20 1/3,22\nBody length,28,29,30,31\n"
    text = imported(sheet, "a.csv").text

    assert 'half_chest  = ["18 1/2", 19.5, "20 1/3", 22]' in text
    assert "body_length = [28, 29, 30, 31]" in text


@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_letters_may_be_coded_in_several_ways(coding: str) -> None:
    """The same sheet in each coding is the same table, halves and dashes included."""
    sheet = "POM – “Größe” (cm),S,M,L\r\nHalf chest,45½,50,55\r\nBody length,70,72,74\r\n"
    plain = imported(sheet.encode(), "a.csv")

    assert imported(sheet.encode(coding), "a.csv") == plain
    assert plain.table.sizes[0].mm("half_chest") == 455


def test_the_same_sheet_gives_the_same_bytes() -> None:
    """Twice, whichever table was read between."""
    sheets = [(FOLDER / "good" / f"{one}.csv").read_bytes() for one in ("titled", "full-chest")]
    once = [imported(data, "a.csv").text for data in sheets]
    assert [imported(data, "a.csv").text for data in sheets] == once


@pytest.mark.parametrize(
    "title", ['say "hi"', "back\\slash", "tab is a space", "ümläut ½", "'single'", "#hash = [1]"]
)
def test_a_title_survives_being_written(title: str) -> None:
    """Whatever quotes and signs it holds."""
    sheet = (FOLDER / "good" / "plain.csv").read_bytes()
    found = imported(sheet, "a.csv", title=title)

    assert found.table.title == title
    assert tomllib.loads(found.text)["title"] == title


def test_a_title_is_the_text_alone_above_the_table() -> None:
    """Not a line that merely says the unit, nor one of several cells."""
    sheet = b"Style,X-1,,\nAll measurements in cm,,,\nBoxy tee,,,\n,S,M,L\nHalf chest,45,50,55\n"
    assert imported(sheet + b"Body length,70,72,74", "a.csv").table.title == "Boxy tee"
