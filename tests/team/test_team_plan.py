"""A team's names and numbers: where they are, what is said of them, and the files they come to."""

import json
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from jigs import artwork
from jigs.documents import plan_json
from jigs.documents.team_files import team_files
from jigs.documents.team_picture import team_page
from jigs.documents.team_report import letterings, team_text
from jigs.drawing.drawing import Text
from jigs.errors import BadInput, Finding, Place
from jigs.plan import TeamEntry, TeamMark
from jigs.team.lettering import lettered
from jigs.units import INCH, say
from tests.cli.test_commands import run
from tests.team.orders import LIST, ORDER, SHORT_LIST, SHORT_ORDER, files, planned, squad_of, team

FIFA_GAP = 40.0


def marks(entry: TeamEntry) -> dict[str, TeamMark]:
    """Return an entry's texts by kind."""
    return {mark.kind: mark for mark in entry.marks}


def findings(order: str = ORDER, squad: str = LIST) -> tuple[Finding, ...]:
    """Return what is said of a team."""
    return squad_of(planned(order, squad)).findings


def test_every_entry_has_its_texts() -> None:
    """A name in capitals and a number on both sides; no name where the list has none."""
    said = [
        {kind: mark.text for kind, mark in marks(entry).items()}
        for entry in squad_of(planned()).entries
    ]
    assert said[0] == {"back-name": "NÚÑEZ", "back-number": "7", "front-number": "7"}
    assert said[4] == {"back-number": "12", "front-number": "12"}


def test_a_coach_with_a_name_alone() -> None:
    """A shirt with a name and no number has just the name; own rules allow three figures."""
    order = ORDER.replace('"fifa"', '{ back-number = "20 cm", source = "harbour league" }')
    squad = LIST.replace("Abbott;1;", "Abbott;;").replace(";88;", ";100;")
    entries = squad_of(planned(order, squad)).entries
    assert list(marks(entries[2])) == ["back-name"]
    assert marks(entries[3])["back-number"].text == "100"
    assert any("Abbott has no number" in one.says for one in findings(order, squad))


def test_case_as_written() -> None:
    """Names stay as they are where the order says so; ß becomes SS only in capitals."""
    order = ORDER.replace('rules = "fifa"', 'rules = "fifa"\ncase = "as-written"')
    squad = LIST.replace("Ahn", "Weiß")
    kept = squad_of(planned(order, squad)).entries[-1]
    raised = squad_of(planned(ORDER, squad)).entries[-1]
    assert marks(kept)["back-name"].text == "Weiß"
    assert marks(raised)["back-name"].text == "WEISS"


def test_sizes_go_by_the_tables_names() -> None:
    """XXL of the order and 2XL of the list are the table's 2XL."""
    assert squad_of(planned()).entries[3].key == "adult-crew-tee/2XL"


def test_a_number_hangs_below_its_name() -> None:
    """Every number keeps the rule's gap from the name above it, and is centred below it."""
    for entry in squad_of(planned()).entries:
        found = marks(entry)
        if "back-name" in found:
            name, number = found["back-name"], found["back-number"]
            assert number.box.top - name.box.bottom >= FIFA_GAP - 1e-6
            assert number.anchor.x == name.anchor.x == 0


def test_all_numbers_of_one_size_hang_alike() -> None:
    """With a name or without, two players of one size have their numbers equally high."""
    entries = [one for one in squad_of(planned()).entries if one.key == "adult-crew-tee/M"]
    assert [marks(one).get("back-name") is None for one in entries] == [False, True]
    assert len({marks(one)["back-number"].drop for one in entries}) == 1


def test_names_are_lined_up_by_their_capitals() -> None:
    """With marks or without, the flat capitals of one size begin at one level: the drop."""
    squad = LIST.replace("Montgomery;10;2", "O'Brien;10;1\nadult;M;Müller;11;1")
    found = [marks(one)["back-name"] for one in squad_of(planned(ORDER, squad)).entries[1:3]]
    plain, marked = (lettered(one.text, "Medium", one.height).box for one in found)
    assert [one.text for one in found] == ["O'BRIEN", "MÜLLER"]
    # From the ink's top down to the flat capitals, whose height is that of the letters.
    tops = [
        one.box.top + (-box.top - one.height)
        for one, box in zip(found, (plain, marked), strict=True)
    ]
    assert tops == pytest.approx([found[0].anchor.y] * 2)
    assert found[1].rise > 20 > found[0].rise


