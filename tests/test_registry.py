import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from jigs.errors import Place, Unknown
from jigs.garments import GARMENTS, Block
from jigs.locations import LOCATIONS, Location
from jigs.registry import Registry
from jigs.styles import STYLES
from jigs.writers import WRITERS

ALL: tuple[Registry[object], ...] = (GARMENTS, LOCATIONS, STYLES, WRITERS)  # type: ignore[assignment]


def test_names_are_read_without_importing_an_entry() -> None:
    """A fresh interpreter lists the locations and has imported none; getting one imports one."""
    program = (
        "import sys; from jigs.locations import LOCATIONS; print(*LOCATIONS.names());"
        "entries = lambda: [m for m in sys.modules if m.startswith('jigs.locations.')];"
        "print(*entries()); LOCATIONS.get('left-chest'); print(*entries())"
    )
    answer = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )

    names, before, after = (line.split() for line in answer.stdout.splitlines())
    assert names == list(LOCATIONS.names())
    assert before == ["jigs.locations._location"]
    entries = {name for name in set(after) - set(before) if "._" not in name}
    assert entries == {"jigs.locations.left_chest"}


@pytest.mark.parametrize("registry", ALL, ids=lambda registry: registry.called)
def test_every_file_of_a_folder_is_an_entry(registry: Registry[object]) -> None:
    """Each name can be got, is of its kind, and iterating yields them all in order."""
    assert registry.names() == tuple(sorted(registry.names()))
    assert registry.names()
    for name, entry in registry:
        assert isinstance(entry, registry.kind)
        assert registry.get(name) is entry
        assert "_" not in name


def test_an_unknown_name_offers_the_nearest() -> None:
    """The message says where the name stood, and which one was probably meant."""
    with pytest.raises(Unknown, match="did you mean 'crew-tee'") as caught:
        GARMENTS.get("crew-te", Place("tee.toml", "cut"))

    assert caught.value.place == Place("tee.toml", "cut")
    with pytest.raises(Unknown, match="unknown garment"):
        GARMENTS.get("zzz")


@pytest.mark.parametrize(
    "name",
    ["../os", "os", "_block", "-block", "--init--", "__init__", "crew_tee", ".crew-tee",
     "crew-tee.", "crew-tee\n", "CREW-TEE", "", "crew-tee/../x", "_parts"],
)  # fmt: skip
def test_nothing_but_an_entry_can_be_named(name: str) -> None:
    """Paths, modules, private files and other spellings are unknown names, and import nothing."""
    before = set(sys.modules)
    with pytest.raises(Unknown):
        GARMENTS.get(name)

    assert set(sys.modules) == before


def test_a_file_without_its_constant_is_its_authors_mistake() -> None:
    """The entry's file is named together with what it must define."""
    mistaken: Registry[Block] = Registry("jigs.locations", "LOCATION", Block, "garment")
    missing: Registry[Location] = Registry("jigs.locations", "NOTHING", Location, "location")

    with pytest.raises(TypeError, match=r"'left-chest' must define LOCATION"):
        mistaken.get("left-chest")
    with pytest.raises(TypeError, match=r"'left-chest' must define NOTHING"):
        missing.get("left-chest")


@pytest.fixture
def plugged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Registry[Block]]:
    """Yield the garments as they are when another package adds to them."""
    package = "another_shops_garments"
    (tmp_path / f"{package}.py").write_text(
        "from dataclasses import replace\n"
        "from jigs.garments import GARMENTS\n"
        'BLOCK = replace(GARMENTS.get("crew-tee"), title="boxy tee")\n'
        "WRONG = 3\n",
        encoding="utf-8",
    )
    about = tmp_path / f"{package}-1.0.dist-info"
    about.mkdir()
    (about / "METADATA").write_text(f"Name: {package}\nVersion: 1.0\n", encoding="utf-8")
    (about / "entry_points.txt").write_text(
        f"[jigs.garments]\nboxy-tee = {package}:BLOCK\nwrong = {package}:WRONG\n"
        f"crew-tee = {package}:WRONG\n[jigs.locations]\nelsewhere = {package}:BLOCK\n",
        encoding="utf-8",
    )
    monkeypatch.syspath_prepend(str(tmp_path))
    yield Registry("jigs.garments", "BLOCK", Block, "garment")
    sys.modules.pop(package, None)


def test_another_package_adds_an_entry(plugged: Registry[Block]) -> None:
    """It is listed without being imported, and got like any other."""
    assert set(plugged.names()) == {*GARMENTS.names(), "boxy-tee", "wrong"}
    assert "another_shops_garments" not in sys.modules
    assert plugged.get("boxy-tee").title == "boxy tee"


def test_another_package_cannot_replace_an_entry(plugged: Registry[Block]) -> None:
    """A file of the folder goes before a plug-in of the same name; a wrong kind is refused."""
    assert plugged.get("crew-tee") is GARMENTS.get("crew-tee")
    with pytest.raises(TypeError, match="'wrong' must define"):
        plugged.get("wrong")
