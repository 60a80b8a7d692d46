"""What becomes of a jig's drawing on its way to a cutter, and what the cut files say of it."""

from collections.abc import Iterator

from jigs.drawing.drawing import Drawing, Layer
from jigs.drawing.kerf import compensated
from jigs.drawing.sequence import sequenced
from jigs.drawing.tabs import tabbed
from jigs.geometry import Line, Path, Point
from jigs.geometry.region import apart
from jigs.order.order import Cutter
from jigs.styles import STYLES
from jigs.template import Template
from jigs.units import Mm

#: A side of a piece this far from the whole plate's outlines is none of theirs.
_BESIDE: Mm = 0.5


def cut_drawing(
    drawing: Drawing,
    template: Template,
    style: str,
    cutter: Cutter,
    plate: Drawing | None = None,
) -> Drawing:
    """Return a jig's drawing as the tool follows it: kerf, order of work and tabs in it.

    No tab lies on the edge that seats; none beside it or on the side that the transfer is laid
    against, as long as there is other room. Of a piece, `plate` is the whole: nor does a tab then
    lie on a joint, whose sides are to butt.
    """
    led = sequenced(compensated(drawing, cutter.kerf))
    if not cutter.tabs:
        return led
    # Of a gap in the outline the tool takes half its width at either end.
    gap = cutter.tabs + cutter.kerf
    box = drawing.bounds()
    wings = _level(template.edge.end.y, box.left, box.right)
    spared = [*_laid_against(template, style), wings]
    whole = [template.edge, *(_joints(drawing, plate) if plate else ())]
    return tabbed(led, gap, whole=whole, spared=spared)


def _joints(piece: Drawing, plate: Drawing) -> Iterator[Path]:
    """Yield the straight sides of a piece that the whole plate does not have."""
    outlines = [shape.path for shape in plate.shapes(Layer.CUT)]
    for shape in piece.shapes(Layer.CUT):
        for side in shape.path.segments:
            line = Path((side,))
            if isinstance(side, Line) and all(apart(line, one) > _BESIDE for one in outlines):
                yield line


def _laid_against(template: Template, style: str) -> list[Path]:
    """Return the sides that transfers are laid against."""
    boxes = template.windows if STYLES.get(style).opening else (template.carrier,)
    return [_level(b.top if template.hangs else b.bottom, b.left, b.right) for b in boxes]


def _level(y: Mm, left: Mm, right: Mm) -> Path:
    return Path((Line(Point(left, y), Point(right, y)),))


def cut_says(cutter: Cutter, cut: Drawing) -> str:
    """Return what a cut file says of its drawing, kerf and material, in sentences, with cautions.

    `cutfile` reads kerf, tabs, bridge and corner from these words.
    """
    material = cutter.material
    least = f"no bridge under {material.web:g} mm, no inner corner under {material.corner:g} mm"
    says = (
        f" Material: {material.title}: {least} radius.",
        _kerf(cutter),
        *([_tabs(cutter, cut)] if cutter.tabs else []),
        _ORDER,
        *material.cautions,
        CUTTING,
    )
    return " ".join(says)


def cutting_lines(cutter: Cutter) -> list[str]:
    """Return what an order's report says of cutting, a caution to a line."""
    material = cutter.material
    by = f", with {material.tool}" if material.tool else ""
    least = f"no bridge under {material.web:g} mm, no inner corner under {material.corner:g} mm"
    tabs = f", tabs of {cutter.tabs:g} mm" if cutter.tabs else ""
    return [
        f"Cutting: {material.title}{by}; kerf {cutter.kerf:g} mm{tabs}, {least} radius",
        *(f"  mind  {caution}" for caution in (*material.cautions, CUTTING)),
    ]


def joints_say(cutter: Cutter) -> str:
    """Return how the pieces of a jig are joined, in sentences."""
    return (
        "Joints with the same letter belong together. Keys are smaller than their sockets by "
        f"{cutter.fit:g} mm across; push the straight parts of a joint together until they touch, "
        "on a flat table, and glue or tape them. Check the jig against its paper print before use."
    )


def _kerf(cutter: Cutter) -> str:
    if not cutter.kerf:
        return "Kerf 0: outlines are the finished size."
    half = f"{cutter.kerf / 2:g} mm"
    return (
        f"Kerf {cutter.kerf:g} mm: outlines are moved by half of it, {half}, outside out and "
        "holes in, so that the finished part has the drawn size. Turn the machine's own kerf "
        "compensation off."
    )


def _tabs(cutter: Cutter, cut: Drawing) -> str:
    count = sum(not shape.path.closed for shape in cut.shapes(Layer.CUT))
    if not count:
        return f"Tabs {cutter.tabs:g} mm: no side has room for one."
    return (
        f"Tabs {cutter.tabs:g} mm: at {count} places the outlines have gaps, drawn "
        f"{cutter.tabs + cutter.kerf:g} mm wide; cut the bridges with a knife and file them flush."
    )


_ORDER = (
    "Marks come first, then inside cuts before the outlines round them; the machine's own program "
    "may sort them anew."
)
#: Said in every file that may reach a laser.
CUTTING = (
    "Lasers burn and some plastics give off toxic gas (never PVC): follow the machine's manual, "
    "the material maker's instructions and local rules, and do not leave the cut unattended."
)
