"""Materials on the command line: of `jigs template`, `jigs inspect` and an order."""

import json
from pathlib import Path

import pytest

from tests import orders
from tests.cli.test_commands import run

CHEST = ("adult-crew-tee", "--location", "left-chest", "--width", "3 1/2 in", "--height", "3 in",
         "--sizes", "M", "--style", "window")  # fmt: skip


def made(folder: Path, *options: str) -> Path:
    """Return the DXF of a jig made with more options."""
    code, out, err = run("template", *CHEST, *options, "--out", folder, "--json")
    assert (code, err) == (0, "")
    (jig,) = json.loads(out)["jigs"]
    return next(Path(name) for name in jig["files"] if name.endswith(".dxf"))


def inspected(file: Path, *options: str) -> tuple[int, dict[str, object]]:
    """Return the exit code and what is measured of a file."""
    code, out, _ = run("inspect", file, *options, "--json")
    return code, json.loads(out)


@pytest.mark.parametrize(
    ("options", "kerf"),
    [
        ((), 0.2),
        (("--material", "card"), 0.0),
        (("--material", "Card", "--kerf", "0.1 mm"), 0.1),
        (("--material", "plywood 3 mm"), 0.2),
        (("--kerf", "0 mm"), 0.0),
    ],
)
def test_a_jig_is_inspected_as_its_own_material(
    options: tuple[str, ...], kerf: float, tmp_path: Path
) -> None:
    """A file says its kerf and what its material asks, so that inspecting it needs no option."""
    code, found = inspected(made(tmp_path, *options))

    assert (code, found["kerf_mm"]) == (0, kerf)
    assert found["broken"] == []


def test_inspecting_for_another_material(tmp_path: Path) -> None:
    """Round corners of card are too sharp for acrylic; `--web` goes before the material's."""
    card = made(tmp_path, "--material", "card")

    code, found = inspected(card, "--material", "acrylic-3mm")
    assert code == 1
    assert {one["rule"] for one in found["broken"]} == {"inner corner"}  # type: ignore[attr-defined]
    assert inspected(card)[0] == 0
    assert inspected(card, "--web", "40 mm")[0] == 1
    assert inspected(card, "--material", "paper", "--web", "5 mm")[0] == 0


def test_tabs_are_closed_before_a_file_is_checked(tmp_path: Path) -> None:
    """A file with tabs says so; with none to be closed, its outlines are open."""
    file = made(tmp_path, "--tabs", "1 mm")

    assert inspected(file)[0] == 0
    assert inspected(file, "--tabs", "2 mm")[0] == 0
    for less in ("0 mm", "0.5 mm"):
        code, found = inspected(file, "--tabs", less)
        assert code == 1
        assert {one["rule"] for one in found["broken"]} == {"closed"}  # type: ignore[attr-defined]


@pytest.mark.parametrize("command", ["template", "inspect"])
def test_an_unknown_material_is_one_line(command: str, tmp_path: Path) -> None:
    """Exit code 2, the option, the nearest name; nothing is written."""
    what = [*CHEST, "--out", tmp_path / "out"] if command == "template" else ["x.dxf"]
    code, out, err = run(command, *what, "--material", "acryl-3mm")

    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert "--material" in err
    assert "did you mean 'acrylic-3mm'?" in err
    assert not (tmp_path / "out").exists()


def test_cautions_reach_the_cut_files(tmp_path: Path) -> None:
    """What is cut from plywood says so, and what to mind; so does the order's report."""
    order = orders.small(tmp_path, f'{orders.ORDER}\n[cutter]\nmaterial = "plywood-3mm"\n')
    code, _, _ = run("make", order, "--out", tmp_path / "out")
    assert code in {0, 1}
    folder = tmp_path / "out" / "small"
    report = (folder / "widths.txt").read_text(encoding="utf-8")
    svg = next((folder / "jigs").glob("*.svg")).read_text(encoding="utf-8")
    dxf = next((folder / "jigs").glob("*.dxf")).read_text(encoding="cp1252")

    for text in (report, svg, dxf.replace("\n999\n", " ")):
        for words in ("plywood, 3 mm", "glue smokes worse", "follow the machine's manual"):
            assert words in text
