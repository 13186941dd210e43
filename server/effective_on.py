"""What was effective on one day: for one work, page by page, among the revisions held here.

The page, the JSON API and the command line share it. What is not held cannot be known, and that is said.
"""

import datetime
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from indexer.library import relations
from indexer.library.catalogue import Catalogue
from indexer.library.effective_pages import page_key
from indexer.library.page_facts import listed_pages_of, page_marks_of
from indexer.library.page_history import (
    EffectivePage,
    HeldRevision,
    Key,
    NamedRevision,
    PageHistory,
    history,
)
from indexer.library.records import PageOverride, PublicationRecord, SupersessionKind
from indexer.library.register import checks
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType
from server.current import same_publication
from server.opened import OpenedLibrary
from server.words import date_words, numbered, publication_name

NOT_HELD = "Only what is held here was looked at: a revision that is not held may have been in effect."


@dataclass(frozen=True, slots=True)
class TemporaryPage:
    """A temporary revision that changed a page on that day, or may have.

    answer  YES = in force: read it first; CANNOT_TELL
    """

    record: PublicationRecord
    pdf_page: int
    answer: Answer
    words: str


@dataclass(frozen=True, slots=True)
class PageOn:
    """One page, and what stood over it."""

    page: EffectivePage
    temporary: tuple[TemporaryPage, ...]


@dataclass(frozen=True, slots=True)
class EffectiveOn:
    """The answer for one work on one day.

    revision  the newest held that is of that day or before it, None = none
    notes     what makes the answer less than sure, in words for a person
    """

    publication: PublicationRecord
    on: datetime.date
    revision: PublicationRecord | None
    held: tuple[PublicationRecord, ...]
    pages: tuple[PageOn, ...]
    notes: tuple[str, ...]

    def count(self, answer: Answer) -> int:
        return sum(each.page.answer is answer for each in self.pages)

    def fields(self) -> dict[str, Any]:
        return {
            "publication": self.publication.id,
            "name": publication_name(self.publication),
            "on": self.on.isoformat(),
            "revision": _edition(self.revision) if self.revision else None,
            "held": [_edition(record) for record in self.held],
            "notes": list(self.notes),
            "counts": {answer.value: self.count(answer) for answer in (Answer.YES, Answer.CANNOT_TELL)},
            "pages": [_page_fields(each) for each in self.pages],
        }


def effective_on(library: OpenedLibrary, publication_id: str, on: datetime.date) -> EffectiveOn:
    """What was effective on a day of the work that a publication is of. Raises PublicationUnknown."""
    with library.reading():
        catalogue = library.catalogue
        publication = catalogue.publication(publication_id)
        held = tuple(catalogue.publications_of(publication.work_id))
        found = history((_held(catalogue, record) for record in held), _named(catalogue, held))
        changes = _Changes(catalogue, held)
        latest = found.latest(on)
        pages = tuple(PageOn(page, tuple(changes.of(page, on, latest))) for page in found.pages(on))
        return EffectiveOn(
            publication,
            on,
            latest.record if latest else None,
            held,
            pages,
            tuple(_notes(found, publication, on, pages)),
        )


def _named(catalogue: Catalogue, held: tuple[PublicationRecord, ...]) -> Iterator[NamedRevision]:
    """The revisions that the register names and that are not held."""
    for check in checks(catalogue, held[0].work_id):
        if not check.undone_by and all(same_publication(record, check) is not Answer.YES for record in held):
            yield NamedRevision(check.revision, check.date)


def _held(catalogue: Catalogue, record: PublicationRecord) -> HeldRevision:
    marks = tuple(page_marks_of(catalogue, record.id))
    return HeldRevision(record, marks, tuple(listed_pages_of(catalogue, record.id)))


