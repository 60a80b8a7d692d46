"""What a PDF paints with: colours, patterns, opacity, and the rest of the graphics state."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from jigs.artwork.pdf_file import get, is_array, raw_get, resolved
from jigs.geometry import Affine, Box

#: Name of an ink, the colour space that has it, which of the space's components it is, of how many.
Colorant: TypeAlias = tuple[str, Any, int, int]

#: Inks of the process, which the artwork need not name to use.
_PROCESS = {"Cyan", "Magenta", "Yellow", "Black"}
_NO_INK = {"All", "None"}
#: A DeviceN space has at most 32 colorants (ISO 32000-1, annex C).
_MOST_COLORANTS = 32


@dataclass(frozen=True, slots=True)
class Paint:
    """What a shape is filled or stroked with."""

    space: Any = None
    """Its colour space: a name, or an array."""
    kind: str = ""
    """`gradient` or `pattern`; empty for a flat colour."""
    inks: tuple[Colorant, ...] = ()
    """Named inks that it lays down."""
    pattern: Any = None
    """The dictionary of a tiling pattern."""


@dataclass(slots=True)
class State:
    """The graphics state (ISO 32000-1, 8.4), as far as it is looked at."""

    to_mm: Affine
    clip: Box
    fill: Paint
    stroke: Paint
    line: float = 1.0
    """Line width."""
    fill_alpha: float = 1.0
    stroke_alpha: float = 1.0
    blend: str = "Normal"
    masked: bool = False
    fill_over: bool = False
    stroke_over: bool = False
    text_mode: int = 0

    def copy(self) -> "State":
        """Return a state that may change on its own."""
        return replace(self)

    def set_from(self, entries: Any) -> None:
        """Take over what an ExtGState dictionary sets (ISO 32000-1, table 58)."""
        for key, name in (("/ca", "fill_alpha"), ("/CA", "stroke_alpha"), ("/LW", "line")):
            value = get(entries, key)
            if isinstance(value, int | float):
                setattr(self, name, float(value))
        blend = get(entries, "/BM")
        blend = resolved(blend[0]) if is_array(blend) and blend else blend
        if isinstance(blend, str):
            self.blend = blend.removeprefix("/")
        mask = get(entries, "/SMask")
        if mask is not None:
            self.masked = isinstance(mask, dict)
        over = _flag(get(entries, "/OP"))
        if over is not None:
            self.stroke_over = self.fill_over = over
        over = _flag(get(entries, "/op"))
        if over is not None:
            self.fill_over = over

    @property
    def blends(self) -> bool:
        """Whether what is painted is mixed with what is below."""
        return self.blend not in {"Normal", "Compatible"}

    @property
    def is_plain(self) -> bool:
        """Whether the state, colours aside, has nothing to remark on."""
        opaque = self.fill_alpha >= 1 and self.stroke_alpha >= 1
        return opaque and not (self.blends or self.masked or self.fill_over or self.stroke_over)


def colour_space(name: str, resources: Any) -> Any:
    """Return the colour space that a content calls by a name."""
    found = get(resources, "/ColorSpace", name)
    return name if found is None else found


def painted(space: Any, tints: list[float], names: list[str], resources: Any) -> Paint:
    """Return what `scn` sets in a colour space: a pattern, or so much of each colorant."""
    if not names:
        return Paint(space, "", _tinted(space, tints))
    pattern = get(resources, "/Pattern", names[-1])
    if get(pattern, "/PatternType") == 2:
        return Paint(space, "gradient", tuple(colorants(get(pattern, "/Shading", "/ColorSpace"))))
    # An uncoloured pattern has its colour from the space below (ISO 32000-1, 8.7.3.3).
    below = space[1] if is_array(space) and len(space) > 1 else None
    return Paint(space, "pattern", _tinted(below, tints), pattern)


def _tinted(space: Any, tints: list[float]) -> tuple[Colorant, ...]:
    return tuple(one for one in colorants(space) if sum(tints[one[2] : one[2] + 1]) > 0)


def colorants(space: Any) -> Iterator[Colorant]:
    """Yield the inks that a colour space names, but for those of the process among others."""
    space = resolved(space)
    if not is_array(space) or len(space) < 2:
        return
    family, second = resolved(space[0]), resolved(space[1])
    if family == "/Indexed":
        # A table of colours: which of them are used is in the pixels.
        yield from colorants(second) if is_array(second) and second is not space else ()
    elif family == "/Separation" and isinstance(second, str):
        if second[1:] not in _NO_INK:
            yield second[1:], space, 0, 1
    elif family == "/DeviceN" and is_array(second):
        names = [resolved(one) for one in second[:_MOST_COLORANTS]]
        for index, name in enumerate(names):
            if isinstance(name, str) and name[1:] not in _NO_INK | _PROCESS:
                yield name[1:], space, index, len(names)


def image_size(picture: Any) -> tuple[int, int] | None:
    """Return the pixels across and down that an image's dictionary tells."""
    across, down = get(picture, "/Width"), get(picture, "/Height")
    sound = isinstance(across, int) and isinstance(down, int) and across > 0 and down > 0
    return (int(across), int(down)) if sound else None


def is_group(form: Any) -> bool:
    """Return whether a form is painted as one, opacity and all (ISO 32000-1, 11.6.6)."""
    return raw_get(form, "/Group") is not None


def _flag(value: Any) -> bool | None:
    # pypdf's own boolean is no bool.
    said = getattr(value, "value", value)
    return said if isinstance(said, bool) else None
