"""Cut files read back: what a DXF or an SVG holds, as a drawing on our layers."""

from pathlib import PurePath

from jigs.cutfile.cutfile import CutFile
from jigs.errors import BadInput, Place

__all__ = ["CutFile", "read"]


def read(name: str, data: bytes, place: Place) -> CutFile:
    """Return the lines of a DXF or SVG file, by the ending of its name.

    Raises:
        BadInput: it is neither, broken, too large, or nothing in it is on a cut layer.
    """
    suffix = PurePath(name).suffix.lower()
    if suffix not in {".dxf", ".svg"}:
        raise BadInput(place, f"found {name!r}", "give a cut file: .dxf or .svg")
    if not data:
        raise BadInput(place, "the file is empty (0 bytes)", "save or copy it again")
    if suffix == ".dxf":
        from jigs.cutfile.dxf import read_dxf

        return read_dxf(data, place)
    from jigs.cutfile.svg import read_svg

    return read_svg(data, place)
