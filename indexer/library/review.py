"""The librarian's queue: what the machine is unsure of, read from the catalogue, the most useful first.

Only doubtful passages are read, and their text only for the questions shown. What the shop's entries or map
file is not doubted; what was dismissed comes back only when the machine reads it otherwise.
"""

import json
import sqlite3
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from weakref import WeakKeyDictionary

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.doubts import asked_and_left_out
from indexer.library.generations import meta
from indexer.library.own_order import last_page_of, printed_number
from indexer.library.problems import ItemUnknown
from indexer.library.records import ReviewCause, ReviewItem, ShopEntry
from indexer.library.review_rules import Doubt, Question, in_order
from indexer.library.review_words import heading_words, opening, words_now, words_of_entry
from indexer.tagging.inference import NO_SYSTEM, POSSIBLE, can_be_judged, log_chances, model
from indexer.tagging.inference_text import with_heading
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.own_numbers import parse_own_number

MOST_GUESSED_FROM = 8  # passages without a number, read together


@dataclass(frozen=True, slots=True)
class ReviewQueue:
    """A part of the queue, and how much there is in all.

    counts    questions by cause, whatever was asked for
    passages  passages under those questions, by cause
    left_out  passages that nobody is asked about, by the reason
    """

    items: tuple[ReviewItem, ...]
    counts: Mapping[ReviewCause, int]
    passages: Mapping[ReviewCause, int]
    left_out: Mapping[str, int] = field(default_factory=dict)
    found: int = 0  # questions of the causes asked for


def queue(
    catalogue: Catalogue,
    causes: Collection[ReviewCause] | None = None,
    limit: int = 50,
    offset: int = 0,
    left_out: bool = False,
) -> ReviewQueue:
    """Questions for the librarian, the most useful first (see review_rules for the measure).

    causes    None = all
    left_out  True gives what nobody is asked about instead: front matter, rules, circulars
    """
    with catalogue.reading() as connection:
        asked, aside = _all_of(catalogue, connection)
        shown = aside if left_out else asked
        wanted = [question for question in shown if causes is None or question.cause in causes]
        counts, passages = Counter(), Counter()
        for question in asked:
            counts[question.cause] += 1
            passages[question.cause] += question.passages
        reasons: Counter[str] = Counter()
        for question in aside:
            reasons[question.first.left_out] += question.passages
        page = wanted[offset : offset + limit]
        items = tuple(_item(connection, question) for question in page)
        return ReviewQueue(items, dict(counts), dict(passages), dict(reasons), len(wanted))


_Questions = tuple[list[Question], list[Question]]
_kept: WeakKeyDictionary[Catalogue, tuple[tuple[int, int], _Questions]] = WeakKeyDictionary()


def _all_of(catalogue: Catalogue, connection: sqlite3.Connection) -> _Questions:
    """Every question in order, and those left out; kept until the catalogue or its relations change."""
    state = (meta(connection, "generation"), meta(connection, "related_generation"))
    kept = _kept.get(catalogue)
    if kept is None or kept[0] != state:
        asked, aside = asked_and_left_out(connection)
        kept = _kept[catalogue] = (state, (in_order(asked), in_order(aside)))
    return kept[1]


def find(catalogue: Catalogue, item_id: str) -> tuple[ReviewItem, Question]:
    """One question by its id, also one that is left out of the queue. Raises ItemUnknown."""
    with catalogue.reading() as connection:
        asked, aside = asked_and_left_out(connection, item_id.rpartition("-")[0] or "?")
        for question in (*asked, *aside):
            if question.id == item_id:
                return _item(connection, question), question
    raise ItemUnknown(item_id)


