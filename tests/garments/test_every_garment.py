import math
from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import given, settings

from jigs.errors import Place
from jigs.garments import GARMENTS, Block, Flat, Panel
from jigs.geometry import Affine, Cubic, Line, Path, Point
from jigs.geometry.point import distance
from jigs.tables.estimate import completed
from jigs.tables.library import find, names
from jigs.tables.measure import Measure, Measures
from jigs.tables.points import POINTS
from tests.strategies import crew_tees
from tests.tables.cuts import NEEDS

HERE = Place("test")
INCH = 25.4
TEE = GARMENTS.get("crew-tee")
TABLES = names()
SHIPPED = [(name, one.size) for name in TABLES for one in find(name, HERE).sizes]
BODIES = [(name, size) for name, size in SHIPPED if find(name, HERE).cut != "tote"]
TEES = [(name, size) for name, size in SHIPPED if find(name, HERE).cut == "crew-tee"]


def size(table: str, name: str) -> Measures:
    """Return one of the package's sizes with what it leaves out estimated."""
    found = find(table, HERE)
    return completed(found.size(name, HERE), found.cut)


def drawn(table: str, name: str) -> Flat:
    """Return one of the package's sizes, drawn."""
    return GARMENTS.get(find(table, HERE).cut).draw(size(table, name))


def crossings(outline: Path, *, x: float | None = None, y: float | None = None) -> list[float]:
    """Return where an outline crosses an upright or a level line, rising."""
    found = []
    for a, b in pairwise(outline.points()):
        one, two = (a, b) if x is None else (Point(a.y, a.x), Point(b.y, b.x))
        at = y if x is None else x
        assert at is not None
        if (one.y > at) != (two.y > at):
            found.append(one.x + (at - one.y) / (two.y - one.y) * (two.x - one.x))
    return sorted(found)


def measured(flat: Flat) -> dict[str, float]:
    """Return a flat's points of measure, taken on its outlines as one would on the garment.

    The places are told by the shape alone: corners are where two segments of an outline meet at
    an angle, and widths are measured from edge to edge along a level line.
    """
    found = {} if "HPS" in flat.landmarks else on_a_bag(flat)
    found |= on_a_body(flat) if "HPS" in flat.landmarks else {}
    found |= on_a_sleeve(flat) if "sleeve" in flat.panels else {}
    found |= on_a_hoodie(flat) if "hood" in flat.panels else {}
    return found | on_features(flat)


def on_a_body(flat: Flat) -> dict[str, float]:
    """Return what is measured on front and back."""
    front, back = (flat.panels[name].outline for name in ("front", "back"))
    ends = [segment.b for segment in front.segments if segment.b.x > 0]
    hps = min(ends, key=lambda p: p.y)
    tip, underarm = sorted((p for p in ends if p != hps), key=lambda p: p.y)[:2]
    chest = crossings(front, y=underarm.y + INCH)
    box = front.bounds()
    hem = [p.x for s in front.segments for p in (s.a, s.b) if p.y == box.bottom]
    # A hair beside the centre, where every outline has a joint.
    aside = 1e-9
    found = {
        "half_chest": chest[-1] - chest[0],
        "body_length": box.bottom - hps.y,
        "neck_width": 2 * hps.x,
        "front_neck_drop": crossings(front, x=aside)[0] - hps.y,
        "back_neck_drop": crossings(back, x=aside)[0] - hps.y,
        "across_shoulder": 2 * tip.x,
        "shoulder_drop": tip.y - hps.y,
        "armhole_depth": underarm.y - hps.y,
    }
    side = max((p for p in ends if underarm.y < p.y < box.bottom), key=lambda p: p.x, default=None)
    if "snaps" in {edge.name for edge in flat.panels["front"].edges}:
        assert side is not None
        return found | {
            "crotch_width": max(hem) - min(hem),
            "hem_width": 2 * side.x,
            "leg_height": box.bottom - side.y,
        }
    rib = {} if side is None else {"hem_rib": box.bottom - side.y}
    return found | rib | {"hem_width": max(hem) - min(hem)}


def on_a_sleeve(flat: Flat) -> dict[str, float]:
    """Return what is measured on a sleeve."""
    sleeve = flat.panels["sleeve"].outline
    arm = sleeve.bounds()
    corners = {p for s in sleeve.segments for p in (s.a, s.b)}
    cuff = [p.x for p in corners if p.y == arm.bottom]
    above = sorted({p.y for p in corners if p.x > 0})[1:-1]
    found = {"cuff_height": arm.bottom - above[0]} if above else {}
    return found | {
        "sleeve_length": arm.bottom - crossings(sleeve, x=1e-9)[0],
        "sleeve_opening": (max(cuff) - min(cuff)) / 2,
        "bicep": arm.width / 2,
    }


