"""From an order to its files: the whole job."""

import json
import pickle
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

import jigs
from jigs import artwork
from jigs.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.documents import plan_json
from jigs.errors import BadInput, Place
from jigs.files import Output, write_all
from jigs.pipeline import load, make, read, render
from jigs.tables import library
from jigs.tables.measure import Origin
from tests import demo, orders


def files_of(outputs: tuple[Output, ...] | list[Output]) -> dict[str, bytes]:
    """Return outputs by their names."""
    return {one.name: one.data for one in outputs}


def test_the_demo_is_the_order_that_was_asked_for() -> None:
    """The demo has youth and adult crew tees in nine sizes or more, and five locations."""
    plan = demo.plan()

    assert len(plan.sizes) >= 9
    assert {size.measures.age for size in plan.sizes} >= {"youth", "adult"}
    assert {one.location for one in plan.prints} == {
        "left-chest", "full-back", "left-sleeve", "neck-label", "full-front",
    }  # fmt: skip
    fronts = [one for one in plan.prints if one.location == "full-front"]
    assert [one.garments for one in fronts] == [("womens",)]
    assert not plan.blocked


def test_every_size_of_the_demo_has_a_place_and_a_jig() -> None:
    """Each print is placed on each size of its garments, and each jig style serves each size."""
    plan = demo.plan()
    for one in plan.prints:
        keys = {
            key
            for garment in plan.garments
            if garment.name in one.garments
            for key, _ in garment.quantities
        }

        assert {placed.key for placed in one.placed} == keys
        for style in {jig.style for jig in one.jigs}:
            served = [s.key for jig in one.jigs if jig.style == style for s in jig.template.seats]
            assert sorted(served) == sorted(keys)


def test_everything_is_there_in_every_format() -> None:
    """Reports, a picture per garment, a contact sheet, and each jig as SVG, DXF, PDF and PNG."""
    names = set(files_of(demo.outputs()))

    assert {"plan.json", "widths.txt", "widths.json", "contact-sheet.pdf"} <= names
    for garment in demo.plan().garments:
        assert {f"picture-{garment.name}.svg", f"picture-{garment.name}.png"} <= names
    for one in demo.plan().prints:
        assert one.jigs
        for jig in one.jigs:
            assert {f"jigs/{jig.stem}.{s}" for s in ("svg", "dxf", "pdf", "png")} <= names


def test_a_plan_kept_gives_the_same_files_again() -> None:
    """Rendering what plan.json says gives the same bytes as the order did."""
    kept = plan_json.loaded(demo.output("plan.json").decode(), Place("plan.json"))

    assert kept == demo.plan()
    assert files_of(tuple(render(kept))) == files_of(demo.outputs())


def test_a_plan_keeps_what_the_shop_measured(tmp_path: Path) -> None:
    """The measured collar, its own plus-minus, and how many garments it rests on."""
    own = library.text_of("adult-crew-tee", Place("test"))
    garments = '[measured.front_neck_drop]\nM = ["92 mm", "93 mm", "91 mm"]\n'
    (tmp_path / "own.toml").write_text(f"{own}\n{garments}", encoding="utf-8")
    plan = make(read(orders.small(tmp_path, orders.ORDER.replace("adult-crew-tee", "own.toml"))))
    kept = plan_json.loaded(plan_json.dumped(plan).decode(), Place("plan.json"))

    assert kept == plan
    drop = next(one for one in kept.sizes if one.measures.size == "M").measures["front_neck_drop"]
    assert (drop.mm, drop.origin, drop.pieces) == (92, Origin.MEASURED, 3)


def test_plans_travel_between_processes() -> None:
    """A plan can be pickled, and compares equal when it comes back."""
    assert pickle.loads(pickle.dumps(demo.plan())) == demo.plan()  # noqa: S301 - our own bytes


