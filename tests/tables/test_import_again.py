"""Any table, written as a spec sheet of any layout, is the same table when it is imported."""

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.utils.exceptions import IllegalCharacterError

from jigs.errors import JigsError
from jigs.tables.importer import Imported
from tests.tables.sheets import Entry, imported, workbook

MM = {"in": Fraction("25.4"), "cm": Fraction(10), "mm": Fraction(1)}
#: Inches of the smallest size, and what a size adds: a crew-neck tee, invented.
GRADED = {
    "half_chest": ("18", "2"),
    "body_length": ("28", "1"),
    "neck_width": ("6 3/4", "3/16"),
    "front_neck_drop": ("3 1/2", "1/8"),
    "back_neck_drop": ("3/4", "0"),
    "across_shoulder": ("17", "1"),
    "shoulder_drop": ("2", "1/8"),
    "armhole_depth": ("9 1/2", "5/8"),
    "sleeve_length": ("8", "1/4"),
    "sleeve_opening": ("6 1/2", "1/4"),
    "bicep": ("7", "1/2"),
    "waist": ("17", "2"),
}
OTHER = "waist"
#: What a sheet may call them, and the part of its figure that is ours.
NAMES: dict[str, list[tuple[str, int]]] = {
    "half_chest": [
        ("Half Chest", 1), ("Chest Width", 1), ("1/2 chest", 1), ("½ Chest", 1), ("Pit to pit", 1),
        ("CHEST CIRCUMFERENCE", 2), ("Full chest", 2), ("half_chest", 1),
    ],
    "body_length": [("Body length", 1), ("Length from HPS", 1), ("HPS to Hem", 1)],
    "neck_width": [("Neck width", 1), ("Neck width (seam to seam)", 1)],
    "front_neck_drop": [("Front neck drop", 1), ("Neck drop, front", 1)],
    "back_neck_drop": [("Back neck drop", 1), ("Neck depth - back", 1)],
    "across_shoulder": [("Across Shoulder", 1), ("Across shoulders", 1)],
    "shoulder_drop": [("Shoulder drop", 1), ("Shoulder slope", 1)],
    "armhole_depth": [("Armhole depth", 1), ("Armhole depth from HPS", 1)],
    "sleeve_length": [("Sleeve length", 1), ("Sleeve length from shoulder", 1)],
    "sleeve_opening": [("Sleeve opening", 1), ("Sleeve hem width", 1)],
    "bicep": [("Bicep", 1), ("Bicep Circumference", 2)],
    "waist": [("Waist", 1), ("To fit", 1), ("Hip position", 1)],  # none of ours
}  # fmt: skip
SIZES = (
    ("XS", "S", "M", "L", "XL", "2XL"), ("S", "M", "L", "XL", "XXL", "XXXL"),
    ("YXS", "YS", "YM", "YL", "YXL"), ("2T", "3T", "4T", "5/6T"), ("NB", "3-6M", "6-12M", "12-18M"),
    ("34", "36", "38", "40"), ("Small", "Medium", "Large", "X-Large"), ("S (34-36)", "M (38-40)"),
)  # fmt: skip
VULGAR = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞"}


@dataclass(frozen=True)
class Sheet:
    """A spec sheet, what `--unit` says, and the figures of its table: by point, in its unit."""

    cells: list[list[Entry]]
    option: str | None
    sizes: Sequence[str]
    unit: str
    figures: dict[str, list[Fraction]]
    tolerances: dict[str, Fraction]


def spelled(value: Fraction, draw: Callable[[st.SearchStrategy[str]], str]) -> str:
    """Return one of the common spellings of a number."""
    whole, part = divmod(value, 1)
    decimal = f"{float(value):.10g}"
    ways = [decimal]
    if part and len(decimal.partition(".")[2]) != 3:
        ways.append(decimal.replace(".", ","))
    if part and part.denominator in {2, 4, 8, 16}:
        ways += [f"{whole} {part}", f"{whole}-{part}", f"{whole}\u00a0{part}", f"{whole} – {part}"]
        ways[-4:] = [str(part)] if not whole else ways[-4:]
        sign = VULGAR.get(str(part))
        if sign:
            ways += [f"{whole or ''}{sign}", f"{whole} {sign}" if whole else sign]
    return draw(st.sampled_from(ways))


