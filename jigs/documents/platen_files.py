"""The platen maps of an order as files: pages, pictures, the same at 1:1, the figures as text."""

from collections.abc import Iterator

from jigs.documents.platen_map import full_size_pages, map_page
from jigs.documents.platen_shown import Shown, flats, shown
from jigs.documents.platen_words import platen_text
from jigs.files import Output
from jigs.locations import LOCATIONS
from jigs.names import safe_name
from jigs.plan import Plan
from jigs.team.places import location as team_location
from jigs.writers import as_bytes


def platen_files(plan: Plan) -> Iterator[Output]:
    """Yield the maps of all prints of an order, in the folder `platen`, and their figures as text.

    Sizes that do not go with the others on one load have a page of their own, in a folder too.
    """
    every = list(all_shown(plan))
    if not every:
        return
    head = " · ".join(part for part in (plan.reference, plan.customer) if part)
    yield Output("platen.txt", platen_text(every, f"{head}: platen map").encode())
    for name in dict.fromkeys(one.name for one in every):
        loads = [one for one in every if one.name == name]
        pages = [map_page(one, plan.reference, plan.shop.paper) for one in loads]
        yield Output(f"platen/{name}.pdf", as_bytes("pdf", pages))
        for k, page in enumerate(pages):
            folder = f"platen/load-{k + 1}" if k else "platen"
            for suffix in ("svg", "png"):
                yield Output(f"{folder}/{name}.{suffix}", as_bytes(suffix, [page]))
        sheets = [
            sheet for one in loads for sheet in full_size_pages(one, plan.reference, plan.shop)
        ]
        yield Output(f"platen/full-size/{name}.pdf", as_bytes("pdf", sheets))


def all_shown(plan: Plan) -> Iterator[Shown]:
    """Yield every load of every print, those of the team last."""
    drawn = flats(plan)
    for one in plan.prints:
        where = LOCATIONS.get(one.location)
        title = one.name if one.name == one.location else f"{one.name} ({one.location})"
        yield from shown(plan, drawn, title, safe_name(one.name), where, one.loads)
    for each in plan.team.prints if plan.team else ():
        kind = each.setting.kind
        yield from shown(plan, drawn, kind, f"team/{kind}", team_location(kind), each.loads)