def test_an_executor_changes_nothing(tmp_path: Path) -> None:
    """Drawn by an executor or one after another, the files and their order are the same."""
    plan = make(read(orders.small(tmp_path)))
    alone = list(render(plan))
    with ThreadPoolExecutor(1) as executor:
        helped = list(render(plan, executor))

    assert alone == helped


def test_two_processes_write_the_same_bytes(tmp_path: Path) -> None:
    """Neither the order of hashes nor the clock shows in any file."""
    order = orders.small(tmp_path / "in")
    for seed in ("1", "2"):
        subprocess.run(
            [sys.executable, "-m", "jigs", "make", str(order), "--out", str(tmp_path / seed)],
            check=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(jigs.__file__).parents[1]),
                 "TZ": f"UTC+{seed}"},
            capture_output=True,
        )  # fmt: skip
    one, two = ({p.relative_to(tmp_path / s): p.read_bytes() for p in (tmp_path / s).rglob("*")
                 if p.is_file()} for s in ("1", "2"))  # fmt: skip

    assert len(one) > 10
    assert one == two


def test_a_changed_order_leaves_no_stale_jig(tmp_path: Path) -> None:
    """A jig that the changed order no longer has is gone: nobody prints last week's."""
    out = tmp_path / "out"
    write_all(out, list(render(make(read(orders.small(tmp_path))))), prune=True)
    assert (out / "jigs").exists()
    before = {path.name for path in (out / "jigs").iterdir()}
    less = orders.ORDER.split("[[prints]]")
    order = orders.small(tmp_path, "[[prints]]".join(less[:2]))
    write_all(out, list(render(make(read(order)))), prune=True)
    after = {path.name for path in (out / "jigs").iterdir()}

    assert after < before
    assert not any(name.startswith("neck-label") for name in after)


def test_the_same_table_in_two_colours_is_one_size(tmp_path: Path) -> None:
    """Two garment lines of one table share sizes: their pieces add up, their jigs are one."""
    second = orders.ORDER.replace(
        "[[prints]]",
        '[[garments]]\nname = "red"\ntable = "adult-crew-tee"\ncolour = "red"\n'
        "sizes = { M = 4 }\n\n[[prints]]",
        1,
    )
    plan = make(read(orders.small(tmp_path, second)))
    bands = {band.key: band.quantity for band in plan.prints[0].widths.bands}

    assert bands == {"adult-crew-tee/M": 7, "adult-crew-tee/L": 2}
    assert len(plan.garments) == 2


def test_a_width_for_each_range_is_taken_as_given(tmp_path: Path) -> None:
    """Widths given per range of sizes are used, each for its sizes."""
    order = orders.ORDER.replace(
        'artwork = "art.svg"\n\n', 'artwork = "art.svg"\nwidth = { M = "3 in", L = "90 mm" }\n\n', 1
    )
    plan = make(read(orders.small(tmp_path, order)))

    assert [(r.sizes, r.width) for r in plan.prints[0].widths.ranges] == [
        (("adult-crew-tee/M",), pytest.approx(76.2)),
        (("adult-crew-tee/L",), 90.0),
    ]


def test_a_print_that_does_not_fit_blocks(tmp_path: Path) -> None:
    """A full front as wide as the chest is drawn, but the plan says stop."""
    order = orders.ORDER.replace("left-chest", "full-front").replace(
        'artwork = "art.svg"\n\n', 'artwork = "art.svg"\nwidth = "20 in"\n\n', 1
    )
    plan = make(read(orders.small(tmp_path, order)))

    assert plan.blocked
    says = [one.says for one in plan.all_findings() if one.blocks]
    assert any("does not fit" in one for one in says)


