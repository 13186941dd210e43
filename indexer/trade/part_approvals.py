"""Approvals of a part or article, which are no data for the work: PMA, TSO, release tags, standard parts.

Source: 14 CFR 21.9(a)(2) and (a)(3); the rest common practice, no source. Pure.
"""

import re
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.publication_types import PublicationType as Type


class PartApprovalKind(StrEnum):
    """What was approved, or whose status is stated: always an article, never a job."""

    PMA = "parts manufacturer approval"
    TSO = "technical standard order authorization"
    ARTICLE = "part or article approval"  # a paper of which the words do not tell PMA from TSO
    RELEASE = "release certificate"
    STANDARD_PART = "standard part"


@dataclass(frozen=True, slots=True)
class PartApproval:
    """text[start:end] == quote; for a publication known by its type alone "", 0 and 0."""

    kind: PartApprovalKind
    quote: str = ""
    start: int = 0
    end: int = 0

    @property
    def sentence(self) -> str:
        """What it approves and what it does not, for a person."""
        return _SENTENCES[self.kind]

    @property
    def source(self) -> str:
        """The rule or practice the sentence rests on."""
        return _SOURCES[self.kind]


NO_DATA = "approves the article, no data for the work"
_ASK = "Cite the data for the repair, alteration or installation as well."
_SENTENCES = {
    PartApprovalKind.PMA: (
        "A parts manufacturer approval makes the part eligible for the models it lists. It "
        f"{NO_DATA}: neither a repair nor an alteration is approved by it. {_ASK}"
    ),
    PartApprovalKind.TSO: (
        "A TSO authorization says that the article meets a standard. It "
        f"{NO_DATA}: fitting it to this aircraft needs its own approval or acceptance. {_ASK}"
    ),
    PartApprovalKind.ARTICLE: f"A part or article approval {NO_DATA}. {_ASK}",
    PartApprovalKind.RELEASE: (
        "A release certificate states what condition the article was in when it was released. At most it "
        f"{NO_DATA}: it is no data for fitting it. {_ASK}"
    ),
    PartApprovalKind.STANDARD_PART: (
        "A standard part may be used where the type design or other data call for it. Its standard "
        f"describes the article and gives no data for the work. {_ASK}"
    ),
}
_SOURCES = {
    PartApprovalKind.PMA: "14 CFR 21.9(a)(2)",
    PartApprovalKind.TSO: "14 CFR 21.9(a)(2)",
    PartApprovalKind.ARTICLE: "14 CFR 21.9(a)(2)",
    PartApprovalKind.RELEASE: "common practice, no source",
    PartApprovalKind.STANDARD_PART: "14 CFR 21.9(a)(3)",
}
_OF_TYPE = {
    Type.PARTS_APPROVAL: PartApprovalKind.ARTICLE,
    Type.RELEASE_CERTIFICATE: PartApprovalKind.RELEASE,
}
# "TSO" alone is as often time since overhaul: only a standard's number or the authorization's name counts.
_WORDS = (
    (
        PartApprovalKind.PMA,
        r"\bFAA[\s/-]{0,2}PMA\b(?:\s(?:No\.?\s)?PQ[A-Z0-9-]+)?|\bparts\smanufacturer\sapprovals?\b"
        r"|\bPMA['\u2019]?d?\b(?:\s(?:parts?|approved|no\.?|supplement)\b)?",
    ),
    (
        PartApprovalKind.TSO,
        r"\b(?:FAA[\s-])?[JE]?TSO[\s-]?C-?[0-9]{1,3}[a-z]?\b(?:[\s-](?:A[0-9]|approv\w+|authoriz\w+))?"
        r"|\b(?:TSO|technical\sstandard\sorder)[\s-](?:authoriz\w+|approv\w+|article)|\bTSOA\b",
    ),
    (
        PartApprovalKind.RELEASE,
        r"\b(?:FAA\s)?(?:form\s)?8130-?\s?3\b(?:\s(?:tag|form))?|\bauthorized\srelease\scertificates?\b"
        r"|\bairworthiness\sapproval\stags?\b|\b(?:EASA|TCCA|CAA)\sform\s(?:1|one)\b|\bserviceable\stags?\b"
        r"|\byellow\stags?\b",
    ),
    (
        PartApprovalKind.STANDARD_PART,
        r"\bstandard\sparts?\b(?!\smanual)|\b(?:AN|MS|NAS|NASM)[0-9]{3,5}(?:-[0-9A-Z]+)*(?![0-9])"
        r"|\bAN[0-9]{1,2}H?-[0-9]+[A-Z]?\b",
    ),
)
_ANY = re.compile("|".join(f"(?P<{kind.name}>{pattern})" for kind, pattern in _WORDS), re.IGNORECASE)


def part_approval_of_type(kind: Type | None) -> PartApproval | None:
    """For publications that approve an article or state its status and hold no work data; None for others."""
    found = _OF_TYPE.get(kind) if kind else None
    return PartApproval(found) if found else None


def find_part_approvals(text: str) -> list[PartApproval]:
    """Every part approval that a text names, in order of place; "TSO 540 hrs" is a time and none."""
    return [
        PartApproval(PartApprovalKind[match.lastgroup], match[0], *match.span())
        for match in _ANY.finditer(text)
        if match.lastgroup
    ]
