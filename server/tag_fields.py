"""Tags as plain data for JSON: the same fields wherever a passage or a publication is handed out. Pure."""

import datetime
from collections.abc import Sequence
from enum import Enum
from typing import Any

from indexer.tagging.tags import Identity, Standing
from indexer.trade.applies import ApplicabilityAnswer
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Box, Evidence, PageBox, Tag


def box_fields(box: Box) -> dict[str, float]:
    """Points, origin at the page's top left."""
    return {"x0": box.x0, "top": box.top, "x1": box.x1, "bottom": box.bottom}


def page_box_fields(place: PageBox) -> dict[str, Any]:
    return {"pdf_page": place.pdf_page, **box_fields(place.box)}


def evidence_fields(evidence: Evidence | None) -> dict[str, Any] | None:
    """Why a tag is believed; None when nothing was found that gives a value."""
    if evidence is None:
        return None
    return {
        "basis": evidence.basis.value,
        "rule": evidence.rule,
        "quote": evidence.quote,
        "pdf_page": evidence.pdf_page,
        "box": box_fields(evidence.box) if evidence.box else None,
        "source": evidence.source,
        "origin": evidence.origin.value,
        "confidence": evidence.confidence,
    }


def plain(value: Any) -> Any:
    """A tag's value as it stands in JSON."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, ChapterNumber):
        return {"text": str(value), "scheme": value.scheme.value}
    return value.isoformat() if isinstance(value, datetime.date) else value


def tag_fields(tag: Tag | None) -> dict[str, Any] | None:
    """A value, its evidence, and every reading that disagrees with it, best first."""
    if tag is None:
        return None
    return {
        "value": plain(tag.value),
        "evidence": evidence_fields(tag.evidence),
        "others": [tag_fields(other) for other in tag.others],
    }


def number_fields(numbers: Sequence[Tag[ChapterNumber]]) -> dict[str, str] | None:
    """The number a passage is filed under; None = not numbered."""
    if not numbers:
        return None
    first = numbers[0]
    return {
        "text": str(first.value),
        "scheme": first.value.scheme.value,
        "basis": first.evidence.basis.value,
    }


def standing_fields(standing: Standing) -> dict[str, Any]:
    """What the quoted words make of the passage, apart from what its type usually is."""
    evidence = standing.evidence
    return {
        "value": standing.value.value,
        "usual": standing.usual.value,
        "basis": evidence.basis.value if evidence else None,
        "quote": standing.quote,
        "pdf_page": evidence.pdf_page if evidence else None,
        "conditions": list(standing.conditions),
    }


def applies_fields(answer: ApplicabilityAnswer | None) -> dict[str, str] | None:
    """Whether it reaches the aircraft in hand; None when none is."""
    return answer and {"answer": answer.value, "why": answer.why, "quote": answer.quote}


def long_tags(
    numbers: Sequence[Tag[ChapterNumber]], page_block: Tag[str] | None, standing: Standing
) -> dict[str, Any]:
    """All tags of one passage with their evidence; the first few as in a search hit."""
    return {
        "number": number_fields(numbers),
        "numbers": [
            {**number_fields([tag]), "others": [plain(other.value) for other in tag.others]}
            for tag in numbers
        ],
        "page_block": page_block.value if page_block else None,
        "standing": {
            **standing_fields(standing),
            "scope": standing.scope,
            "mandatory": standing.mandatory,
        },
        "evidence": {
            "numbers": [evidence_fields(tag.evidence) for tag in numbers],
            "page_block": evidence_fields(page_block.evidence) if page_block else None,
            "standing": evidence_fields(standing.evidence),
        },
    }


def identity_fields(identity: Identity) -> dict[str, Any]:
    """What a publication says of itself."""
    return {
        "type": tag_fields(identity.type),
        "number": tag_fields(identity.number),
        "title": tag_fields(identity.title),
        "maker": tag_fields(identity.maker),
        "models": [tag_fields(model) for model in identity.models],
        "revision": tag_fields(identity.revision),
        "date": tag_fields(identity.date),
    }
