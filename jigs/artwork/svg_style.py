"""What an SVG's attributes and style sheets say of each element.

Of a style sheet those rules are followed that select by element, class and id: `path`, `.a`,
`g.a#b`, `*`, and lists of them.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias
from xml.etree.ElementTree import Element

from jigs.artwork.svg_parse import SVG

#: A property's name and value.
Style: TypeAlias = Mapping[str, str]

#: Properties that are looked at, and those of them that children inherit (SVG 1.1, appendix N).
INHERITED = frozenset(
    {"color", "fill", "stroke", "fill-opacity", "stroke-opacity", "stroke-width", "font-family",
     "visibility"}
)  # fmt: skip
_KNOWN = INHERITED | {"opacity", "mix-blend-mode", "filter", "mask", "display"}
_SELECTOR = re.compile(r"(\*|[A-Za-z][\w-]*)?((?:[.#][\w-]+)*)")
_PART = re.compile(r"([.#])([\w-]+)")
#: Characters and rules of the style sheets that are read.
_LONGEST = 1_000_000
_MOST_RULES = 5000


@dataclass(frozen=True, slots=True)
class _Rule:
    tag: str
    classes: frozenset[str]
    name: str
    """The id it asks for."""
    order: tuple[int, int, int, int]
    """Ids, classes and elements it names, and its place: what comes later wins."""
    says: tuple[tuple[str, str, bool], ...]
    """Property, value, and whether it is important."""

    def matches(self, element: Element, classes: set[str]) -> bool:
        """Return whether the rule is for an element."""
        return (
            self.tag in {"", "*", element.tag.removeprefix(SVG)}
            and self.name in {"", element.get("id", "")}
            and self.classes <= classes
        )


class Styles:
    """The style sheets of an SVG."""

    def __init__(self, root: Element) -> None:
        # Each rule is kept under one thing it asks for, so that few are tried on an element.
        self._rules: dict[str, list[_Rule]] = {}
        for rule in _rules(root):
            key = f"#{rule.name}" if rule.name else next(iter(sorted(rule.classes)), None)
            self._rules.setdefault(rule.tag or "*" if key is None else key, []).append(rule)
        self._known: dict[tuple[str, str, str], tuple[Style, Style]] = {}

    def of(self, element: Element, inherited: Style) -> dict[str, str]:
        """Return the properties of an element whose parent has others."""
        found = {name: value for name, value in inherited.items() if name in INHERITED}
        for name, value in self._own(element):
            if value == "inherit":
                found[name] = inherited.get(name, "")
            else:
                found[name] = value
        return found

    def _own(self, element: Element) -> Iterator[tuple[str, str]]:
        """Yield what is said of an element, the last word last."""
        for name, value in element.attrib.items():
            if name in _KNOWN:
                yield name, value.strip()
        inline = _declarations(element.get("style", ""))
        sheet = self._sheet(element) if self._rules else ({}, {})
        for important in (False, True):
            yield from sheet[important].items()
            yield from ((name, value) for name, value, must in inline if must == important)

    def _sheet(self, element: Element) -> tuple[Style, Style]:
        """Return what the style sheets say of an element, and what of it is important."""
        mark = f"#{element.get('id', '')}"
        key = (element.tag, element.get("class", ""), mark if mark in self._rules else "")
        if key not in self._known:
            says: tuple[dict[str, str], dict[str, str]] = ({}, {})
            for rule in self._matching(element, mark):
                for name, value, must in rule.says:
                    says[must][name] = value
            self._known[key] = says
        return self._known[key]

    def _matching(self, element: Element, mark: str) -> list[_Rule]:
        classes = set(element.get("class", "").split())
        keys = ("*", element.tag.removeprefix(SVG), mark, *classes)
        tried = (rule for key in keys for rule in self._rules.get(key, ()))
        return sorted(
            (rule for rule in tried if rule.matches(element, classes)), key=lambda rule: rule.order
        )


def rules_in(sheet: str) -> list[tuple[str, str]]:
    """Return the selectors and the declarations of each rule, those inside of others too."""
    first, *others = sheet.split("/*")
    bare = first + " ".join(other.partition("*/")[2] for other in others)
    found = []
    for chunk in bare.split("}")[:-1]:
        before, _, body = chunk.rpartition("{")
        found.append((before.rpartition("{")[2].rpartition(";")[2], body))
    return found


def _rules(root: Element) -> Iterator[_Rule]:
    sheets = ("".join(style.itertext()) for style in root.iter(f"{SVG}style"))
    rules = rules_in("\n".join(sheets)[:_LONGEST])[:_MOST_RULES]
    for place, (selectors, body) in enumerate(rules):
        says = _declarations(body)
        for selector in selectors.split(",") if says else ():
            match = _SELECTOR.fullmatch(selector.strip())
            if match is None or not match[0]:
                continue
            parts = _PART.findall(match[2])
            names = [name for mark, name in parts if mark == "#"]
            classes = frozenset(name for mark, name in parts if mark == ".")
            tag = match[1] or ""
            order = (len(names), len(classes), int(tag not in {"", "*"}), place)
            yield _Rule(tag, classes, names[0] if names else "", order, says)


def _declarations(body: str) -> tuple[tuple[str, str, bool], ...]:
    found = []
    for declaration in body.split(";"):
        name, _, value = declaration.partition(":")
        name, value = name.strip().lower(), value.strip()
        must = value.lower().endswith("!important")
        value = value[: value.rindex("!")].strip() if must else value
        if name in _KNOWN and value:
            found.append((name, value, must))
    return tuple(found)
