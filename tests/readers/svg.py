"""Reads the paths of an SVG file with nothing but an XML parser and the SVG 1.1 specification."""

import math
import re
from xml.etree import ElementTree as ET

from tests.readers.contour import XY, Contour, arc_points, cubic_points

_NS = "{http://www.w3.org/2000/svg}"
_WORD = re.compile(r"[A-Za-z]|-?\d+(?:\.\d+)?")
_LAYERS = ("cut", "score", "engrave", "note")


def contours(data: bytes) -> list[Contour]:
    """Return every path in page mm; the page's unit must be the millimetre."""
    root = ET.fromstring(data)
    width, height = (root.attrib[k].removesuffix("mm") for k in ("width", "height"))
    assert root.attrib["viewBox"] == f"0 0 {width} {height}"
    windows = {e.attrib["id"]: _path(e[0].attrib["d"])[0][0] for e in root.iter(f"{_NS}clipPath")}
    found: list[Contour] = []
    for child in root:
        if child.tag == f"{_NS}g":
            _group(child, None, (0.0, 0.0), None, windows, found)
    return found


def _group(
    group: ET.Element,
    layer: str | None,
    shift: XY,
    clip: tuple[float, float, float, float] | None,
    windows: dict[str, list[XY]],
    found: list[Contour],
) -> None:
    name = group.get("id", "").rpartition("-")[2]
    layer = name if name in _LAYERS else layer
    moved = re.fullmatch(r"translate\((\S+) (\S+)\)", group.get("transform", "translate(0 0)"))
    assert moved
    shift = (shift[0] + float(moved[1]), shift[1] + float(moved[2]))
    if "clip-path" in group.attrib:
        window = windows[group.attrib["clip-path"][5:-1]]
        clip = Contour(None, window, closed=True).box()
    for child in group:
        if child.tag == f"{_NS}g":
            _group(child, layer, shift, clip, windows, found)
        elif child.tag == f"{_NS}path" and child.get("stroke") != "none":
            for points, closed in _path(child.attrib["d"]):
                placed = [(x + shift[0], y + shift[1]) for x, y in points]
                found.append(Contour(layer, placed, closed, clip))


def _path(d: str) -> list[tuple[list[XY], bool]]:
    words = _WORD.findall(d)
    found: list[tuple[list[XY], bool]] = []
    points: list[XY] = []
    at = 0

    def take(count: int) -> list[float]:
        nonlocal at
        at += count
        return [float(word) for word in words[at - count : at]]

    while at < len(words):
        command = words[at]
        at += 1
        if command == "M":
            if points:
                found.append((points, False))
            x, y = take(2)
            points = [(x, y)]
        elif command == "L":
            x, y = take(2)
            points.append((x, y))
        elif command == "C":
            n = take(6)
            points += cubic_points(points[-1], (n[0], n[1]), (n[2], n[3]), (n[4], n[5]))
        elif command == "A":
            points += _arc(points[-1], take(7))
        else:
            assert command == "Z"
            found.append((points, True))
            points = []
    return [*found, (points, False)] if points else found


def _arc(a: XY, n: list[float]) -> list[XY]:
    """Follow an elliptical arc command (SVG 1.1, appendix F.6.5), for circles."""
    radius, ry, turned, large, sweep, x, y = n
    assert radius == ry
    assert turned == 0
    half = ((a[0] - x) / 2, (a[1] - y) / 2)
    square = half[0] ** 2 + half[1] ** 2
    radius = max(radius, math.sqrt(square))
    factor = math.sqrt(max(0.0, radius**2 / square - 1))
    factor = -factor if large == sweep else factor
    centre = (
        factor * half[1] + (a[0] + x) / 2,
        -factor * half[0] + (a[1] + y) / 2,
    )
    start = math.atan2(a[1] - centre[1], a[0] - centre[0])
    turn = math.atan2(y - centre[1], x - centre[0]) - start
    turn = turn % math.tau if sweep else -(-turn % math.tau)
    return [*arc_points(centre, radius, start, turn)[:-1], (x, y)]
