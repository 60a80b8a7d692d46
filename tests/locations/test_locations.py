import math
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.errors import Place
from jigs.garments import GARMENTS, Flat
from jigs.geometry import Affine, Path, Point
from jigs.geometry.region import holds
from jigs.locations import LOCATIONS, Location, Placement, Seen, lacks, place
from jigs.locations._location import PLATEN_RIM, usual_width
from jigs.tables.estimate import completed
from jigs.tables.library import find, names
from jigs.tables.measure import Measure, Measures
from tests.strategies import crew_tees, numbers

HERE = Place("test")
INCH = 25.4
#: A usual platen (common practice, no source).
PLATEN = (16 * INCH, 20 * INCH)
AGES = ("infant", "toddler", "youth", "adult")
SIZES = [(name, one.size) for name in names() for one in find(name, HERE).sizes]
TEES = [(name, size) for name, size in SIZES if find(name, HERE).cut == "crew-tee"]
#: What a crew-neck tee has a place for.
ON_TEES = [
    name
    for name in LOCATIONS.names()
    if name.partition("-")[2] not in {"hood", "long-sleeve"}
    and name not in {"pocket", "tote-centre"}
]
IDS = [f"{table}/{size}" for table, size in SIZES]
ADULT = [size for table, size in SIZES if table == "adult-crew-tee"]
SIDES = ("left", "right")
#: A size that has what a crew-neck tee has not.
GARMENT = {
    "left-hood": ("adult-hoodie", "M"),
    "right-hood": ("adult-hoodie", "M"),
    "left-long-sleeve": ("adult-hoodie", "M"),
    "right-long-sleeve": ("adult-hoodie", "M"),
    "pocket": ("adult-hoodie", "M"),
    "tote-centre": ("tote-bag", "standard"),
}
ASPECTS = (0.4, 1.0, 3.0)


@cache
def flat(table: str, size: str) -> Flat:
    """Return one of the package's sizes, drawn."""
    found = find(table, HERE)
    measures = completed(found.size(size, HERE), found.cut)
    return GARMENTS.get(found.cut).draw(measures)


def at(location: str, table: str = "adult-crew-tee", size: str = "M") -> Placement:
    """Return a location on a size."""
    return place(LOCATIONS.get(location), flat(table, size), PLATEN)


def with_slack(one: Flat, slack: float, age: str = "adult") -> Flat:
    """Return a garment again with one plus-minus for all its measures."""
    values = {name: Measure(m.mm, slack) for name, m in one.measures.values.items()}
    return GARMENTS.get("crew-tee").draw(Measures("t", "M", age, values))


def looks_right(placement: Placement, aspects: tuple[float, ...]) -> None:
    """Assert what room and zone promise, measured by shapely on polygons."""
    import shapely

    panel = shapely.Polygon(placement.outline.points())
    assert panel.contains(shapely.Point(placement.anchor))
    path = placement.zone()
    if path is None:
        assert all(placement.room(aspect).mm < 0.02 for aspect in aspects)
        return
    zone = shapely.Polygon(path.points())
    assert zone.is_valid
    assert panel.buffer(1e-6).covers(zone)
    known = {limit.name for limit in placement.limits} | {"platen"}
    for aspect in aspects:
        room = placement.room(aspect)
        assert room.limited_by in known
        assert zone.buffer(0.02).covers(box(placement, room.mm, aspect))
        assert not zone.buffer(0.02).covers(box(placement, room.mm + 0.2, aspect))
        if room.limited_by == "platen":
            assert room.mm == min(placement.platen[0], placement.platen[1] * aspect)


def box(placement: Placement, width: float, aspect: float) -> "object":
    """Return artwork of a width in its place, as a shapely box."""
    import shapely

    x, y = placement.anchor
    end = y + (width if placement.hangs else -width) / aspect
    return shapely.box(x - width / 2, min(y, end), x + width / 2, max(y, end))


@pytest.mark.parametrize(("table", "size"), SIZES, ids=IDS)
def test_what_fits_lies_in_the_zone_and_what_is_wider_does_not(table: str, size: str) -> None:
    """On every size and at every location, to 0.02 mm; the anchor and the zone are on the panel."""
    turn = SIZES.index((table, size))
    here = flat(table, size)
    for k, (_, location) in enumerate(LOCATIONS):
        if lacks(location, here):
            continue
        # One shape of artwork for each, so that neighbouring sizes and locations get them all.
        aspect = ASPECTS[(turn + k) % len(ASPECTS)]
        looks_right(place(location, here, PLATEN), (aspect,))


