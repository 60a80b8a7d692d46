"""What a platen map says in words and figures: how to load, what to mind, where the ink lies."""

from collections.abc import Iterator

from jigs.documents.platen_shown import Ink, Shown
from jigs.documents.report import columns
from jigs.locations import Seen
from jigs.locations._location import PLATEN_RIM
from jigs.plan.loading import from_edge
from jigs.units import Mm, say

_HOT = (
    "The platen is hot: mark it while it is cold, with tape that stands the heat, as its maker "
    "allows, and follow the press's manual and the transfer maker's instructions."
)
_SLEEVE = (
    "The underarm seam lies right below the print: slip the sleeve over the platen, or put a pad "
    "inside it."
)
#: That a thick place holds the press off, and what helps: common practice, no source.
_THICK = "What is thick there holds the press off the print: use a pad under the print."
#: Keeps a length in one line.
_JOINED = "\u00a0"


def loaded(shown: Shown) -> str:
    """Return the one instruction of a load."""
    load, unit, middle = shown.load, shown.unit, shown.middle
    if abs(load.aside) < 1e-6:
        line = f"the {middle} on the platen's centre line"
    else:
        side = "right" if load.aside > 0 else "left"
        line = f"the {middle} {_whole(abs(load.aside), unit)} {side} of the platen's centre line"
    alike = "" if len(load.lying) == 1 else ", on all sizes alike"
    middle = ", in its middle," if shown.curved else ""
    return f"Lay {line}, and the {load.seam}{middle} {seam_text(shown)}{alike}."


def seam_text(shown: Shown) -> str:
    """Return where the seam lies by its edge of the platen."""
    load, distance = shown.load, from_edge(shown.load, shown.press)
    if abs(distance) < 1e-6:
        return f"level with the platen's {load.edge} edge"
    below = (distance > 0) == (load.edge == "top")
    where = "beyond" if distance < 0 else "below" if below else "above"
    return f"{_whole(abs(distance), shown.unit)} {where} the platen's {load.edge} edge"


def _whole(length: Mm, unit: str) -> str:
    return say(length, unit).replace(" ", _JOINED)


def notes(shown: Shown) -> Iterator[str]:
    """Yield what else to mind: first what is wrong, last the press's own caution."""
    number, count = shown.count
    rim = _whole(PLATEN_RIM, shown.unit)
    if not shown.load.fits:
        yield (
            f"STOP: the ink does not fit on the platen and stay {rim} inside its edges, where the "
            "press is weak."
        )
    if count > 1:
        yield (
            f"Load {number} of {count}: laid alike, the ink of all sizes would reach closer than "
            f"{rim} to the platen's edges, where the press is weak."
        )
    if shown.location.seen is Seen.INSIDE_BACK:
        yield "The inside of the back lies up: pull the front away, or turn the garment inside out."
    if shown.location.panel == "sleeve":
        yield _SLEEVE
    thick = _thick(shown)
    if thick:
        yield f"On the platen too: {thick}. {_THICK}"
    yield _HOT


def _thick(shown: Shown) -> str:
    """Return what of the printed side lies on the platen, what is so on all sizes first."""
    lying = shown.load.lying
    names = dict.fromkeys(name for one in lying for name in one.thick)
    every = [name for name in names if all(name in one.thick for one in lying)]
    some = [name for name in names if name not in every]
    said = [", ".join(every)] if every else []
    said += [f"on some sizes {', '.join(some)}"] if some else []
    return "; ".join(said)


def rows(shown: Shown) -> list[tuple[str, ...]]:
    """Return a heading, and a row of figures for each place of ink."""
    load, unit, edge = shown.load, shown.unit, shown.load.edge
    seam = from_edge(load, shown.press)
    short = f"{say(abs(seam), unit)}{' beyond' if seam < 0 else ''}"
    found: list[tuple[str, ...]] = [
        ("", "sizes", f"{edge} edge to seam", "to ink", "ink across", "ink")
    ]
    for one in shown.inks:
        ends = one.box.top, one.box.bottom
        if edge == "bottom":
            ends = shown.press.platen_height - ends[1], shown.press.platen_height - ends[0]
        found.append(
            (
                one.letter,
                one.sizes,
                short,
                f"{_plain(ends[0], unit)} to {say(ends[1], unit)}",
                _across(one, unit),
                f"{say(one.box.width, unit)} × {say(one.box.height, unit)}",
            )
        )
    return found


def _across(ink: Ink, unit: str) -> str:
    """Return where ink lies across, from the platen's centre line."""
    left, right = ink.box.left, ink.box.right
    if abs(left + right) < 1e-6:
        return f"{say(right, unit)} each side"
    if left * right < 0:
        return f"{say(-left, unit)} left, {say(right, unit)} right"
    near, far = sorted((abs(left), abs(right)))
    return f"{_plain(near, unit)} to {say(far, unit)} {'right' if right > 0 else 'left'}"


def _plain(length: Mm, unit: str) -> str:
    return say(length, unit).removesuffix(f" {unit}")


def platen_text(every: list[Shown], head: str) -> str:
    """Return all maps of an order as text for a terminal."""
    parts = [head, ""]
    for one in every:
        number, count = one.count
        parts += [f"{one.title}{f', load {number} of {count}' if count > 1 else ''}"]
        parts += [f"  {loaded(one)}"]
        parts += columns(rows(one), indent="  ")
        parts += [f"  {note}" for note in notes(one) if note != _HOT]
        parts += [""]
    parts += ["The top edge is the one the garment's top, or a sleeve's shoulder, lies towards;",
              "left and right are the operator's.", _HOT]  # fmt: skip
    return "\n".join(parts).replace(_JOINED, " ") + "\n"
