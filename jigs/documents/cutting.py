"""What becomes of a jig's drawing on its way to a cutter, and what the cut files say of it."""

from jigs.drawing.drawing import Drawing
from jigs.drawing.kerf import compensated
from jigs.order.order import Cutter


def cut_drawing(drawing: Drawing, cutter: Cutter) -> Drawing:
    """Return a jig's drawing as the tool follows it: the kerf in it."""
    return compensated(drawing, cutter.kerf)


def cut_says(cutter: Cutter) -> str:
    """Return what a cut file says of kerf and material, with the cautions, in sentences.

    `cutfile` reads kerf, bridge and corner from these words.
    """
    material = cutter.material
    least = (
        f" Material: {material.title}: no bridge under {material.web:g} mm, no inner corner under "
        f"{material.corner:g} mm radius."
    )
    return " ".join((least + _kerf(cutter), *material.cautions)) + CUTTING


def cutting_lines(cutter: Cutter) -> list[str]:
    """Return what an order's report says of cutting, a caution to a line."""
    material = cutter.material
    by = f", with {material.tool}" if material.tool else ""
    least = f"no bridge under {material.web:g} mm, no inner corner under {material.corner:g} mm"
    tabs = f", tabs of {cutter.tabs:g} mm" if cutter.tabs else ""
    return [
        f"Cutting: {material.title}{by}; kerf {cutter.kerf:g} mm{tabs}, {least} radius",
        *(f"  mind  {caution}" for caution in (*material.cautions, CUTTING.strip())),
    ]


def _kerf(cutter: Cutter) -> str:
    if not cutter.kerf:
        return " Kerf 0: outlines are the finished size."
    half = f"{cutter.kerf / 2:g} mm"
    return (
        f" Kerf {cutter.kerf:g} mm: outlines are moved by half of it, {half}, outside out and "
        "holes in, so that the finished part has the drawn size. Turn the machine's own kerf "
        "compensation off."
    )


#: Said in every file that may reach a laser.
CUTTING = (
    " Lasers burn and some plastics give off toxic gas (never PVC): follow the machine's manual, "
    "the material maker's instructions and local rules, and do not leave the cut unattended."
)
