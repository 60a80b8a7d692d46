"""The shop's equipment in an order file: paper, printer, cutter, press, transfers."""

from jigs.errors import Unknown
from jigs.names import path_problem
from jigs.order.fields import Fields, shown
from jigs.order.materials import read_material
from jigs.order.order import MOST_KERF, MOST_TAB, Cutter, Paper, Press, Printer, Transfer
from jigs.order.papers import papers
from jigs.units import INCH, Mm

#: Room that a page must leave between its margins and the overlap, for anything to be on it.
_LEAST_ROOM = 50.0
#: A key with a wider gap round it holds no more.
MOST_FIT: Mm = 0.5
#: Beds and sheets of stock: their least and greatest side.
LEAST_BED: Mm = 50.0
_BED = (LEAST_BED, 10_000.0)
#: No transfer needs lines as wide as this; a wider limit is a slip of the unit.
MOST_LIMIT: Mm = 10.0


def read_paper(fields: Fields) -> Paper:
    """Return the paper: a known name, or a width and a height, turned upright."""
    fields.known_keys("size", "margin", "overlap")
    margin = fields.length("margin", Paper().margin, 0.0, 50.0)
    overlap = fields.length("overlap", Paper().overlap, 0.0, 100.0)
    noted = len(fields.problems)
    name, width, height = _paper_size(fields)
    if len(fields.problems) == noted and width - 2 * margin - overlap < _LEAST_ROOM:
        found = "margins and overlap leave no room on the paper"
        fields.note("margin", found, "make margin or overlap smaller, or the paper larger")
    return Paper(name, width, height, margin, overlap)


def _paper_size(fields: Fields) -> tuple[str, float, float]:
    size = fields.values.get("size", Paper().name)
    if isinstance(size, list):
        sides = fields.pair("size", (Paper().width, Paper().height), 90.0, 5000.0)
        return " x ".join(str(side).strip() for side in size), min(sides), max(sides)
    name = fields.text("size", Paper().name).lower()
    known = papers()
    if name in known:
        return name, known[name].width, known[name].height
    if name:
        fields.problems.append(Unknown(fields.place.at("size"), "paper", name, known))
    return name, Paper().width, Paper().height


def read_printer(fields: Fields) -> tuple[Printer, str]:
    """Return the factors that a calibration page gave, and the path of a profile that has them."""
    fields.known_keys("x", "y", "profile")
    printer = Printer(fields.factor("x", 1.0, 0.9, 1.1), fields.factor("y", 1.0, 0.9, 1.1))
    if "profile" not in fields.values:
        return printer, ""
    if {"x", "y"} & fields.values.keys():
        fields.note("profile", "found beside x or y", "write either profile, or x and y")
    path = fields.text("profile")
    problem = path_problem(path) if path else None
    if problem is not None:
        allowed = "write a path beside the order file, such as my-printer.toml"
        fields.note("profile", f"found {shown(path)}: {problem}", allowed)
    return printer, path


def read_cutter(fields: Fields) -> Cutter:
    """Return the laser or knife."""
    fields.known_keys("kerf", "bed", "material", "tabs", "fit", "stock")
    usual = Cutter()
    material = read_material(fields)
    bed = fields.pair("bed", (usual.bed_width, usual.bed_height), *_BED)
    return Cutter(
        fields.length("kerf", material.kerf, 0.0, MOST_KERF),
        *bed,
        material,
        fields.length("tabs", 0.0, 0.0, MOST_TAB),
        fields.length("fit", usual.fit, 0.0, MOST_FIT),
        fields.pair("stock", bed, *_BED) if "stock" in fields.values else None,
        own=bool(fields.values),
    )


def read_press(fields: Fields) -> Press:
    """Return the heat press."""
    fields.known_keys("platen")
    usual = Press()
    sides = fields.pair("platen", (usual.platen_width, usual.platen_height), 2 * INCH, 2000.0)
    return Press(*sides)


def read_transfer(fields: Fields) -> Transfer:
    """Return how transfers are trimmed and ordered, and what holds in print."""
    fields.known_keys("trim", "slip", "step", "line", "gap", "least_ppi")
    usual = Transfer()
    return Transfer(
        fields.length("trim", usual.trim, 0.0, 50.0),
        fields.length("slip", usual.slip, 0.0, 10.0),
        fields.length("step", usual.step, 1.0, 100.0),
        fields.length("line", usual.line, 0.0, MOST_LIMIT),
        fields.length("gap", usual.gap, 0.0, MOST_LIMIT),
        fields.factor("least_ppi", usual.least_ppi, 1.0, 1200.0),
    )
