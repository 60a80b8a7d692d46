"""`jigs tables measure` as a user runs it."""

import stat
from pathlib import Path

import pytest

from tests import orders
from tests.cli.test_commands import data, run

GARMENTS = """\
garment,size,front_neck_drop (cm),body_length
A1,M,9.2,28 3/4 in
A2,M,9.4,
A3,M,9.1,29
B1,L,9.5,
"""


@pytest.fixture
def garments(tmp_path: Path) -> Path:
    """Return a file of measured garments."""
    file = tmp_path / "garments.csv"
    file.write_text(GARMENTS, encoding="utf-8")
    return file


def test_a_table_with_what_was_measured_is_a_new_file(garments: Path, tmp_path: Path) -> None:
    """It says what has changed; the file is a table that shows it, and an order can name it."""
    own = tmp_path / "my-tee.toml"
    code, out, err = run("tables", "measure", "adult-crew-tee", "--garments", garments,
                         "--out", own, "--units", "mm")  # fmt: skip
    assert (code, err) == (0, "")
    line = next(line for line in out.splitlines() if "M     front_neck_drop" in line)
    assert "88.9 mm ± 6.3 mm" in line
    assert "92.3 mm" in line
    assert line.endswith(" 3")
    assert f"wrote {own}" in out

    shown = run("tables", "show", own)[1]
    assert "3.64 meas." in shown
    assert "n=3" in shown
    assert run("tables", "check", own)[0] == 0
    text = orders.ORDER.replace('"adult-crew-tee"', '"my-tee.toml"')
    code, _, err = run("make", orders.small(tmp_path, text), "--out", tmp_path / "out",
                       "--jobs", "1")  # fmt: skip
    assert code == 0, err


def test_an_own_table_is_updated_in_place(garments: Path, tmp_path: Path) -> None:
    """With its comments; and again with other garments, but the same are not counted twice."""
    own = tmp_path / "my-tee.toml"
    run("tables", "copy", "adult-crew-tee", own)
    own.write_text(f"# ours\n{own.read_text(encoding='utf-8')}", encoding="utf-8")
    update = ("tables", "measure", own, "--garments", garments, "--update")
    assert run(*update)[0] == 0
    text = own.read_text(encoding="utf-8")
    assert text.startswith("# ours\n")
    assert 'L = {B1 = "9.5 cm"}' in text
    assert {one.name for one in tmp_path.iterdir()} == {"my-tee.toml", "garments.csv"}

    code, out, err = run(*update)
    assert (code, err) == (0, "")
    assert "note" in out.splitlines()[0]
    assert "6 lengths are in the table already and not added again, of A1, A2, A3, B1" in out
    assert "nothing written; nothing is new" in out
    assert own.read_text(encoding="utf-8") == text

    garments.write_text("size,front_neck_drop (cm)\nM,9.3\nL,9.6\n", encoding="utf-8")
    found = data(*update)
    assert [one["now"]["pieces"] for one in found["changes"]] == [4, 2]
    assert found["changes"][1]["before"]["origin"] == "measured"
    assert found["written"] == str(own)


def test_without_a_file_to_write_nothing_is_written(garments: Path, tmp_path: Path) -> None:
    """It is shown all the same, an estimate as what it was."""
    garments.write_text("size,front_neck_drop (cm)\nNB,6.9\n", encoding="utf-8")
    code, out, _ = run("tables", "measure", "infant-crew-tee", "--garments", garments)
    assert code == 0
    assert "est." in out
    assert "nothing written" in out
    assert [one.name for one in tmp_path.iterdir()] == ["garments.csv"]


def test_an_odd_garment_is_named_and_left_out_on_purpose_only(garments: Path) -> None:
    """By its row and name; `--without` leaves it out."""
    text = "garment,size,half_chest\nA1,M,20\nA2,M,20 1/8\nA3,M,22\n"
    garments.write_text(text, encoding="utf-8")
    measure = ("tables", "measure", "adult-crew-tee", "--garments", garments)
    code, out, _ = run(*measure)
    assert code == 0
    assert f"{garments}: row 4, A3: half_chest 22 in" in out
    assert "it looks like size L" in out
    file = garments.parent / "new.toml"
    code, said, err = run(*measure, "--out", file)
    assert (code, said, len(err.splitlines())) == (2, "", 1)
    assert err.startswith(f"jigs: {garments}: row 4, A3: half_chest 22 in is far")
    assert "nothing written: --without 4 leaves it out, --keep 4 takes it in" in err
    assert not file.exists()
    assert data(*measure, "--keep", "4", "--out", file)["changes"][0]["now"]["pieces"] == 3
    found = data(*measure, "--without", "4")
    assert found["findings"] == []
    assert found["changes"][0]["now"]["pieces"] == 2


