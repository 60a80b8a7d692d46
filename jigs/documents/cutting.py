"""What becomes of a jig's drawing on its way to a cutter, and what the cut files say of it."""

from jigs.drawing.drawing import Drawing
from jigs.drawing.kerf import compensated
from jigs.order.order import Cutter


def cut_drawing(drawing: Drawing, cutter: Cutter) -> Drawing:
    """Return a jig's drawing as the tool follows it: the kerf in it."""
    return compensated(drawing, cutter.kerf)


def cut_says(cutter: Cutter) -> str:
    """Return what a cut file says of kerf and material, with the cautions, in sentences."""
    if cutter.kerf:
        half = f"{cutter.kerf / 2:g} mm"
        kerf = (
            f" Kerf {cutter.kerf:g} mm: outlines are moved by half of it, {half}, outside out and "
            "holes in, so that the finished part has the drawn size. Turn the machine's own kerf "
            "compensation off."
        )
    else:
        kerf = " Kerf 0: outlines are the finished size."
    return f" Material: {cutter.material}." + kerf + CUTTING


#: Said in every file that may reach a laser.
CUTTING = (
    " Lasers burn and some plastics give off toxic gas (never PVC): follow the machine's manual, "
    "the material maker's instructions and local rules, and do not leave the cut unattended."
)