def _item(connection: sqlite3.Connection, question: Question) -> ReviewItem:
    first = question.first
    suggestions: tuple[Tag[ChapterNumber], ...] = ()
    filed: tuple[ChapterNumber, ...] = ()
    quote, covers, unread = "", (), 0
    last_page, section = question.last_page, question.section
    if question.cause in (ReviewCause.RUNGS_DISAGREE, ReviewCause.LIKELY_ONLY, ReviewCause.NOT_NUMBERED):
        ids = passage_ids(question)
        quote = opening(_text(connection, ids[0]))
        covers = _covers(connection, ids)
        last_page, section = _as_printed(connection, question, ids)
        numbers = _numbers(connection, ids)
        filed = tuple(tag.value for tag in numbers[min(numbers)]) if numbers else ()
        unread = len(ids) - len(numbers)
        suggestions = _suggestions(connection, question, numbers)
    if question.entry_id is not None:
        entry = _entry(connection, question.entry_id)
        quote, now = entry.quote, words_of_entry(entry)
    else:
        if not quote and first.publication_id:
            quote = _opening_of_page(connection, first)
        now = words_now(question.cause, suggestions, question.passages, filed, unread, first.reading)
    return ReviewItem(
        question.id,
        question.cause,
        first.publication_id,
        first.copy_id,
        first.pdf_page,
        last_page,
        section,
        question.passages,
        quote,
        now,
        suggestions,
        question.entry_id,
        covers,
        filed,
    )


def passage_ids(question: Question) -> list[str]:
    """The passages that a question is about; for those causes that are about passages."""
    return [
        f"{doubt.publication_id}-{ordinal}"
        for doubt in question.doubts
        for ordinal in range(doubt.first, doubt.last + 1)
    ]


_Numbers = Mapping[int, Sequence[Tag[ChapterNumber]]]


def _suggestions(
    connection: sqlite3.Connection, question: Question, numbers: _Numbers
) -> tuple[Tag[ChapterNumber], ...]:
    """What the machine reads, best first; of many passages each chapter as it is least sure of it."""
    if question.cause is ReviewCause.NOT_NUMBERED:
        around, guessed = _around(connection, question), _guessed(connection, passage_ids(question))
        # One chapter all around it says more than the words; where it changes, the words say more.
        ranked = (*around, *guessed) if len(around) == 1 else (*guessed, *around)
        return tuple({tag.value: tag for tag in reversed(ranked)}.values())[::-1]
    first = numbers[min(numbers)]
    if question.cause is ReviewCause.RUNGS_DISAGREE:
        return (replace(first[0], others=()), *first[0].others)
    is_partly_read = len(numbers) < question.passages
    found = []
    for place in range(len(first)):
        alike = (tag for tags in numbers.values() for tag in tags if tag.value == first[place].value)
        least = min(alike, key=lambda tag: tag.evidence.confidence or 0.0)
        sure = min(least.evidence.confidence or 0.0, POSSIBLE if is_partly_read else 1.0)
        found.append(replace(least, evidence=replace(least.evidence, confidence=sure), others=()))
    return tuple(found)


def _covers(connection: sqlite3.Connection, ids: Sequence[str]) -> tuple[str, ...]:
    """The headings its passages stand under, as printed; of one without a heading its opening words."""
    found = connection.execute(
        "SELECT heading_path_json, text FROM passage WHERE id IN (SELECT value FROM json_each(?))"
        " ORDER BY publication_id, ordinal",
        (json.dumps(ids),),
    )
    names = (heading_words(json.loads(row["heading_path_json"]), row["text"]) for row in found)
    return tuple(dict.fromkeys(names))


def _as_printed(connection: sqlite3.Connection, question: Question, ids: Sequence[str]) -> tuple[int, str]:
    """The last page its passages lie on, and its section as a heading prints it."""
    found = connection.execute(
        "SELECT heading_path_json, pdf_page, boxes_json FROM passage"
        " WHERE id IN (SELECT value FROM json_each(?)) ORDER BY publication_id, ordinal",
        (json.dumps(ids),),
    ).fetchall()
    own = parse_own_number(question.section)
    printed = printed_number((row["heading_path_json"] for row in found), own) if own else ""
    last_page = max(last_page_of(row["pdf_page"], row["boxes_json"]) for row in found)
    return last_page, printed or question.section


