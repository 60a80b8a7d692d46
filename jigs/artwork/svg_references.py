"""How much an SVG draws once its references are followed, reckoned without following them."""

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element

from jigs.artwork import guard
from jigs.artwork.svg_parse import SVG
from jigs.artwork.svg_style import rules_in
from jigs.errors import BadInput, Place

_LOCAL = re.compile(r"url\(\s*['\"]?\s*#([^'\")]*)")
_NUMBERS = re.compile(r"\d+")
_CLASS = re.compile(r"\.([\w-]+)")


def check_references(root: Element, place: Place) -> None:
    """Refuse references that run in a circle, too deep, or to too many elements.

    Counted are `href` and `url(#...)`, in attributes and by the classes of a style sheet; a
    marker counts for every corner of its path. What a style sheet says of elements by other
    means is not counted: the child's limits stand behind this.

    Raises:
        BadInput: they do.
    """
    named: dict[str, Element] = {}
    for element in root.iter():
        # Without a name, "#" would refer to the root; renderers pass it over.
        if element.get("id"):
            named.setdefault(element.get("id", ""), element)
    classes = _classes(root)
    weights: dict[Element, tuple[int, int]] = {}
    open_: set[Element] = set()

    def weigh(element: Element, depth: int) -> tuple[int, int]:
        """Return how many elements one stands for, and how deep they go."""
        if element in open_:
            found = f"a reference in a circle at #{element.get('id', '')[:40]}"
            raise BadInput(place, found, "expand the clones and save again")
        weight, height = weights.get(element, (1, 1))
        if element not in weights:
            open_.add(element)
            for target, times in _targets(element, named, classes):
                inner, below = weigh(target, depth + 1)
                weight += inner * times
                height = max(height, below + 1)
            open_.discard(element)
            weights[element] = (weight, height)
        if depth + height > guard.DEEPEST:
            found = f"references go more than {guard.DEEPEST} deep"
            raise BadInput(place, found, "expand the clones and save again")
        if weight > guard.MOST_DRAWN:
            found = f"the references in the SVG draw more than {guard.MOST_DRAWN} elements"
            raise BadInput(place, found, "expand the clones and simplify the drawing")
        return weight, height

    weigh(root, 0)


def _classes(root: Element) -> dict[str, set[str]]:
    """Return what each class of the style sheets refers to."""
    found: dict[str, set[str]] = {}
    for style in root.iter(f"{SVG}style"):
        for selector, body in rules_in("".join(style.itertext())):
            targets = _LOCAL.findall(body)
            for name in _CLASS.findall(selector) if targets else ():
                found.setdefault(name, set()).update(targets)
    return found


def _targets(
    element: Element, named: dict[str, Element], classes: dict[str, set[str]]
) -> Iterator[tuple[Element, int]]:
    for child in element:
        yield child, 1
    for name in element.get("class", "").split() if classes else ():
        for target in sorted(classes.get(name, ())):
            if target in named:
                yield named[target], 1
    for key, value in element.attrib.items():
        if key.rpartition("}")[2] == "href" and element.tag != f"{SVG}a":
            if value.strip()[1:] in named and value.strip().startswith("#"):
                yield named[value.strip()[1:]], 1
            continue
        for match in _LOCAL.finditer(value):
            if match[1] in named:
                yield named[match[1]], _times(element, key, value)


def _times(element: Element, key: str, value: str) -> int:
    if not key.startswith("marker") and "marker" not in value:
        return 1
    corners = element.get("d", "") + element.get("points", "")
    return 2 + sum(1 for _ in _NUMBERS.finditer(corners)) // 2
