"""What a garment has in the way of a print: a clear finding, or a place clear of it."""

import pytest

from jigs.documents.report import widths_text
from jigs.errors import Finding
from jigs.garments import Flat
from jigs.locations import LOCATIONS, Seen, lacks, place
from jigs.order.order import Press, Transfer
from jigs.plan.prints import sites, widths
from jigs.units import INCH
from tests import shipped

PLATEN = (16 * INCH, 20 * INCH)


def said(location: str, table: str, drop: float | None = None) -> list[Finding]:
    """Return all that is said of a square print on every size of a table."""
    one = LOCATIONS.get(location)
    where, findings = sites(one, shipped.sizes(table), Press(), drop)
    return list(widths(one, where, 1.0, Transfer(), findings=findings).findings)


def flats(table: str) -> list[Flat]:
    """Return the flats of a table."""
    return [one.flat for one in shipped.sizes(table)]


@pytest.mark.parametrize(
    ("location", "table", "says"),
    [
        ("neck-label", "tote-bag", "a tote bag has no place for a neck label print; it has: tote-"),
        ("full-front", "tote-bag", "a tote bag has no place for a full front print"),
        ("tote-centre", "adult-crew-tee", "a crew-neck tee has no place for a tote centre print"),
        ("left-sleeve", "adult-tank", "a tank top has no place for a left sleeve print"),
        ("left-long-sleeve", "adult-crew-tee", "has no place for a left long sleeve print"),
        ("left-hood", "adult-crew-sweatshirt", "has no place for a left hood print"),
        ("left-hem", "infant-bodysuit", "an infant bodysuit has no place for a left hem print"),
        ("centre-chest", "adult-polo", "the placket lies where it would begin"),
        ("full-front", "adult-zip-hoodie", "the zip lies where it would begin"),
        ("centre-chest", "adult-zip-hoodie", "the zip lies where it would begin"),
        ("pocket", "adult-zip-hoodie", "the zip lies where it would begin"),
        ("left-hem", "adult-hoodie", "the pocket lies where it would begin"),
        ("nape", "adult-hoodie", "the hood at rest lies where it would begin"),
    ],
)
def test_what_is_in_the_way_is_said(location: str, table: str, says: str) -> None:
    """A finding blocks on every size, or once for the table, in words that name what is there."""
    blocking = [finding for finding in said(location, table) if finding.blocks]
    sizes = {one.key for one in shipped.sizes(table)}

    assert {finding.about for finding in blocking} == ({table} if "no place" in says else sizes)
    assert all(says in finding.says for finding in blocking)


@pytest.mark.parametrize("table", ["adult-hoodie", "youth-hoodie", "toddler-hoodie"])
@pytest.mark.parametrize("aspect", [0.4, 1.0, 3.0])
def test_a_hoodies_front_ends_above_the_pocket(table: str, aspect: float) -> None:
    """The largest print keeps clear of the pocket by its clearance and its plus-minus."""
    for flat in flats(table):
        for name in ("full-front", "centre-chest", "left-chest"):
            placement = place(LOCATIONS.get(name), flat, PLATEN)
            bottom = placement.anchor.y + placement.room(aspect).mm / aspect
            pocket = flat.panels["front"].edge("pocket")
            limit = next(limit for limit in placement.limits if limit.name == "pocket")

            assert placement.room(aspect).mm > 0
            highest = pocket.path.bounds().top - pocket.plus_minus
            assert limit.clearance >= pocket.clear * 0.5
            assert limit.path.bounds().top == pytest.approx(highest)
            if abs(placement.anchor.x) < pocket.path.bounds().right:
                assert bottom <= highest - limit.clearance + 0.01


@pytest.mark.parametrize("table", ["adult-hoodie", "adult-zip-hoodie", "youth-hoodie"])
@pytest.mark.parametrize("name", ["upper-back", "full-back"])
def test_a_back_print_hangs_clear_of_the_hood_at_rest(name: str, table: str) -> None:
    """Its top is below the hood by the clearance, in whole quarter inches from the collar seam."""
    location = LOCATIONS.get(name)
    for flat in flats(table):
        placement = place(location, flat, PLATEN)
        hood = next(limit for limit in placement.limits if limit.name == "hood at rest")
        lowest = flat.landmarks["back collar"].y + flat.measures.mm("hood_fall")

        assert placement.anchor.y >= lowest + hood.clearance
        assert placement.anchor.y < lowest + hood.clearance + 0.25 * INCH + 1e-6
        more = placement.drop - location.drop.at(flat.measures.age)
        assert more / (0.25 * INCH) == pytest.approx(round(more / (0.25 * INCH)))
        assert placement.room(1.0).mm > 4 * INCH


@pytest.mark.parametrize("table", ["adult-polo", "womens-polo", "youth-polo"])
def test_a_polos_prints_keep_off_the_placket(table: str) -> None:
    """Chest prints stay beside it; a full front hangs below it; an order's own drop may not."""
    for flat in flats(table):
        placket = flat.panels["front"].edge("placket").path.bounds()
        chest = place(LOCATIONS.get("left-chest"), flat, PLATEN)
        front = place(LOCATIONS.get("full-front"), flat, PLATEN)
        room = chest.room(1.0).mm

        limit = next(limit for limit in chest.limits if limit.name == "placket")
        slack = flat.measures["placket_width"].plus_minus / 2
        assert limit.path.bounds().right == pytest.approx(placket.right + slack)
        assert room > 0
        assert chest.anchor.x - room / 2 > placket.right
        assert front.anchor.y > placket.bottom
        assert place(LOCATIONS.get("full-front"), flat, PLATEN, 3 * INCH).room(1.0).covered


