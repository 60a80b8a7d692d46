"""`jigs artwork` as a user runs it."""

import json
from pathlib import Path
from typing import Any

import pytest

from jigs.artwork.artwork import Artwork
from jigs.artwork.asked import Asked
from tests import orders
from tests.artwork import looked
from tests.cli.test_commands import data, run


@pytest.fixture
def mark(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a file in which a close look finds what is made up."""
    art = looked.looked(looked.detail(*looked.PLACES))
    monkeypatch.setattr("jigs.artwork.read", lambda *_: art)
    file = tmp_path / "mark.svg"
    file.write_text(looked.ART, encoding="utf-8")
    return file


def test_widths_are_compared(mark: Path) -> None:
    """Two widths, one row each; exit code 1, since one of them does not hold."""
    code, out, _ = run("artwork", mark, "--width", "90 mm", "--width", "50 mm", "--units", "mm")

    assert code == 1
    assert "at 50 mm wide it is 30 mm high" in out
    rows = [line.split() for line in out.splitlines() if line.startswith(("  50 mm", "  90 mm"))]
    assert [row[-1] for row in rows] == ["NO", "hold"]
    assert "hold from 88.2 mm wide" in out
    assert "STOP  mark.svg: 50 mm wide: the thinnest line in coral (#ff7a59)" in out
    assert run("artwork", mark, "--width", "90 mm")[0] == 0


def test_without_a_width_the_files_own_is_judged(mark: Path) -> None:
    """100 mm of ink in the file hold as they are, and not under a stricter limit."""
    assert [one["width_mm"] for one in data("artwork", mark)["widths"]] == [100.0]
    assert run("artwork", mark)[0] == 0
    code, out, _ = run("artwork", mark, "--line", "1.5 pt")
    assert code == 1
    assert "under 1.5 pt" in out
    assert run("artwork", mark, "--gap", "2 pt")[0] == 1


def test_garment_colours_by_name_and_by_value(mark: Path) -> None:
    """Each ink on each colour that was given, whatever its spelling."""
    found = data("artwork", mark, "--garment-colour", "Heather-Gray", "--garment-colour", "#1F2A44")

    assert [(one["ink"], one["garment"]) for one in found["contrast"]] == [
        (0, "heather grey"), (0, "#1f2a44"), (1, "heather grey"), (1, "#1f2a44"),
    ]  # fmt: skip
    navy = found["contrast"][3]
    assert navy["ratio"] < 1.5
    assert navy["ciede2000"] < 12
    _, out, _ = run("artwork", mark, "--garment-colour", "navy")
    assert "note  navy (#1b2a4a) on navy: contrast 1.0, hardly visible" in out


def test_all_that_was_found_is_data(mark: Path) -> None:
    """The keys of --json, lengths in mm; those of the box are as before."""
    found = data("artwork", mark, "--width", "50 mm")

    assert found["ink_box_mm"] == [100.0, 60.0]
    assert found["widths"] == [
        {"sizes": [], "width_mm": 50.0, "height_mm": 30.0, "line_mm": 0.2, "gap_mm": 0.3,
         "ppi": None, "holds": False}
    ]  # fmt: skip
    assert found["inks"][0] == {
        "colour": "#ff7a59", "name": "", "title": "coral (#ff7a59)", "share": 0.8,
    }  # fmt: skip
    assert found["flat"] is True
    # The centroid is at (58, 42), the middle of the box at (60, 40).
    assert found["optical_centre_mm"] == [58.0, 42.0]
    assert found["optical_centre_off_mm"] == [-2.0, 2.0]
    assert found["thin"][0]["least_width_mm"] == pytest.approx(127 / 360 / 0.4 * 100, abs=1e-4)
    assert [one["blocks"] for one in found["findings"]] == [True, True]


@pytest.mark.parametrize(("suffix", "magic"), [("svg", b"<?xml"), ("png", b"\x89PNG")])
def test_a_picture_is_written(
    mark: Path, suffix: str, magic: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`--out` writes the picture as its name says, never over another's file."""
    out = mark.with_name(f"look.{suffix}")
    code, said, _ = run("artwork", mark, "--width", "50 mm", "--out", out)

    assert code == 1
    assert f"wrote {out}" in said
    assert out.read_bytes().startswith(magic)
    other = mark.with_name(f"again.{suffix}")
    assert data("artwork", mark, "--width", "50 mm", "--out", other)["picture"] == other.as_posix()
    assert other.read_bytes() == out.read_bytes()
    out.write_bytes(b"mine")
    # Refused before the look, which there is none of here.
    monkeypatch.setattr("jigs.artwork.read", None)
    code, _, err = run("artwork", mark, "--out", out)
    assert code == 2
    assert out.name in err
    assert out.read_bytes() == b"mine"


def test_what_is_asked_reaches_the_reader(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Page and specks are the reader's business; widths need no close look."""
    orders.small(tmp_path)
    art, asked = looked.plain(), list[Asked]()

    def noted(*arguments: Any) -> Artwork:
        asked.append(arguments[3])
        return art

    monkeypatch.setattr("jigs.artwork.read", noted)
    file = tmp_path / "art.svg"
    run("artwork", file, "--page", "3", "--ignore-specks")
    run("widths", "adult-crew-tee", "--location", "full-front", "--artwork", file)

    assert asked == [Asked(page=3, ignore_specks=True), Asked(closely=False)]


def test_specks_are_ignored_by_an_option(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is said of a speck names the option of the command, not the key of an order."""
    art = looked.looked(looked.detail(specks=(looked.SPECK,)))
    monkeypatch.setattr("jigs.artwork.read", lambda *_: art)
    file = tmp_path / "mark.svg"
    file.write_text(looked.ART, encoding="utf-8")

    assert "or give --ignore-specks" in run("artwork", file)[1]


BAD = {
    "unknown colour": (["--garment-colour", "nvay"], ["--garment-colour", "did you mean 'navy'?"]),
    "half a value": (["--garment-colour", "#12345"], ["--garment-colour", "#rrggbb"]),
    "page 0": (["--page", "0"], ["--page"]),
    "page two": (["--page", "two"], ["--page"]),
    "width without a unit": (["--width", "11"], ["--width", "no unit"]),
    "line without a unit": (["--line", "1"], ["--line", "no unit"]),
    "gap as wide as a hand": (["--gap", "4 in"], ["--gap", "to 10 mm"]),
    "picture of no format": (["--out", "look.gif"], ["--out", ".svg or .png"]),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_options_are_one_line(case: str, mark: Path) -> None:
    """Exit code 2, where and what, nothing written, no traceback."""
    options, says = BAD[case]
    code, out, err = run("artwork", mark, *options)

    assert (code, out) == (2, "")
    assert len(err.splitlines()) == 1
    assert all(word in err for word in says), err
    assert [path.name for path in mark.parent.iterdir()] == ["mark.svg"]


def test_two_wrong_colours_are_two_lines(mark: Path) -> None:
    """Each is named."""
    _, _, err = run("artwork", mark, "--garment-colour", "nvay", "--garment-colour", "rde")

    assert len(err.splitlines()) == 2


def test_make_says_where_to_read_of_the_artwork(tmp_path: Path) -> None:
    """The artwork report is among the files, named at the end and part of the data."""
    order = orders.small(tmp_path)
    _, out, _ = run("make", order, "--out", tmp_path / "out", "--jobs", "1")

    assert "start with widths.txt, artwork.txt" in out
    text = (tmp_path / "out" / "small" / "artwork.txt").read_text(encoding="utf-8")
    assert "left-chest: art.svg, SVG" in text
    file = json.loads((tmp_path / "out" / "small" / "artwork.json").read_text(encoding="utf-8"))
    said = data("make", order, "--out", tmp_path / "out", "--jobs", "1")
    assert said["artwork"] == file["prints"]
