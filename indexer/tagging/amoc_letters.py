"""What an AMOC letter approves: the directive's paragraph, and the document to be used instead.

The letter holds only for the directive, aircraft and holder it names (14 CFR 39.19); its claims raise
nothing.
"""

import re
from collections.abc import Iterator, Sequence

from indexer.reading.page import Page
from indexer.tagging.cited_documents import CitedDocument, find_cited_documents, parts_named
from indexer.tagging.flow import Flow, body_flow
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.approval_vocabulary import NEGATION
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import find_revisions
from indexer.trade.sentences import sentence_spans

_APPROVES = re.compile(
    r"\b(?:we|FAA|office|hereby)\s+(?:hereby\s+)?approves?\b|\b(?:is|are)\s+approved\s+as\s+an?\s+(?:AMOC|alternative)",
    re.IGNORECASE,
)
_PARAGRAPH = re.compile(r"\bparagraphs?\s+(?P<paragraph>\([a-z]{1,2}\)(?:\(\d+\))*)", re.IGNORECASE)


def amoc_claims(pages: Sequence[Page]) -> tuple[Claim, ...]:
    """ALTERNATIVE for what the approving sentence names, MENTIONS for the other documents of the letter."""
    flow = body_flow(pages)
    cited = find_cited_documents(flow.plain)
    approving = [span for span in sentence_spans(flow.plain) if _approves(flow.plain[slice(*span)])]
    claims: dict[tuple[ClaimKind, str, str], Claim] = {}
    for start, end in approving:
        for claim in _approved(flow, start, end, cited):
            claims.setdefault((claim.kind, claim.document, claim.revision), claim)
    for each in cited:
        known = any(
            (ClaimKind.ALTERNATIVE, each.number, revision) in claims for revision in (each.revision, "")
        )
        if not known:
            evidence = flow.evidence(each.start, each.end, "document named in AMOC letter")
            claim = Claim(
                ClaimKind.MENTIONS,
                each.number,
                evidence,
                each.type,
                each.revision,
                each.date,
                each.paragraphs,
            )
            claims.setdefault((claim.kind, claim.document, claim.revision), claim)
    return tuple(claims.values())


def _approves(sentence: str) -> bool:
    return bool(_APPROVES.search(sentence)) and not NEGATION.search(sentence)


def _approved(flow: Flow, start: int, end: int, cited: Sequence[CitedDocument]) -> Iterator[Claim]:
    """The directive and the documents of one approving sentence; a bare "Revision C" is that of a document
    named before."""
    sentence = flow.plain[start:end]
    evidence = flow.evidence(start, end, "AMOC letter approves")
    inside = [each for each in cited if start <= each.start < end]
    named = {mark.mark for mark in find_revisions(sentence)}
    earlier = [each for each in cited if each.end <= start and each.revision and each.revision in named]
    paragraphs = tuple(found["paragraph"] for found in _PARAGRAPH.finditer(sentence))
    for each in (*inside, *earlier):
        directive = each.type is Type.AIRWORTHINESS_DIRECTIVE
        parts = paragraphs if directive else each.paragraphs or parts_named(sentence)
        yield Claim(ClaimKind.ALTERNATIVE, each.number, evidence, each.type, each.revision, each.date, parts)
