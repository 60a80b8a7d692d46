"""The commands as a user runs them: what they print, write and exit with."""

import json
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from jigs.cli import COMMANDS, jigs, main
from tests import demo, orders


def run(*arguments: str | Path) -> tuple[int, str, str]:
    """Run the command line; return its exit code, what it printed, and what it complained of."""
    out, err = StringIO(), StringIO()
    with redirect_stdout(out), redirect_stderr(err), pytest.raises(SystemExit) as stop:
        main([str(one) for one in arguments])
    code = stop.value.code
    assert isinstance(code, int)
    return code, out.getvalue(), err.getvalue()


def data(*arguments: str | Path) -> Any:
    """Run a command with --json and return what it printed."""
    code, out, err = run(*arguments, "--json")
    assert code in {0, 1}, err
    return json.loads(out)


def test_widths_says_what_to_order() -> None:
    """`jigs widths` prints ranges with widths, then what limits each size."""
    code, out, _ = run("widths", "adult-crew-tee", "--location", "full-front", "--aspect", "1.2")

    assert code == 0
    assert "full front" in out
    assert "adult XS–5XL" in out
    assert "usual size" in out


def test_widths_as_data() -> None:
    """The keys of `jigs widths --json`, all lengths in mm."""
    found = data("widths", "adult-crew-tee", "youth-crew-tee",
                 "--location", "left-chest", "--aspect", "1")  # fmt: skip

    assert found["location"] == "left-chest"
    assert all(set(r) >= {"sizes", "width_mm", "height_mm"} for r in found["ranges"])
    keys = [key for r in found["ranges"] for key in r["sizes"]]
    assert "adult-crew-tee/S" in keys
    assert len(keys) == 14
    one = found["sizes"][0]
    assert set(one) >= {"table", "size", "target_mm", "least_mm", "most_mm", "limited_by"}
    assert one["least_mm"] <= one["target_mm"] <= one["most_mm"]
    assert found["findings"] == []


@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        ("S", ["S"]),
        ("S-XL", ["S", "M", "L", "XL"]),
        ("M,L", ["M", "L"]),
        ("adult-crew-tee/2XL", ["2XL"]),
        ("xxl", ["2XL"]),
    ],
)
def test_sizes_are_named_in_four_ways(sizes: str, expected: list[str]) -> None:
    """`--sizes` takes a size, a range, a list, or a table's size."""
    found = data("widths", "adult-crew-tee", "--location", "full-front", "--aspect", "1",
                 "--sizes", sizes)  # fmt: skip

    assert [one["size"] for one in found["sizes"]] == expected


def test_a_width_in_the_drawer_is_judged() -> None:
    """`--width` judges a width: too wide for the smallest blocks, with exit code 1."""
    code, out, _ = run("widths", "youth-crew-tee", "--location", "full-front", "--aspect", "1",
                       "--width", "14 in")  # fmt: skip

    assert code == 1
    assert "STOP" in out
    assert "does not fit" in out


def test_artwork_gives_the_aspect(tmp_path: Path) -> None:
    """`jigs widths --artwork` takes the aspect of the ink, not of the page."""
    orders.small(tmp_path)
    found = data("widths", "adult-crew-tee", "--location", "full-front",
                 "--artwork", tmp_path / "art.svg")  # fmt: skip

    for one in found["ranges"]:
        assert one["width_mm"] / one["height_mm"] == pytest.approx(1.5, rel=1e-3)


def test_artwork_as_data(tmp_path: Path) -> None:
    """`jigs artwork --json` gives the ink box in mm and the aspect, width over height."""
    orders.small(tmp_path)
    found = data("artwork", tmp_path / "art.svg")

    assert found["ink_box_mm"] == pytest.approx([90, 60], abs=0.03)
    assert found["aspect"] == pytest.approx(1.5, rel=1e-3)


def test_artwork_in_words(tmp_path: Path) -> None:
    """`jigs artwork` says page, ink and aspect, and the height at a width."""
    orders.small(tmp_path)
    code, out, _ = run("artwork", tmp_path / "art.svg", "--width", "90 mm", "--units", "mm")

    assert code == 0
    assert "page    120 mm × 80 mm" in out
    assert "at 90 mm wide it is 60 mm high" in out


