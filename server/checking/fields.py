"""A finding as plain data for JSON. Pure."""

from collections.abc import Mapping
from typing import Any

from indexer.trade.chapters import ChapterNumber
from server.checking.findings import (
    Candidate,
    DirectiveFinding,
    Enough,
    Resolved,
    SourceFinding,
    StandingFinding,
)
from server.ocr_words import READ_THE_PAGE, doubt_words


def finding_fields(finding: SourceFinding) -> dict[str, Any]:
    """One citation with all that was found of it. Absent values are "" and None, as in the records."""
    citation = finding.citation
    return {
        "text": citation.text,
        "start": citation.start,
        "end": citation.end,
        "kind": citation.kind.value,
        "type": citation.type.value if citation.type else None,
        "number": citation.number,
        "revision": citation.revision,
        "date": citation.date.isoformat() if citation.date else None,
        "chapter_number": chapter_fields(citation.chapter_number),
        "page": citation.page,
        "figure": citation.figure,
        "paragraph": citation.paragraph,
        "item": citation.item,
        "resolved": _resolved(finding.resolved),
        "candidates": [_candidate(each) for each in finding.candidates],
        "current": {
            "state": finding.current.state.value,
            "why": finding.current.why,
            "review_due": finding.current.check.review_due.isoformat() if finding.current.check else None,
        },
        "applies": {
            "answer": finding.applies.value,
            "why": finding.applies.why,
            "quote": finding.applies.quote,
        },
        "standing": _standing(finding.standing),
        "read_by_ocr": bool(finding.read.label),
        "doubtful": list(finding.read.doubts),
        "cannot_tell": _cannot_tell(finding),
        "directives": [_directive(each) for each in finding.directives],
        "directives_note": finding.directives_note,
        "enough": enough_fields(finding.enough),
        "ask": list(finding.ask),
        "missing": list(finding.missing),
        "notes": list(finding.notes),
        "wording": finding.wording,
    }


def _cannot_tell(finding: SourceFinding) -> str | None:
    """Why nobody may go by the text that was read; None for born-digital text."""
    if not finding.read.label:
        return None
    return doubt_words(finding.read.doubts) or READ_THE_PAGE


def chapter_fields(number: ChapterNumber | None) -> dict[str, str] | None:
    return {"text": str(number), "scheme": number.scheme.value} if number else None


def enough_fields(answers: Mapping[str, Enough]) -> dict[str, dict[str, str]]:
    return {work: {"answer": each.answer.value, "why": each.why} for work, each in answers.items()}


def _resolved(resolved: Resolved | None) -> dict[str, Any] | None:
    if resolved is None:
        return None
    return {
        "publication": resolved.publication,
        "name": resolved.name,
        "revision": resolved.revision,
        "pdf_pages": list(resolved.pdf_pages),
        "passages": list(resolved.passages),
    }


def _candidate(candidate: Candidate) -> dict[str, str]:
    return {
        "publication": candidate.publication,
        "name": candidate.name,
        "revision": candidate.revision,
        "why": candidate.why,
    }


def _standing(standing: StandingFinding) -> dict[str, Any]:
    return {
        "value": standing.value,
        "usual": standing.usual,
        "scope": standing.scope,
        "basis": standing.basis,
        "quote": standing.quote,
        "pdf_page": standing.pdf_page,
        "source": standing.source,
        "conditions": list(standing.conditions),
        "mandatory": standing.mandatory,
    }


def _directive(directive: DirectiveFinding) -> dict[str, Any]:
    return {
        "number": directive.number,
        "publication": directive.publication,
        "level": directive.level,
        "status": directive.status,
        "quote": directive.quote,
        "pdf_page": directive.pdf_page,
        "note": directive.note,
        "reaches": directive.reaches.value,
        "says": directive.says,
    }