class _Changes:
    """The temporary revisions held that change pages of a work, by the page they change."""

    def __init__(self, catalogue: Catalogue, held: tuple[PublicationRecord, ...]):
        self._catalogue = catalogue
        self._by_page: dict[Key, dict[str, PageOverride]] = {}
        for record in held:
            marks = {mark.pdf_page: mark for mark in page_marks_of(catalogue, record.id)}
            for override in relations.overrides_of(catalogue, record.id):
                mark = marks.get(override.pdf_page)
                if mark and mark.printed_page:
                    key = page_key(mark.number, mark.printed_page)
                    self._by_page.setdefault(key, {}).setdefault(override.source_id, override)

    def of(
        self, page: EffectivePage, on: datetime.date, latest: HeldRevision | None
    ) -> Iterator[TemporaryPage]:
        """Those in force over a page on that day, and those of which that cannot be told."""
        for override in self._by_page.get(page_key(page.number, page.printed_page), {}).values():
            source = self._catalogue.publication(override.source_id)
            name = numbered(source.type, source.number) or publication_name(source)
            if source.date and source.date > on:
                continue
            follower = self._follower(source, on)
            if follower:
                continue
            answer, words = _in_force(source, name, page, latest)
            yield TemporaryPage(source, override.source_pdf_page, answer, words)

    def _follower(self, source: PublicationRecord, on: datetime.date) -> PublicationRecord | None:
        """The later temporary revision that had taken its place by that day."""
        for each in relations.supersessions_of(self._catalogue, source.id):
            if each.older_id == source.id and each.kind is not SupersessionKind.CANNOT_TELL:
                newer = self._catalogue.publication(each.newer_id)
                if newer.date and newer.date <= on:
                    return newer
        return None


def _in_force(
    source: PublicationRecord, name: str, page: EffectivePage, latest: HeldRevision | None
) -> tuple[Answer, str]:
    if source.date is None:
        return Answer.CANNOT_TELL, f"{name} changes this page and prints no date. Read both."
    of = f"{name} of {date_words(source.date)}"
    if page.answer is not Answer.YES or page.date is None:
        return Answer.CANNOT_TELL, f"{of} changes this page; cannot tell whether the page had taken it in."
    if page.date >= source.date:
        return Answer.CANNOT_TELL, f"{of} is not later than this page, which may have taken it in. Read both."
    if latest and latest.record.date and latest.record.date > source.date:
        day = date_words(latest.record.date)
        return (
            Answer.CANNOT_TELL,
            f"{of} changes this page, and the revision of {day} did not; cannot tell whether it was "
            "cancelled. Read both.",
        )
    return Answer.YES, f"{of} was in force: read that page first."


def _notes(
    found: PageHistory, publication: PublicationRecord, on: datetime.date, pages: tuple[PageOn, ...]
) -> Iterator[str]:
    if publication.type is PublicationType.TEMPORARY_REVISION:
        yield "This is a temporary revision: ask of the manual that it changes."
    doubt = found.in_doubt(on)
    if doubt:
        yield f"{doubt}: cannot tell what it changed by that day."
    if found.latest(on) is None and found.revisions:
        first = date_words(found.revisions[0].record.date)
        yield f"No revision held here is of that day or before it; the first is of {first}."
    if not found.revisions:
        yield "No revision held here prints a date that was read for sure."
    for revision in (found.latest(on), found.next(on)):
        if revision is None:
            continue
        nameless = (
            revision.record.last_page
            - revision.record.first_page
            + 1
            - sum(map(len, revision.pages.values()))
        )
        if nameless > 0:
            count = "1 page" if nameless == 1 else f"{nameless} pages"
            yield f"Of {revision.name}, no page number was read on {count}; nothing is said of them."
    if pages:
        yield NOT_HELD


def _edition(record: PublicationRecord) -> dict[str, Any]:
    return {
        "publication": record.id,
        "revision": record.revision or None,
        "date": record.date.isoformat() if record.date else None,
        "file": record.file,
        "replaced": record.replaced is not None,
    }


def _page_fields(each: PageOn) -> dict[str, Any]:
    page = each.page
    return {
        "number": page.number or None,
        "printed_page": page.printed_page,
        "answer": "effective" if page.answer is Answer.YES else page.answer.value,
        "why": page.why,
        "publication": page.record.id if page.record else None,
        "revision": page.record.revision or None if page.record else None,
        "pdf_page": page.pdf_page,
        "date": page.date.isoformat() if page.date else None,
        "temporary": [
            {
                "publication": one.record.id,
                "pdf_page": one.pdf_page,
                "in_force": one.answer.value,
                "words": one.words,
            }
            for one in each.temporary
        ],
    }


def count_words(answer: EffectiveOn) -> str:
    """ "48 pages effective, 3 cannot be told"."""
    counted = Counter(each.page.answer for each in answer.pages)
    return f"{counted[Answer.YES]} effective, {counted[Answer.CANNOT_TELL]} cannot be told"
