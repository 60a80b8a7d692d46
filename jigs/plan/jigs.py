"""The jigs of a print: for every width and every run of sizes, one in each wanted style."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from functools import lru_cache

from jigs.drawing.drawing import Drawing, Layer, Text
from jigs.errors import Finding
from jigs.geometry import Box
from jigs.geometry.strokes import written
from jigs.locations import Location
from jigs.names import safe_name
from jigs.order.materials import materials
from jigs.order.order import Cutter, Transfer
from jigs.plan.pieces import Cutting, cutting
from jigs.plan.plan import JigPlan, TableFacts
from jigs.plan.prints import Site, film_template, templates
from jigs.plan.sizes import sizes_text, spans
from jigs.rules import Facts, Violation, check, place_text
from jigs.styles import STYLES
from jigs.template import Template, Tolerance
from jigs.units import Mm
from jigs.widths import WidthPlan


def jig_plans(
    name: str,
    styles: Sequence[str],
    location: Location,
    where: Sequence[Site],
    plan: WidthPlan,
    *,
    reference: str,
    unit: str,
    transfer: Transfer,
    cutter: Cutter,
    tables: Sequence[TableFacts],
    prints: str = "",
    served: Collection[str] = (),
) -> tuple[list[JigPlan], list[Finding]]:
    """Return the jigs of a print, and what is to be said about those that cannot be made.

    `name` begins the jigs' file names, `reference` stands on them; `prints` says what they are
    for where it is not prints of one size. Sizes that are `served` have a window in a plate for two
    prints: one for them alone is not made.
    """
    jigs: list[JigPlan] = []
    findings: list[Finding] = []
    touch = [style for style in styles if STYLES.get(style).touch]
    by_eye = [style for style in styles if style not in touch]
    for width in plan.ranges:
        # What is laid on by eye is one for all sizes of a width, what seats by touch for a run.
        bares = templates(location, where, width, transfer, reference, unit) if touch else []
        if by_eye:
            bares.append(film_template(location, where, width, transfer, reference, unit))
        for bare in bares:
            keys = [seat.key for seat in bare.seats]
            one = replace(named(bare, tables), sizes=sizes_text(keys, tables), prints=prints)
            own = not set(keys) <= set(served)
            drawn_in = by_eye if one.seams else touch
            wanted = [style for style in drawn_in if own or not STYLES.get(style).opening]
            if not wanted:
                continue
            one = for_material(one, cutter_of(wanted[0], cutter))
            sinks = sinking(one)
            if sinks:
                findings.append(Finding(blocks=False, about=f"{name}, {one.sizes}", says=sinks))
            against = {style: STYLES.get(style).objection(one) for style in wanted}
            # Where another style places the print, a jig that cannot be made stops nothing.
            blocks = len(wanted) == len(styles) and None not in against.values()
            for style in wanted:
                about = f"{name}, {style} jig for {one.sizes}"
                says = against[style]
                if says is not None:
                    findings.append(Finding(blocks, about, f"no such jig: {says}"))
                    continue
                faults = broken(style, one)
                if faults:
                    # Another style would not mend it: a drawing that breaks a rule is our mistake.
                    findings += [Finding(blocks=True, about=about, says=s) for s in faults]
                    continue
                stem = unique(safe_name(f"{name}-{style}-{slug(keys, tables)}"), jigs)
                jigs.append(JigPlan(style, stem, one))
                remarks = (plate_cutting(style, one, cutter).remark, unwritten(style, one))
                findings += [Finding(blocks=False, about=about, says=s) for s in remarks if s]
    return jigs, findings


def cutter_of(style: str, cutter: Cutter) -> Cutter:
    """Return the cutter as it cuts a style: one made of a material of its own has that's kerf."""
    name = STYLES.get(style).material
    material = materials()[name] if name else cutter.material
    if material == cutter.material:
        return cutter
    return replace(cutter, material=material, kerf=material.kerf)


def for_material(one: Template, cutter: Cutter) -> Template:
    """Return a template with what the material of a cutter asks of bridges and inner corners."""
    return replace(one, web=cutter.web, inner=cutter.inner)


def named(one: Template, tables: Sequence[TableFacts]) -> Template:
    """Return a template whose seam lines, if it has any, are called by their sizes."""
    several = len({seat.key.partition("/")[0] for seat in one.seats}) > 1
    lines = []
    for line in one.seams:
        said = sizes_text(line.keys, tables)
        # Where there is one table only, its name stands in the title.
        short = [each.short for each in tables if said.startswith(f"{each.short} ")]
        plain = said if several or not short else said.removeprefix(f"{max(short, key=len)} ")
        lines.append(replace(line, name=plain))
    return replace(one, seams=tuple(lines))


