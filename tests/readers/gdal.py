"""Reads a DXF file with GDAL's own driver, which shares nothing with ezdxf or dxfgrabber.

GDAL is written in C++ and reads the tags of the published DXF Reference by itself. It hands out
every entity as points; curves in steps that are set here.
"""

import re
from typing import Any

from tests.readers.contour import Contour

#: A curve's chords: so many degrees of its circle at most, and so many mm. They stray from it by
#: no more than 0.0022 mm, where both are alike (r = 14 mm).
_STEP, _GAP = 2.0, 0.5
#: Ends of a curve that are as near as this are one point: both are worked out by sine and cosine.
_ONE = 1e-6


def contours(data: bytes) -> list[Contour]:
    """Return every entity in page mm, y down; the page's height is the upper drawing limit."""
    import pyogrio
    import shapely

    # GDAL does not hand out the header: x and y of a point in it have the codes 10 and 20.
    limits = re.search(rb"\$LIMMAX\s+10\s+\S+\s+20\s+(\S+)", data)
    assert limits
    height = float(limits[1])
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": _STEP, "OGR_ARC_MAX_GAP": _GAP})
    found: Any = pyogrio.raw.read(data, columns=["Layer"])
    _, _, shapes, (layers,) = found
    return [
        _contour(layer, shapely.get_coordinates(shape).tolist(), height)
        for layer, shape in zip(layers, shapely.from_wkb(shapes), strict=True)
    ]


def _contour(layer: str, points: list[list[float]], height: float) -> Contour:
    turned = [(x, height - y) for x, y in points]
    (ax, ay), (bx, by) = turned[0], turned[-1]
    closed = len(turned) > 2 and abs(ax - bx) + abs(ay - by) < _ONE
    return Contour(layer.lower(), turned, closed)