def other_columns(
    draw: st.DrawFn, points: Sequence[str], names: dict[str, tuple[str, int]], least: Fraction
) -> tuple[list[list[Entry]], dict[str, Fraction]]:
    """Draw columns that are no sizes, and the tolerances that stand in them."""
    tolerances: dict[str, Fraction] = {}
    extra: list[list[Entry]] = []
    if draw(st.booleans()):
        given_to = [one for one in points if draw(st.booleans())]
        tolerances = {one: least * draw(st.integers(1, 3)) for one in given_to}
        mark = draw(st.sampled_from(("", "+/- ", "±")))
        extra.append(
            [
                draw(st.sampled_from(("Tol", "TOL. +/-", "±", "Tolerance"))),
                *(
                    mark + spelled(tolerances[one] * names[one][1], draw) if one in given_to else ""
                    for one in points
                ),
            ]
        )
    if draw(st.booleans()):
        extra.append(["Grade", *("1" for _ in points)])
    if draw(st.booleans()):
        notes = st.sampled_from(("", "seam to seam", '1" below the armhole', "see sketch, page 2"))
        extra.append(["Notes", *(draw(notes) for _ in points)])
    if draw(st.booleans()):
        extra.append(["" for _ in range(len(points) + 1)])
    return extra, tolerances


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    """Draw a table and a layout for it."""
    unit = draw(st.sampled_from(tuple(MM)))
    least = {"in": Fraction(1, 16), "cm": Fraction(1, 10), "mm": Fraction(1)}[unit]
    sizes = draw(st.sampled_from(SIZES))
    others = list(GRADED)[2:]
    points = ["half_chest", "body_length", *draw(st.lists(st.sampled_from(others), unique=True))]
    points = draw(st.permutations(points))
    figures: dict[str, list[Fraction]] = {}
    for point in points:
        start, step = (sum(map(Fraction, text.split())) for text in GRADED[point])
        more = draw(st.integers(0, 2)) * least
        figures[point] = [
            round((start + step * n) * Fraction("25.4") / MM[unit] / least) * least + more
            for n in range(len(sizes))
        ]
    names = {point: draw(st.sampled_from(NAMES[point])) for point in points}
    said = draw(st.sampled_from(("title", "corner", "names", "values", "column", "option")))
    word = draw(st.sampled_from({"in": ("in", "inches", "Inch"), "cm": ("cm", "CM"),
                                 "mm": ("mm", "MM")}[unit]))  # fmt: skip
    beside = draw(st.sampled_from((f" {word}", *(('"', "”", "″") if unit == "in" else ()))))

    def value(number: Fraction) -> str:
        return spelled(number, draw) + (beside if said == "values" else "")

    columns: list[list[Entry]] = []
    if draw(st.booleans()):
        codes: list[Entry] = list("ABCDEFGHIJKLMNOP"[: len(points)])
        columns.append([draw(st.sampled_from(("Code", "#", ""))), *codes])
    corner = draw(st.sampled_from(("POM", "Point of Measure", "Measurement", "Size", "")))
    called: list[Entry] = [
        f"{names[one][0]} ({word})" if said == "names" else names[one][0] for one in points
    ]
    columns.append([f"{corner} ({word})" if said == "corner" else corner, *called])
    for n, size in enumerate(sizes):
        columns.append([size, *(value(figures[one][n] * names[one][1]) for one in points)])
    extra, tolerances = other_columns(draw, points, names, least)
    if said == "column":
        extra.append(["Unit", *(word for _ in points)])
    columns += draw(st.permutations(extra))
    turned = draw(st.booleans())
    table = columns if turned else [list(row) for row in zip(*columns, strict=True)]
    above: list[list[Entry]] = [["A tee of ours"]] if draw(st.booleans()) else []
    if said == "title":
        above.append([draw(st.sampled_from((f"All measurements in {word}", f"Unit: {word}")))])
    above += [[""]] * draw(st.integers(0, 2))
    below: list[list[Entry]] = [[""], ["Made up for a test"]] if draw(st.booleans()) else []
    figures.pop(OTHER, None)
    tolerances.pop(OTHER, None)
    return Sheet(
        [*above, *table, *below], unit if said == "option" else None, sizes, unit, figures,
        tolerances,
    )  # fmt: skip


def as_number(entry: Entry) -> Entry:
    """Return what a spreadsheet makes of an entry that is a number."""
    text = str(entry)
    return float(text) if text.replace(".", "", 1).isdecimal() and text.isascii() else text


