"""What the machine is unsure of, read from the catalogue: doubtful passages, pages and publications only."""

import json
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby

from indexer.library.front_matter import is_book, left_out_as
from indexer.library.own_order import outer_section
from indexer.library.records import EntryKind, EntryState, ReviewCause
from indexer.library.review_rules import Doubt, Question, questions
from indexer.reading.page import TextState
from indexer.tagging.inference import LIKELY
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.publication_types import PublicationType

_UNSEARCHED = (TextState.NO_TEXT.value, TextState.GARBLED.value, TextState.FAILED.value)
# Types that are known by their date or number alone: nobody looks for a revision of theirs.
_WITHOUT_REVISION = frozenset(
    {
        PublicationType.AIRWORTHINESS_DIRECTIVE,
        PublicationType.PROPOSED_DIRECTIVE,
        PublicationType.AMOC_LETTER,
        PublicationType.AIRWORTHINESS_BULLETIN,
        PublicationType.REGULATION,
        PublicationType.CODE_TABLE,
        PublicationType.ACCIDENT_REPORT,
        PublicationType.RELEASE_CERTIFICATE,
        PublicationType.REPAIR_ALTERATION_RECORD,
        PublicationType.SERVICE_LETTER,
        PublicationType.ENGINEERING_APPROVAL,
        PublicationType.PARTS_APPROVAL,
    }
)

_NOT_NUMBERED = ReviewCause.NOT_NUMBERED.name
_LIKELY_ONLY = ReviewCause.LIKELY_ONLY.name

# Fetched as they stand, in order: SQLite takes longer to find the runs of neighbours than Python does.
_DOUBTFUL = f"""
    WITH doubtful AS (
        SELECT passage.publication_id, passage.ordinal, passage.pdf_page, passage.id, publication.copy_id,
            CASE WHEN number.chapter IS NULL OR number.scheme = 'OWN' THEN '{_NOT_NUMBERED}'
                WHEN number.evidence_json LIKE '{{"basis":"inferred"%' THEN '{_LIKELY_ONLY}'
                ELSE '{ReviewCause.RUNGS_DISAGREE.name}' END AS cause,
            number.scheme, number.chapter, number.section, number.subject, number.evidence_json,
            number.others_json, passage.heading_path_json
        FROM passage
        JOIN publication ON publication.id = passage.publication_id
        JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
        LEFT JOIN number_tag AS number ON number.passage_id = passage.id AND number.rank = 0
        WHERE (?1 = '' OR publication.copy_id = ?1)
            AND (number.passage_id IS NULL OR number.scheme = 'OWN' OR number.others_json <> '[]'
                OR number.evidence_json LIKE '{{"basis":"inferred"%')
            AND passage.id NOT IN (SELECT passage_id FROM filing)
    ), more AS (
        SELECT doubtful.*, COALESCE((SELECT GROUP_CONCAT(';' || also, '') FROM (
            SELECT chapter || COALESCE('-' || section, '') || COALESCE('-' || subject, '') AS also
            FROM number_tag AS beside
            WHERE beside.passage_id = doubtful.id AND beside.rank > 0 AND beside.scheme <> 'OWN'
            ORDER BY also)), '') AS further
        FROM doubtful
    ), told AS (
        SELECT publication_id, ordinal, pdf_page, cause,
            CASE cause WHEN '{_NOT_NUMBERED}' THEN heading_path_json
                WHEN '{_LIKELY_ONLY}' THEN chapter || further
                ELSE json_array(scheme, chapter, section, subject, json(others_json), further) END AS reading,
            CASE cause WHEN '{_LIKELY_ONLY}'
                THEN json_extract(evidence_json, '$.confidence') END AS sure,
            COALESCE((SELECT chapter FROM number_tag AS own
                WHERE own.passage_id = more.id AND own.scheme = 'OWN'), '') AS own,
            CASE cause WHEN '{_NOT_NUMBERED}' THEN (SELECT printed_page FROM page
                WHERE page.copy_id = more.copy_id AND page.pdf_page = more.pdf_page) END AS printed,
            COALESCE((SELECT GROUP_CONCAT(value, '|') FROM entry_passage
                JOIN shop_entry ON shop_entry.id = entry_id
                WHERE entry_passage.passage_id = more.id AND kind = '{EntryKind.SETTLED.value}'
                    AND undone_by = ''), '') AS settled
        FROM more
    )
    SELECT publication_id, ordinal, pdf_page, cause, reading, own, settled, printed, sure FROM told
    ORDER BY publication_id, ordinal
"""
_SECTION_SIZES = """
    SELECT passage.publication_id, own.chapter, COUNT(*) AS passages
    FROM number_tag AS own JOIN passage ON passage.id = own.passage_id
    WHERE own.scheme = 'OWN' AND NOT EXISTS (
            SELECT 1 FROM number_tag AS before
            WHERE before.passage_id = own.passage_id AND before.scheme = 'OWN' AND before.rank < own.rank)
        AND (?1 = '' OR passage.publication_id LIKE ?1 || '-%')
    GROUP BY passage.publication_id, own.chapter
"""
_UNSEARCHED_PAGES = f"""
    SELECT page.copy_id, page.pdf_page, page.state, publication.id, publication.type
    FROM page
    JOIN copy ON copy.id = page.copy_id AND copy.replaced_by IS NULL
    JOIN publication ON publication.copy_id = page.copy_id
        AND page.pdf_page BETWEEN publication.first_page AND publication.last_page
    WHERE page.state IN ({",".join(f"'{state}'" for state in _UNSEARCHED)}) AND (?1 = '' OR page.copy_id = ?1)
    ORDER BY publication.id, page.pdf_page
"""
_PUBLICATIONS = f"""
    SELECT publication.id, copy_id, publication.type, first_page, last_page, passages,
        COALESCE(entered_identity.identity_json, publication.identity_json) AS identity_json,
        (SELECT GROUP_CONCAT(kind, '|') FROM shop_entry JOIN entry_state ON entry_id = shop_entry.id
            WHERE shop_entry.copy_id = publication.copy_id AND state = '{EntryState.WAITING.value}'
                AND pdf_page BETWEEN first_page AND publication.last_page) AS waiting
    FROM publication
    JOIN copy ON copy.id = copy_id AND copy.replaced_by IS NULL
    LEFT JOIN entered_identity ON entered_identity.publication_id = publication.id
    WHERE ?1 = '' OR copy_id = ?1
    ORDER BY publication.id
"""
_ANSWERED_BY = {
    ReviewCause.TYPE_UNCLEAR: {EntryKind.TYPE.value},
    ReviewCause.REVISION_UNCLEAR: {EntryKind.REVISION.value, EntryKind.DATE.value},
}
_SETTLED_PLACES = f"""
    SELECT copy_id, pdf_page, last_page, value FROM shop_entry
    WHERE kind = '{EntryKind.SETTLED.value}' AND undone_by = '' AND (?1 = '' OR copy_id = ?1)
"""
_WAITING_ENTRIES = f"""
    SELECT shop_entry.*, entry_state.state, publication.id AS publication_id, publication.type
    FROM shop_entry
    JOIN entry_state ON entry_state.entry_id = shop_entry.id
    LEFT JOIN publication ON publication.copy_id = shop_entry.copy_id
        AND shop_entry.pdf_page BETWEEN publication.first_page AND publication.last_page
    WHERE entry_state.state IN ('{EntryState.CHECK_AGAIN.value}', '{EntryState.WAITING.value}')
        AND (undone_by = '' OR undone_second = '') AND (?1 = '' OR shop_entry.copy_id = ?1)
    ORDER BY shop_entry.id
"""


