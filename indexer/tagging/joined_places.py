"""A place said right after a document is a place in it: "H-14 parts list, Group 13"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from indexer.tagging.tags import Citation, CitationKind

_BETWEEN = re.compile(r"[ ,(]{0,3}\n?[ ]*")
_PLACES = frozenset(
    {CitationKind.OWN_SECTION, CitationKind.FIGURE, CitationKind.PAGE, CitationKind.PARAGRAPH}
)
_FIELDS = ("chapter_number", "page", "figure", "paragraph", "item")


def with_places_joined(text: str, citations: Sequence[Citation]) -> list[Citation]:
    """The references in order, a bare place joined to the document that stands right before it.

    A place that says what the document's reference says already, otherwise, stays alone.
    """
    found: list[Citation] = []
    for each in citations:
        if found and _joins(text, found[-1], each):
            before = found.pop()
            said = {name: getattr(each, name) for name in _FIELDS if getattr(each, name)}
            each = replace(before, end=each.end, text=text[before.start : each.end], **said)
        found.append(each)
    return found


def _joins(text: str, document: Citation, place: Citation) -> bool:
    if document.kind is not CitationKind.DOCUMENT or place.kind not in _PLACES:
        return False
    if place.type or place.number or not (document.type or document.number):
        return False
    if any(getattr(document, name) and getattr(place, name) for name in _FIELDS):
        return False
    return _BETWEEN.fullmatch(text, document.end, place.start) is not None
