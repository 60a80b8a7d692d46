"""What a page of a PDF holds besides flat outlined colour, and where: its content, walked."""

import math
from collections.abc import Callable, Iterable
from typing import Any

from jigs.artwork.pdf_file import PdfFile, content, get, numbers
from jigs.artwork.pdf_operators import operators
from jigs.artwork.pdf_paint import Colorant, Paint, State, colorants, is_group
from jigs.artwork.pdf_steps import Steps, within
from jigs.artwork.remarks import SAYS, Remarks, faint
from jigs.geometry import Affine, Box
from jigs.units import INCH

#: Operators that are walked, those of forms counted each time they are painted; 200 000 take
#: a second.
MOST_OPERATORS = 1_000_000
#: Bytes of content that are read, likewise.
MOST_CONTENT = 12_000_000
#: Forms inside forms; pdfium draws no deeper either.
DEEPEST = 12
#: Times a form is painted.
MOST_FORMS = 2000
#: Patterns whose cells are walked.
MOST_TILES = 100
#: A picture with a shorter side is none.
_SHORTEST = 1e-3

#: What is said when pypdf cannot read a page, or there is too much on it.
UNREAD = "what the page holds could not be looked into, or not all of it"


def walk(file: PdfFile, to_mm: Affine, page: Box, found: Remarks) -> tuple[Colorant, ...]:
    """Note what is remarkable on a page; return the named inks that it lays down.

    `to_mm` maps the page's space to mm, where the page is the box `page`.
    """
    data = file.content
    walker = _Walk(file, found)
    if data is not None:
        state = State(to_mm, page, Paint("/DeviceGray"), Paint("/DeviceGray"))
        walker.run(data, file.resources, state)
    if data is None or not walker.whole:
        found.add("unread", UNREAD)
    return tuple(walker.inks.values())


