"""Which kind of spreadsheet a file is: CSV and XLSX are read, of others it is said what to do."""

from jigs.errors import BadInput, Place
from jigs.tables.spec_cells import Grid
from jigs.tables.spec_csv import read_csv
from jigs.tables.spec_xlsx import read_xlsx

_MB = 1_000_000
_LARGEST = 10 * _MB
_ZIP = b"PK\x03\x04"
#: The container of workbooks before 2007, and of those under a password.
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_SAVE = "save the spec sheet as .xlsx or .csv"


def read_grid(name: str, data: bytes, sheet: str | None, place: Place) -> Grid:
    """Return the cells of a spec sheet; `sheet` names one of several in a workbook.

    Raises:
        BadInput: it is of another kind, too large, damaged, or which sheet is not clear.
    """
    ending = "".join(name.lower().rpartition(".")[1:]) if "." in name else ""
    if ending not in {".csv", ".xlsx"}:
        raise BadInput(place, f"found a file ending in {ending!r}", _SAVE)
    if len(data) > _LARGEST:
        found = f"is larger than {_LARGEST // _MB} MB"
        raise BadInput(place, found, "give a file of the spec sheet alone, without pictures")
    if data.startswith(_OLE):
        raise BadInput(place, *_old_or_locked(data))
    if ending == ".xlsx":
        if not data.startswith(_ZIP):
            raise BadInput(place, "is no .xlsx workbook, whatever its ending", _SAVE)
        return read_xlsx(data, sheet, place)
    if data.startswith(_ZIP):
        raise BadInput(place, "is a workbook or zip file, not CSV", "give it its own ending, .xlsx")
    if sheet is not None:
        raise BadInput(Place("option", "--sheet"), f"found {sheet!r}", "a CSV file has one sheet")
    return read_csv(data, place)


def _old_or_locked(data: bytes) -> tuple[str, str]:
    if "EncryptedPackage".encode("utf-16-le") in data:
        return "is under a password", "save the workbook without it"
    return "is a workbook of the old kind, .xls", _SAVE