@given(crew_tees(), st.sampled_from(ON_TEES), numbers(100, 600), numbers(100, 600))
@settings(max_examples=12)
def test_the_same_holds_on_any_tee(
    measures: Measures, name: str, width: float, height: float
) -> None:
    """On garments of odd proportions and platens of any size, wherever the anchor is on them."""
    placement = place(LOCATIONS.get(name), GARMENTS.get("crew-tee").draw(measures), (width, height))
    if holds(placement.outline, placement.anchor):
        looks_right(placement, ASPECTS)
    else:
        assert placement.room(1.0).mm == 0
        assert placement.zone() is None


@given(st.sampled_from(ON_TEES), st.sampled_from(TEES), numbers(0, 1000))
def test_a_drop_of_the_orders_own_moves_the_anchor_exactly(
    name: str, one: tuple[str, str], drop: float
) -> None:
    """The anchor lies at that drop from its datum; without one at the drop for the age."""
    location, garment = LOCATIONS.get(name), flat(*one)
    datum = garment.landmarks[location.datum]
    own, usual = place(location, garment, PLATEN, drop), place(location, garment, PLATEN)

    sign = 1 if location.hangs else -1
    assert own.drop == drop
    assert own.anchor == Point(usual.anchor.x, datum.y + sign * drop)
    assert usual.drop == location.drop.at(garment.measures.age)
    assert usual.anchor.y == datum.y + sign * usual.drop
    if not holds(own.outline, own.anchor):
        assert own.room(1.0).mm == 0


@pytest.mark.parametrize("name", ON_TEES)
def test_beyond_the_panel_there_is_no_room(name: str) -> None:
    """A drop that leads off the garment has no zone and no width, whatever the artwork."""
    off = place(LOCATIONS.get(name), flat("infant-crew-tee", "NB"), PLATEN, 900.0)

    assert off.zone() is None
    assert [off.room(aspect).mm for aspect in ASPECTS] == [0, 0, 0]
    assert off.room(1.0).limited_by == "edge of the panel"


@pytest.mark.parametrize(("table", "size"), SIZES[::3], ids=IDS[::3])
def test_left_and_right_are_mirror_images(table: str, size: str) -> None:
    """The wearer's left is at positive x; the two sides have the same room."""
    garment = flat(table, size)
    sides = ("long-sleeve", "sleeve", "hood", "hem")
    for here, there in ([LOCATIONS.get(f"{side}-{what}") for side in SIDES] for what in sides):
        assert lacks(here, garment) is lacks(there, garment)
        if not lacks(here, garment):
            first, second = (place(each, garment, PLATEN) for each in (here, there))
            assert abs(first.anchor.x) == abs(second.anchor.x)
            assert first.room(1.25).mm == pytest.approx(second.room(1.25).mm, abs=1e-6)
    if lacks(LOCATIONS.get("left-chest"), garment):
        return
    left, right = (
        place(LOCATIONS.get(f"{side}-chest"), garment, PLATEN) for side in ("left", "right")
    )

    assert left.anchor.x > 0
    assert right.anchor == Point(-left.anchor.x, left.anchor.y)
    one, two = left.room(1.25), right.room(1.25)
    assert one.mm == pytest.approx(two.mm, abs=1e-6)
    assert one.limited_by == two.limited_by
    zones = left.zone(), right.zone()
    assert zones[0] is not None
    assert zones[1] is not None
    mirrored = zones[1].moved(Affine.scale(-1, 1)).bounds()
    assert (mirrored.left, mirrored.bottom) == pytest.approx(
        (zones[0].bounds().left, zones[0].bounds().bottom), abs=1e-6
    )


def test_the_operator_sees_the_wearers_left_on_the_left_from_behind_only() -> None:
    """Facing the garment, left and right are swapped; behind it or inside the back, see below.

    Inside the back is looked at through the open neck, from the front, so it swaps too.
    """
    assert [seen for seen in Seen if seen.mirrors] == [Seen.BACK, Seen.RIGHT_HOOD]
    seen = {name: location.seen for name, location in LOCATIONS}
    assert {name for name in seen if seen[name] is Seen.BACK} == {"full-back", "upper-back", "nape"}
    assert seen["neck-label"] is Seen.INSIDE_BACK
    assert seen["left-sleeve"] is Seen.LEFT_SLEEVE
    assert seen["right-sleeve"] is Seen.RIGHT_SLEEVE


