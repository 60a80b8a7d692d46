"""A film has each size's seam where it must be, told from its neighbours, and no line twice."""

from itertools import combinations, pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from jigs.drawing.drawing import Drawing, Layer, Shape, Text
from jigs.drawing.lower import text_box
from jigs.geometry import Path
from jigs.locations import LOCATIONS
from jigs.plan.jigs import drawn
from jigs.styles._labels import spread
from jigs.styles._seams import DASH, GAP, ONCE, dashes
from jigs.template import Template
from jigs.template.film import ALIKE
from tests import shipped

#: Collars deep and shallow, V-necks, prints beside the centre line, straight seams.
PLACES = [
    ("full-front", "adult-crew-tee"), ("full-front", "adult-v-neck-tee"),
    ("full-front", "infant-crew-tee"), ("left-chest", "adult-crew-tee"),
    ("right-chest", "womens-crew-tee"), ("left-chest", "adult-v-neck-tee"),
    ("neck-label", "youth-crew-tee"), ("full-back", "adult-hoodie"),
    ("left-sleeve", "adult-crew-tee"), ("left-hood", "adult-hoodie"),
    ("right-hood", "toddler-hoodie"), ("right-hem", "adult-crew-tee"), ("tote-centre", "tote-bag"),
]  # fmt: skip
CURVED = [place for place in PLACES if shipped.by_eye(*place).curved]


def seam_of(location: str, table: str, key: str) -> tuple[shapely.LineString, float]:
    """Return a size's seam as the garment has it, with the print's place on it as the origin.

    The origin is the middle of the ink's top, or of its bottom on what stands on a hem; x runs to
    the operator's right. The number is where the garment's centre line is.
    """
    where = LOCATIONS.get(location)
    (site,) = [one for one in shipped.at(location, table) if one.key == key]
    anchor, half = site.placement.anchor, site.sized.flat.seams[where.seat].half
    level = anchor.y - site.placement.drop if where.hangs else anchor.y + site.placement.drop
    sign = -1 if where.seen.mirrors else 1
    if half is None:
        points = [(-1000.0, level), (1000.0, level)]
    else:
        one = [(p.x, p.y) for p in Path((half,)).points(0.001)]
        # Blocks measure a collar from the HPS, where y is 0.
        points = [*((-x, y) for x, y in reversed(one[1:])), *one]
    moved = [(sign * (x - anchor.x), y - anchor.y) for x, y in points]
    return shapely.LineString(sorted(moved) if half is not None else moved), -sign * anchor.x


def engraved(drawing: Drawing) -> list[Shape]:
    """Return the engraved lines."""
    return list(drawing.shapes(Layer.ENGRAVE))


def lined(shapes: list[Shape]) -> shapely.Geometry:
    """Return lines as one shape."""
    return shapely.union_all([shapely.LineString(one.path.points(0.001)) for one in shapes])


def origin(template: Template) -> tuple[float, float]:
    """Return the middle of the ink's side that the drop leads to."""
    ink = template.ink
    return ink.centre.x, ink.top if template.hangs else ink.bottom


@pytest.mark.parametrize(("location", "table"), PLACES)
def test_every_size_has_its_seam_and_centre(location: str, table: str) -> None:
    """A line is the block's seam at the wanted drop and place across, to what may be shared."""
    template = shipped.by_eye(location, table)
    x, y = origin(template)
    keys = [key for line in template.seams for key in line.keys]

    assert sorted(keys) == sorted(site.key for site in shipped.at(location, table))
    for line in template.seams:
        path = shapely.LineString(line.path.points(0.001))
        at = shapely.transform(path, lambda points: points - (x, y))
        for k, key in enumerate(line.keys):
            seam, centre = seam_of(location, table, key)
            # The first of those that share a line has its own.
            off = 0.02 if k == 0 else ALIKE
            assert seam.buffer(off).covers(at), key
            if template.curved:
                assert at.buffer(off).covers(seam), key
            assert line.centre - x == pytest.approx(centre, abs=off)
        box = line.path.bounds()
        lowest = box.bottom if template.hangs else box.top
        drop = template.ink.top - lowest if template.hangs else lowest - template.ink.bottom
        assert drop == pytest.approx(line.drop, abs=1e-6)


@pytest.mark.parametrize(("location", "table"), PLACES)
def test_the_seams_are_engraved_once(location: str, table: str) -> None:
    """Every seam is engraved but for its gaps, and where several run together only one is."""
    template = shipped.by_eye(location, table)
    lines = engraved(drawn("film", template))
    near = lined(lines).buffer(ONCE + 0.02)
    for line in template.seams:
        seam = shapely.LineString(line.path.points(0.001))
        rest = seam.difference(near)
        gaps = [rest] if isinstance(rest, shapely.LineString) else list(rest.geoms)

        assert all(gap.length <= GAP + 0.1 for gap in gaps)
        assert rest.length < seam.length / 3
        if template.curved:
            # The lowest point is what counts.
            assert shapely.Point(line.centre, line.path.bounds().bottom).within(near)
    if template.curved:
        true = lined([Shape(Layer.ENGRAVE, line.path) for line in template.seams])
        beside = true.buffer(0.02, quad_segs=2)
        own = [one for one in lines if beside.covers(lined([one]))]
        # Strokes cross, but none runs along another; a short one goes on along it a little.
        strokes = [shapely.LineString(one.path.points(0.01)) for one in own]
        close = shapely.STRtree(strokes).query(strokes, "dwithin", ONCE / 4)
        for k, j in close.T.tolist():
            if k < j:
                shared = strokes[k].buffer(ONCE / 4, quad_segs=2).intersection(strokes[j])
                assert shared.length < DASH / 4