def test_a_table_of_the_users_own_is_found_beside_the_order(tmp_path: Path) -> None:
    """A table file beside the order is read, its estimates marked in the report."""
    (tmp_path / "own.toml").write_text(
        'title = "Crew-neck tee, own"\ncut = "crew-tee"\nage = "adult"\nunit = "in"\n'
        'sizes = ["M", "L"]\nsource = "measured in the shop"\n[measurements]\n'
        "half_chest = [20, 22]\nbody_length = [29, 30]\n",
        encoding="utf-8",
    )
    order = orders.small(tmp_path, orders.ORDER.replace('"adult-crew-tee"', '"own.toml"'))
    plan = make(read(order))

    assert [size.key for size in plan.sizes] == ["own/M", "own/L"]
    text = files_of(list(render(plan)))["widths.txt"].decode()
    assert "own: front_neck_drop" in text


@pytest.mark.parametrize(
    ("material", "blocks"),
    [("PVC 2 mm", True), ("self-adhesive vinyl", True), ("ABS", True), ("acrylic 3 mm", False),
     ("absorbent card", False)],
)  # fmt: skip
def test_poisonous_materials_block(tmp_path: Path, material: str, blocks: bool) -> None:
    """A material that no laser may cut blocks the order, with the reason."""
    lengths = 'kerf = "0.2 mm", web = "5 mm", corner = "1 mm"'
    own = f'[cutter]\nmaterial = {{ name = "{material}", {lengths} }}\n'
    order = orders.small(tmp_path, f"{orders.ORDER}\n{own}")
    plan = make(read(order))

    assert plan.blocked == blocks
    assert any("never laser cut" in one.says for one in plan.findings) == blocks


def test_prints_on_one_another_block(tmp_path: Path) -> None:
    """Two prints that share a place on a garment are found, with the sizes."""
    order = orders.ORDER.replace("neck-label", "full-front")
    plan = make(read(orders.small(tmp_path, order.replace('"left-chest"', '"centre-chest"'))))

    (found,) = (one for one in plan.findings if "lie on one another" in one.says)
    assert found.blocks
    assert "adult-crew-tee/M" in found.says
    assert not any(
        "lie on one another" in one.says for one in make(read(orders.small(tmp_path))).findings
    )


def test_a_width_off_the_step_is_said(tmp_path: Path) -> None:
    """Where no multiple of the step suits, the finding says so."""
    plan = make(read(orders.small(tmp_path, f'{orders.ORDER}\n[transfer]\nstep = "70 mm"\n')))

    assert any("no multiple of" in one.says for one in plan.prints[0].widths.findings)


def test_two_tables_of_one_kind_do_not_read_alike(tmp_path: Path) -> None:
    """Jigs for two adult tables go by the tables' names, on the jig and in the file's name."""
    text = (Path(jigs.__file__).parents[1] / "size_tables" / "adult-crew-tee.toml").read_text()
    (tmp_path / "own-tee.toml").write_text(text, encoding="utf-8")
    second = orders.ORDER.replace(
        "[[prints]]",
        '[[garments]]\nname = "own"\ntable = "own-tee.toml"\ncolour = "red"\n'
        "sizes = { M = 4 }\n\n[[prints]]",
        1,
    )
    plan = make(read(orders.small(tmp_path, second)))
    said = {jig.template.sizes for one in plan.prints for jig in one.jigs}

    assert all("adult-crew-tee" in one or "own-tee" in one for one in said)


def test_a_letter_that_cannot_be_drawn_is_said(tmp_path: Path) -> None:
    """A sign without strokes in a table's title is drawn as a box, and a finding says so."""
    text = (Path(jigs.__file__).parents[1] / "size_tables" / "adult-crew-tee.toml").read_text()
    (tmp_path / "own.toml").write_text(
        text.replace("Crew-neck tee, adult", "Crew-neck tee, 大人"), encoding="utf-8"
    )
    order = orders.small(tmp_path, orders.ORDER.replace('"adult-crew-tee"', '"own.toml"'))
    plan = make(read(order))

    assert not plan.blocked
    assert any("no letter for 大 人" in one.says for one in plan.findings)


