"""The listing of a system as plain data for JSON. Nothing is cut. Pure."""

from collections.abc import Sequence
from typing import Any

from indexer.library.records import PublicationRecord
from indexer.trade.chapters import ChapterNumber
from server.current import current_fields
from server.fleet import in_hand_fields
from server.ocr_words import doubt_words, doubts_of
from server.opened import LibraryState, OpenedLibrary
from server.search import publication_fields
from server.system_asked import number_name
from server.system_how import HOW_WORDS
from server.system_order import GROUPS
from server.system_records import Cause, Counts, Line, Meaning, Mention, Section, SystemAnswer
from server.tag_fields import applies_fields, evidence_fields, standing_fields
from server.words import CAUTIONS


def answer_fields(library: OpenedLibrary, answer: SystemAnswer) -> dict[str, Any]:
    """Everything of an answer; `library` gives the publications that it names by id."""
    words = answer.word_counts
    return {
        "asked": answer.asked,
        "library_state": answer.state.fields(),
        "aircraft": in_hand_fields(answer.aircraft),
        "hidden_not_applying": None if answer.hidden is None else len(answer.hidden.passages),
        "taken": meaning_fields(answer.taken),
        "could_mean": [meaning_fields(meaning) for meaning in answer.could_mean],
        "no_systems": list(answer.no_systems),
        "left_out": list(answer.left_out),
        "warnings": list(answer.warnings),
        "parts": [_section(section) for section in answer.sections],
        "elsewhere_in_chapter": dict(answer.elsewhere),
        "words": None
        if words is None
        else {
            "words": words.words,
            "also_looked_for": list(words.also),
            "total": words.total,
            "listed": words.listed,
            "elsewhere": words.elsewhere,
            "not_numbered": words.not_numbered,
        },
        "not_in_library": [
            {
                "kind": each.kind.value,
                "key": each.key,
                "document": each.document,
                "revision": each.revision,
                "state": each.state,
                "reason": each.reason,
                "named_by": [
                    {"publication": publication_fields(library.publication(owner)), "pdf_page": page}
                    for owner, page in each.named_by
                ],
            }
            for each in answer.not_here
        ],
        "not_listed": [_cause(library, cause) for cause in answer.remainder],
        "ocr": answer.owed.fields(),
        "files_refused": answer.refused,
        "look_for": answer.look_for,
        "cautions": list(CAUTIONS),
    }


def held_fields(
    library: OpenedLibrary,
    state: LibraryState,
    held: Sequence[tuple[Meaning, int]],
    remainder: Sequence[Cause],
) -> dict[str, Any]:
    """The systems that something is filed under, and what is filed under none."""
    return {
        "library_state": state.fields(),
        "systems": [
            {
                "number": number_of(meaning.number),
                "asked_as": number_name(meaning.number),
                "title": meaning.title,
                "passages": passages,
            }
            for meaning, passages in held
        ],
        "not_listed": [_cause(library, cause) for cause in remainder],
    }


def _cause(library: OpenedLibrary, cause: Cause) -> dict[str, Any]:
    return {
        "cause": cause.key,
        "words": cause.words,
        "unit": cause.unit,
        "total": cause.total,
        "publications": [
            {"publication": publication_fields(library.publication(owner)), "count": count}
            for owner, count in cause.counts.items()
        ],
    }


def meaning_fields(meaning: Meaning) -> dict[str, Any]:
    return {
        "number": number_of(meaning.number),
        "asked_as": number_name(meaning.number),
        "title": meaning.title,
        "reason": meaning.reason,
    }


def number_of(number: ChapterNumber | None) -> dict[str, str] | None:
    return {"text": str(number), "scheme": number.scheme.value} if number else None


def _section(section: Section) -> dict[str, Any]:
    return {
        "part": section.part.value,
        "counts": counts_fields(section.counts),
        "groups": [
            {
                "group": group.key,
                "title": group.title,
                "passages": section.counts.by_group[group.key],
                "lines": [line_fields(line) for line in section.lines if line.group is group],
            }
            for group in GROUPS
            if group.key in section.counts.by_group
        ],
    }


def counts_fields(counts: Counts) -> dict[str, Any]:
    return {
        "lines": counts.lines,
        "publications": counts.publications,
        "passages": counts.passages,
        "by_how": {how.value: count for how, count in counts.by_how.items()},
        "by_group": dict(counts.by_group),
    }


def line_fields(line: Line) -> dict[str, Any]:
    return {
        "publication": dated_publication(line.publication),
        "page_block": line.block or None,
        "how": line.how.value,
        "how_words": HOW_WORDS[line.how],
        "number": number_of(line.number),
        "own_section": line.own or None,
        "subject": line.subject,
        "headings": list(line.headings),
        "pages": [{"pdf_page": page.pdf_page, "printed_page": page.printed_page} for page in line.pages],
        "evidence": evidence_fields(line.evidence),
        "also_read_as": [number_of(number) for number in line.also_read],
        "standings": [standing_fields(standing) for standing in line.standings],
        "currency": list(line.currency),
        "current": current_fields(line.current),
        "applies": applies_fields(line.applies),
        "ties": [tie.fields() for tie in line.ties],
        "refers_to": [_mention(mention) for mention in line.refers_to],
        "referred_from": [_mention(mention) for mention in line.referred_from],
        "passages": [
            {"passage": each.passage_id, "pdf_page": each.pdf_page, "heading": each.heading}
            for each in line.passages
        ],
        **line_read(line),
        "why_here": line.wider,
        "holds_words": line.holds_words,
    }


def line_read(line: Line) -> dict[str, Any]:
    """Whether OCR read any of a line's passages, and what it was not certain of."""
    doubts = doubts_of(line.read)
    return {
        "read_by_ocr": bool(line.read),
        "doubtful": list(doubts),
        "cannot_tell": doubt_words(doubts) or None,
    }


def dated_publication(record: PublicationRecord) -> dict[str, Any]:
    return {**publication_fields(record), "date": record.date.isoformat() if record.date else None}


def _mention(mention: Mention) -> dict[str, Any]:
    return {
        "words": mention.words,
        "kind": mention.kind,
        "state": mention.state.value,
        "publication": mention.other or None,
        "pdf_page": mention.pdf_page,
        "here": mention.here,
        "reason": mention.reason,
        "read_by_ocr": mention.read_by_ocr,
    }
