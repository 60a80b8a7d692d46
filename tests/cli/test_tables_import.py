"""`jigs tables import` as a user runs it: report, file, exit codes; nothing written on an error."""

from pathlib import Path

import pytest

from jigs.garments import GARMENTS
from tests.cli.test_commands import data, run
from tests.tables.sheets import FOLDER, Entry, workbook

TEE = ("--cut", "crew-tee", "--age", "adult")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder, the current one."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_sheet_becomes_a_table_that_can_be_used(here: Path) -> None:
    """The report says what was read and what not; the file passes every check."""
    code, out, err = run("tables", "import", FOLDER / "good" / "titled.csv", *TEE)

    assert (code, err) == (0, "")
    for line in (
        "title: Crew-neck tee, heavy cotton",
        "layout: points of measure down column B, sizes across row 5",
        "unit: in (A2)",
        "sizes: S, M, L, 2XL",
        "  B6   1/2 Chest        -> half_chest       ± 1/2 in (G6)",
        "  B13  Back neck drop   -> back_neck_drop   usual tolerance",
        "  B10       Waist           none of our points of measure",
        "  column A  Code            code",
        "wrote titled.toml; name it in an order as table = 'titled.toml'",
    ):
        assert line in out.splitlines()
    assert [one.name for one in here.iterdir()] == ["titled.toml"]
    code, out, _ = run("tables", "check", here / "titled.toml")
    assert (code, "nothing wrong" in out) == (0, True)
    assert 'source = "imported from titled.csv"' in Path("titled.toml").read_text(encoding="utf-8")


def test_options_say_what_the_sheet_does_not(here: Path) -> None:
    """Title, source, unit, meanings, and where the table is written."""
    out = here / "own" / "box.toml"
    code, _, err = run(
        "tables", "import", FOLDER / "good" / "bare.csv", *TEE, "--unit", "cm",
        "--title", 'A "box"',
        "--source", "the mill", "--map", "Half chest=half_chest", "--out", out,
    )  # fmt: skip
    assert (code, err) == (0, "")
    text = out.read_text(encoding="utf-8")
    assert text.startswith(
        'title = "A \\"box\\""\ncut = "crew-tee"\nage = "adult"\nunit = "cm"\nsource = "the mill"\n'
    )


def test_a_workbooks_sheet_is_chosen(here: Path) -> None:
    """By name where there are several."""
    rows: list[list[Entry]] = [
        ["POM (cm)", "S", "M"],
        ["Half chest", 45, 50],
        ["Body length", 70, 72],
    ]
    Path("Größen 1.xlsx").write_bytes(workbook(("Men", rows), ("Women", rows)))
    code, _, err = run("tables", "import", "Größen 1.xlsx", *TEE)
    assert (code, 'say which with --sheet "NAME"' in err) == (2, True)

    code, out, _ = run("tables", "import", "Größen 1.xlsx", *TEE, "--sheet", "Women")
    assert (code, "wrote Gro-en-1.toml" in out) == (0, True)
    assert [one.name for one in here.glob("*.toml")] == ["Gro-en-1.toml"]
    assert "title: Größen 1" in out.splitlines()


def test_the_report_as_data(here: Path) -> None:
    """All lengths in mm, with the cells they came from."""
    found = data("tables", "import", FOLDER / "good" / "full-chest.csv", *TEE)

    assert found["file"] == "full-chest.toml"
    assert (here / found["file"]).exists()
    assert found["unit"] == "in"
    assert found["sizes"] == ["S", "M", "L"]
    assert found["measurements"][0] == {
        "cell": "A2", "name": "Chest Circumference", "point": "half_chest", "times": 0.5,
        "mm": {"S": 463.55, "M": 514.35, "L": 565.15}, "tolerance_mm": 12.7, "tolerance_cell": "E2",
    }  # fmt: skip
    assert found["left_out"] == []
    assert found["findings"] == []


