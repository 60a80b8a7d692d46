"""A film in an order, in a plan that is kept, and on the command line."""

from pathlib import Path

from jigs import pipeline
from jigs.documents.jig_pages import described
from jigs.documents.report import report_text
from jigs.errors import Place
from tests import orders
from tests.cli.test_commands import data, run

ORDER = (
    orders.ORDER.replace('styles = ["window"]', 'styles = ["window", "film"]')
    .replace('styles = ["ledge"]', 'styles = ["film"]')
    .replace("{ M = 3, L = 2 }", "{ S = 1, M = 3, L = 2, XL = 1 }")
)


def test_an_order_has_one_film_for_a_width(tmp_path: Path) -> None:
    """All sizes of a width share a film, which has no errors to tell; the plan holds it."""
    plan = pipeline.make(pipeline.read(orders.small(tmp_path, ORDER)))
    films = [jig for jig in plan.jigs if jig.style == "film"]
    ranges = [one for each in plan.prints for one in each.widths.ranges]
    text = report_text(plan)

    assert len(films) == len(ranges)
    assert films[-1].stem == "neck-label-film-adult-S-XL"
    assert [line.name for line in films[-1].template.seams] == ["S", "M", "L", "XL"]
    assert text.count("by eye, to about 1 mm") == len(films)
    assert not [one for one in plan.findings if "neck-label" in one.about and one.blocks]
    kept = next(one.data for one in pipeline.render(plan) if one.name == "plan.json")
    path = tmp_path / "plan.json"
    path.write_bytes(kept)
    assert pipeline.load(path) == plan


def test_a_film_says_what_it_is_made_of(tmp_path: Path) -> None:
    """Its cut files name the film, whatever the cutter's material, and how it is used."""
    plan = pipeline.make(pipeline.read(orders.small(tmp_path, ORDER)))
    files = {one.name: one.data for one in pipeline.render(plan)}
    film = files["jigs/neck-label-film-adult-S-XL.svg"].decode()
    (window,) = [name for name in files if "window" in name and name.endswith(".svg")][:1]
    (jig,) = [one for one in plan.jigs if one.stem == "neck-label-film-adult-S-XL"]

    assert "Material: polyester film" in film
    assert "acrylic" not in film
    assert "Material: acrylic" in files[window].decode()
    assert "which an eye does to about 1 mm" in described(jig.template, "film")


def test_a_film_without_an_order(tmp_path: Path) -> None:
    """`jigs template --style film` tells a line for every size instead of errors."""
    asked = (
        "template", "adult-crew-tee", "--location", "left-chest", "--width", "3 in",
        "--height", "3 in", "--sizes", "M-XL", "--style", "film", "--out", tmp_path / "out",
    )  # fmt: skip
    code, out, _ = run(*asked)
    (jig,) = data(*asked)["jigs"]

    assert code == 0
    assert "left chest, film, adult M–XL: print 3 in × 3 in" in out
    assert [line["sizes"] for line in jig["lines"]] == [["M"], ["L"], ["XL"]]
    assert all(line["drop_mm"] == 76.2 for line in jig["lines"])
    assert [round(line["centre_to_ink_mm"], 2) for line in jig["lines"]] == [88.11, 90.49, 92.87]
    assert not [key for key in jig if "error" in key]


def test_a_style_that_is_none_is_told_with_film_among_the_others(tmp_path: Path) -> None:
    """A misspelt film is refused with the styles there are."""
    code, _, err = run(
        "template", "adult-crew-tee", "--location", "left-chest", "--width", "3 in",
        "--height", "3 in", "--style", "flim", "--out", tmp_path / "out",
    )  # fmt: skip

    assert code == 2
    assert str(Place("option", "--style")) in err
    assert "film" in err
