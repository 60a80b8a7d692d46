"""What an SVG holds besides flat outlined colour: known drawings, their places, hostile ones."""

import base64
import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from jigs.artwork import drawing, svg_contents
from jigs.artwork.detail import Detail, Remark
from jigs.artwork.draw_svg import draw_svg
from jigs.artwork.drawn import Drawn
from jigs.artwork.remarks import Remarks
from jigs.artwork.svg_page import SvgPage
from jigs.artwork.svg_paint import alpha, share
from jigs.artwork.svg_parse import parse
from jigs.artwork.svg_style import Styles
from jigs.geometry import Box, Point

from .samples import HEAD, PATIENCE, PLACE, looked_at, png, svg

#: Pixels of CSS per mm.
PX = 96 / 25.4
STOPS = '<stop offset="0" stop-color="#f00"/><stop offset="1" stop-color="#00f"/>'
DEFS = (
    f'<defs><linearGradient id="g">{STOPS}</linearGradient><linearGradient id="h" href="#g"/>'
    '<linearGradient id="swatch"><stop stop-color="#f00"/></linearGradient>'
    '<pattern id="p" width="5" height="5" patternUnits="userSpaceOnUse"><path d="M0 0h5v5z"/>'
    '</pattern><filter id="f"><feGaussianBlur stdDeviation="0.01"/></filter>'
    '<mask id="m"><rect width="200" height="100" fill="#fff"/></mask>'
    '<g id="two"><rect width="10" height="10" fill="url(#g)"/>'
    '<rect x="20" width="10" height="10" fill="url(#g)"/></g></defs>'
    '<rect width="5" height="5"/>'
)


@pytest.fixture(autouse=True)
def _no_look_at_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a file holds is told whether or not its lines are looked at, which takes long."""
    nothing = Detail(Point(0, 0), (), flat=True, thin=())
    monkeypatch.setattr(drawing, "examine_drawn", lambda *_: nothing)


RECT = 'x="20" y="30" width="50" height="40"'
INNER = 'x="21" y="31" width="48" height="38"'
MEANT = Box(20, 30, 70, 70)


def drawn(body: str) -> Drawn:
    """Return what is seen of an SVG of 200 x 100 mm, in this process."""
    return draw_svg({"width": 200 * PX, "height": 100 * PX, "fonts": "<text" in body}, svg(body))


def only(body: str) -> Remark:
    """Return the one remark on a drawing."""
    (remark,) = drawn(DEFS + body).remarks
    return remark


def assert_near(found: Box | None, meant: Box, slack: float = 0.3) -> None:
    """Hold each side of a box to a slack in mm."""
    assert found is not None
    assert found.holds(meant, slack), (found, meant)
    assert meant.holds(found, slack), (found, meant)


KINDS = {
    "gradient": [
        f'<rect {RECT} fill="url(#g)"/>',
        f'<g style="fill:url(#h)"><rect {RECT}/></g>',
        f'<style>.a{{fill:url(#g)}}</style><rect {RECT} class="b a"/>',
        (
            f'<style>rect#r.a, q {{fill : url("#g") !important}}</style>'
            f'<rect {RECT} id="r" class="a" style="fill:red"/>'
        ),
        f'<rect {INNER} fill="none" stroke="url(#g)" stroke-width="2"/>',
        (
            '<g transform="translate(10 20) scale(2)"><rect x="5" y="5" width="25" height="20" '
            'fill="url(#g)"/></g>'
        ),
    ],
    "pattern": [f'<rect {RECT} fill="url(#p)"/>'],
    "opacity": [
        f'<rect {RECT} opacity=".5"/>',
        f'<g opacity="50%"><rect {RECT}/></g>',
        f'<rect {RECT} style="fill-opacity:.5"/>',
        f'<g fill-opacity=".5"><rect {RECT}/></g>',
        f'<rect {RECT} fill="#ff000080"/>',
        f'<rect {RECT} fill="#f008"/>',
        f'<rect {RECT} fill="rgba(255, 0, 0, 0.5)"/>',
        f'<rect {RECT} fill="rgb(255 0 0 / 50%)"/>',
        f'<g color="#ff000080"><rect {RECT} fill="currentColor"/></g>',
        (
            '<rect x="21" y="31" width="48" height="38" fill="none" stroke="red" stroke-width="2" '
            'stroke-opacity="0.5"/>'
        ),
    ],
    "blend": [f'<g style="mix-blend-mode:multiply"><rect {RECT}/></g>'],
    "filter": [f'<rect {RECT} filter="url(#f)"/>', f'<rect {RECT} style="filter:url(#f)"/>'],
    "mask": [f'<rect {RECT} mask="url(#m)"/>'],
}


@pytest.mark.parametrize(
    ("kind", "body"), [(kind, body) for kind, bodies in KINDS.items() for body in bodies]
)
def test_each_kind_is_told_where_it_is_drawn(kind: str, body: str) -> None:
    """Whether an attribute, a style or a sheet says it, inherited or not."""
    remark = only(body)

    assert remark.kind == kind
    assert_near(remark.where, MEANT)


@pytest.mark.parametrize(
    "body",
    [
        f'<rect {RECT} fill="url(#swatch)"/>',
        f'<rect {RECT} fill="url(#nothing) red"/>',
        f'<rect {RECT} opacity="1" fill-opacity="100%"/>',
        f'<rect {RECT} fill="rgb(255, 0, 0)" stroke="rgba(0,0,0,1)"/>',
        f'<rect {RECT} opacity="0"/>',
        f'<rect {RECT} fill="url(#g)" display="none"/>',
        f'<g display="none"><rect {RECT} fill="url(#g)"/></g>',
        f'<rect {RECT} fill="url(#g)" visibility="hidden"/>',
        f'<rect {RECT} fill="#f00" stroke-opacity=".5"/>',
        f'<rect {RECT} fill="#f00" stroke="url(#g)" stroke-width="0"/>',
        f'<style>.a{{fill:url(#g)}} .b{{fill:red}}</style><rect {RECT} class="a b"/>',
        '<rect x="900" width="50" height="40" fill="url(#g)"/>',
        "<text/>",
    ],
)
def test_what_does_not_show_is_not_told(body: str) -> None:
    """Flat swatches, what is hidden, overruled, unused or beside the page is no remark."""
    assert drawn(DEFS + body).remarks == ()


def test_a_clone_is_told_once_where_it_is_drawn() -> None:
    """What a `use` draws is found at the use, all of it together."""
    remark = only('<use href="#two" x="100" y="50"/>')

    assert remark.kind == "gradient"
    assert_near(remark.where, Box(100, 50, 130, 60))


def test_what_is_beside_does_not_count() -> None:
    """An element's box is its own, though others lie over it and give it what it needs."""
    body = (
        '<rect width="200" height="100" fill="#0f0"/><g><linearGradient id="own">'
        f'{STOPS}</linearGradient><circle id="c" cx="150" cy="50" r="9"/>'
        '<clipPath id="k"><use href="#c"/></clipPath>'
        '<rect x="140" width="60" height="100" fill="url(#own)" clip-path="url(#k)"/></g>'
    )

    assert_near(only(body).where, Box(141, 41, 159, 59))