def asked_and_left_out(
    connection: sqlite3.Connection, copy_id: str = ""
) -> tuple[list[Question], list[Question]]:
    """The questions, and those that nobody is asked; of one copy when it is named."""
    publications = {row["id"]: row for row in connection.execute(_PUBLICATIONS, (copy_id,))}
    sizes: Counter[tuple[str, str]] = Counter()
    for row in connection.execute(_SECTION_SIZES, (copy_id,)):
        sizes[row["publication_id"], outer_section(row["chapter"])] += row["passages"]
    doubts = list(_of_passages(connection.execute(_DOUBTFUL, (copy_id,)), publications))
    settled = _SettledPlaces(connection, copy_id)
    asked = questions([doubt for doubt in doubts if not doubt.left_out], sizes)
    asked += questions(_unsearched(connection.execute(_UNSEARCHED_PAGES, (copy_id,)), settled), {})
    asked += _of_identities(publications.values(), settled)
    aside = questions([doubt for doubt in doubts if doubt.left_out], {})
    return [each for each in asked if not each.is_settled] + _of_entries(connection, copy_id), aside


def _of_passages(found: Iterable[sqlite3.Row], publications: Mapping[str, sqlite3.Row]) -> Iterator[Doubt]:
    """Runs of neighbours of whom the same is told."""
    told, run = (), []
    for publication_id, ordinal, pdf_page, cause, reading, own, settled, printed, sure in found:
        left_out = ""
        if cause == _NOT_NUMBERED:
            publication = publications[publication_id]
            pages = publication["last_page"] - publication["first_page"] + 1
            on_first = pdf_page == publication["first_page"]
            headings = json.loads(reading)
            kind = _type(publication["type"])
            left_out = left_out_as(kind, pages, on_first, headings, printed or "", own)
            # Parted by paragraph in a manual's own order, else by the topmost heading; a letter is one thing.
            parts = headings[-1:] if own else headings[:1] if is_book(pages) else []
            reading = parts[0] if parts and not left_out else ""
        is_likely = bool(own) and cause == _LIKELY_ONLY and sure >= LIKELY
        this = (publication_id, cause, outer_section(own), reading, settled, left_out, is_likely)
        if run and (this != told or ordinal != run[-1][0] + 1):
            yield _run(told, run, publications)
            run = []
        told = this
        run.append((ordinal, pdf_page, sure or 0.0))
    if run:
        yield _run(told, run, publications)