def _around(connection: sqlite3.Connection, question: Question) -> tuple[Tag[ChapterNumber], ...]:
    """What the passages before and after it are filed under: most often it belongs there too."""
    first, last = question.doubts[0], question.doubts[-1]
    found: dict[ChapterNumber, Tag[ChapterNumber]] = {}
    for where, ordinal in (("before", first.first - 1), ("after", last.last + 1)):
        row = connection.execute(
            "SELECT number_now.* FROM number_now JOIN passage ON passage.id = passage_id"
            " WHERE passage_id = ? AND scheme <> 'OWN' AND pdf_page BETWEEN ? AND ? ORDER BY rank",
            (f"{first.publication_id}-{ordinal}", first.pdf_page - 1, question.last_page + 1),
        ).fetchone()
        number = rows.number_tag(row).value.ata() if row else None
        if number is not None:
            why = Evidence(Basis.INFERRED, f"the passage {where} it", pdf_page=first.pdf_page)
            found.setdefault(number.whole_chapter(), Tag(number.whole_chapter(), why))
    return tuple(found.values())


def _guessed(connection: sqlite3.Connection, ids: Sequence[str]) -> tuple[Tag[ChapterNumber], ...]:
    """The model's best guesses at all of it together, however unsure: a person decides."""
    found = connection.execute(
        "SELECT heading_path_json, text FROM passage WHERE id IN (SELECT value FROM json_each(?))"
        " ORDER BY ordinal",
        (json.dumps(ids[:MOST_GUESSED_FROM]),),
    )
    text = "\n".join(with_heading(json.loads(row["heading_path_json"])[-1:], row["text"]) for row in found)
    if not can_be_judged(text):
        return ()
    chances = log_chances(text)
    classes = model().classes
    best = [classes[place] for place in chances.argsort()[::-1] if classes[place] != NO_SYSTEM]
    return tuple(
        Tag(ChapterNumber(chapter), Evidence(Basis.INFERRED, "a guess from the text")) for chapter in best[:2]
    )


def _numbers(connection: sqlite3.Connection, ids: Sequence[str]) -> _Numbers:
    """Ordinal -> numbers, of the passages that have any; a manual's own sections are none."""
    found = connection.execute(
        "SELECT passage.ordinal, number_tag.* FROM number_tag JOIN passage ON passage.id = passage_id"
        " WHERE passage_id IN (SELECT value FROM json_each(?)) AND scheme <> 'OWN'"
        " ORDER BY passage.ordinal, rank",
        (json.dumps(ids),),
    )
    numbers: dict[int, list[Tag[ChapterNumber]]] = {}
    for row in found:
        numbers.setdefault(row["ordinal"], []).append(rows.number_tag(row))
    return numbers


def _text(connection: sqlite3.Connection, passage_id: str) -> str:
    return connection.execute("SELECT text FROM passage WHERE id = ?", (passage_id,)).fetchone()["text"]


def _opening_of_page(connection: sqlite3.Connection, doubt: Doubt) -> str:
    row = connection.execute(
        "SELECT text FROM passage WHERE publication_id = ? AND pdf_page >= ? ORDER BY ordinal",
        (doubt.publication_id, doubt.pdf_page),
    ).fetchone()
    return opening(row["text"]) if row and doubt.cause is not ReviewCause.NO_TEXT else ""


def _entry(connection: sqlite3.Connection, entry_id: int) -> ShopEntry:
    row = connection.execute(
        "SELECT shop_entry.*, entry_state.state, entry_state.reason FROM shop_entry"
        " JOIN entry_state ON entry_state.entry_id = shop_entry.id WHERE shop_entry.id = ?",
        (entry_id,),
    ).fetchone()
    return rows.shop_entry(row)