def picture(width: int, height: int, **options: Any) -> str:
    """Return an embedded picture."""
    data = png(Image.new("RGBA", (width, height), (255, 0, 0, 255)), **options)
    return f'href="data:image/png;base64,{base64.b64encode(data).decode()}"'


@pytest.mark.parametrize(
    ("place", "meant", "ppi"),
    [
        ('x="20" y="30" width="50.8" height="25.4"', Box(20, 30, 70.8, 55.4), 100),
        # Fitted into a square, it is as wide as that and lies in its middle.
        ('x="20" y="10" width="50.8" height="50.8"', Box(20, 22.7, 70.8, 48.1), 100),
        ('width="50.8" height="25.4" transform="translate(80 20) rotate(90)"',
         Box(54.6, 20, 80, 70.8), 100),
        ('x="20" y="30" width="101.6" height="50.8" clip-path="url(#k)"', Box(30, 40, 50, 60), 50),
    ],
)  # fmt: skip
def test_an_image_has_its_resolution(place: str, meant: Box, ppi: float) -> None:
    """200 x 100 pixels, fitted, turned or clipped, have the pixels of what they cover."""
    clip = '<clipPath id="k"><rect x="30" y="40" width="20" height="20"/></clipPath>'
    remark = only(f"{clip}<image {picture(200, 100)} {place}/>")

    assert remark.kind == "image"
    assert "200 x 100 pixels" in remark.says
    assert_near(remark.where, meant)
    assert remark.where is not None
    assert remark.pixels / remark.where.width * 25.4 == pytest.approx(ppi, rel=0.02)


def test_live_text_is_told_with_its_font_and_its_place() -> None:
    """Text has its words, its font, and a box where it has been drawn."""
    remark = only('<text x="20" y="60" font-family="No Such Font, serif">Harbour Road</text>')

    assert remark.kind == "font"
    assert "'Harbour Road' in No Such Font" in remark.says


