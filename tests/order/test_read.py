"""A good order file is read as it says."""

import pytest

from jigs.order.materials import materials
from jigs.order.order import Cutter, GarmentLine, Order, Paper, Press, Print, Printer, Transfer
from jigs.order.read import read
from jigs.units import INCH, POINT
from tests.order.known import DEMO, GOOD, KNOWN


def _read(text: str) -> Order:
    return read(text, "order.toml", KNOWN)


def test_least() -> None:
    """The least order has one garment, one print, and the usual equipment."""
    line = GarmentLine("adult", "adult-crew-tee", "navy", "#1f2a44", (("S", 4), ("2XL", 3)))
    one = Print("left-chest", "left-chest", "artwork/crest.svg", ("adult",))

    assert _read(GOOD) == Order("spring", "Somebody", "in", (line,), (one,))


def test_demo() -> None:
    """The demo order reads, and holds what a newcomer is to see."""
    order = _read(DEMO)

    assert order.reference == "harbour-relay"
    assert [line.table for line in order.garments] == [
        "youth-crew-tee",
        "adult-crew-tee",
        "womens-crew-tee",
    ]
    assert sum(len(line.quantities) for line in order.garments) >= 9
    assert {one.artwork for one in order.prints} == {
        f"artwork/{name}.svg"
        for name in ("crest", "front", "relay-back", "sleeve-mark", "neck-label")
    }
    front = next(one for one in order.prints if one.location == "full-front")
    assert front.garments == ("womens",)
    assert len(order.garment("womens").quantities) == 4


def test_demo_says_the_usual() -> None:
    """The equipment spelled out in the demo is what an order without it gets."""
    demo, least = _read(DEMO), _read(GOOD)

    assert (demo.paper, demo.printer) == (least.paper, least.printer)
    assert (demo.press, demo.transfer) == (least.press, least.transfer)
    assert (demo.cutter, least.cutter) == (Cutter(own=True), Cutter())


@pytest.mark.parametrize(
    ("width", "one", "several"),
    [
        ('"auto"', None, ()),
        ('"3 1/2 in"', 3.5 * INCH, ()),
        ('"9 cm"', 90.0, ()),
        ('{ "S-XL" = "11 in", "2XL" = "12 in" }', None, (("S-XL", 11 * INCH), ("2XL", 12 * INCH))),
    ],
)
def test_width(width: str, one: float | None, several: tuple[tuple[str, float], ...]) -> None:
    """A width is automatic, one for all, or one for each range of sizes."""
    found = _read(f"{GOOD}width = {width}").prints[0]

    assert (found.width, found.widths) == (one, several)


def test_print_wishes() -> None:
    """A print's own name, drop, garments and styles are taken as they stand."""
    more = 'name = "crest"\ndrop = "4 fingers"\ngarments = ["adult"]\nstyles = ["film"]\n'
    found = _read(GOOD + more).prints[0]

    # Four English digits of 3/4 in.
    assert found.drop == pytest.approx(76.2)
    assert (found.name, found.garments, found.styles) == ("crest", ("adult",), ("film",))


def test_how_artwork_is_read() -> None:
    """A print says which page it means, and whether specks count; the first, and they do."""
    usual, found = _read(GOOD).prints[0], _read(GOOD + "page = 2\nignore_specks = true\n").prints[0]

    assert (usual.page, usual.ignore_specks) == (1, False)
    assert (found.page, found.ignore_specks) == (2, True)


def test_equipment() -> None:
    """Each group of equipment is read into its own value; custom paper is turned upright."""
    order = _read(
        GOOD
        + '[paper]\nsize = ["11 in", "8.5 in"]\nmargin = "5 mm"\noverlap = "12 mm"\n'
        + "[printer]\nx = 1.004\ny = 1\n"
        + '[cutter]\nkerf = "0.15 mm"\nbed = ["900 mm", "600 mm"]\nmaterial = "Card"\n'
        + 'tabs = "1 mm"\n'
        + '[press]\nplaten = ["15 in", "15 in"]\n'
        + '[transfer]\ntrim = "3 mm"\nslip = "0.3 mm"\nstep = "5 mm"\n'
        + 'line = "0.5 pt"\ngap = "0.3 mm"\nleast_ppi = 200\n'
    )

    assert order.paper == Paper("11 in x 8.5 in", 8.5 * INCH, 11 * INCH, 5.0, 12.0)
    assert order.printer == Printer(1.004, 1.0)
    assert order.cutter == Cutter(0.15, 900.0, 600.0, materials()["card"], 1.0, own=True)
    assert order.press == Press(381.0, 381.0)
    assert order.transfer == Transfer(3.0, 0.3, 5.0, 0.5 * POINT, 0.3, 200.0)


def test_none_of_a_size() -> None:
    """A quantity of 0 is the same as leaving the size out."""
    order = _read(GOOD.replace("S = 4", "XS = 0, S = 4"))

    assert order.garments[0].quantities == (("S", 4), ("2XL", 3))


def test_table_beside_the_order() -> None:
    """A table that ends in .toml is a path and need not be known."""
    order = _read(GOOD.replace("adult-crew-tee", "tables/mine.toml"))

    assert order.garments[0].table == "tables/mine.toml"


@pytest.mark.parametrize("break_", ["\n", "\r\n"])
def test_line_ends(break_: str) -> None:
    """Line ends of Windows and of others give the same order."""
    assert _read(GOOD.replace("\n", break_)) == _read(GOOD)
