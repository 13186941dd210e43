"""What can be said of papers that are not held here, or are named by their form alone. Pure."""

import re
from collections.abc import Sequence

from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.circular_conditions import circular_conditions, circulars_that_may_be_meant
from indexer.trade.part_approvals import PartApproval, PartApprovalKind, find_part_approvals
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.publication_types import type_row

_PARTS = {
    PartApprovalKind.PMA: Type.PARTS_APPROVAL,
    PartApprovalKind.TSO: Type.PARTS_APPROVAL,
    PartApprovalKind.ARTICLE: Type.PARTS_APPROVAL,
    PartApprovalKind.RELEASE: Type.RELEASE_CERTIFICATE,
}
_FORMS = (
    (Type.ENGINEERING_APPROVAL, r"\b(?:FAA[ ]+)?(?:Form[ ]+)?(?:8110-3|8100-9)\b"),
    (
        Type.REPAIR_ALTERATION_RECORD,
        r"\b(?:FAA[ ]+)?Form[ ]+337s?\b|\bfield[ ]approval\b|\b337[ ](?:dated|of)\b",
    ),
    (
        Type.AIRWORTHINESS_BULLETIN,
        r"\bSAIB[ ]+(?:No\.?[ ]*)?(?P<number>[A-Z]{0,2}-?[0-9]{2,4}-[0-9]{2,3}(?:R[0-9])?)",
    ),
    (Type.AMOC_LETTER, r"\bAMOC\b"),
)
_VAGUE = re.compile(
    r"\b(?:IAW|I/A/W|per|in[ ]accordance[ ]with|ref(?:er(?:ence)?)?\.?(?:[ ]to)?)[ ]+(?:the[ ]+)?(?P<words>"
    r"(?:manufacturer|mfg|mfr|maker|factory|OEM)['\u2019]?s?[ ]+(?:\w+[ "
    r"]+){0,2}?(?:instructions?|manuals?|data|specs?|recommendations?|procedures?)"
    r"|(?:approved|acceptable|current)[ ]+(?:\w+[ ]+){0,1}?data|standard[ ]practices?|best[ ]practices?"
    r"|(?:appropriate|applicable)[ ]+(?:\w+[ ]+){0,2}?(?:manuals?|data|instructions?))\b",
    re.IGNORECASE,
)


def papers_named(text: str, known: Sequence[Citation]) -> list[Citation]:
    """References that are named by their form or by no document at all, outside those already known."""
    taken = [(each.start, each.end) for each in known]
    found: list[Citation] = []

    def add(start: int, end: int, kind: Type | None, number: str = "") -> None:
        if all(end <= first or start >= last for first, last in taken):
            taken.append((start, end))
            found.append(
                Citation(CitationKind.DOCUMENT, text[start:end], start, end, type=kind, number=number)
            )

    for kind, pattern in _FORMS:
        for match in re.finditer(pattern, text, re.IGNORECASE):
            add(*match.span(), kind, match.groupdict().get("number") or "")
    for part in find_part_approvals(text):
        if part.kind in _PARTS:
            add(part.start, part.end, _PARTS[part.kind])
    for match in _VAGUE.finditer(text):
        add(*match.span("words"), None)
    return sorted(found, key=lambda each: each.start)


def part_approval_named(citation: Citation) -> PartApproval | None:
    """The part approval that a reference names, whether or not a paper about it is held here."""
    if citation.type not in (Type.PARTS_APPROVAL, Type.RELEASE_CERTIFICATE):
        return None
    found = find_part_approvals(citation.text)
    return found[0] if found else None


def is_vague(citation: Citation) -> bool:
    """Whether it names no document at all."""
    return citation.type is None and not citation.number and citation.chapter_number is None


def usual_words(citation: Citation) -> str:
    """What papers of this kind usually are; "" when the words do not say the kind."""
    if citation.type is None:
        return ""
    row = type_row(citation.type)
    usual = "" if row.usual_standing == "undetermined" else f"usually {row.usual_standing}. "
    note = f"{row.standing_note.rstrip('.')}." if row.standing_note else ""
    return f"{row.title}: {usual}{note}".strip() if usual or note else ""


def circular_words(citation: Citation) -> tuple[str, ...]:
    """The conditions of a circular that may serve as approved data, also where it is not held here."""
    if citation.type is not Type.ADVISORY_CIRCULAR:
        return ()
    one = circular_conditions(citation.number)
    if one is not None:
        return (*one.conditions, one.minor, f"Source: {one.source}.")
    several = circulars_that_may_be_meant(citation.number)
    return (
        (f"The number is cut short: it may mean {' or '.join(f'AC {each.number}' for each in several)}.",)
        if several
        else ()
    )
