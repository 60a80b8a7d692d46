"""Bad input: a line or more that says where and what, exit code 2, nothing written."""

from collections.abc import Callable
from pathlib import Path

import pytest

from tests import orders
from tests.cli.test_commands import run

M = "sizes = { M = 3, L = 2 }"
#: What is changed in the small order, and what must be said of it.
ORDERS: dict[str, tuple[Callable[[str], str], list[str]]] = {
    "half a file": (lambda t: t[:130], ["order.toml: ", "not TOML"]),
    "unknown location": (lambda t: t.replace("left-chest", "left-chset"),
                         ["prints[1].location", "did you mean 'left-chest'"]),
    "unknown table": (lambda t: t.replace("adult-crew-tee", "adult-crw-tee"),
                      ["garments[1].table", "did you mean 'adult-crew-tee'"]),
    "a size the table lacks": (lambda t: t.replace(M, "sizes = { M = 3, XXXS = 2 }"),
                               ["garments[1].sizes.XXXS", "unknown size 'XXXS'", "5XL"]),
    "negative drop": (lambda t: t.replace('art.svg"\n', 'art.svg"\ndrop = "-3 in"\n', 1),
                      ["prints[1].drop", "'-3 in'", "allowed"]),
    "drop without a unit": (lambda t: t.replace('art.svg"\n', 'art.svg"\ndrop = "3"\n', 1),
                            ["prints[1].drop", "no unit"]),
    "width without a unit": (lambda t: t.replace('art.svg"\n', 'art.svg"\nwidth = 11\n', 1),
                             ["prints[1].width"]),
    "width for half the sizes": (
        lambda t: t.replace('art.svg"\n', 'art.svg"\nwidth = { M = "3 in" }\n', 1),
        ["prints[1].width", "no width for adult-crew-tee/L"]),
    "width for an unknown size": (
        lambda t: t.replace('art.svg"\n', 'art.svg"\nwidth = { Q = "3 in" }\n', 1),
        ["prints[1].width.Q", "unknown size 'Q'"]),
    "missing artwork": (lambda t: t.replace("art.svg", "arts.svg", 1),
                        ["prints[1].artwork", "arts.svg"]),
    "artwork outside": (lambda t: t.replace("art.svg", "../art.svg", 1), ["prints[1].artwork"]),
    "unknown style": (lambda t: t.replace("ledge", "legde"),
                      ["prints[2].styles", "did you mean 'ledge'"]),
    "unknown garment": (lambda t: t.replace('art.svg"\n', 'art.svg"\ngarments = ["kids"]\n', 1),
                        ["prints[1].garments", "kids"]),
    "quantity below nought": (lambda t: t.replace("M = 3", "M = -3"), ["garments[1].sizes.M"]),
    "a fraction of a shirt": (lambda t: t.replace("M = 3", "M = 2.5"), ["garments[1].sizes.M"]),
    "unknown colour": (lambda t: t.replace('"navy"', '"nvay"'), ["garments[1].colour", "navy"]),
    "a plate with nothing": (
        lambda t: t.replace('art.svg"\n', 'art.svg"\nplate_with = "back"\n', 1),
        ["prints[1].plate_with", "found 'back'", "another print: neck-label"]),
    "a plate with itself": (
        lambda t: t.replace('art.svg"\n', 'art.svg"\nplate_with = "left-chest"\n', 1),
        ["prints[1].plate_with", "another print: neck-label"]),
    "a plate for each of two": (
        lambda t: t.replace('art.svg"\n', 'art.svg"\nplate_with = "neck-label"\n', 1)
        .replace('styles = ["ledge"]', 'plate_with = "left-chest"'),
        ["prints[2].plate_with", "'neck-label' shares a plate with 'left-chest' already"]),
    "a plate on two edges": (
        lambda t: t.replace('art.svg"\n', 'art.svg"\nplate_with = "neck-label"\n', 1),
        ["prints[1].plate_with", "found 'neck-label'", "full-front, right-chest"]),
    "misspelt key": (lambda t: t.replace("artwork =", "artwrok =", 1), ["prints[1].artwrok"]),
    "reference that leaves the folder": (lambda t: t.replace('"small"', '"../../etc"'),
                                         ["reference"]),
}  # fmt: skip


def left_behind(folder: Path) -> set[str]:
    """Return what is in a folder besides the order and its artwork."""
    names = {p.relative_to(folder).as_posix() for p in folder.rglob("*")}
    return names - {"order.toml", "art.svg"}


@pytest.mark.parametrize("case", ORDERS)
def test_a_bad_order_is_one_line_and_nothing_written(case: str, tmp_path: Path) -> None:
    """Each mistake in an order is a line with file and key; exit 2; no file is left."""
    change, says = ORDERS[case]
    order = orders.small(tmp_path, change(orders.ORDER))
    code, out, err = run("make", order, "--out", tmp_path / "out")

    assert code == 2
    assert out == ""
    assert all(word in err for word in says), err
    assert "Traceback" not in err
    assert all(line.startswith("jigs: ") for line in err.splitlines())
    assert left_behind(tmp_path) == set()


def test_several_mistakes_are_several_lines(tmp_path: Path) -> None:
    """One run shows every mistake, each in its own line."""
    text = orders.ORDER.replace("left-chest", "left-chset").replace('"navy"', '"nvay"')
    _, _, err = run("make", orders.small(tmp_path, text), "--out", tmp_path / "out")

    assert len(err.splitlines()) == 2


EMPTY = '<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm" viewBox="0 0 9 9"/>'


