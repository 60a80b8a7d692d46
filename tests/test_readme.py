"""The README keeps its word: its commands run, its pictures are what the program draws."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from tests import demo, orders, pictures
from tests.cli.test_commands import run

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
#: Blocks that show a command, after `$`, and what it prints.
CONSOLE = re.findall(r"```console\n(.*?)```", README, re.DOTALL)


@pytest.mark.parametrize("name", pictures.NAMES)
def test_pictures_are_fresh(name: str) -> None:
    """Each picture is what the program draws today, but for the renderer's shades of grey."""
    from PIL import Image, ImageChops

    kept = Image.open(pictures.FOLDER / name).convert("RGB")
    fresh = pictures.drawn()[name].convert("RGB")
    assert kept.size == fresh.size
    apart = ImageChops.difference(kept, fresh).convert("L").point(lambda v: 255 if v > 96 else 0)
    changed = apart.histogram()[255] / (kept.width * kept.height)

    assert changed < 0.01, "run `make pictures` and look at what has changed"
    assert (pictures.FOLDER / name).stat().st_size < 150_000


def test_every_picture_is_shown() -> None:
    """The README shows each picture, and none that does not exist."""
    shown = set(re.findall(r"\(out/pictures/([a-z-]+\.png)\)", README))

    assert shown == set(pictures.NAMES)


@pytest.mark.parametrize("block", CONSOLE)
def test_commands_print_what_the_readme_says(
    block: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A command of the README, run in a folder with the demo order, prints what stands there."""
    shutil.copytree(demo.folder(), tmp_path / "my-order")
    monkeypatch.chdir(tmp_path)
    commands = block.split("$ jigs ")[1:]
    assert commands
    for command in commands:
        line, _, expected = command.partition("\n")
        _, out, err = run(*shlex.split(line))

        assert (out + err).rstrip() == expected.rstrip()


def test_the_small_order_of_the_readme_is_an_order(tmp_path: Path) -> None:
    """The order file shown in the README can be made, with the team and cutter shown below it."""
    shown, team, cutter = re.findall(r"```toml\n(.*?)```", README, re.DOTALL)
    shown = shown.replace('[cutter]\nkerf = "0.2 mm"\n', cutter)
    squad, _ = re.findall(r"```csv\n(.*?)```", README, re.DOTALL)
    order = orders.small(tmp_path, f"{shown}\n{team}".replace("artwork/crest.svg", "art.svg"))
    (tmp_path / "squad.csv").write_text(squad, encoding="utf-8")
    code, _, err = run("make", order, "--out", tmp_path / "out", "--jobs", "1")

    assert code == 0, err
    made = tmp_path / "out" / "pier-swim"
    assert "Abbott" in (made / "team.txt").read_text(encoding="utf-8")
    assert "tabs of 1 mm" in (made / "cut-sheets.txt").read_text(encoding="utf-8")


def test_the_measured_garments_of_the_readme_can_be_put_in(tmp_path: Path) -> None:
    """The garments shown in the README go into one of the program's own tables."""
    _, garments = re.findall(r"```csv\n(.*?)```", README, re.DOTALL)
    (tmp_path / "garments.csv").write_text(garments, encoding="utf-8")
    own = tmp_path / "new.toml"
    code, _, err = run(
        "tables", "measure", "adult-crew-tee", "--garments", tmp_path / "garments.csv", "--out", own
    )

    assert code == 0, err
    assert "meas." in run("tables", "show", own)[1]
