"""The librarian's desk: the queue, decisions on it, and the trail of entries, as plain data.

The page, the command and the JSON API call these same functions. After each decision relations and index are
brought up to date, so that the next search shows it.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from indexer.errors import QueryProblem
from indexer.library import decisions, review, shop_entries
from indexer.library.problems import EntryRefused
from indexer.library.records import EntryKind, EntryState, HistoryEntry, ReviewCause, ReviewItem, ShopEntry
from indexer.trade.publication_types import parse_type
from server.opened import OpenedLibrary
from server.search import publication_fields
from server.tag_fields import box_fields, tag_fields
from server.words import publication_name

SHOWN = 10  # questions on one page of the desk
CAUSES = {
    "check-again": ReviewCause.CHECK_AGAIN,
    "waiting": ReviewCause.WAITING,
    "disagree": ReviewCause.RUNGS_DISAGREE,
    "type": ReviewCause.TYPE_UNCLEAR,
    "revision": ReviewCause.REVISION_UNCLEAR,
    "likely": ReviewCause.LIKELY_ONLY,
    "not-numbered": ReviewCause.NOT_NUMBERED,
    "no-text": ReviewCause.NO_TEXT,
}
CAUSE_WORDS = {cause: word for word, cause in CAUSES.items()}
_BEFORE = re.compile(r"(?:PDF page [\d to]+|section \S+|»): (.*?) -> ")


class UnknownCause(QueryProblem):
    slug = "unknown-cause"

    def __init__(self, given: str):
        super().__init__(
            f"«{given}» is not a cause of the librarian's queue.", f"Choose one of: {', '.join(CAUSES)}."
        )


@dataclass(frozen=True, slots=True)
class Place:
    """Where an entry is made from a page and not from the queue; see shop_entries.add_entry."""

    publication_id: str
    pdf_page: int
    last_page: int | None = None
    section: str = ""
    passage_id: str = ""  # the passage meant; "" = by page or section


def causes_named(names: Sequence[str]) -> list[ReviewCause] | None:
    """Causes by their words; None when none is named, which means all. Raises UnknownCause."""
    unknown = next((name for name in names if name not in CAUSES), None)
    if unknown is not None:
        raise UnknownCause(unknown)
    return [CAUSES[name] for name in names] or None


def queue(
    library: OpenedLibrary,
    causes: Sequence[str] = (),
    limit: int = SHOWN,
    offset: int = 0,
    left_out: bool = False,
) -> dict[str, Any]:
    """A part of the queue, the most useful first, with its counts. Raises UnknownCause."""
    wanted = causes_named(causes)
    with library.reading() as status:
        found = review.queue(library.catalogue, wanted, limit, offset, left_out)
        return {
            "library_state": library.state(status).fields(),
            "total": found.found,
            "counts": [
                {
                    "cause": word,
                    "words": cause.value,
                    "questions": found.counts.get(cause, 0),
                    "passages": found.passages.get(cause, 0),
                }
                for word, cause in CAUSES.items()
            ],
            "left_out": [{"words": words, "passages": count} for words, count in found.left_out.items()],
            "items": [item_fields(library, item) for item in found.items],
        }


def item(library: OpenedLibrary, item_id: str) -> dict[str, Any]:
    """One open question. Raises ItemUnknown."""
    with library.reading():
        return item_fields(library, review.find(library.catalogue, item_id)[0])


def item_fields(library: OpenedLibrary, item: ReviewItem) -> dict[str, Any]:
    owner = library.publication(item.publication_id) if item.publication_id else None
    return {
        "id": item.id,
        "cause": CAUSE_WORDS[item.cause],
        "cause_words": item.cause.value,
        "publication": publication_fields(owner) if owner else None,
        "first_page": item.first_page,
        "last_page": item.last_page,
        "section": item.section,
        "passages": item.passages,
        "covers": list(item.covers),
        "quote": item.quote,
        "now": item.now,
        "filed": [str(number) for number in item.filed],
        "suggestions": [tag_fields(tag) for tag in item.suggestions],
        "entry": item.entry_id,
    }


def decide(
    library: OpenedLibrary, item_id: str, kind: EntryKind, value: str, who: str, why: str
) -> list[ShopEntry]:
    """Answer a question of the queue for all that it covers. Raises ItemUnknown, EntryRefused."""
    made = decisions.decide(library.catalogue, item_id, kind, read_value(kind, value), who, why)
    library.catch_up()
    return made


def dismiss(library: OpenedLibrary, item_id: str, who: str, why: str) -> list[ShopEntry]:
    """Settle a question and change nothing. Raises ItemUnknown, EntryRefused."""
    made = decisions.dismiss(library.catalogue, item_id, who, why)
    library.catch_up()
    return made


def enter(
    library: OpenedLibrary, place: Place, kind: EntryKind, value: str, who: str, why: str
) -> list[ShopEntry]:
    """Enter something about a place that nobody asked about: a tag that is wrong.

    Raises EntryRefused, PublicationUnknown, PageUnknown, PassageUnknown.
    """
    owner, quote, box = library.publication(place.publication_id), "", None
    if place.passage_id:
        passage = library.catalogue.passage(place.passage_id)
        if passage.publication_id != owner.id:
            raise EntryRefused(
                "the passage is of another publication", "Open its own page and enter it there."
            )
        quote = passage.text
        box = next((each.box for each in passage.boxes if each.pdf_page == place.pdf_page), None)
    at = (quote, box, place.last_page, place.section)
    value = read_value(kind, value)
    made = shop_entries.add_entry(
        library.catalogue, owner.copy_id, place.pdf_page, who, why, kind, value, *at
    )
    library.catch_up()
    return [made]


def read_value(kind: EntryKind, value: str) -> str:
    """A type by any of its trade names; everything else as given."""
    if kind is EntryKind.TYPE and (found := parse_type(value)):
        return found.value
    return value


def agree(library: OpenedLibrary, entry_id: int, who: str) -> ShopEntry:
    """Agree as the second person. Raises EntryUnknown, EntryRefused, SecondPersonRefused."""
    made = shop_entries.second_entry(library.catalogue, entry_id, who)
    library.catch_up()
    return made


def undo(library: OpenedLibrary, entry_ids: Sequence[int], who: str, why: str) -> list[ShopEntry]:
    """Take entries back, each by itself. Raises EntryUnknown, EntryRefused."""
    for entry_id in entry_ids:
        shop_entries.entry(library.catalogue, entry_id)
    made = [shop_entries.undo_entry(library.catalogue, entry_id, who, why) for entry_id in entry_ids]
    library.catch_up()
    return made


def entries(
    library: OpenedLibrary, publication_id: str = "", state: EntryState | None = None
) -> dict[str, Any]:
    """The trail: every entry, the newest first; of one publication's file or one state when named."""
    with library.reading() as status:
        copy_id = library.publication(publication_id).copy_id if publication_id else None
        found = shop_entries.entries(library.catalogue, copy_id, state)
        acts = _acts(library)
        return {
            "library_state": library.state(status).fields(),
            "entries": [
                entry_fields(library, each, acts)
                for each in sorted(found, key=lambda each: (each.made_at, each.id), reverse=True)
            ],
        }


