"""`jigs calibrate`: the page, the profile, and that jigs then print true."""

from io import BytesIO
from pathlib import Path

import pytest

from jigs.drawing.drawing import Drawing, Layer, Shape
from jigs.drawing.tile import tiles
from jigs.errors import BadInput, Place
from jigs.geometry import Box
from jigs.geometry import Path as Outline
from jigs.order import profile
from jigs.order.papers import paper_named, papers
from jigs.pipeline import make, read
from jigs.writers import as_bytes
from tests import orders
from tests.cli.test_commands import data, run
from tests.readers import pdf
from tests.readers.contour import Contour

STRETCH = [(1.0, 1.0), (1.0125, 0.991), (0.9955, 1.0042), (0.975, 1.027)]


def printed(file: bytes, x: float, y: float) -> bytes:
    """Return a document as a printer prints it that stretches by `x` across an upright sheet.

    A turned page is turned back for the sheet to be fed upright: its own width lies along `y`.
    """
    from pypdf import PdfReader, PdfWriter, Transformation

    out, written = PdfWriter(), BytesIO()
    for page in PdfReader(BytesIO(file)).pages:
        upright = page.mediabox.width < page.mediabox.height
        across, down = (x, y) if upright else (y, x)
        # What is printed is measured from the top left corner, where paper and page agree.
        top = float(page.mediabox.height)
        out.add_page(page).add_transformation(
            Transformation().scale(across, down).translate(0, top * (1 - down))
        )
    out.write(written)
    return written.getvalue()


def straight(lines: list[Contour]) -> tuple[list[float], list[float]]:
    """Return the lengths of the lying and of the upright straight lines."""
    boxes = [one.box() for one in lines if len(one.points) == 2]
    lying = [b[2] - b[0] for b in boxes if b[3] - b[1] < 1e-3]
    upright = [b[3] - b[1] for b in boxes if b[2] - b[0] < 1e-3]
    return lying, upright


def measured_lines(file: bytes) -> tuple[float, float]:
    """Return how far the end ticks of the page's two long lines are apart: tick to tick."""
    boxes = [one.box() for one in pdf.contours(file) if len(one.points) == 2]
    lying = max((b for b in boxes if b[3] - b[1] < 1e-3), key=lambda b: b[2] - b[0])
    tall = max((b for b in boxes if b[2] - b[0] < 1e-3), key=lambda b: b[3] - b[1])
    # A tick stands on a line's end, half on either side of the line.
    ticks_x = sorted(b[0] for b in boxes if b[2] - b[0] < 1e-3 and b[3] - b[1] < 20
                     and abs((b[1] + b[3]) / 2 - lying[1]) < 1e-3)  # fmt: skip
    ticks_y = sorted(b[1] for b in boxes if b[3] - b[1] < 1e-3 and b[2] - b[0] < 20
                     and abs((b[0] + b[2]) / 2 - tall[0]) < 1e-3)  # fmt: skip
    assert len(ticks_x) == len(ticks_y) == 2
    return ticks_x[1] - ticks_x[0], ticks_y[1] - ticks_y[0]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("x", "y"), STRETCH)
def test_a_calibrated_printer_prints_true(tmp_path: Path, paper: str, x: float, y: float) -> None:
    """A page printed stretched, measured, and given back makes bars and plate true to 0.05 mm."""
    page, kept = tmp_path / "page.pdf", tmp_path / "my-printer.toml"
    assert run("calibrate", "--paper", paper, "--out", page)[0] == 0
    across, down = measured_lines(printed(page.read_bytes(), x, y))
    code, _, err = run("calibrate", "--paper", paper, "--across", f"{across:.4f} mm",
                       "--down", f"{down:.4f} mm", "--save", kept)  # fmt: skip
    assert code == 0, err
    found = profile.read(kept.read_text(encoding="utf-8"), Place(kept.name)).printer
    sheet = paper_named(paper, Place(""))
    for width, height in ((160.0, 180.0), (220.0, 140.0), (230.0, 330.0), (300.0, 150.0)):
        plate = Drawing((Shape(Layer.CUT, Outline.box(Box(0, 0, width, height))),))
        pages = tiles(plate, title="", says="", width=sheet.width, height=sheet.height,
                      margin=sheet.margin, overlap=sheet.overlap, x=found.x, y=found.y)  # fmt: skip
        print_out = printed(as_bytes("pdf", pages), x, y)
        assert len(pages) == 1 or width > 220
        assert len(pages) > 1 or (pages[0].width > pages[0].height) == (width > height)
        for k in range(len(pages)):
            lines = pdf.contours(print_out, k)
            lying, upright = straight(lines)
            assert min(abs(one - 101.6) for one in lying) < 0.05
            assert min(min(abs(one - long) for one in upright) for long in (50, 100)) < 0.05
            boxes = [one.box() for one in lines]
            assert any(
                abs(b[2] - b[0] - width) < 0.05 and abs(b[3] - b[1] - height) < 0.05 for b in boxes
            )


