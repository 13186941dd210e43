"""A decision on a question of the librarian's queue, kept as shop entries at the place the question is about.

A question covers neighbouring passages. Pages that hold nothing else are entered as a range; what shares its
page with other passages is entered by its words, so that a decision never reaches past its question.
"""

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.entry_values import IDENTITY_KINDS, checked_value
from indexer.library.persons import named
from indexer.library.problems import EntryRefused
from indexer.library.records import EntryKind, ReviewCause, ReviewItem, ShopEntry
from indexer.library.review import find
from indexer.library.review_rules import Question
from indexer.library.shop_entries import add_entry, undo_entry
from indexer.trade.evidence import Box, PageBox

_ABOUT_ENTRIES = (ReviewCause.CHECK_AGAIN, ReviewCause.WAITING)


@dataclass(frozen=True, slots=True)
class Place:
    """Where one entry stands, as `shop_entries.add_entry` takes it."""

    pdf_page: int
    last_page: int
    section: str = ""
    quote: str = ""
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class Spot:
    """A passage of the question's pages; `asked` = the question is about it."""

    ordinal: int
    pdf_page: int
    text: str
    boxes_json: str
    asked: bool


def decide(
    catalogue: Catalogue, item_id: str, kind: EntryKind, value: str, who: str, why: str
) -> list[ShopEntry]:
    """Answer a question: the value holds for all it covers, or for its publication where that is meant.

    Raises ItemUnknown, EntryRefused; nothing is kept when the value, the name or the reason is refused.
    """
    item, question = find(catalogue, item_id)
    checked_value(kind, value)
    named(who, why)
    places = _places(catalogue, item, question, kind)
    return [_add(catalogue, item.copy_id, place, kind, value, who, why) for place in places]


def dismiss(catalogue: Catalogue, item_id: str, who: str, why: str) -> list[ShopEntry]:
    """Settle a question without changing anything; it comes back only when the machine reads it otherwise.

    What an entry asks about itself is settled by taking the entry back. Raises ItemUnknown, EntryRefused.
    """
    item, question = find(catalogue, item_id)
    named(who, why)
    if item.entry_id is not None:
        return [undo_entry(catalogue, item.entry_id, who, why)]
    kind, value = EntryKind.SETTLED, question.settled_as
    return [
        _add(catalogue, item.copy_id, place, kind, value, who, why)
        for place in _places(catalogue, item, question, kind)
    ]


def _add(
    catalogue: Catalogue, copy_id: str, place: Place, kind: EntryKind, value: str, who: str, why: str
) -> ShopEntry:
    at = (place.quote, place.box, place.last_page, place.section)
    return add_entry(catalogue, copy_id, place.pdf_page, who, why, kind, value, *at)


def _places(catalogue: Catalogue, item: ReviewItem, question: Question, kind: EntryKind) -> list[Place]:
    if item.cause in _ABOUT_ENTRIES:
        raise EntryRefused(
            "this question is about an entry that stands already",
            "Agree to it, take it back, or enter it anew from the page it belongs to.",
        )
    if kind in IDENTITY_KINDS:
        first = catalogue.publication(item.publication_id).first_page
        return [Place(first, first)]
    if item.cause is ReviewCause.NO_TEXT and kind is EntryKind.CHAPTERS:
        raise EntryRefused(
            "these pages have no text, so there is nothing to file",
            "Run the file through OCR and ingest it again.",
        )
    if item.section or item.cause in (
        ReviewCause.NO_TEXT,
        ReviewCause.TYPE_UNCLEAR,
        ReviewCause.REVISION_UNCLEAR,
    ):
        return [Place(item.first_page, item.last_page, item.section)]
    with catalogue.reading() as connection:
        return places_of_passages(_spots(connection, item, question))


def _spots(connection: sqlite3.Connection, item: ReviewItem, question: Question) -> list[Spot]:
    """The passages of the question's pages, in reading order, and which of them it asks about."""
    asked = {ordinal for doubt in question.doubts for ordinal in range(doubt.first, doubt.last + 1)}
    found = connection.execute(
        "SELECT ordinal, pdf_page, text, boxes_json FROM passage"
        " WHERE publication_id = ? AND pdf_page BETWEEN ? AND ? ORDER BY ordinal",
        (item.publication_id, item.first_page, question.last_page),
    )
    return [Spot(*row, row["ordinal"] in asked) for row in found]


def places_of_passages(spots: Sequence[Spot]) -> list[Place]:
    """The fewest places that reach the passages asked about and no other on their pages."""
    pages = {page: list(group) for page, group in groupby(spots, key=lambda spot: spot.pdf_page)}
    places: list[Place] = []
    for whole, run in groupby(pages, key=lambda page: all(spot.asked for spot in pages[page])):
        numbers = list(run)
        if whole:
            places.append(Place(numbers[0], numbers[-1]))
        else:
            places += [place for page in numbers for place in _by_words(pages[page])]
    return places


def _by_words(spots: Iterable[Spot]) -> list[Place]:
    places = []
    for asked, run in groupby(spots, key=lambda spot: spot.asked):
        if asked:
            there = list(run)
            page = there[0].pdf_page
            places.append(Place(page, page, "", " ".join(spot.text for spot in there), _box(there)))
    return places


def _box(spots: Sequence[Spot]) -> Box | None:
    """The box of one passage, to tell it from another with the same words."""
    if len(spots) > 1:
        return None
    boxes = from_json(tuple[PageBox, ...], spots[0].boxes_json)
    return next((each.box for each in boxes if each.pdf_page == spots[0].pdf_page), None)
