"""`jigs template --bed`: a jig larger than the bed in pieces, and beds that are none."""

from pathlib import Path

import pytest

from jigs import cutfile
from jigs.errors import Place
from jigs.rules import Facts, check
from tests.cli.test_commands import data, run

_JIG = ("template", "adult-crew-tee", "--location", "full-back", "--width", "10 in",
        "--height", "8 in", "--sizes", "M-L")  # fmt: skip


def test_pieces_beside_the_whole(tmp_path: Path) -> None:
    """On a bed that is too small, pieces come beside the jig's own files; each can be inspected."""
    found = data(*_JIG, "--bed", "400 mm", "300 mm", "--kerf", "0.2 mm", "--out", tmp_path)
    names = [Path(name).name for name in found["jigs"][0]["files"]]
    pieces = [name for name in names if "-piece-" in name]
    assert [name[-5:] for name in pieces] == ["1.svg", "1.dxf", "2.svg", "2.dxf"]
    assert any(name.endswith("M-L.dxf") for name in names)
    for name in pieces:
        back = cutfile.read(name, (tmp_path / name).read_bytes(), Place(name))
        assert back.kerf == 0.2
        assert not check(back.drawing, Facts(5.0, 1.5, kerf=0.2, grouped=True))
    said = [one["says"] for one in found["findings"]]
    assert any("it is cut in 2 pieces" in one for one in said)


def test_without_a_bed_nothing_is_split(tmp_path: Path) -> None:
    """Nothing said of a bed, the jig is one piece, and no bed is spoken of."""
    code, out, _ = run(*_JIG, "--out", tmp_path)
    assert code == 0
    assert "piece" not in out
    assert "the bed of" not in out


def test_a_bed_too_small_for_any_joint(tmp_path: Path) -> None:
    """The jig is made whole for another cutter and for paper, and why it is not split is said."""
    code, out, _ = run(*_JIG, "--bed", "60 mm", "60 mm", "--out", tmp_path)
    assert code == 0
    assert "cannot be split" in out
    assert not list(tmp_path.glob("*piece*"))


@pytest.mark.parametrize("bed", [("0 mm", "300 mm"), ("300 mm", "-1 mm"), ("wide", "3 in")])
def test_a_bed_that_is_none(bed: tuple[str, str], tmp_path: Path) -> None:
    """A length that is none for a bed is refused in one line, and nothing is written."""
    code, out, err = run(*_JIG, "--bed", *bed, "--out", tmp_path / "made")
    assert code == 2
    assert out == ""
    assert err.count("\n") == 1
    assert "--bed" in err
    assert not (tmp_path / "made").exists()
