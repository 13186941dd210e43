"""Data standing that words alone give, apart from where they stand. How far they reach: standing_scope.py.

Only words that grant approval give APPROVED. What denies, delays, asks, quotes or speaks of another document
gives nothing. Where a text both grants and denies, nothing can be told.
"""

import re
from dataclasses import dataclass

from indexer.tagging.flow import plain
from indexer.tagging.tags import StandingValue
from indexer.trade.approval_words import ApprovalKind, ApprovalWords, find_approval_words
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.publication_types import parse_type


@dataclass(frozen=True, slots=True)
class WordsStanding:
    """A standing and the words that give it, as printed; "" when no words do. `conditions`: what must also
    be true."""

    value: StandingValue
    quote: str = ""
    conditions: tuple[str, ...] = ()


DESIGNEE_CONDITION = "Approved by a designee: only within the designee's authority and for the data it names."
FOREIGN_CONDITION = (
    "Approved by a foreign authority or design organization: its FAA standing depends on the bilateral "
    "agreement or a note on the type certificate data sheet."
)
CONFLICT_CONDITION = "The words both grant and deny approval: read the page."
PARTIAL_CONDITION = "The approval printed here excludes a part: read which."

# Papers that speak of approvals in general: words in them never approve the paper itself as data for work.
NEVER_APPROVED_BY_WORDS = frozenset(
    {
        Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK,
        Type.REGULATION, Type.ACCIDENT_REPORT, Type.CODE_TABLE,
        Type.PROPOSED_DIRECTIVE, Type.AIRWORTHINESS_DIRECTIVE, Type.AIRWORTHINESS_BULLETIN, Type.AMOC_LETTER,
        Type.RELEASE_CERTIFICATE, Type.PARTS_APPROVAL,
        Type.REPAIR_ALTERATION_RECORD, Type.ENGINEERING_APPROVAL,
        Type.PROCESS_SPECIFICATION,
    }
)  # fmt: skip
_NOT_A_RULE = re.compile(
    r"[^.]*\b(?:not\s+(?:in\s+itself\s+)?mandatory|nor\s+is\s+it\s+(?:mandatory|regulatory)|does\s+not\s+constitute\s+a\s+regulation)\b[^.]*\.?",
    re.IGNORECASE,
)
_CIRCULAR_SPEAKS_OF_ITSELF = re.compile(
    r"\b(?:this|these)\s+(?:advisory\s+circular|AC|material|guidance|document|information)\b|\ball\s+advisory\s+material\b",
    re.IGNORECASE,
)


def standing_in(text: str, publication_type: Type | str | None = None) -> WordsStanding:
    """The standing that these words alone give; UNDETERMINED when they say nothing of it.

    publication_type  a PublicationType, any of its names, or None; a name that is no type counts as None. The
    type can only take away: in a circular, an order or a report no words approve anything.
    """
    kind = parse_type(publication_type) if isinstance(publication_type, str) else publication_type
    words = find_approval_words(text)
    standing = _weighed(words, kind)
    if standing.value is StandingValue.UNDETERMINED and kind in (None, Type.ADVISORY_CIRCULAR):
        return information_words(text) or standing
    return standing


def information_words(text: str) -> WordsStanding | None:
    """INFORMATION where a circular says of itself that it is not mandatory or no regulation; None without
    the words."""
    found = _NOT_A_RULE.search(plain(text))
    if found and _CIRCULAR_SPEAKS_OF_ITSELF.search(found[0]):
        return WordsStanding(
            StandingValue.INFORMATION, text[found.start() : found.end()].strip('"\u201c\u201d \n')
        )
    return None


def value_of(words: ApprovalWords, kind: Type | None) -> WordsStanding:
    """The standing that one stamp, sentence or notice gives."""
    quote = words.quote
    if words.kind is ApprovalKind.BLOCKS:
        return WordsStanding(StandingValue.BLOCKED, quote)
    if kind in NEVER_APPROVED_BY_WORDS:
        return WordsStanding(StandingValue.UNDETERMINED)
    if words.kind.grants:
        conditions = (DESIGNEE_CONDITION,) if words.kind is ApprovalKind.DESIGNEE else ()
        return WordsStanding(StandingValue.APPROVED, quote, conditions)
    if words.kind in (ApprovalKind.ACCEPTED, ApprovalKind.NOT_REQUIRED) or _accepted_without_name(words):
        return WordsStanding(StandingValue.ACCEPTABLE, quote)
    if words.kind is ApprovalKind.FOREIGN:
        return WordsStanding(StandingValue.UNDETERMINED, quote, (FOREIGN_CONDITION,))
    if words.kind is ApprovalKind.PARTIAL:
        return WordsStanding(StandingValue.UNDETERMINED, quote, (PARTIAL_CONDITION,))
    return WordsStanding(StandingValue.UNDETERMINED)


def _accepted_without_name(words: ApprovalWords) -> bool:
    """ "FAA accepted" by itself: a stamp needs a name or date to approve, but acceptance raises nothing."""
    return (
        words.kind is ApprovalKind.BARE_STAMP
        and re.search(r"\baccepted\b", words.quote, re.IGNORECASE) is not None
    )


def _weighed(words: list[ApprovalWords], kind: Type | None) -> WordsStanding:
    """A notice that forbids use outweighs all; a grant counts only where nothing beside it denies."""
    blocks = next((one for one in words if one.kind is ApprovalKind.BLOCKS), None)
    if blocks:
        return value_of(blocks, kind)
    standings = [value_of(one, kind) for one in words]
    granted = next((one for one in standings if one.value is StandingValue.APPROVED), None)
    denied = any(one.kind in (ApprovalKind.NEGATED, ApprovalKind.PARTIAL) for one in words)
    if granted and denied:
        return WordsStanding(StandingValue.UNDETERMINED, granted.quote, (CONFLICT_CONDITION,))
    if granted:
        return granted
    said = [one for one in standings if one.quote]
    return said[0] if said else WordsStanding(StandingValue.UNDETERMINED)
