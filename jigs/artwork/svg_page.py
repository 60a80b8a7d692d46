"""A cleaned SVG as resvg draws it, any part of its page at any magnification."""

import io
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from jigs.geometry import Box

if TYPE_CHECKING:
    from PIL import Image

#: Without antialiasing, whatever the file itself asks for.
CRISP = (
    "*{shape-rendering:crispEdges!important;text-rendering:optimizeSpeed!important;"
    "image-rendering:optimizeSpeed!important}"
)

#: The name in the first tag, the root's, of one that does not say itself what is beyond it.
_NAME = re.compile(r"\A(<[^\s>]+)(?![^>]*\boverflow\b)")


@dataclass(frozen=True, slots=True)
class SvgPage:
    """The page; lengths in px."""

    inner: str
    """The cleaned SVG."""
    width: float
    height: float
    fonts: bool = False
    """Whether the fonts of this machine are used."""

    def render(self, part: Box, across: int, down: int, *, crisp: bool = False) -> "Image.Image":
        """Return a part of the page as RGBA; `crisp` is without antialiasing.

        Crisp, a line thinner than a pixel may be missed; embedded pictures stay smooth.

        Raises:
            ValueError: it cannot be drawn.
        """
        return self.render_with(CRISP if crisp else "", part, across, down)

    def render_with(
        self, sheet: str, part: Box, across: int, down: int, serif: str | None = None
    ) -> "Image.Image":
        """Return a part of the page drawn with a style sheet of ours after the file's own.

        `serif` names the font that stands in for one that this machine has not.

        Raises:
            ValueError: it cannot be drawn.
        """
        import resvg_py
        from PIL import Image

        inner = self.inner
        if Box(0, 0, self.width, self.height).holds(part):
            # Nothing beyond the page shows: without its clip resvg is 30 times as quick.
            inner = _NAME.sub(r'\1 overflow="visible"', inner, count=1)
        # The drawing stays whole inside a frame, so that its own view box, and every percentage
        # that refers to it, keep their meaning; the frame's view box chooses the part.
        frame = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}" height="{down}" '
            f'viewBox="{part.left!r} {part.top!r} {part.width!r} {part.height!r}" '
            f'preserveAspectRatio="none">{inner}'
            f"{f'<style>{sheet}</style>' if sheet else ''}</svg>"
        )
        # dpi is what mm and in inside the drawing are reckoned by; 96 is CSS's.
        drawn = resvg_py.svg_to_bytes(
            svg_string=frame, dpi=96, skip_system_fonts=not self.fonts, serif_family=serif
        )
        with Image.open(io.BytesIO(drawn)) as picture:
            return picture.convert("RGBA")
