"""What the program recommends, against what the trade does.

Every figure here is common practice, no source: several guides of the trade agree on it. The
artwork is as wide as it is high or up to half as wide again, as most is.
"""

import pytest

from jigs.locations import LOCATIONS
from jigs.order.order import Transfer
from jigs.plan.prints import Site, widths
from jigs.units import INCH
from jigs.widths import WidthPlan
from tests import shipped

#: Location, table, sizes, least and most inches that the trade prints.
WIDTHS = [
    ("full-front", "adult-crew-tee", ("S", "M", "L", "XL", "2XL", "3XL"), 10, 12),
    ("full-front", "womens-crew-tee", ("S", "M", "L", "XL", "2XL", "3XL"), 10, 12),
    ("full-front", "youth-crew-tee", ("XS", "S", "M", "L", "XL"), 7.5, 10.5),
    ("full-front", "toddler-crew-tee", ("2T", "3T", "4T", "5T/6T"), 4.5, 7.5),
    ("full-front", "infant-crew-tee", ("NB", "3-6M"), 2.5, 5.5),
    ("full-back", "adult-crew-tee", ("S", "M", "L", "XL", "2XL", "3XL"), 10, 14),
    ("left-chest", "adult-crew-tee", ("S", "M", "L", "XL", "2XL", "3XL"), 3, 4),
    ("left-chest", "womens-crew-tee", ("S", "M", "L", "XL"), 3, 4),
    ("left-sleeve", "adult-crew-tee", ("S", "M", "L", "XL", "2XL", "3XL"), 1, 4),
    ("left-sleeve", "youth-crew-tee", ("S", "M", "L", "XL"), 1, 4),
    ("neck-label", "adult-crew-tee", ("S", "M", "L", "XL", "2XL", "3XL"), 2, 3),
]  # fmt: skip


def recommended(location: str, where: tuple[Site, ...], aspect: float) -> WidthPlan:
    """Return the widths recommended at a location."""
    return widths(LOCATIONS.get(location), where, aspect, Transfer())


@pytest.mark.parametrize("aspect", [1.0, 1.25, 1.5])
@pytest.mark.parametrize(("location", "table", "sizes", "least", "most"), WIDTHS)
def test_recommended_widths_are_the_trades(
    location: str, table: str, sizes: tuple[str, ...], least: float, most: float, aspect: float
) -> None:
    """Each recommended width lies in the trade's range (common practice, no source)."""
    where = tuple(s for s in shipped.at(location, table) if s.sized.plan.measures.size in sizes)
    assert len(where) == len(sizes)
    plan = recommended(location, where, aspect)

    assert sorted(key for r in plan.ranges for key in r.sizes) == sorted(s.key for s in where)
    for r in plan.ranges:
        assert least * INCH - 1e-6 <= r.width <= most * INCH + 1e-6, (r.sizes, r.width / INCH)


def test_one_width_serves_adults() -> None:
    """A usual 11 in full front serves S to 3XL with one transfer (common practice, no source)."""
    where = tuple(
        s for s in shipped.at("full-front", "adult-crew-tee")
        if s.sized.plan.measures.size in {"S", "M", "L", "XL", "2XL", "3XL"}
    )  # fmt: skip
    plan = recommended("full-front", where, 1.2)

    assert len(plan.ranges) == 1
    assert plan.ranges[0].width == pytest.approx(11 * INCH, abs=0.51 * INCH)


@pytest.mark.parametrize("table", ["adult-crew-tee", "womens-crew-tee"])
def test_a_left_chest_print_lands_where_the_trade_puts_it(table: str) -> None:
    """Its middle: 7-9 in below the HPS, 4 in ± 1 off centre (common practice, no source)."""
    where = shipped.at("left-chest", table)
    plan = recommended("left-chest", where, 1.0)
    height = {key: r.height for r in plan.ranges for key in r.sizes}
    for site in where:
        x, top = site.placement.anchor

        assert 3 * INCH <= x <= 5 * INCH, site.key
        assert 7 * INCH <= top + height[site.key] / 2 <= 9 * INCH, site.key


def test_four_fingers_are_three_inches() -> None:
    """The left chest's drop, four fingers, is 3 in: the English digit is 3/4 in."""
    drop = LOCATIONS.get("left-chest").drop.adult

    assert drop == pytest.approx(3 * INCH)
    assert drop == pytest.approx(76.2)


@pytest.mark.parametrize(
    ("location", "least", "most"),
    [("full-front", 1.5, 3.5), ("full-back", 2, 6), ("upper-back", 1, 3), ("neck-label", 0.5, 1)],
)
def test_adult_drops_are_the_trades(location: str, least: float, most: float) -> None:
    """Drops below the collar seam of adult tees (common practice, no source)."""
    assert least * INCH <= LOCATIONS.get(location).drop.adult <= most * INCH


def test_drops_shrink_with_age() -> None:
    """A smaller wearer's print hangs no lower below the collar (common practice, no source)."""
    for name, location in LOCATIONS:
        d = location.drop
        assert d.adult >= d.youth >= d.toddler >= d.infant > 0, name


def test_everything_fits_a_usual_platen() -> None:
    """Every recommended print fits a 16 x 20 in platen (common practice, no source)."""
    for location, table in shipped.places():
        plan = recommended(location, shipped.at(location, table), 1.0)
        for r in plan.ranges:
            assert r.width <= 16 * INCH
            assert r.height <= 20 * INCH
