"""A source check as the page shows it, from the answer as it was kept, never from today's library. Pure."""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.library.records import PublicationRecord
from indexer.trade.publication_types import type_row
from server.routes.addresses import check_address
from server.routes.finding_view import FindingView, finding_view, lead_words
from server.words import count_of, numbered

WORKS = (
    ("", "Not said", "minor and major are both answered, and a directive where the entry complies with one"),
    ("minor", "Minor repair, alteration or servicing", ""),
    ("major", "Major repair or alteration", ""),
    ("directive", "Work for a directive", ""),
    ("inspection", "Inspection", ""),
)


@dataclass(frozen=True, slots=True)
class CheckView:
    """`parts`: the entry's text in pieces; a piece with a number is the reference of that finding, else 0."""

    id: int
    at: datetime.datetime
    text: str
    parts: tuple[tuple[str, int], ...]
    aircraft: str
    work: str
    state: str
    findings: tuple[FindingView, ...]
    cautions: tuple[str, ...]
    reminders: tuple[str, ...]
    facts: tuple[str, ...]
    notes: tuple[str, ...]
    again: str  # address of the form with the same entry


def check_view(answer: Mapping[str, Any]) -> CheckView:
    """The view of one answer, given as its JSON fields."""
    citations = answer["citations"]
    text = answer["text"]
    spans = _spans(text, citations)
    return CheckView(
        answer["id"],
        datetime.datetime.fromisoformat(answer["at"]),
        text,
        _parts(text, spans),
        answer["aircraft"] or "",
        work_words(answer["work"] or ""),
        state_words(answer["library_state"]),
        tuple(finding_view(place, each, answer) for place, each in enumerate(citations, start=1)),
        tuple(answer["cautions"]),
        tuple(answer["reminders"]),
        tuple(answer["facts"]),
        tuple(answer["notes"]),
        check_address(text, answer["aircraft"] or "", answer["work"] or ""),
    )


def work_words(work: str) -> str:
    return next((words for value, words, _ in WORKS if value == work), work)


def state_words(state: Mapping[str, Any]) -> str:
    """ "Library state 14, last changed 4 March 2031, 14:05, with 26 publications"."""
    changed = datetime.datetime.fromisoformat(state["changed_at"]).astimezone()
    return (
        f"Library state {state['generation']}, last changed {changed.day} {changed:%B %Y, %H:%M}, "
        f"with {count_of(state['publications'], 'publication')}"
        f"{'. ' + state['demonstration'].removesuffix('.') if state.get('demonstration') else ''}"
    )


def reference_address(record: PublicationRecord, number: str, printed_page: str) -> str:
    """The form with a reference to one page in it, as a record would name it."""
    label = type_row(record.type).short or record.type.label if record.type else record.title
    name = numbered(record.type, record.number) if record.number else ", ".join(record.models[:3])
    parts = [name if record.number and name != record.number else f"{label} {name}".strip()]
    parts += [f"Rev {record.revision}" if record.revision else ""]
    parts += [number, f"pg {printed_page}" if printed_page else ""]
    return check_address(f"IAW {', '.join(part for part in parts if part)}")


def summary_words(answer: Mapping[str, Any]) -> str:
    """What a list of checks says of one: "2 references: Approved data; Not determined"."""
    leads = [lead_words(each) for each in answer["citations"]]
    if not leads:
        return "No reference to a document was found."
    return f"{count_of(len(leads), 'reference')}: {'; '.join(leads)}"


def _spans(text: str, citations: Sequence[Mapping[str, Any]]) -> list[tuple[int, int, int]]:
    """(start, end, place) of each reference in the text, in order, none within another."""
    spans, taken = [], 0
    for place, each in enumerate(citations, start=1):
        start = each["start"]
        if start >= taken:
            spans.append((start, each["end"], place))
            taken = each["end"]
    return spans


def _parts(text: str, spans: Sequence[tuple[int, int, int]]) -> tuple[tuple[str, int], ...]:
    parts, at = [], 0
    for start, end, place in spans:
        parts += [(text[at:start], 0), (text[start:end], place)]
        at = end
    return tuple(part for part in (*parts, (text[at:], 0)) if part[0])