def on_a_hoodie(flat: Flat) -> dict[str, float]:
    """Return what is measured on a hood and its pocket."""
    hood, pocket = (flat.panels[name].outline for name in ("hood", "pocket"))
    box, around = hood.bounds(), pocket.bounds()
    top = [p.x for s in pocket.segments for p in (s.a, s.b) if p.y == around.top]
    return {
        "hood_height": box.height,
        "hood_width": box.width,
        "pocket_width": around.width,
        "pocket_top": max(top) - min(top),
        "pocket_height": around.height,
    }


def on_features(flat: Flat) -> dict[str, float]:
    """Return what is measured on what lies on the panels."""
    found = {}
    collar = flat.landmarks.get("front collar"), flat.landmarks.get("back collar")
    boxes = {e.name: e.path.bounds() for p in flat.panels.values() for e in p.features}
    for name, box in boxes.items():
        if name == "placket":
            assert collar[0] is not None
            found["placket_length"] = box.bottom - collar[0].y
            found["placket_width"] = box.width
        elif name in {"hood at rest", "folded collar"}:
            assert collar[1] is not None
            point = "hood_fall" if name == "hood at rest" else "collar_fall"
            found[point] = box.bottom - collar[1].y
        elif name == "zip":
            found["zip_width"] = box.width
        elif name == "lap":
            found["lap_depth"] = box.bottom
    return found


def on_a_bag(flat: Flat) -> dict[str, float]:
    """Return what is measured on a bag."""
    front = flat.panels["front"]
    box = front.outline.bounds()
    left, right = sorted((e.path.bounds() for e in front.features), key=lambda b: b.left)
    return {
        "bag_width": box.width,
        "bag_height": box.height,
        "handle_spread": right.centre.x - left.centre.x,
        "handle_width": right.width,
        "handle_depth": right.bottom - box.top,
    }


def checked(measures: Measures, block: Block = TEE) -> Flat:
    """Return the flat of a size after looking at everything a flat promises."""
    flat = block.draw(measures)
    for name, found in measured(flat).items():
        assert found == pytest.approx(measures.mm(name), abs=1e-6), name
    for panel in flat.panels.values():
        look_at(panel.outline, mirrored=panel.name != "hood")
        features_lie_on(panel)
        lengths = sum(edge.path.length() for edge in panel.edges)
        assert lengths == pytest.approx(panel.outline.length(), rel=1e-9)
        ours = {s for edge in panel.edges for s in edge.path.segments}
        both = ours | {segment.reversed() for segment in ours}
        assert set(panel.outline.segments) <= both
        assert all(edge.plus_minus >= 0 for edge in panel.edges)
    return flat


def features_lie_on(panel: Panel) -> None:
    """Assert that what lies on a panel does not reach beyond it."""
    import shapely

    whole = shapely.Polygon(panel.outline.points()).buffer(0.1)
    for feature in panel.features:
        points = feature.path.points()
        shape = shapely.Polygon(points) if feature.path.closed else shapely.LineString(points)
        assert shape.is_valid, feature.name
        assert whole.covers(shape), feature.name
        assert feature.plus_minus >= 0


def look_at(outline: Path, *, mirrored: bool = True) -> None:
    """Assert that an outline is closed, simple, and its own mirror image."""
    import shapely

    mirror = Affine.scale(-1, 1)
    assert outline.closed
    assert shapely.LinearRing(outline.points()).is_simple
    assert shapely.Polygon(outline.points()).is_valid
    swapped = {segment.moved(mirror).reversed() for segment in outline.segments}
    assert swapped == set(outline.segments) or not mirrored


@given(crew_tees())
@settings(max_examples=30)
def test_a_flat_is_what_its_measures_say(measures: Measures) -> None:
    """Measured again on the drawing each is right to 1e-6; outlines are closed and simple."""
    checked(measures)


@pytest.mark.parametrize(("table", "name"), SHIPPED, ids=[f"{t}/{n}" for t, n in SHIPPED])
def test_every_size_of_the_package_is_drawn(table: str, name: str) -> None:
    """The same holds for all sizes that come with the package."""
    block = GARMENTS.get(find(table, HERE).cut)
    flat = checked(size(table, name), block)

    assert set(measured(flat)) >= block.needs
    assert set(flat.measures.values) <= block.needs | block.may | {"centre_back_sleeve"}
    if "sleeve" in flat.panels:
        fits_its_armhole(flat)


