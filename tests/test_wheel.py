"""The wheel holds everything: it works where the sources are not."""

import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SMALL_ORDER = """
reference = "small"
customer = "Somebody"

[[garments]]
name = "adult"
table = "adult-crew-tee"
colour = "navy"
sizes = { M = 1 }

[[prints]]
location = "left-chest"
artwork = "artwork/crest.svg"
width = "3 1/2 in"
styles = ["ledge"]
"""


def run(folder: Path, *command: str | Path) -> str:
    """Run a command in a folder, away from this interpreter's settings; return what it says."""
    surroundings = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        command, cwd=folder, env=surroundings, capture_output=True, encoding="utf-8", check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a wheel built from the sources, with nothing fetched."""
    folder = tmp_path_factory.mktemp("wheel")
    run(ROOT, sys.executable, "-m", "hatchling", "build", "--target", "wheel", "-d", folder)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def programs(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of programs of a new .venv that has the wheel in it.

    It borrows the libraries that the tests run with, but not the package: what an editable
    installation adds to the path is not followed from there.
    """
    folder = tmp_path_factory.mktemp("venv")
    venv.create(folder, with_pip=False)
    scripts = folder / ("Scripts" if os.name == "nt" else "bin")
    python = scripts / "python"
    own = run(folder, python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))")
    borrowed = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    Path(own.strip(), "borrowed.pth").write_text("\n".join(sorted(borrowed)), encoding="utf-8")
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "--python", python)
    run(folder, *pip, "install", "--quiet", "--no-index", "--no-deps", wheel)
    where = run(folder, python, "-c", "import jigs; print(jigs.__file__)")
    assert Path(where.strip()).is_relative_to(folder)
    return scripts


def test_every_file_of_the_package_is_in_the_wheel(wheel: Path) -> None:
    """Every module, table of data, piece of artwork and size table is in it, and nothing else."""
    inside = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    package = {path for path in (ROOT / "jigs").rglob("*") if path.is_file()}
    tables = {f"jigs/size_tables/{path.name}" for path in (ROOT / "size_tables").glob("*.toml")}
    sources = {path.relative_to(ROOT).as_posix() for path in package if path.suffix != ".pyc"}
    assert inside == sources | tables
    assert {"jigs/demo/order.toml", "jigs/geometry/strokes.toml", "jigs/order/papers.toml"} < inside


def test_the_installed_program_lists_every_size_table(programs: Path, tmp_path: Path) -> None:
    """Size tables, which lie beside the package in the sources, are found in the installed one."""
    listed = run(tmp_path, programs / "jigs", "tables", "list")
    for path in (ROOT / "size_tables").glob("*.toml"):
        assert path.stem in listed


def test_an_order_can_be_begun_and_made(programs: Path, tmp_path: Path) -> None:
    """`new` writes an order with its artwork, and `make` makes every format from a small one."""
    run(tmp_path, programs / "jigs", "new", "shop")
    order = tmp_path / "shop" / "order.toml"
    assert order.read_bytes() == (ROOT / "jigs" / "demo" / "order.toml").read_bytes()
    order.write_text(SMALL_ORDER, encoding="utf-8")
    run(tmp_path, programs / "jigs", "make", order)
    made = {path.suffix for path in (tmp_path / "out" / "small").rglob("*.*")}
    assert made >= {".dxf", ".json", ".pdf", ".png", ".svg", ".txt"}
