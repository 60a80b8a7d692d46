"""Pixels as libvips decodes them, against Pillow, and the ink told from them."""

import io
import random
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms, ImageDraw, ImageOps

from jigs.artwork import ground
from jigs.artwork import pixels as pixels_module
from jigs.artwork.ground import tell
from jigs.artwork.pixels import Pixels
from jigs.errors import BadInput

from .samples import saved

SIZE = (70, 53)


@pytest.fixture(autouse=True, scope="module")
def _small_previews() -> Iterator[None]:
    """Have small previews, which take no time to make."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(ground, "PREVIEW", 150)
        yield


def speckled(mode: str) -> Any:
    """Return a picture in which every pixel differs from its neighbours."""
    chance = np.random.default_rng(7)
    bands = len(Image.new(mode, (1, 1)).getbands())
    values = chance.integers(0, 256, (SIZE[1], SIZE[0], bands), dtype=np.uint8)
    return Image.frombytes(mode, SIZE, values.tobytes())


def bilevel() -> Any:
    """Return a picture of black and white."""
    return speckled("L").point(lambda v: 255 * (v > 127)).convert("1")


def sixteen() -> Any:
    """Return a picture of 16 bits of grey."""
    chance = np.random.default_rng(9)
    return Image.fromarray(chance.integers(0, 65536, SIZE[::-1], dtype=np.uint16))


def indexed() -> Any:
    """Return a picture of 64 colours."""
    return speckled("RGB").quantize(64)


def whole(data: bytes, form: str, page: int = 1) -> Any:
    """Return all pixels of a file."""
    found = Pixels(data, form, page)
    return found.window(0, 0, found.width, found.height)


def as_pillow(data: bytes) -> Any:
    """Return what Pillow decodes, upright."""
    picture = ImageOps.exif_transpose(Image.open(io.BytesIO(data)))
    if picture.mode.startswith("I"):
        picture = Image.fromarray((np.asarray(picture) >> 8).astype(np.uint8))
    return np.asarray(picture.convert("RGBA"))


WRITTEN = {
    "png 1": ("png", saved(bilevel(), "PNG")),
    "png L": ("png", saved(speckled("L"), "PNG")),
    "png L, one grey clear": ("png", saved(speckled("L"), "PNG", transparency=40)),
    "png LA": ("png", saved(speckled("LA"), "PNG")),
    "png P": ("png", saved(indexed(), "PNG")),
    "png P, one colour clear": ("png", saved(indexed(), "PNG", transparency=3)),
    "png P, half clear": ("png", saved(indexed(), "PNG", transparency=bytes(range(64)))),
    "png RGB": ("png", saved(speckled("RGB"), "PNG")),
    "png RGBA": ("png", saved(speckled("RGBA"), "PNG")),
    "png 16": ("png", saved(sixteen(), "PNG")),
    "tiff 1": ("tiff", saved(bilevel(), "TIFF")),
    "tiff 1, fax": ("tiff", saved(bilevel(), "TIFF", compression="group4")),
    "tiff L": ("tiff", saved(speckled("L"), "TIFF")),
    "tiff LA": ("tiff", saved(speckled("LA"), "TIFF")),
    "tiff P": ("tiff", saved(indexed(), "TIFF")),
    "tiff RGB": ("tiff", saved(speckled("RGB"), "TIFF")),
    "tiff RGBA": ("tiff", saved(speckled("RGBA"), "TIFF")),
    "tiff 16": ("tiff", saved(sixteen(), "TIFF")),
    "tiff LZW": ("tiff", saved(speckled("RGB"), "TIFF", compression="tiff_lzw")),
    "tiff deflate": ("tiff", saved(speckled("RGBA"), "TIFF", compression="tiff_adobe_deflate")),
    "tiff packbits": ("tiff", saved(speckled("L"), "TIFF", compression="packbits")),
}


@pytest.mark.parametrize("name", WRITTEN)
def test_every_lossless_picture_is_as_pillow_decodes_it(name: str) -> None:
    """Each pixel is the one that an independent reader finds; 16 bits give their high byte."""
    form, data = WRITTEN[name]

    assert np.array_equal(whole(data, form), as_pillow(data))


@pytest.mark.parametrize("mode", ["L", "RGB"])
@pytest.mark.parametrize("progressive", [False, True])
def test_a_jpeg_is_as_pillow_decodes_it(mode: str, progressive: bool) -> None:
    """Two decoders of JPEG differ by rounding alone."""
    data = saved(speckled(mode), "JPEG", quality=90, subsampling=0, progressive=progressive)
    apart = np.abs(whole(data, "jpeg").astype(int) - as_pillow(data))

    assert apart.max() <= 2


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("form", ["png", "jpeg", "tiff"])
def test_a_turned_picture_stands_upright(form: str, orientation: int) -> None:
    """All eight orientations of EXIF are as Pillow turns them; the resolution turns along."""
    picture = speckled("L").resize((64, 48), Image.Resampling.BOX)
    exif = Image.Exif()
    exif[274] = orientation
    data = saved(picture, form.upper(), exif=exif, dpi=(200, 100))
    expected = as_pillow(data)
    found = Pixels(data, form)

    assert (found.height, found.width) == expected.shape[:2]
    assert np.abs(whole(data, form).astype(int) - expected).max() <= (2 if form == "jpeg" else 0)
    assert found.ppi == pytest.approx((200, 100) if orientation < 5 else (100, 200), rel=1e-4)
    assert bool(found.says) == (orientation > 1)


@pytest.mark.parametrize("name", ["png RGBA", "png 16", "tiff LZW", "tiff RGBA"])
@pytest.mark.parametrize("kept", [True, False])
def test_strips_and_windows_are_parts_of_the_whole(
    monkeypatch: pytest.MonkeyPatch, name: str, kept: bool
) -> None:
    """Strips of any height and windows anywhere show the same pixels, kept or decoded anew."""
    form, data = WRITTEN[name]
    expected = as_pillow(data)
    if not kept:
        monkeypatch.setattr(pixels_module, "KEPT", 0)
    found = Pixels(data, form)
    boxes = [(0, 0, 70, 53), (3, 40, 9, 53), (69, 0, 70, 1), (10, 7, 50, 8)]

    for rows in (1, 7, 16, 53, 200):
        assert np.array_equal(np.concatenate([s for _, s in found.strips(rows)]), expected)
    assert [top for top, _ in found.strips(10, 5, 32)] == [5, 15, 25]
    assert np.array_equal(np.concatenate([s for _, s in found.strips(10, 5, 32)]), expected[5:32])
    for (left, top, right, bottom), part in zip(boxes, found.windows(boxes), strict=True):
        assert np.array_equal(part, expected[top:bottom, left:right])
    assert list(found.windows([])) == []


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_large_turned_picture_is_kept_whole(
    monkeypatch: pytest.MonkeyPatch, orientation: int
) -> None:
    """What cannot be gone through in strips is right at any size."""
    monkeypatch.setattr(pixels_module, "KEPT", 0)
    exif = Image.Exif()
    exif[274] = orientation
    data = saved(speckled("RGB"), "PNG", exif=exif)

    assert np.array_equal(whole(data, "png"), as_pillow(data))


def profile(**changes: Any) -> bytes:
    """Return sRGB's profile, with bytes changed."""
    made = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    for at, value in changes.items():
        made[int(at[1:])] = value
    return bytes(made)