def test_template_as_data(tmp_path: Path) -> None:
    """The keys of `jigs template --json`; its files are there; the window is carrier and slip."""
    found = data("template", "adult-crew-tee", "--location", "full-front", "--width", "11 in",
                 "--height", "9 in", "--sizes", "S-XL", "--style", "window",
                 "--out", tmp_path / "out")  # fmt: skip

    sizes = [size for jig in found["jigs"] for size in jig["sizes"]]
    assert sizes == ["S", "M", "L", "XL"]
    for jig in found["jigs"]:
        assert jig["style"] == "window"
        assert jig["drop_mm"] == pytest.approx(76.2)
        assert jig["window_mm"] == pytest.approx([279.4 + 13.7, 228.6 + 13.7])
        assert set(jig["errors_mm"]) == set(jig["sizes"])
        assert {Path(one).suffix for one in jig["files"]} == {".svg", ".dxf", ".pdf", ".png"}
        assert all(Path(one).stat().st_size > 500 for one in jig["files"])


def test_template_takes_the_height_from_artwork(tmp_path: Path) -> None:
    """With `--artwork` the window is as high as the ink is at that width."""
    orders.small(tmp_path)
    found = data("template", "adult-crew-tee", "--location", "left-sleeve", "--width", "60 mm",
                 "--artwork", tmp_path / "art.svg", "--style", "ledge",
                 "--out", tmp_path / "out")  # fmt: skip

    assert found["jigs"][0]["ink_mm"] == pytest.approx([60, 40], rel=1e-3)


def test_templates_share_a_folder(tmp_path: Path) -> None:
    """A second run into the same folder adds to it; the same run again changes nothing."""
    for location in ("full-front", "left-chest", "full-front"):
        code, _, err = run(
            "template", "youth-crew-tee", "--location", location, "--width", "3 in",
            "--height", "3 in", "--sizes", "M", "--out", tmp_path / "out",
        )  # fmt: skip
        assert code in {0, 1}, err
    names = {path.name for path in (tmp_path / "out").glob("*.dxf")}

    assert names == {"full-front-window-youth-M.dxf", "left-chest-window-youth-M.dxf"}


def test_a_template_that_cannot_be_made_leaves_no_folder(tmp_path: Path) -> None:
    """Where the style objects to every jig, exit code 1 says so and nothing is written."""
    code, out, _ = run(
        "template", "adult-crew-tee", "--location", "neck-label", "--width", "2 in",
        "--height", "2 in", "--drop", "0.1 in", "--out", tmp_path / "out",
    )  # fmt: skip

    assert code == 1
    assert "STOP" in out
    assert not (tmp_path / "out").exists()


def test_make_writes_into_the_references_folder(tmp_path: Path) -> None:
    """`jigs make` puts everything into OUT/<reference>/, and does it again the same."""
    order = orders.small(tmp_path)
    code, out, err = run("make", order, "--out", tmp_path / "out", "--jobs", "1")
    assert code == 0, err
    assert "start with widths.txt" in out
    before = {p: p.read_bytes() for p in (tmp_path / "out" / "small").rglob("*") if p.is_file()}
    code, _, _ = run("make", order, "--out", tmp_path / "out", "--jobs", "1")
    after = {p: p.read_bytes() for p in (tmp_path / "out" / "small").rglob("*") if p.is_file()}

    assert code == 0
    assert before == after
    assert {"plan.json", "widths.txt", "picture-adult.png"} <= {p.name for p in after}


def test_make_takes_a_plan_again(tmp_path: Path) -> None:
    """A reorder from plan.json needs neither the order nor its artwork, and is the same."""
    order = orders.small(tmp_path)
    run("make", order, "--out", tmp_path / "one", "--jobs", "1")
    order.unlink()
    (tmp_path / "art.svg").unlink()
    plan = tmp_path / "one" / "small" / "plan.json"
    code, _, err = run("make", plan, "--out", tmp_path / "two", "--jobs", "1")

    assert code == 0, err
    one, two = ({p.name: p.read_bytes() for p in (tmp_path / n).rglob("*.*") if p.is_file()}
                for n in ("one", "two"))  # fmt: skip
    assert one == two


def test_make_as_data_blocks_with_code_1(tmp_path: Path) -> None:
    """An order that says stop is made all the same, and exits with 1."""
    text = orders.ORDER.replace("left-chest", "full-front").replace(
        'artwork = "art.svg"\n\n', 'artwork = "art.svg"\nwidth = "20 in"\n\n', 1
    )
    code, out, _ = run("make", orders.small(tmp_path, text), "--out", tmp_path / "o", "--json")

    assert code == 1
    found = json.loads(out)
    assert any(f["blocks"] for one in found["prints"] for f in one["findings"])
    assert Path(found["folder"]).is_dir()


