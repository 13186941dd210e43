"""Everything that touches a system: complete, not the best few. Page, JSON API and command share it.

What is filed under the number or under what it covers, what refers to it, what is tied to those; apart from
them what is filed so widely that it may concern it; and what no listing can hold: passages without a number
and pages without text. Nothing is dropped silently.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from indexer.errors import NothingToSearchFor, QueryProblem
from indexer.library import systems
from indexer.library.fulltext import NOT_NUMBERED, Filters
from indexer.library.ocr_pages import debt_by_publication
from indexer.library.records import Status
from indexer.trade.chapters import ChapterNumber
from indexer.trade.collisions import warnings_for
from indexer.trade.telling_words import telling_words
from server.applying import Applying
from server.fleet import chosen
from server.framing import without_frame
from server.hiding import to_hide
from server.looking import EVERYTHING, Looked, look
from server.ocr_debt import owed
from server.opened import OpenedLibrary
from server.page_lookup import count_not_searched
from server.question import parse_question
from server.system_asked import number_name, numbers_meant, system_title
from server.system_entries import entries_on
from server.system_lines import Around, section
from server.system_not_here import not_here_of
from server.system_order import group_of
from server.system_records import Cause, Meaning, Part, SystemAnswer, WordCounts
from server.system_scope import chapter_of
from server.system_words import is_title, no_systems, systems_meant
from server.words import numbered, publication_name

_CAUSES = (  # key, words, unit
    ("own-section", "stand in sections of a manual with its own order that no one has mapped", "passage"),
    ("no-number", "carry no number, and their text says too little to tell", "passage"),
    ("not read", "not yet read: scans that wait for OCR", "page"),
    ("not readable", "could not be read by OCR", "page"),
    ("no text", "have no text that can be searched", "page"),
    ("garbled text", "have text that is not words", "page"),
    ("could not be read", "could not be read", "page"),
)


def everything_on(
    library: OpenedLibrary, asked: str, aircraft: str = "", hide_not_applying: bool = False
) -> SystemAnswer:
    """All that touches the system asked for: "32", "32-41", "JASC 3245", "brakes".

    aircraft   registration: every line is marked with whether it applies; "" = no marks
    hide_not_applying   leave out passages that do not apply, and say how many
    Raises AircraftUnknown, and QueryProblem: UnknownChapter, UnknownSystem, UnclosedQuote, or one for an
    empty question.
    """
    asked = " ".join(asked.split())
    if not any(letter.isalnum() for letter in asked):
        raise QueryProblem("No system is named.", "Name one by number (32, 32-41) or in words (brakes).")
    library.catch_up()
    with library.reading() as status:
        row = chosen(library, aircraft)
        applying = Applying(library.catalogue, row) if row else None
        hiding = to_hide(library, applying) if hide_not_applying else None
        meanings, looked = _meanings(library, status, asked)
        taken = meanings[0]
        holding = frozenset(each.passage_id for each in looked.result.top) if looked else None
        found = entries_on(library, taken.number, holding)
        listed = found.listed()
        hidden = found.without(hiding, _directives(library)) if hiding else None
        around = Around.read(library, found, holding, applying)
        on, may_be = (section(part, found, around) for part in Part)
        framed = without_frame(parse_question(asked))
        words = framed.question.text if looked else ""
        return SystemAnswer(
            asked=asked,
            words=words,
            taken=taken,
            could_mean=tuple(meanings[1:]),
            warnings=warnings_for(taken.number),
            state=library.state(status),
            on=on,
            may_be=may_be,
            elsewhere=dict(sorted(found.elsewhere.items())),
            word_counts=_word_counts(library, words, looked, listed) if looked else None,
            not_here=not_here_of(found, around),
            remainder=remainder_of(library),
            refused=len(status.refused),
            left_out=framed.left_out,
            no_systems=no_systems(asked),
            look_for=words if words and not is_title(taken.number, words) else _search_words(taken.number),
            aircraft=row,
            hidden=hidden,
            owed=owed(library, {line.publication.id for part in (on, may_be) for line in part.lines}),
        )


def chapters_held(library: OpenedLibrary) -> list[tuple[Meaning, int]]:
    """Every system that something on the shelf is filed under, with its passages; inside `reading`.

    A passage with numbers of two systems is counted under both, and once for each of its numbers.
    """
    counted: dict[ChapterNumber, int] = {}
    for held in systems.numbers_held(library.catalogue):
        chapter = chapter_of(held.number)
        counted[chapter] = counted.get(chapter, 0) + held.passages
    return [(Meaning(number, system_title(number), ""), count) for number, count in sorted(counted.items())]


def _meanings(
    library: OpenedLibrary, status: Status, asked: str
) -> tuple[tuple[Meaning, ...], Looked | None]:
    """What was asked, the one taken first; and for words, every passage that holds them or their like."""
    question = parse_question(asked)
    if meant := numbers_meant(without_frame(question).question.text):
        return meant, None
    if not question.asks:
        raise NothingToSearchFor(asked)
    # Passages with only some of the words say nothing of the system meant.
    looked = look(library, question, EVERYTHING, status.passages, 1, all_words=True)
    here = {found.chapter: found.count for found in looked.result.chapters if found.chapter != NOT_NUMBERED}
    words = " ".join((*looked.query.words, *looked.query.phrases))
    listed = looked.wording.chapters
    return systems_meant(asked, here, listed, words, each_word=True, subject=looked.subject), looked


def _directives(library: OpenedLibrary) -> dict[str, str]:
    """Names by id of the directives and proposed directives on the shelf."""
    return {
        each.id: numbered(each.type, each.number) or publication_name(each)
        for each in library.publications()
        if group_of(each.type).key in ("directives", "proposed")
    }


def _word_counts(library: OpenedLibrary, asked: str, looked: Looked, listed: set[str]) -> WordCounts:
    """`listed` = passages of the listing, hidden ones among them."""
    everywhere = {each.passage_id for each in looked.result.top}
    query = replace(looked.query, filters=Filters(chapters=(NOT_NUMBERED,)))
    loose = library.engine.search(query, len(everywhere), 1).top if everywhere else ()
    not_numbered = {each.passage_id for each in loose} - listed
    here = everywhere & listed
    return WordCounts(
        asked,
        tuple(dict.fromkeys(other for also in looked.wording.also for other in also.others)),
        len(everywhere),
        len(here),
        len(everywhere) - len(here) - len(not_numbered),
        len(not_numbered),
    )


def remainder_of(library: OpenedLibrary) -> tuple[Cause, ...]:
    """What is on the shelf and in the listing of no system, by cause; inside `reading`."""
    left = systems.remainder(library.catalogue)
    pages = {state.value: counts for state, counts in count_not_searched(library.catalogue).items()}
    owing = debt_by_publication(library.catalogue).items()
    unread = {each: counts.pages_unread for each, counts in owing if counts.pages_unread}
    failed = {each: counts.pages_failed for each, counts in owing if counts.pages_failed}
    counts: Mapping[str, Any] = {
        "own-section": left.own,
        "no-number": left.unknown,
        "not read": unread,
        "not readable": failed,
        **pages,
    }
    return tuple(Cause(key, words, unit, counts[key]) for key, words, unit in _CAUSES if counts.get(key))


def _search_words(number: ChapterNumber) -> str:
    """A search among what has no number: telling words of the system, else of its title, any of them."""
    chapter = chapter_of(number)
    if words := telling_words(chapter.chapter, number.section):
        return f"any of: {' '.join(words)}"
    title = system_title(number).split(":")[-1]
    return " ".join(word for word in title.replace("/", " ").split() if word.isalpha())


def answer_name(answer: SystemAnswer) -> str:
    """ "32 Landing gear"."""
    return f"{number_name(answer.taken.number)} {answer.taken.title}"
