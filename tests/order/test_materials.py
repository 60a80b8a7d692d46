"""What jigs are cut from: the profiles, their sources, names as people spell them, a shop's own."""

import tomllib
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, BadInputs, Place
from jigs.order.materials import material_named, materials, never
from jigs.order.order import Cutter, Material
from jigs.order.read import read
from tests.order.known import GOOD, KNOWN

NUMBERS = {"kerf", "web", "corner", "thickness"}
OWN = 'name = "HDPE 2 mm", kerf = "0.3 mm", web = "6 mm", corner = "2 mm", caution = "It melts."'


def cutter(text: str) -> Cutter:
    """Return the cutter of an order with such a block."""
    return read(f"{GOOD}\n[cutter]\n{text}\n", "order.toml", KNOWN).cutter


def test_every_number_has_its_source() -> None:
    """Each profile says of each of its numbers where it comes from, and nothing more."""
    text = files("jigs.order").joinpath("materials.toml").read_text(encoding="utf-8")
    for name, row in tomllib.loads(text).items():
        assert set(row["sources"]) == NUMBERS, name
        assert set(row) == NUMBERS | {"title", "tool", "cautions", "sources"}, name


def test_what_every_profile_keeps() -> None:
    """No profile asks for less than a tool can do; each warns in whole sentences."""
    assert list(materials()) == ["paper", "card", "acrylic-3mm", "plywood-3mm", "polyester-film"]
    for name, one in materials().items():
        thickness = one.thickness
        assert thickness is not None
        thin, thick = thickness
        assert 0 < thin <= thick, name
        assert one.web >= thick, name
        assert one.corner > one.kerf / 2, name
        assert one.tool, name
        assert one.cautions, name
        assert all(said[0].isupper() and said.endswith(".") for said in one.cautions), name
    assert "unattended" in " ".join(materials()["acrylic-3mm"].cautions)
    assert "PVC" in " ".join(materials()["polyester-film"].cautions)


def test_nothing_said_is_the_acrylic_profile() -> None:
    """The values that an order without a cutter gets are those of the profile, kerf and all."""
    assert materials()["acrylic-3mm"] == Material()
    assert read(GOOD, "order.toml", KNOWN).cutter == Cutter()
    assert Cutter().kerf == Material().kerf


@pytest.mark.parametrize("name", ["acrylic-3mm", "acrylic 3 mm", "Acrylic, 3mm", "ACRYLIC_3-MM"])
def test_a_name_may_be_spelt_as_people_do(name: str) -> None:
    """Case, spaces, dashes and commas do not matter."""
    assert cutter(f'material = "{name}"').material == materials()["acrylic-3mm"]


@given(st.sampled_from(list(materials())), st.data())
def test_dashes_and_case_never_matter(name: str, data: st.DataObject) -> None:
    """However dashes become spaces or letters capitals, it is the same material."""
    spelt = "".join(
        data.draw(st.sampled_from((letter.upper(), letter) if letter != "-" else ("-", " ", "")))
        for letter in name
    )
    assert material_named(spelt, Place("x")) == materials()[name]


def test_the_kerf_is_the_materials_unless_said() -> None:
    """A kerf of the cutter's own goes before the material's; 0 is one too."""
    assert cutter('material = "plywood-3mm"').kerf == 0.2
    assert cutter('material = "card"').kerf == 0.0
    assert cutter('material = "card"\nkerf = "0.1 mm"').kerf == 0.1
    assert cutter('kerf = "0 mm"').kerf == 0.0


def test_a_shop_may_describe_its_own() -> None:
    """A described material has the lengths and the caution that were given."""
    found = cutter(f"material = {{ {OWN} }}")

    assert found.material == Material("HDPE 2 mm", "", 0.3, 6.0, 2.0, None, ("It melts.",))
    assert found.kerf == 0.3


def test_a_corner_is_no_sharper_than_the_tool_leaves() -> None:
    """A beam of 1 mm leaves no inner corner under half of it, whatever the material takes."""
    assert Cutter(kerf=1.0, material=materials()["card"]).inner > 0.5
    assert Cutter(kerf=0.0, material=Material(corner=0.0)).inner == 0.0
    assert Cutter().inner == 1.5


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("acrilic-3mm", "did you mean 'acrylic-3mm'? known: paper, card, acrylic-3mm"),
        ("plywood 4 mm", "did you mean 'plywood-3mm'?"),
        ("steel", "or describe your own: material = { name"),
        ("PVC 2 mm", "never laser cut it: PVC gives off chlorine"),
    ],
)
def test_an_unknown_name_is_one_line(name: str, says: str) -> None:
    """The nearest known name, all known ones, and how to describe another, in one line."""
    with pytest.raises(BadInput) as caught:
        cutter(f'material = "{name}"')

    (line,) = caught.value.lines()
    assert line.startswith("order.toml: cutter.material: unknown material")
    assert says in line


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("material = 3", ["cutter.material: found 3"]),
        ('material = ""', ["cutter.material: found an empty text"]),
        ("material = {}", [f"cutter.material.{key}: missing" for key in
                           ("kerf", "web", "corner", "name")]),
        (f"material = {{ {OWN.replace('6 mm', '0 mm')} }}", ["cutter.material.web"]),
        (f"material = {{ {OWN.replace('6 mm', '2 in')} }}", ["cutter.material.web"]),
        (f"material = {{ {OWN.replace('2 mm', '9 mm')} }}", ["cutter.material.corner"]),
        (f"material = {{ {OWN.replace('0.3 mm', '-1 mm')} }}", ["cutter.material.kerf"]),
        (f"material = {{ {OWN.replace('0.3 mm', '3')} }}", ["cutter.material.kerf"]),
        (f"material = {{ {OWN}, colour = 1 }}", ["cutter.material.colour: unknown key"]),
        (f"material = {{ {OWN.replace('It melts.', 'a' * 300)} }}", ["cutter.material.caution"]),
        ('tabs = "1"', ["cutter.tabs"]),
        ('tabs = "9 mm"', ["cutter.tabs"]),
        ('tabs = "-1 mm"', ["cutter.tabs"]),
    ],
)  # fmt: skip
def test_every_mistake_is_said_with_its_key(text: str, keys: list[str]) -> None:
    """A material badly described is told key by key."""
    with pytest.raises((BadInput, BadInputs)) as caught:
        cutter(text)

    lines = caught.value.lines()
    assert len(lines) == len(keys)
    for line, key in zip(lines, keys, strict=True):
        assert line.startswith(f"order.toml: {key}"), line


def test_what_no_laser_may_cut() -> None:
    """Words decide, not letters within them."""
    assert never("self-adhesive vinyl") is not None
    assert never("absorbent card") is None
    assert not any(never(one.title) for one in materials().values())
