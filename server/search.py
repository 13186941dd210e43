"""A question -> hits, ranked and grouped by chapter, each with its tags and the state of its publication."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import quote

from indexer.library.filing import chapters_of
from indexer.library.fleet_records import Aircraft
from indexer.library.fulltext import NOT_NUMBERED, Filters, FullTextResult, ScoredPassage
from indexer.library.records import PassageRecord, PublicationRecord, Status
from indexer.library.register_records import CurrencyFinding
from indexer.trade.applies import ApplicabilityAnswer
from server.applying import Applying, NotApplying
from server.currency import Currency
from server.current import Current, current_fields
from server.fleet import chosen, in_hand_fields
from server.hiding import to_hide
from server.looking import Looked, Slip, look
from server.not_current import LeftOut, both, not_current
from server.number_reading import NumbersRead
from server.ocr_debt import missed, owed_by
from server.ocr_readings import misread_in
from server.ocr_words import Owed, read_fields
from server.opened import LibraryState, OpenedLibrary
from server.question import Question, must_ask, parse_filters, parse_question
from server.snippet import Snippet, snippet
from server.standing_today import StandingToday
from server.system_asked import number_name
from server.system_records import Meaning
from server.systems_named import systems_named
from server.tag_fields import applies_fields, number_fields, standing_fields
from server.usable_first import InOrder, usable_first
from server.wording import Misread, Wording
from server.words import chapter_words

LIMIT = 50  # hits handed out when nothing else is asked
MOST = 1000


@dataclass(frozen=True, slots=True)
class Hit:
    passage: PassageRecord
    publication: PublicationRecord
    snippet: Snippet
    score: float
    currency: tuple[str, ...]  # what is known against its being current, in words; () = nothing known here
    current: CurrencyFinding  # of the pages it stands on
    applies: ApplicabilityAnswer | None = None  # to the aircraft in hand; None = none is
    misread: tuple[Misread, ...] = ()  # readings of OCR by which it was found
    place: int = 0  # among all that are handed out, 0 = first

    def fields(self) -> dict[str, Any]:
        passage, publication = self.passage, self.publication
        return {
            "passage": passage.id,
            "publication": publication_fields(publication),
            "pdf_page": passage.pdf_page,
            "printed_page": passage.printed_page,
            "number": number_fields(passage.numbers),
            "page_block": passage.page_block.value if passage.page_block else None,
            "standing": standing_fields(passage.standing),
            "currency": list(self.currency),
            "current": current_fields(self.current),
            "applies": applies_fields(self.applies),
            "heading": heading(passage),
            "snippet": self.snippet.text,
            "marks": [list(mark) for mark in self.snippet.marks],
            **read_fields(passage),
            "misread": [each.fields() for each in self.misread],
            "score": round(self.score, 4),
        }


@dataclass(frozen=True, slots=True)
class Group:
    """The hits of one chapter; `count` is over all hits, also those not handed out."""

    chapter: str  # "" for the passages without a chapter number
    count: int
    hits: tuple[Hit, ...]

    @property
    def title(self) -> str:
        return chapter_words(self.chapter)

    def fields(self) -> dict[str, Any]:
        return {
            "chapter": self.chapter or None,
            "title": self.title,
            "count": self.count,
            "hits": [hit.fields() for hit in self.hits],
        }


@dataclass(frozen=True, slots=True)
class SearchAnswer:
    """Hits that may be of use stand before those that are superseded, blocked, or not for the aircraft in
    hand: in each group, and groups in order of their first hit (usable_first.py). Counts are over all hits.

    question   as typed
    as_typed   nothing was looked for but what was typed
    misread    what OCR may have made of the words was looked for too
    with_all   with any_word, how many of the hits hold all the words; they stand first
    filters    those given, and the chapter that the question names
    numbers    the question with its numbers understood
    wording    what else was looked for
    slips      words that the library does not have, and what was looked for instead
    left_out   words that only frame the question, as typed
    systems    that the question names: each has a complete listing
    aircraft   in hand, for which each hit is marked; None = none is
    hidden     passages found that do not apply to it and were left out of groups and counts; None = nothing
               was to be hidden
    not_applying   what was left out of every count; None likewise
    superseded     passages found, less those hidden, that are not current and were left out; None = they
                   were not to be
    not_current    what was left out of every count; None likewise
    found      what the engine was asked and found, with nothing left out
    begun      the last word was still being typed, and would do as the beginning of a word
    """

    question: Question
    as_typed: bool
    filters: Filters
    state: LibraryState
    total: int
    any_word: bool
    with_all: int
    numbers: NumbersRead
    wording: Wording
    slips: tuple[Slip, ...]
    left_out: tuple[str, ...]
    systems: tuple[Meaning, ...]
    owed: Owed
    passages_not_numbered: int
    groups: tuple[Group, ...]
    by_type: Mapping[str, int]
    by_standing: Mapping[str, int]
    found: Looked
    aircraft: Aircraft | None = None
    hidden: int | None = None
    not_applying: NotApplying | None = None
    misread: bool = True
    superseded: int | None = None
    not_current: LeftOut | None = None
    begun: bool = False

    @property
    def by_chapter(self) -> dict[str, int]:
        return {group.chapter: group.count for group in self.groups}

    def fields(self) -> dict[str, Any]:
        return {
            "query": self.question.text,
            "library_state": self.state.fields(),
            "total": self.total,
            "aircraft": in_hand_fields(self.aircraft),
            "hidden_not_applying": self.hidden,
            "left_out_not_current": self.superseded,
            "any_word": self.any_word,
            "with_all_words": self.with_all if self.any_word else self.total,
            "as_typed": self.as_typed,
            "with_misreadings": self.misread and not self.as_typed,
            "misreadings": [each.fields() for each in self.wording.misread],
            "also_looked_for": [each.fields() for each in self.wording.also],
            "could_mean": [each.fields() for each in self.wording.could_mean],
            "number_taken": [each.fields() for each in self.numbers.taken],
            "slips": [each.fields() for each in self.slips],
            "left_out": list(self.left_out),
            "systems": [_system_fields(each) for each in self.systems],
            "not_searched": {
                "pages_without_text": self.owed.without_text,
                "passages_not_numbered": self.passages_not_numbered,
            },
            "ocr": self.owed.fields(),
            "groups": [group.fields() for group in self.groups],
            "counts": {
                "chapter": self.by_chapter,
                "type": dict(self.by_type),
                "standing": dict(self.by_standing),
            },
        }


def search(
    library: OpenedLibrary,
    question: str,
    chapters: Sequence[str] = (),
    types: Sequence[str] = (),
    standings: Sequence[str] = (),
    publications: Sequence[str] = (),
    limit: int = LIMIT,
    per_chapter: int | None = None,
    as_typed: bool = False,
    aircraft: str = "",
    hide_not_applying: bool = False,
    misread: bool = True,
    current: bool = False,
    begun: bool = False,
    groups: int | None = None,
) -> SearchAnswer:
    """Answer a question as typed.

    chapters     "32", "32-41", or "none" for the passages without a number; several are alternatives
    limit        most hits handed out, best first over all chapters; those of use before those of none
    per_chapter  most hits handed out of one chapter, so that more chapters have room; None = as they rank
    as_typed     look for the words and numbers as they stand: no other words, no reading of numbers
    aircraft     registration: every hit is marked with whether it applies; "" = no marks
    hide_not_applying   leave out what does not apply, and say how much that is
    misread      look also for what OCR may have made of the words: "t0rque" for torque
    current      leave out what is known not to be current, and say how much that is
    begun        the last word is still being typed: it will do as the beginning of a word
    groups       most chapters of which hits are handed out, best first; None = all
    All words are required, each as typed or as it is called elsewhere; when nothing holds them all, or
    hardly anything holds all of several, any word will do and `any_word` is set. A phrase is required always,
    as it stands.
    Raises QueryProblem, AircraftUnknown.
    """
    asked = parse_question(question)
    filters = parse_filters(chapters, types, standings, publications)
    must_ask(asked, filters)
    limit = max(0, min(limit, MOST))
    library.catch_up()
    with library.reading() as status:
        row = chosen(library, aircraft)
        applying = Applying(library.catalogue, row) if row else None
        for_others = to_hide(library, applying) if applying or hide_not_applying else None
        hiding = for_others if hide_not_applying else None
        superseded = not_current(library)
        out = superseded if current else None
        whole = look(library, asked, filters, limit, per_chapter or 1, as_typed, misread=misread, begun=begun)
        applying_here = without(library, whole, hiding, limit, per_chapter or 1)
        found = applying_here
        if out is not None:
            found = without(library, whole, both(library, hiding, out), limit, per_chapter or 1)
        of_no_use = both(library, for_others, superseded) or superseded
        in_order = usable_first(library, found, of_no_use, limit, per_chapter or 1)
        result = in_order.result
        best = _chosen(in_order, limit, per_chapter, groups)
        records = library.catalogue.passages(scored.passage_id for scored in best)
        hits = list(_hits(library, found, best, records, applying))
        filters = found.numbers.filters
        return SearchAnswer(
            asked,
            as_typed,
            filters,
            library.state(status),
            result.total,
            found.any_word,
            found.with_all,
            found.numbers,
            found.wording,
            found.slips,
            found.left_out,
            systems_named(
                found.numbers, {each.chapter: each.count for each in result.chapters}, found.subject
            ),
            owed_by(library, filters),
            _not_numbered(library, status, filters),
            _groups(result, hits),
            result.counts_by_type,
            result.counts_by_standing,
            whole,
            row,
            whole.result.total - applying_here.result.total if hiding else None,
            hiding,
            misread,
            applying_here.result.total - result.total if out is not None else None,
            out,
            begun,
        )


def note_if_missed(library: OpenedLibrary, answer: SearchAnswer) -> SearchAnswer:
    """The same answer; when a person's search found hardly anything, OCR reads such pages first."""
    missed(library, answer.question.text, answer.with_all if answer.any_word else answer.total)
    return answer


