"""Order → plan → outputs: the one page to read first.

    read(order file)  → Job       everything the order names, read and checked
    make(job)         → Plan      everything it comes to; nothing is written
    render(plan)      → Outputs   bytes, the same for the same plan
    write_all(folder, outputs)    the only step that writes

`plan.json`, one of the outputs, is the plan: `load` gives it back, and rendering that gives the
same bytes again.
"""

from collections.abc import Callable, Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import replace
from itertools import repeat
from pathlib import Path

from jigs import artwork
from jigs.artwork import Artwork
from jigs.artwork.asked import Asked
from jigs.documents import plan_json
from jigs.documents.artwork_picture import artwork_page
from jigs.documents.artwork_report import artwork_data, artwork_text
from jigs.documents.contact_sheet import contact_page
from jigs.documents.cut_sheets import cut_sheets
from jigs.documents.garment_picture import garment_page
from jigs.documents.jig_pages import contact_entry, jig_files
from jigs.documents.platen_files import platen_files
from jigs.documents.report import report_data, report_text
from jigs.documents.team_files import team_files
from jigs.documents.text import as_json
from jigs.errors import BadInput, Finding, Place, collecting, raise_all
from jigs.files import Folder, Output, write_all
from jigs.locations import LOCATIONS
from jigs.names import safe_name
from jigs.order import profile
from jigs.order import read as order_file
from jigs.plan import Plan
from jigs.plan.build import Job, build
from jigs.plan.sizes import table_named
from jigs.plan.team import garment_lines
from jigs.plan.wanted import asked
from jigs.styles import STYLES
from jigs.tables import library
from jigs.tables.table import SizeTable
from jigs.team import roster, rules
from jigs.team.sheet import LARGEST_FILE
from jigs.writers import as_bytes

__all__ = ["Job", "load", "make", "read", "render", "write_all"]

#: Files of artwork that are looked at at the same time; each may take half a gigabyte.
_AT_ONCE = 2

#: Told what is being done: a step's name.
Tell = Callable[[str], None]


def read(path: Path) -> Job:
    """Return an order file with the tables and artwork it names.

    Raises:
        BadInput: anything in the order, a table or an artwork file is wrong.
        BadInputs: several things are; the order's own problems come before its files'.
    """
    folder, file = Folder(path.parent), path.name
    known = order_file.Known(LOCATIONS.names(), STYLES.names(), library.names(), rules.names())
    order = order_file.read(folder.read_text(file, Place(str(path))), file, known)
    problems: list[BadInput] = []
    tables: dict[str, SizeTable] = {}
    arts: dict[tuple[str, Asked], Artwork] = {}
    for index, line in enumerate(order.garments):
        place = Place(file, "garments").at(index).at("table")

        def beside(name: str, place: Place = place) -> str:
            return folder.read_text(name, place)

        with collecting(problems):
            tables[line.table] = table_named(line.table, place, beside)
    wanted: dict[tuple[str, Asked], Place] = {}
    for index, wish in enumerate(order.prints):
        # A file that several prints share is read, and found fault with, once for what they ask.
        wanted.setdefault(
            (wish.artwork, asked(wish)), Place(file, "prints").at(index).at("artwork")
        )

    def looked_at(key: tuple[str, Asked]) -> Artwork:
        data = folder.read_bytes(key[0], wanted[key])
        return artwork.read(key[0], data, Place(str(wanted[key]), key[0]), key[1])

    # Each is looked at in a process of its own: two of them at a time.
    with ThreadPoolExecutor(_AT_ONCE) as pool:
        for key, looks in [(key, pool.submit(looked_at, key)) for key in wanted]:
            with collecting(problems):
                arts[key] = looks.result()
    players: tuple[roster.Player, ...] = ()
    remarks: tuple[Finding, ...] = ()
    if order.team is not None:
        with collecting(problems):
            data = folder.read_bytes(order.team.list, Place(file, "team.list"), LARGEST_FILE)
            players, remarks = roster.read(
                data,
                order.team.list,
                garment_lines(order),
                order.team.prints,
                any_number=not isinstance(order.team.rules, str),
            )
    noted: tuple[Finding, ...] = ()
    if order.profile:
        with collecting(problems):
            text = folder.read_text(order.profile, Place(file, "printer.profile"))
            found = profile.read(text, Place(order.profile))
            noted = found.remarks(order.profile, order.paper)
            order = replace(order, printer=found.printer)
    raise_all(problems)
    return Job(order, file, tables, arts, players, remarks, noted)


def load(path: Path) -> Plan:
    """Return the plan kept in a `plan.json`.

    Raises:
        BadInput: it cannot be read as one.
    """
    place = Place(str(path))
    return plan_json.loaded(Folder(path.parent).read_text(path.name, place), place)


def make(job: Job, tell: Tell = lambda _: None) -> Plan:
    """Return everything an order comes to; nothing is written.

    Raises:
        BadInput: sizes or widths of the order do not go with its tables.
    """
    return build(job, tell)


def render(plan: Plan, executor: Executor | None = None) -> Iterator[Output]:
    """Yield every file of a plan: reports, pictures, the jigs, then the sheets to cut them on.

    Jigs are drawn by the executor, if there is one; the files and their order are the same.
    """
    jigs = plan.jigs
    draw = map if executor is None else executor.map
    # An executor begins at once, and draws the jigs while the pictures are made here.
    drawn = draw(jig_files, jigs, repeat(plan.shop))
    sheets = cut_sheets(plan, draw)
    yield Output("plan.json", plan_json.dumped(plan))
    yield Output("widths.txt", report_text(plan).encode())
    yield Output("widths.json", as_json(report_data(plan)))
    if plan.prints:
        yield from _artwork_files(plan)
    for garment in plan.garments:
        page = garment_page(plan, garment)
        for suffix in ("svg", "png"):
            yield Output(f"picture-{safe_name(garment.name)}.{suffix}", as_bytes(suffix, [page]))
    yield from platen_files(plan)
    if plan.team is not None:
        yield from team_files(plan, plan.team)
    if jigs:
        entries = [contact_entry(jig) for jig in jigs]
        sheet = contact_page(f"{plan.reference}: jigs", entries, plan.units)
        for suffix in ("pdf", "png"):
            yield Output(f"contact-sheet.{suffix}", as_bytes(suffix, [sheet]))
    for files in drawn:
        yield from files
    yield from sheets


def _artwork_files(plan: Plan) -> Iterator[Output]:
    """Yield the artwork report, and the picture of each print that was looked at closely."""
    yield Output("artwork.txt", artwork_text(plan).encode())
    yield Output("artwork.json", as_json(artwork_data(plan)))
    for one in plan.prints:
        if one.held is None:
            continue
        name = f"{one.name}, {one.artwork.name}"
        page = artwork_page(one.artwork, one.held, plan.shop.transfer, plan.units, name)
        for suffix in ("svg", "png"):
            yield Output(f"artwork-{safe_name(one.name)}.{suffix}", as_bytes(suffix, [page]))