@pytest.mark.parametrize(("location", "table"), PLACES)
def test_the_boxes_are_the_transfer_and_its_ink(location: str, table: str) -> None:
    """The closed box is the trimmed transfer, and each corner of the ink has two arms."""
    template = shipped.by_eye(location, table)
    lines = engraved(drawn("film", template))
    boxes = [one.path.bounds() for one in lines if one.path.closed]

    assert boxes == [template.carrier]
    for corner in template.ink.corners():
        point = shapely.Point(corner)
        arms = [one for one in lines if 0 < lined([one]).distance(point) < 0.5]
        assert len(arms) == 2, corner


@pytest.mark.parametrize(("location", "table"), PLACES)
def test_every_line_is_named(location: str, table: str) -> None:
    """The names of the sizes stand at one end at least, in leaders that meet nothing else."""
    template = shipped.by_eye(location, table)
    drawing = drawn("film", template)
    texts = [one for one in drawing.entities if isinstance(one, Text)]
    counts = [sum(one.string == line.name for one in texts) for line in template.seams]
    several = len({round(line.centre, 2) for line in template.seams}) > 1

    if len(template.seams) == 1:
        assert sum(one.string == "every size" for one in texts) == 2
    else:
        assert min(counts) == max(counts) >= (2 if several and template.curved else 1)
    leaders = [one for one in engraved(drawing) if is_leader(one, texts)]
    assert all(lined([one]).distance(lined([two])) > 0.02 for one, two in combinations(leaders, 2))


def is_leader(shape: Shape, texts: list[Text]) -> bool:
    """Return whether a line is a short slanting one that ends just beside a name."""
    start, end = shape.path.start, shape.path.end
    if min(abs(start.x - end.x), abs(start.y - end.y)) < 0.01 or shape.path.length() > 60:
        return False
    point = shapely.Point(end)
    return any(
        point.distance(shapely.box(b.left, b.top, b.right, b.bottom)) < 2.0
        for b in map(text_box, texts)
    )


@pytest.mark.parametrize(("location", "table"), CURVED)
def test_the_sheet_reaches_round_everything(location: str, table: str) -> None:
    """The sheet is one piece with a hole to hang by, and all seams lie on it with room to spare."""
    template = shipped.by_eye(location, table)
    drawing = drawn("film", template)
    outer, hole = drawing.shapes(Layer.CUT)
    sheet = shapely.Polygon(outer.path.points())

    assert hole.path.bounds().width == pytest.approx(6.0)
    for line in template.seams:
        assert sheet.buffer(-5.0).covers(shapely.LineString(line.path.points()))
    assert not drawing.shapes(Layer.NOTE)


def test_sizes_that_are_alike_share_a_line() -> None:
    """On a sleeve the seam is one line; on a collar graded by halves of a millimetre, fewer."""
    from dataclasses import replace

    from jigs.garments._parts import collar
    from jigs.plan.prints import stands
    from jigs.template import film
    from tests.template.test_seat import a_seam

    (line,) = shipped.by_eye("left-sleeve", "adult-crew-tee").seams
    assert line.name == "XS–5XL"
    location = LOCATIONS.get("full-front")
    first = stands(location, shipped.at("full-front", "adult-crew-tee"))[0]
    close = [
        replace(first, key=f"t/{k}", seam=a_seam(collar(90 + 0.2 * k, 95, 0.35))) for k in range(6)
    ]
    made = film(close, location, width=250, height=200, trim=6, slip=0.5, sizes="t", reference="r")
    assert [line.keys for line in made.seams] == [("t/0", "t/1", "t/2"), ("t/3", "t/4", "t/5")]
    with pytest.raises(ValueError, match="do not share a film"):
        film(
            [first, replace(first, seam=a_seam())], location,
            width=250, height=200, trim=6, slip=0.5, sizes="t", reference="r",
        )  # fmt: skip
    with pytest.raises(ValueError, match="no sizes"):
        film([], location, width=250, height=200, trim=6, slip=0.5, sizes="t", reference="r")


@given(st.floats(0.5, 800))
def test_dashes_are_alike(length: float) -> None:
    """Dashes fill a stretch from end to end, all of one length, longer than any letter."""
    found = list(dashes(10.0, 10.0 + length))
    sizes = [b - a for a, b in found]

    assert found[0][0] == 10.0
    assert found[-1][1] == pytest.approx(10.0 + length)
    assert max(sizes) - min(sizes) < 1e-9
    assert sizes[0] >= min(DASH, length) - 1e-9
    assert all(b[0] - a[1] == pytest.approx(GAP) for a, b in pairwise(found))


@given(st.lists(st.tuples(st.floats(-200, 200), st.floats(0, 20)), min_size=1, max_size=12))
def test_spread_is_the_least_squares(wanted: list[tuple[float, float]]) -> None:
    """Names keep their steps, and no shift of any of them alone or together would be nearer."""
    places = sorted(place for place, _ in wanted)
    steps = [step for _, step in wanted[1:]]
    found = spread(places, steps)

    assert all(b - a >= step - 1e-9 for a, b, step in zip(found, found[1:], steps, strict=False))

    # Moving any run of neighbours that touch by a hair, where they may move, brings no gain.
    def cost(levels: list[float]) -> float:
        return sum((a - b) ** 2 for a, b in zip(levels, places, strict=True))

    for first in range(len(found)):
        for last in range(first, len(found)):
            for by in (-1e-3, 1e-3):
                moved = [y + by if first <= k <= last else y for k, y in enumerate(found)]
                legal = all(
                    b - a >= step - 1e-9
                    for a, b, step in zip(moved, moved[1:], steps, strict=False)
                )
                assert not legal or cost(moved) >= cost(found) - 1e-9
