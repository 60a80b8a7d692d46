"""Following a PDF's content: its graphics states, and the paths it builds."""

import math
from collections.abc import Callable
from typing import Any, Protocol, TypeAlias

from jigs.artwork.pdf_file import get, raw_get
from jigs.artwork.pdf_paint import Paint, State, colour_space, image_size, painted
from jigs.geometry import Affine, Box, Point

_DEVICE = {"g": "/DeviceGray", "rg": "/DeviceRGB", "k": "/DeviceCMYK"}
#: States that are saved at once.
_MOST_SAVED = 10_000
#: Text that is neither filled nor stroked (ISO 32000-1, table 106).
_INVISIBLE = 3

#: Numbers that an operator of a path may have: one, two or three points.
_POINTS = {2, 4, 6}

_Step: TypeAlias = Callable[[list[float], list[str]], None]


class Painter(Protocol):
    """Who is told what is painted, and in which state."""

    def hides(self, raw: Any) -> bool:
        """Return whether a layer is off."""

    def paint(
        self, state: State, box: Callable[[], Box | None], *, fill: bool, stroke: bool
    ) -> None:
        """Paint a shape; `box` is where it shows, if it does."""

    def text(self, state: State, *, fill: bool, stroke: bool) -> None:
        """Paint text."""

    def image(self, state: State, picture: Any, size: tuple[int, int] | None) -> None:
        """Paint an image on the unit square."""

    def shading(self, state: State, shading: Any) -> None:
        """Paint a shading all over the clip."""

    def form(self, state: State, form: Any, resources: Any) -> None:
        """Paint a form; `resources` are for one that has none of its own."""


