"""Workbooks: built by the tests, good and broken, down to what is no workbook at all."""

import io
import re
import zipfile
from contextlib import suppress
from datetime import date, time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, JigsError, Place
from jigs.tables import spec_files, spec_xlsx
from jigs.tables.importer import Imported
from jigs.tables.spec_files import read_grid
from tests.tables.sheets import Entry, complaints, imported, workbook

ROWS: list[list[Entry]] = [
    ["Boxy tee"],
    ["POM", "Sizes (cm)", None, None, "Tolerance", None],
    [None, "S", "M", "L", "+", "-"],
    ["Half chest", 45.5, 50.5, 55.5, 1, 0.5],
    ["Body length", 70, 72, 74, 1, 2],
]
MERGED = ["A1:F1", "A2:A3", "B2:D2", "E2:F2"]


def changed(cell: str, entry: Entry) -> bytes:
    """Return the workbook of the rows with another entry in a cell."""
    rows = [list(row) for row in ROWS]
    rows[int(cell[1:]) - 1][ord(cell[0]) - ord("A")] = entry
    return workbook(("Spec", rows), merged=MERGED)


def said(data: bytes, name: str = "a.xlsx", sheet: str | None = None) -> str:
    """Return why a file is refused, in one line."""
    with pytest.raises(BadInput) as caught:
        read_grid(name, data, sheet, Place(name))
    assert len(caught.value.lines()) == 1
    return caught.value.lines()[0]


def test_merged_headings_are_read_where_they_begin() -> None:
    """Two rows of headings, the name of the table across all columns, two tolerances."""
    found = imported(workbook(("Spec", ROWS), merged=MERGED), "a.xlsx")

    assert found.table.title == "Boxy tee"
    assert found.sizes == ("S", "M", "L")
    assert [size.mm("half_chest") for size in found.table.sizes] == [455, 505, 555]
    assert [size.mm("body_length") for size in found.table.sizes] == [700, 720, 740]
    assert found.table.sizes[0]["half_chest"].plus_minus == 10
    assert found.table.sizes[0]["body_length"].plus_minus == 20
    assert (found.unit, found.unit_from) == ("cm", "B2")


def test_a_merged_figure_stands_for_its_first_size_alone() -> None:
    """That it holds for the others is not guessed: they are said to be empty."""
    rows: list[list[Entry]] = [*ROWS, ["Rib width", 2, None, None]]
    data = workbook(("Spec", rows), merged=[*MERGED, "B6:D6"])
    cells = ["C6 (Rib width, size M)", "D6 (Rib width, size L)"]

    assert [cell for cell, _ in complaints(data, "a.xlsx")] == cells


@pytest.mark.parametrize(
    ("entry", "number_format", "expected"),
    [
        (18.5, "# ?/?", '"18 1/2"'),
        (0.75, "# ?/?", '"3/4"'),
        (18.0625, "# ??/16", '"18 1/16"'),
        (18.5, "0.0", "18.5"),
        (18.4375, "0.0", "18.4375"),
        (18.5, '0.0" in"', "18.5"),
        (18.5, '# ?/?\\"', '"18 1/2"'),
        (18.5, "0.00;[Red]-0.00", "18.5"),
        (18, "General", "18"),
        (18, 'General" in"', "18"),
        (18.1 + 0.2, "General", "18.3"),
        (18.299999999999997, "General", "18.3"),
    ],
)
def test_numbers_are_read_as_they_are_stored(
    entry: float, number_format: str, expected: str
) -> None:
    """Fractions as such, decimals uncut, the unit of a number format as one said beside it."""
    rows: list[list[Entry]] = [
        ["POM (in)", "S"], ["Half chest", 20], ["Body length", 28], ["Sleeve length", entry],
    ]  # fmt: skip
    if entry < 1:
        rows[-1][0] = "Back neck drop"
    found = imported(workbook(("a", rows), formats={"B4": number_format}), "a.xlsx")

    assert f"= [{expected}]" in found.text.split("body_length")[1]