def test_a_garment_odd_in_many_points_is_one_line(garments: Path, tmp_path: Path) -> None:
    """A large among mediums; the rest of a file that has grown is looked at alone."""
    head, rows = "garment,size,half_chest,body_length\n", "A1,M,20,29\nA2,M,20 1/8,29\n"
    garments.write_text(f"{head}{rows}A3,M,22,30\n", encoding="utf-8")
    own = tmp_path / "my-tee.toml"
    measure = ("tables", "measure", "adult-crew-tee", "--garments", garments, "--out", own)
    code, _, err = run(*measure)
    assert (code, len(err.splitlines())) == (2, 1)
    assert "; also odd: body_length 30 in" in err
    assert run(*measure, "--keep", "4")[0] == 0
    garments.write_text(f"{head}{rows}A3,M,22,30\nA4,M,20,29\n", encoding="utf-8")
    code, out, _ = run("tables", "measure", own, "--garments", garments, "--update")
    assert code == 0
    assert "if the garment is wrong, delete its length there" in out


BAD = {
    "unknown row": (["--without", "9"], GARMENTS, "--without: found 9"),
    "a row to keep that is none": (["--keep", "9"], GARMENTS, "--keep: found 9"),
    "unknown unit": (["--unit", "lb"], GARMENTS, "--unit: unknown unit 'lb'"),
    "a table of the program": (["--update"], GARMENTS, "'adult-crew-tee'"),
    "two ways to write": (["--update", "--out", "x.toml"], GARMENTS, "--update"),
    "a name for no table": (["--out", "my tee.toml"], GARMENTS, "--out: found 'my tee.toml'"),
    "a file that is there": (["--out", "there.toml"], GARMENTS, "already there"),
    "unknown size": ([], "size,neck_width\nQ,7\n", "garments.csv: row 2.size: unknown size 'Q'"),
    "a point of another garment": (
        [], "size,neck_width,hood_fall\nM,7,3\n",
        "garments.csv: headings.hood_fall: hood_fall is no point of a crew-tee; points: half_chest",
    ),
    "sizes out of order": ([], "size,half_chest\nM,23\n", "measured.half_chest.M: size L"),
    "no garment that can be sewn": (
        [], "size,front_neck_drop,neck_width,shoulder_drop\nM,10,17.9,2\n",
        "adult-crew-tee.toml: size M: the front's outline crosses itself"),
}  # fmt: skip


@pytest.mark.parametrize("case", BAD)
def test_what_cannot_be_used_is_one_line_and_nothing_written(
    case: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Exit 2, no traceback, no file."""
    monkeypatch.chdir(tmp_path)
    options, text, says = BAD[case]
    Path("garments.csv").write_text(text, encoding="utf-8")
    Path("there.toml").write_text("mine", encoding="utf-8")
    code, out, err = run("tables", "measure", "adult-crew-tee", "--garments", "garments.csv",
                         *options)  # fmt: skip
    assert (code, out) == (2, "")
    assert says in err
    assert len(err.splitlines()) == 1
    assert {one.name for one in tmp_path.iterdir()} == {"garments.csv", "there.toml"}
    assert Path("there.toml").read_text(encoding="utf-8") == "mine"


def test_a_mistake_in_the_table_names_the_table(garments: Path, tmp_path: Path) -> None:
    """Not the one that was to be written."""
    own = tmp_path / "own.toml"
    own.write_text("title = 3\n", encoding="utf-8")
    code, _, err = run("tables", "measure", own, "--garments", garments,
                       "--out", tmp_path / "new.toml")  # fmt: skip
    assert code == 2
    assert "own.toml: title" in err
    assert "new.toml" not in err


def test_a_table_that_is_a_link_stays(garments: Path, tmp_path: Path) -> None:
    """Where the link leads to is not this command's to replace."""
    own, link = tmp_path / "own.toml", tmp_path / "link.toml"
    run("tables", "copy", "adult-crew-tee", own)
    try:
        link.symlink_to(own)
    except OSError:
        pytest.skip("links cannot be made here")
    text = own.read_bytes()
    code, _, err = run("tables", "measure", link, "--garments", garments, "--update")
    assert code == 2
    assert "link" in err
    assert own.read_bytes() == text
    assert stat.S_ISLNK(link.lstat().st_mode)