def names(library: OpenedLibrary) -> dict[str, str]:
    """Publication id -> what it is called, also of replaced files."""
    return {record.id: publication_name(record) for record in library.every_publication()}


def entries_by_id(library: OpenedLibrary, entry_ids: Sequence[int]) -> list[dict[str, Any]]:
    """Those of the entries that are there."""
    wanted = set(entry_ids)
    return [each for each in entries(library)["entries"] if each["id"] in wanted]


Acts = dict[tuple[str, str], list[HistoryEntry]]


def _acts(library: OpenedLibrary) -> Acts:
    """The history's lines about entries, by copy and moment."""
    acts: Acts = {}
    for line in library.catalogue.history():
        if line.event == "shop entry":
            acts.setdefault((line.copy_id, line.at.isoformat()), []).append(line)
    return acts


def entry_fields(library: OpenedLibrary, entry: ShopEntry, acts: Acts) -> dict[str, Any]:
    """An entry with its publication, where that is held, and what held before it."""
    owner = next(
        (
            record
            for record in library.every_publication()
            if record.copy_id == entry.copy_id and record.first_page <= entry.pdf_page <= record.last_page
        ),
        None,
    )
    lines = acts.get((entry.copy_id, entry.made_at.isoformat()), [])
    before = next((found[1] for line in lines if (found := _BEFORE.search(line.detail))), "")
    return {
        "id": entry.id,
        "publication": publication_fields(owner) if owner else None,
        "pdf_page": entry.pdf_page,
        "last_page": entry.last_page,
        "section": entry.section,
        "quote": entry.quote,
        "box": box_fields(entry.box) if entry.box else None,
        "kind": entry.kind.value,
        "value": entry.value,
        "before": before,
        "who": entry.who,
        "made_at": entry.made_at.isoformat(),
        "why": entry.why,
        "state": entry.state.value,
        "reason": entry.reason,
        "second": entry.second,
        "undone_by": entry.undone_by,
        "undone_why": entry.undone_why,
        "undo_waits": entry.undo_waits,
    }