def test_a_number_formats_unit_is_a_unit() -> None:
    """Where nothing else says one, and where something else says another."""
    rows: list[list[Entry]] = [["POM", "S"], ["Half chest", 50], ["Body length", 70]]
    formats = {"B2": '0" cm"', "B3": '0.0" cm"'}
    found = imported(workbook(("a", rows), formats=formats), "a.xlsx")
    assert (found.unit, found.unit_from) == ("cm", "B2, B3")

    rows[0][0] = "POM (in)"
    cells = complaints(workbook(("a", rows), formats=formats), "a.xlsx")
    assert [cell for cell, _ in cells] == ["B2 (Half chest, size S)", "B3 (Body length, size S)"]


BROKEN: dict[str, tuple[str, Entry, str, str]] = {
    "a size made a date": ("C3", date(2024, 12, 6), "C3 (size)", "'2024-12-06', a date"),
    "a length made a date": ("C4", date(2024, 2, 1), "C4 (Half chest, size M)", "a date"),
    "a length made a time": ("C4", time(1, 30), "C4 (Half chest, size M)", "a date"),
    "a formula never computed": ("C4", "=B4+5", "C4 (Half chest, size M)", "without a stored"),
    "an error": ("C4", "#REF!", "C4 (Half chest, size M)", "'#REF!', an error of the spreads"),
    "a truth": ("C4", True, "C4 (Half chest, size M)", "found 'TRUE'; no length"),
    "a text": ("C4", "50,5 or so", "C4 (Half chest, size M)", "found '50,5 or so'; no length"),
    "a tolerance made a date": ("E5", date(2024, 2, 1), "E5 (Body length, tolerance)", "a date"),
    "a name never computed": ("A5", "=A9", "A5", "a formula without a stored result"),
    "a size never computed": ("D3", "=A9", "D3 (size)", "a formula without a stored result"),
    "a percentage": ("C4", "50%", "C4 (Half chest, size M)", "found '50%'; no length"),
}


@pytest.mark.parametrize("case", BROKEN)
def test_what_a_spreadsheet_makes_of_an_entry_is_said(case: str) -> None:
    """Dates, formulas, errors: with the cell, and what to do about it."""
    cell, entry, place, message = BROKEN[case]
    found = complaints(changed(cell, entry), "a.xlsx")
    assert place in [at for at, _ in found]
    assert message in dict(found)[place]


@pytest.mark.parametrize(
    ("stored", "complaint"),
    [
        (b"<v>50.5</v>", None),
        (b"<v></v>", "a formula without a stored result"),
        (b"", "a formula without a stored result"),
    ],
)
def test_a_formulas_stored_result_is_what_it_says(stored: bytes, complaint: str | None) -> None:
    """It is never computed, be it ever so simple."""
    parts = unzipped(changed("C4", "=1+1"))
    name = "xl/worksheets/sheet1.xml"
    assert b"<f>1+1</f><v></v>" in parts[name] or b"<f>1+1</f><v />" in parts[name]
    for empty in (b"<f>1+1</f><v></v>", b"<f>1+1</f><v />"):
        parts[name] = parts[name].replace(empty, b"<f>1+1</f>" + stored)
    found = complaints(zipped(**parts), "a.xlsx")

    if complaint is None:
        assert imported(zipped(**parts), "a.xlsx").table.sizes[1].mm("half_chest") == 505
    else:
        assert [cell for cell, _ in found] == ["C4 (Half chest, size M)"]
        assert complaint in found[0][1]


def test_a_formulas_empty_text_is_a_blank_cell() -> None:
    """In a column of tolerances there is none then."""
    parts = unzipped(changed("F5", '=IF(1=1,"",2)'))
    name = "xl/worksheets/sheet1.xml"
    start = parts[name].index(b'<c r="F5"')
    end = parts[name].index(b"</c>", start)
    parts[name] = parts[name][:start] + b'<c r="F5" t="str"><f>A1</f><v></v>' + parts[name][end:]
    assert imported(zipped(**parts), "a.xlsx").table.sizes[0]["body_length"].plus_minus == 10