def without(
    library: OpenedLibrary, found: Looked, out: NotApplying | LeftOut | None, limit: int, per_chapter: int
) -> Looked:
    """The same query once more without what is left out, so that the difference is what is hidden."""
    if out is None:
        return found
    query = replace(found.query, filters=out.left_out_of(found.query.filters))
    with_all = found.with_all
    if with_all:
        with_all = library.engine.search(replace(query, any_word=False), 0, 0).total
    result = library.engine.search(query, limit, per_chapter)
    return replace(found, query=query, result=result, with_all=with_all)


def _chosen(found: InOrder, limit: int, per_chapter: int | None, groups: int | None) -> list[ScoredPassage]:
    if per_chapter is None:
        return list(found.result.top[:limit])
    best = [scored for chapter in found.result.chapters[:groups] for scored in chapter.best[:per_chapter]]
    return sorted(best, key=found.place)[:limit]


def _hits(
    library: OpenedLibrary,
    found: Looked,
    best: Iterable[ScoredPassage],
    records: Mapping[str, PassageRecord],
    applying: Applying | None,
) -> Iterable[Hit]:
    """Hits in the order given; a passage that was taken out since the index was made is left out."""
    currency = Currency(library.catalogue)
    current = Current(library.catalogue, currency=currency)
    on_day = StandingToday(library.catalogue)
    owners = {each: library.publication(each) for each in {one.publication_id for one in records.values()}}
    current.prepare(owners.values())
    if applying:
        applying.read_ahead(record.publication_id for record in records.values())
    for place, scored in enumerate(best):
        passage = records.get(scored.passage_id)
        if passage is None:
            continue
        publication = owners[passage.publication_id]
        yield Hit(
            on_day.passage(passage),
            publication,
            snippet(passage.text, library.engine.marks(found.query, passage.text)),
            scored.score,
            currency.of_passage(publication, passage),
            current.of_passage(publication, passage),
            applying.of_passage(publication, passage) if applying else None,
            misread_in(_printed(passage), found.wording.misread),
            place,
        )