BAD = {
    "no such file": (["no.csv", *TEE], "no file 'no.csv'"),
    "no cut": (["a.csv", "--age", "adult"], "--cut"),
    "no age": (["a.csv", "--cut", "crew-tee"], "--age"),
    "unknown cut": (["a.csv", "--cut", "crew-te", "--age", "adult"],
                    "--cut: unknown garment cut 'crew-te'; did you mean 'crew-tee'?"),
    "unknown age": (["a.csv", "--cut", "crew-tee", "--age", "old"], "'old'"),
    "unknown unit": (["a.csv", *TEE, "--unit", "yd"], "'yd'"),
    "another unit": (["a.csv", *TEE, "--unit", "cm"], "A1: says in, and --unit says cm"),
    "a sheet of csv": (["a.csv", *TEE, "--sheet", "x"], "a CSV file has one sheet"),
    "bad meaning": (["a.csv", *TEE, "--map", "x"], "option: --map: found 'x'; write NAME=POINT"),
    "unknown meaning": (["a.csv", *TEE, "--map", "x=-"], "found 'x', which the sheet does not"),
    "empty title": (["a.csv", *TEE, "--title", ""], "option: --title: found ''"),
    "empty source": (["a.csv", *TEE, "--source", " "], "option: --source: found ' '"),
    "bad name": (["a.csv", *TEE, "--out", "my tee.toml"], "option: --out: found 'my tee.toml'"),
    "bad ending": (["a.csv", *TEE, "--out", "tee.csv"], "option: --out: found 'tee.csv'"),
    "a folder": (["folder", *TEE], "'folder' is a folder"),
    "another kind": (["b.ods", *TEE], "found a file ending in '.ods'"),
}  # fmt: skip


@pytest.mark.parametrize("case", BAD)
def test_a_bad_option_is_one_line_and_nothing_written(case: str, here: Path) -> None:
    """Exit 2, and the folder is as it was."""
    (here / "folder").mkdir()
    Path("a.csv").write_bytes((FOLDER / "good" / "plain.csv").read_bytes())
    Path("b.ods").write_bytes(b"PK")
    before = sorted(here.rglob("*"))
    arguments, says = BAD[case]
    code, out, err = run("tables", "import", *arguments)

    assert (code, out) == (2, "")
    assert says in err
    assert len(err.splitlines()) == 1
    assert sorted(here.rglob("*")) == before


@pytest.mark.parametrize("sheet", sorted(FOLDER.glob("broken/*.csv")), ids=lambda path: path.stem)
def test_a_broken_sheet_writes_nothing(sheet: Path, here: Path) -> None:
    """One line for each problem, each naming the file; exit 2; no folder for the table either."""
    code, out, err = run("tables", "import", sheet, *TEE, "--out", here / "new" / "a.toml")

    assert (code, out) == (2, "")
    assert all(line.startswith(f"jigs: {sheet}: ") for line in err.splitlines())
    assert list(here.iterdir()) == []


def test_a_file_is_never_overwritten(here: Path) -> None:
    """Neither a table of the user's nor one that was imported before."""
    sheet = FOLDER / "good" / "plain.csv"
    assert run("tables", "import", sheet, *TEE)[0] == 0
    (here / "plain.toml").write_text("mine", encoding="utf-8")
    code, out, err = run("tables", "import", sheet, *TEE)

    assert (code, out) == (2, "")
    assert "plain.toml is already there; choose another name" in err
    assert (here / "plain.toml").read_text(encoding="utf-8") == "mine"


def sheet_of(here: Path, *rows: str) -> Path:
    """Return a sheet of two sizes, in centimetres."""
    file = here / "sheet.csv"
    file.write_text("\n".join(["POM (cm),S,M", *rows]), encoding="utf-8")
    return file


TWO = ("Half chest,45,50", "Body length,70,72")


def test_what_another_cut_has_is_left_out_and_said(here: Path) -> None:
    """It may be a sheet of another garment."""
    sheet = sheet_of(here, *TWO, "Hood height,34,35", "Hood width,25,26", "Bicep,19,20")
    code, out, err = run("tables", "import", sheet, "--cut", "tank", "--age", "adult")
    assert (code, err) == (0, "")
    assert "bicep" not in Path("sheet.toml").read_text(encoding="utf-8")
    said = "hood_height, hood_width, bicep are no points of a tank, and left out; is the cut right?"
    assert said in out
    assert "no point of this cut" in out


