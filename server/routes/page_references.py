"""What a page refers to: as a list with what each leads to, and where the words stand on the picture."""

import logging
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.library.records import (
    PageRecord,
    PassageRecord,
    PublicationRecord,
    Reference,
    ReferenceState,
)
from indexer.library.references import references_from
from indexer.reading.page import Word
from indexer.trade.evidence import Box
from server import leaf
from server.opened import OpenedLibrary
from server.render import PageNotDrawn
from server.routes.addresses import Chip, page_address, publication_address
from server.words import publication_name

log = logging.getLogger(__name__)
MOST = 60  # references of one page that are listed
_WAYS = 6  # of one reference
_AROUND = "()[]{}.,;:\"'«»“”"  # stands around a word and is not part of it
_SAME_LINE = 0.5  # of a word's height


@dataclass(frozen=True, slots=True)
class ReferenceView:
    """text     as printed
    ways     where it leads
    words    why it leads nowhere, or to several
    address  of the link on the picture: the only way, else the line of the list
    """

    key: str
    text: str
    ways: tuple[Chip, ...]
    words: str
    address: str
    boxes: tuple[Box, ...] = ()


@dataclass(frozen=True, slots=True)
class PageReferences:
    references: tuple[ReferenceView, ...] = ()
    left_out: int = 0


def page_references(
    library: OpenedLibrary, owner: PublicationRecord, sheet: PageRecord, passages: Sequence[PassageRecord]
) -> PageReferences:
    """Of the passages that begin on the page. Call it inside `reading`."""
    found = references_from(library.catalogue, owner.id, sheet.pdf_page)
    if not found:
        return PageReferences()
    words = _words(library, owner, sheet)
    by_id = {passage.id: passage for passage in passages}
    views, taken = [], {}
    for number, reference in enumerate(found[:MOST], 1):
        passage = by_id.get(reference.passage_id)
        boxes: tuple[Box, ...] = ()
        if passage is not None and words:
            near = _inside(words, passage, sheet.pdf_page)
            start = taken.get(passage.id, 0)
            boxes, taken[passage.id] = places_of(reference.citation.text, near, start)
        views.append(_view(library, owner, reference, number, boxes))
    return PageReferences(tuple(views), max(0, len(found) - MOST))


def _words(library: OpenedLibrary, owner: PublicationRecord, sheet: PageRecord) -> tuple[Word, ...]:
    """The words of the page; () when they cannot be read again, which costs the links on the picture only."""
    try:
        return leaf.words_read(library, sheet) or library.words(owner, sheet.pdf_page)
    except PageNotDrawn as problem:
        log.warning("no links on the picture: %s", problem)
        return ()


def _inside(words: Sequence[Word], passage: PassageRecord, pdf_page: int) -> list[Word]:
    boxes = [place.box for place in passage.boxes if place.pdf_page == pdf_page]
    return [
        word
        for word in words
        if any(
            box.x0 - 2 <= (word.box.x0 + word.box.x1) / 2 <= box.x1 + 2
            and box.top - 2 <= (word.box.top + word.box.bottom) / 2 <= box.bottom + 2
            for box in boxes
        )
    ]


def places_of(text: str, words: Sequence[Word], start: int = 0) -> tuple[tuple[Box, ...], int]:
    """Where a text stands among words from `start` on: a box for each line, and the word after it. Pure.

    () and `start` when its words do not stand there in a row.
    """
    wanted = [_bare(part) for part in text.split()]
    for at in range(start, len(words) - len(wanted) + 1):
        row = words[at : at + len(wanted)]
        if [_bare(word.text) for word in row] == wanted:
            return tuple(_lines([word.box for word in row])), at + len(wanted)
    return (), start


def _bare(word: str) -> str:
    return word.strip(_AROUND).casefold()


def _lines(boxes: Sequence[Box]) -> list[Box]:
    lines: list[Box] = []
    for box in boxes:
        last = lines[-1] if lines else None
        if last and abs(box.top - last.top) < _SAME_LINE * box.height and box.x0 >= last.x0:
            lines[-1] = Box(last.x0, min(last.top, box.top), box.x1, max(last.bottom, box.bottom))
        else:
            lines.append(box)
    return lines


def _view(
    library: OpenedLibrary,
    owner: PublicationRecord,
    reference: Reference,
    number: int,
    boxes: tuple[Box, ...],
) -> ReferenceView:
    ways = tuple(_way(library, owner, *target) for target in reference.targets[:_WAYS])
    key = f"reference-{number}"
    only = ways[0].address if len(ways) == 1 and reference.state is ReferenceState.RESOLVED else f"#{key}"
    text = " ".join(reference.citation.text.split())
    return ReferenceView(key, text, ways, _said(reference, len(ways)), only, boxes)


def _said(reference: Reference, shown: int) -> str:
    more = len(reference.targets) - shown
    state = "" if reference.state is ReferenceState.RESOLVED else f"{reference.state.value}."
    words = reference.reason or state[:1].upper() + state[1:]
    return f"{words} {more} more are not listed.".strip() if more > 0 else words


def _way(
    library: OpenedLibrary,
    owner: PublicationRecord,
    publication_id: str,
    pdf_page: int | None,
    passage_id: str | None,
) -> Chip:
    target = library.publication(publication_id)
    name = "This publication" if target.id == owner.id else publication_name(target)
    if pdf_page is None:
        return Chip(name, publication_address(target.id))
    printed = library.catalogue.page(target.copy_id, pdf_page).printed_page
    page = f"page {printed} (PDF page {pdf_page})" if printed else f"PDF page {pdf_page}"
    return Chip(f"{name}, {page}", page_address(target.id, pdf_page, passage=passage_id or ""))