class _Walk:
    """The state of a walk through a page's content and the forms in it."""

    def __init__(self, file: PdfFile, found: Remarks) -> None:
        self.inks: dict[str, Colorant] = {}
        self.whole = True
        self._file = file
        self._found = found
        self._left, self._bytes, self._forms = MOST_OPERATORS, MOST_CONTENT, MOST_FORMS
        self._stack: list[Any] = []
        self._tiles: list[Any] = []
        self._quiet = 0

    def run(self, data: bytes, resources: Any, state: State) -> None:
        """Walk a content."""
        self._bytes -= len(data)
        if self._bytes < 0:
            self.whole = False
            return
        steps = Steps(self, resources, state).of
        for word, numbers_, names in operators(data):
            self._left -= 1
            if self._left < 0:
                self.whole = False
                return
            step = steps.get(word)
            if step is not None:
                step(numbers_, names)

    def hides(self, raw: Any) -> bool:
        """Return whether a layer is off."""
        return self._file.hides(raw)

    def lays(self, inks: Iterable[Colorant]) -> None:
        """Note named inks that are laid down."""
        for ink in inks:
            self.inks.setdefault(ink[0], ink)

    def paint(
        self, state: State, box: Callable[[], Box | None], *, fill: bool, stroke: bool
    ) -> None:
        """Note what is remarkable about something painted; `box` is asked only if there is."""
        kinds: list[tuple[str, str]] = []
        used = [state.fill] * fill + [state.stroke] * stroke
        for paint in used:
            self.lays(paint.inks)
            if paint.kind:
                kinds.append((paint.kind, SAYS[paint.kind]))
        if stroke and state.line <= 0:
            kinds.append(("hairline", SAYS["hairline"]))
        if not state.is_plain:
            kinds += _of_state(state, fill=fill, stroke=stroke)
        if kinds and not self._quiet:
            where = box()
            for kind, says in kinds if where else ():
                self._found.add(kind, says, where)
        for paint in used:
            if paint.pattern is not None:
                self._tile(paint.pattern, state)

    def image(self, state: State, picture: Any, size: tuple[int, int] | None) -> None:
        """Note an image that fills the unit square."""
        stencil = str(get(picture, "/ImageMask")) == "True"
        self.lays(state.fill.inks if stencil else colorants(get(picture, "/ColorSpace")))
        m = state.to_mm
        box = within(Box.around(m.on(p) for p in Box(0, 0, 1, 1).corners()), state.clip)
        sides = math.hypot(m.a, m.b), math.hypot(m.c, m.d)
        if self._quiet or box is None or min(*sides, box.width, box.height) < _SHORTEST:
            return
        if size:
            ppi = min(size[0] / sides[0], size[1] / sides[1]) * INCH
            self._found.image(size, box, ppi)
        for kind, says in _of_state(state, fill=True, stroke=False):
            self._found.add(kind, says, box)

    def text(self, state: State, *, fill: bool, stroke: bool) -> None:
        """Note what is remarkable about text; where it ends is told by its font alone."""
        for paint in [state.fill] * fill + [state.stroke] * stroke:
            self.lays(paint.inks)
            if paint.kind and not self._quiet:
                self._found.add(paint.kind, f"{SAYS[paint.kind]} (in live text)")
        for kind, says in () if self._quiet else _of_state(state, fill=fill, stroke=stroke):
            self._found.add(kind, f"{says} (in live text)")

    def shading(self, state: State, shading: Any) -> None:
        """Note a shading that fills the clip."""
        self.lays(colorants(get(shading, "/ColorSpace")))
        if not self._quiet:
            self._found.add("gradient", SAYS["gradient"], state.clip)
            for kind, says in _of_state(state, fill=True, stroke=False):
                self._found.add(kind, says, state.clip)

    def form(self, state: State, form: Any, resources: Any) -> None:
        """Walk a form that is painted."""
        inner = state.copy()
        matrix = numbers(get(form, "/Matrix"), 6)
        if matrix:
            inner.to_mm = Affine(*matrix).then(state.to_mm)
        bounds = numbers(get(form, "/BBox"), 4)
        if bounds:
            box = Box.around(map(inner.to_mm.on, Box(*bounds).corners()))
            clip = within(box, state.clip)
            if clip is None:
                return
            inner.clip = clip
        if is_group(form) and not self._quiet:
            for kind, says in _of_state(state, fill=True, stroke=False):
                self._found.add(kind, says, inner.clip)
            inner.fill_alpha = inner.stroke_alpha = 1.0
            inner.blend, inner.masked = "Normal", False
        own = get(form, "/Resources")
        self._into(form, resources if own is None else own, inner)

    def _tile(self, pattern: Any, state: State) -> None:
        """Walk a pattern's cell for the inks in it, once."""
        if len(self._tiles) == MOST_TILES or any(pattern is one for one in self._tiles):
            return
        self._tiles.append(pattern)
        self._quiet += 1
        cell = State(state.to_mm, state.clip, state.fill, state.stroke)
        cell.fill = cell.stroke = Paint("/DeviceGray")
        self._into(pattern, get(pattern, "/Resources"), cell)
        self._quiet -= 1

    def _into(self, stream: Any, resources: Any, state: State) -> None:
        if any(stream is one for one in self._stack) or len(self._stack) >= DEEPEST:
            return
        self._forms -= 1
        data = content(stream) if self._forms >= 0 <= min(self._bytes, self._left) else None
        if data is None:
            self.whole = False
            return
        self._stack.append(stream)
        self.run(data, resources, state)
        self._stack.pop()


def _of_state(state: State, *, fill: bool, stroke: bool) -> list[tuple[str, str]]:
    found = []
    alphas = [state.fill_alpha] * fill + [state.stroke_alpha] * stroke
    if alphas and min(alphas) < 1:
        found.append(("opacity", faint(max(min(alphas), 0))))
    if state.blends:
        found.append(("blend", f"blend mode {state.blend[:40]}: it mixes with what is below"))
    if state.masked:
        found.append(("mask", SAYS["mask"]))
    if (fill and state.fill_over) or (stroke and state.stroke_over):
        found.append(("overprint", SAYS["overprint"]))
    return found
