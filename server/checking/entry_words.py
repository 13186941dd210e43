"""Words about life limits and about approvals that are only recommended. Pure; common practice, no source."""

import re
from collections.abc import Sequence

from indexer.tagging.entry_fact_records import EntryFacts, FactKind
from indexer.tagging.tags import Citation
from indexer.trade.publication_types import PublicationType as Type

_LIFE = re.compile(
    r"\b(?:retirement[ ](?:life|time)|life[ -]?limit(?:s|ed)?|airworthiness[ ]limitations?"
    r"|exten(?:d|ds|ded|sion)[ ](?:the[ ]|of[ ]|of[ ]the[ ])?(?:\w+[ ]){0,2}(?:life|retirement|limit)"
    r"|life[ ](?:was[ ]|is[ ])?extended)\b",
    re.IGNORECASE,
)
_COMPLIES = re.compile(
    r"\b(?:PCW|C/W|complied[ ]with|in[ ]compliance[ ]with|(?:to|does|which)[ ](?:comply|complies)[ ]with"
    r"|(?:satisfies|accomplish(?:ed|es)|terminat(?:es|ed|ing)|met)[ ](?:the[ ]|action[ ](?:of|for)[ ])?A\.?D"
    r"|A\.?D[ ]compliance)\b",
    re.IGNORECASE,
)
_RECOMMENDS = re.compile(r"\brecommend(?:s|ed|ing)?\s+(?:the\s+)?approval\b", re.IGNORECASE)


def speaks_of_life_limit(entry: str, said: EntryFacts) -> str:
    """The words that speak of an airworthiness limitation or a life limit; "" without them."""
    fact, match = said.says(FactKind.LIFE_LIMIT), _LIFE.search(entry)
    return fact.text if fact else match[0] if match else ""


def recommends_approval(quote: str, said: EntryFacts) -> str:
    """Words by which an approval is recommended and not given; "" without them."""
    fact, match = said.says(FactKind.RECOMMENDS_APPROVAL), _RECOMMENDS.search(quote)
    return match[0] if match else fact.text if fact else ""


def speaks_of_compliance(entry: str, said: EntryFacts, citations: Sequence[Citation]) -> bool:
    """Whether the entry names a directive and says that it was complied with, now or before."""
    if not any(each.type is Type.AIRWORTHINESS_DIRECTIVE and each.number for each in citations):
        return False
    told = any(
        "complied with" in fact.value and not fact.denied for fact in said.of_kind(FactKind.DIRECTIVE_WORDS)
    )
    return told or _COMPLIES.search(entry) is not None


def says_repaired_before(said: EntryFacts) -> str:
    """The words that say the place was repaired before, "" without them or where the entry denies it."""
    fact = said.says(FactKind.REPAIRED_BEFORE)
    return fact.text if fact else ""


def pressurized_area(said: EntryFacts) -> str:
    """The words that put the work in a pressurized area; "" without them."""
    facts = said.of_kind(FactKind.PRESSURIZED)
    return next((fact.text for fact in facts if fact.value == "pressurized" and not fact.denied), "")


def outside_limits(said: EntryFacts) -> str:
    """The words that say damage is outside the printed limits; "" without them."""
    facts = said.of_kind(FactKind.LIMITS)
    return next((fact.text for fact in facts if fact.value == "outside" or fact.denied), "")