def test_a_missing_font_is_told() -> None:
    """A font that this machine does not have is named; which has it, is not."""
    body = (
        '<rect width="9" height="9"/><text x="1" y="9" font-family="\'No &lt;Such&gt; Font\'">'
        'Harbour</text><text font-family="sans-serif">Road</text>'
    )
    (finding,) = looked_at("a.svg", svg(body)).findings

    assert drawn(body).fonts == ("No <Such> Font",)
    assert finding.blocks
    assert "(this machine does not have No <Such> Font)" in finding.says


def test_many_alike_are_counted() -> None:
    """Five of a kind have their places; of the rest there is the number."""
    body = "".join(f'<rect x="{10 * i}" width="5" height="5" opacity=".5"/>' for i in range(17))
    remarks = drawn(body).remarks

    assert [remark.kind for remark in remarks] == ["opacity"] * 6
    assert remarks[-1].says == "and 12 more like these"
    assert_near(remarks[4].where, Box(40, 0, 45, 5))


def test_places_are_looked_for_only_so_often(monkeypatch: pytest.MonkeyPatch) -> None:
    """A place costs two drawings: after some, what is found has none."""
    monkeypatch.setattr(svg_contents, "MOST_PLACES", 2)
    body = "".join(f'<rect x="{10 * i}" width="5" height="5" opacity=".5"/>' for i in range(4))

    assert [bool(remark.where) for remark in drawn(body).remarks] == [True, True, False]


def test_too_much_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is not looked at to the end is said to be so."""
    monkeypatch.setattr(svg_contents, "MOST_LOOKED", 10)

    assert [remark.kind for remark in drawn("<g><path/></g>" * 9 + f"<rect {RECT}/>").remarks] == [
        "unread"
    ]


CLONES = "".join(
    f'<g id="g{i}">{f"<use href={chr(34)}#g{i + 1}{chr(34)}/>" * 9}</g>' for i in range(5)
)
HOSTILE = {
    "many elements": "<rect width='1' height='1' opacity='.5'/>" * 30_000,
    "many rules": f"<style>{'.a{fill:url(#g)}' * 20_000}</style>" + "<rect class='a'/>" * 2000,
    "a sheet without end": f"<style>{'.a{' * 20_000}{'a,' * 20_000}</style>",
    "a colour without end": f"<rect {RECT} fill='rgba({'1,' * 50_000}'/>",
    "a use of nothing": f"<use/><use href='#'/><use href='a.svg#b'/><rect {RECT} fill='url(#)'/>",
    "clones": f"{CLONES}<rect id='g5' width='9' height='9' opacity='.5'/>",
    "a gradient of itself": f"<linearGradient id='g' href='#g'/><rect {RECT} fill='url(#g)'/>",
    "odd opacities": "".join(
        f"<rect {RECT} opacity='{o}'/>" for o in ("nan", "inf", "-1", "", "x", "1e999%")
    ),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_harm_is_bounded(name: str) -> None:
    """Each is looked at in bounded time and without an error."""
    root = parse(svg(HOSTILE[name]), PLACE)
    page = SvgPage(svg(HOSTILE[name]).decode(), 200 * PX, 100 * PX)
    start = time.process_time()
    svg_contents.note_contents(root, page, Remarks())

    assert time.process_time() - start < PATIENCE


@given(st.text(max_size=30))
def test_any_opacity_is_a_part(text: str) -> None:
    """Whatever is written, an opacity is from 0 to 1, and so is a colour's alpha."""
    assert 0 <= share(text) <= 1
    assert 0 <= alpha(text) <= 1


@pytest.mark.parametrize(
    ("sheet", "attributes", "meant"),
    [
        ("", 'fill="red"', "red"),
        ("*{fill:blue}", 'fill="red"', "blue"),
        ("path{fill:blue} *{fill:green}", 'fill="red"', "blue"),
        (".a{fill:blue} path{fill:green}", 'class="a"', "blue"),
        ("#i{fill:blue} .a.b{fill:green}", 'class="a b" id="i"', "blue"),
        (".a{fill:blue} .a{fill:green}", 'class="a"', "green"),
        (".a{fill:blue}", 'class="a" style="fill:green"', "green"),
        (".a{fill:blue !important}", 'class="a" style="fill:green"', "blue"),
        ("/* path{fill:green} */ .a, path {fill:blue}", "", "blue"),
        (".b{fill:blue} circle{fill:blue} g path{fill:blue}", 'fill="red"', "red"),
    ],
)
def test_the_cascade(sheet: str, attributes: str, meant: str) -> None:
    """The more special rule wins, then the later (CSS Cascading and Inheritance, 6.1)."""
    root = parse(svg(f"<style>{sheet}</style><path {attributes}/>", HEAD), PLACE)

    assert Styles(root).of(root[1], {}).get("fill") == meant