@pytest.mark.parametrize("paper", sorted(papers()))
def test_the_lines_are_as_long_as_said_on_every_paper(paper: str, tmp_path: Path) -> None:
    """Both lines are whole 10 mm, inside the margins, and everything else is on the paper too."""
    found = data("calibrate", "--paper", paper, "--out", tmp_path / "page.pdf")
    file = (tmp_path / "page.pdf").read_bytes()
    sheet = paper_named(paper, Place(""))

    assert measured_lines(file) == pytest.approx((found["across_mm"], found["down_mm"]), abs=1e-3)
    assert found["across_mm"] % 10 == found["down_mm"] % 10 == 0
    assert found["across_mm"] <= sheet.width - 2 * sheet.margin
    for line in pdf.contours(file):
        left, top, right, bottom = line.box()
        assert left >= sheet.margin - 0.1
        assert top >= sheet.margin - 0.1
        assert right <= sheet.width - sheet.margin + 0.1
        assert bottom <= sheet.height - sheet.margin + 0.1


def test_the_page_is_made_again_and_nothing_else_is_overwritten(tmp_path: Path) -> None:
    """The same page may be written again; a profile takes a profile's place and no other's."""
    page, kept = tmp_path / "page.pdf", tmp_path / "p.toml"
    lengths = ("--across", "189 mm", "--down", "10 1/4 in", "--save")
    assert run("calibrate", "--out", page)[0] == 0
    assert run("calibrate", "--out", page)[0] == 0
    assert run("calibrate", "--paper", "a4", "--out", page)[0] == 2
    assert run("calibrate", *lengths, kept)[0] == 0
    before = kept.read_bytes()
    assert run("calibrate", "--across", "190 mm", "--down", "260 mm", "--save", kept)[0] == 0
    assert kept.read_bytes() != before

    table = tmp_path / "my-tee.toml"
    table.write_text('cut = "crew-tee"\n', encoding="utf-8")
    code, _, err = run("calibrate", *lengths, table)
    assert code == 2
    assert "already there" in err
    assert table.read_text(encoding="utf-8") == 'cut = "crew-tee"\n'


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--across", "249.1 mm", "--down", "260 mm", "--save", "p.toml"],
         ["--across", "190 mm", "184.3 mm to 195.7 mm"]),
        (["--across", "190 mm", "--down", "0 mm", "--save", "p.toml"], ["--down", "260 mm"]),
        (["--across", "190", "--down", "260 mm", "--save", "p.toml"], ["--across", "no unit"]),
        (["--across", "190 mm", "--save", "p.toml"], ["--across, --down and --save"]),
        (["--across", "190 mm", "--down", "260 mm", "--save", "p.txt"], ["--save", "p.txt"]),
        (["--across", "190 mm", "--down", "260 mm", "--save", "p.toml", "--out", "a.pdf"],
         ["--out"]),
        (["--out", "page.png"], ["--out", "name.pdf"]),
        (["--paper", "leter"], ["--paper", "did you mean 'letter'"]),
        (["--out", "no/where.pdf"], ["where.pdf"]),
    ],
)  # fmt: skip
def test_bad_input_is_one_line(
    options: list[str], says: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What cannot be used is one line, exit 2, and nothing is written."""
    monkeypatch.chdir(tmp_path)
    code, out, err = run("calibrate", *options)

    assert (code, out) == (2, "")
    assert len(err.splitlines()) == 1
    assert all(one in err for one in says), err
    assert list(tmp_path.iterdir()) == []


def order_with(folder: Path, text: str | None) -> Path:
    """Return an order that names a profile of some text, or of none."""
    if text is not None:
        (folder / "my-printer.toml").write_text(text, encoding="utf-8")
    return orders.small(folder, orders.ORDER + '\n[printer]\nprofile = "my-printer.toml"\n')


GOOD = 'kind = "printer-profile"\npaper = "letter"\nx = 1.002\ny = 0.9987\n'


TEMPLATE = (
    "template", "adult-crew-tee", "--location", "left-chest", "--width", "3 in", "--height", "3 in",
    "--sizes", "M", "--style", "ledge",
)  # fmt: skip


def test_a_jig_without_an_order_takes_a_profile(tmp_path: Path) -> None:
    """Its paper print is stretched by the factors, its cut files are not; other paper is told."""
    kept = tmp_path / "my-printer.toml"
    kept.write_text(GOOD, encoding="utf-8")
    plain = data(*TEMPLATE, "--out", tmp_path / "plain")
    made = data(*TEMPLATE, "--out", tmp_path / "true", "--profile", kept)
    other = data(*TEMPLATE, "--out", tmp_path / "a4", "--profile", kept, "--paper", "a4")
    name = "left-chest-ledge-adult-M"

    assert made["findings"] == plain["findings"]
    assert "measured on letter" in other["findings"][0]["says"]
    for suffix, same in (("dxf", True), ("svg", True), ("pdf", False)):
        one, two = (tmp_path / folder / f"{name}.{suffix}" for folder in ("plain", "true"))
        assert (one.read_bytes() == two.read_bytes()) is same


def test_a_profile_that_is_none_is_refused(tmp_path: Path) -> None:
    """A missing or foreign file is one line, exit 2, and nothing is written."""
    code, _, err = run(*TEMPLATE, "--out", tmp_path / "out", "--profile", tmp_path / "no.toml")

    assert code == 2
    assert "no.toml" in err
    assert not (tmp_path / "out").exists()


def test_an_order_takes_its_factors_from_a_profile(tmp_path: Path) -> None:
    """The plan's printer has the profile's factors; a profile of another paper is remarked on."""
    plan = make(read(order_with(tmp_path, GOOD)))
    assert (plan.shop.printer.x, plan.shop.printer.y) == (1.002, 0.9987)
    assert not any("measured on" in one.says for one in plan.findings)

    plan = make(read(order_with(tmp_path, GOOD.replace("letter", "a4"))))
    (said,) = [one for one in plan.findings if one.about == "my-printer.toml"]
    assert not said.blocks
    assert "measured on a4" in said.says


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (None, ["order.toml: printer.profile: ", "no file 'my-printer.toml'"]),
        ("", ["my-printer.toml: kind: ", "no printer profile"]),
        ('cut = "crew-tee"\n', ["my-printer.toml: kind: ", "no printer profile"]),
        (GOOD[:26], ["my-printer.toml: ", "not TOML"]),
        (GOOD.replace("1.002", "1.2"), ["my-printer.toml: x: ", "found 1.2", "0.97 to 1.031"]),
        (GOOD.replace("x =", "z ="), ["my-printer.toml: z: ", "my-printer.toml: x: missing"]),
        (GOOD.replace("letter", "leter"), ["my-printer.toml: paper: ", "did you mean 'letter'"]),
        (GOOD.replace("y = 0.9987", "y = true"), ["my-printer.toml: y: ", "found true"]),
    ],
)  # fmt: skip
def test_a_broken_profile_is_said_with_its_place(
    text: str | None, says: list[str], tmp_path: Path
) -> None:
    """A missing, foreign or broken profile is said with file and place; nothing is written."""
    code, _, err = run("make", order_with(tmp_path, text), "--out", tmp_path / "out")

    assert code == 2
    assert all(one in err for one in says), err
    assert all(line.startswith("jigs: ") for line in err.splitlines())
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("printer", "says"),
    [
        ('profile = "../my-printer.toml"', "leaves the folder"),
        ('profile = "a.toml"\nx = 1.01', "either profile, or x and y"),
        ("profile = 1.01", "found 1.01"),
        ('profil = "a.toml"', "did you mean 'profile'"),
    ],
)
def test_a_profile_is_named_beside_the_order_and_alone(
    printer: str, says: str, tmp_path: Path
) -> None:
    """The path stays beside the order, and there are not two sources of factors."""
    order = orders.small(tmp_path, f"{orders.ORDER}\n[printer]\n{printer}\n")
    code, _, err = run("make", order, "--out", tmp_path / "out")

    assert code == 2
    assert says in err


def test_a_profile_says_what_was_measured() -> None:
    """What is written is read again: factors that undo the measured error."""
    sheet = paper_named("a4", Place(""))
    across, down = profile.lines_on(sheet)
    places = Place("a"), Place("b")
    found = profile.measured(sheet, 0.99 * across, 1.01 * down, places)
    again = profile.read(profile.text_of(found, "p.toml"), Place("p.toml"))

    assert again == found
    assert found.printer.x * 0.99 == pytest.approx(1, abs=1e-6)
    assert found.printer.y * 1.01 == pytest.approx(1, abs=1e-6)
    with pytest.raises(BadInput, match="a: found"):
        profile.measured(sheet, 1.031 * across, down, places)