class Steps:
    """One content: the graphics states it saves, and the path it builds."""

    def __init__(self, painter: Painter, resources: Any, state: State) -> None:
        self._painter, self._resources = painter, resources
        self._state, self._saved = state, list[State]()
        self._path: list[list[float]] = []
        self._clips = False
        self._layers: list[bool] = []
        self.of: dict[str, _Step] = {
            "q": self._save,
            "Q": self._restore,
            "cm": self._map,
            "w": self._set_line,
            "gs": self._set_from,
            "Tr": self._set_text_mode,
            "cs": self._fill_space,
            "CS": self._stroke_space,
            "Do": self._object,
            "BI": self._inline_image,
            "sh": self._shade,
            "BMC": self._begin_layer,
            "BDC": self._begin_layer,
            "EMC": self._end_layer,
            "W": self._clip,
            "W*": self._clip,
            "re": self._rectangle,
        }
        for word in "mlcvy":
            self.of[word] = self._points
        for word in ("sc", "scn", *_DEVICE):
            self.of[word] = self._fill_colour(_DEVICE.get(word))
            self.of[word.upper()] = self._stroke_colour(_DEVICE.get(word))
        for words, fill, stroke in (
            ("f F f*", 1, 0),
            ("S s", 0, 1),
            ("B B* b b*", 1, 1),
            ("n", 0, 0),
        ):
            for word in words.split():
                self.of[word] = self._paint(fill=bool(fill), stroke=bool(stroke))
        for word in ("Tj", "TJ", "'", '"'):
            self.of[word] = self._text

    def _save(self, _: list[float], __: list[str]) -> None:
        if len(self._saved) < _MOST_SAVED:
            self._saved.append(self._state.copy())

    def _restore(self, _: list[float], __: list[str]) -> None:
        if self._saved:
            self._state = self._saved.pop()

    def _map(self, n: list[float], _: list[str]) -> None:
        if len(n) == 6:
            self._state.to_mm = Affine(*n).then(self._state.to_mm)

    def _set_line(self, n: list[float], _: list[str]) -> None:
        self._state.line = n[-1] if n else self._state.line

    def _set_text_mode(self, n: list[float], _: list[str]) -> None:
        self._state.text_mode = int(n[-1]) if n and n[-1] in range(8) else 0

    def _set_from(self, _: list[float], names: list[str]) -> None:
        self._state.set_from(self._named("/ExtGState", names))

    def _fill_space(self, _: list[float], names: list[str]) -> None:
        self._state.fill = Paint(self._space(names))

    def _stroke_space(self, _: list[float], names: list[str]) -> None:
        self._state.stroke = Paint(self._space(names))

    def _fill_colour(self, device: str | None) -> _Step:
        def step(n: list[float], names: list[str]) -> None:
            self._state.fill = self._painted(self._state.fill, device, n, names)

        return step

    def _stroke_colour(self, device: str | None) -> _Step:
        def step(n: list[float], names: list[str]) -> None:
            self._state.stroke = self._painted(self._state.stroke, device, n, names)

        return step

    def _painted(
        self, before: Paint, device: str | None, tints: list[float], names: list[str]
    ) -> Paint:
        return Paint(device) if device else painted(before.space, tints, names, self._resources)

    def _space(self, names: list[str]) -> Any:
        return colour_space(names[-1], self._resources) if names else None

    def _points(self, n: list[float], _: list[str]) -> None:
        if len(n) in _POINTS:
            self._path.append(n)

    def _rectangle(self, n: list[float], _: list[str]) -> None:
        if len(n) == 4:
            x, y, width, height = n
            self._path.append([x, y, x + width, y, x + width, y + height, x, y + height])

    def _clip(self, _: list[float], __: list[str]) -> None:
        self._clips = True

    def _paint(self, *, fill: bool, stroke: bool) -> _Step:
        def step(_: list[float], __: list[str]) -> None:
            state, path = self._state, self._path
            if path and (fill or stroke) and not self._dark:
                self._painter.paint(
                    state, lambda: _of_path(state, path, stroke=stroke), fill=fill, stroke=stroke
                )
            if path and self._clips:
                # Nothing left is a clip of no size at its corner: all in it is hidden.
                inside = _of_path(state, path, stroke=False)
                state.clip = inside or Box(
                    state.clip.left, state.clip.top, state.clip.left, state.clip.top
                )
            self._path, self._clips = [], False

        return step

    def _text(self, _: list[float], __: list[str]) -> None:
        mode = self._state.text_mode % 4
        if not self._dark and mode != _INVISIBLE:
            self._painter.text(self._state, fill=mode in {0, 2}, stroke=mode in {1, 2})

    def _object(self, _: list[float], names: list[str]) -> None:
        found = self._named("/XObject", names)
        if self._dark or self._painter.hides(raw_get(found, "/OC")):
            return
        if get(found, "/Subtype") == "/Image":
            self._painter.image(self._state, found, image_size(found))
        elif get(found, "/Subtype") == "/Form":
            self._painter.form(self._state, found, self._resources)

    def _inline_image(self, n: list[float], _: list[str]) -> None:
        if not self._dark and len(n) == 2 and min(n) > 0:
            self._painter.image(self._state, None, (int(n[0]), int(n[1])))

    def _shade(self, _: list[float], names: list[str]) -> None:
        if not self._dark:
            self._painter.shading(self._state, self._named("/Shading", names))

    def _begin_layer(self, _: list[float], names: list[str]) -> None:
        raw = None
        if len(names) == 2 and names[0] == "/OC":
            raw = raw_get(get(self._resources, "/Properties"), names[1])
        self._layers.append(raw is not None and self._painter.hides(raw))

    def _end_layer(self, _: list[float], __: list[str]) -> None:
        if self._layers:
            self._layers.pop()

    @property
    def _dark(self) -> bool:
        return any(self._layers)

    def _named(self, kind: str, names: list[str]) -> Any:
        return get(self._resources, kind, names[-1]) if names else None


def _of_path(state: State, path: list[list[float]], *, stroke: bool) -> Box | None:
    """Return the box of a path as painted, in mm; None if nothing of it shows."""
    points = (Point(*n[i : i + 2]) for n in path for i in range(0, len(n) - 1, 2))
    box = Box.around(map(state.to_mm.on, points))
    if stroke and state.line > 0:
        box = box.grown(state.line / 2 * math.sqrt(abs(state.to_mm.determinant)))
    return within(box, state.clip)


def within(box: Box, clip: Box) -> Box | None:
    """Return what two boxes share; a line's box may have no width."""
    left, top = max(box.left, clip.left), max(box.top, clip.top)
    right, bottom = min(box.right, clip.right), min(box.bottom, clip.bottom)
    shared = Box(left, top, right, bottom)
    return shared if left <= right and top <= bottom else None