def test_limits_bear_the_names_of_what_stops_the_print() -> None:
    """Each edge of the panel is a limit; a narrow place is named by the edge that is near."""
    body = {"collar seam", "shoulder seam", "armhole seam", "side seam", "hem"}
    front, chest, sleeve = at("full-front"), at("left-chest"), at("left-sleeve")

    assert {limit.name for limit in front.limits} == body
    assert {limit.name for limit in chest.limits} == body | {"centre line"}
    assert {limit.name for limit in sleeve.limits} == {
        "armhole seam",
        "underarm seam",
        "sleeve hem",
    }
    assert front.room(1.0).limited_by == "armhole seam"
    assert replace(front, platen=(100.0, 100.0)).room(1.0) == front.room(1.0).__class__(
        100.0, "platen"
    )
    assert chest.room(1.0).limited_by == "centre line"
    assert place(LOCATIONS.get("full-front"), flat("adult-crew-tee", "M"), (999, 999), 400).room(
        1.0
    ).limited_by == "hem"  # fmt: skip
    assert at("neck-label").room(3.0).limited_by == "shoulder seam"
    assert sleeve.room(0.4).limited_by == "armhole seam"


def test_the_platens_rim_is_not_used() -> None:
    """A quarter inch on every side is left, and the zone reaches no farther than that."""
    placement = place(LOCATIONS.get("full-back"), flat("adult-crew-tee", "3XL"), (250.0, 300.0))

    assert PLATEN_RIM == 0.25 * INCH
    assert placement.platen == pytest.approx((250 - 0.5 * INCH, 300 - 0.5 * INCH))
    zone = placement.zone()
    assert zone is not None
    assert zone.bounds().width == pytest.approx(250 - 0.5 * INCH)
    assert zone.bounds().bottom - placement.anchor.y == pytest.approx(300 - 0.5 * INCH)


@given(st.sampled_from(ON_TEES), numbers(0.1, 20))
@settings(max_examples=10)
def test_a_less_certain_garment_leaves_less_room(name: str, slack: float) -> None:
    """Each clearance grows by its edge's plus-minus or more, and the room never grows."""
    location = LOCATIONS.get(name)
    sure, unsure = (with_slack(flat("adult-crew-tee", "M"), s) for s in (0.0, slack))
    one, two = place(location, sure, PLATEN), place(location, unsure, PLATEN)

    edges = [e for e in unsure.panels[location.panel].edges if e.name in location.clear]
    for before, after, edge in zip(one.limits, two.limits, edges, strict=False):
        assert before.clearance == location.clear[edge.name]
        if edge.name in unsure.seams[location.seat].edges:
            # The print is measured from it; beside the centre line its width still counts.
            collar = unsure.seams[location.seat].half is not None
            beside = slack / 2 if location.keeps_off_centre and collar else 0
            assert after.clearance == before.clearance + beside
            continue
        assert after.clearance >= location.clear[edge.name] + edge.plus_minus - 1e-9
        # The print's own place is unsure by the same slack, down and across, at most.
        most = math.hypot(edge.plus_minus, slack, slack)
        assert after.clearance <= location.clear[edge.name] + most + 1e-9
    for aspect in ASPECTS:
        assert two.room(aspect).mm <= one.room(aspect).mm + 1e-6


@pytest.mark.parametrize("name", [n for n in names() if "sweatshirt" in n])
def test_a_print_above_a_hems_rib_is_measured_from_its_seam(name: str) -> None:
    """The rib lies exactly where the print is measured from, so there is room above it."""
    location = LOCATIONS.get("left-hem")
    for one in find(name, HERE).sizes:
        placed = place(location, flat(name, one.size), PLATEN)
        assert placed.room(1.5).mm >= location.usual[0].at(one.age)
        assert placed.zone() is not None


def test_small_garments_are_pressed_closer_to_their_seams() -> None:
    """The same garment with a younger name has smaller clearances, never larger ones."""
    for name in ON_TEES:
        location = LOCATIONS.get(name)
        clearances = [
            [limit.clearance for limit in place(location, one, PLATEN).limits]
            for one in (with_slack(flat("youth-crew-tee", "M"), 0.0, age) for age in AGES)
        ]
        for younger, older in pairwise(clearances):
            assert all(a < b for a, b in zip(younger, older, strict=True))


@pytest.mark.parametrize("name", LOCATIONS.names())
def test_a_locations_data_agrees_with_itself_and_with_a_garment(name: str) -> None:
    """Ages are in order, least is below most; it knows every edge of its panel, and no others."""
    location, one = LOCATIONS.get(name), flat(*GARMENT.get(name, ("adult-crew-tee", "M")))
    panel = one.panels[location.panel]

    assert location.title == name.replace("-", " ")
    assert not lacks(location, one)
    assert {edge.name for edge in panel.edges} <= {*location.clear, "cuff side"}
    assert {*location.clear} <= {edge.name for edge in panel.edges} | {"hem rib"}
    assert 0 < location.engaged <= 1
    least, most = location.usual
    for age in AGES:
        assert 0 < least.at(age) < most.at(age)
    for lengths in (location.drop, least, most, location.tallest):
        by_age = [lengths.at(age) for age in AGES]
        assert by_age == sorted(by_age)
    with pytest.raises(KeyError):
        location.drop.at("elderly")