@pytest.mark.parametrize("name", ["Nguyễn", "Müller", "Ahn"])
def test_one_name_with_marks_moves_no_number(name: str) -> None:
    """Numbers hang below the capitals, whatever marks stand above or below one name."""
    plain = [marks(one)["back-number"].drop for one in squad_of(planned()).entries]
    squad = LIST.replace("Núñez", name)
    found = squad_of(planned(ORDER, squad)).entries
    assert [marks(one)["back-number"].drop for one in found] == pytest.approx(plain)


def test_marks_below_that_come_too_near_the_number() -> None:
    """A cedilla within the rule's gap blocks; the drop that is said then is enough."""
    squad = LIST.replace("Núñez", "Şahin")
    (one,) = (each for each in findings(ORDER, squad) if "below the name" in each.says)
    assert one.blocks
    assert one.about == "Şahin 7"
    drop = one.says.rpartition("a drop of ")[2]
    order = ORDER + f'drops = {{ back-number = "{drop}" }}\n'
    assert not any("below the name" in each.says for each in findings(order, squad))


def test_marks_keep_the_collars_clearance() -> None:
    """Marks that would come too close to the collar make the letters lower, and that is said."""
    squad = LIST.replace("Núñez", "Nguyễn")
    mark = marks(squad_of(planned(ORDER, squad)).entries[0])["back-name"]
    assert 50.0 <= mark.height < marks(squad_of(planned()).entries[0])["back-name"].height
    assert mark.stops == "shoulder seam above its marks"


@pytest.mark.parametrize(("name", "above"), [("Noonan", 6.35), ("Núñez", 28.0), ("Åse", 37.0)])
def test_names_are_trimmed_alike_above_their_capitals(name: str, above: float) -> None:
    """One distance is said for all names, covers every mark, and the ledge is made for it."""
    plan = planned(ORDER, LIST.replace("Núñez", name))
    names = squad_of(plan).prints[0]
    assert names.trim_above == pytest.approx(above)
    rises = [mark.rise for one in squad_of(plan).entries for mark in one.marks]
    assert above == 6.35 or max(rises) + 6.35 <= above
    for jig in names.jigs:
        assert jig.template.ink.top - jig.template.carrier.top == pytest.approx(above)
        assert f"trimmed {say(above, 'mm')} above capitals" in jig.template.print_text
    assert f"Trim every name {say(above, 'mm')} above" in team_text(plan, squad_of(plan))


def test_numbers_alone_hang_where_a_back_print_does() -> None:
    """Without names a number hangs four inches below the collar seam, like a full back."""
    order = ORDER.replace('["back-name", "back-number", "front-number"]', '["back-number"]')
    (first, *_) = squad_of(planned(order)).entries
    assert marks(first)["back-number"].drop == pytest.approx(4 * INCH)


def test_drops_of_the_orders_own() -> None:
    """A drop that the order gives is taken; a number that comes too near its name blocks."""
    order = ORDER + 'drops = { back-name = "60 mm", back-number = "150 mm" }\n'
    entry = squad_of(planned(order)).entries[0]
    assert marks(entry)["back-name"].drop == 60.0
    assert marks(entry)["back-number"].drop == 150.0
    near = [one for one in findings(order) if "below the name" in one.says]
    assert near
    assert all(one.blocks for one in near)
    assert any("at least 40 mm" in one.says for one in near)


def test_one_ledge_for_all_widths() -> None:
    """Each kind of print has one ledge jig per run of sizes, which says heights and no width."""
    for one in squad_of(planned()).prints:
        served = [seat.key for jig in one.jigs for seat in jig.template.seats]
        worn = {
            entry.key for entry in squad_of(planned()).entries if one.setting.kind in marks(entry)
        }
        assert sorted(served) == sorted(worn)
        for jig in one.jigs:
            assert jig.style == "ledge"
            assert "of any width" in jig.template.print_text
            widest = [
                mark.width
                for entry in squad_of(planned()).entries
                for mark in entry.marks
                if mark.kind == one.setting.kind
            ]
            assert jig.template.ink.width == pytest.approx(max(widest))


def test_a_jig_puts_a_number_where_the_plan_has_it() -> None:
    """The drop on a jig is that of the numbers on the size it is made for."""
    team_plan = squad_of(planned())
    (numbers,) = (one for one in team_plan.prints if one.setting.kind == "back-number")
    drops = {marks(entry)["back-number"].drop for entry in team_plan.entries}
    assert {jig.template.drop for jig in numbers.jigs} <= drops


