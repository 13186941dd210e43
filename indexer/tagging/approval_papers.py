"""Certificates and approval forms: what they say of themselves, and what a person must read on them.

14 CFR 21.41: the data sheet is part of the type certificate. The wordings are the forms' own (from memory). A
certificate approves a design with its limits, and is no procedure for work. On a form the mark in a box or a
signature decides, and neither can be read from its text.
"""

import re
from collections.abc import Sequence

from indexer.reading.page import Page, Passage
from indexer.tagging.flow import body_flow
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.approval_vocabulary import NEGATION
from indexer.trade.evidence import Evidence
from indexer.trade.publication_types import PublicationType as Type

DATA_SHEET_CONDITION = "Limits of the type design of the models that it lists: not a procedure for work."
SUPPLEMENTAL_CONDITION = (
    "The change of design it describes, for the make, model and serial it lists, with the holder's "
    "permission; the data for the work are those it names."
)
_REQUIREMENTS = (
    r"meets\s+the\s+airworthiness\s+requirements\s+of\s+(?:the\s+)?(?:parts?\s+[0-9]+[^.]{0,20}\s+of\s+the\s+)?"
    r"(?:Federal\s+Aviation|Civil\s+Air)\s+Regulations\b"
)
_OF_ITSELF = {
    Type.TYPE_CERTIFICATE_DATA_SHEET: re.compile(
        r"\bthis\s+data\s+sheet,?\s+which\s+is\s+(?:a\s+)?part\s+of\s+type\s+certificate\s+no\.?\s*[A-Z0-9-]+,?\s+prescribes\s+"
        rf"conditions\s+and\s+limitations\s+under\s+which\s+the\s+product\s[^.]{{0,80}}?\s{_REQUIREMENTS}",
        re.IGNORECASE,
    ),
    Type.SUPPLEMENTAL_TYPE_CERTIFICATE: re.compile(
        r"\bthis\s+certificate,?\s+issued\s+to\s+[^.]{1,80}?,?\s+certifies\s+that\s+the\s+change\s+in\s+the\s+type\s+design\s+"
        rf"for\s+the\s+following\s+product\s[^.]{{0,120}}?\s{_REQUIREMENTS}",
        re.IGNORECASE,
    ),
}
_CONDITIONS = {
    Type.TYPE_CERTIFICATE_DATA_SHEET: DATA_SHEET_CONDITION,
    Type.SUPPLEMENTAL_TYPE_CERTIFICATE: SUPPLEMENTAL_CONDITION,
}
# 14 CFR 39.19 for the letter; for the forms common practice, no source.
_TO_BE_READ = {
    Type.ENGINEERING_APPROVAL: (
        "Approves only where the box for approving is marked, not where it recommends approval.",
        "Only for the data, purpose and aircraft that it lists; it approves no installation.",
    ),
    Type.REPAIR_ALTERATION_RECORD: (
        "A record: approves data only where item 3 is signed by the FAA, and then for that one aircraft.",
        "Else look at the data that item 8 cites.",
    ),
    Type.AMOC_LETTER: (
        "For the directive, aircraft and holder that it names only.",
        "Tell the principal inspector or the flight standards office before you use it.",
    ),
}
_FIRST_PAGES = 2
_SAMPLE = re.compile(
    r"\b(?:sample|specimen|example|void|cancel+ed|surrendered|revoked|draft)\b", re.IGNORECASE
)


def to_be_read(kind: Type | None) -> tuple[str, ...]:
    """What decides the standing of a form or letter and must be read on it; () for other publications."""
    return _TO_BE_READ.get(kind, ()) if kind else ()


def certificate_standings(
    kind: Type | None, pages: Sequence[Page], passages: Sequence[Passage], usual: StandingValue
) -> dict[int, Standing]:
    """Per passage ordinal, where the certificate says whole what its form says; {} otherwise, and for a copy
    that is marked as a sample, surrendered, revoked or a draft on its first pages."""
    if kind not in _OF_ITSELF:
        return {}
    flow = body_flow(pages[:_FIRST_PAGES])
    said = _OF_ITSELF[kind].search(flow.plain)
    if said is None or NEGATION.search(said[0]) or _marked(pages[:_FIRST_PAGES]):
        return {}
    evidence: Evidence = flow.evidence(*said.span(), "certificate's own words")
    standing = Standing(StandingValue.APPROVED, usual, evidence, "document", conditions=(_CONDITIONS[kind],))
    return {passage.ordinal: standing for passage in passages}


def _marked(pages: Sequence[Page]) -> bool:
    return any(
        _SAMPLE.search(line.text)
        for page in pages
        for line in (*page.head, *page.body, *page.foot)
        if len(line.text.split()) <= 6
    )