@pytest.mark.parametrize(
    "art", [EMPTY, "", "<svg", "hello", "<!DOCTYPE x [<!ENTITY a 'b'>]><svg/>"]
)
def test_artwork_without_ink_or_sense(art: str, tmp_path: Path) -> None:
    """Artwork that is empty, cut short or no artwork is one line that names file and print."""
    order = orders.small(tmp_path, art=art)
    code, _, err = run("make", order, "--out", tmp_path / "out")

    assert code == 2
    assert "prints[1].artwork" in err
    assert "art.svg" in err
    assert len(err.splitlines()) == 1
    assert left_behind(tmp_path) == set()


def test_a_missing_order(tmp_path: Path) -> None:
    """A file that is not there is said to be missing, by its name."""
    code, _, err = run("make", tmp_path / "ordr.toml", "--out", tmp_path / "out")

    assert code == 2
    assert "ordr.toml" in err
    assert len(err.splitlines()) == 1


def test_an_output_folder_that_is_a_file(tmp_path: Path) -> None:
    """Where a file is in the way of the folder, nothing is written and the file stays."""
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    code, _, err = run("make", orders.small(tmp_path), "--out", tmp_path / "out", "--jobs", "1")

    assert code == 2
    assert len(err.splitlines()) == 1
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"


def test_a_file_of_the_users_is_not_overwritten(tmp_path: Path) -> None:
    """A file with one of our names that we did not write stays as it is; nothing else changes."""
    out = tmp_path / "out" / "small"
    out.mkdir(parents=True)
    (out / "widths.txt").write_text("my notes", encoding="utf-8")
    code, _, err = run("make", orders.small(tmp_path), "--out", tmp_path / "out", "--jobs", "1")

    assert code == 2
    assert "widths.txt" in err
    assert [p.name for p in out.iterdir()] == ["widths.txt"]
    assert (out / "widths.txt").read_text(encoding="utf-8") == "my notes"


WIDTHS = ["widths", "adult-crew-tee", "--location", "full-front"]
TEMPLATE = ["template", "adult-crew-tee", "--location", "full-front", "--style", "window"]
OPTIONS = {
    "neither artwork nor aspect": (WIDTHS, "--artwork"),
    "aspect in words": ([*WIDTHS, "--aspect", "wide"], "--aspect"),
    "aspect below nought": ([*WIDTHS, "--aspect", "-1"], "--aspect"),
    "aspect that is none": ([*WIDTHS, "--aspect", "nan"], "--aspect"),
    "unknown size": ([*WIDTHS, "--aspect", "1", "--sizes", "Q"], "unknown size 'Q'"),
    "backward range": ([*WIDTHS, "--aspect", "1", "--sizes", "XL-S"], "XL-S"),
    "unknown table": (["widths", "nope", "--location", "full-front", "--aspect", "1"], "nope"),
    "unknown location": (["widths", "adult-crew-tee", "--location", "fullfront", "--aspect", "1"],
                         "did you mean 'full-front'"),
    "missing artwork": ([*WIDTHS, "--artwork", "no.svg"], "no.svg"),
    "width without a unit": ([*TEMPLATE, "--width", "11", "--height", "9 in"], "no unit"),
    "width below nought": ([*TEMPLATE, "--width", "-11 in", "--height", "9 in"], "--width"),
    "height of nought": ([*TEMPLATE, "--width", "11 in", "--height", "0 in"], "--height"),
    "neither height nor artwork": ([*TEMPLATE, "--width", "11 in"], "--height"),
    "unknown style": ([*TEMPLATE[:-1], "frame", "--width", "11 in", "--height", "9 in"], "frame"),
    "unknown paper": ([*TEMPLATE, "--width", "11 in", "--height", "9 in", "--paper", "a99"],
                      "a99"),
    "unknown command": (["mke"], "mke"),
    "unknown option": ([*WIDTHS, "--aspct", "1"], "--aspct"),
    "a table that is a folder": (["tables", "show", "./.toml"], ".toml"),
}  # fmt: skip


@pytest.mark.parametrize("case", OPTIONS)
def test_a_bad_option_is_said_and_nothing_written(
    case: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each mistake on the command line names its option; exit 2; no file is left."""
    monkeypatch.chdir(tmp_path)
    arguments, says = OPTIONS[case]
    out = ["--out", str(tmp_path / "out")] if arguments[0] == "template" else []
    code, printed, err = run(*arguments, *out)

    assert code == 2
    assert printed == ""
    assert says in err
    assert len(err.splitlines()) == 1
    assert left_behind(tmp_path) == set()


TABLE = """\
title = "Crew-neck tee, own"
cut = "crew-tee"
age = "adult"
unit = "in"
sizes = ["S", "M"]
source = "measured"
[measurements]
half_chest = [18, 20]
body_length = [28, 29]
"""


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("[18, 20]", "[20, 18]", "half_chest"),
        ("[18, 20]", "[18]", "half_chest"),
        ("[18, 20]", "[18, -20]", "half_chest[2]"),
        ("crew-tee", "crew-te", "did you mean 'crew-tee'"),
        ('"adult"', '"grown"', "age"),
        ("half_chest = [18, 20]\n", "", "half_chest"),
        ("[measurements]", "[measurements", "line 7"),
    ],
)
def test_a_bad_table_is_said(old: str, new: str, says: str, tmp_path: Path) -> None:
    """`jigs tables check` says file and row of what is wrong; exit 2."""
    file = tmp_path / "own.toml"
    file.write_text(TABLE.replace(old, new), encoding="utf-8")
    code, out, err = run("tables", "check", file)

    assert code == 2
    assert out == ""
    assert says in err
    assert "own" in err