@pytest.mark.parametrize(
    ("cut", "rows", "says", "never"),
    [
        ("tote", TWO, "found no figures for bag_width; every table gives bag_width and bag_height;",
         "half_chest"),
        ("crew-tee", ("Bag width,38,40", "Bag height,40,42"),
         "found no figures for half_chest; every table gives half_chest and body_length;", "bag_"),
        ("tote", ("Width,38,40", "Bag height,40,42"), "which can mean bag_width", "half_chest"),
        ("crew-tee", ("Width,45,50", TWO[1]), "half_chest or hem_width", "bag_width"),
    ],
)  # fmt: skip
def test_the_cut_says_what_a_sheet_may_mean(
    cut: str, rows: tuple[str, ...], says: str, never: str, here: Path
) -> None:
    """A bag has no chest and a tee no handles."""
    code, out, err = run("tables", "import", sheet_of(here, *rows), "--cut", cut, "--age", "adult")
    assert (code, out) == (2, "")
    assert says in err
    assert not any(f"{never}" in line.partition("other names")[0] for line in err.splitlines())
    assert not Path("sheet.toml").exists()


def test_a_table_that_cannot_be_drawn_is_not_written(here: Path) -> None:
    """The size is said, as `tables check` would of the table."""
    rows = ("Half chest,50.8,56", "Body length,73.7,76", "Front neck drop,25.4,25.4",
            "Neck width,45.5,45.5", "Shoulder drop,5,5", "Across shoulder,46,46")  # fmt: skip
    code, _, err = run("tables", "import", sheet_of(here, *rows), *TEE)
    assert code == 2
    assert f"{here / 'sheet.csv'}: size S: " in err
    assert not Path("sheet.toml").exists()


def test_a_meaning_of_another_cut_is_refused(here: Path) -> None:
    """What the user says outright is no matter of leaving out."""
    sheet = sheet_of(here, *TWO, "Depth,34,35")
    code, _, err = run("tables", "import", sheet, *TEE, "--map", "A4=hood_height")
    assert code == 2
    assert "--map: found 'A4' as hood_height, which is no point of a crew-tee" in err


def test_every_garment_is_a_cut(here: Path) -> None:
    """Whatever the program draws, a sheet may be imported for."""
    for cut in GARMENTS.names():
        out = here / f"{cut}.toml"
        sheet = FOLDER / "good" / ("tote.csv" if cut == "tote" else "plain.csv")
        options = ("--cut", cut, "--age", "adult", "--out", out)
        assert run("tables", "import", sheet, *options)[0] == 0


def test_a_name_of_the_trade_is_known(here: Path) -> None:
    """The chest an inch below the armhole, the sleeve from centre back neck."""
    sheet = here / "sheet.csv"
    sheet.write_text(
        'POM (in),S,M\n"Body Width (1"" below armhole)",18,20\nBody length,28,29\n'
        "Sleeve length from CBN,33,34\n",
        encoding="utf-8",
    )
    code, out, err = run("tables", "import", sheet, *TEE)
    assert (code, err) == (0, "")
    assert "-> half_chest" in out
    assert "-> centre_back_sleeve" in out
    assert "centre_back_sleeve" in run("tables", "points", "crew-tee")[1]
    assert "centre_back_sleeve" not in run("tables", "points", "tank")[1]


def test_a_copy_makes_no_folder(here: Path) -> None:
    """A slip in a path is a line."""
    code, out, err = run("tables", "copy", "adult-crew-tee", here / "none" / "x.toml")
    assert (code, out) == (2, "")
    assert "x.toml: No such file or directory; nothing was changed" in err
    assert len(err.splitlines()) == 1
    assert list(here.iterdir()) == []


def test_each_table_of_the_command_line_has_a_size_that_is_meant() -> None:
    """None is dropped in silence."""
    widths = ("widths", "adult-crew-tee", "toddler-crew-tee", "--location", "full-front",
              "--aspect", "1", "--sizes")  # fmt: skip
    code, out, err = run(*widths, "S-XL")
    assert (code, out, len(err.splitlines())) == (2, "", 1)
    assert "no size of toddler-crew-tee; " in err
    assert "known: 2T, 3T, 4T, 5T/6T" in err
    assert run(*widths, "S-XL, 2T")[0] in {0, 1}