def cap_and_armhole(flat: Flat) -> tuple[float, float]:
    """Return the lengths of a sleeve's whole cap and of the two armholes it is sewn into."""
    cap = flat.panels["sleeve"].edge("armhole seam").path
    return cap.length(), sum(
        flat.panels[name].edge("armhole seam").path.length() for name in ("front", "back")
    )


@given(crew_tees())
@settings(max_examples=30)
def test_a_sleeve_fits_its_armhole(measures: Measures) -> None:
    """Unless it came out flat, or as tall as three quarters of the sleeve, where it stops."""
    fits_its_armhole(TEE.draw(measures))


def fits_its_armhole(flat: Flat) -> None:
    """Assert that the cap is as long as the armholes, or stopped on the side it was going to."""
    cap, armhole = cap_and_armhole(flat)
    length = flat.landmarks["sleeve hem"].y
    seam = flat.panels["sleeve"].edge("armhole seam").path
    height = seam.bounds().height
    most = 0.75 * length

    if height < 0.05 * most + 1e-3:
        assert cap > armhole - 1e-3
    elif height > most - 1e-3:
        assert cap < armhole + 1e-3
    else:
        assert cap == pytest.approx(armhole, abs=1e-3)


@given(crew_tees())
@settings(max_examples=30)
def test_seams_meet_as_they_are_sewn(measures: Measures) -> None:
    """Front and back have one shoulder, armhole and side seam; the neckline runs on across it.

    The collar is level at the centre; it rises, or stays, all the way out to the HPS.
    """
    seams_meet(TEE.draw(measures))


@pytest.mark.parametrize(("table", "name"), BODIES[::2], ids=[f"{t}/{n}" for t, n in BODIES[::2]])
def test_seams_of_every_garment_meet_as_they_are_sewn(table: str, name: str) -> None:
    """The same holds for all garments that come with the package."""
    seams_meet(drawn(table, name))


def seams_meet(flat: Flat) -> None:
    """Assert that front and back are sewn to each other, and that collars rise outwards."""
    front, back = flat.panels["front"], flat.panels["back"]
    pointed = abs(flat.panels["front"].edge("collar seam").path.segments[1].tangent(0).y) > 1

    for name in ("shoulder seam", "armhole seam", "side seam", front.edges[-1].name):
        assert front.edge(name).path == back.edge(name).path
    for panel, seam in ((front, "front collar"), (back, "back collar")):
        half = flat.seams[seam].half
        assert isinstance(half, Cubic)
        assert half.a == flat.landmarks[seam]
        assert half.b == flat.landmarks["HPS"]
        assert half in panel.edge("collar seam").path.segments
        level = abs(half.tangent(0).y) < 1e-9
        assert level is not (pointed and panel is front)
        slopes = [half.tangent(k / 20) for k in range(21)]
        assert all(slope.x >= -1e-9 and slope.y <= 1e-9 for slope in slopes)
        assert flat.seams[seam].width == flat.measures["neck_width"].plus_minus / 2


@pytest.mark.parametrize("table", TABLES)
def test_neighbouring_sizes_are_graded_smoothly(table: str) -> None:
    """From size to size no landmark goes back by more than 1 mm, nor do steps change abruptly.

    The steps of the package's own tables are even to a rounding of the table's, so that a second
    difference beyond half an inch would be the block's doing.
    """
    flats = [drawn(table, one.size) for one in find(table, HERE).sizes]
    tracks: dict[str, list[Point]] = {
        name: [flat.landmarks[name] for flat in flats] for name in flats[0].landmarks
    }
    for name in ("collar seam", "armhole seam"):
        if name in {edge.name for edge in flats[0].panels["front"].edges}:
            sides = [flat.panels["front"].edge(name).path.segments[-1] for flat in flats]
            tracks[name] = [side.at(0.5) for side in sides]

    for name, track in tracks.items():
        steps = [b.minus(a) for a, b in pairwise(track)]
        assert all(step.x >= -1 and step.y >= -1 for step in steps), name
        jumps = [b.minus(a).length() for a, b in pairwise(steps)]
        assert max(jumps) <= 0.5 * INCH, name


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"across_shoulder": 170.0}, "across_shoulder must be more than neck_width"),
        ({"armhole_depth": 720.0}, "body_length must reach"),
        ({"shoulder_drop": 261.0}, "armhole_depth must be more than shoulder_drop"),
        # The armhole would run through the neckline, or past the centre line.
        ({"across_shoulder": 176.5, "front_neck_drop": 200.0}, "outline crosses itself"),
        ({"half_chest": 10.0, "hem_width": 10.0, "armhole_depth": 600.0}, "outline crosses itself"),
        ({"front_neck_drop": 800.0}, "outline crosses itself"),
        # An inch and a hair below the armhole the side seam would run nearly level.
        ({"body_length": 287.0, "hem_width": 700.0}, "outline crosses itself"),
    ],
)
def test_measures_that_contradict_each_other_are_refused(
    changes: dict[str, float], says: str
) -> None:
    """No crooked outline is handed out; the message names the points of measure."""
    good = size("adult-crew-tee", "M")
    values = dict(good.values) | {name: Measure(length, 3.0) for name, length in changes.items()}

    with pytest.raises(ValueError, match=says):
        TEE.draw(Measures("t", "M", "adult", values))