def test_a_neck_label_is_inside_where_nothing_is_in_the_way() -> None:
    """Neither the hood nor a folded collar takes the label's place."""
    for table in ("adult-hoodie", "adult-polo"):
        for flat in flats(table):
            label = place(LOCATIONS.get("neck-label"), flat, PLATEN)
            assert label.drop == LOCATIONS.get("neck-label").drop.adult
            assert label.room(1.0).mm > 2.75 * INCH
            assert not {limit.name for limit in label.limits} & {"hood at rest", "folded collar"}


def test_a_deep_neck_takes_the_print_up() -> None:
    """Below a V a full front begins 1 1/4 in below the point; a chest print hangs as on a tee.

    Its middle stays 6 to 9 1/2 in below the HPS (common practice, no source: 7.5 in, give or take
    1.5 in, on adults; half an inch more on women's largest and deepest).
    """
    for table in ("adult-v-neck-tee", "womens-v-neck-tee"):
        for flat in flats(table):
            front = place(LOCATIONS.get("full-front"), flat, PLATEN)
            chest = place(LOCATIONS.get("left-chest"), flat, PLATEN)

            assert front.drop == pytest.approx(1.25 * INCH)
            assert front.room(1.0).mm >= 10 * INCH
            assert 0 <= chest.drop <= 1.01 * INCH
            assert chest.room(1.0).mm >= 3 * INCH
            assert 6 <= (chest.anchor.y + 1.5 * INCH) / INCH <= 9.5


def test_prints_on_cuffed_sleeves_stand_on_the_cuffs_seam() -> None:
    """The drop runs up from there, and the cuff itself is never printed on."""
    for table in ("adult-hoodie", "youth-crew-sweatshirt", "adult-long-sleeve-tee", "adult-polo"):
        for flat in flats(table):
            placement = place(LOCATIONS.get("left-sleeve"), flat, PLATEN)
            cuff = flat.panels["sleeve"].edge("cuff").path.bounds()

            assert flat.seams["sleeve hem"].title == "cuff seam"
            assert placement.anchor.y == pytest.approx(cuff.top - placement.drop)
            assert placement.room(1.0).mm > 1 * INCH


def test_every_garment_has_some_place_and_says_what_to_mind() -> None:
    """Each shipped table has locations; panels with hardware have their caution, once a table."""
    for table in (*shipped.TABLES, *shipped.OTHERS):
        assert any(shipped.has(location, table) for location in LOCATIONS.names()), table
    notes = [f for f in said("left-chest", "adult-zip-hoodie") if f.about == "adult-zip-hoodie"]

    assert len(notes) == 1
    assert not notes[0].blocks
    assert "drawcords" in notes[0].says
    assert "zip" in notes[0].says


def test_what_a_location_needs_is_there_or_it_has_no_place() -> None:
    """A garment without the panel, the datum, the seam or the elbow has no such place."""
    for table in (*shipped.TABLES, *shipped.OTHERS):
        for flat in flats(table)[:1]:
            for _, location in LOCATIONS:
                if lacks(location, flat):
                    missing = {location.datum, *location.needs} - flat.landmarks.keys()
                    assert missing or location.panel not in flat.panels
                else:
                    assert place(location, flat, PLATEN).limits


def test_hoods_are_seen_from_both_sides() -> None:
    """The right side is the left side's mirror image; its opening is on the other hand."""
    left, right = LOCATIONS.get("left-hood"), LOCATIONS.get("right-hood")

    assert left.seen is Seen.LEFT_HOOD
    assert not left.seen.mirrors
    assert right.seen.mirrors


def test_what_rests_on_an_estimate_says_so() -> None:
    """A width that an estimated seam stops is marked; one that a given seam stops is not."""
    where = shipped.at("full-front", "infant-crew-tee")
    # The armhole is estimated, the length is given.
    rooms = [site.placement.room(1.0) for site in where]
    assert {room.limited_by for room in rooms} == {"armhole seam", "hem"}
    assert all(room.estimated is (room.limited_by == "armhole seam") for room in rooms)
    given = [site.placement.room(1.0) for site in shipped.at("full-front", "youth-crew-tee")]
    assert {room.limited_by for room in given} == {"armhole seam"}
    assert not any(room.estimated for room in given)

    one = LOCATIONS.get("full-front")
    plan = widths(one, where, 1.0, Transfer())
    assert [band.estimated for band in plan.bands] == [room.estimated for room in rooms]
    assert "(armhole seam, est.)" in widths_text("infants", plan, [], "in")


def test_edges_know_what_they_rest_on() -> None:
    """Every edge but those a drop is measured from names points of measure that its size has."""
    for table in (*shipped.TABLES, *shipped.OTHERS):
        for flat in flats(table):
            for panel in flat.panels.values():
                for edge in (*panel.edges, *panel.features):
                    assert set(edge.rests_on) <= set(flat.measures.values), edge.name
                    assert edge.rests_on or edge.plus_minus == 0, edge.name
