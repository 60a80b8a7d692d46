"""Bed, stock and fit in an order file."""

import pytest

from jigs.errors import BadInput, BadInputs
from jigs.order.order import Cutter
from jigs.order.read import read
from jigs.units import INCH
from tests.order.known import GOOD, KNOWN


def _cutter(text: str) -> Cutter:
    return read(f"{GOOD}\n[cutter]\n{text}\n", "order.toml", KNOWN).cutter


def test_bed_stock_and_fit() -> None:
    """Both are pairs of lengths, the fit is a length; the rest is as usual."""
    found = _cutter('bed = ["500 mm", "300 mm"]\nstock = ["12 in", "20 in"]\nfit = "0.05 mm"')
    assert (found.bed_width, found.bed_height) == (500.0, 300.0)
    assert found.stock == (12 * INCH, 20 * INCH)
    assert found.fit == 0.05
    assert found.sheet == (500.0, 300.0)


def test_only_an_order_that_names_a_cutter_has_one() -> None:
    """An order without the group, or with an empty one, is of a shop without a cutter."""
    assert not read(GOOD, "order.toml", KNOWN).cutter.own
    assert not _cutter("").own
    assert _cutter('kerf = "0.2 mm"').own


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        ('fit = "1 mm"', "cutter.fit", "0.5 mm"),
        ('fit = "-0.1 mm"', "cutter.fit", "0 mm"),
        ("fit = 0.1", "cutter.fit", "unit"),
        ('stock = ["0 mm", "300 mm"]', "cutter.stock.0", "50 mm"),
        ('stock = ["300 mm", "-1 mm"]', "cutter.stock.1", "50 mm"),
        ('stock = "12 in"', "cutter.stock", "a width and a height"),
        ('stock = ["12 in"]', "cutter.stock", "a width and a height"),
        ('stock = ["20 m", "20 m"]', "cutter.stock.0", "10000 mm"),
        ('bed = ["10 mm", "10 mm"]', "cutter.bed.0", "50 mm"),
    ],
)
def test_what_is_wrong_is_said(text: str, key: str, says: str) -> None:
    """A length that is none for a cutter is blamed by its key, with what is allowed."""
    with pytest.raises((BadInput, BadInputs)) as error:
        _cutter(text)
    said = str(error.value)
    assert key.replace(".0", "[0]") in said or key in said or key.rpartition(".")[0] in said
    assert says in said