def test_two_tables_of_one_name_are_refused(tmp_path: Path) -> None:
    """A table of the user's own with a shipped one's name cannot be told from it."""
    text = (Path(jigs.__file__).parents[1] / "size_tables" / "adult-crew-tee.toml").read_text()
    own = tmp_path / "adult-crew-tee.toml"
    own.write_text(text.replace('"3 1/2"', '"3 9/16"'), encoding="utf-8")
    second = orders.ORDER.replace(
        "[[prints]]",
        '[[garments]]\nname = "own"\ntable = "adult-crew-tee.toml"\ncolour = "red"\n'
        "sizes = { M = 4 }\n\n[[prints]]",
        1,
    )

    with pytest.raises(BadInput, match="two different tables"):
        make(read(orders.small(tmp_path, second)))


@pytest.mark.parametrize(
    "change",
    [
        lambda text: text.replace('"line"', '"circle"', 1),
        lambda text: text.replace('"plan": {', '"plan": {"x": 1, ', 1),
        lambda text: text.replace("garment-jigs plan 4", "garment-jigs plan 2"),
        lambda text: text[: len(text) // 2],
        lambda text: text.replace('"units": "in"', '"units": "furlong"'),
        lambda text: text.replace('"kerf": 0.2', '"kerf": 1e9'),
        lambda text: text.replace('"harbour-relay"', '"../../escaped"'),
        lambda text: text.replace('"stem": "', '"stem": "../'),
        lambda text: text.replace('"#1f2a44"', '"red"'),
        lambda text: text.replace('"margin": 6.35', '"margin": NaN'),
        lambda text: text.replace('"preview": "', '"preview": "AAAA'),
        lambda text: text.replace('"style": "window"', '"style": "windw"', 1),
        lambda _: "[]",
        lambda _: "null",
    ],
)
def test_a_damaged_plan_is_refused(change: object) -> None:
    """A plan file that is cut short or changed in kind is refused in one line."""
    assert callable(change)
    damaged = change(demo.output("plan.json").decode())

    assert damaged != demo.output("plan.json").decode()
    with pytest.raises(BadInput):
        plan_json.loaded(damaged, Place("plan.json"))


def test_load_reads_what_make_wrote(tmp_path: Path) -> None:
    """`load` takes the path of a kept plan."""
    (tmp_path / "plan.json").write_bytes(demo.output("plan.json"))

    assert load(tmp_path / "plan.json") == demo.plan()


def test_the_report_is_data_too() -> None:
    """widths.json says of each print what `jigs widths --json` would."""
    data = json.loads(demo.output("widths.json"))

    assert [one["name"] for one in data["prints"]] == [one.name for one in demo.plan().prints]
    for one in data["prints"]:
        assert one["ranges"]
        assert {"table", "size", "target_mm", "least_mm", "most_mm", "limited_by"} <= set(
            one["sizes"][0]
        )


def test_the_public_names_are_there() -> None:
    """The package's five names lead to the pipeline."""
    assert (jigs.read, jigs.make, jigs.render) == (read, make, render)
    assert jigs.write_all is write_all
    assert jigs.Plan is type(demo.plan())
    with pytest.raises(AttributeError, match="nothing"):
        _ = jigs.nothing


def test_prints_that_share_a_file_but_ask_differently_have_an_artwork_each(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file is read once for each way it is asked for, and once only."""
    asked: list[Asked] = []

    def noted(name: str, data: bytes, place: Place, how: Asked) -> Artwork:
        asked.append(how)
        return artwork_of(name, data, place, how)

    artwork_of = artwork.read
    monkeypatch.setattr(artwork, "read", noted)
    third = '[[prints]]\nlocation = "full-back"\nartwork = "art.svg"\nignore_specks = true\n'
    job = read(orders.small(tmp_path, orders.ORDER + third))

    # Two are read at the same time, so that either may come first.
    assert sorted(asked, key=lambda one: one.ignore_specks) == [Asked(), Asked(ignore_specks=True)]
    assert set(job.artwork) == {("art.svg", one) for one in asked}
    assert len(make(job).prints) == 3