def cmyk_profile() -> bytes:
    """Return a profile of a press, as libvips carries one."""
    import pyvips

    return bytes(pyvips.Operation.call("profile_load", "cmyk"))


def by_littlecms(picture: Any, held: bytes) -> Any:
    """Return a picture in sRGB as Pillow's LittleCMS shows it."""
    changed = ImageCms.profileToProfile(
        picture,
        ImageCms.ImageCmsProfile(io.BytesIO(held)),
        ImageCms.createProfile("sRGB"),
        ImageCms.Intent.RELATIVE_COLORIMETRIC,
        outputMode="RGB",
        flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
    )
    return np.asarray(changed).astype(int)


@pytest.mark.parametrize("held", [True, False])
@pytest.mark.parametrize("form", ["jpeg", "tiff"])
def test_cmyk_is_shown_as_on_its_press(form: str, held: bool) -> None:
    """CMYK, also inverted as JPEGs have it, is as an independent LittleCMS shows it."""
    press = cmyk_profile()
    picture = speckled("CMYK").resize((9, 8), Image.Resampling.NEAREST)
    picture = picture.resize((72, 64), Image.Resampling.NEAREST)
    data = saved(
        picture,
        form.upper(),
        **({"icc_profile": press} if held else {}),
        **({"quality": 100, "subsampling": 0} if form == "jpeg" else {}),
    )
    found = Pixels(data, form)
    shown = found.window(0, 0, 72, 64)[..., :3].astype(int)

    assert np.abs(shown - by_littlecms(Image.open(io.BytesIO(data)), press)).max() <= 4
    assert found.says == (
        "CMYK, shown by its own profile"
        if held
        else "CMYK without a profile, shown by a usual one",
    )


