"""SVG bytes to an element tree, under limits, with no entity and nothing from outside."""

from typing import Any
from xml.etree.ElementTree import Element

from jigs.artwork import guard
from jigs.errors import BadInput, Place

SVG = "{http://www.w3.org/2000/svg}"
_SAVE = "save it as plain SVG"


def parse(data: bytes, place: Place) -> Element:
    """Return the root of an SVG document.

    A document type without declarations, as many drawing programs write it, is passed over;
    one that declares anything is refused.

    Raises:
        BadInput: not well-formed, too large or deep, declarations, or the root is no svg.
    """
    from xml.etree.ElementTree import ParseError

    from defusedxml import DefusedXmlException

    if len(data) > guard.MOST_XML_BYTES:
        found = f"the SVG has {len(data) / 1e6:.0f} MB"
        raise BadInput(place, found, f"allowed: up to {guard.MOST_XML_BYTES / 1e6:.0f} MB")
    parser = _parser(place)
    try:
        parser.feed(data)
        root: Element = parser.close()
    except DefusedXmlException:
        found = "the SVG declares entities or a document type of its own"
        raise BadInput(place, found, f"{_SAVE}, without editing data") from None
    except (ParseError, LookupError, ValueError) as problem:
        raise BadInput(place, f"the SVG is broken or cut short: {problem}", _SAVE) from None
    if root.tag != f"{SVG}svg":
        found = f"the root element is {root.tag[:60]!r}"
        raise BadInput(place, found, 'allowed: svg with xmlns="http://www.w3.org/2000/svg"')
    return root


def _parser(place: Place) -> Any:
    from xml.etree.ElementTree import TreeBuilder

    from defusedxml import DTDForbidden
    from defusedxml.ElementTree import DefusedXMLParser

    class Counting(TreeBuilder):
        """A tree builder that stops at too many elements or too deep a nest."""

        count = 0
        depth = 0

        def start(self, tag: str, attrs: dict[str, str], /) -> Element:
            self.count += 1
            self.depth += 1
            if self.count > guard.MOST_ELEMENTS:
                found = f"the SVG has more than {guard.MOST_ELEMENTS} elements"
                raise BadInput(place, found, "simplify the drawing")
            if self.depth > guard.DEEPEST:
                found = f"elements are nested more than {guard.DEEPEST} deep"
                raise BadInput(place, found, "ungroup the drawing")
            return super().start(tag, attrs)

        def end(self, tag: str, /) -> Element:
            self.depth -= 1
            return super().end(tag)

    def doctype(name: str, system: str | None, public: str | None, declares: object) -> None:
        if declares:
            raise DTDForbidden(name, system, public)

    parser = DefusedXMLParser(target=Counting(), forbid_entities=True, forbid_external=True)
    parser.parser.StartDoctypeDeclHandler = doctype
    return parser
