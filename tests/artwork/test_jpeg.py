"""JPEG: no transparency, ripples beside the ink, and a resolution in one of two places."""

import random
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageDraw

from jigs.artwork import ground
from jigs.artwork.ground import tell
from jigs.artwork.pixels import Pixels
from jigs.artwork.raster_head import jpeg_ppi
from jigs.errors import BadInput

from .samples import inked, saved

COLOURS = ((0, 0, 0), (200, 30, 30), (255, 220, 0), (20, 40, 160), (150, 150, 150))


@pytest.fixture(autouse=True, scope="module")
def _small_previews() -> Iterator[None]:
    """Have small previews, which take no time to make."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(ground, "PREVIEW", 150)
        yield


def square(colour: Any = "navy") -> Any:
    """Return a picture with ink from 40, 24 to 120, 64."""
    picture = Image.new("RGB", (200, 100), "white")
    ImageDraw.Draw(picture).rectangle((40, 24, 119, 63), fill=colour)
    return picture


def huge() -> bytes:
    """Return a JPEG whose head promises 60 000 x 60 000 pixels (ITU-T T.81, B.2.2)."""
    data = saved(square(), "JPEG")
    at = data.index(b"\xff\xc0") + 5
    return data[:at] + b"\xea\x60\xea\x60" + data[at + 4 :]


def test_a_jpeg_is_read_at_its_size() -> None:
    """Its ink is what is not white, at the resolution that it says."""
    artwork = inked("a.jpg", saved(square(), "JPEG", quality=95, dpi=(254, 254)))
    ink = artwork.ink

    assert (artwork.kind, artwork.ground) == ("jpeg", "white")
    assert (ink.left, ink.top) == pytest.approx((4, 2.4), abs=0.05)
    assert (ink.right, ink.bottom) == pytest.approx((12, 6.4), abs=0.05)
    assert artwork.density == pytest.approx(10)
    assert 0.15 <= artwork.accuracy < 0.175


@pytest.mark.parametrize("quality", [95, 85, 75])
@pytest.mark.parametrize("subsampling", [0, 2])
def test_ripples_are_no_ink(quality: int, subsampling: int) -> None:
    """Wherever a rectangle lies in JPEG's blocks, its sides are found as far off as claimed."""
    chance = random.Random(quality)  # noqa: S311 - a sample of places
    offs = []
    for colour in COLOURS * 3:
        box = (chance.randint(9, 60), chance.randint(9, 40), chance.randint(80, 150), 90)
        picture = Image.new("RGB", (170, 110), "white")
        pen = ImageDraw.Draw(picture)
        pen.rectangle((box[0], box[1], box[2] - 1, box[3] - 1), fill=colour)
        data = saved(picture, "JPEG", quality=quality, subsampling=subsampling)
        told = tell(Pixels(data, "jpeg"))

        offs += list(np.abs(np.array(told.box) - box))
        assert max(offs[-4:]) <= told.accuracy <= 2.7
    assert np.median(offs) <= 0.1
    assert np.quantile(offs, 0.9) <= (0.6 if quality > 75 else 1.3)


def test_a_pale_outline_is_ink() -> None:
    """A pale edge of a few pixels round a dark shape is told from ripples."""
    picture = square((190, 210, 230))
    ImageDraw.Draw(picture).rectangle((46, 30, 113, 57), fill="black")
    told = tell(Pixels(saved(picture, "JPEG", quality=90), "jpeg"))

    assert told.box == pytest.approx((40, 24, 120, 64), abs=1)


def test_where_the_resolution_stands() -> None:
    """JFIF's head is asked first, in inches or centimetres, then EXIF; else there is none."""
    exif = Image.Exif()
    exif[282], exif[283], exif[296] = 240.0, 120.0, 2
    plain, said = saved(square(), "JPEG"), saved(square(), "JPEG", dpi=(150, 100))
    metric = bytearray(said)
    metric[13] = 2

    assert Pixels(plain, "jpeg").ppi is None
    assert Pixels(said, "jpeg").ppi == (150, 100)
    assert Pixels(bytes(metric), "jpeg").ppi == pytest.approx((381, 254))
    assert Pixels(saved(square(), "JPEG", exif=exif), "jpeg").ppi == (240, 120)
    assert jpeg_ppi(b"\xff\xd8\xff", b"Exif\0\0II*\0\xff\xff\xff\xff") is None


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"\xff\xd8\xff", "broken or cut short"),
        (saved(square(), "JPEG")[:700], "broken or cut short"),
        (saved(square("white"), "JPEG"), "no ink: every pixel is white"),
        (huge(), "60000 x 60000 pixels; allowed: up to 160 million"),
    ],
)
def test_what_is_no_artwork_is_refused(data: bytes, says: str) -> None:
    """A JPEG without ink or sense is one BadInput that says why."""
    with pytest.raises(BadInput, match=says):
        inked("a.jpg", data)


def test_a_jpeg_by_another_name_is_told() -> None:
    """The content decides; the ending that lies is a finding."""
    artwork = inked("a.png", saved(square(), "JPEG"))

    assert artwork.kind == "jpeg"
    assert "the content is JPEG" in artwork.findings[0].says


def test_white_shut_in_is_told() -> None:
    """White inside the ink of a white ground is said not to be printed, and how much it is."""
    picture = square()
    ImageDraw.Draw(picture).rectangle((60, 34, 99, 53), fill="white")
    (finding,) = inked("a.jpg", saved(picture, "JPEG", quality=95)).findings

    assert not finding.blocks
    assert "nor is what ink shuts in (25.0 % of the ink box)" in finding.says
    assert "needs a transparent ground" in finding.says