def test_the_good_order_is_not_blocked() -> None:
    """Only what the list leaves out is remarked."""
    assert [one.blocks for one in findings()] == [False]
    assert not planned().blocked


def test_a_name_too_long_blocks() -> None:
    """A name that cannot be as high as the rule asks stops the order, in plain words."""
    squad = LIST.replace("Ahn", "Montgomery-Anderson")
    (one,) = (each for each in findings(ORDER, squad) if each.blocks)
    assert one.about == "name MONTGOMERY-ANDERSON"
    assert "is the most that fits on youth L" in one.says
    assert "the rule asks at least 50 mm" in one.says
    plan = planned(ORDER, squad)
    assert plan.blocked
    texts = team_page(plan, squad_of(plan)).drawing.entities
    shown = [one.string for one in texts if isinstance(one, Text)]
    assert shown.count("STOP: back name does not fit") == 1


def test_counts_are_compared() -> None:
    """More on the list than in the order blocks, fewer is remarked."""
    more = findings(ORDER, LIST.replace("Montgomery;10;2", "Montgomery;10;5"))
    fewer = findings(ORDER, LIST.replace("Montgomery;10;2", "Montgomery;10;1"))
    assert [one.says for one in more if one.blocks] == ["the list has 6, the order 3"]
    assert [one.says for one in fewer if "the order" in one.says] == ["the list has 2, the order 3"]
    assert not any(one.blocks for one in fewer)


def test_prints_that_lie_on_one_another_block() -> None:
    """A full back print under the numbers is found out; so is a number on a chest print."""
    for location, kind in (("full-back", "back-number"), ("centre-chest", "front-number")):
        order = ORDER.replace("left-sleeve", location)
        (one,) = (each for each in findings(order) if each.about == f"{location} and {kind}")
        assert one.blocks


def test_a_letter_the_font_lacks_blocks() -> None:
    """A letter without a form is named, and stops the order."""
    blocking = [one for one in findings(ORDER, LIST.replace("Ahn", "Ah中")) if one.blocks]
    assert [one.about for one in blocking] == ["name AH中"]


def test_transfers_are_counted() -> None:
    """Every garment's texts are among the transfers, one file for each text and height."""
    team_plan = squad_of(planned())
    counted = sum(one.pieces for one in letterings(team_plan))
    assert counted == sum(len(one.marks) * one.quantity for one in team_plan.entries)
    stems = [one.stem for one in letterings(team_plan)]
    assert len(stems) == len({stem.casefold() for stem in stems})
    assert {f"team/{stem}.svg" for stem in stems} <= files().keys()
    assert "number-7-255mm" in stems
    assert any(stem.startswith("name-LUKASIK-") for stem in stems)


def test_names_that_read_alike_in_a_files_name() -> None:
    """Two names that differ only in their marks have two files."""
    squad = LIST.replace("Abbott", "Nunez")
    stems = [one.stem for one in letterings(squad_of(planned(ORDER, squad)))]
    alike = [stem for stem in stems if stem.startswith("name-NUNEZ")]
    assert len(alike) == len(set(alike)) == 2


@pytest.mark.parametrize("text", ["ABBOTT", "88", "ŁUKASIK"])
def test_an_outlined_file_is_at_1_to_1(text: str) -> None:
    """An outlined file, drawn by resvg like any artwork, has the ink of the plan at its size."""
    one = next(one for one in letterings(squad_of(planned())) if one.text == text)
    name = f"team/{one.stem}.svg"
    made = files()[name]
    read = artwork.read(name, made, Place(name))
    assert read.ink.width == pytest.approx(one.width, abs=0.1)
    assert read.ink.height == pytest.approx(one.ink_height, abs=0.1)
    assert b"<text" not in made
    assert made.count(b"<path") == len(lettered(one.text, one.weight, one.height).glyphs)


def test_the_report_says_source_and_caution() -> None:
    """The text names document, edition and article, and that the current rule book decides."""
    said = files()["team.txt"].decode()
    assert "Equipment Regulations (2010 to 2014), articles 6.4 to 6.6" in said
    assert "Rule books change" in said
    assert "Łukasik" in said
    assert said == team_text(planned(), squad_of(planned()))


