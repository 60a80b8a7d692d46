"""An order whose jigs are larger than the bed, made as a user makes it."""

import json
from pathlib import Path

from tests import orders
from tests.cli.test_commands import run

CUTTER = '\n[cutter]\nkerf = "0.2 mm"\nbed = ["400 mm", "300 mm"]\nfit = "0.05 mm"\n'
LARGE = orders.ORDER.replace('location = "left-chest"', 'location = "full-back"')


def test_pieces_sheets_and_findings(tmp_path: Path) -> None:
    """Pieces, sheets and their list are written, and the report says so."""
    order = orders.small(tmp_path, LARGE + CUTTER)
    code, _, err = run("make", order, "--out", tmp_path / "out")
    assert code == 0, err
    folder = tmp_path / "out" / "small"
    jigs = sorted(path.name for path in (folder / "jigs").iterdir())
    assert sum("-piece-" in name for name in jigs) >= 4
    sheets = sorted(path.name for path in (folder / "cut-sheets").iterdir())
    assert sheets[:3] == ["sheet-1.dxf", "sheet-1.png", "sheet-1.svg"]
    listed = (folder / "cut-sheets.txt").read_text(encoding="utf-8")
    assert "-piece-1" in listed
    assert "0.05 mm across" in listed
    assert "it is cut in 2 pieces" in (folder / "widths.txt").read_text(encoding="utf-8")
    plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    assert plan["plan"]["shop"]["cutter"]["fit"] == 0.05


def test_without_a_cutter_there_are_no_sheets(tmp_path: Path) -> None:
    """An order that names no cutter gets its jigs and no sheets."""
    code, _, err = run("make", orders.small(tmp_path), "--out", tmp_path / "out")
    assert code == 0, err
    folder = tmp_path / "out" / "small"
    assert not (folder / "cut-sheets").exists()
    assert not (folder / "cut-sheets.txt").exists()