def written(sheet: Sheet, draw: Callable[[st.SearchStrategy[str]], str]) -> tuple[bytes, str]:
    """Return the sheet as a file, and the file's name."""
    form = draw(st.sampled_from((",", ";", "\t", "xlsx", "xlsx")))
    if form == "xlsx":
        typed = draw(st.sampled_from(("as texts", "as numbers"))) == "as numbers"
        rows = [[as_number(cell) if typed else cell for cell in row] for row in sheet.cells]
        return workbook(("Spec", rows)), "a.xlsx"
    text = io.StringIO()
    width = max(map(len, sheet.cells))
    rows = [[*row, *[""] * (width - len(row))] for row in sheet.cells]
    csv.writer(text, delimiter=form).writerows(rows)
    coding = draw(st.sampled_from(("utf-8", "utf-8-sig", "utf-16")))
    return text.getvalue().encode(coding), "a.csv"


@settings(max_examples=120)
@given(st.data())
def test_a_table_written_as_a_sheet_is_imported_as_the_same_table(data: st.DataObject) -> None:
    """Sizes, every length and every tolerance, whatever the layout."""
    sheet = data.draw(sheets())
    file, name = written(sheet, data.draw)
    found = imported(file, name, unit=sheet.option)
    worth = MM[sheet.unit]

    assert [size.size for size in found.table.sizes] == list(sheet.sizes)
    assert set(found.table.sizes[0].values) == set(sheet.figures)
    for point, figures in sheet.figures.items():
        lengths = [size.mm(point) for size in found.table.sizes]
        assert lengths == pytest.approx([float(one * worth) for one in figures], rel=1e-9)
    for point, tolerance in sheet.tolerances.items():
        wide = found.table.sizes[0][point].plus_minus
        assert wide == pytest.approx(float(tolerance * worth), rel=1e-9)
    assert {row.meaning.point for row in found.rows if row.tolerance} == set(sheet.tolerances)


PIECES = [
    "", "0", "-1", "18 1/2", "18,5", "1,000", "½", "1/0", "nan", "inf", "9" * 400, "S", "M", "XXL",
    "6-12", "12-Jun", "Half chest", "Chest", "Sleeve", "Tol", "cm", "in", '"', "(cm)", "=A1", "\n",
    ";", ",", "\t", "\x00", "\u202e", "±", "+1/2 -1/4", "A" * 5000, "Measurements in mm", "e" * 19,
]  # fmt: skip


@settings(max_examples=120)
@given(st.data())
def test_any_sheet_is_a_table_or_bad_input(data: st.DataObject) -> None:
    """However its cells are changed, the answer is a table or what is wrong with the sheet."""
    sheet = data.draw(sheets())
    for _ in range(data.draw(st.integers(1, 8))):
        row = data.draw(st.sampled_from(sheet.cells))
        column = data.draw(st.integers(0, len(row) - 1))
        row[column] = data.draw(st.sampled_from(PIECES) | st.text(max_size=8))
    file, name = written_or_none(sheet, data.draw)
    judged(file, name, sheet.option)


def written_or_none(
    sheet: Sheet, draw: Callable[[st.SearchStrategy[str]], str]
) -> tuple[bytes, str]:
    """Return the sheet as a file; as CSV where a workbook cannot hold its letters."""
    try:
        return written(sheet, draw)
    except (
        ValueError,
        IllegalCharacterError,
    ):  # control letters in a workbook, surrogates in UTF-8
        text = "\n".join(",".join(str(cell or "") for cell in row) for row in sheet.cells)
        return text.encode("utf-8", "replace"), "a.csv"


@settings(max_examples=120)
@given(
    st.sampled_from(("a.csv", "a.xlsx")),
    st.lists(st.tuples(st.integers(0, 20_000), st.integers(0, 40), st.binary(max_size=6))),
)
def test_any_bytes_are_a_table_or_bad_input(name: str, edits: list[tuple[int, int, bytes]]) -> None:
    """However a file is damaged, and also if it is nothing but noise."""
    table: list[list[Entry]] = [["cm", "S", "M"], ["Half chest", 45, 50], ["Body length", 70, 72]]
    text = "\n".join(",".join(map(str, row)) for row in table).encode()
    file = workbook(("Spec", table)) if name == "a.xlsx" else text
    for start, length, instead in edits:
        at = start % (len(file) + 1)
        file = file[:at] + instead + file[at + length :]
    judged(file, name, None)


def judged(file: bytes, name: str, unit: str | None) -> None:
    """Import a file; what is wrong with it is told in printable lines that name it."""
    try:
        result: Imported | JigsError = imported(file, name, unit=unit)
    except JigsError as error:
        result = error
    if isinstance(result, JigsError):
        assert result.lines()
        assert all(line.startswith(name) and line.isprintable() for line in result.lines())
    else:
        assert all(m.mm > 0 for size in result.table.sizes for m in size.values.values())