def test_the_only_sheet_with_content_is_read() -> None:
    """Empty and hidden ones do not count; a named one is read in any case."""
    other: list[list[Entry]] = [["S", "M"], ["x", "y"]]
    data = workbook(("Empty", []), ("Spec", ROWS), ("Lists", other), hidden=["Lists"])
    assert imported(data, "a.xlsx") == imported(data, "a.xlsx", sheet="Spec")

    both = workbook(("Spec", ROWS), ("Lists", other))
    assert "found 2 sheets: Spec, Lists; say which with --sheet" in said(both)
    assert "option: --sheet: found 'Spek'; sheets: Spec, Lists" in said(both, sheet="Spek")
    assert imported(both, "a.xlsx", sheet="Spec").sizes == ("S", "M", "L")
    assert "no cell with anything in it" in said(both[:0] + workbook(("Empty", [])))


def zipped(**parts: bytes) -> bytes:
    """Return a zip file of parts."""
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in parts.items():
            packed.writestr(name, data)
    return written.getvalue()


def unzipped(data: bytes) -> dict[str, bytes]:
    """Return the parts of a zip file."""
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504)
BOOK = {"[Content_Types].xml": b"<Types/>", "xl/workbook.xml": b"<workbook/>"}
REFUSED = {
    "a text named xlsx": ("a.xlsx", b"POM,S,M\n", "is no .xlsx workbook"),
    "a workbook named csv": ("a.csv", b"PK\x03\x04....", "give it its own ending, .xlsx"),
    "under a password": (
        "a.xlsx",
        OLE + "EncryptedPackage".encode("utf-16-le"),
        "is under a password",
    ),
    "the old kind": ("a.xlsx", OLE, "is a workbook of the old kind, .xls"),
    "the old kind named csv": ("a.csv", OLE, "is a workbook of the old kind, .xls"),
    "xls": ("a.xls", OLE, "found a file ending in '.xls'; save the spec sheet as .xlsx or .csv"),
    "ods": ("a.ods", b"PK", "found a file ending in '.ods'"),
    "numbers": ("a.numbers", b"PK", "found a file ending in '.numbers'"),
    "no ending": ("spec", b"", "found a file ending in ''"),
    "empty": ("a.xlsx", b"", "is no .xlsx workbook"),
    "empty csv": ("a.csv", b"", "found no cell with anything in it"),
    "a zip of other things": ("a.xlsx", zipped(a=b"b"), "is a zip file, but no workbook"),
    "a zip cut short": ("a.xlsx", zipped(**BOOK)[:80], "cannot be read as an .xlsx workbook"),
    "no sheets": ("a.xlsx", zipped(**BOOK), "cannot be read as an .xlsx workbook"),
    "no text": ("a.csv", b"POM,S\x00,M\n", "found bytes of nought"),
    "letters of no kind": ("a.csv", b"POM,S\nH\x81,1\n", "line 2: byte 0x81"),
    "half a letter": ("a.csv", b"\xff\xfeP\x00O", "byte"),
    "a sheet of csv": ("a.csv", b"POM,S", "a CSV file has one sheet"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_no_spec_sheet_is_refused_in_one_line(case: str) -> None:
    """Each by what it is, with what to do instead."""
    name, data, message = REFUSED[case]
    assert message in said(data, name, "Spec" if "sheet of csv" in case else None)


def test_a_bomb_is_not_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would unpack to more than a spec sheet holds is refused from the list of its parts."""
    monkeypatch.setattr(spec_xlsx, "_sheets", None)
    bomb = zipped(**BOOK, **{"xl/worksheets/sheet1.xml": b"0" * 60_000_000})
    assert len(bomb) < 100_000
    assert "unpacks to more than 50 MB" in said(bomb)
    many = zipped(**BOOK, **{f"xl/{n}": b"" for n in range(2001)})
    assert "2000 parts" in said(many)


def test_entities_are_not_expanded() -> None:
    """A workbook whose XML defines entities is damaged, whatever they would grow to."""
    parts = unzipped(workbook(("Spec", ROWS)))
    sheet = parts["xl/worksheets/sheet1.xml"]
    bomb = b'<!DOCTYPE a [<!ENTITY b "cc"><!ENTITY d "&b;&b;">]>'
    parts["xl/worksheets/sheet1.xml"] = bomb + sheet
    assert "cannot be read as an .xlsx workbook" in said(zipped(**parts))


@pytest.mark.parametrize(("row", "column"), [(1001, 1), (1, 201), (30_000, 1)])
def test_a_sheet_that_reaches_too_far_is_refused(row: int, column: int) -> None:
    """Content beyond a thousand rows or two hundred columns is no spec sheet's."""
    last: list[Entry] = [*([None] * (column - 1)), "x"]
    rows: list[list[Entry]] = [*ROWS, *([[]] * (row - 6)), last]
    assert "reaches further than row 1000 or 200 columns" in said(workbook(("Spec", rows)))


def test_another_sheet_may_be_large() -> None:
    """Only the one that is read must be a spec sheet."""
    large: list[list[Entry]] = [["x"]] * 1001
    data = workbook(("Spec", ROWS), ("Orders", large))
    assert imported(data, "a.xlsx", sheet="Spec").sizes == ("S", "M", "L")
    assert "found 2 sheets: Spec, Orders" in said(data)
    assert "reaches further" in said(data, sheet="Orders")


@given(st.data())
def test_a_damaged_workbook_is_a_table_or_bad_input(data: st.DataObject) -> None:
    """However its parts are changed: tags left out, attributes and contents put for others."""
    parts = unzipped(workbook(("Spec", ROWS), formats={"B4": '0.0" cm"'}))
    for _ in range(data.draw(st.integers(1, 3))):
        name = data.draw(st.sampled_from(sorted(parts)))
        text = parts[name].decode()
        kind = data.draw(st.sampled_from((r"<[^>]+>", r"\"[^\"]{0,12}\"", r"(?<=>)[^<]+(?=<)")))
        found = list(re.finditer(kind, text))
        if found:
            one = data.draw(st.sampled_from(found))
            instead = data.draw(st.sampled_from(("", '"-1"', '"999999999"', '"d"', "nan", "1e999")))
            parts[name] = (text[: one.start()] + instead + text[one.end() :]).encode()
    try:
        result: Imported | JigsError = imported(zipped(**parts), "a.xlsx")
    except JigsError as error:
        result = error
    assert isinstance(result, Imported) or all(line.isprintable() for line in result.lines())


def test_the_library_does_not_speak(capsys: pytest.CaptureFixture[str]) -> None:
    """What it prints on damage would stand in the report."""
    parts = unzipped(workbook(("Spec", ROWS)))
    styles = "xl/styles.xml"
    parts[styles] = re.sub(rb"<cellStyleXfs.*</cellStyleXfs>", b"<cellStyleXfs/>", parts[styles])
    with suppress(JigsError):
        imported(zipped(**parts), "a.xlsx")
    assert capsys.readouterr().out == ""


def test_a_large_file_is_refused_before_it_is_read() -> None:
    """By its size alone."""
    assert "is larger than 10 MB" in said(bytes(10_000_001))
    assert spec_files.read_grid("a.csv", b"a", None, Place("a.csv")).width == 1


def test_a_csv_that_reaches_too_far_is_refused() -> None:
    """In rows, columns, or the letters of a cell."""
    assert "at most 1000 and 200" in said(b"a\n" * 1001, "a.csv")
    assert "at most 1000 and 200" in said(b"," * 200 + b"a", "a.csv")
    assert "A1: found a text of 5000 characters" in said(b"a" * 5000, "a.csv")
    assert "field larger than field limit" in said(b"a" * 200_000, "a.csv")


def test_nothing_is_written_beside_a_workbook(tmp_path: Path) -> None:
    """Reading leaves no trace: no unpacked parts, no lock."""
    file = tmp_path / "a.xlsx"
    file.write_bytes(workbook(("Spec", ROWS)))
    imported(file.read_bytes(), "a.xlsx")
    assert [one.name for one in tmp_path.iterdir()] == ["a.xlsx"]