def test_bare_paper_is_white() -> None:
    """No ink in CMYK is pure white, and a full black is dark: a ground can be told from ink."""
    picture = Image.new("CMYK", (60, 40))
    ImageDraw.Draw(picture).rectangle((10, 10, 29, 19), fill=(0, 0, 0, 255))
    found = Pixels(saved(picture, "TIFF"), "tiff")
    told = tell(found)

    assert found.window(0, 0, 1, 1).tolist() == [[[255, 255, 255, 255]]]
    assert found.window(15, 15, 16, 16).max(axis=(0, 1))[:3].max() < 60
    assert (told.ground, told.box) == ("white", (10, 10, 30, 20))


def wide_gamut() -> bytes:
    """Return a profile of more colours than sRGB, as libvips carries one."""
    import pyvips

    return bytes(pyvips.Operation.call("profile_load", "p3"))


def test_another_rgb_profile_is_followed() -> None:
    """RGB of another profile is as an independent LittleCMS shows it; transparency is kept."""
    held = wide_gamut()
    picture = speckled("RGBA")
    found = Pixels(saved(picture, "PNG", icc_profile=held), "png")
    shown = found.window(0, 0, *SIZE)

    assert (
        np.abs(shown[..., :3].astype(int) - by_littlecms(picture.convert("RGB"), held)).max() <= 2
    )
    assert np.array_equal(shown[..., 3], np.asarray(picture)[..., 3])
    assert found.says == ("colours of another profile than sRGB, converted to sRGB",)


@pytest.mark.parametrize("form", ["png", "tiff", "jpeg"])
def test_an_srgb_profile_changes_nothing(form: str) -> None:
    """A file that says it is sRGB shows the very pixels it holds, and nothing is told."""
    picture = speckled("RGB")
    plain, held = (saved(picture, form.upper(), **k) for k in ({}, {"icc_profile": profile()}))

    assert np.array_equal(whole(plain, form), whole(held, form))
    assert Pixels(held, form).says == ()


@pytest.mark.parametrize(
    "held",
    [b"", b"x", profile()[:200], profile(b16=ord("C")), profile(b36=0), bytes(500), cmyk_profile()],
)
@pytest.mark.parametrize("form", ["png", "tiff", "jpeg"])
def test_a_broken_profile_is_ignored_and_told(form: str, held: bytes) -> None:
    """A profile that is cut short, of another kind of colour or noise does no harm."""
    picture = speckled("RGB")
    data = saved(picture, form.upper(), icc_profile=held)

    assert np.array_equal(whole(data, form), whole(saved(picture, form.upper()), form))
    assert Pixels(data, form).says in {(), ("a broken or unfit colour profile, ignored",)}


@pytest.mark.parametrize("name", [name for name in WRITTEN if "group4" not in name])
def test_a_file_cut_short_anywhere_is_refused(name: str) -> None:
    """However much is missing, the file is refused in one line: never half a picture."""
    form, data = WRITTEN[name]
    chance = random.Random(3)  # noqa: S311 - a sample of places
    # Without its last chunk of 12 bytes a PNG still has every pixel.
    end = len(data) - (13 if form == "png" else 1)
    for cut in [*chance.sample(range(end), 25), end]:
        try:
            found = whole(data[:cut], form)
        except BadInput as bad:
            assert "broken or cut short" in bad.found or "kind" in bad.found  # noqa: PT017
            assert len(str(bad)) < 250  # noqa: PT017
        else:
            # Bytes past the last pixel, such as a TIFF's own name, may be missing.
            assert np.array_equal(found, as_pillow(data))


def test_a_jpeg_cut_short_anywhere_is_refused() -> None:
    """A JPEG that ends early is refused, though decoders would paint the rest grey."""
    for progressive in (False, True):
        data = saved(speckled("RGB"), "JPEG", progressive=progressive)
        for cut in range(3, len(data), 97):
            with pytest.raises(BadInput, match="broken or cut short"):
                whole(data[:cut], "jpeg")