def _printed(passage: PassageRecord) -> str:
    return "\n".join((*passage.heading_path, passage.text))


def _groups(result: FullTextResult, hits: Sequence[Hit]) -> tuple[Group, ...]:
    by_chapter: dict[str, list[Hit]] = {}
    for hit in hits:
        by_chapter.setdefault(filed_under(hit.passage), []).append(hit)
    return tuple(
        Group(found.chapter, found.count, tuple(by_chapter.get(found.chapter, ())))
        for found in result.chapters
    )


def filed_under(passage: PassageRecord) -> str:
    """The chapter a passage is grouped under; "" when it has none."""
    chapters = chapters_of(passage.numbers)
    return chapters[0] if chapters else NOT_NUMBERED


def heading(passage: PassageRecord) -> str:
    """The headings above a passage, from the strongest down."""
    return " > ".join(passage.heading_path)


def publication_fields(publication: PublicationRecord) -> dict[str, Any]:
    """The short form in which a publication is named beside a hit."""
    return {
        "id": publication.id,
        "number": publication.number or None,
        "type": publication.type.value if publication.type else None,
        "title": publication.title or None,
        "revision": publication.revision or None,
        "entered": list(publication.entered),
        "file": publication.file,
    }


def _system_fields(meaning: Meaning) -> dict[str, str]:
    asked = number_name(meaning.number)
    return {"number": asked, "title": meaning.title, "why": meaning.reason, "listing": listing_address(asked)}


def listing_address(asked: str) -> str:
    """The page of everything that touches a system; with /api before it, the same as JSON."""
    return f"/system/{quote(asked, safe='')}"


def _not_numbered(library: OpenedLibrary, status: Status, filters: Filters) -> int:
    """Passages without a number among what was asked of."""
    if not filters.publications:
        return status.passages_not_numbered
    return sum(library.publication(each).not_numbered for each in filters.publications)