def test_a_missing_measure_is_named() -> None:
    """A block says what it needs, all of it is a known point of measure, and it uses it all."""
    for table in TABLES:
        found = find(table, HERE)
        block, good = GARMENTS.get(found.cut), size(table, found.sizes[-1].size)
        assert block.needs | block.may <= set(POINTS)
        assert block.needs <= NEEDS[found.cut] <= block.needs | block.may
        for name in block.needs:
            without = {key: value for key, value in good.values.items() if key != name}
            if name == "cuff_height" or (name == "hem_rib" and found.cut == "crew-sweatshirt"):
                # Body and sleeves are drawn without a rib where there is none.
                flat = block.draw(Measures("t", "M", "adult", without))
                assert name not in measured(flat)
                continue
            with pytest.raises(KeyError, match=name):
                block.draw(Measures("t", "M", "adult", without))


def test_an_edge_that_is_not_there_is_not_found() -> None:
    """A panel gives its edges by name and no other."""
    panel = TEE.draw(size("adult-crew-tee", "M")).panels["sleeve"]

    assert panel.edge("sleeve hem").plus_minus == 0
    with pytest.raises(KeyError, match="pocket"):
        panel.edge("pocket")


def test_edges_are_as_sure_as_their_measures() -> None:
    """A width's plus-minus is halved on each side; a length's is not."""
    values = {
        name: Measure(one.mm, 1.0 + k)
        for k, (name, one) in enumerate(sorted(size("adult-crew-tee", "M").values.items()))
    }
    flat = TEE.draw(Measures("t", "M", "adult", values))
    front, back = flat.panels["front"], flat.panels["back"]

    def slack(name: str) -> float:
        return values[name].plus_minus

    assert front.edge("collar seam").plus_minus == slack("front_neck_drop")
    assert back.edge("collar seam").plus_minus == slack("back_neck_drop")
    widest = max(slack("half_chest"), slack("hem_width"))
    assert front.edge("side seam").plus_minus == widest / 2
    # The steep armhole counts a third of what its depth is unsure of, added as squares.
    deep = max(slack("armhole_depth"), slack("shoulder_drop"))
    assert front.edge("armhole seam").plus_minus == pytest.approx(
        math.hypot(slack("across_shoulder") / 2, 0.35 * deep)
    )
    assert front.edge("hem").plus_minus == slack("body_length")
    assert flat.seams["back collar"].drop == slack("back_neck_drop")


def test_collars_look_like_collars() -> None:
    """Front and back neckline join square to the shoulder; the front seam is about half round.

    A crew neck's seam, front and back, is 2.6 to 3.4 times its width (common practice, no source).
    """
    for flat in all_flats():
        front, back = flat.seams["front collar"].half, flat.seams["back collar"].half
        assert front is not None
        assert back is not None
        neckline = 2 * (front.length() + back.length())
        assert 2.2 <= neckline / flat.measures.mm("neck_width") <= 3.6
        shoulder = flat.panels["front"].edge("shoulder seam").path.segments[0]
        assert isinstance(shoulder, Line)
        angle = front.tangent(1).unit().dot(shoulder.tangent(0).unit())
        assert abs(math.degrees(math.asin(angle))) < 1
        assert distance(front.b, back.b) == 0


def all_flats() -> Iterator[Flat]:
    """Yield the flats of all the package's crew-neck tees."""
    for table, name in TEES:
        yield TEE.draw(size(table, name))


def test_sleeves_narrow_towards_their_hem_and_are_shorter_than_the_body() -> None:
    """A look at proportions: no sleeve widens, none reaches below the hem."""
    for flat in all_flats():
        sleeve = flat.panels["sleeve"].outline.bounds()
        assert sleeve.height < flat.panels["front"].outline.bounds().height / 2
        assert flat.measures.mm("sleeve_opening") <= flat.measures.mm("bicep")