@lru_cache(maxsize=256)
def drawn(style: str, one: Template) -> Drawing:
    """Return a jig's drawing, in the template's own coordinates; many outputs show the same."""
    return STYLES.get(style).draw(one)


#: A straight edge is rounded into the plate's sides, and a plate may be shorter than the edge.
_ENDS: Mm = 6.0


@lru_cache(maxsize=256)
def broken(style: str, one: Template) -> tuple[str, ...]:
    """Return what is to be said of a jig whose drawing breaks a rule; such a jig is not written."""
    drawing = drawn(style, one)
    # Notes, such as the transfer's sides, may reach beyond the plate.
    plate = Drawing(drawing.shapes(Layer.CUT)).bounds()
    found: tuple[Violation, ...] = check(drawing, facts_of(style, one, plate))
    return tuple(
        f"no such jig: its drawing breaks a rule ({fault.rule}): {fault.says}, "
        f"{place_text(fault.where, plate)}"
        for fault in found
    )


def facts_of(style: str, one: Template, plate: Box) -> Facts:
    """Return what a jig's drawing has to keep: of a straight edge, what the plate has of it."""
    kind, edge = STYLES.get(style), one.edge.bounds()
    straight = max(edge.left, plate.left + _ENDS), min(edge.right, plate.right - _ENDS)
    return Facts(
        least_web=one.web,
        least_inner=one.inner,
        seat=one.edge if kind.touch else None,
        engaged=None if one.curved else straight,
        windows=one.windows if kind.opening else (),
    )


@lru_cache(maxsize=256)
def plate_cutting(style: str, one: Template, cutter: Cutter) -> Cutting:
    """Return how a jig's plate is cut: whole, in pieces, or not at all."""
    drawing = drawn(style, one)
    plate = Drawing(drawing.shapes(Layer.CUT)).bounds()
    return cutting(drawing, facts_of(style, one, plate), cutter, one.unit, hangs=one.hangs)


def sinking(one: Template) -> str | None:
    """Return what is to be said if a collar within its tolerance takes a print out of place."""
    seats = (*one.seats, *(one.beside.seats if one.beside else ()))
    worst = max((seat.worst for seat in seats), key=abs)
    turn = max(seat.most_tilt for seat in seats)
    said = []
    if abs(worst) > Tolerance().height:
        said.append(f"the print lies {abs(worst):.1f} mm too {'low' if worst > 0 else 'high'}")
    # On any collar at its end a jig sits looser; of an estimate that end is far off.
    if one.estimated and turn > Tolerance().tilt:
        said.append(f"the jig can turn by {turn:.1f}° before it is felt")
    if not said:
        return None
    remedy = "make the jig from measured collars" if one.estimated else "look at the first garments"
    within = "estimate" if one.estimated else "tolerance"
    return f"on a collar at the end of its {within} {' and '.join(said)}: {remedy}"


def unwritten(style: str, one: Template) -> str | None:
    """Return what is to be said if a jig's words have letters that cannot be drawn."""
    words = [e for e in drawn(style, one).entities if isinstance(e, Text)]
    signs = dict.fromkeys(s for e in words for s in written(e.string, e.height).missing)
    if not signs:
        return None
    return f"there is no letter for {' '.join(signs)}: a box is drawn in its place"


def slug(keys: Sequence[str], tables: Sequence[TableFacts]) -> str:
    """Return sizes as part of a file name: `adult-S-XL`; many are named by the first and last."""
    parts = []
    for table in tables:
        names = [key.partition("/")[2] for key in keys if key.partition("/")[0] == table.name]
        if names:
            parts.append(f"{table.short}-{'_'.join(spans(names, table.sizes, '-'))}")
    said = "_".join(parts)
    if len(said) <= 40:
        return said
    (first, one), (last, two) = (keys[0].split("/", 1), keys[-1].split("/", 1))
    titles = {table.name: table.short for table in tables}
    return f"{titles[first]}-{one}_to_{titles[last]}-{two}"


def unique(stem: str, taken: Sequence[JigPlan]) -> str:
    """Return a stem that no jig has yet, whatever the case of its letters: one with a number."""
    known = {jig.stem.casefold() for jig in taken}
    number, found = 1, stem
    while found.casefold() in known:
        number += 1
        found = f"{stem}-{number}"
    return found
