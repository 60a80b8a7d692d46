"""The demo's artwork is what a printer of spot colours would want to be sent."""

import re
from importlib.resources import files
from xml.etree import ElementTree as ET

import pytest

from .samples import looked_at

#: File, most inks, and about how large the ink is, in mm.
DEMO = [
    ("crest.svg", 3, 90, 90),
    ("relay-back.svg", 2, 280, 270),
    ("front.svg", 2, 300, 90),
    ("sleeve-mark.svg", 1, 70, 65),
    ("neck-label.svg", 1, 60, 55),
]


def content(name: str) -> bytes:
    """Return a demo file."""
    return files("jigs").joinpath("demo", "artwork", name).read_bytes()


@pytest.mark.parametrize(("name", "width", "height"), [(n, w, h) for n, _, w, h in DEMO])
def test_demo_artwork_is_clean(name: str, width: float, height: float) -> None:
    """It reads without a finding, at its size, and its ink is not the whole page."""
    artwork = looked_at(name, content(name))

    assert artwork.findings == ()
    assert artwork.detail is not None
    assert artwork.detail.flat
    assert not artwork.detail.specks
    assert not artwork.detail.remarks
    assert artwork.ink.width == pytest.approx(width, rel=0.05)
    assert artwork.ink.height == pytest.approx(height, rel=0.05)
    assert artwork.page_width > artwork.ink.width + 5
    assert artwork.page_height > artwork.ink.height + 5


@pytest.mark.parametrize(("name", "inks"), [(n, inks) for n, inks, _, _ in DEMO])
def test_demo_artwork_is_spot_colour(name: str, inks: int) -> None:
    """It is flat paths in a few inks, without live text, pictures, gradients or opacity."""
    data = content(name)
    tags = {element.tag.rpartition("}")[2] for element in ET.fromstring(data).iter()}
    colours = set(re.findall(rb'(?:fill|stroke)="(#[0-9A-F]{6})"', data))

    assert tags <= {"svg", "title", "g", "path", "circle"}
    assert 0 < len(colours) <= inks
    assert b"opacity" not in data
    assert all(float(w) >= 0.4 for w in re.findall(rb'stroke-width="([\d.]+)"', data))


def test_demo_artwork_is_not_centred_on_its_page() -> None:
    """At least the crest lies off the middle of its page, so that trimming matters."""
    artwork = looked_at("crest.svg", content("crest.svg"))

    assert abs(artwork.ink.centre.x - artwork.page_width / 2) > 3
    assert abs(artwork.ink.centre.y - artwork.page_height / 2) > 3