def smooth(box: tuple[float, ...], colour: tuple[int, ...], lies_on: str) -> Any:
    """Return an antialiased rectangle: each pixel as far as it is covered."""
    left, top, right, bottom = box
    x, y = np.arange(60), np.arange(50)
    across = np.clip(np.minimum(x + 1, right) - np.maximum(x, left), 0, 1)
    down = np.clip(np.minimum(y + 1, bottom) - np.maximum(y, top), 0, 1)
    covered = np.outer(down, across)[..., None]
    ink = np.broadcast_to(np.array(colour, float), (50, 60, 3))
    if lies_on == "transparent":
        made = np.concatenate([ink, 255 * covered], axis=2)
    else:
        made = ink * covered + 255 * (1 - covered)
    return Image.fromarray(made.round().astype(np.uint8))


@settings(max_examples=40, deadline=None)
@given(
    st.floats(1, 20),
    st.floats(1, 20),
    st.floats(8, 35),
    st.floats(8, 25),
    st.sampled_from([(0, 0, 0), (200, 30, 30), (255, 220, 0), (190, 210, 230)]),
    st.sampled_from(["transparent", "white"]),
)
def test_a_smooth_side_is_found_within_a_pixel(
    left: float, top: float, width: float, height: float, colour: tuple[int, ...], lies_on: str
) -> None:
    """The box of an antialiased rectangle is right to a part of a pixel, as it claims."""
    box = (left, top, left + width, top + height)
    told = tell(Pixels(saved(smooth(box, colour, lies_on), "PNG"), "png"))
    strong = lies_on == "transparent" or colour != (190, 210, 230)

    assert told.ground == lies_on
    assert told.accuracy <= (0.18 if strong else 0.36)
    assert np.abs(np.array(told.box) - box).max() <= told.accuracy


@pytest.mark.parametrize("lies_on", ["transparent", "white"])
def test_round_and_pointed_shapes_keep_to_their_claim(lies_on: str) -> None:
    """Circles are found to a part of a pixel, points within one, wherever they lie."""
    chance = random.Random(11)  # noqa: S311 - a sample of places
    for form in ("circle", "diamond") * 12:
        x, y, r = chance.uniform(30, 40), chance.uniform(30, 40), chance.uniform(8, 25)
        big = Image.new("L", (70 * 8, 70 * 8))
        pen = ImageDraw.Draw(big)
        ends = [(8 * (x + r * a), 8 * (y + r * b)) for a, b in ((0, -1), (1, 0), (0, 1), (-1, 0))]
        if form == "circle":
            pen.ellipse((8 * (x - r), 8 * (y - r), 8 * (x + r), 8 * (y + r)), fill=255)
        else:
            pen.polygon(ends, fill=255)
        drawn = big.getbbox()
        assert drawn is not None
        alpha = big.reduce(8)
        picture = Image.merge("RGBA", [*Image.new("RGB", (70, 70), (20, 40, 160)).split(), alpha])
        if lies_on == "white":
            laid = Image.new("RGBA", (70, 70), "white")
            laid.alpha_composite(picture)
            picture = laid
        told = tell(Pixels(saved(picture, "PNG"), "png"))

        off = np.abs(np.array(told.box) - np.array(drawn) / 8).max()
        assert off <= told.accuracy <= 1.1
        assert off <= (0.25 if form == "circle" else 1.0)


def test_white_shut_in_is_reckoned() -> None:
    """The share of white inside a frame is that of its hole, and of a gap in the frame none."""
    picture = Image.new("RGB", (400, 400), "white")
    pen = ImageDraw.Draw(picture)
    pen.rectangle((50, 50, 349, 349), fill="navy")
    pen.rectangle((100, 100, 249, 249), fill="white")
    shut = tell(Pixels(saved(picture, "PNG"), "png"))
    pen.rectangle((0, 150, 120, 160), fill="white")
    opened = tell(Pixels(saved(picture, "PNG"), "png"))

    assert shut.white_inside == pytest.approx(0.25, abs=0.01)
    assert opened.white_inside == 0


def test_a_large_picture_is_told_as_a_small_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """Decoded anew for each pass or kept, a picture has the same ink and the same preview."""
    picture = Image.new("RGB", (1900, 1500), "white")
    pen = ImageDraw.Draw(picture)
    pen.ellipse((100, 200, 1700, 1400), fill=(200, 30, 40))
    pen.ellipse((600, 600, 900, 900), fill="white")
    data = saved(picture, "PNG")
    kept = tell(Pixels(data, "png"))
    monkeypatch.setattr(pixels_module, "KEPT", 0)

    assert tell(Pixels(data, "png")) == kept
    # The hole over the box of the ink.
    assert kept.white_inside == pytest.approx(np.pi * 150**2 / (1601 * 1201), rel=0.04)