def test_the_report_as_data() -> None:
    """The data has every entry with its heights, the rule's limits and what limits a text."""
    found = json.loads(files()["team.json"])
    assert [one["number"] for one in found["entries"]] == ["7", "10", "1", "88", "12", "00"]
    number = found["prints"][1]
    assert number["kind"] == "back-number"
    assert number["rule"]["least_mm"] <= number["height_mm"] <= number["rule"]["most_mm"]
    assert number["rule"]["stroke_least_mm"] <= number["thin_stroke_mm"]
    assert found["entries"][1]["prints"][0]["limited_by"] == "armhole seam"
    assert "current" in found["rules"]["caution"]


def test_the_picture_shows_every_entry() -> None:
    """Both formats are there, and the texts' ink shows on the garments."""
    assert files()["team.svg"].startswith(b"<?xml")
    with Image.open(BytesIO(files()["team.png"])) as picture:
        assert picture.width > picture.height > 300
        colours = {colour for _, colour in picture.convert("RGB").getcolors(1 << 20) or []}
    assert (255, 255, 255) in colours
    assert (0, 0, 0) in colours


def test_a_garment_without_the_place() -> None:
    """A bag has no back for a name: that blocks, and the bag is shown bare."""
    order = ORDER.replace("youth-crew-tee", "tote-bag").replace("{ L = 1 }", "{ small = 1 }")
    plan = planned(order, LIST.replace("youth;L", "youth;small"))
    entry = squad_of(plan).entries[-1]
    assert entry.marks == ()
    assert any(one.blocks and "has no place" in one.says for one in squad_of(plan).findings)
    assert team_page(plan, squad_of(plan)).height > 100


def test_a_plan_with_a_team_is_kept() -> None:
    """The plan as a file gives the same plan, and the same bytes when it is rendered again."""
    text = files()["plan.json"].decode()
    kept = plan_json.loaded(text, Place("plan.json"))
    assert kept == planned()
    again = {one.name: one.data for one in team_files(kept, squad_of(kept))}
    assert again | {"plan.json": plan_json.dumped(kept)} == files()


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('"font": "Barlow', '"font": "Other', "team.font"),
        ('"kind": "front-number"', '"kind": "hem-number"', "team.prints"),
        ('"weight": "Medium"', '"weight": "Heavy"', "team.weight"),
        ('"text": "ABBOTT"', '"text": " "', "team.text"),
        ('"garment": "youth"', '"garment": "nobody"', "team.entries"),
    ],
)
def test_a_kept_plan_that_was_changed(old: str, new: str, key: str) -> None:
    """A plan that names another font, or what cannot be drawn, is refused."""
    text = files()["plan.json"].decode()
    assert old in text
    with pytest.raises(BadInput) as caught:
        plan_json.loaded(text.replace(old, new), Place("plan.json"))
    assert caught.value.place.key == key


def test_a_plan_without_a_team_says_nothing_of_one() -> None:
    """The file of a plan without a team has no key for it."""
    assert b'"team"' not in plan_json.dumped(replace(planned(), team=None))


def test_a_team_without_other_prints(tmp_path: Path) -> None:
    """An order of numbers alone is made like any other, and made again from its plan."""
    path = team(tmp_path, SHORT_ORDER, SHORT_LIST)
    code, out, _ = run("make", path, "--out", tmp_path / "out")
    made = tmp_path / "out" / "quay-keeper"
    again = tmp_path / "again" / "quay-keeper"
    assert code == 0
    assert "team.txt" in out
    assert run("make", made / "plan.json", "--out", tmp_path / "again")[0] == 0
    names = {one.relative_to(made) for one in made.rglob("*") if one.is_file()}
    assert {Path("team.txt"), Path("team.png"), Path("team/number-1-205mm.svg")} <= names
    assert all((made / name).read_bytes() == (again / name).read_bytes() for name in names)


def test_a_blocked_team_is_exit_code_1(tmp_path: Path) -> None:
    """A rule that cannot be kept is said as data or on the terminal, and the exit code is 1."""
    order = SHORT_ORDER.replace('"back-number"]', '"back-number", "back-name"]')
    squad = f"size,number,name\nM,1,{'Montgomery-Anderson' * 2}\n"
    order = order.replace('"fiba"', '{ back-name = "3 in", source = "harbour league" }')
    path = team(tmp_path, order, squad)
    code, out, _ = run("make", path, "--out", tmp_path / "out", "--json")
    assert code == 1
    found = json.loads(out)["team"]
    assert found["rules"]["source"] == "the order's own rules: harbour league"
    (blocking,) = (one for one in found["findings"] if one["blocks"])
    assert "the rule asks at least 3 in" in blocking["says"]
