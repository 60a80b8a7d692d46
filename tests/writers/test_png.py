from collections.abc import Callable
from io import BytesIO

import pytest

from jigs.drawing.drawing import Drawing, Layer, Page, Shape
from jigs.geometry import Box, Path
from jigs.writers import as_bytes
from jigs.writers import png as writer
from tests.readers import png
from tests.writers import pages


@pytest.fixture(params=["cairo", "pdfium"])
def draw(
    request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Callable[[Page], bytes]:
    """Draw with each renderer in turn, if the machine has it."""
    if request.param == "cairo" and writer.renderer() != "cairo":
        pytest.skip("the native cairo library is not installed")
    monkeypatch.setattr(writer, "renderer", lambda: request.param)
    return lambda page: as_bytes("png", [page])


def framed(width: float, height: float) -> Page:
    """Return a page with a frame 10 mm inside its edges."""
    frame = Shape(Layer.CUT, Path.box(Box(10, 10, width - 10, height - 10)))
    return Page(width, height, Drawing((frame,)), "", "")


@pytest.mark.parametrize(
    ("width", "height", "scale"),
    [(210, 297, 4), (215.9, 279.4, 4), (1000, 300, 4), (1001, 300, 2), (2400, 900, 1)],
)
def test_pixels_per_millimetre_are_whole(
    draw: Callable[[Page], bytes], width: float, height: float, scale: float
) -> None:
    """A preview has 4 px/mm, fewer only where it would be too large, and says so itself."""
    data = draw(framed(width, height))
    size = png.picture(data).size

    assert png.per_mm(data) == pytest.approx(scale)
    assert size == pytest.approx((width * scale, height * scale), abs=1)
    assert max(size) <= writer.LONGEST
    pixel = 1 / scale
    assert png.dark(data, (0, 0, width, height)) == pytest.approx(
        (10, 10, width - 10, height - 10), abs=pixel
    )


def test_the_ground_is_white(draw: Callable[[Page], bytes]) -> None:
    """There is no transparency, and what is not drawn on is white."""
    picture = png.picture(draw(pages.page(pages.painted())))

    assert picture.mode == "RGB"
    assert picture.getpixel((0, 0)) == (255, 255, 255)
    assert picture.getpixel((190 * 4, 105 * 4)) == (255, 255, 255)
    assert picture.getpixel((170 * 4, 105 * 4)) == (255, 0, 0)


def test_both_renderers_give_one_size(monkeypatch: pytest.MonkeyPatch) -> None:
    """With and without the native library a preview has one size and one resolution."""
    if writer.renderer() != "cairo":
        pytest.skip("the native cairo library is not installed")
    one = png.picture(as_bytes("png", [framed(215.9, 279.4)]))
    monkeypatch.setattr(writer, "renderer", lambda: "pdfium")
    two = png.picture(as_bytes("png", [framed(215.9, 279.4)]))

    assert one.size == two.size == (864, 1118)
    assert one.info["dpi"] == two.info["dpi"]


def test_a_missing_native_library_is_no_error(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where importing cairosvg fails for want of cairo, pdfium draws."""
    import builtins

    real = builtins.__import__

    def without_cairo(name: str, *rest: object) -> object:
        if name == "cairosvg":
            raise OSError("no library called cairo-2 was found")
        return real(name, *rest)  # type: ignore[arg-type]  # passed on as it came

    monkeypatch.setattr(builtins, "__import__", without_cairo)
    writer.renderer.cache_clear()
    try:
        assert writer.renderer() == "pdfium"
        out = BytesIO()
        writer.WRITER.write([framed(50, 50)], out)
        assert png.picture(out.getvalue()).size == (200, 200)
    finally:
        writer.renderer.cache_clear()