def _run(told: tuple, run: list[tuple[int, int, float]], publications: Mapping[str, sqlite3.Row]) -> Doubt:
    publication_id, cause_name, own, reading, settled, left_out, _ = told
    cause = ReviewCause[cause_name]
    if cause is ReviewCause.NOT_NUMBERED:
        reading = ""
    elif cause is ReviewCause.RUNGS_DISAGREE:
        reading = _readings(reading)
    publication = publications[publication_id]
    return Doubt(
        cause,
        publication_id,
        publication["copy_id"],
        _type(publication["type"]),
        run[0][0],
        run[-1][0],
        run[0][1],
        run[-1][1],
        len(run),
        own,
        reading,
        min(sure for *_, sure in run),
        left_out,
        frozenset(settled.split("|")) if settled else frozenset(),
    )


def _readings(told: str) -> str:
    """ "32-41-00 or 32-42-00": the number that won and those that it stands against."""
    scheme, chapter, section, subject, others, _ = json.loads(told)
    numbers = [{"scheme": scheme, "chapter": chapter, "section": section, "subject": subject}]
    numbers += [other["value"] for other in others]
    return " or ".join(dict.fromkeys(_number_text(number) for number in numbers))


def _number_text(number: Mapping[str, str | None]) -> str:
    parts = (number.get("chapter") or "", number.get("section"), number.get("subject"))
    return str(ChapterNumber(*parts, scheme=Scheme(number.get("scheme") or Scheme.ATA)))


def _type(value: str) -> PublicationType | None:
    return PublicationType(value) if value else None


class _SettledPlaces:
    """Dismissals, for doubts that are of no passage: pages without text, and publications."""

    def __init__(self, connection: sqlite3.Connection, copy_id: str):
        self._by_copy: dict[str, list[sqlite3.Row]] = {}
        for row in connection.execute(_SETTLED_PLACES, (copy_id,)):
            self._by_copy.setdefault(row["copy_id"], []).append(row)

    def at(self, copy_id: str, first: int, last: int) -> frozenset[str]:
        return frozenset(
            row["value"]
            for row in self._by_copy.get(copy_id, ())
            if row["pdf_page"] <= first and last <= row["last_page"]
        )


def _unsearched(found: Iterable[sqlite3.Row], settled: "_SettledPlaces") -> Iterator[Doubt]:
    """Neighbouring pages of one state."""
    for (publication_id, state, _), group in groupby(
        ((number, row) for number, row in enumerate(found)),
        key=lambda each: (each[1]["id"], each[1]["state"], each[1]["pdf_page"] - each[0]),
    ):
        pages = [row for _, row in group]
        first, last = pages[0], pages[-1]["pdf_page"]
        yield Doubt(
            ReviewCause.NO_TEXT,
            publication_id,
            first["copy_id"],
            _type(first["type"]),
            first["pdf_page"],
            last,
            first["pdf_page"],
            last,
            len(pages),
            reading=state,
            settled=settled.at(first["copy_id"], first["pdf_page"], last),
        )


def _of_identities(found: Iterable[sqlite3.Row], settled: "_SettledPlaces") -> list[Question]:
    """Publications whose type, or revision and date, was not found; not where an answer waits already."""
    questions_found = []
    for row in found:
        identity = json.loads(row["identity_json"])
        kind = _type((identity.get("type") or {}).get("value", ""))
        if kind is None:
            cause = ReviewCause.TYPE_UNCLEAR
        elif identity.get("date") or identity.get("revision") or kind in _WITHOUT_REVISION:
            continue
        else:
            cause = ReviewCause.REVISION_UNCLEAR
        if _ANSWERED_BY[cause].intersection((row["waiting"] or "").split("|")):
            continue
        first, last = row["first_page"], row["last_page"]
        doubt = Doubt(
            cause,
            row["id"],
            row["copy_id"],
            kind,
            first,
            last,
            first,
            last,
            max(1, row["passages"]),
            settled=settled.at(row["copy_id"], first, last),
        )
        questions_found.append(Question(cause, (doubt,)))
    return questions_found


def _of_entries(connection: sqlite3.Connection, copy_id: str) -> list[Question]:
    """Entries of the shop that no longer find their place, or wait for a second person."""
    found = []
    for row in connection.execute(_WAITING_ENTRIES, (copy_id,)):
        again = row["state"] == EntryState.CHECK_AGAIN.value
        cause = ReviewCause.CHECK_AGAIN if again else ReviewCause.WAITING
        first, last, owner = row["pdf_page"], row["last_page"], row["publication_id"] or ""
        pages = (first, last, first, last)
        doubt = Doubt(cause, owner, row["copy_id"], _type(row["type"] or ""), *pages, 1, row["section"])
        found.append(Question(cause, (doubt,), "", row["section"], row["id"]))
    return found
