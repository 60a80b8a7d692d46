"""SVG made to keep a machine busy: refused with one line, or drawn, in bounded time."""

import time

import pytest

from jigs.artwork import child, guard
from jigs.artwork.drawn import Task
from jigs.artwork.svg_clean import clean
from jigs.artwork.svg_page import SvgPage
from jigs.artwork.svg_paint import reference
from jigs.artwork.svg_parse import parse
from jigs.artwork.svg_references import check_references
from jigs.artwork.svg_size import page_size
from jigs.errors import BadInput
from jigs.geometry import Box

from .samples import HEAD, PATIENCE, PLACE, svg

SQUARE = '<rect x="20" y="30" width="50" height="40"/>'


@pytest.fixture
def hurried(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the child have one second of the processor."""
    start = child._START.replace(
        "from jigs.artwork.child import main;",
        "from jigs.artwork import guard; guard.MOST_SECONDS = 1; "
        "from jigs.artwork.child import main;",
    )
    monkeypatch.setattr(child, "_START", start)


def filtered(primitive: str) -> str:
    """Return a square seen through a filter."""
    return f'<filter id="f">{primitive}</filter><g filter="url(#f)">{SQUARE}</g>'


LINE = '<path d="M10 10H190V90H10z" fill="none" stroke="#000" stroke-width="3" {}/>'
SLOW = {
    "noise of 10^9 octaves": filtered('<feTurbulence numOctaves="1000000000" baseFrequency=".1"/>'),
    "a morphology of 10^6": filtered('<feMorphology operator="dilate" radius="1e6"/>'),
    "a matrix of 100 x 100": filtered(
        f'<feConvolveMatrix order="100" kernelMatrix="{"1 " * 10_000}"/>'
    ),
    "a filter of 1000 blurs": filtered('<feGaussianBlur stdDeviation="9"/>' * 1000),
    "60 000 dashes": LINE.format('stroke-dasharray=".01 .01"'),
    "masks in masks": '<mask id="m"><rect width="99" height="99" fill="#fff"/></mask>'
    + '<g mask="url(#m)">' * 200
    + SQUARE
    + "</g>" * 200,
}


@pytest.mark.usefixtures("hurried")
@pytest.mark.parametrize("harm", SLOW)
def test_what_takes_too_long_is_refused(harm: str) -> None:
    """The processor's time ends it, and the line says so."""
    pytest.importorskip("resource")
    task: Task = {"kind": "svg", "width": 755.9, "height": 377.95, "fonts": False, "closely": False}

    with pytest.raises(BadInput, match="takes more than") as caught:
        child.draw(task, svg(SLOW[harm]), PLACE)

    assert caught.value.allowed == "send a simpler file"


UNUSUAL = {
    "a blur of 10^9": filtered('<feGaussianBlur stdDeviation="1e9"/>'),
    "a filter as large as 10^9": filtered("<feOffset/>").replace("<filter", '<filter width="1e9"'),
    "a pattern of 10^-9": '<pattern id="p" width="1e-9" height="1e-9" '
    'patternUnits="userSpaceOnUse"><rect width="1e-9" height="5e-10"/></pattern>'
    '<rect width="200" height="100" fill="url(#p)"/>',
    "a pattern of 10^9": '<pattern id="p" width="1e9" height="1e9" patternUnits="userSpaceOnUse">'
    '<rect width="1e9" height="5e8"/></pattern><rect width="200" height="100" fill="url(#p)"/>',
    "dashes of 10^-9": LINE.format('stroke-dasharray="1e-9 1e-9"'),
    **{
        f"{what} {value}": body.format(value)
        for value in ("NaN", "inf", "-5", "0", "1e308", "1e400")
        for what, body in (
            ("a stroke of", '<path d="M20 20H50" stroke="red" stroke-width="{}"/>'),
            ("a scale of", '<g transform="scale({})"><rect width="5" height="5"/></g>'),
            ("a matrix of", '<g transform="matrix({} 0 0 1 0 0)"><path d="M0 0h9v9"/></g>'),
            ("a corner at", '<path d="M {0} 20 L 50 50 L 20 {0}z"/>'),
        )
    },
}


@pytest.mark.parametrize("harm", UNUSUAL)
def test_numbers_beyond_reason_are_drawn_or_not_in_no_time(harm: str) -> None:
    """The renderer draws something or nothing of them, and neither hangs nor dies."""
    page = SvgPage(svg(UNUSUAL[harm]).decode(), 755.9, 377.95)
    start = time.process_time()

    picture = page.render(Box(0, 0, page.width, page.height), 300, 150)

    assert picture.size == (300, 150)
    assert time.process_time() - start < PATIENCE


@pytest.mark.parametrize("value", ["NaN", "inf", "-inf", "0", "-5", "1e400", "1e308", "1e-308"])
def test_pages_that_no_artwork_has_are_refused(value: str) -> None:
    """Sides of the page and of its view box are positive, finite, and of this world."""
    head = HEAD.replace("200mm", value).replace(' viewBox="0 0 200 100"', "")
    with pytest.raises(BadInput, match=r"the page is|width is"):
        size(svg(SQUARE, head))
    for view in (f"0 0 {value} 100", f"0 0 200 {value}"):
        with pytest.raises(BadInput, match="viewBox is"):
            size(svg(SQUARE, HEAD.replace("0 0 200 100", view)))


def size(data: bytes) -> None:
    """Do with an SVG's page what its reader does."""
    page = page_size(parse(data, PLACE), PLACE)
    guard.check_page(page.width, page.height, PLACE)


MANY = 300_000
#: What once took minutes to clean, or would if done carelessly.
WEARY = {
    "links never closed": f'<rect style="{"url(" * MANY}"/>',
    "links of blanks": f'<rect style="url({" " * MANY}"/>',
    "many links of blanks": f'<rect style="{("url(" + " " * 1000) * 300}"/>',
    "links in a sheet": f"<style>{'url(' * MANY}</style>",
    "local links": f"<style>{'url(#' * MANY}</style>",
    "imports": f"<style>{'@import ' * MANY}</style>",
    "comments": f"<style>{'/*' * MANY}</style>",
    "brackets": f"<style>{'{' * MANY}{'}' * MANY}</style>",
    "scripts in text": f"<text>{'<script/>x' * 60_000}</text>",
    "foreign elements": '<a:b xmlns:a="u"/>x' * 60_000,
    "a picture of nothing": f'<image href="data:image/png;base64,{"A" * 20 * MANY}"/>',
}


@pytest.mark.parametrize("harm", WEARY)
def test_cleaning_takes_time_in_proportion_to_the_file(harm: str) -> None:
    """What is done in the program's own process has no limit of time, so it must need none."""
    data = svg(WEARY[harm])
    start = time.process_time()
    root = parse(data, PLACE)
    clean(root, page_size(root, PLACE), PLACE)
    check_references(root, PLACE)

    assert time.process_time() - start < PATIENCE


@pytest.mark.parametrize(
    ("before", "after", "link"),
    [
        ("a url(x) b", "a none b", "x"),
        ("url( '#a' ) url(\"http://x\")", "url( '#a' ) none", "http://x"),
        ("URL(data:,x)", "none", "data:,x"),
        ("url(x", "none", "x"),
        ("url(url(y)", "nonenone", "y"),
    ],
)
def test_links_in_properties_are_cut(before: str, after: str, link: str) -> None:
    """Every link that leaves the file becomes `none`, closed or not; local ones stay."""
    root = parse(svg("<rect/>"), PLACE)
    root[0].set("style", before)
    cleaned = clean(root, page_size(root, PLACE), PLACE)

    assert root[0].get("style") == after
    assert f"a link to {link!r} was left out" in cleaned.says


def test_text_beside_what_is_taken_out_stays() -> None:
    """The words after a script or a title in a text are still its words."""
    body = "<text>a<script/>b<tspan>c</tspan>d<title>e</title>f</text>"
    root = parse(svg(body), PLACE)

    assert clean(root, page_size(root, PLACE), PLACE).texts == ("abcdf",)


def test_a_link_to_no_name_is_none() -> None:
    """`#` alone refers to nothing, least of all to the drawing itself."""
    check_references(parse(svg(f'<use href="#"/>{SQUARE}'), PLACE), PLACE)


@pytest.mark.parametrize(
    ("value", "name"),
    [
        ("url(#a)", "a"),
        (" url( '#a' ) red", "a"),
        ('url("#a")', "a"),
        ("url(a)", None),
        ("none", None),
        (f"url(#{' ' * 100_000}", None),
    ],
)
def test_a_local_reference_is_found(value: str, name: str | None) -> None:
    """A paint's `url(#name)` may be quoted and have blanks around; unclosed, it is none."""
    assert reference(value) == name