def test_new_writes_an_order_that_can_be_read(tmp_path: Path) -> None:
    """`jigs new` writes the demo order with its artwork, and not over one that was changed."""
    code, out, _ = run("new", tmp_path / "mine")
    assert code == 0
    assert "jigs make" in out
    written = tmp_path / "mine" / "order.toml"
    assert written.read_bytes() == (demo.folder() / "order.toml").read_bytes()
    assert len(list((tmp_path / "mine" / "artwork").iterdir())) == 5

    written.write_text("reference = 'mine'\n", encoding="utf-8")
    code, _, err = run("new", tmp_path / "mine")
    assert code == 2
    assert "order.toml" in err
    assert written.read_text(encoding="utf-8") == "reference = 'mine'\n"


def test_points_of_measure_are_explained() -> None:
    """All of them, or a cut's; a wrong cut gets the nearest."""
    everything, hoodie = run("tables", "points")[1], run("tables", "points", "hoodie")[1]
    assert "HPS to hem, laid flat" in everything
    assert "bag_width" in everything
    assert "bag_width" not in hoodie
    assert "given by every table" in hoodie.splitlines()[0]
    assert set(data("tables", "points", "tote")["points"]) == {
        "bag_width", "bag_height", "handle_spread", "handle_width", "handle_depth",
    }  # fmt: skip
    code, _, err = run("tables", "points", "hodie")
    assert code == 2
    assert "did you mean 'hoodie'?" in err


def test_tables_list_show_and_check(tmp_path: Path) -> None:
    """Tables are listed, shown with estimates marked, and a user's own is checked."""
    assert "adult-crew-tee" in run("tables", "list")[1]
    assert data("tables", "list")["tables"][0]["sizes"]
    shown = run("tables", "show", "womens-crew-tee", "--units", "mm")[1]
    assert "est." in shown
    assert "half_chest" in shown
    measures = data("tables", "show", "infant-crew-tee")["sizes"]["NB"]
    assert measures["half_chest"]["origin"] == "given"
    assert measures["neck_width"]["origin"] == "estimated"
    own = tmp_path / "own.toml"
    own.write_text(
        'title = "Crew-neck tee, own"\ncut = "crew-tee"\nage = "adult"\nunit = "cm"\n'
        'sizes = ["M"]\nsource = "measured"\n[measurements]\nhalf_chest = [51]\n'
        "body_length = [72]\n",
        encoding="utf-8",
    )
    code, out, _ = run("tables", "check", own)
    assert code == 0
    assert "nothing wrong" in out


def test_a_table_is_drawn_on_request(tmp_path: Path) -> None:
    """`jigs tables show --out` writes four pictures, and writes over its own alone."""
    out = tmp_path / "pictures"
    files = data("tables", "show", "tote-bag", "--out", out)["files"]
    names = [f"tote-bag-{kind}.{suffix}" for kind in ("nest", "zones") for suffix in ("svg", "png")]
    assert files == [(out / name).as_posix() for name in names]
    assert all((out / name).stat().st_size > 1000 for name in names)
    assert "size standard" in (out / "tote-bag-zones.svg").read_text(encoding="utf-8")

    code, said, _ = run("tables", "show", "tote-bag", "--out", out, "--size", "LARGE")
    assert code == 0
    assert said.count("wrote ") == 4
    assert "size large" in (out / "tote-bag-zones.svg").read_text(encoding="utf-8")
    (out / names[0]).write_text("mine", encoding="utf-8")
    code, _, complaint = run("tables", "show", "tote-bag", "--out", out)
    assert code == 2
    assert names[0] in complaint
    assert (out / names[0]).read_text(encoding="utf-8") == "mine"


def test_a_size_to_draw_needs_a_folder_and_a_table(tmp_path: Path) -> None:
    """`--size` alone draws nothing, and an unknown size is none."""
    code, _, complaint = run("tables", "show", "tote-bag", "--size", "large")
    assert (code, "--out" in complaint) == (2, True)
    out = tmp_path / "pictures"
    code, _, complaint = run("tables", "show", "tote-bag", "--out", out, "--size", "huge")
    assert (code, "--size: unknown size 'huge'" in complaint) == (2, True)
    assert not out.exists()


def test_a_table_is_copied_to_start_from(tmp_path: Path) -> None:
    """`jigs tables copy` writes a table that can be checked, and never over a file."""
    file = tmp_path / "my-tee.toml"
    assert run("tables", "copy", "adult-crew-tee", file)[0] == 0
    assert run("tables", "check", file)[0] == 0
    text = file.read_text(encoding="utf-8")
    code, _, err = run("tables", "copy", "youth-crew-tee", file)

    assert code == 2
    assert "already there" in err
    assert file.read_text(encoding="utf-8") == text


def test_help_lines_are_the_commands_own() -> None:
    """The list of commands says of each what its own help begins with."""
    for name, line in COMMANDS.items():
        result: Result = CliRunner().invoke(jigs, [name, "--help"])
        assert result.exit_code == 0
        assert line in " ".join(result.output.split())