def test_a_garment_without_the_panel_is_refused() -> None:
    """Neither a panel nor a datum is made up."""
    tee = flat("adult-crew-tee", "M")
    with pytest.raises(KeyError, match="sleeve"):
        place(
            LOCATIONS.get("left-sleeve"),
            replace(tee, panels={"front": tee.panels["front"]}),
            PLATEN,
        )
    with pytest.raises(KeyError, match="front collar"):
        place(LOCATIONS.get("full-front"), replace(tee, landmarks={}), PLATEN)


def inches(lengths: list[float]) -> tuple[float, float]:
    """Return the least and the greatest of some lengths, in inches."""
    return min(lengths) / INCH, max(lengths) / INCH


def widths(location: Location, table: str, aspect: float = 1.25) -> list[float]:
    """Return the usual widths of artwork on the sizes of a table."""
    return [
        usual_width(location, m.measures.age, m.measures.mm("half_chest"), aspect)
        for m in (flat(name, size) for name, size in SIZES if name == table)
    ]


def test_left_chest_is_where_the_trade_puts_it() -> None:
    """The middle of a print 3 in high is 7 to 9 in below HPS and 3 to 5 in off centre, adults.

    Common practice, no source. On the largest size the collar is so deep that it is 1/8 in lower.
    """
    for size in ADULT:
        placement = at("left-chest", size=size)
        middle = (placement.anchor.y + 1.5 * INCH) / INCH
        assert 7 <= middle <= (9.125 if size == "5XL" else 9) + 1e-9
        assert 3 <= placement.anchor.x / INCH <= 5


def test_four_fingers_below_the_collar() -> None:
    """On an adult a left chest is four fingers of 3/4 in down (common practice, no source)."""
    assert at("left-chest").drop == pytest.approx(4 * 0.75 * INCH)


def test_full_front_drop_is_the_trades() -> None:
    """2.5 in, give or take 1 in, below the collar seam, adult (common practice, no source)."""
    drops = [at("full-front", size=size).drop for size in ADULT]

    assert inches(drops)[0] >= 1.5
    assert inches(drops)[1] <= 3.5


@pytest.mark.parametrize(
    ("location", "table", "least", "most"),
    [
        # All of these are common practice, no source.
        ("full-front", "adult-crew-tee", 10, 12),
        ("full-front", "womens-crew-tee", 10, 12),
        ("full-front", "youth-crew-tee", 7.5, 10.5),
        ("full-front", "toddler-crew-tee", 4.5, 7.5),
        ("full-front", "infant-crew-tee", 2.5, 5.5),
        ("full-back", "adult-crew-tee", 10, 14),
        ("left-chest", "adult-crew-tee", 3, 4),
        ("right-chest", "adult-crew-tee", 3, 4),
        ("left-chest", "womens-crew-tee", 2.4, 5),
        ("left-sleeve", "adult-crew-tee", 1, 4),
        ("neck-label", "adult-crew-tee", 2, 3),
    ],
)
def test_usual_widths_are_the_trades(location: str, table: str, least: float, most: float) -> None:
    """On every size of a table the usual width lies where decorators say it does."""
    low, high = inches(widths(LOCATIONS.get(location), table))

    assert least <= low + 1e-9
    assert high <= most + 1e-9


def test_what_is_usually_printed_fits() -> None:
    """An 11 in back, a 4.5 in chest, a 2.5 in label fit adults (common practice, no source)."""
    for size in ADULT:
        assert at("full-back", size=size).room(1.25).mm >= 11 * INCH
        assert at("left-chest", size=size).room(1.25).mm >= 4.5 * INCH
        assert at("neck-label", size=size).room(1.0).mm >= 2.5 * INCH


def test_usual_width_by_hand() -> None:
    """A share of the half chest between least and most, narrowed while too tall."""
    location = LOCATIONS.get("full-front")

    assert usual_width(location, "adult", 20.5 * INCH, 1.0) == pytest.approx(11.275 * INCH)
    assert usual_width(location, "adult", 10 * INCH, 1.0) == pytest.approx(10 * INCH)
    assert usual_width(location, "adult", 40 * INCH, 1.0) == pytest.approx(12 * INCH)
    assert usual_width(location, "adult", 20 * INCH, 0.5) == pytest.approx(7 * INCH)


def test_a_zone_is_a_closed_path() -> None:
    """It can be drawn like any other outline."""
    zone = at("full-front").zone()

    assert isinstance(zone, Path)
    assert zone.closed
